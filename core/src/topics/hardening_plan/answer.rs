//! The typed numbers of the answer.

use chrono::NaiveDate;
use uom::si::time::hour;

use super::words;
use super::words::Found;
use crate::{
    quantity::{Time, tenths},
    starts::cold_so_far::ColdNights,
    starts::{course::Day, hardening::Night},
    time::Range,
};

/// The way to the bed.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Each day to come until it is used to outdoors.
    pub days: Vec<PlanDay>,
    /// When it can be planted. Early: if every day goes well; likely: with days lost to weather; late: its age
    /// limit, where that comes after. Null where the days known never let it get there.
    pub plant_out: Option<Range>,
    /// The day on which it becomes too old, standing as warm as it was raised; null where that is not known.
    pub age_limit: Option<NaiveDate>,
    /// Whether it becomes too old before it can be planted.
    pub clash: bool,
    /// Cold so far.
    pub cold_nights: ColdNights,
    /// Days of the way that are behind it.
    pub days_behind: u32,
    /// Days of the way in all.
    pub days_in_all: u32,
}

/// A day of the plan.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PlanDay {
    /// The day.
    pub date: NaiveDate,
    /// Hours outdoors; 0 on a day in.
    pub hours_out: f64,
    /// How much light, in words.
    pub light: String,
    /// Where the night after is spent.
    pub night: Night,
    /// How to water, in words.
    pub water: String,
    /// Why it is not as the schedule has it; null where it is.
    pub why: Option<String>,
    /// All of it in one sentence.
    pub told: String,
}

pub(super) fn numbers(found: Found<'_>, daylight: &dyn Fn(NaiveDate) -> Time) -> Answer {
    let total = found.plan.days.len();
    let day = |(index, day): (usize, &Day)| PlanDay {
        date: day.date,
        hours_out: day
            .step
            .map_or(0.0, |step| tenths(step.out.time(daylight(day.date)).get::<hour>())),
        light: words::light(day, found.way).to_owned(),
        night: day.night,
        water: words::water(&found, day, index + 1 == total).to_owned(),
        why: day.why.map(|why| words::why(why).to_owned()),
        told: crate::text::capital(&words::day_words(day, found.way)),
    };
    Answer {
        days: found.plan.days.iter().enumerate().map(day).collect(),
        plant_out: found.window.map(|window| window.range),
        age_limit: found.age_limit,
        clash: found.window.is_some_and(|window| window.clashes),
        days_behind: found.plan.now.light,
        days_in_all: found.plan.of,
        cold_nights: found.cold_nights,
    }
}
