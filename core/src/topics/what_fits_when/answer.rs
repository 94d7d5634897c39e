//! The typed numbers of the answer.

use chrono::NaiveDate;

use crate::{given::words, time::Range};

words! {
    /// How it goes in.
    pub enum How {
        /// As seed, a tuber or a set.
        Sow = "sow" => "sow",
        /// As a plant raised elsewhere.
        SetOut = "set-out" => "set out",
    }
}

words! {
    /// Whether to.
    pub enum Verdict {
        /// It crops seven years in ten or more.
        Yes = "yes" => "yes",
        /// It crops four to seven years in ten.
        Gamble = "gamble" => "a gamble",
    }
}

/// What can go in.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The crops, fewest days left first; those without a last day come last, soonest picked first.
    pub can: Vec<Can>,
    /// How many crops of the catalogue are not told of, as how much warmth they need is not known.
    pub not_known: u32,
}

/// One crop that can go in.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Can {
    /// The crop's catalogue id.
    pub crop: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// How it goes in.
    pub how: How,
    /// Whether to.
    pub verdict: Verdict,
    /// The last day on which it can go in; null where any day of the year will do.
    pub last_day: Option<NaiveDate>,
    /// The first picking.
    pub picked: Range,
    /// The chance that frost spares it through its picking, 0 to 1.
    pub alive: f64,
    /// Whether it is still there when growth goes on after winter.
    pub stands_through_winter: bool,
    /// The year until which its family had better stand elsewhere, where it stood in this bed lately;
    /// else null.
    pub rests_until: Option<i32>,
    /// All of it in a sentence.
    pub told: String,
}
