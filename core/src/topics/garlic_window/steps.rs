//! What comes after planting, with the usual dates.
//!
//! Mulch 3 to 4 in after planting, and planting depth: University of Minnesota Extension. Feeding
//! when growth resumes in spring: New Mexico State University guide H-234; tops grow above 40 °F:
//! Dawling 2016. Lifted by day length and heat ([`garlic_lifted`](crate::season::garlic_lifted)) and at
//! 5 or 6 green leaves (a vegetable grower's notes from Nova Scotia, 2019) or 5 dead ones (Kansas State
//! University), which come to the same. Scapes a month before that and the end of feeding two before:
//! common practice.

use chrono::{Duration, NaiveDate};

use crate::catalogue::garlic::Kind;
use crate::quantity::System;
use crate::time::Range;

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
    /// The day the soil warms through 40 °F, if it was below; `None` also where that isn't known.
    pub growth_resumes: Option<NaiveDate>,
    /// When it is lifted; `None` where it never gets warmth enough.
    pub lifted: Option<Range>,
}

/// When it is lifted where nothing but a first frost is known of the place: nine months after planting, or
/// four where it is planted in spring, and three weeks either way (common practice).
pub fn lifted_by_rule(planted: NaiveDate, best: NaiveDate) -> Range {
    let likely = (best + Duration::days(270)).max(planted + Duration::days(120));
    let either_way = Duration::days(21);
    Range {
        early: Some(likely - either_way),
        likely: Some(likely),
        late: Some(likely + either_way),
    }
}

/// The steps, in order, with depths in this system.
pub fn after_planting(kind: Kind, season: &Season, system: System) -> Vec<Step> {
    let Season { planted, growth_resumes, lifted } = *season;
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
    ];
    let Some((harvest, look)) = lifted.and_then(|lifted| lifted.likely.zip(lifted.early)) else {
        return steps;
    };
    let before_harvest = |days: i64| harvest - Duration::days(days);
    // Where the soil never gets so cold, growth hardly stops; feed when days lengthen.
    let feed = growth_resumes
        .unwrap_or_else(|| before_harvest(110))
        .clamp(planted + Duration::days(14), before_harvest(60));
    steps.extend([
        step(feed, "Growth resumes: feed with nitrogen, pull the mulch back where it mats."),
        step(before_harvest(60), "Stop feeding: bulbs begin to form."),
    ]);
    if kind == Kind::Hardneck {
        steps.push(step(before_harvest(30), "Cut the scapes once they curl."));
    }
    steps.extend([
        step(
            before_harvest(14).min(look),
            "Stop watering when 3 or 4 lower leaves are brown.",
        ),
        step(
            look,
            "Look at it from now on: lift at about 5 green leaves, dry in shade, and set the best bulbs aside for \
             planting.",
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

    #[test]
    fn the_steps_stand_in_order_for_both_kinds() {
        for planted in [date(2026, 10, 13), date(2027, 1, 5), date(2027, 4, 6)] {
            for growth_resumes in [Some(date(2027, 4, 18)), None, Some(date(2026, 3, 1))] {
                for (kind, count) in [(Kind::Hardneck, 7), (Kind::Softneck, 6)] {
                    let lifted = Some(lifted_by_rule(planted, date(2026, 10, 13)));
                    let season = Season { planted, growth_resumes, lifted };
                    let steps = after_planting(kind, &season, System::Us);
                    assert_eq!(steps.len(), count);
                    assert!(steps.windows(2).all(|pair| pair[0].on <= pair[1].on), "{steps:?}");
                    let unlifted = Season { lifted: None, ..season };
                    assert_eq!(after_planting(kind, &unlifted, System::Us).len(), 2);
                }
            }
        }
    }

    #[test]
    fn by_rule_it_is_lifted_in_july_and_planted_in_spring_four_months_later() {
        let best = date(2026, 10, 13);
        assert_eq!(lifted_by_rule(best, best).likely, Some(date(2027, 7, 10)));
        assert_eq!(lifted_by_rule(date(2027, 4, 6), best).likely, Some(date(2027, 8, 4)));
    }
}
