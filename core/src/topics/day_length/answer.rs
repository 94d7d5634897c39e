//! The typed numbers of the answer.

use chrono::NaiveDate;

/// The length of a day.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// From sunrise to sunset, hours.
    pub day_h: f64,
    /// The season of days under ten hours that holds the date or follows it; none near the equator.
    pub under_ten_hours: Option<Season>,
}

/// A season by its first and last day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Season {
    /// The first day.
    pub from: NaiveDate,
    /// The last day.
    pub to: NaiveDate,
}
