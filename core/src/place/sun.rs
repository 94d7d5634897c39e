//! Day length and the sun's strength from latitude and date.
//!
//! Day length is that of the NOAA Global Monitoring Division's general solar position equations:
//! from sunrise to sunset of the sun's upper edge with the usual refraction (zenith 90.833°).
//! The declination is that of *The Astronomical Almanac*, section C, "Low precision formulas for
//! the Sun" (0.01° from 1950 to 2050), because the one in those equations (J. W. Spencer,
//! *Search* 2(5), 1971) counts from New Year and has drifted by a day since: in September it is
//! half a degree off, at 60° north seven minutes of daylight. Against the NREL solar position
//! algorithm at Greenwich it errs by less than 0.02 h from 60° south to 66° north. It knows
//! nothing of hills and trees.
//!
//! Radiation above the air follows R. G. Allen and others, *Crop evapotranspiration*, FAO
//! Irrigation and Drainage Paper 56, 1998, equations 21 and 23 to 25.

pub use super::latitude::Latitude;
use crate::{quantity::Time, time::wrapped};
use chrono::{Datelike, NaiveDate};
use std::f64::consts::PI;
use uom::si::f64::RadiantExposure;
use uom::si::radiant_exposure::megajoule_per_square_meter;
use uom::si::time::hour;

/// Below this day length growth nearly stops: ten hours, a growers' rule and no measured constant.
const SHORT_DAY_HOURS: f64 = 10.0;

/// Time from sunrise to sunset, from 0 to 24 hours.
///
/// Twelve hours and a little at the equinox everywhere (refraction and the sun's disc lengthen the day):
/// ```
/// use pegline_core::{place::{Latitude, sun::day_length}, time::iso::read_date};
/// use uom::si::time::hour;
/// let equinox = read_date("2026-03-20").unwrap();
/// for degrees in [-40.0, 0.0, 40.0] {
///     let day = day_length(Latitude::from_degrees(degrees).unwrap(), equinox).get::<hour>();
///     assert!((12.0..12.3).contains(&day), "{day}");
/// }
/// ```
#[must_use]
pub fn day_length(latitude: Latitude, date: NaiveDate) -> Time {
    Time::new::<hour>(day_hours(latitude, date))
}

/// The first and the last day shorter than ten hours, of the winter that contains `around` or is
/// the next to come; nothing where no day is so short (up to about 32° either way).
#[must_use]
pub fn short_days(latitude: Latitude, around: NaiveDate) -> Option<(NaiveDate, NaiveDate)> {
    let is_short = |day: &NaiveDate| day_hours(latitude, *day) < SHORT_DAY_HOURS;
    (-1..=1).find_map(|year| {
        let midwinter = shortest_day(latitude, around.year().checked_add(year)?)?;
        if !is_short(&midwinter) {
            return None;
        }
        let before = std::iter::successors(Some(midwinter), NaiveDate::pred_opt);
        let after = std::iter::successors(Some(midwinter), NaiveDate::succ_opt);
        // OK because no place has short days the whole year: at the poles half of it is light.
        let first = before.take_while(is_short).last()?;
        let last = after.take_while(is_short).last()?;
        (around <= last).then_some((first, last))
    })
}

/// Radiation of a day on a level surface above the air (Ra), from 0 to about 50 MJ/m²; over the
/// heat of vaporisation it is a depth of water (0.408 mm for each MJ/m², FAO-56 eq. 20).
///
/// Source: FAO-56 eq. 21. Meant for 55° south to 55° north; beyond, the sun that never sets or
/// rises is taken for a whole day or none.
#[must_use]
pub fn extraterrestrial_radiation(latitude: Latitude, date: NaiveDate) -> RadiantExposure {
    /// Solar constant, MJ/m² in a minute (FAO-56 eq. 21).
    const SOLAR_CONSTANT: f64 = 0.0820;
    let (sin, cos) = latitude.radians().sin_cos();
    let declination = fao_declination(date);
    let sunset = fao_sunset_angle(latitude, declination);
    let (sin_sun, cos_sun) = declination.sin_cos();
    let share = sunset * sin * sin_sun + cos * cos_sun * sunset.sin();
    let megajoules = 24.0 * 60.0 / PI * SOLAR_CONSTANT * fao_inverse_distance(date) * share;
    RadiantExposure::new::<megajoule_per_square_meter>(megajoules.max(0.0))
}

/// The shortest day of the winter that begins in that year.
fn shortest_day(latitude: Latitude, year: i32) -> Option<NaiveDate> {
    let month = if latitude.is_southern() { 6 } else { 12 };
    let day = |day| NaiveDate::from_ymd_opt(year, month, day);
    // The solstice falls between the 20th and the 23rd.
    (19..=24)
        .filter_map(day)
        .min_by(|one, other| day_hours(latitude, *one).total_cmp(&day_hours(latitude, *other)))
}

fn day_hours(latitude: Latitude, date: NaiveDate) -> f64 {
    /// Half the sun's width and the refraction at the horizon put its upper edge there.
    const ZENITH_AT_SUNRISE_DEGREES: f64 = 90.833;
    let (sin, cos) = latitude.radians().sin_cos();
    let (sin_sun, cos_sun) = declination(date).sin_cos();
    let cos_half_day =
        (ZENITH_AT_SUNRISE_DEGREES.to_radians().cos() - sin * sin_sun) / (cos * cos_sun);
    // Beyond ±1 the sun stays up or down all day. OK at the poles too: the cosine of the float
    // nearest to a right angle is not quite zero.
    let half_day = cos_half_day.clamp(-1.0, 1.0).acos();
    half_day.to_degrees() * 2.0 / 15.0
}

/// The sun's declination at noon, in radians (*The Astronomical Almanac*, section C).
fn declination(date: NaiveDate) -> f64 {
    /// 1 January 2000, from whose noon the formulas count.
    const DAYS_TO_2000: i32 = 730_120;
    let days = f64::from(date.num_days_from_ce() - DAYS_TO_2000);
    let mean_longitude = wrapped(280.460 + 0.985_647_4 * days, 360.0);
    let anomaly = wrapped(357.528 + 0.985_600_3 * days, 360.0).to_radians();
    let longitude = mean_longitude + 1.915 * anomaly.sin() + 0.020 * (2.0 * anomaly).sin();
    let obliquity = 23.439 - 0.000_000_4 * days;
    (obliquity.to_radians().sin() * longitude.to_radians().sin()).asin()
}

/// Inverse relative distance between earth and sun (FAO-56 eq. 23).
fn fao_inverse_distance(date: NaiveDate) -> f64 {
    1.0 + 0.033 * fao_angle(date).cos()
}

/// Declination in radians (FAO-56 eq. 24).
fn fao_declination(date: NaiveDate) -> f64 {
    0.409 * (fao_angle(date) - 1.39).sin()
}

/// Hour angle of sunset in radians, from 0 to π (FAO-56 eq. 25).
fn fao_sunset_angle(latitude: Latitude, declination: f64) -> f64 {
    let (sin, cos) = latitude.radians().sin_cos();
    let (sin_sun, cos_sun) = declination.sin_cos();
    (-(sin * sin_sun) / (cos * cos_sun)).clamp(-1.0, 1.0).acos()
}

fn fao_angle(date: NaiveDate) -> f64 {
    2.0 * PI / 365.0 * f64::from(date.ordinal())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn date(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn at(degrees: f64) -> Latitude {
        Latitude::from_degrees(degrees).unwrap()
    }

    fn hours(degrees: f64, day: &str) -> f64 {
        day_length(at(degrees), date(day)).get::<hour>()
    }

    /// FAO-56 example 8 (3 September, 20° S) and example 9, day length by eq. 34 (from memory,
    /// the last also as 11.66559 in the documentation of the NCAR Command Language).
    #[test]
    fn the_steps_to_radiation_match_the_worked_examples() {
        let day = date("2025-09-03");
        assert_eq!(day.ordinal(), 246);
        assert!((fao_inverse_distance(day) - 0.985).abs() < 0.0005);
        assert!((fao_declination(day) - 0.120).abs() < 0.0005);
        let sunset = fao_sunset_angle(at(-20.0), fao_declination(day));
        assert!((sunset - 1.527).abs() < 0.0005);
        assert!((24.0 / PI * sunset - 11.66559).abs() < 0.00001);
    }

    #[test]
    fn the_count_of_days_starts_in_2000() {
        assert_eq!(date("2000-01-01").num_days_from_ce(), 730_120);
    }

    #[test]
    fn beyond_the_polar_circles_the_sun_stays_up_or_down() {
        assert_eq!(hours(80.0, "2025-06-21"), 24.0);
        assert_eq!(hours(80.0, "2025-12-21"), 0.0);
        assert_eq!(hours(-80.0, "2025-06-21"), 0.0);
        for degrees in [-90.0, 90.0] {
            for month in 1..=12 {
                let hours = hours(degrees, &format!("2025-{month:02}-05"));
                assert!(hours == 0.0 || hours == 24.0, "{degrees} {month} {hours}");
            }
        }
    }

    #[test]
    fn the_sun_crosses_the_equator_on_the_day_of_the_equinox() {
        // Equinoxes fell on 20 March 09:01 and 22 September 18:19 UT in 2025, on 20 March 03:06
        // and 22 September 12:44 UT in the leap year 2024 (The Astronomical Almanac, from memory).
        for (before, after) in [
            ("2025-03-19", "2025-03-20"),
            ("2025-09-23", "2025-09-22"),
            ("2024-03-19", "2024-03-20"),
            ("2024-09-23", "2024-09-22"),
        ] {
            assert!(declination(date(before)) < 0.0 && declination(date(after)) > 0.0, "{after}");
        }
    }

    #[test]
    fn the_season_of_short_days_contains_the_date_or_follows_it() {
        let season = |degrees, day| short_days(at(degrees), date(day));
        let winter = season(45.0, "2025-12-01");
        for day in
            ["2025-02-15", "2025-07-01", "2025-11-06", "2025-12-31", "2026-01-15", "2026-02-05"]
        {
            assert_eq!(season(45.0, day), winter, "{day}");
        }
        assert_eq!(winter.unwrap().0.year(), 2025);
        let southern = season(-45.0, "2025-08-30").unwrap();
        assert_eq!((southern.0.year(), southern.1.year()), (2026, 2026));
        assert_eq!(season(0.0, "2025-12-21"), None);
        assert_eq!(season(32.0, "2025-12-21"), None);
        assert_eq!(season(-32.0, "2025-06-21"), None);
    }

    #[test]
    fn polar_night_is_part_of_the_season_of_short_days() {
        for degrees in [66.5, 70.0, 85.0, 90.0] {
            let (first, last) = short_days(at(degrees), date("2025-12-21")).unwrap();
            assert!(first < date("2025-10-15") && date("2025-09-20") < first, "{degrees} {first}");
            assert!(date("2026-02-25") < last && last < date("2026-03-25"), "{degrees} {last}");
        }
    }

    #[test]
    fn the_ends_of_the_calendar_are_no_trap() {
        for day in [NaiveDate::MIN, NaiveDate::MAX] {
            let _ = short_days(at(50.0), day);
            let _ = short_days(at(-50.0), day);
            assert!(day_length(at(50.0), day).get::<hour>() > 7.0);
        }
    }

    proptest! {
        #[test]
        fn days_and_radiation_stay_within_their_ranges(degrees in -90.0..=90.0_f64, day in -200_000..200_000_i32) {
            let date = NaiveDate::from_epoch_days(day).unwrap();
            let hours = day_hours(at(degrees), date);
            prop_assert!((0.0..=24.0).contains(&hours));
            let radiation = extraterrestrial_radiation(at(degrees), date);
            let radiation = radiation.get::<megajoule_per_square_meter>();
            prop_assert!((0.0..=50.0).contains(&radiation));
        }

        #[test]
        fn every_day_of_the_season_is_short_and_the_days_beside_it_are_not(
            degrees in -89.0..=89.0_f64,
            day in 0..40_000_i32,
        ) {
            let around = NaiveDate::from_epoch_days(day).unwrap();
            let is_short = |day| day_hours(at(degrees), day) < SHORT_DAY_HOURS;
            match short_days(at(degrees), around) {
                None => prop_assert!(degrees.abs() < 33.0),
                Some((first, last)) => {
                    prop_assert!(around <= last);
                    prop_assert!((first - around).num_days() < 366);
                    prop_assert!(first.iter_days().take_while(|day| *day <= last).all(is_short));
                    prop_assert!(!is_short(first.pred_opt().unwrap()));
                    prop_assert!(!is_short(last.succ_opt().unwrap()));
                }
            }
            if is_short(around) {
                let (first, last) = short_days(at(degrees), around).unwrap();
                prop_assert!(first <= around && around <= last);
            }
        }
    }
}
