//! When the last frost of spring is past, from the gardener's own years.
//!
//! A share of the years has a frost at all; the date in those that have is normal, with the t
//! distribution for the few years a garden has. The form is NOAA's for its frost probabilities (a
//! part for whether, a part for when); with few years √(1 + 1/n) widens it.

use crate::{
    chance::{
        shrinkage::Sample,
        t::{chance_below, value_at},
    },
    time::DayOfYear,
};

/// The fewest years with a frost that say something.
pub const FEWEST_YEARS: usize = 5;

/// The date of the last frost, by the years seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LastFrost {
    /// Share of years with a frost.
    with_frost: f64,
    dates: Sample,
}

impl LastFrost {
    /// From the day of the last frost in each year that had one, all counted so that a spring is
    /// one stretch, and how many years had none. `None` with fewer than [`FEWEST_YEARS`] dates or
    /// where all are the same day.
    pub fn from_years(days: &[DayOfYear], without: u32) -> Option<Self> {
        let numbers: Vec<f64> = days.iter().map(|day| day.number()).collect();
        let dates = Sample::of(&numbers);
        let years = f64::from(dates.count) + f64::from(without);
        (days.len() >= FEWEST_YEARS && dates.sd > 0.0)
            .then(|| Self { with_frost: f64::from(dates.count) / years, dates })
    }

    /// The chance of another frost after this day, 0 to 1.
    pub fn risk_after(&self, day: DayOfYear) -> f64 {
        let sds = (day.number() - self.dates.mean) / self.dates.sd_of_the_next();
        self.with_frost * (1.0 - chance_below(sds, self.dates.df()))
    }

    /// The day after which the risk of another frost is this; `None` where it is never as large.
    pub fn day_at(&self, risk: f64) -> Option<DayOfYear> {
        if risk >= self.with_frost {
            return None;
        }
        let sds = value_at(1.0 - risk / self.with_frost, self.dates.df());
        Some(DayOfYear::new(self.dates.mean + sds * self.dates.sd_of_the_next()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn from(days: &[f64], without: u32) -> Option<LastFrost> {
        let days: Vec<DayOfYear> = days.iter().map(|day| DayOfYear::new(*day)).collect();
        LastFrost::from_years(&days, without)
    }

    #[test]
    fn four_years_say_nothing() {
        assert_eq!(from(&[90.0, 100.0, 95.0, 110.0], 0), None);
        assert_eq!(from(&[90.0; 7], 0), None);
    }

    /// Melbourne's last day at or below 2.0 °C in 1981 to 1990, seven years of ten (Time Series Data
    /// Library, citing the Australian Bureau of Meteorology): mean day 206.43, s 8.080. With the
    /// normal distribution, which many years come to: 0.2305 after day 210; risk of a tenth on day
    /// 215.05, of a half on day 201.86 (computed apart from this program).
    #[test]
    fn years_without_frost_lower_the_risk() {
        let frost = LastFrost {
            with_frost: 0.7,
            dates: Sample { count: 4_000_000, mean: 206.43, sd: 8.080 },
        };
        assert!((frost.risk_after(DayOfYear::new(210.0)) - 0.2305).abs() < 1e-4);
        assert!((frost.day_at(0.1).unwrap().number() - 215.05).abs() < 0.01);
        assert!((frost.day_at(0.5).unwrap().number() - 201.86).abs() < 0.01);
        assert_eq!(frost.day_at(0.7), None);
    }

    proptest! {
        #[test]
        fn risk_falls_from_day_to_day_and_the_date_gives_it_back(
            days in prop::collection::vec(60.0..140.0f64, 5..20), without in 0..5u32, risk in 0.02..0.6f64,
        ) {
            let Some(frost) = from(&days, without) else { return Ok(()) };
            let mut before = 1.0;
            for day in (0..250).step_by(10) {
                let now = frost.risk_after(DayOfYear::new(f64::from(day)));
                prop_assert!(0.0 <= now && now <= before);
                before = now;
            }
            if let Some(day) = frost.day_at(risk) {
                prop_assert!((frost.risk_after(day) - risk).abs() < 1e-6);
            }
        }
    }
}
