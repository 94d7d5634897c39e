//! The bed's own thermometer corrects the usual year.
//!
//! The usual year of a bed is off by one shift, known beforehand only as 0 ± 2 °C; each reading
//! shows it with an error of 1.5 °C (weather, and what the time of day leaves). The best guess
//! after m readings is w × their mean departure with w = σ0²/(σ0² + σ²/m), and its standard
//! deviation (1/σ0² + m/σ²)^(−½): the mean of a normal distribution with a normal prior (A. Gelman
//! and others, *Bayesian Data Analysis*, 3rd ed., 2013, section 2.5). The two figures are
//! considered guesses that agree with the published errors of soil temperature from air, 1.2 to 2.9
//! °C (Zheng, Hunt and Running, *Climate Research* 2:183, 1993; Horton and Corkrey, *Soil Research*
//! 49:305, 2011).

use chrono::{Datelike, Duration, NaiveDate, NaiveTime, Timelike};
use uom::si::{length::meter, temperature_interval::degree_celsius as kelvin};

use super::{
    air::celsius,
    soil::{Mulch, SoilYear},
};
use crate::{
    order,
    quantity::{Length, Temperature, TemperatureInterval},
    time::DayOfYear,
};

/// How far a bed's soil may be from what the place's air tells, one standard deviation, °C.
const PRIOR_SD_C: f64 = 2.0;

/// What is added to it where only the coldest and the hottest month are known, °C: the root mean
/// square difference of the two curves at 4 in, August to January, over nine places (derived).
const EXTREMES_SD_C: f64 = 0.9;

/// How far one reading is from the usual for its bed and date, one standard deviation, °C.
const READING_SD_C: f64 = 1.5;

/// How long readings speak for the present, days.
pub const FRESH_DAYS: i64 = 21;

/// One reading of a soil thermometer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// When.
    pub date: NaiveDate,
    /// At what time, if known; about nine in the morning is taken otherwise, when soil at 2 to 4 in
    /// passes the day's mean.
    pub time: Option<NaiveTime>,
    /// How deep.
    pub depth: Length,
    /// What it showed.
    pub temperature: Temperature,
}

/// What readings teach about a bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Correction {
    /// How many readings count.
    pub counted: u32,
    /// How much their mean departure from the usual year weighs, 0 to 1.
    pub weight: f64,
    /// What is added to the usual year.
    pub shift: TemperatureInterval,
    /// One standard deviation of the corrected year.
    pub sd: TemperatureInterval,
}

/// How sure the usual year is before any reading, one standard deviation.
pub fn prior_sd(extremes_only: bool, mulch: Mulch) -> TemperatureInterval {
    let extremes = if extremes_only { EXTREMES_SD_C } else { 0.0 };
    let mulch = mulch.doubt().get::<kelvin>();
    TemperatureInterval::new::<kelvin>(
        (PRIOR_SD_C.powi(2) + extremes.powi(2) + mulch.powi(2)).sqrt(),
    )
}

/// The readings that speak for `as_of`: those of three weeks up to the latest one before it, if
/// that one is at most three weeks old.
pub fn fresh(readings: &[Reading], as_of: NaiveDate) -> Vec<Reading> {
    let until = |reading: &&Reading| reading.date <= as_of;
    let Some(latest) = readings.iter().filter(until).map(|reading| reading.date).max() else {
        return Vec::new();
    };
    let three_weeks = Duration::days(FRESH_DAYS);
    if as_of - latest > three_weeks {
        return Vec::new();
    }
    let counts = |reading: &&Reading| latest - reading.date <= three_weeks;
    readings.iter().filter(until).filter(counts).copied().collect()
}

/// What those readings teach about the bed whose usual year is `year`, known beforehand with
/// `prior`; `day_swing` is half the air's usual range of a day, taken as the surface's.
pub fn correct(
    year: &SoilYear,
    prior: TemperatureInterval,
    readings: &[Reading],
    day_swing: &dyn Fn(NaiveDate) -> TemperatureInterval,
) -> Correction {
    let prior_variance = prior.get::<kelvin>().powi(2);
    let count = readings.len() as f64;
    if readings.is_empty() {
        return Correction {
            counted: 0,
            weight: 0.0,
            shift: TemperatureInterval::new::<kelvin>(0.0),
            sd: prior,
        };
    }
    let reading_variance = READING_SD_C.powi(2);
    let departure = |reading: &Reading| {
        let of_day = reading.time.map_or(0.0, |time| {
            time_of_day(year, reading.depth, time, day_swing(reading.date)).get::<kelvin>()
        });
        let usual = celsius(year.at(reading.depth, DayOfYear::of(reading.date)));
        celsius(reading.temperature) - of_day - usual
    };
    let mean = readings.iter().map(departure).sum::<f64>() / count;
    let weight = prior_variance / (prior_variance + reading_variance / count);
    let interval = TemperatureInterval::new::<kelvin>;
    Correction {
        counted: readings.len() as u32,
        weight,
        shift: interval(weight * mean),
        sd: interval((1.0 / prior_variance + count / reading_variance).sqrt().recip()),
    }
}

/// How much warmer the soil is at a time of day than its mean over that day.
///
/// The daily wave, damped and late with depth as the yearly one (Carslaw and Jaeger 1959), its
/// surface hottest at one in the afternoon.
pub fn time_of_day(
    year: &SoilYear,
    depth: Length,
    time: NaiveTime,
    swing: TemperatureInterval,
) -> TemperatureInterval {
    const HOTTEST_HOUR: f64 = 13.0;
    let hours = f64::from(time.num_seconds_from_midnight()) / 3600.0;
    let x = depth.get::<meter>() / year.daily_damping().get::<meter>();
    let turn = std::f64::consts::TAU / 24.0 * (hours - HOTTEST_HOUR) - x;
    TemperatureInterval::new::<kelvin>(swing.get::<kelvin>() * (-x).exp() * turn.cos())
}

/// Whether readings show that the soil has come down to `temperature` and stays there: the mean of
/// five or more days within ten days up to `as_of` is at or below it (a considered rule).
pub fn stays_below(readings: &[Reading], temperature: Temperature, as_of: NaiveDate) -> bool {
    let ten_days = Duration::days(10);
    let recent: Vec<&Reading> = readings
        .iter()
        .filter(|reading| reading.date <= as_of && as_of - reading.date < ten_days)
        .collect();
    let mut days: Vec<NaiveDate> = recent.iter().map(|reading| reading.date).collect();
    order::sort(&mut days, &|day| [day.num_days_from_ce().into(), 0, 0]);
    days.dedup();
    let sum: f64 = recent.iter().map(|reading| celsius(reading.temperature)).sum();
    days.len() >= 5 && sum / recent.len() as f64 <= celsius(temperature)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::{
        air::of_celsius,
        soil::{Texture, Wave},
    };
    use proptest::prelude::*;
    use uom::si::length::centimeter;

    fn date(day: u32) -> NaiveDate {
        NaiveDate::from_yo_opt(2026, day).unwrap()
    }

    fn year() -> SoilYear {
        let swing = TemperatureInterval::new::<kelvin>(9.0);
        let wave = Wave::simple(of_celsius(11.0), swing, DayOfYear::new(205.0));
        SoilYear::new(wave, Texture::Loam.diffusivity())
    }

    fn reading(day: u32, degrees: f64) -> Reading {
        Reading {
            date: date(day),
            time: None,
            depth: Length::new::<centimeter>(10.0),
            temperature: of_celsius(degrees),
        }
    }

    fn no_swing(_: NaiveDate) -> TemperatureInterval {
        TemperatureInterval::new::<kelvin>(0.0)
    }

    #[test]
    fn without_readings_nothing_is_corrected() {
        let prior = prior_sd(false, Mulch::Bare);
        let correction = correct(&year(), prior, &[], &no_swing);
        assert_eq!((correction.counted, correction.weight), (0, 0.0));
        assert_eq!(correction.sd, prior);
    }

    #[test]
    fn only_the_last_three_weeks_count() {
        let readings =
            [reading(250, 18.0), reading(280, 14.0), reading(290, 13.0), reading(310, 9.0)];
        assert_eq!(fresh(&readings, date(295)).len(), 2);
        assert_eq!(fresh(&readings, date(245)).len(), 0);
        assert_eq!(fresh(&readings, date(340)).len(), 0);
    }

    #[test]
    fn an_afternoon_reading_is_taken_for_the_cooler_day_that_it_is() {
        let swing = |_| TemperatureInterval::new::<kelvin>(6.0);
        let prior = prior_sd(false, Mulch::Bare);
        let morning = reading(285, 12.0);
        let afternoon = Reading { time: NaiveTime::from_hms_opt(16, 0, 0), ..morning };
        let shift = |reading| correct(&year(), prior, &[reading], &swing).shift;
        assert!(shift(afternoon) < shift(morning));
    }

    #[test]
    fn five_cool_days_in_ten_are_needed_to_say_that_it_stays() {
        let ten = of_celsius(10.0);
        let readings: Vec<Reading> = [300, 302, 304, 306, 308].map(|day| reading(day, 9.5)).into();
        assert!(stays_below(&readings, ten, date(308)));
        assert!(!stays_below(&readings, ten, date(312)));
        assert!(!stays_below(&readings[1..], ten, date(308)));
        assert!(!stays_below(&readings, of_celsius(9.0), date(308)));
    }

    proptest! {
        #[test]
        fn more_readings_make_surer_and_never_go_past_what_they_show(
            departure in -6.0..6.0f64, count in 1usize..12,
        ) {
            let prior = prior_sd(false, Mulch::Bare);
            let one = |day: u32| {
                let usual = year().at(Length::new::<centimeter>(10.0), DayOfYear::of(date(day)));
                reading(day, celsius(usual) + departure)
            };
            let readings: Vec<Reading> = (0..count as u32).map(|later| one(280 + later)).collect();
            let correction = correct(&year(), prior, &readings, &no_swing);
            let shift = correction.shift.get::<kelvin>();
            prop_assert!(shift.abs() <= departure.abs() + 1e-9);
            prop_assert!(shift * departure >= 0.0);
            prop_assert!(correction.sd < prior);
            let fewer = correct(&year(), prior, &readings[1..], &no_swing);
            prop_assert!(correction.sd < fewer.sd);
        }
    }
}
