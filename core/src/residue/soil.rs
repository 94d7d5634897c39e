//! The soil's temperature by date, as far as it is known.

use std::f64::consts::TAU;

use chrono::{Datelike, NaiveDate};
use uom::si::{temperature_interval::kelvin, thermodynamic_temperature::degree_celsius};

use crate::quantity::{Temperature, TemperatureInterval};

/// The yearly wave guessed where nothing is known: a temperate garden, soil at 3 in. Common practice.
const GUESS: Wave = Wave {
    mean_c: 12.0,
    swing_c: 8.0,
    hottest_north: 212.0,
    hottest_south: 30.0,
};

/// Standard deviation of that guess, °C.
const GUESS_SD: f64 = 4.0;

/// Standard deviation of a reading that stands for its day, °C.
const READING_SD: f64 = 1.0;

/// What a reading loses in certainty with each day away from it, °C, up to that of the guess.
const SD_A_DAY: f64 = 0.1;

/// What is known of the soil's temperature.
#[derive(Clone, Debug, PartialEq)]
pub enum SoilKnown {
    /// The same every day.
    Steady(Temperature),
    /// On these days, in order; between them a straight line, beyond them the season's own course.
    Days(Vec<(NaiveDate, Temperature)>, Hemisphere),
    /// Nothing but the season.
    Season(Hemisphere),
}

/// The half of the earth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hemisphere {
    /// Warmest in July.
    North,
    /// Warmest in January.
    South,
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
            Self::Days(days, half) => between(days, *half, date),
            Self::Season(half) => (guess(*half, date), GUESS_SD),
        };
        (
            Temperature::new::<degree_celsius>(c),
            TemperatureInterval::new::<kelvin>(sd),
        )
    }
}

fn between(days: &[(NaiveDate, Temperature)], half: Hemisphere, date: NaiveDate) -> (f64, f64) {
    let at = days.partition_point(|(day, _)| *day <= date);
    let before = at.checked_sub(1).and_then(|at| days.get(at));
    let away = |day: NaiveDate| (date - day).num_days().abs() as f64;
    let sd = |days: f64| (READING_SD + SD_A_DAY * days).min(GUESS_SD);
    // Past the ends the season's wave is shifted to meet the reading; the shift fades with the doubt.
    let carried = |(day, reading): &(NaiveDate, Temperature)| {
        let off = reading.get::<degree_celsius>() - guess(half, *day);
        let sd = sd(away(*day));
        let keeps = (GUESS_SD - sd) / (GUESS_SD - READING_SD);
        (guess(half, date) + off * keeps, sd)
    };
    match (before, days.get(at)) {
        (Some((from, low)), Some((to, high))) => {
            let (low, high) = (low.get::<degree_celsius>(), high.get::<degree_celsius>());
            let along = away(*from) / (*to - *from).num_days().max(1) as f64;
            (low + (high - low) * along, sd(away(*from).min(away(*to))))
        }
        (Some(end), None) | (None, Some(end)) => carried(end),
        (None, None) => (guess(half, date), GUESS_SD),
    }
}

fn guess(half: Hemisphere, date: NaiveDate) -> f64 {
    let hottest = match half {
        Hemisphere::North => GUESS.hottest_north,
        Hemisphere::South => GUESS.hottest_south,
    };
    let turned = TAU * (f64::from(date.ordinal()) - hottest) / 365.25;
    GUESS.mean_c + GUESS.swing_c * turned.cos()
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
            Hemisphere::North,
        );
        let (c, sd) = on(&known, day(4, 6));
        assert!((c - 10.0).abs() < 1e-9);
        assert!((sd - 1.5).abs() < 1e-9);
    }

    #[test]
    fn long_past_a_reading_only_the_season_is_known() {
        let known = SoilKnown::Days(vec![(day(4, 1), celsius(20.0))], Hemisphere::North);
        let season = SoilKnown::Season(Hemisphere::North);
        assert_eq!(on(&known, day(4, 1)), (20.0, 1.0));
        assert_eq!(on(&known, day(8, 1)), on(&season, day(8, 1)));
    }

    #[test]
    fn the_south_is_warm_in_january() {
        let south = SoilKnown::Season(Hemisphere::South);
        assert!(on(&south, day(7, 15)).0 < on(&south, day(1, 15)).0);
    }
}
