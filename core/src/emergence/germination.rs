//! How seed comes up at each soil temperature: the published tables, and values between their columns.
//!
//! Limits: J. F. Harrington's table (Oregon State University Extension, 2013, revised 2024; lima bean, celery and okra from Alabama
//! Cooperative Extension ANR-1061; of two printed maxima for lettuce the lower). Days and percent: J. F. Harrington and P. A. Minges,
//! California Agricultural Extension leaflet, 1954, as printed in *Knott's Handbook for Vegetable Growers*, 1997: days until
//! seedlings are up from ½ in deep, and normal seedlings in percent of the seeds. Between the columns the rate,
//! one over the days, runs in a straight line (common practice), and so does the percent.

use uom::si::{f64::Frequency, frequency::cycle_per_day, thermodynamic_temperature};

use crate::{
    place::air::celsius,
    quantity::{Length, Temperature},
};

/// Temperatures of the columns, °C.
const COLUMNS_C: [f64; 9] = [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0];

/// Little or none came up.
const X: u8 = 0;
/// Not tried, or missing in the copy read.
const U: u8 = 255;

/// One kind of seed.
#[derive(Debug)]
pub struct Germination {
    /// Its name in the tables.
    pub name: &'static str,
    /// The crops that the tables mean.
    crops: &'static [&'static str],
    /// Crops near enough in kind to be told by it (common practice).
    like: &'static [&'static str],
    /// The kind whose days and percent stand in for it, where it has none of its own (common practice).
    days_of: Option<&'static str>,
    /// Minimum, optimum from and to, optimum, maximum, °F.
    limits_f: [u8; 5],
    /// Days to emergence in each column.
    days: [u8; 9],
    /// Normal seedlings in each column, percent.
    percent: [u8; 9],
}

/// Depth of the published trials.
pub fn trial_depth() -> Length {
    Length::new::<uom::si::length::inch>(0.5)
}

/// The kind of seed of a crop of the catalogue, and whether the tables mean that very crop.
pub fn of_crop(crop: &str) -> Option<(&'static Germination, bool)> {
    let own = KINDS.iter().find(|kind| kind.crops.contains(&crop));
    let like = || KINDS.iter().find(|kind| kind.like.contains(&crop));
    own.map(|kind| (kind, kind.days_of.is_none()))
        .or_else(|| like().map(|kind| (kind, false)))
}

/// The crops that the tables can tell.
pub fn crops() -> impl Iterator<Item = &'static str> {
    KINDS
        .iter()
        .flat_map(|kind| kind.crops.iter().chain(kind.like).copied())
}

impl Germination {
    fn limit(&self, which: usize) -> Temperature {
        let degrees = self.limits_f.get(which).copied().unwrap_or_default();
        Temperature::new::<thermodynamic_temperature::degree_fahrenheit>(f64::from(degrees))
    }

    /// The coldest soil in which it comes up at all.
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
    pub fn best_share(&self) -> f64 {
        (0..9)
            .map(|column| self.share_at(column))
            .fold(0.0, f64::max)
    }

    /// The quickest that any temperature gives.
    pub fn best_rate(&self) -> Frequency {
        let rates = (0..9).map(|column| self.rate_at(column));
        Frequency::new::<cycle_per_day>(rates.fold(0.0, f64::max))
    }

    fn rate_at(&self, column: usize) -> f64 {
        let days = |column: usize| {
            self.days
                .get(column)
                .copied()
                .filter(|days| !matches!(*days, X | U))
        };
        if let Some(days) = days(column) {
            return 1.0 / f64::from(days);
        }
        // Some came up, but no days are printed: the line through the two columns beside it goes on (derived).
        let some_came = self
            .percent
            .get(column)
            .is_some_and(|percent| *percent != U && *percent >= 10);
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
        let percent = |column: usize| {
            self.percent
                .get(column)
                .copied()
                .filter(|percent| *percent != U)
        };
        let missing = || {
            // Missing cells stand alone, between two that are printed.
            let (before, after) = (percent(column.checked_sub(1)?)?, percent(column + 1)?);
            Some(0.5 * (f64::from(before) + f64::from(after)))
        };
        percent(column)
            .map(f64::from)
            .or_else(missing)
            .unwrap_or(0.0)
            / 100.0
    }
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

#[rustfmt::skip]
const KINDS: [Germination; 27] = [
    Germination {
        name: "asparagus",
        crops: &["asparagus"],
        like: &[],
        days_of: None,
        limits_f: [50, 60, 85, 75, 95],
        days: [X, X, 53, 24, 15, 10, 12, 20, 28],
        percent: [0, 0, 61, 80, 88, 95, 79, 37, 0],
    },
    Germination {
        name: "bean, lima",
        crops: &["bean-lima"],
        like: &[],
        days_of: None,
        limits_f: [60, 65, 85, 85, 85],
        days: [U, U, X, 31, 18, 7, 7, X, U],
        percent: [0, 0, 1, 52, 82, 90, 88, 2, 0],
    },
    Germination {
        name: "bean, snap",
        crops: &["bean-snap-bush", "bean-pole"],
        like: &[],
        days_of: None,
        limits_f: [60, 60, 85, 80, 95],
        days: [X, X, X, 16, 11, 8, 6, 6, X],
        percent: [0, 0, 1, 97, 90, 97, 47, 39, 0],
    },
    Germination {
        name: "beet",
        crops: &["beet"],
        like: &[],
        days_of: None,
        limits_f: [40, 50, 85, 85, 95],
        days: [U, 42, 17, 10, 6, 5, 5, 5, U],
        percent: [0, 53, 72, 88, 90, 97, 89, 35, 0],
    },
    Germination {
        name: "cabbage",
        crops: &["cabbage"],
        like: &["broccoli", "long-stem-broccoli", "leaf-broccoli", "brussels-sprouts", "collards", "kale", "kohlrabi", "cabbage-chinese", "pak-choi", "mizuna", "tatsoi", "mustard-greens", "rutabaga", "arugula"],
        days_of: None,
        limits_f: [40, 45, 95, 85, 100],
        days: [U, U, 15, 9, 6, 5, 4, U, U],
        percent: [0, 27, 78, 93, U, 99, U, 0, 0],
    },
    Germination {
        name: "carrot",
        crops: &["carrot"],
        like: &["cilantro", "dill", "fennel-bulb"],
        days_of: None,
        limits_f: [40, 45, 85, 80, 95],
        days: [X, 51, 17, 10, 7, 6, 6, 9, X],
        percent: [0, 48, 93, 95, 96, 96, 95, 74, 0],
    },
    Germination {
        name: "cauliflower",
        crops: &["cauliflower"],
        like: &[],
        days_of: None,
        limits_f: [40, 45, 85, 80, 100],
        days: [U, U, 20, 10, 6, 5, 5, U, U],
        percent: [0, 0, 58, 60, U, 63, 45, 0, 0],
    },
    Germination {
        name: "celery",
        crops: &["celery"],
        like: &[],
        days_of: None,
        limits_f: [40, 60, 70, 70, 85],
        days: [X, 41, 16, 12, 7, X, X, X, U],
        percent: [0, 72, 70, 40, 97, 65, 0, 0, 0],
    },
    Germination {
        name: "chard",
        crops: &["chard"],
        like: &[],
        days_of: Some("beet"),
        limits_f: [40, 50, 85, 85, 95],
        days: [U, 42, 17, 10, 6, 5, 5, 5, U],
        percent: [0, 53, 72, 88, 90, 97, 89, 35, 0],
    },
    Germination {
        name: "corn, sweet",
        crops: &["sweet-corn"],
        like: &[],
        days_of: None,
        limits_f: [50, 60, 95, 95, 105],
        days: [X, X, 22, 12, 7, 4, 4, 3, X],
        percent: [0, 0, 47, 97, 97, 98, 91, 88, 10],
    },
    Germination {
        name: "cucumber",
        crops: &["cucumber"],
        like: &[],
        days_of: None,
        limits_f: [60, 60, 95, 95, 105],
        days: [X, X, X, 13, 6, 4, 3, 3, U],
        percent: [0, 0, 0, 95, 99, 99, 99, 99, 49],
    },
    Germination {
        name: "eggplant",
        crops: &["eggplant"],
        like: &[],
        days_of: None,
        limits_f: [60, 75, 90, 85, 95],
        days: [U, U, U, U, 13, 8, 5, U, U],
        percent: [0, 0, 0, 0, 21, 53, 60, 0, 0],
    },
    Germination {
        name: "lettuce",
        crops: &["lettuce-leaf", "lettuce-head"],
        like: &["endive", "radicchio"],
        days_of: None,
        limits_f: [35, 40, 80, 75, 85],
        days: [49, 15, 7, 4, 3, 2, 3, X, X],
        percent: [98, 98, 98, 99, 99, 99, 12, 0, 0],
    },
    Germination {
        name: "muskmelon",
        crops: &["melon"],
        like: &[],
        days_of: None,
        limits_f: [60, 75, 95, 90, 100],
        days: [U, U, U, U, 8, 4, 3, U, U],
        percent: [0, 0, 0, 0, 38, 94, 90, 0, 0],
    },
    Germination {
        name: "okra",
        crops: &["okra"],
        like: &[],
        days_of: None,
        limits_f: [60, 70, 95, 95, 105],
        days: [X, X, X, 27, 17, 13, 7, 6, 7],
        percent: [0, 0, 0, 74, 89, 92, 88, 85, 35],
    },
    Germination {
        name: "onion",
        crops: &["onion-bulb", "onion-overwintering"],
        like: &["onion-bunching", "leek", "chives"],
        days_of: None,
        limits_f: [35, 50, 95, 75, 95],
        days: [136, 31, 13, 7, 5, 4, 4, 13, X],
        percent: [90, 98, 98, 98, 99, 97, 91, 73, 2],
    },
    Germination {
        name: "parsley",
        crops: &["parsley"],
        like: &[],
        days_of: None,
        limits_f: [40, 50, 85, 75, 90],
        days: [U, U, 29, 17, 14, 13, 12, U, U],
        percent: [0, 0, 63, U, 69, 64, 50, 0, 0],
    },
    Germination {
        name: "parsnip",
        crops: &["parsnip"],
        like: &[],
        days_of: None,
        limits_f: [35, 50, 70, 65, 85],
        days: [172, 57, 27, 19, 14, 15, 32, X, X],
        percent: [82, 87, 79, 85, 89, 77, 51, 1, 0],
    },
    Germination {
        name: "pea",
        crops: &["pea"],
        like: &["bean-broad"],
        days_of: None,
        limits_f: [40, 40, 75, 75, 85],
        days: [U, 36, 14, 9, 8, 6, 6, U, U],
        percent: [0, 89, 94, 93, 93, 94, 86, 0, 0],
    },
    Germination {
        name: "pepper",
        crops: &["pepper"],
        like: &[],
        days_of: None,
        limits_f: [60, 65, 95, 85, 95],
        days: [X, X, X, 25, 13, 8, 8, 9, X],
        percent: [0, 0, 1, 70, 96, 98, 95, 70, 0],
    },
    Germination {
        name: "pumpkin",
        crops: &["pumpkin"],
        like: &[],
        days_of: Some("cucumber"),
        limits_f: [60, 70, 90, 95, 100],
        days: [X, X, X, 13, 6, 4, 3, 3, U],
        percent: [0, 0, 0, 95, 99, 99, 99, 99, 49],
    },
    Germination {
        name: "radish",
        crops: &["radish"],
        like: &[],
        days_of: None,
        limits_f: [40, 45, 90, 85, 95],
        days: [X, 29, 11, 6, 4, 4, 3, U, U],
        percent: [0, 42, 76, 97, 95, 97, 95, 0, 0],
    },
    Germination {
        name: "spinach",
        crops: &["spinach"],
        like: &["corn-salad", "claytonia"],
        days_of: None,
        limits_f: [35, 45, 75, 70, 85],
        days: [63, 23, 12, 7, 6, 5, 6, X, X],
        percent: [83, 96, 91, 82, 52, 28, 32, 0, 0],
    },
    Germination {
        name: "squash",
        crops: &["squash-summer", "squash-winter"],
        like: &[],
        days_of: Some("cucumber"),
        limits_f: [60, 70, 95, 95, 100],
        days: [X, X, X, 13, 6, 4, 3, 3, U],
        percent: [0, 0, 0, 95, 99, 99, 99, 99, 49],
    },
    Germination {
        name: "tomato",
        crops: &["tomato"],
        like: &["basil"],
        days_of: None,
        limits_f: [50, 60, 85, 85, 95],
        days: [X, X, 43, 14, 8, 6, 6, 9, X],
        percent: [0, 0, 82, 98, 98, 97, 83, 46, 0],
    },
    Germination {
        name: "turnip",
        crops: &["turnip"],
        like: &[],
        days_of: None,
        limits_f: [40, 60, 105, 85, 105],
        days: [X, X, 5, 3, 2, 1, 1, 1, 3],
        percent: [1, 14, 79, 98, 99, 100, 99, 99, 88],
    },
    Germination {
        name: "watermelon",
        crops: &["watermelon"],
        like: &[],
        days_of: None,
        limits_f: [60, 70, 95, 95, 105],
        days: [U, X, U, U, 12, 5, 4, 3, U],
        percent: [0, 0, 0, 17, 94, 90, 92, 96, 0],
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::air::of_celsius;
    use proptest::prelude::*;

    #[test]
    fn no_crop_is_told_twice_and_each_stand_in_exists() {
        let mut all: Vec<&str> = crops().collect();
        let count = all.len();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), count);
        for kind in &KINDS {
            let Some(name) = kind.days_of else { continue };
            let other = KINDS.iter().find(|other| other.name == name).unwrap();
            assert_eq!((kind.days, kind.percent), (other.days, other.percent));
        }
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
