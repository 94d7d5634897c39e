//! The kept texts of answers and screens.

use crate::command::{self, Outcome};

/// Keeps anew what comes out now; the tests that hold it do the writing.
pub(crate) fn run() -> Outcome {
    command::run(
        // All that knows the garden, so that core is not built with other features for this.
        command::cargo().args(["test", "--test", "golden"]).env("PEGLINE_RENEW_GOLDEN", "yes"),
        "A golden test failed",
    )?;
    println!("tests/golden is kept anew; `git diff tests/golden` shows what changed.");
    Ok(())
}
