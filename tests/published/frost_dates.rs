//! First and last frost against daily records.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use pegline_core::{
    place::{
        air::{Air, MID_MONTHS},
        frost_dates::{FrostDates, Spread},
    },
    quantity::{Temperature, TemperatureInterval},
    time::DayOfYear,
};
use uom::si::temperature_interval::degree_celsius as kelvin;

use crate::{
    near,
    stations::{self, Station, celsius, kelvins},
};

fn days(spread: Spread) -> [Option<f64>; 3] {
    [spread.tenth, spread.half, spread.nine_tenths].map(|day| day.map(DayOfYear::number))
}

fn frosts(station: &Station) -> FrostDates {
    FrostDates::from_air(&station.air(), celsius(0.0), false)
}

#[track_caller]
fn all_near(what: &str, found: Spread, published: [f64; 3], tolerance: f64) {
    for (found, published) in days(found).into_iter().zip(published) {
        near(what, found.unwrap(), published, tolerance);
    }
}

/// The model's dates at the stations of Srivastava and others (2019), worked apart from this
/// program: Seattle 3, 19 Nov, 7 Dec and 26 Feb, 18 Mar, 14 Apr.
#[test]
fn the_stations_dates_are_the_worked_ones() {
    let seattle = frosts(&stations::SEATTLE);
    all_near("first at Seattle", seattle.first, [307.0, 323.0, 341.0], 1.0);
    all_near("last at Seattle", seattle.last, [57.0, 77.0, 104.0], 1.0);
    // Denver 8 Oct and 8 May, Burlington 9 Oct and 8 May, Atlanta 18 Nov and 21 Mar.
    for (station, first, last) in [
        (stations::DENVER, 281.0, 128.0),
        (stations::BURLINGTON, 282.0, 128.0),
        (stations::ATLANTA, 322.0, 80.0),
    ] {
        let dates = frosts(&station);
        near(station.name, days(dates.first)[1].unwrap(), first, 1.0);
        near(station.name, days(dates.last)[1].unwrap(), last, 1.0);
    }
}

/// The scatter of single lows, where it is not known, is 0.5 °C off at the nine stations (root mean
/// square).
#[test]
fn the_usual_scatter_of_nights_is_near_the_stations() {
    let mut squares = 0.0;
    for station in stations::ALL {
        let air = Air::from_months(&station.low.map(celsius), &station.high.map(celsius), None);
        for (month, day) in MID_MONTHS.into_iter().enumerate() {
            let sd = air.low_sd(DayOfYear::new(day)).get::<kelvin>();
            squares += (sd - station.low_sd[month]).powi(2);
        }
    }
    let rms = (squares / 108.0f64).sqrt();
    println!("rms {rms:.3} °C");
    near("rms", rms, 0.5, 0.05);
}

struct Series {
    name: &'static str,
    air: Air,
    first: Vec<Option<f64>>,
    last: Vec<Option<f64>>,
}

fn series() -> Vec<Series> {
    let text = include_str!("data/frost_in_eight_daily_series.txt");
    text.split("\nseries ").skip(1).map(one_series).collect()
}

fn one_series(text: &'static str) -> Series {
    let mut lines = text.lines();
    let name = lines.next().unwrap();
    let fields = |key: &str| {
        let mut lines = text.lines().filter_map(|line| line.strip_prefix(key));
        lines.next().unwrap().split_whitespace()
    };
    let months = |key: &str| -> [f64; 12] {
        let months: Vec<f64> = fields(key).map(|value| value.parse().unwrap()).collect();
        months.try_into().unwrap()
    };
    let lows: [Temperature; 12] = months("low ").map(celsius);
    let highs: [Temperature; 12] = months("high ").map(celsius);
    let sds: [TemperatureInterval; 12] = months("sd ").map(kelvins);
    let days = |key: &str| fields(key).map(|day| day.parse().ok()).collect();
    Series {
        name,
        air: Air::from_months(&lows, &highs, Some(&sds)),
        first: days("first "),
        last: days("last "),
    }
}

/// The middle of the years, a year without frost counting as beyond all.
fn median(days: &[Option<f64>], none: f64) -> f64 {
    let mut days: Vec<f64> = days.iter().map(|day| day.unwrap_or(none)).collect();
    days.sort_by(f64::total_cmp);
    let middle = days.len() / 2;
    if days.len() % 2 == 1 { days[middle] } else { 0.5 * (days[middle - 1] + days[middle]) }
}

/// Eight daily series of 30 to 37 years. Stated error of the median date: 3 days or less at most,
/// up to 9 days at some, and 17 days in spring at the mild coast of Suffolk.
#[test]
fn median_frost_dates_of_eight_daily_series_are_met_within_the_stated_error() {
    let series = series();
    assert_eq!(series.len(), 8);
    let mut within_three = 0;
    for series in &series {
        assert!(series.first.len() >= 30, "{}", series.name);
        let model = FrostDates::from_air(&series.air, celsius(0.0), false);
        let first = days(model.first)[1].unwrap() - median(&series.first, 999.0);
        let last = days(model.last)[1].unwrap() - median(&series.last, -999.0);
        println!(
            "{}: first {:?} off {first:+.1}, last {:?} off {last:+.1}",
            series.name,
            days(model.first),
            days(model.last)
        );
        within_three += i32::from(first.abs() <= 3.5) + i32::from(last.abs() <= 3.5);
        let (autumn, spring) = match series.name {
            "suffolk" => (4.0, 18.0),
            "lincolnshire" => (9.0, 10.0),
            _ => (4.0, 4.0),
        };
        assert!(first.abs() <= autumn, "{}: first frost is off by {first}", series.name);
        assert!(last.abs() <= spring, "{}: last frost is off by {last}", series.name);
    }
    println!("{within_three} of 16 within three days");
    assert!(within_three >= 12);
}

/// Nine years of ten: the share of all years outside the model's tenth and nine-tenths is near a
/// fifth.
#[test]
fn about_one_year_in_five_is_outside_the_model_s_spread() {
    let (mut outside, mut all) = (0.0, 0.0);
    for series in series() {
        let model = FrostDates::from_air(&series.air, celsius(0.0), false);
        let [early, _, late] = days(model.first);
        for day in series.first.iter().map(|day| day.unwrap_or(999.0)) {
            outside +=
                f64::from(u8::from(day < early.unwrap() || late.is_some_and(|late| day > late)));
            all += 1.0;
        }
        let [early, _, late] = days(model.last);
        for day in series.last.iter().map(|day| day.unwrap_or(-999.0)) {
            outside +=
                f64::from(u8::from(day > late.unwrap() || early.is_some_and(|early| day < early)));
            all += 1.0;
        }
    }
    println!("{outside} of {all} years outside");
    near("share outside", outside / all, 0.2, 0.07);
}

/// Where only the coldest and the hottest month are known, the stations' median dates move by 9
/// days (root mean square; up to 14 where frost comes every winter, 25 at Houston, where it
/// doesn't), and the spread is widened by that.
#[test]
fn fewer_numbers_move_the_median_dates_by_as_much_as_is_said() {
    let mut moves: Vec<f64> = Vec::new();
    for station in stations::ALL {
        let full = frosts(&station);
        let few = FrostDates::from_air(&station.air_from_extremes(), celsius(0.0), false);
        for (full, few) in [(full.first, few.first), (full.last, few.last)] {
            let ([early, Some(full), _], [wide_early, Some(few), _]) = (days(full), days(few))
            else {
                continue;
            };
            println!("{}: {full} {few}", station.name);
            moves.push(few - full);
            assert!(few - wide_early.unwrap() >= 9.0, "{early:?}");
        }
    }
    let rms = (moves.iter().map(|days| days * days).sum::<f64>() / moves.len() as f64).sqrt();
    println!("{moves:?}: rms {rms:.1} days");
    near("rms", rms, 9.0, 1.0);
    assert!(moves.iter().filter(|days| days.abs() > 14.0).count() <= 1);
}
