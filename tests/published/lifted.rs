//! Garlic and onions: when they are lifted.
//!
//! Mean lows and highs: in the United States the files of the climate generator CLIGEN (United States
//! Department of Agriculture, 1974 to 2013); elsewhere CLIMAT reports 2003 to 2021 (data basis: Deutscher
//! Wetterdienst, modified, CC BY 4.0).

use chrono::{Datelike, Duration, NaiveDate};
use pegline_core::{
    catalogue::{self, garlic::Kind},
    place::{
        Latitude,
        air::Air,
        soil::{SoilYear, Texture},
    },
    season::{How, Year, course, garlic_lifted},
};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use crate::stations::celsius;

struct Row {
    place: &'static str,
    /// What stands before the temperatures, after place and latitude.
    told: Vec<&'static str>,
    year: Year,
    south: bool,
}

/// The rows of a table, `told` fields after place and latitude.
fn rows(text: &'static str, told: usize) -> Vec<Row> {
    let row = |line: &'static str| {
        let fields: Vec<&str> = line.split('|').collect();
        let months = |from: usize| -> [_; 12] {
            core::array::from_fn(|month| celsius(fields[2 + told + from + month].parse().unwrap()))
        };
        let air = Air::from_months(&months(0), &months(12), None);
        let degrees: f64 = fields[1].parse().unwrap();
        let soil = SoilYear::from_air(&air, Texture::Loam);
        Row {
            place: fields[0],
            told: fields[2..2 + told].to_vec(),
            year: Year::new(&air, &soil, Latitude::from_degrees(degrees)),
            south: degrees < 0.0,
        }
    };
    text.lines().skip(1).map(row).collect()
}

fn date(year: i32, text: &str) -> NaiveDate {
    format!("{year}-{text}").parse().unwrap()
}

fn garlic() -> Vec<Row> {
    rows(include_str!("data/garlic_lifted.txt"), 2)
}

/// Planted in October, in April south of the equator.
fn lifted(row: &Row) -> NaiveDate {
    let planted = if row.south { date(2026, "04-15") } else { date(2025, "10-15") };
    garlic_lifted(&row.year, planted, Kind::Hardneck).unwrap().likely.unwrap()
}

/// The middle of when garlic is usually lifted at 19 places, to which the rule was fitted with climates of
/// other stations: read for Kansas (late June to mid July, an extension column), New Zealand (December and
/// January, a grower's page) and Russia (the end of July, an advice page); the rest from memory. Stated
/// error: within about two weeks; 8.6 days root mean square with each place left out.
#[test]
fn garlic_is_lifted_within_about_two_weeks_of_the_usual_day() {
    let mut squares = Vec::new();
    for row in garlic().iter().filter(|row| !row.told[0].is_empty()) {
        let found = lifted(row);
        let usual = date(found.year(), row.told[0]);
        let off = (found - usual).num_days();
        let off = (off + 182).rem_euclid(365) - 182;
        println!("{}: {found}, usual {} ({}), {off:+}", row.place, row.told[0], row.told[1]);
        let most = if row.told[1] == "read" { 14 } else { 17 };
        assert!(off.abs() <= most, "{}: {found}, usual {usual}", row.place);
        squares.push((off * off) as f64);
    }
    let rms = (squares.iter().sum::<f64>() / squares.len() as f64).sqrt();
    println!("{} places, rms {rms:.1} days", squares.len());
    assert!(squares.len() == 19 && rms < 10.0, "{rms}");
}

/// Where winters are mild it is lifted in late spring: at Brisbane in November, never in January.
#[test]
fn garlic_at_brisbane_is_lifted_in_spring() {
    let rows = garlic();
    let brisbane = rows.iter().find(|row| row.place.starts_with("Brisbane")).unwrap();
    for planted in ["03-01", "04-15", "05-20", "06-10"] {
        let range = garlic_lifted(&brisbane.year, date(2026, planted), Kind::Hardneck).unwrap();
        let (early, late) = (range.early.unwrap(), range.late.unwrap());
        assert!(date(2026, "10-10") < early && late < date(2026, "12-10"), "{planted}: {range:?}");
    }
}

/// A colder place never lifts earlier; softneck is a week sooner (common practice).
#[test]
fn garlic_is_never_sooner_for_the_cold() {
    let rows = garlic();
    for row in &rows {
        let usual = lifted(row);
        let softneck = garlic_lifted(&row.year, usual - Duration::days(270), Kind::Softneck);
        assert_eq!(softneck.unwrap().likely.unwrap(), usual - Duration::days(7), "{}", row.place);
    }
    let mut by_latitude: Vec<_> = rows.iter().filter(|row| !row.south).collect();
    by_latitude.retain(|row| {
        ["Austin", "Richmond", "Cornwall", "North Battleford"]
            .iter()
            .any(|place| row.place.starts_with(place))
    });
    by_latitude.sort_by_key(|row| lifted(row));
    let order: Vec<&str> = by_latitude.iter().map(|row| &row.place[..6]).collect();
    assert_eq!(order, ["Austin", "Richmo", "Cornwa", "North "]);
}

/// Onions of the kind for their latitude, lifted when growers print it (all read):
/// - eastern Oregon: sown mid-March to mid-April, lifted from 20 August to 10 October (an onion packer's
///   timeline), early kinds from the beginning of August (*Capital Press*, 27 August 2019);
/// - Texas: sown in October and November, lifted from March to 20 May (the same timeline);
/// - south-east Georgia: set in autumn, shipped from 16 April on (*Valdosta Today*);
/// - England: sown February to April, lifted from August to October (a Berkshire growers' calendar).
#[test]
fn onions_are_lifted_when_growers_print_it() {
    let onion = catalogue::crop("onion-bulb").ok().unwrap();
    for row in rows(include_str!("data/onion_lifted.txt"), 5) {
        let [how, started, from, to, _] = row.told[..] else { panic!("{:?}", row.told) };
        let how = if how == "sown" { How::Sown } else { How::SetOut };
        let started = date(2026, started);
        let found = course(&row.year, onion, started, how).unwrap().first.likely.unwrap();
        let [from, to] = [from, to].map(|text| date(found.year(), text));
        println!("{}: {found}, printed {from} to {to}", row.place);
        assert!(from <= found && found <= to, "{}: {found}", row.place);
    }
}
