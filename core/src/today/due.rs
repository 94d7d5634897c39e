//! Something to decide or do, as it is told.

use chrono::NaiveDate;

use crate::{asking::Topic, given::words};

/// Something to decide or do.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Due {
    /// What to do, as a short sentence.
    pub what: String,
    /// The bed's id; null where it is about none.
    pub bed: Option<String>,
    /// The tray's id; null where it is about none.
    pub start: Option<String>,
    /// The planting's id; null where it is about none, or about several of the bed.
    pub planting: Option<String>,
    /// The day by which it should be done; before today, it is overdue.
    pub by: NaiveDate,
    /// The same in words.
    pub by_told: String,
    /// Why, in a line.
    pub why: String,
    /// The question that tells more of it, with the bed, tray or planting filled in; `today` where none does.
    pub topic: Topic,
    /// How it can be written down as done without a question; null where it can't.
    pub tick: Option<Tick>,
    /// The entry of the note, where the gardener noted it; null otherwise.
    pub note: Option<String>,
}

words! {
    /// What a tick writes down.
    pub enum Tick {
        /// The note is done.
        AheadDone = "ahead-done",
        /// The tray had its day outdoors as asked.
        Outdoors = "outdoors",
        /// The cover is off.
        CoversOff = "covers-off",
    }
}

impl Tick {
    /// What its button says.
    pub fn told(self) -> &'static str {
        match self {
            Self::AheadDone => "Done",
            Self::Outdoors => "Done as asked",
            Self::CoversOff => "It is off",
        }
    }
}
