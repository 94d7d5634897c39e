//! What outlives a browser that is killed at random.

use crate::command::Outcome;
use crate::test;

/// How often, and by which draw.
#[derive(clap::Args)]
pub(crate) struct Options {
    /// How many times Chromium is killed.
    #[arg(long, default_value_t = 40)]
    kills: u64,
    /// What the moments are drawn from: the same ones for the same seed.
    #[arg(long, default_value_t = 1)]
    seed: u64,
}

/// Kills, starts again, and fails where something is gone that was said to be written.
pub(crate) fn run(options: &Options) -> Outcome {
    let given =
        [("PEGLINE_KILLS", options.kills.to_string()), ("PEGLINE_SEED", options.seed.to_string())];
    test::journeys("faults::random", &["--ignored", "--nocapture"], &given)
}
