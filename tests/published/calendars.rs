//! Published planting calendars: may a crop go in when they say, and not when they leave it out?
//!
//! `data/calendars.jsonl`: a line is one crop of one calendar at one place, with its source and how it
//! is known; a place's climate and a calendar's name stand on its first line. `basis: read`: the
//! windows stand in a page that was read. `edges: partly set by me`: words such as "early spring" were
//! turned into dates. `judge_*`: where the source's list is whole enough to call a day wrong.
//! `cargo xtask audit --calendars FILE` runs the same over a longer list and prints its table.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use std::collections::BTreeMap;

use chrono::{Datelike, Duration, NaiveDate};
use pegline_core::{
    catalogue,
    place::{
        Latitude,
        air::Air,
        soil::{SoilYear, Texture},
    },
    quantity::Temperature,
    season::{Growing, How, Verdict, Year},
    time::DayOfYear,
};
use serde_json::Value;

use crate::stations::celsius;

/// What is asked of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Check {
    /// The middle of every window: it may go in.
    Middle,
    /// 45 days before a window that opens in spring: it may not, as a plant.
    Early,
    /// The coldest day 45 days or more outside every window, within 60 days of midwinter: not.
    Midwinter,
    /// The hottest such day within 60 days of midsummer: not.
    Midsummer,
    /// 45 days after the end of the last window of summer or autumn: not.
    Late,
}

/// How many of how many came out as published.
type Shares = BTreeMap<(String, Check), [usize; 2]>;

struct Place {
    year: Year,
    /// Mean of each day, °C.
    means: Vec<f64>,
    coldest: i64,
    hottest: i64,
}

impl Place {
    fn new(row: &Value) -> Self {
        let months = |name: &str| -> [Temperature; 12] {
            let months = row[name].as_array().unwrap();
            std::array::from_fn(|month| celsius(months[month].as_f64().unwrap()))
        };
        let air = Air::from_months(&months("monthly_low_c"), &months("monthly_high_c"), None);
        let soil = SoilYear::from_air(&air, Texture::Loam);
        let latitude = Latitude::read(row["latitude"].as_str().unwrap()).unwrap();
        let degrees = |temperature: Temperature| {
            temperature.get::<uom::si::thermodynamic_temperature::degree_celsius>()
        };
        let mean = |day: u32| {
            let day = DayOfYear::new(f64::from(day));
            (degrees(air.low(day)) + degrees(air.high(day))) / 2.0
        };
        let means: Vec<f64> = (1..=365).map(mean).collect();
        let at = |most: bool| {
            let key = |day: &usize| (means[*day] * if most { -1000.0 } else { 1000.0 }) as i64;
            (0..365).min_by_key(key).unwrap() as i64
        };
        let (coldest, hottest) = (at(false), at(true));
        Self { year: Year::new(&air, &soil, Some(latitude)), means, coldest, hottest }
    }

    fn mean(&self, day: i64) -> f64 {
        self.means[day.rem_euclid(365) as usize]
    }
}

fn date(day: i64) -> NaiveDate {
    NaiveDate::from_yo_opt(2026, 1).unwrap() + Duration::days(day.rem_euclid(365))
}

/// First and last day of a window, counted from New Year; the last may lie in the year after.
fn window(text: &Value) -> (i64, i64) {
    let day = |end: usize| {
        let date: NaiveDate = format!("2026-{}", text[end].as_str().unwrap()).parse().unwrap();
        i64::from(date.ordinal0())
    };
    let (from, to) = (day(0), day(1));
    (from, if to >= from { to } else { to + 365 })
}

/// Days to the nearest window, round the year.
fn gap(day: i64, windows: &[(i64, i64)]) -> i64 {
    let to = |(from, to): &(i64, i64)| {
        let gaps = [-365, 0, 365].map(|year| (from + year - day).max(day - to - year).max(0));
        gaps.into_iter().min().unwrap()
    };
    windows.iter().map(to).min().unwrap()
}

/// The days that a row is asked on.
fn asked(row: &Value, place: &Place) -> Vec<(Check, i64)> {
    let windows: Vec<(i64, i64)> = row["windows"].as_array().unwrap().iter().map(window).collect();
    let judged = |name: &str| row[name].as_bool().unwrap();
    let mut asked = Vec::new();
    for &(from, to) in &windows {
        asked.push((Check::Middle, (from + to) / 2));
        let in_spring = (1..=165).contains(&(from - place.coldest).rem_euclid(365))
            && place.mean(from + 15) > place.mean(from - 15);
        let others: Vec<_> = windows.iter().copied().filter(|other| *other != (from, to)).collect();
        let clear = others.is_empty() || gap(from - 45, &others) >= 10;
        if row["how"] == "plant" && to - from < 360 && judged("judge_early") && in_spring && clear {
            asked.push((Check::Early, from - 45));
        }
    }
    if judged("judge_late") {
        let is_late =
            |to: &i64| (-10..=120).contains(&((to - place.hottest + 180).rem_euclid(365) - 180));
        let last = windows.iter().map(|(_, to)| *to).rfind(is_late);
        if let Some(end) = last.filter(|end| gap(end + 45, &windows) >= 45) {
            asked.push((Check::Late, end + 45));
        }
    }
    for (side, centre, check) in
        [("cold", place.coldest, Check::Midwinter), ("hot", place.hottest, Check::Midsummer)]
    {
        let near = |day: &i64| {
            let off = (day - centre).rem_euclid(365);
            off.min(365 - off) <= 60 && gap(*day, &windows) >= 45
        };
        let sign = if check == Check::Midwinter { 1000.0 } else { -1000.0 };
        let worst = (0..365).step_by(3).filter(near);
        let worst = worst.min_by_key(|day| (place.mean(*day) * sign) as i64);
        let is_judged = row["judge_outside"].as_array().unwrap().iter().any(|it| it == side);
        asked.extend(worst.filter(|_| is_judged).map(|day| (check, day)));
    }
    asked
}

/// Runs every row of the text; also says how many rows could not be told.
fn run(text: &str, read_only: bool) -> (Shares, BTreeMap<String, Shares>, usize) {
    let mut places: BTreeMap<String, Place> = BTreeMap::new();
    let (mut shares, mut by_place) = (Shares::new(), BTreeMap::<String, Shares>::new());
    let mut untold = 0;
    let misses = std::env::var("PEGLINE_MISSES").is_ok();
    for line in text.lines() {
        let row: Value = serde_json::from_str(line).unwrap();
        let name = row["place"].as_str().unwrap().to_owned();
        let place = places.entry(name.clone()).or_insert_with(|| Place::new(&row));
        if read_only && row["basis"] != "read" {
            continue;
        }
        let crop = catalogue::crop(row["crop"].as_str().unwrap()).ok().unwrap();
        let how = if row["how"] == "sow" { How::Sown } else { How::SetOut };
        let Ok(growing) = Growing::new(&place.year, crop, how) else {
            untold += 1;
            continue;
        };
        for (check, day) in asked(&row, place) {
            let course = growing.course(date(day));
            let may = course.verdict == Verdict::Yes;
            let good = may == (check == Check::Middle);
            if misses && !good {
                println!(
                    "{check:?} {how:?} {} | {name} | {} | {:?} alive {:.2} first {:?} | {}",
                    crop.id(),
                    date(day),
                    course.reason,
                    course.alive,
                    course.first.likely,
                    row["windows"]
                );
            }
            for shares in [&mut shares, by_place.entry(name.clone()).or_default()] {
                let share = shares.entry((row["how"].as_str().unwrap().to_owned(), check));
                let [right, all] = share.or_default();
                *right += usize::from(good);
                *all += 1;
            }
        }
    }
    (shares, by_place, untold)
}

fn show(shares: &Shares) -> String {
    let one = |((how, check), [right, all]): (&(String, Check), &[usize; 2])| {
        format!("{how} {check:?} {right}/{all} ({:.0} %)", 100.0 * *right as f64 / *all as f64)
    };
    shares.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// What is held over these rows, percent. All read rows (25 places, 250 windows sown and 100 set out)
/// come to 92, 99, 79, 100 and 86, 86, 100, 93, 100; all rows, with those from memory, to 91, 98, 78, 84
/// and 86, 86, 100, 94, 100. Below the whole list's stand midsummer, which rests on 12 days, and the
/// middle of windows set out, where five of nine misses are one coast's, printed early. With nights that
/// scatter less, as nine stations alone had it, the middles are 1 and 2 percent better and the early days
/// 5 worse.
const HELD: [(&str, Check, usize); 8] = [
    ("sow", Check::Middle, 91),
    ("sow", Check::Midwinter, 96),
    ("sow", Check::Midsummer, 75),
    ("sow", Check::Late, 92),
    ("plant", Check::Middle, 80),
    ("plant", Check::Early, 78),
    ("plant", Check::Midwinter, 96),
    ("plant", Check::Midsummer, 86),
];

#[test]
fn crops_go_in_when_published_calendars_say() {
    let rows = include_str!("data/calendars.jsonl");
    let (shares, by_place, untold) = run(rows, true);
    println!("{} rows at {} places: {}", rows.lines().count(), by_place.len(), show(&shares));
    assert_eq!(untold, 0, "every row of the list is of a crop with figures");
    for (how, check, held) in HELD {
        let [right, all] = shares[&(how.to_owned(), check)];
        assert!(
            100 * right + all / 2 >= held * all,
            "{how} {check:?}: {right} of {all}, not {held} %"
        );
    }
}

/// Only prints: what a longer list comes to.
#[test]
#[ignore = "asks a file that is named: cargo xtask audit --calendars FILE"]
fn a_longer_list() {
    let Ok(path) = std::env::var("PEGLINE_CALENDARS") else { return };
    let text = std::fs::read_to_string(path).unwrap();
    for read_only in [false, true] {
        let (shares, by_place, untold) = run(&text, read_only);
        println!("{}: {}", if read_only { "read rows" } else { "all rows" }, show(&shares));
        println!("  rows not told: {untold}");
        for (place, shares) in by_place.iter().filter(|_| !read_only) {
            println!("  {place}: {}", show(shares));
        }
    }
}
