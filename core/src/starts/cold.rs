//! Weeks of cold, which make some kinds bolt, or head up while they are tiny ("buttons").
//!
//! Only plants of some size feel it: leaves a hand wide or stems as thick as a pencil, which takes some
//! weeks of growth. What counts is weeks, mainly of nights below 45 °F, by kind. How many is little
//! known and differs between varieties; growers report that broken spells do less. So this is a note,
//! not a verdict (derived).

use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};

use crate::{
    catalogue::{ColdCounts, ColdHarm, Crop},
    frost::expected::above,
    quantity::{Temperature, TemperatureInterval, Time},
};
use uom::si::{temperature_interval::degree_celsius as kelvin, time::day};

/// What counts as cold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Counts {
    /// Each night below this as one.
    NightsBelow(Temperature),
    /// Each day by its mean, as carrots count it; the best of days as one.
    CarrotDays,
}

/// One night, and the day after it where that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColdDay {
    /// The low.
    pub low: Temperature,
    /// The high of the day.
    pub high: Option<Temperature>,
}

impl ColdDay {
    /// The mean; where the high is not known, 5 °C above the low (considered).
    fn mean(&self) -> Temperature {
        let half = self
            .high
            .map_or(TemperatureInterval::new::<kelvin>(5.0), |high| above(high, self.low) / 2.0);
        self.low + half
    }
}

/// How much cold a kind takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Takes {
    /// What counts.
    pub counts: Counts,
    /// From here on it has been seen to happen.
    pub from: Time,
    /// From here on most of them do it.
    pub to: Time,
    /// Cold counts from this age on, as time in a warm house.
    pub counts_from: Time,
    /// What it does.
    pub outcome: ColdHarm,
}

/// What is known of a kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cold {
    /// So much.
    Takes(Takes),
    /// It bolts after cold, but after how much was not found.
    Unknown,
    /// No trouble is known.
    None,
}

fn f(degrees: f64) -> Temperature {
    Temperature::new::<degree_fahrenheit>(degrees)
}

/// What is known of a crop: `cold` in `core/data/crops.toml`.
pub fn of(crop: &Crop) -> Cold {
    let Some(cold) = crop.cold() else {
        return Cold::None;
    };
    let (counts, from, to) = match cold.counts {
        ColdCounts::NotFound => return Cold::Unknown,
        ColdCounts::Carrot => (
            Counts::CarrotDays,
            carrot::FIRST / carrot::MOST_A_DAY,
            carrot::NINE_TENTHS / carrot::MOST_A_DAY,
        ),
        ColdCounts::NightsBelow { below_f, days: [from, to] } => {
            (Counts::NightsBelow(f(below_f.into())), from.into(), to.into())
        }
    };
    Cold::Takes(Takes {
        counts,
        from: Time::new::<day>(from),
        to: Time::new::<day>(to),
        counts_from: Time::new::<day>(7.0 * f64::from(cold.after_weeks)),
        outcome: cold.does,
    })
}

/// How much cold a tray has had.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Less than half of what has been seen to matter.
    Little,
    /// Half of it or more.
    Note,
    /// As much as makes most of them do it.
    Much,
}

impl Takes {
    /// How many days of cold these come to.
    pub fn counted(&self, days: &[ColdDay]) -> Time {
        let each = days.iter().map(|one| match self.counts {
            Counts::NightsBelow(mark) => f64::from(u8::from(one.low < mark)),
            Counts::CarrotDays => carrot::celsius_days(one.mean()) / carrot::MOST_A_DAY,
        });
        Time::new::<day>(each.sum())
    }

    /// How near so much cold comes to what has been seen to matter: 1 is there.
    pub fn share(&self, cold: Time) -> f64 {
        (cold / self.from).value
    }

    /// How much that is.
    pub fn level(&self, cold: Time) -> Level {
        if cold >= self.to {
            Level::Much
        } else if self.share(cold) >= 0.5 {
            Level::Note
        } else {
            Level::Little
        }
    }
}

/// Cold as carrots count it: from -1 °C rising to 6.5 °C, falling to nothing at 16 °C.
///
/// J. G. Atherton and others, *J. Hort. Sci.* 65(4):423-429, 1990, for 'Chantenay Red Cored' (the
/// straight rise and fall derived from what is reported).
pub mod carrot {
    use super::{Temperature, degree_celsius};

    /// First plants bolt at this sum of daily units, °C days.
    pub const FIRST: f64 = 126.0;
    /// Nine in ten do at this.
    pub const NINE_TENTHS: f64 = 336.0;
    /// Units of the best of days, 6.5 °C.
    pub const MOST_A_DAY: f64 = 7.5;

    /// Units of a day of this mean temperature, °C days.
    pub fn celsius_days(mean: Temperature) -> f64 {
        let c = mean.get::<degree_celsius>();
        if c <= -1.0 || c >= 16.0 {
            0.0
        } else if c <= 6.5 {
            c + 1.0
        } else {
            MOST_A_DAY * (16.0 - c) / 9.5
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{crop, crops};

    #[test]
    fn four_nights_alarm_nobody() {
        for crop in crops() {
            if let Cold::Takes(takes) = of(crop) {
                let four = Time::new::<day>(4.0);
                assert_eq!(takes.level(four), Level::Little, "{}", crop.id());
                assert!(takes.from < takes.to);
            }
        }
    }

    #[test]
    fn only_nights_below_the_mark_count() {
        let Cold::Takes(takes) = of(crop("broccoli").ok().unwrap()) else {
            panic!("broccoli buttons")
        };
        let days = [30.0, 44.9, 45.0, 60.0].map(|low| ColdDay { low: f(low), high: None });
        assert_eq!(takes.counted(&days), Time::new::<day>(2.0));
    }
}
