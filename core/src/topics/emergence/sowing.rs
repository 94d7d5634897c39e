//! Whether the soil is right for sowing, and when it will be.

use chrono::{Duration, NaiveDate};
use uom::si::{
    frequency::cycle_per_day, temperature_interval::degree_celsius as kelvin, time::day,
};

use crate::catalogue::germination::Germination;
use crate::{
    place::air::{celsius, of_celsius},
    quantity::{Temperature, TemperatureInterval, Time},
    time::{DAYS_A_YEAR, DayOfYear, Range, wrapped},
};

/// Seed that needs more than four weeks to come up is better sown later (common practice)
const SLOWEST_DAYS: f64 = 28.0;
/// unless it is slow by nature: then two and a half times its quickest is allowed (considered).
const SLOWER_THAN_BEST: f64 = 2.5;
/// At least this part of what comes up at best must come up (considered).
const WORTH_IT: f64 = 0.5;

/// How a soil temperature suits a kind of seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Suits {
    /// Sow.
    Well,
    /// Too cold: below the published minimum, or too slow.
    TooCold,
    /// Too warm: above the published maximum, or few come up.
    TooWarm,
}

/// How that soil suits that seed.
pub fn suits(kind: &Germination, soil: Temperature) -> Suits {
    let within = kind.minimum() <= soil && soil <= kind.maximum();
    let rate = kind.rate(soil);
    let quick = rate.get::<cycle_per_day>() * SLOWEST_DAYS >= 1.0
        || rate * SLOWER_THAN_BEST >= kind.best_rate();
    let many = kind.share(soil) >= WORTH_IT * kind.best_share();
    if within && quick && many {
        Suits::Well
    } else if soil < kind.optimum() {
        Suits::TooCold
    } else {
        Suits::TooWarm
    }
}

/// What frost leaves of the year to a crop that it kills.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrostFree {
    /// The usual last frost of spring.
    pub last_frost: DayOfYear,
    /// The usual first frost of autumn.
    pub first_frost: DayOfYear,
    /// The fewest days from sowing to the first harvest.
    pub ready: Time,
}

impl FrostFree {
    /// Whether seed sown on `date`, up after `days`, comes up after the last frost and bears before
    /// the first (common practice).
    fn lets(&self, date: NaiveDate, days: f64) -> bool {
        let since_frost = |number: f64| wrapped(number - self.last_frost.number(), DAYS_A_YEAR);
        let up = since_frost(DayOfYear::of(date).number() + days);
        let bears = up - days + self.ready.get::<day>();
        bears <= since_frost(self.first_frost.number())
    }
}

/// A kind of seed and where it is to be sown.
#[derive(Clone, Copy)]
pub struct Spot<'a> {
    /// The kind of seed.
    pub kind: &'a Germination,
    /// The soil's temperature on each day.
    pub soil: &'a dyn Fn(NaiveDate) -> Temperature,
    /// One standard deviation of it.
    pub soil_sd: TemperatureInterval,
    /// The season, for a crop outdoors that frost kills.
    pub frost_free: Option<FrostFree>,
}

impl Spot<'_> {
    /// Whether the season lets it be sown on a day, whatever the soil.
    pub fn in_season(&self, date: NaiveDate) -> bool {
        let rate = self.kind.rate((self.soil)(date)).get::<cycle_per_day>();
        self.frost_free.is_none_or(|season| rate > 0.0 && season.lets(date, 1.0 / rate))
    }

    /// Whether it can be sown on a day, in soil warmer than usual by `warmer`.
    fn fits(&self, date: NaiveDate, warmer: f64) -> bool {
        let soil = of_celsius(celsius((self.soil)(date)) + warmer);
        suits(self.kind, soil) == Suits::Well && self.in_season(date)
    }

    /// When it can be sown: from the first day until the last of that stretch, within a year from
    /// `from`.
    ///
    /// Likely: the first day in the usual soil; early: in soil warmer or colder by its standard
    /// deviation, where that is sooner. Late: the last day of the stretch in the usual soil; `None`
    /// where it goes on for longer than a year. The whole is `None` where no day does.
    pub fn when(&self, from: NaiveDate) -> Option<Range> {
        let on = |days: i64| from + Duration::days(days);
        let first = |warmer: f64| (0..YEAR).find(|days| self.fits(on(*days), warmer));
        let likely = first(0.0)?;
        let sd = self.soil_sd.get::<kelvin>();
        let early = [first(-sd), first(sd)].into_iter().flatten().fold(likely, i64::min);
        let end = (likely..likely + YEAR).find(|days| !self.fits(on(*days), 0.0));
        Some(Range {
            early: Some(on(early)),
            likely: Some(on(likely)),
            late: end.map(|end| on(end - 1)),
        })
    }
}

const YEAR: i64 = 365;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::germination::{crops, of_crop};
    use proptest::prelude::*;

    #[test]
    fn lettuce_is_sown_in_cool_soil_and_tomato_in_warm() {
        let at = |crop: &str, degrees| suits(of_crop(crop).unwrap().0, of_celsius(degrees));
        assert_eq!(at("lettuce-leaf", 18.0), Suits::Well);
        assert_eq!(at("lettuce-leaf", 30.0), Suits::TooWarm);
        assert_eq!(at("tomato", 8.0), Suits::TooCold);
        assert_eq!(at("tomato", 20.0), Suits::Well);
        assert_eq!(at("spinach", 27.0), Suits::TooWarm);
        assert_eq!(at("onion-bulb", 2.0), Suits::TooCold);
    }

    #[test]
    fn every_crop_suits_its_own_optimum() {
        for crop in crops() {
            let (kind, _) = of_crop(crop).unwrap();
            let (from, to) = kind.optimum_range();
            let middle = of_celsius(0.5 * (celsius(from) + celsius(to)));
            assert_eq!(suits(kind, middle), Suits::Well, "{crop}");
        }
    }

    #[test]
    fn beans_are_sown_to_come_up_after_frost_and_to_bear_before_it() {
        let season = FrostFree {
            last_frost: DayOfYear::new(128.0),
            first_frost: DayOfYear::new(281.0),
            ready: Time::new::<day>(50.0),
        };
        let on = |number: u32| NaiveDate::from_yo_opt(2026, number).unwrap();
        assert!(!season.lets(on(100), 10.0));
        assert!(season.lets(on(120), 10.0));
        assert!(season.lets(on(230), 10.0));
        assert!(!season.lets(on(235), 10.0));
        assert!(!season.lets(on(320), 10.0));
    }

    proptest! {
        #[test]
        fn on_the_first_day_the_soil_suits_and_the_day_before_it_does_not(
            which in 0usize..40, mean in 3.0..15.0f64, swing in 4.0..12.0f64, start in 0i64..365,
        ) {
            let (kind, _) = of_crop(crops().nth(which).unwrap()).unwrap();
            let new_year = NaiveDate::from_ymd_opt(2026, 1, 1).unwrap();
            let soil = |date: NaiveDate| {
                let days = (date - new_year).num_days() as f64;
                of_celsius(mean - swing * (std::f64::consts::TAU * (days - 15.0) / 365.25).cos())
            };
            let from = new_year + Duration::days(start);
            let spot = Spot {
                kind,
                soil: &soil,
                soil_sd: TemperatureInterval::new::<kelvin>(1.0),
                frost_free: None,
            };
            let range = spot.when(from);
            if let Some(range) = range {
                let likely = range.likely.unwrap();
                prop_assert!(from <= range.early.unwrap() && range.early.unwrap() <= likely);
                prop_assert_eq!(suits(kind, soil(likely)), Suits::Well);
                if likely > from {
                    prop_assert!(suits(kind, soil(likely - Duration::days(1))) != Suits::Well);
                }
                if let Some(late) = range.late {
                    prop_assert_eq!(suits(kind, soil(late)), Suits::Well);
                    prop_assert!(suits(kind, soil(late + Duration::days(1))) != Suits::Well);
                }
            }
        }
    }
}
