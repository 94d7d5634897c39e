//! A place's usual year, day by day, made once for all crops and dates.

use chrono::{Datelike, NaiveDate};
use uom::si::{
    radiant_exposure::megajoule_per_square_meter, temperature_interval::degree_celsius as kelvin,
    time::hour,
};

use crate::{
    catalogue::germination::trial_depth,
    place::{
        Latitude,
        air::{Air, celsius},
        nights::Nights,
        site::Site,
        soil::{SoilYear, Texture},
        sun,
    },
    quantity::Length,
    time::DayOfYear,
};

/// Of the radiation above the air, what reaches the ground, by the root of the day's range in °C:
/// G. H. Hargreaves and Z. A. Samani's form, with 0.14 for their 0.16, which is 13 % too high at 2764
/// stations of the United States (derived).
const CLEAR: f64 = 0.14;

/// Days of the year that the models run on.
pub(super) const DAYS: usize = 365;

/// One day of the usual year; temperatures in °C.
pub(super) struct Day {
    pub(super) low: f64,
    pub(super) high: f64,
    /// Standard deviation of nights, and of days too: the two are alike within a tenth (derived).
    pub(super) sd: f64,
    /// Sunrise to sunset, hours; `None` where the latitude is not known.
    pub(super) hours: Option<f64>,
    /// MJ/m².
    pub(super) radiation: Option<f64>,
    /// Soil at the depth of seed, ½ in.
    pub(super) seed_soil: f64,
    /// Soil at the roots of what is set out, 2 in.
    pub(super) root_soil: f64,
}

impl Day {
    pub(super) fn mean(&self) -> f64 {
        0.5 * (self.low + self.high)
    }
}

/// A place's usual year.
pub struct Year {
    days: Vec<Day>,
    pub(super) nights: Nights,
    pub(super) latitude: Option<Latitude>,
    /// Since 1 January, the coldest day.
    pub(super) coldest: usize,
}

impl Year {
    /// From the air of the place and the soil of the bed. Without a latitude light and the length of
    /// the day are left out of account.
    pub fn new(air: &Air, soil: &SoilYear, latitude: Option<Latitude>) -> Self {
        let two_inches = Length::new::<uom::si::length::inch>(2.0);
        let of = |number: u32| {
            let day = DayOfYear::new(f64::from(number));
            let (low, high) = (celsius(air.low(day)), celsius(air.high(day)));
            // Any year: the sun's differs by minutes.
            let sunned = latitude.zip(NaiveDate::from_yo_opt(2026, number));
            let radiation = sunned.map(|(latitude, date)| {
                let above = sun::extraterrestrial_radiation(latitude, date);
                CLEAR * (high - low).max(0.0).sqrt() * above.get::<megajoule_per_square_meter>()
            });
            Day {
                low,
                high,
                sd: air.low_sd(day).get::<kelvin>(),
                hours: sunned.map(|(at, date)| sun::day_length(at, date).get::<hour>()),
                radiation,
                seed_soil: celsius(soil.at(trial_depth(), day)),
                root_soil: celsius(soil.at(two_inches, day)),
            }
        };
        let days: Vec<Day> = (1..=DAYS as u32).map(of).collect();
        let mut coldest = (0, f64::INFINITY);
        for (at, day) in days.iter().enumerate() {
            if day.mean() < coldest.1 {
                coldest = (at, day.mean());
            }
        }
        Self { days, nights: Nights::new(), latitude, coldest: coldest.0 }
    }

    /// The days from one on, without end; each with its number since 1 January.
    pub(super) fn from(&self, start: usize) -> impl Iterator<Item = (usize, &Day)> {
        self.days.iter().enumerate().cycle().skip(start)
    }

    /// From the site alone; `None` where its air is not known.
    pub fn of(site: &Site) -> Option<Self> {
        let air = site.air.as_ref()?;
        let soil = SoilYear::from_air(air, site.soil.unwrap_or(Texture::Loam));
        Some(Self::new(air, &soil, site.latitude))
    }

    /// Sunrise to sunset of that day since 1 January, hours.
    pub(super) fn hours(&self, day: usize) -> Option<f64> {
        self.days.get(day)?.hours
    }

    /// Whether the air warms around that day.
    pub(super) fn warms(&self, day: usize) -> bool {
        let mean = |at: usize| self.days.get(at % DAYS).map_or(0.0, Day::mean);
        mean(day + 15) > mean(day + DAYS - 15)
    }
}

/// The number of a date since 1 January; the leap day counts with the one before.
pub(super) fn number(date: NaiveDate) -> usize {
    (date.ordinal0() as usize).min(DAYS - 1)
}
