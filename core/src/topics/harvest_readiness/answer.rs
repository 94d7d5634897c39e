//! The typed numbers of the answer.

use uom::si::thermodynamic_temperature::degree_celsius;

use super::{support::HeatTold, words};
use crate::{
    harvest::{cues::Keep, stage::Stage},
    quantity::System,
    time::Range,
};

/// How far along it is.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The stage; null after a stop, where signs exclude each other, or where no sign was told.
    pub stage: Option<Stage>,
    /// The stages still possible, in order; empty after a stop.
    pub allowed: Vec<Stage>,
    /// How many of the samples are at each stage; null where no samples were given.
    pub tally: Option<TallyTold>,
    /// What decided: ids of signs, names of measures, `days-from-flower`, `days` or `heat`.
    pub decisive: Vec<&'static str>,
    /// Two signs that exclude each other.
    pub clash: Option<[&'static str; 2]>,
    /// When to look again; null where nothing is left to look at, or today is not given.
    pub look_again: Option<Range>,
    /// How long what is at its prime stays there; null unless the stage is prime, and while short days
    /// let leaves stand still.
    pub best_until: Option<Range>,
    /// Whether some will be past its prime on the day of the next visit; null where none was given.
    pub late_by_next_visit: Option<bool>,
    /// What it is good for at this stage.
    pub good_for: Vec<&'static str>,
    /// How it keeps after picking.
    pub keeps: Vec<Keeps>,
    /// The heat it had since sowing; null where no sum is published, or day or place is not known.
    pub heat: Option<HeatTold>,
    /// What the trade would call it, by its measures; null where it has no name for them.
    pub trade_grade: Option<&'static str>,
    /// What to do about the signs that end the question.
    pub stops: Vec<&'static str>,
}

/// How many are at each stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub struct TallyTold {
    /// Not ready.
    pub not_yet: u32,
    /// At its best.
    pub prime: u32,
    /// Getting worse.
    pub going: u32,
    /// Past it.
    pub past: u32,
}

/// How long it keeps after picking, and in what air.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Keeps {
    /// Which kind or state; null where there is one.
    pub kind: Option<&'static str>,
    /// The coolest air for it, °C.
    pub from_c: f64,
    /// The warmest air for it, °C.
    pub to_c: f64,
    /// The driest and the moistest air for it, percent relative humidity.
    pub humidity_percent: [u8; 2],
    /// The fewest and the most days it keeps.
    pub days: [u16; 2],
    /// All of it in a sentence.
    pub words: String,
}

impl Keeps {
    pub(super) fn of(keep: &Keep, system: System) -> Self {
        let [from, to] = keep.air().map(|air| (air.get::<degree_celsius>() * 10.0).round() / 10.0);
        // Turning 32 F into degrees Celsius may leave a minus on nothing.
        let plain = |degrees: f64| if degrees == 0.0 { 0.0 } else { degrees };
        Self {
            kind: keep.kind(),
            from_c: plain(from),
            to_c: plain(to),
            humidity_percent: keep.humidity_percent(),
            days: keep.days(),
            words: words::keep_words(keep, system),
        }
    }
}
