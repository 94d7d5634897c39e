//! Answers held against longer published lists than the tests carry.

use std::fs;
use std::path::PathBuf;

use crate::command::{self, Outcome};

/// What to hold them against.
#[derive(clap::Args)]
pub(crate) struct Options {
    /// Planting calendars, a line a crop and place, as in tests/published/data/calendars.jsonl.
    #[arg(long, value_name = "FILE")]
    calendars: PathBuf,
}

/// Prints how many of the list's days come out as published; nothing is held.
pub(crate) fn run(options: &Options) -> Outcome {
    let file = fs::canonicalize(&options.calendars)
        .map_err(|error| format!("{} can't be read: {error}.", options.calendars.display()))?;
    command::run(
        command::cargo()
            .args(["test", "--package", "pegline-tests", "--test", "published", "a_longer_list"])
            .args(["--", "--ignored", "--nocapture"])
            .env("PEGLINE_CALENDARS", file),
        "The list could not be run",
    )
}
