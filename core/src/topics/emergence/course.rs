//! From sowing to emergence: each day's soil adds its part of the way.
//!
//! The parts, one over the table's days at that day's temperature, are added until the whole is
//! reached (common practice). Single seedlings come between 0.8 and 1.25 of the table's days
//! (considered), and the soil may be warmer or colder by its standard deviation: the two together
//! make the early and the late date.

use chrono::{Duration, NaiveDate};
use uom::si::{
    frequency::cycle_per_day, length::inch, temperature_interval::degree_celsius as kelvin,
};

use crate::catalogue::germination::Germination;
use crate::{
    given::words,
    place::air::{celsius, of_celsius},
    quantity::{Length, Temperature, TemperatureInterval},
    time::Range,
};

/// The first seedlings come at this part of the table's days.
const FIRST: f64 = 0.8;
/// The last ones at this.
const LAST: f64 = 1.25;
/// Half as long again as expected: sowing again is wiser than waiting (common practice).
const GIVE_UP: f64 = 1.5;
/// Seed deeper than this, inches, takes longer; how much was not found.
const DEEP_INCHES: f64 = 1.0;
/// So the late date of deep seed is put off by a quarter (considered).
const DEEP: f64 = 1.25;
/// What takes longer won't come: the longest published is 172 days.
const LONGEST_DAYS: i64 = 240;

/// A sowing.
#[derive(Clone, Copy)]
pub struct Sowing<'a> {
    /// The kind of seed.
    pub kind: &'a Germination,
    /// When it was sown.
    pub sown: NaiveDate,
    /// How deep.
    pub depth: Length,
    /// The soil's temperature there on each day, the mean over day and night.
    pub soil: &'a dyn Fn(NaiveDate) -> Temperature,
    /// How sure that is, one standard deviation.
    pub soil_sd: TemperatureInterval,
}

/// What can be told of a sowing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    /// When it comes up; a date is `None` where the soil brings it up in no foreseeable time.
    pub expected: Range,
    /// Days from sowing to the likely date, if there is one.
    pub days: Option<f64>,
    /// The share of good fresh seed that comes up, 0 to 1: the mean over the days it takes.
    pub share: f64,
    /// The share that is worth keeping: what is expected, or half of the best where the soil lets
    /// less come up (considered).
    pub worth: f64,
    /// After this, sowing again is wiser than waiting.
    pub resow_after: Option<NaiveDate>,
}

/// Follows a sowing through its days.
pub fn follow(sowing: &Sowing<'_>) -> Course {
    let sown = sowing.sown;
    let soils: Vec<f64> =
        (0..LONGEST_DAYS).map(|day| celsius((sowing.soil)(sown + Duration::days(day)))).collect();
    let sd = sowing.soil_sd.get::<kelvin>();
    let deep = sowing.depth.get::<inch>() > DEEP_INCHES;
    let last = if deep { LAST * DEEP } else { LAST };
    let until = |warmer: f64, part: f64| days_until(sowing.kind, &soils, warmer, part);
    let likely = until(0.0, 1.0);
    // Warmer soil is not always quicker: above the optimum seed slows down again.
    let (mut early, mut late) = (f64::INFINITY, Some(0.0f64));
    for warmer in [-sd, 0.0, sd] {
        early = early.min(until(warmer, FIRST).unwrap_or(f64::INFINITY));
        late = late.zip(until(warmer, last)).map(|(late, days)| late.max(days));
    }
    let date = |days: f64| sown + Duration::days(days.round() as i64);
    let share = mean_share(sowing.kind, &soils, likely);
    Course {
        expected: Range {
            // Where the usual soil brings it up never, the first warm spell means nothing.
            early: likely.map(|likely| date(early.min(likely))),
            likely: likely.map(date),
            late: late.map(date),
        },
        days: likely,
        share,
        worth: share.max(0.5 * sowing.kind.best_share()),
        resow_after: likely.map(|days| date((GIVE_UP * days).max(late.unwrap_or(0.0)))),
    }
}

/// Days until that part of the way has gone in soil warmer by `warmer`; the last day in part.
fn days_until(kind: &Germination, soils: &[f64], warmer: f64, part: f64) -> Option<f64> {
    let mut gone = 0.0;
    for (day, soil) in soils.iter().enumerate() {
        let today = kind.rate(of_celsius(soil + warmer)).get::<cycle_per_day>();
        if gone + today >= part {
            return Some(day as f64 + (part - gone) / today);
        }
        gone += today;
    }
    None
}

/// The mean share over the days until `likely`, or over the first month where it comes up in no
/// foreseeable time.
fn mean_share(kind: &Germination, soils: &[f64], likely: Option<f64>) -> f64 {
    let days = likely.unwrap_or(30.0).ceil().max(1.0);
    let first = soils.iter().take(days as usize);
    first.map(|soil| kind.share(of_celsius(*soil))).sum::<f64>() / days
}

words! {
    /// What to do about a sowing.
    pub enum Verdict {
        /// It may still come.
        Wait = "wait",
        /// It is up.
        Up = "up",
        /// Sow again.
        Resow = "resow",
    }
}

/// Of what is worth keeping, this much up counts as up (considered).
const UP: f64 = 0.8;
/// Of what is worth keeping, this much up at the end leaves gaps to fill and is not sown again
/// whole (considered).
const GAPS: f64 = 0.5;

impl Course {
    /// What to do today, where `up` of the seeds sown can be seen, if one has looked.
    pub fn verdict(&self, up: Option<f64>, today: NaiveDate) -> Verdict {
        let given_up = self.resow_after.is_some_and(|until| today > until);
        match up {
            Some(up) if up > 0.0 && up >= UP * self.worth => Verdict::Up,
            Some(up) if given_up && up > 0.0 && up >= GAPS * self.worth => Verdict::Up,
            _ if given_up => Verdict::Resow,
            _ => Verdict::Wait,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::germination::{crops, of_crop, trial_depth};
    use proptest::prelude::*;

    fn sown() -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 4, 1).unwrap()
    }

    fn course(crop: &str, degrees: f64, sd: f64, depth: Length) -> Course {
        follow(&Sowing {
            kind: of_crop(crop).unwrap().0,
            sown: sown(),
            depth,
            soil: &|_| of_celsius(degrees),
            soil_sd: TemperatureInterval::new::<kelvin>(sd),
        })
    }

    fn after(days: i64) -> NaiveDate {
        sown() + Duration::days(days)
    }

    #[test]
    fn a_bare_row_is_waited_for_and_then_sown_again() {
        let pea = course("pea", 12.0, 1.0, trial_depth());
        assert_eq!(pea.verdict(None, after(8)), Verdict::Wait);
        assert_eq!(pea.verdict(Some(0.0), pea.expected.late.unwrap()), Verdict::Wait);
        let resow_after = pea.resow_after.unwrap();
        assert_eq!(pea.verdict(None, resow_after), Verdict::Wait);
        assert_eq!(pea.verdict(None, resow_after + Duration::days(1)), Verdict::Resow);
    }

    #[test]
    fn a_spotty_row_has_until_the_end_of_its_window() {
        let pea = course("pea", 12.0, 1.0, trial_depth());
        assert_eq!(pea.verdict(Some(0.6), after(10)), Verdict::Wait);
        assert_eq!(pea.verdict(Some(0.9), after(10)), Verdict::Up);
        let end = pea.resow_after.unwrap() + Duration::days(1);
        assert_eq!(pea.verdict(Some(0.6), end), Verdict::Up);
        assert_eq!(pea.verdict(Some(0.2), end), Verdict::Resow);
    }

    #[test]
    fn cold_soil_brings_up_nothing_and_is_no_reason_to_sow_again() {
        let tomato = course("tomato", 3.0, 1.0, trial_depth());
        assert_eq!((tomato.days, tomato.expected.late), (None, None));
        assert_eq!(tomato.verdict(None, after(100)), Verdict::Wait);
    }

    #[test]
    fn the_few_that_heat_lets_up_are_not_enough() {
        let lettuce = course("lettuce-leaf", 31.0, 1.0, trial_depth());
        assert!(lettuce.share < 0.12);
        assert_eq!(lettuce.verdict(Some(0.1), after(2)), Verdict::Wait);
        let end = lettuce.resow_after.unwrap() + Duration::days(1);
        assert_eq!(lettuce.verdict(Some(0.1), end), Verdict::Resow);
        assert_eq!(lettuce.verdict(Some(0.5), end), Verdict::Up);
    }

    #[test]
    fn deep_seed_is_given_longer() {
        let deep = Length::new::<inch>(2.0);
        let (shallow, deep) =
            (course("pea", 12.0, 1.0, trial_depth()), course("pea", 12.0, 1.0, deep));
        assert_eq!(shallow.expected.likely, deep.expected.likely);
        assert!(shallow.expected.late < deep.expected.late);
    }

    #[test]
    fn warming_soil_brings_it_up_between_its_coldest_and_warmest() {
        let (kind, _) = of_crop("carrot").unwrap();
        let warming = |date: NaiveDate| of_celsius(8.0 + 0.2 * (date - sown()).num_days() as f64);
        let found = follow(&Sowing {
            kind,
            sown: sown(),
            depth: trial_depth(),
            soil: &warming,
            soil_sd: TemperatureInterval::new::<kelvin>(0.0),
        });
        let days = found.days.unwrap();
        let cold = course("carrot", 8.0, 0.0, trial_depth()).days.unwrap();
        let warm = course("carrot", 8.0 + 0.2 * days, 0.0, trial_depth()).days.unwrap();
        assert!(warm < days && days < cold, "{warm} {days} {cold}");
    }

    proptest! {
        #[test]
        fn the_dates_are_in_order_and_doubt_widens_them(
            which in 0usize..40, degrees in -5.0..45.0f64, sd in 0.0..3.0f64, more in 0.0..2.0f64,
        ) {
            let crop = crops().nth(which).unwrap();
            let sure = course(crop, degrees, sd, trial_depth());
            let doubtful = course(crop, degrees, sd + more, trial_depth());
            for course in [sure, doubtful] {
                let Range { early, likely, late } = course.expected;
                if let Some(likely) = likely {
                    prop_assert!(early.unwrap() <= likely);
                    prop_assert!(late.is_none_or(|late| likely <= late));
                    prop_assert!(course.resow_after.unwrap() >= late.unwrap_or(likely));
                }
                prop_assert!((0.0..=1.0).contains(&course.share));
            }
        }
    }
}
