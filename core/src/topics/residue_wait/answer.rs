//! The answer's own fields.

use chrono::NaiveDate;
use serde::Serialize;

use super::{fits_now::FitsNow, limits::Limit, stops::Stop, way_round::What};
use crate::time::Range;

/// When the bed can be planted, and what decides it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// What can be done instead of waiting; null where waiting is best, or over.
    pub way_round: Option<WayRound>,
    /// Every way that applies, the easiest first.
    pub ways: Vec<WayRound>,
    /// Why the crop asked for must not go in here at all; null where nothing forbids it.
    pub stop: Option<Stop>,
    /// From when it can be planted by waiting alone; null where something forbids it. A null date never
    /// comes by waiting.
    pub plant_from: Option<Range>,
    /// Which limit is past last; null where nothing is waited for.
    pub limit: Option<Limit>,
    /// Every limit with its own range: the day it was laid where there is nothing to wait for, null
    /// where nothing is known.
    pub limits: Vec<LimitRange>,
    /// Nitrogen held and given back.
    pub nitrogen: Nitrogen,
    /// Day by day from the day it was laid, on the likely clock.
    pub curve: Vec<Point>,
    /// Days since it was laid.
    pub day: i64,
    /// Days from laying to planting by waiting alone; null where that never comes.
    pub of_about: Option<i64>,
    /// The area that weights are for, m2.
    pub area_m2: f64,
    /// Dry matter laid, kg/m2.
    pub dry_matter_kg_per_m2: f64,
    /// Carbon to nitrogen of the mixture; null where nothing laid rots as plants do.
    pub carbon_to_nitrogen: Option<Ratio>,
    /// How much faster it rots than thought, by what was seen; 1 before anyone has looked.
    pub faster_by: f64,
    /// How far the rate may be off either way, as a factor, by what was seen.
    pub rate_spread: f64,
    /// When it has settled: only stems and midribs can still be recognised.
    pub settles: Range,
    /// The days from which it can be planted, in words: what the row of days shows.
    pub days_told: String,
    /// What the curve shows, in words.
    pub curve_told: String,
    /// What can go in today.
    pub fits_now: Vec<FitsIn>,
    /// What must not stay in the bed, and what to do instead.
    pub stops: Vec<String>,
    /// The two parts compared.
    pub parts: Vec<Part>,
    /// Which part is ahead; null unless both were looked at.
    pub ahead: Option<Ahead>,
    /// The same in words.
    pub ahead_told: Option<String>,
}

/// A way round the wait.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WayRound {
    /// What is done.
    pub what: What,
    /// From when the bed can be planted then, likely; null if never.
    pub from: Option<NaiveDate>,
    /// The same as a range.
    pub plant_from: Range,
    /// What is done, in words.
    pub does: String,
    /// What it changes, in words.
    pub changes: String,
}

impl WayRound {
    /// From when, in words: "today", "about 9 Dec".
    pub fn when(&self, today: NaiveDate) -> Option<String> {
        let from = self.from?;
        Some(if from <= today {
            "today".to_owned()
        } else {
            format!("about {}", crate::text::day(from, Some(today)))
        })
    }
}

/// A limit and its range.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LimitRange {
    /// The limit.
    pub limit: Limit,
    /// When it is past.
    pub range: Option<Range>,
    /// The same in words.
    pub told: String,
}

/// Nitrogen held and given back.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Nitrogen {
    /// The lowest point of the curve, g/m2: below zero as much as is held at most, zero if nothing is.
    pub low_point_g_per_m2: f64,
    /// The day of that; null where nothing is held, or not within two years.
    pub low_point_on: Option<NaiveDate>,
    /// The day on which as much has been given back; null where nothing is held, or not within two
    /// years.
    pub back_on: Option<NaiveDate>,
    /// Available nitrogen to add now so as not to wait, g/m2; zero where none is needed.
    pub to_add_now_g_per_m2: f64,
    /// The curve above this does the next crop no harm, g/m2.
    pub safe_above_g_per_m2: f64,
    /// The same as products, for the whole area.
    pub products: Vec<ProductAmount>,
}

/// A product and its weight.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ProductAmount {
    /// The product's id.
    pub product: &'static str,
    /// Its plain name.
    pub name: &'static str,
    /// To give now on the whole area, g; never more than is safe beside seed.
    pub g: f64,
    /// To give two or three weeks later, g.
    pub later_g: f64,
    /// Both in words.
    pub told: String,
    /// What to mind.
    pub caution: Option<&'static str>,
}

/// A day of the curve.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Point {
    /// The day.
    pub date: NaiveDate,
    /// Share of the residue's carbon not yet decayed.
    pub carbon_left: f64,
    /// Nitrogen set free since it was laid, g/m2; below zero it is held.
    pub mineral_n_g_per_m2: f64,
}

/// Carbon to nitrogen with its ends.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Ratio {
    /// The lowest reasonable.
    pub low: f64,
    /// The likely one.
    pub likely: f64,
    /// The highest reasonable.
    pub high: f64,
}

/// What can go in, and how.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FitsIn {
    /// What.
    pub what: FitsNow,
    /// How.
    pub how: String,
}

/// A part of the bed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Part {
    /// What it is called.
    pub name: String,
    /// From when it can be planted by waiting alone.
    pub plant_from: Range,
    /// Which limit is past last.
    pub limit: Option<Limit>,
    /// The same in words.
    pub told: String,
}

/// Which part is ahead.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Ahead {
    /// The part that has come further.
    pub part: String,
    /// By how many days.
    pub days: f64,
    /// Standard deviation of the days.
    pub sd_days: f64,
    /// Whether so small a difference comes about by chance in more than one case in ten.
    pub could_be_chance: bool,
}
