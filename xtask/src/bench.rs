//! Layouts held against a general solver, and answers timed: natively and in a slowed browser.

use clap::ValueEnum;

use crate::command::{self, Outcome};
use crate::{setup, test};

/// How many beds with one crop and with several have their optima recorded, and where.
const RECORDED: [&str; 4] = ["record", "300", "200", "tests/optima.txt"];

/// What to measure.
#[derive(clap::Args)]
pub(crate) struct Options {
    /// Parts to run [default: all].
    parts: Vec<Part>,
    /// Write anew what the solver proves on random beds, for the tests; takes an hour or so.
    #[arg(long, conflicts_with = "parts")]
    record: bool,
}

/// One kind of measurement.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Part {
    /// Counts and times against HiGHS, which is built in minutes the first time.
    Solver,
    /// Times of a crop's course.
    Season,
    /// Times of opening, of a letter and at the page's own door, in Chromium four times slower than this
    /// machine; a first visit by weak signal.
    Browser,
}

/// Measures, and fails where a layout is worse than the solver's or an answer is late.
pub(crate) fn run(options: &Options) -> Outcome {
    if options.record {
        return solver(&RECORDED);
    }
    for &part in Part::value_variants() {
        if options.parts.is_empty() || options.parts.contains(&part) {
            match part {
                Part::Solver => solver(&[])?,
                Part::Season => season()?,
                Part::Browser => test::journeys(
                    "speed::",
                    &["--ignored", "--nocapture", "--test-threads=1"],
                    &[],
                )?,
            }
        }
    }
    Ok(())
}

fn season() -> Outcome {
    command::run(
        command::cargo()
            .args(["run", "--profile", "measured", "--package", "pegline-core"])
            .args(["--example", "season_time"]),
        "The times of the season were not taken",
    )
}

fn solver(arguments: &[&str]) -> Outcome {
    setup::for_the_solver()?;
    command::run(
        command::cargo()
            .args(["run", "--profile", "measured", "--package", "pegline-bench"])
            .args(["--features", "solver", "--"])
            .args(arguments),
        "A layout is not what the solver says, or the solver did not run",
    )
}
