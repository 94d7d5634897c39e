//! The typed part of the answer.

use chrono::NaiveDate;

use crate::given::words;

words! {
    /// What to do.
    pub enum Verdict {
        /// Leave it alone and look again.
        Wait = "wait",
        /// Take what is usable now.
        PickNow = "pick-now",
        /// Cut off what is dead.
        CutBack = "cut-back",
        /// It does not come back.
        Gone = "gone",
    }
}

/// What to do after a frost.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// What to do.
    pub verdict: Verdict,
    /// When to look again.
    pub look_again: NaiveDate,
    /// What the harm tells of the low among the leaves; null where it tells nothing, or where two crops of
    /// one night tell against each other.
    pub low_between_c: Option<Between>,
    /// The low that was told does not fit what was seen.
    pub low_clashes: bool,
}

/// Between two temperatures.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Between {
    /// Not below this, °C,
    pub from: f64,
    /// nor above this.
    pub to: f64,
}
