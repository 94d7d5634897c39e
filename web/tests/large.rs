//! Ten years of a garden: how long it takes to fold and to show them. A measurement, without a browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::{collections::BTreeMap, time::Instant};

use chrono::{Duration, NaiveDate, NaiveDateTime};
use pegline_core::{
    garden::Garden,
    journal::{Ulid, line},
};
use pegline_web::{
    Now,
    app::App,
    store::{Quick, Store},
};
use serde_json::json;

/// A `localStorage` of these lines.
#[derive(Clone, Debug, Default)]
struct Lines(BTreeMap<String, String>);

impl Quick for Lines {
    fn count(&self) -> usize {
        self.0.len()
    }

    fn keys(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }

    fn get(&self, key: &str) -> Option<String> {
        self.0.get(key).cloned()
    }

    fn set(&mut self, key: &str, text: &str) {
        self.0.insert(key.to_owned(), text.to_owned());
    }

    fn remove(&mut self, key: &str) {
        self.0.remove(key);
    }
}

const BEDS: usize = 20;
/// Crops by their ids, by other names, and of the gardener's own.
const CROPS: [&str; 10] = [
    "cabbage",
    "leek",
    "garlic",
    "Sugar snaps",
    "kale",
    "Auntie’s beans",
    "lettuce-leaf",
    "courgettes",
    "Gran’s greens",
    "carrot",
];

fn last_day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 7, 25).unwrap()
}

/// A record of so many entries in ten years, of which a hundred plantings are in the ground on the last
/// day.
fn ten_years(entries: usize) -> Lines {
    let mut record = Record::default();
    let first = (last_day() - Duration::days(3650)).and_hms_opt(8, 0, 0).unwrap();
    record.add(
        first,
        r#""kind":"place","what":{"latitude":"45.5","last_frost":"04-20","first_frost":"10-20"}"#,
    );
    for bed in 0..BEDS {
        record.add(first, &format!(
            r#""kind":"bed","about":{{"bed":"bed-{bed}"}},"what":{{"bed":{{"drip":{{"emitter_spacing":"9 in","line_spacing":"12 in","lines":4}},"length":"12 ft","width":"4 ft"}},"name":"Bed {bed}"}}"#
        ));
    }
    let (mut standing, mut number) = (Vec::<(String, usize)>::new(), 0);
    while record.lines.0.len() < entries {
        let share = record.lines.0.len() as f64 / entries as f64;
        let when = first + Duration::minutes((share * 3640.0 * 1440.0) as i64);
        number += 1;
        let bed = number * 7 % BEDS;
        let of_bed = format!(r#""about":{{"bed":"bed-{bed}"}}"#);
        match number % 10 {
            0 | 5 => {
                let crop = CROPS[number / 5 % CROPS.len()];
                let id = record.add(when, &format!(
                    r#""kind":"planted",{of_bed},"what":{{"at":"L1-2x2:1-11x6","count":12,"crop":"{crop}","spacing":"18 in"}}"#
                ));
                standing.push((id, bed));
                // So that the hundred youngest are in the ground.
                if standing.len() > 100 {
                    let (planting, _) = standing.remove(0);
                    record.add(when, &format!(r#""kind":"cleared","about":{{"planting":"{planting}"}},"what":{{"how":"pulled"}}"#));
                }
            }
            1 => drop(record.add(when, &format!(r#""kind":"reading",{of_bed},"what":{{"low":"34 F","soil":"52 F","depth":"4 in"}}"#))),
            2 => drop(record.add(when, r#""kind":"reading","what":{"spot":"outdoors","low":"31 F","high":"60 F"}"#)),
            3 => drop(record.add(when, &format!(r#""kind":"watered",{of_bed},"what":{{"minutes":40}}"#))),
            4 => drop(record.add(when, &format!(r#""kind":"harvest",{of_bed},"what":{{"amount":"3 lb","crop":"leek"}}"#))),
            6 => {
                let id = record.add(when, r#""kind":"start-sown","what":{"count":24,"crop":"cabbage","spot":"sill"}"#);
                // All but the last are used up.
                if share < 0.99 {
                    record.add(when + Duration::hours(1), &format!(r#""kind":"start-lost","about":{{"start":"{id}"}},"what":{{}}"#));
                }
            }
            7 => drop(record.add(when, &format!(r#""kind":"residue-laid",{of_bed},"what":{{"materials":[{{"residue":"rye","amount":"2 buckets"}}],"placement":"on-top"}}"#))),
            8 => {
                if let Some((planting, _)) = standing.last() {
                    let planting = planting.clone();
                    record.add(when, &format!(r#""kind":"check-in","about":{{"planting":"{planting}"}},"what":{{"stage":"prime"}}"#));
                }
            }
            _ => drop(record.add(when, &format!(r#""kind":"note",{of_bed},"what":{{"text":"slugs under the boards, {number} of them"}}"#))),
        }
    }
    record.lines
}

#[derive(Default)]
struct Record {
    lines: Lines,
}

impl Record {
    fn add(&mut self, when: NaiveDateTime, rest: &str) -> String {
        let millis = when.and_utc().timestamp_millis() as u128;
        let number = self.lines.0.len() as u128;
        let id = Ulid((millis << 80) | (number * 0x1_2345_6789));
        let when = when.format("%Y-%m-%dT%H:%M");
        let text = format!(r#"{{"v":1,"id":"{id}","when":"{when}",{rest}}}"#);
        let [key, _] = line::keys(id, &text);
        self.lines.0.insert(key, line::encode(&text));
        id.to_string()
    }
}

fn now(local: NaiveDateTime) -> Now {
    let millis = local.and_utc().timestamp_millis();
    Now { local, millis: u64::try_from(millis).unwrap(), random: [7; 10] }
}

/// The shortest of some tries, in milliseconds.
fn shortest<T>(tries: usize, mut what: impl FnMut() -> T) -> f64 {
    let each = (0..tries).map(|_| {
        let start = Instant::now();
        std::hint::black_box(what());
        start.elapsed().as_secs_f64() * 1000.0
    });
    each.fold(f64::INFINITY, f64::min)
}

#[test]
#[ignore = "a measurement; DEVELOPERS.md says how it is run"]
fn ten_years_are_quick() {
    for entries in [200, 5_000, 20_000] {
        let lines = ten_years(entries);
        let local = last_day().and_hms_opt(9, 0, 0).unwrap();
        let mut times = vec![("lines read", shortest(3, || Store::on(lines.clone())))];
        let opened = || App::new(Store::on(lines.clone()), now(local));
        times.push(("opened", shortest(3, opened)));
        let mut app = App::new(Store::on(lines.clone()), now(local));
        times.push(("folded", shortest(3, || Garden::fold(app.journal()))));
        assert_eq!(app.journal().strays().count() + app.journal().unread().count(), 0);
        let standing: usize = app.beds().iter().map(|bed| bed.plantings.len()).sum();
        for address in [
            "#/",
            "#/book",
            "#/beds",
            "#/bed/bed-7",
            "#/starts",
            "#/thermometers",
            "#/ask/frost-tonight",
            "#/ask/plants-per-bed/bed-7",
            "#/ask/residue-wait/bed-7",
            "#/ask/harvest-readiness",
            "#/ask/harvest-before-away",
            "#/ask/garlic-window",
        ] {
            let time = shortest(3, || {
                app.event("route", "#/settings", &json!(null), now(local));
                app.event("route", address, &json!(null), now(local))
            });
            times.push((address, time));
        }
        app.event("route", "#/settings", &json!(null), now(local));
        times.push(("#/settings", shortest(3, || app.show())));
        let first =
            app.garden().happened.iter().find(|it| it.entry.what.kind() == "planted").unwrap();
        let entry = format!("#/book/{}", first.entry.id);
        times.push((
            "an entry",
            shortest(3, || {
                app.event("route", "#/settings", &json!(null), now(local));
                app.event("route", &entry, &json!(null), now(local))
            }),
        ));
        app.event("route", "#/book", &json!(null), now(local));
        let letters = ["g", "ga", "gar"].map(|text| json!({"search": text}));
        times.push((
            "a letter looked for",
            shortest(3, || {
                letters.each_ref().map(|typed| app.event("input", "search", typed, now(local)))
            }) / 3.0,
        ));
        let note = json!({"note": "hail"});
        app.event("route", "#/bed/bed-3", &json!(null), now(local));
        times.push((
            "a note written",
            shortest(3, || app.event("submit", "note:bed-3", &note, now(local))),
        ));
        println!("{entries} entries, {standing} plantings in the ground, ms:");
        for (what, time) in times {
            println!("{time:>9.1}  {what}");
        }
    }
}
