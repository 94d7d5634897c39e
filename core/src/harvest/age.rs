//! What a crop's age says about its stage: days from planting, days from the flower, heat.
//!
//! Support only. Heat units explained snap-bean harvests poorly from one planting to the next
//! (Oregon State University, Vegetable Digest XVIII(3), 1969: 800 to 1,160 Fahrenheit-days at one
//! place, 18 % either side of the middle), seed sellers count "days to maturity" from different
//! starts, and a checked plant is old while it is small. So an age is a weak sign: it chooses within
//! what the eye and the hand leave and never overrules them. One case is stronger: a winter squash
//! younger than its seeds need to fill is not ripe, whatever its size and colour (C. Goossen).
//!
//! The widths used here are derived: 15 % either side of a published sum or span, more where
//! published figures differ more.

use chrono::{NaiveDate, TimeDelta};

use super::{
    combine::Lean,
    cues::{HeatSum, Sheet},
    heat::{DayAir, DegreeDays, of_day},
    stage::{Reading, Stage, Weight},
};

/// Least share of the published figure at which a crop can be ready (derived).
const EARLY: f64 = 0.85;
/// Most share of it (derived).
const LATE: f64 = 1.15;
/// Before this share of the least published figure nothing is ready (derived).
const TOO_EARLY: f64 = 0.7;

/// What the days since sowing or planting out say, of a crop published to take `least` to `most`.
pub fn by_days(age: TimeDelta, least: TimeDelta, most: TimeDelta, lean: Lean) -> Option<Reading> {
    by_share(days(age), days(least), days(most), lean)
}

/// What the heat since sowing says, of a crop published to take these sums.
pub fn by_heat(heat: DegreeDays, [least, most]: [DegreeDays; 2], lean: Lean) -> Option<Reading> {
    by_share(heat.celsius_days(), least.celsius_days(), most.celsius_days(), lean)
}

fn by_share(age: f64, least: f64, most: f64, lean: Lean) -> Option<Reading> {
    if !(least > 0.0 && most >= least) {
        return None;
    }
    let (from, likely, to) = if age < least * TOO_EARLY {
        (Stage::NotYet, Stage::NotYet, Stage::NotYet)
    } else if age < least * EARLY {
        (Stage::NotYet, Stage::NotYet, Stage::Prime)
    } else if age <= most * LATE {
        (Stage::NotYet, Stage::Prime, Stage::Going)
    } else {
        // What waits well is still prime long after its published days.
        let likely = match lean {
            Lean::Early => Stage::Prime,
            Lean::Late => Stage::Going,
        };
        (Stage::Prime, likely, Stage::Past)
    };
    Some(Reading { from, likely, to, weight: Weight::Weak })
}

/// What the days since the flower, the silk or the fruit's set say; `None` where none are published.
pub fn by_flower(sheet: &Sheet, age: TimeDelta) -> Option<Reading> {
    let flower = sheet.flower.as_ref()?;
    let [least, most] = flower.days.map(f64::from);
    let age = days(age);
    let young = flower.young.map_or(least * TOO_EARLY, f64::from);
    if age < young {
        let weight = if flower.strong { Weight::Strong } else { Weight::Weak };
        return Some(Reading::of(Stage::NotYet, weight));
    }
    let (from, likely, to) = if age < least {
        (Stage::NotYet, Stage::NotYet, Stage::Prime)
    } else if age <= most {
        (Stage::NotYet, Stage::Prime, Stage::Going)
    } else if age <= most * 1.5 && sheet.lean() == Lean::Late {
        (Stage::Prime, Stage::Going, Stage::Past)
    } else if sheet.lean() == Lean::Late {
        (Stage::Going, Stage::Going, Stage::Past)
    } else {
        (Stage::Prime, Stage::Prime, Stage::Past)
    };
    Some(Reading { from, likely, to, weight: Weight::Weak })
}

/// The heat from one day to another, the first included and the last not, by the sum's own formula.
/// `air` gives the lowest and highest temperature of a day: measured, or usual for the date.
pub fn heat_between(
    sum: &HeatSum,
    from: NaiveDate,
    to: NaiveDate,
    air: impl Fn(NaiveDate) -> DayAir,
) -> DegreeDays {
    from.iter_days()
        .take_while(|day| *day < to)
        .map(|day| of_day(sum.formula(), sum.thresholds(), air(day)))
        .sum()
}

fn days(time: TimeDelta) -> f64 {
    // Whole days below two million are exact.
    i32::try_from(time.num_days()).map_or(f64::from(i32::MAX), f64::from)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::cues::{sheet_named, sheets};
    use super::*;

    fn day(count: i64) -> TimeDelta {
        TimeDelta::days(count)
    }

    #[test]
    fn a_squash_younger_than_its_seeds_need_is_not_ripe() {
        let squash = sheet_named("winter-squash").unwrap();
        let young = by_flower(squash, day(25)).unwrap();
        assert_eq!(young, Reading::of(Stage::NotYet, Weight::Strong));
        let ripe = by_flower(squash, day(60)).unwrap();
        assert_eq!((ripe.likely, ripe.weight), (Stage::Prime, Weight::Weak));
    }

    #[test]
    fn an_age_is_a_weak_sign() {
        for sheet in sheets() {
            for age in 0..200 {
                if let Some(reading) = by_flower(sheet, day(age)) {
                    let strong = reading.weight == Weight::Strong;
                    assert!(
                        !strong
                            || (sheet.id() == "winter-squash" && reading.likely == Stage::NotYet)
                    );
                }
            }
        }
    }

    proptest! {
        #[test]
        fn an_older_one_is_never_read_younger(
            which in 0..1000_usize, age in 0..300_i64, more in 0..100_i64, early in any::<bool>(),
        ) {
            let lean = if early { Lean::Early } else { Lean::Late };
            let sheet = &sheets()[which % sheets().len()];
            let by = |age| [by_flower(sheet, day(age)), by_days(day(age), day(50), day(70), lean)];
            for (young, old) in by(age).into_iter().zip(by(age + more)) {
                prop_assert_eq!(young.is_some(), old.is_some());
                if let (Some(young), Some(old)) = (young, old) {
                    prop_assert!(young.from <= old.from && young.likely <= old.likely && young.to <= old.to);
                }
            }
        }
    }
}
