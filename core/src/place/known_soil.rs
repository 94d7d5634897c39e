//! The soil's temperature as a question gives it, or as the place and the bed's readings tell it.

use chrono::{Datelike, NaiveDate, NaiveTime};
use serde_json::Value;
use uom::si::{length::meter, temperature_interval::degree_celsius as kelvin};

use super::{
    air::{Air, KnownBy, celsius, of_celsius},
    readings::{self, Correction, Reading},
    site::Site,
    soil::{Mulch, SoilYear, Texture},
};
use crate::{
    given::{Control, Faults, FromGiven, Given, Readable, asked},
    order,
    quantity::{Length, Temperature, TemperatureInterval, Unreadable},
    time::DayOfYear,
    time::iso::read_time,
};

asked! {
    /// A reading of a soil thermometer.
    pub struct ReadingAsked {
        /// The day.
        date: Given<NaiveDate>,
        /// The time of day; about nine in the morning if absent.
        time: Given<ClockTime>,
        /// How deep; 4 in if absent.
        depth: Given<Length>,
        /// What it showed.
        temperature: Given<Temperature>,
    }
}

/// A time of day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClockTime(pub NaiveTime);

impl Readable for ClockTime {
    fn allowed() -> String {
        "a time of day such as 09:00 or 16:30".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let padded = if text.find(':') == Some(1) { format!("0{text}") } else { text.to_owned() };
        read_time(padded.get(..5).unwrap_or(&padded))
            .filter(|_| padded.len() == 5 || padded.len() == 8)
            .map(Self)
            .ok_or_else(|| Unreadable {
                allowed: Self::allowed(),
                why: "no time of day can be read from it".to_owned(),
            })
    }
}

/// Four inches: where soil is read for garlic and in most published work.
pub fn usual_depth() -> Length {
    Length::new::<uom::si::length::inch>(4.0)
}

/// Soil read by a thermometer lies from here
const COLDEST_C: f64 = -30.0;
/// to here (considered).
const HOTTEST_C: f64 = 60.0;
const SOIL_TEMPERATURES: &str = "a soil temperature from -22 °F to 140 °F (-30 °C to 60 °C)";
/// The deepest a probe is pushed, m (considered).
const DEEPEST_M: f64 = 2.0;

/// Reads a depth in the soil, the usual one if absent.
pub fn depth(given: &Given<Length>, faults: &mut Faults) -> Option<Length> {
    if !given.is_given() {
        return Some(usual_depth());
    }
    let limits = "a depth from the surface to 6 ft 6 in (2 m)";
    given.within(Length::new::<meter>(0.0), Length::new::<meter>(DEEPEST_M), limits, faults)
}

/// The coldest and the hottest that soil is believed to be.
pub fn soil_limits() -> [Temperature; 2] {
    [COLDEST_C, HOTTEST_C].map(of_celsius)
}

/// Reads a soil temperature.
pub fn soil_temperature(given: &Given<Temperature>, faults: &mut Faults) -> Option<Temperature> {
    let [coldest, hottest] = soil_limits();
    given.within(coldest, hottest, SOIL_TEMPERATURES, faults)
}

impl ReadingAsked {
    /// Reads one reading; one of a day after `today` is refused.
    pub fn read(&self, today: Option<NaiveDate>, faults: &mut Faults) -> Option<Reading> {
        let date = past(&self.date, today, faults);
        let time = self.time.read(faults).map(|ClockTime(time)| time);
        let depth = depth(&self.depth, faults);
        if !self.temperature.is_given() {
            self.temperature.need(faults);
        }
        let temperature = soil_temperature(&self.temperature, faults);
        Some(Reading { date: date?, time, depth: depth?, temperature: temperature? })
    }
}

/// Reads a needed day that can't be after `today`.
pub fn past(
    given: &Given<NaiveDate>,
    today: Option<NaiveDate>,
    faults: &mut Faults,
) -> Option<NaiveDate> {
    let date = given.need(faults)?;
    if today.is_some_and(|today| date > today) {
        given.refuse(faults, "today or a day before", "that day has not come yet");
        return None;
    }
    Some(date)
}

/// The soil of a bed: its usual year, corrected by its readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BedSoil {
    /// The corrected year.
    pub year: SoilYear,
    /// One standard deviation of it.
    pub sd: TemperatureInterval,
    /// What the readings taught.
    pub correction: Correction,
    /// How many readings were too old to count.
    pub too_old: u32,
    /// Whether only the coldest and the hottest month are known.
    pub extremes_only: bool,
}

impl BedSoil {
    /// From the air of the site and the readings of the bed up to `as_of`.
    pub fn new(
        air: &Air,
        texture: Texture,
        mulch: Mulch,
        readings: &[Reading],
        as_of: NaiveDate,
    ) -> Self {
        let usual = SoilYear::from_air(air, texture).under(mulch);
        let extremes_only = air.known_by() == KnownBy::Extremes;
        let fresh = readings::fresh(readings, as_of);
        let day_swing = |date: NaiveDate| {
            let day = DayOfYear::of(date);
            let range = celsius(air.high(day)) - celsius(air.low(day));
            TemperatureInterval::new::<kelvin>(0.5 * range)
        };
        let prior = readings::prior_sd(extremes_only, mulch);
        let correction = readings::correct(&usual, prior, &fresh, &day_swing);
        Self {
            year: usual.shifted(correction.shift),
            sd: correction.sd,
            correction,
            too_old: (readings.len() - fresh.len()) as u32,
            extremes_only,
        }
    }
}

asked! {
    /// A soil temperature on a day.
    pub struct DayAsked {
        /// The day.
        date: Given<NaiveDate>,
        /// The mean temperature of the soil.
        temperature: Given<Temperature>,
    }
}

/// The soil's temperature as a question gives it.
#[derive(Clone, Debug)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(untagged))]
pub enum SoilAsked {
    /// One for all days.
    One(Given<Temperature>),
    /// By date.
    Days(Vec<DayAsked>),
}

impl Default for SoilAsked {
    fn default() -> Self {
        Self::One(Given::default())
    }
}

impl FromGiven for SoilAsked {
    const CONTROL: Control = Given::<Temperature>::CONTROL;

    fn from_given(value: Option<&Value>, field: &str, faults: &mut Faults) -> Self {
        match value {
            Some(Value::Array(_)) => Self::Days(FromGiven::from_given(value, field, faults)),
            _ => Self::One(FromGiven::from_given(value, field, faults)),
        }
    }
}

/// How far a temperature given for all days or between two days may be off, one standard deviation,
/// °C (considered).
const GIVEN_SD_C: f64 = 1.0;

/// The soil's temperature by date, as far as it is known.
#[derive(Clone, Debug, PartialEq)]
pub enum KnownSoil {
    /// The same on every day.
    Steady(Temperature),
    /// On these days, in order; straight lines between them, and beyond them as on the nearest.
    Days(Vec<(NaiveDate, Temperature)>),
    /// By the place and the bed.
    Bed(BedSoil),
}

impl SoilAsked {
    /// Whether anything was given.
    pub fn is_given(&self) -> bool {
        match self {
            Self::One(one) => one.is_given(),
            Self::Days(days) => !days.is_empty(),
        }
    }

    /// Reads it; given days correct the place's year where the place is known, and stand alone
    /// where it is not. Where nothing is given the place's year is taken, corrected by the bed's
    /// `recorded` readings.
    pub fn read(
        &self,
        site: &Site,
        at: Length,
        recorded: &[Reading],
        today: NaiveDate,
        faults: &mut Faults,
    ) -> Option<KnownSoil> {
        match self {
            Self::One(one) if one.is_given() => {
                soil_temperature(one, faults).map(KnownSoil::Steady)
            }
            Self::Days(given) if !given.is_empty() => {
                let mut days = Vec::with_capacity(given.len());
                for day in given {
                    let date = past(&day.date, Some(today), faults);
                    if !day.temperature.is_given() {
                        day.temperature.need(faults);
                    }
                    let temperature = soil_temperature(&day.temperature, faults);
                    days.extend(date.zip(temperature));
                }
                if days.len() < given.len() {
                    return None;
                }
                order::sort(&mut days, &|(date, _)| [date.num_days_from_ce().into(), 0, 0]);
                Some(match &site.air {
                    None => KnownSoil::Days(days),
                    Some(air) => {
                        let reading = |(date, temperature)| Reading {
                            date,
                            time: None,
                            depth: at,
                            temperature,
                        };
                        let readings: Vec<Reading> = days.into_iter().map(reading).collect();
                        let soil = site.soil.unwrap_or(Texture::Loam);
                        KnownSoil::Bed(BedSoil::new(air, soil, Mulch::Bare, &readings, today))
                    }
                })
            }
            _ => {
                let air = site.need_air(faults)?;
                let soil = site.soil.unwrap_or(Texture::Loam);
                Some(KnownSoil::Bed(BedSoil::new(air, soil, Mulch::Bare, recorded, today)))
            }
        }
    }
}

impl KnownSoil {
    /// The mean temperature of a day at a depth.
    pub fn at(&self, depth: Length, date: NaiveDate) -> Temperature {
        match self {
            Self::Steady(temperature) => *temperature,
            Self::Days(days) => between(days, date),
            Self::Bed(soil) => soil.year.at(depth, DayOfYear::of(date)),
        }
    }

    /// How sure it is, one standard deviation.
    pub fn sd(&self) -> TemperatureInterval {
        match self {
            Self::Steady(_) | Self::Days(_) => TemperatureInterval::new::<kelvin>(GIVEN_SD_C),
            Self::Bed(soil) => soil.sd,
        }
    }
}

fn between(days: &[(NaiveDate, Temperature)], date: NaiveDate) -> Temperature {
    let after = days.partition_point(|(day, _)| *day <= date);
    let before = after.checked_sub(1).and_then(|before| days.get(before));
    match (before, days.get(after)) {
        (Some((from, first)), Some((to, second))) => {
            let part = (date - *from).num_days() as f64 / (*to - *from).num_days() as f64;
            let (first, second) = (celsius(*first), celsius(*second));
            of_celsius(first + part * (second - first))
        }
        (Some((_, only)), None) | (None, Some((_, only))) => *only,
        // OK because no list without a day is ever made.
        (None, None) => of_celsius(0.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(day: u32) -> NaiveDate {
        NaiveDate::from_yo_opt(2026, day).unwrap()
    }

    #[test]
    fn between_given_days_it_runs_straight_and_beyond_them_stays() {
        let soil = KnownSoil::Days(vec![(day(100), of_celsius(8.0)), (day(110), of_celsius(12.0))]);
        let at = |on| celsius(soil.at(usual_depth(), day(on)));
        assert!((at(105) - 10.0).abs() < 1e-9);
        assert!((at(90) - 8.0).abs() < 1e-9);
        assert!((at(150) - 12.0).abs() < 1e-9);
    }

    #[test]
    fn times_of_day_are_read_as_written() {
        let read = |text| ClockTime::read(text).map(|ClockTime(time)| time).ok();
        assert_eq!(read("9:00"), NaiveTime::from_hms_opt(9, 0, 0));
        assert_eq!(read("16:30"), NaiveTime::from_hms_opt(16, 30, 0));
        assert_eq!(read("16:30:00"), NaiveTime::from_hms_opt(16, 30, 0));
        for text in ["25:00", "noon", "9", "9:7", "16:30h"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
