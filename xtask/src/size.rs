//! What the phone has to fetch.

use crate::command::{self, Outcome};
use crate::dist;

/// What to do with the figures.
#[derive(clap::Args, Default)]
pub(crate) struct Options {
    /// Keep today's figures as those to compare with.
    #[arg(long)]
    record: bool,
}

/// Builds the app, weighs it and holds it against the budget.
pub(crate) fn run(options: &Options) -> Outcome {
    dist::run()?;
    let budget = command::project().join("xtask").join("size-budget.toml");
    let mut weigh = dist::bindgen()?;
    weigh.arg("weigh").arg(dist::folder()).arg(&budget);
    if options.record {
        weigh.arg("--record");
    }
    command::run(&mut weigh, "Make the app smaller, or raise xtask/size-budget.toml with a reason")
}
