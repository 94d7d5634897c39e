//! The typed numbers of the answer.

use chrono::NaiveDate;

use super::{
    chill::Verdict,
    steps::Step,
    window::{Now, Winter},
};
use crate::{catalogue::garlic::Kind, time::Range};

/// When, where and how much.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The window for planting; null where the soil's year has no place for one.
    pub window: Option<WindowDates>,
    /// The kind of winter it is drawn for.
    pub winter: Option<Winter>,
    /// When the soil usually freezes; null where it doesn't, or where it isn't known.
    pub freeze_up: Option<NaiveDate>,
    /// Weeks of the usual year with soil at 2 in at or below 50 °F; null where it isn't known.
    pub chill_weeks: Option<f64>,
    /// Whether the winter's cold will split the bulb into cloves; of hardneck where the kind was not said.
    pub chill: Verdict,
    /// When to begin chilling the seed; null where it isn't needed.
    pub prechill_from: Option<NaiveDate>,
    /// The kind asked about, or both where it was not said.
    pub kinds: Vec<OfKind>,
    /// When it is lifted, planted as told here, or since it grows there; null where that isn't known.
    pub lift: Option<Range>,
    /// How today stands to the window.
    pub now: Option<Now>,
    /// How many cloves the bed takes; null without a bed.
    pub cloves: Option<u32>,
    /// What they weigh, kg.
    pub seed_kg: Option<f64>,
    /// What they weigh where cloves are large and where they are small, kg; null where it was said
    /// how many weigh a kilogram.
    pub seed_between_kg: Option<[f64; 2]>,
    /// How many of the best bulbs to keep back at harvest for as many cloves.
    pub bulbs_to_keep: Option<u32>,
    /// The beds of the record, the best for garlic first, those that are out last.
    pub beds: Vec<BedChoice>,
    /// What comes after planting, with the usual dates.
    pub steps: Vec<Step>,
}

/// What one kind of garlic asks for here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct OfKind {
    /// The kind.
    pub kind: Kind,
    /// Whether the winter's cold will split its bulb into cloves.
    pub chill: Verdict,
    /// When to begin chilling its seed; null where it isn't needed, or too late.
    pub prechill_from: Option<NaiveDate>,
    /// The best day to plant it from today on; null where there is none.
    pub plant: Option<NaiveDate>,
}

/// The window's three dates.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WindowDates {
    /// When it opens.
    pub opens: Range,
    /// The best time.
    pub best: Range,
    /// When it closes, softly.
    pub closes: Range,
}

/// A bed of the record as a place for garlic.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BedChoice {
    /// Its id.
    pub bed: String,
    /// Its name.
    pub name: String,
    /// Why it is out; null where it isn't.
    pub out: Option<String>,
}
