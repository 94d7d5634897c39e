//! The typed numbers of the answer.

use chrono::NaiveDate;

use crate::{starts::age::Verdict, time::Range};

/// A tray's true age.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Its age as weeks in a warm house (65 °F).
    pub like_weeks_warm: f64,
    /// What its roots, else its leaves, else its age say, and whether it can go out; null where nothing tells.
    pub verdict: Option<Verdict>,
    /// From when it can be planted: old enough, frost past, and in time to crop; null where the place is not
    /// known or no day of the coming year suits.
    pub plant_from: Option<NaiveDate>,
    /// The day on which it becomes too old, standing as warm as now; early and late if it stands 5 °F warmer or
    /// colder. Null where no age is known for the crop.
    pub limit: Option<Range>,
    /// The day on which it is at its best no longer, likewise.
    pub best_until: Option<Range>,
    /// The same age limit as weeks in a warm house.
    pub limit_weeks: Option<f64>,
    /// From here to there, as weeks in a warm house, it is at its best for planting.
    pub best_weeks: Option<[f64; 2]>,
}
