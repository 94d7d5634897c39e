//! How seed comes up at each soil temperature: the published tables, and values between their
//! columns.
//!
//! Limits: J. F. Harrington's table (Oregon State University Extension, 2013, revised 2024; lima
//! bean, celery and okra from Alabama Cooperative Extension ANR-1061; of two printed maxima for
//! lettuce the lower). Days and percent: J. F. Harrington and P. A. Minges, California Agricultural
//! Extension leaflet, 1954, as printed in *Knott's Handbook for Vegetable Growers*, 1997: days
//! until seedlings are up from ½ in deep, and normal seedlings in percent of the seeds. Between the
//! columns the rate, one over the days, runs in a straight line (common practice), and so does the
//! percent.

use uom::si::{f64::Frequency, frequency::cycle_per_day, thermodynamic_temperature};

use crate::quantity::{Length, Temperature};

/// Temperatures of the columns, °C.
const COLUMNS_C: [f64; 9] = [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0];

/// One kind of seed.
#[derive(Debug)]
pub struct Germination {
    /// Its name in the tables.
    pub name: &'static str,
    /// The crops that the tables mean.
    crops: &'static [&'static str],
    /// Crops near enough in kind to be told by it (common practice).
    like: &'static [&'static str],
    /// The kind whose days and percent stand in for it, where it has none of its own (common
    /// practice).
    days_of: Option<&'static str>,
    /// Minimum, optimum from and to, optimum, maximum, °F.
    limits_f: [u8; 5],
    /// Days to emergence in each column; 0 where little or none came up, `None` where not tried.
    days: [Option<u8>; 9],
    /// Normal seedlings in each column, percent; `None` where missing in the copy read.
    percent: [Option<u8>; 9],
}

/// Depth of the published trials.
pub fn trial_depth() -> Length {
    Length::new::<uom::si::length::inch>(0.5)
}

/// The kind of seed of a crop of the catalogue, and whether the tables mean that very crop.
pub fn of_crop(crop: &str) -> Option<(&'static Germination, bool)> {
    let own = KINDS.iter().find(|kind| kind.crops.contains(&crop));
    let like = || KINDS.iter().find(|kind| kind.like.contains(&crop));
    own.map(|kind| (kind, kind.days_of.is_none())).or_else(|| like().map(|kind| (kind, false)))
}

/// The crops that the tables can tell.
pub fn crops() -> impl Iterator<Item = &'static str> {
    KINDS.iter().flat_map(|kind| kind.crops.iter().chain(kind.like).copied())
}

impl Germination {
    fn limit(&self, which: usize) -> Temperature {
        let degrees = self.limits_f.get(which).copied().unwrap_or_default();
        Temperature::new::<thermodynamic_temperature::degree_fahrenheit>(f64::from(degrees))
    }

    /// The coldest soil in which it comes up at all.
    ///
    /// Peas come up in soil ten degrees colder than tomatoes do (Harrington: 40 °F and 50 °F):
    /// ```
    /// use pegline_core::catalogue::germination::of_crop;
    /// use pegline_core::quantity::unit::thermodynamic_temperature::degree_fahrenheit;
    /// let [pea, tomato] = ["pea", "tomato"].map(|crop| of_crop(crop).unwrap().0.minimum());
    /// assert!((pea.get::<degree_fahrenheit>() - 40.0).abs() < 1e-9);
    /// assert!((tomato.get::<degree_fahrenheit>() - 50.0).abs() < 1e-9);
    /// ```
    pub fn minimum(&self) -> Temperature {
        self.limit(0)
    }

    /// The range it comes up best in.
    pub fn optimum_range(&self) -> (Temperature, Temperature) {
        (self.limit(1), self.limit(2))
    }

    /// The temperature it comes up best at.
    pub fn optimum(&self) -> Temperature {
        self.limit(3)
    }

    /// The warmest soil in which it comes up at all.
    pub fn maximum(&self) -> Temperature {
        self.limit(4)
    }

    /// The kind whose days and percent it goes by, where that is another.
    pub fn days_of(&self) -> Option<&'static str> {
        self.days_of
    }

    /// How much of the way to emergence goes by in a day: one over the days of the table.
    pub fn rate(&self, soil: Temperature) -> Frequency {
        Frequency::new::<cycle_per_day>(between_columns(celsius(soil), &|column| {
            self.rate_at(column)
        }))
    }

    /// The share of good fresh seed that comes up as normal seedlings, 0 to 1.
    pub fn share(&self, soil: Temperature) -> f64 {
        between_columns(celsius(soil), &|column| self.share_at(column))
    }

    /// The greatest share that any temperature gives.
    pub(crate) fn best_share(&self) -> f64 {
        (0..9).map(|column| self.share_at(column)).fold(0.0, f64::max)
    }

    /// The quickest that any temperature gives.
    pub fn best_rate(&self) -> Frequency {
        let rates = (0..9).map(|column| self.rate_at(column));
        Frequency::new::<cycle_per_day>(rates.fold(0.0, f64::max))
    }

    fn rate_at(&self, column: usize) -> f64 {
        let days =
            |column: usize| self.days.get(column).copied().flatten().filter(|days| *days > 0);
        if let Some(days) = days(column) {
            return 1.0 / f64::from(days);
        }
        // Some came up, but no days are printed: the line through the two columns beside it goes on
        // (derived).
        let some_came =
            self.percent.get(column).copied().flatten().is_some_and(|percent| percent >= 10);
        let beside = |near: usize, next: usize| {
            let (near, next) = (f64::from(days(near)?), f64::from(days(next)?));
            Some((2.0 / near - 1.0 / next).max(0.0))
        };
        if !some_came {
            return 0.0;
        }
        let warmer = beside(column + 1, column + 2);
        let cooler = || beside(column.checked_sub(1)?, column.checked_sub(2)?);
        warmer.or_else(cooler).unwrap_or(0.0)
    }

    fn share_at(&self, column: usize) -> f64 {
        let percent = |column: usize| self.percent.get(column).copied().flatten();
        let missing = || {
            // Missing cells stand alone, between two that are printed.
            let (before, after) = (percent(column.checked_sub(1)?)?, percent(column + 1)?);
            Some(0.5 * (f64::from(before) + f64::from(after)))
        };
        percent(column).map(f64::from).or_else(missing).unwrap_or(0.0) / 100.0
    }
}

fn celsius(temperature: Temperature) -> f64 {
    temperature.get::<thermodynamic_temperature::degree_celsius>()
}

/// A value on straight lines between the columns; none comes up outside them.
fn between_columns(degrees: f64, at: &dyn Fn(usize) -> f64) -> f64 {
    let columns = COLUMNS_C.iter().zip(COLUMNS_C.iter().skip(1)).enumerate();
    for (column, (from, to)) in columns {
        if *from <= degrees && degrees <= *to {
            let part = (degrees - from) / (to - from);
            return (1.0 - part) * at(column) + part * at(column + 1);
        }
    }
    0.0
}

include!(concat!(env!("OUT_DIR"), "/germination.rs"));

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn of_celsius(degrees: f64) -> Temperature {
        Temperature::new::<thermodynamic_temperature::degree_celsius>(degrees)
    }

    #[test]
    fn frozen_and_scorched_soil_bring_nothing_up() {
        for crop in crops() {
            let (kind, _) = of_crop(crop).unwrap();
            assert_eq!(kind.rate(of_celsius(-1.0)).get::<cycle_per_day>(), 0.0);
            assert_eq!(kind.share(of_celsius(41.0)), 0.0);
        }
    }

    proptest! {
        #[test]
        fn shares_and_rates_stay_within_their_columns(degrees in 0.0..40.0f64, which in 0usize..27) {
            let kind = &KINDS[which];
            let soil = of_celsius(degrees);
            let (left, right) = ((degrees / 5.0) as usize, (degrees / 5.0) as usize + 1);
            let (share, rate) = (kind.share(soil), kind.rate(soil).get::<cycle_per_day>());
            let within = |value: f64, a: f64, b: f64| a.min(b) - 1e-12 <= value && value <= a.max(b) + 1e-12;
            prop_assert!(within(share, kind.share_at(left), kind.share_at(right)));
            prop_assert!(within(rate, kind.rate_at(left), kind.rate_at(right)));
            prop_assert!((0.0..=1.0).contains(&share));
        }
    }
}
