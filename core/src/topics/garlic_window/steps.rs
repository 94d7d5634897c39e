//! What comes after planting, with the usual dates.
//!
//! Mulch 3 to 4 in after planting, and planting depth: University of Minnesota Extension. Feeding
//! when growth resumes in spring: New Mexico State University guide H-234; tops grow above 40 °F:
//! Dawling 2016. In the ground about eight months: Cornell University; 232 days in New Hampshire,
//! 2016. Longer where spring comes late: 105 days after growth resumes, which gives the July of
//! cold winters (derived). Scapes a month before harvest and the end of feeding two before: common
//! practice.

use chrono::{Duration, NaiveDate};

use crate::catalogue::garlic::Kind;
use crate::quantity::System;

/// A step and its usual day.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Step {
    /// The usual day.
    pub on: NaiveDate,
    /// What to do.
    pub what: String,
}

/// When garlic is in the ground, and when it grows.
#[derive(Clone, Copy, Debug)]
pub struct Season {
    /// The day it is planted.
    pub planted: NaiveDate,
    /// The best day of the window, by which the harvest goes: days lengthen for late cloves too.
    pub best: NaiveDate,
    /// The day the soil warms through 40 °F, if it was below; `None` also where that isn't known.
    pub growth_resumes: Option<NaiveDate>,
    /// Whether the ground freezes.
    pub freezes: bool,
}

impl Season {
    /// The usual day of harvest.
    pub fn harvest(&self) -> NaiveDate {
        let months =
            Duration::days(if self.freezes && self.growth_resumes.is_none() { 270 } else { 240 });
        let by_spring = self.growth_resumes.map(|resumes| resumes + Duration::days(105));
        // Planted in spring it takes four months (common practice).
        let in_spring = self.planted + Duration::days(120);
        (self.best + months).max(in_spring).max(by_spring.unwrap_or(in_spring))
    }
}

/// The steps, in order, with depths in this system.
pub fn after_planting(kind: Kind, season: &Season, system: System) -> Vec<Step> {
    let Season { planted, growth_resumes, .. } = *season;
    let harvest = season.harvest();
    let before_harvest = |days: i64| harvest - Duration::days(days);
    // Where the soil never gets so cold, growth hardly stops; feed when days lengthen.
    let feed = growth_resumes
        .unwrap_or_else(|| before_harvest(110))
        .clamp(planted + Duration::days(14), before_harvest(60));
    let (deep, mulch) = match system {
        System::Us => ("2 to 3 in", "3 to 4 in"),
        System::Metric => ("5 to 8 cm", "8 to 10 cm"),
    };
    let step = |on: NaiveDate, what: &str| Step { on, what: what.to_owned() };
    let mut steps = vec![
        step(
            planted,
            &format!(
                "Break the bulbs into cloves, leave the skins on, and set the largest {deep} deep, points up."
            ),
        ),
        step(planted + Duration::days(7), &format!("Mulch {mulch} deep with straw or leaves.")),
        step(feed, "Growth resumes: feed with nitrogen, pull the mulch back where it mats."),
        step(before_harvest(60), "Stop feeding: bulbs begin to form."),
    ];
    if kind == Kind::Hardneck {
        steps.push(step(before_harvest(30), "Cut the scapes once they curl."));
    }
    steps.extend([
        step(
            before_harvest(14),
            "Stop watering when 3 or 4 lower leaves are brown.",
        ),
        step(
            harvest,
            "Lift when 5 lower leaves are dead, dry in shade, and set the best bulbs aside for planting.",
        ),
    ]);
    steps
}

#[cfg(test)]
mod tests {
    use super::*;

    fn date(year: i32, month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(year, month, day).unwrap()
    }

    fn season(planted: NaiveDate, growth_resumes: Option<NaiveDate>) -> Season {
        Season { planted, best: date(2026, 10, 13), growth_resumes, freezes: true }
    }

    #[test]
    fn the_steps_stand_in_order_for_both_kinds() {
        for planted in [date(2026, 10, 13), date(2027, 1, 5), date(2027, 4, 6)] {
            for growth in [Some(date(2027, 4, 18)), None, Some(date(2026, 3, 1))] {
                for (kind, count) in [(Kind::Hardneck, 7), (Kind::Softneck, 6)] {
                    let steps = after_planting(kind, &season(planted, growth), System::Us);
                    assert_eq!(steps.len(), count);
                    assert!(steps.windows(2).all(|pair| pair[0].on <= pair[1].on), "{steps:?}");
                }
            }
        }
    }

    #[test]
    fn a_cold_spring_puts_the_harvest_off_and_a_late_planting_hardly() {
        let usual = season(date(2026, 10, 13), Some(date(2027, 4, 18)));
        assert_eq!(usual.harvest(), date(2027, 8, 1));
        assert_eq!(season(date(2026, 12, 20), Some(date(2027, 4, 18))).harvest(), usual.harvest());
        let mild = Season { freezes: false, growth_resumes: None, ..usual };
        assert_eq!(mild.harvest(), date(2027, 6, 10));
    }
}
