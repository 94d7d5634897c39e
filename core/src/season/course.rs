//! What a date comes to.

use chrono::NaiveDate;

use crate::{
    quantity::{Temperature, Time},
    time::Range,
};

/// Whether to start that day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It crops seven years in ten or more.
    Yes,
    /// It crops four to seven years in ten.
    Gamble,
    /// Better later.
    TooEarly,
    /// Better earlier.
    TooLate,
}

/// The first reason why not, with the figure it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reason {
    /// Few come up in soil so cold, or too slowly.
    TooColdToComeUp {
        /// The soil at the depth of seed that day.
        soil: Temperature,
        /// From which it comes up well.
        limit: Temperature,
    },
    /// Few come up in soil so hot.
    TooHotToComeUp {
        /// The soil at the depth of seed that day.
        soil: Temperature,
        /// Up to which it comes up well.
        limit: Temperature,
    },
    /// The soil is too cold to set it out.
    SoilCold {
        /// The soil at the roots that day.
        soil: Temperature,
        /// From which it is set out.
        limit: Temperature,
    },
    /// Set out, it would not grow for want of warmth or light.
    StandsStill,
    /// A night kills it before it has cropped.
    Killed {
        /// How likely it lives through its picking, 0 to 1.
        alive: f64,
    },
    /// The days in which it sets and fills are too hot.
    TooHot {
        /// Their mean over day and night.
        mean: Temperature,
        /// The most that it crops well in.
        limit: Temperature,
    },
    /// It shoots up to flower before it can be picked.
    Bolts {
        /// After days longer than this.
        days: Time,
    },
    /// It is not ready in any useful time.
    NeverThere,
}

impl Reason {
    /// Whether heat is in the way, not cold.
    #[must_use]
    pub fn is_heat(self) -> bool {
        matches!(self, Self::TooHotToComeUp { .. } | Self::TooHot { .. } | Self::Bolts { .. })
    }
}

/// A crop's course from a date. Ranges are by a year 1.1 °C warmer and the quickest kinds, the usual
/// year and usual kinds, a year 1.1 °C colder and the slowest kinds: one year in ten lies beyond either
/// end (derived from nine daily series, 66 crop-dates).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    /// The day it is started.
    pub started: NaiveDate,
    /// When sown plants are up; the day itself for what is set out.
    pub up: Range,
    /// The first picking; late is `None` where slow kinds in a cold year are not ready in any useful time.
    pub first: Range,
    /// The last day of picking by frost, heat or bolting; `None` where none of them ends it within 13
    /// months of the start. How long a ripe head keeps in the bed is not told here.
    pub end: Option<NaiveDate>,
    /// How likely it is alive at the likely first picking, 0 to 1.
    pub alive_at_first: f64,
    /// How likely the quickest kinds are alive through the picking: three weeks of it for what bears
    /// on, one for what is taken at once. 0 to 1.
    pub alive: f64,
    /// The first and the last day before picking on which it stands still: under 12 % of a good day's
    /// growth.
    pub still: Option<(NaiveDate, NaiveDate)>,
    /// Whether it is still there, as likely as not, when growth goes on after winter: grown to seven
    /// parts in ten before it stood still, or of a kind that goes on from small. False where the coldest days
    /// are over 10 °C.
    pub stands_winter: bool,
    /// The first reason why not; `None` if there is none but the chance of being killed.
    pub reason: Option<Reason>,
    /// What it comes to.
    pub verdict: Verdict,
}
