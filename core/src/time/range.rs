//! A date that is known only within limits.

use chrono::NaiveDate;

/// An early, a likely and a late date; each `None` where it can't be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Range {
    /// Hardly earlier than this.
    pub early: Option<NaiveDate>,
    /// Most likely this.
    pub likely: Option<NaiveDate>,
    /// Hardly later than this.
    pub late: Option<NaiveDate>,
}
