//! The soil's temperature by date, as far as it is known.

use std::f64::consts::TAU;

use chrono::{Datelike, NaiveDate};
use uom::si::{temperature_interval::kelvin, thermodynamic_temperature::degree_celsius};

use crate::{
    place::known_soil::BedSoil,
    quantity::{Length, Temperature, TemperatureInterval},
    time::DayOfYear,
};

/// The yearly wave guessed where nothing is known: a temperate garden, soil at 3 in. Common practice.
const GUESS: Wave = Wave { mean_c: 12.0, swing_c: 8.0, hottest_north: 212.0, hottest_south: 30.0 };

/// Standard deviation of that guess, °C.
const GUESS_SD: f64 = 4.0;

/// Standard deviation of a reading that stands for its day, °C.
const READING_SD: f64 = 1.0;

/// A reading tells of the days about it, less with each day, and nothing after this many.
const TELLS_DAYS: f64 = 30.0;

/// What is known of the soil's temperature.
#[derive(Clone, Debug, PartialEq)]
pub enum SoilKnown {
    /// The same every day.
    Steady(Temperature),
    /// On these days, in order; between them a straight line, beyond them the season's own course.
    Days(Vec<(NaiveDate, Temperature)>, Season),
    /// Nothing but the season.
    Season(Season),
}

/// The course of the year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Season {
    /// Of the place, with the bed's readings, at a depth.
    Place(BedSoil, Length),
    /// Guessed for a temperate garden in that half of the earth.
    Guessed {
        /// The southern half.
        south: bool,
    },
}

struct Wave {
    mean_c: f64,
    swing_c: f64,
    hottest_north: f64,
    hottest_south: f64,
}

impl SoilKnown {
    /// The temperature of a day and its standard deviation.
    pub fn on(&self, date: NaiveDate) -> (Temperature, TemperatureInterval) {
        let (c, sd) = match self {
            Self::Steady(temperature) => (temperature.get::<degree_celsius>(), READING_SD),
            Self::Days(days, season) => between(days, season, date),
            Self::Season(season) => (season.celsius(date), season.sd()),
        };
        (Temperature::new::<degree_celsius>(c), TemperatureInterval::new::<kelvin>(sd))
    }

    /// Whether nothing at all is known of it.
    pub fn is_guessed(&self) -> bool {
        matches!(self, Self::Season(Season::Guessed { .. }))
    }
}

impl Season {
    fn celsius(&self, date: NaiveDate) -> f64 {
        match self {
            Self::Place(soil, depth) => {
                soil.year.at(*depth, DayOfYear::of(date)).get::<degree_celsius>()
            }
            Self::Guessed { south } => {
                let hottest = if *south { GUESS.hottest_south } else { GUESS.hottest_north };
                let turned = TAU * (f64::from(date.ordinal()) - hottest) / 365.25;
                GUESS.mean_c + GUESS.swing_c * turned.cos()
            }
        }
    }

    fn sd(&self) -> f64 {
        match self {
            Self::Place(soil, _) => soil.sd.get::<kelvin>(),
            Self::Guessed { .. } => GUESS_SD,
        }
    }
}

fn between(days: &[(NaiveDate, Temperature)], season: &Season, date: NaiveDate) -> (f64, f64) {
    let at = days.partition_point(|(day, _)| *day <= date);
    let before = at.checked_sub(1).and_then(|at| days.get(at));
    let away = |day: NaiveDate| (date - day).num_days().abs() as f64;
    let tells = |days: f64| (1.0 - days / TELLS_DAYS).max(0.0);
    let sd = |tells: f64| READING_SD + (season.sd() - READING_SD).max(0.0) * (1.0 - tells);
    // Past the ends the season's course is shifted to meet the reading; the shift fades.
    let carried = |(day, reading): &(NaiveDate, Temperature)| {
        let off = reading.get::<degree_celsius>() - season.celsius(*day);
        let tells = tells(away(*day));
        (season.celsius(date) + off * tells, sd(tells))
    };
    match (before, days.get(at)) {
        (Some((from, low)), Some((to, high))) => {
            let (low, high) = (low.get::<degree_celsius>(), high.get::<degree_celsius>());
            let along = away(*from) / (*to - *from).num_days().max(1) as f64;
            let nearer = away(*from).min(away(*to));
            (low + (high - low) * along, sd(tells(nearer)))
        }
        (Some(end), None) | (None, Some(end)) => carried(end),
        (None, None) => (season.celsius(date), season.sd()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, month, day).unwrap()
    }

    fn celsius(c: f64) -> Temperature {
        Temperature::new::<degree_celsius>(c)
    }

    fn on(known: &SoilKnown, date: NaiveDate) -> (f64, f64) {
        let (c, sd) = known.on(date);
        (c.get::<degree_celsius>(), sd.get::<kelvin>())
    }

    #[test]
    fn between_readings_it_runs_straight() {
        let known = SoilKnown::Days(
            vec![(day(4, 1), celsius(8.0)), (day(4, 11), celsius(12.0))],
            Season::Guessed { south: false },
        );
        let (c, sd) = on(&known, day(4, 6));
        assert!((c - 10.0).abs() < 1e-9);
        assert!((sd - 1.5).abs() < 1e-9);
    }

    #[test]
    fn long_past_a_reading_only_the_season_is_known() {
        let known =
            SoilKnown::Days(vec![(day(4, 1), celsius(20.0))], Season::Guessed { south: false });
        let season = SoilKnown::Season(Season::Guessed { south: false });
        assert_eq!(on(&known, day(4, 1)), (20.0, 1.0));
        assert_eq!(on(&known, day(8, 1)), on(&season, day(8, 1)));
    }

    #[test]
    fn the_south_is_warm_in_january() {
        let south = SoilKnown::Season(Season::Guessed { south: true });
        assert!(on(&south, day(7, 15)).0 < on(&south, day(1, 15)).0);
    }
}
