//! The typed numbers of the answer.

use chrono::NaiveDate;

use super::course::Verdict;
use crate::time::Range;

/// When it comes up, and what to do.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// When it comes up; null where this soil brings it up in no foreseeable time.
    pub expected: Option<Range>,
    /// The share of good fresh seed that comes up.
    pub share_expected: f64,
    /// What to do.
    pub verdict: Verdict,
    /// After this, sowing again is wiser than waiting; null where it can't be told.
    pub resow_after: Option<NaiveDate>,
}
