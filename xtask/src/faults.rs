//! What outlives a browser that is killed at random, and what is made of input spoilt at random.

use crate::command::{self, Outcome};
use crate::test;

/// How often, and by which draw.
#[derive(clap::Args)]
pub(crate) struct Options {
    /// How many times Chromium is killed [default: 40, and none with --fuzz].
    #[arg(long)]
    kills: Option<u64>,
    /// How many quantities, questions, files and lines of storage are spoilt.
    #[arg(long, value_name = "TRIES")]
    fuzz: Option<u64>,
    /// What the moments and faults are drawn from: the same ones for the same seed.
    #[arg(long, default_value_t = 1)]
    seed: u64,
}

/// Kills, starts again, and fails where something is gone that was said to be written; spoils input, and
/// fails where it is neither taken nor refused.
pub(crate) fn run(options: &Options) -> Outcome {
    let seed = ("PEGLINE_SEED", options.seed.to_string());
    if let Some(tries) = options.fuzz {
        command::run(
            command::cargo()
                .args(["test", "--test", "fuzz", "as_many", "--", "--ignored", "--nocapture"])
                .env("PEGLINE_FUZZ", tries.to_string())
                .env(seed.0, &seed.1),
            "Something was neither taken nor refused: put what is printed into FOUND of tests/fuzz.rs",
        )?;
    }
    let kills = options.kills.unwrap_or(if options.fuzz.is_some() { 0 } else { 40 });
    if kills == 0 {
        return Ok(());
    }
    let given = [("PEGLINE_KILLS", kills.to_string()), seed];
    test::journeys("faults::random", &["--ignored", "--nocapture"], &given)
}
