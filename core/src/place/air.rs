//! The air of a place through the usual year: monthly lows and highs, and how single nights
//! scatter.
//!
//! Between the middles of months the values run in straight lines. Someone who knows only the
//! coldest and the hottest month gets a cosine through the two (see [`Air::from_extremes`]).

use uom::si::{
    temperature_interval::degree_celsius as kelvin, thermodynamic_temperature::degree_celsius,
};

use crate::{
    quantity::{Temperature, TemperatureInterval},
    time::DayOfYear,
};

/// Days of the year in the middle of each month.
pub const MID_MONTHS: [f64; 12] =
    [16.0, 45.5, 75.0, 105.5, 136.0, 166.5, 197.0, 228.0, 258.5, 289.0, 319.5, 350.0];

/// From the year's start to the hottest day where only the extremes are known, days, in the north:
/// the mean over nine places of the United States from Fargo to San Diego (derived from the station
/// means of Srivastava, Flanagan, Frankenberger and Engel, *J. Soil Water Cons.* 74:334, 2019).
const HOTTEST_DAY: f64 = 203.0;

/// Half a year, days: what the south is behind the north.
pub(crate) const HALF_A_YEAR: f64 = 182.625;

/// What is known of a place's air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KnownBy {
    /// Lows and highs of all twelve months.
    Months,
    /// The usual low and high of the coldest and of the hottest month.
    Extremes,
}

/// The usual low and high of one month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LowAndHigh {
    /// Mean daily minimum.
    pub low: Temperature,
    /// Mean daily maximum.
    pub high: Temperature,
}

/// The usual year of a place's air.
#[derive(Clone, Debug, PartialEq)]
pub struct Air {
    lows_c: [f64; 12],
    highs_c: [f64; 12],
    low_sds_c: [f64; 12],
    known_by: KnownBy,
}

impl Air {
    /// From the twelve months' mean lows and highs, January first; the standard deviations of
    /// single nights' lows are worked out if not given.
    pub fn from_months(
        lows: &[Temperature; 12],
        highs: &[Temperature; 12],
        low_sds: Option<&[TemperatureInterval; 12]>,
    ) -> Self {
        let lows_c = lows.map(celsius);
        Self {
            lows_c,
            highs_c: highs.map(celsius),
            low_sds_c: low_sds
                .map_or_else(|| usual_scatter(&lows_c), |sds| sds.map(|sd| sd.get::<kelvin>())),
            known_by: KnownBy::Months,
        }
    }

    /// From the coldest and the hottest month alone: each month on a cosine between the two, whose
    /// hottest day is 22 July in the north and half a year later in the `south`.
    pub fn from_extremes(coldest: LowAndHigh, hottest: LowAndHigh, south: bool) -> Self {
        let hottest_day = HOTTEST_DAY - if south { HALF_A_YEAR } else { 0.0 };
        let wave = MID_MONTHS.map(|day| (YEARLY * (day - hottest_day)).cos());
        let between = |least: Temperature, most: Temperature| {
            let (least, most) = (celsius(least), celsius(most));
            wave.map(|part| 0.5 * (most + least) + 0.5 * (most - least) * part)
        };
        let lows_c = between(coldest.low, hottest.low);
        Self {
            lows_c,
            highs_c: between(coldest.high, hottest.high),
            low_sds_c: usual_scatter(&lows_c),
            known_by: KnownBy::Extremes,
        }
    }

    /// What it was made from.
    pub fn known_by(&self) -> KnownBy {
        self.known_by
    }

    /// Mean temperature of each month, January first.
    pub fn monthly_means(&self) -> [Temperature; 12] {
        std::array::from_fn(|month| {
            let low = self.lows_c.get(month).copied().unwrap_or_default();
            let high = self.highs_c.get(month).copied().unwrap_or_default();
            of_celsius(0.5 * (low + high))
        })
    }

    /// The usual low of a day.
    pub fn low(&self, day: DayOfYear) -> Temperature {
        of_celsius(between_months(&self.lows_c, day))
    }

    /// The usual high of a day.
    pub fn high(&self, day: DayOfYear) -> Temperature {
        of_celsius(between_months(&self.highs_c, day))
    }

    /// Standard deviation of single nights' lows around the usual low of that time of year.
    pub fn low_sd(&self, day: DayOfYear) -> TemperatureInterval {
        TemperatureInterval::new::<kelvin>(between_months(&self.low_sds_c, day))
    }
}

/// Radians a day of the yearly wave.
pub(super) const YEARLY: f64 = std::f64::consts::TAU / crate::time::DAYS_A_YEAR;

/// Standard deviation of single nights' lows, °C, where it is not known: 1.99 + 0.237 × half the range
/// of the monthly lows + 0.141 × (the year's mean low − the month's low).
///
/// Derived by least squares from 2764 stations of the United States (the climate generator CLIGEN of the
/// USDA); root mean square error there 0.7 °C, none in the mean.
fn usual_scatter(lows_c: &[f64; 12]) -> [f64; 12] {
    let mean = lows_c.iter().sum::<f64>() / 12.0;
    let least = lows_c.iter().copied().fold(f64::INFINITY, f64::min);
    let most = lows_c.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    // Never under half a degree, so that no night is taken for certain.
    lows_c.map(|low| (1.99 + 0.237 * 0.5 * (most - least) + 0.141 * (mean - low)).max(0.5))
}

/// A day's value on straight lines between the middles of the months.
fn between_months(months: &[f64; 12], day: DayOfYear) -> f64 {
    let day = day.from_start(DayOfYear::new(MID_MONTHS[0])).number();
    let next_year = MID_MONTHS[0] + crate::time::DAYS_A_YEAR;
    let days = MID_MONTHS.iter().copied().chain([next_year]);
    let values = months.iter().copied().chain([months[0]]);
    let mut before = (MID_MONTHS[0], months[0]);
    for after in days.zip(values).skip(1) {
        if day <= after.0 {
            let part = (day - before.0) / (after.0 - before.0);
            return before.1 + part * (after.1 - before.1);
        }
        before = after;
    }
    before.1
}

pub(crate) fn celsius(temperature: Temperature) -> f64 {
    temperature.get::<degree_celsius>()
}

pub(crate) fn of_celsius(degrees: f64) -> Temperature {
    Temperature::new::<degree_celsius>(degrees)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn somewhere() -> Air {
        let extremes = |low, high| LowAndHigh { low: of_celsius(low), high: of_celsius(high) };
        Air::from_extremes(extremes(-3.0, 4.0), extremes(13.0, 25.0), false)
    }

    #[test]
    fn mid_month_is_the_month_s_own_value_and_the_year_closes() {
        let air = somewhere();
        for (month, day) in MID_MONTHS.into_iter().enumerate() {
            let low = celsius(air.low(DayOfYear::new(day)));
            assert!((low - air.lows_c[month]).abs() < 1e-9);
        }
        let new_year = celsius(air.low(DayOfYear::new(366.25)));
        assert!((new_year - celsius(air.low(DayOfYear::new(1.0)))).abs() < 1e-9);
    }

    #[test]
    fn the_south_has_the_north_s_year_half_a_year_later() {
        let extremes = |low, high| LowAndHigh { low: of_celsius(low), high: of_celsius(high) };
        let (coldest, hottest) = (extremes(-3.0, 4.0), extremes(13.0, 25.0));
        let north = Air::from_extremes(coldest, hottest, false);
        let south = Air::from_extremes(coldest, hottest, true);
        for day in 0..365 {
            let day = DayOfYear::new(f64::from(day));
            let other = celsius(south.high(day.plus(-HALF_A_YEAR)));
            assert!((celsius(north.high(day)) - other).abs() < 0.2);
        }
    }

    proptest! {
        #[test]
        fn the_day_s_low_stays_between_the_months(day in -400.0..800.0f64) {
            let low = celsius(somewhere().low(DayOfYear::new(day)));
            prop_assert!((-3.0 - 1e-9..=13.0 + 1e-9).contains(&low));
        }
    }
}
