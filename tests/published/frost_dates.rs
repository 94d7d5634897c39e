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

fn day(text: &str) -> f64 {
    let date: chrono::NaiveDate = format!("2026-{text}").parse().unwrap();
    f64::from(chrono::Datelike::ordinal(&date))
}

/// The model's dates at the stations of Srivastava and others (2019), worked apart from this program:
/// the last half, the last that nine years in ten are later than, the first half, the first that nine
/// in ten have come by. Within 10 days of them NOAA's normals of 1981 to 2010 print the same at these
/// stations (Seattle 8 March and 21 November, Denver 6 May and 6 October).
#[test]
fn the_stations_dates_are_the_worked_ones() {
    for (station, [last, last_most, first, first_most]) in [
        (stations::FARGO, ["05-09", "04-23", "09-28", "10-14"]),
        (stations::BURLINGTON, ["05-03", "04-17", "10-09", "10-26"]),
        (stations::DES_MOINES, ["04-18", "04-03", "10-16", "11-01"]),
        (stations::DENVER, ["05-03", "04-17", "10-08", "10-22"]),
        (stations::SEATTLE, ["03-09", "02-12", "11-19", "12-11"]),
        (stations::ATLANTA, ["03-14", "02-20", "11-19", "12-09"]),
        (stations::SACRAMENTO, ["02-11", "01-06", "12-02", "12-25"]),
    ] {
        let dates = frosts(&station);
        let [early, half, _] = days(dates.last);
        near(station.name, half.unwrap(), day(last), 1.0);
        near(station.name, early.unwrap(), day(last_most), 1.0);
        let [_, half, late] = days(dates.first);
        near(station.name, half.unwrap(), day(first), 1.0);
        near(station.name, late.unwrap(), day(first_most), 1.0);
    }
}

/// Sixty stations of the United States drawn by lot, none of them among the 250 on which the model's two
/// figures were chosen: dates of the last and the first 32 °F from NOAA's normals of 1981 to 2010 (read in
/// a stored copy), mean lows and their standard deviations from the files of the climate generator CLIGEN
/// (United States Department of Agriculture).
const FREEZE_DATES: &str = include_str!("data/freeze_dates_of_60_stations.csv");

/// Mean error and root mean square of the errors, days.
fn bias_and_rms(errors: &[f64]) -> (f64, f64) {
    let count = errors.len() as f64;
    let squares: f64 = errors.iter().map(|days| days * days).sum();
    (errors.iter().sum::<f64>() / count, (squares / count).sqrt())
}

/// Stated error of the middle dates: under 2 days in the mean, about 6 root mean square. The older powers
/// of 0.8 for spring and 0.5 for autumn stood 5.5 days late and 6.7 off in spring, 0.4 early and 4.5 off in
/// autumn at these stations.
#[test]
fn freeze_dates_of_sixty_stations_are_met_within_the_stated_error() {
    let mut lines = FREEZE_DATES.lines();
    let names: Vec<&str> = lines.next().unwrap().split(',').collect();
    let column = |name: &str| names.iter().position(|other| *other == name).unwrap();
    let mut errors: [Vec<f64>; 4] = Default::default();
    let mut stations = 0;
    for line in lines {
        stations += 1;
        let fields: Vec<&str> = line.split(',').collect();
        let months = |name: &str| -> [f64; 12] {
            core::array::from_fn(|month| {
                fields[column(&format!("{name}_{}", month + 1))].parse().unwrap()
            })
        };
        let lows = months("low_c").map(celsius);
        // Highs tell nothing of frost.
        let air = Air::from_months(&lows, &lows, Some(&months("low_sd_c").map(kelvins)));
        let dates = FrostDates::from_air(&air, celsius(0.0), false);
        let found = [dates.last.half, dates.last.tenth, dates.first.half, dates.first.nine_tenths];
        let printed = ["last_half", "last_nine_in_ten_later", "first_half", "first_nine_in_ten_by"];
        for ((errors, found), printed) in errors.iter_mut().zip(found).zip(printed) {
            if let (Some(found), false) = (found, fields[column(printed)].is_empty()) {
                let apart = found.number() - day(fields[column(printed)]);
                // Either may lie over the turn of the year.
                errors.push((apart + 182.0).rem_euclid(365.0) - 182.0);
            }
        }
    }
    assert_eq!(stations, 60);
    let [last, last_most, first, first_most] = &errors;
    for (what, errors, most_bias, most_rms) in [
        ("last, half", last, 2.0, 6.5),
        ("last, nine in ten later", last_most, 4.5, 6.5),
        ("first, half", first, 2.0, 6.5),
        ("first, nine in ten by", first_most, 3.0, 6.5),
    ] {
        let (bias, rms) = bias_and_rms(errors);
        println!("{what}: {} stations, bias {bias:+.2}, rms {rms:.2} days", errors.len());
        assert!(errors.len() >= 56, "{what}: only {} stations", errors.len());
        assert!(bias.abs() < most_bias && rms < most_rms, "{what}: {bias:+.2}, {rms:.2}");
    }
}

/// The scatter of single lows, where it is not known, is 0.7 °C off at 2764 stations (root mean square)
/// and not at all in the mean; it is no worse at these nine by much.
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
    near("rms", rms, 0.7, 0.05);
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

/// Eight daily series of 30 to 37 years, seven of them of Europe's west. Stated error of the median date:
/// 4 days for the first frost (7 at one place); up to 8 days for the last, of which this formula, right in
/// the mean at stations of the United States, is 3 early in the mean here.
#[test]
fn median_frost_dates_of_eight_daily_series_are_met_within_the_stated_error() {
    let series = series();
    assert_eq!(series.len(), 8);
    let (mut firsts, mut lasts) = (Vec::new(), Vec::new());
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
        let autumn = if series.name == "lincolnshire" { 7.0 } else { 4.0 };
        assert!(first.abs() <= autumn, "{}: first frost is off by {first}", series.name);
        assert!(last.abs() <= 8.0, "{}: last frost is off by {last}", series.name);
        firsts.push(first);
        lasts.push(last);
    }
    let ((first, _), (last, rms)) = (bias_and_rms(&firsts), bias_and_rms(&lasts));
    println!("in the mean {first:+.1} and {last:+.1}, spring rms {rms:.1}");
    assert!(first.abs() <= 2.0 && last.abs() <= 3.5 && rms <= 6.0);
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
/// days (root mean square; up to 11 where frost comes every winter, 26 and 17 at Sacramento and
/// Houston, where it hardly does), and the spread is widened by that.
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
            assert!(wide_early.is_none_or(|wide| few - wide >= 9.0), "{early:?}");
        }
    }
    let rms = (moves.iter().map(|days| days * days).sum::<f64>() / moves.len() as f64).sqrt();
    println!("{moves:?}: rms {rms:.1} days");
    near("rms", rms, 9.0, 1.0);
    assert!(moves.iter().filter(|days| days.abs() > 14.0).count() <= 2);
}
