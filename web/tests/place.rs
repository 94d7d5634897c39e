//! Ways through the screens of the place: garlic's bed and its later steps, settings.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use serde_json::{Value, json};
use walk::Walk;

impl Walk {
    /// On the eighth of August, in a garden with two beds and a winter that freezes lightly.
    fn begin() -> Self {
        let mut walk = Self::at("2026-08-08T08:00:00");
        walk.go("#/settings");
        walk.event(
            "submit",
            "save-settings",
            &json!({"units": "us", "site": {"latitude": "41.5 N", "coldest": {"low": "13", "high": "30"}, "hottest": {"low": "67", "high": "86"}}}),
        );
        for (name, drains) in [("Fence bed", "no"), ("Shed bed", "yes")] {
            walk.go("#/beds/new");
            walk.event(
                "submit",
                "save-bed:",
                &json!({"bed": {"name": name, "length": "8", "width": "4", "drains": drains, "spring_sun": "yes"}}),
            );
        }
        walk
    }

    fn on(&mut self, year: i32, month: u32, day: u32) {
        let day = chrono::NaiveDate::from_ymd_opt(year, month, day).unwrap();
        self.local = day.and_time(self.local.time());
    }
}

#[test]
fn the_best_bed_is_kept_for_garlic_with_one_tap() {
    let mut walk = Walk::begin();
    walk.go("#/ask/garlic-window");
    walk.sees("Not yet: plant from");
    walk.sees("Shed bed comes first: it drains and it has sun in spring");
    walk.sees("Write: Shed bed kept for garlic from");
    walk.event("submit", "write", &json!({}));
    walk.sees("Written: Shed bed kept for garlic from");
    walk.sees("Kept for garlic from");
    walk.sees("until then: garden cress (about 15 days), radish (about 30 days)");
    walk.go("#/beds");
    walk.sees("Nothing in it yet. Kept for garlic from");
    walk.go("#/ask/garlic-window");
    walk.lacks("Write: ");
    walk.sees("Shed bed is kept for garlic from");
}

#[test]
fn later_steps_are_noted_one_by_one_or_all_and_end_as_done() {
    let mut walk = Walk::begin();
    walk.on(2026, 11, 1);
    walk.go("#/ask/garlic-window/shed-bed-ge1r7");
    walk.sees("Plant now");
    walk.sees("Note for later");
    walk.event("submit", "write:1", &json!({}));
    walk.sees("Mulch 3 to 4 in deep");
    walk.lacks("data-action=\"write:6\"");
    walk.event("submit", "write:all", &json!({}));
    walk.sees("<h2>Ahead</h2>");
    walk.sees("Garlic: Cut the scapes once they curl.");
    walk.sees("garlic since 1 Nov");
    assert_eq!(walk.page.matches("ahead-done:").count(), 6);

    walk.on(2026, 11, 20);
    walk.go("#/bed/shed-bed-ge1r7");
    walk.sees("overdue since");
    let (_, rest) = walk.page.split_once("data-action=\"ahead-done:").unwrap();
    let id = rest.split('"').next().unwrap().to_owned();
    walk.event("click", &format!("ahead-done:{id}"), &Value::Null);
    walk.sees("Written down as done");
    walk.lacks("overdue since");
    assert_eq!(walk.page.matches("ahead-done:").count(), 5);
    walk.go("#/ask/garlic-window/shed-bed-ge1r7");
    walk.sees("In since 1 Nov: look from 26 Jun, lift at about 5 green leaves");
}

#[test]
fn a_bed_that_stays_wet_is_told_so_and_can_be_changed() {
    let mut walk = Walk::begin();
    walk.go("#/ask/garlic-window/fence-bed-ge1r7");
    walk.sees("In another bed: this one stays wet");
    walk.go("#/bed/fence-bed-ge1r7/change");
    walk.sees("<option value=\"no\" selected>it stays wet</option>");
    walk.event(
        "submit",
        "save-bed:fence-bed-ge1r7",
        &json!({"bed": {"name": "Fence bed", "length": "8", "width": "4", "drains": "", "spring_sun": "yes"}}),
    );
    walk.go("#/ask/garlic-window/fence-bed-ge1r7");
    walk.lacks("stays wet");
}

#[test]
fn own_measures_are_kept_and_read_back_and_nonsense_is_refused() {
    let mut walk = Walk::begin();
    walk.go("#/settings");
    let site = json!({"latitude": "41.5 N", "coldest": {"low": "13 F", "high": "30 F"}, "hottest": {"low": "67 F", "high": "86 F"}});
    walk.event(
        "submit",
        "save-settings",
        &json!({"units": "us", "wheelbarrow": "a lot", "site": site}),
    );
    walk.sees("aria-invalid=\"true\"");
    walk.event(
        "submit",
        "save-settings",
        &json!({"units": "us", "wheelbarrow": "4 cu ft", "nerve": "10", "site": site}),
    );
    walk.sees("Settings kept");
    walk.go("#/ask/bed-quantities");
    walk.event("submit", "answer", &json!({"item": "compost", "bed": "shed-bed-ge1r7"}));
    walk.sees("Your wheelbarrow holds 4 cu ft heaped");
    walk.go("#/settings");
    walk.sees("value=\"4 cu ft\"");
}

#[test]
fn a_reading_at_an_odd_hour_is_allowed_for() {
    let soil = |hour: u32| {
        let mut walk = Walk::begin();
        walk.go("#/bed/shed-bed-ge1r7");
        let when = format!("2026-08-08T{hour:02}:00");
        walk.event(
            "submit",
            "reading:shed-bed-ge1r7",
            &json!({"reading": {"soil": "75", "depth": "2"}, "when": when}),
        );
        walk.go("#/ask/soil-temperature");
        walk.event("input", "bed", &json!({"bed": "shed-bed-ge1r7", "depth": "2"}));
        let (_, rest) = walk.page.split_once("<h1>About ").unwrap();
        rest.split(' ').next().unwrap().parse::<f64>().unwrap()
    };
    // Two inches down the afternoon is warmer than the day's mean, and six in the morning colder.
    let (morning, afternoon) = (soil(6), soil(15));
    assert!(
        morning > afternoon + 1.0,
        "the same 75 °F means a warmer day at six ({morning}) than at three ({afternoon})"
    );
}

#[test]
fn the_usual_year_of_the_south_has_no_year_number_and_twelve_months_do() {
    let mut walk = Walk::begin();
    walk.go("#/settings");
    walk.event(
        "submit",
        "save-settings",
        &json!({"units": "metric", "site": {"latitude": "43.5 S", "coldest": {"low": "1 C", "high": "10 C"}, "hottest": {"low": "12 C", "high": "23 C"}}}),
    );
    walk.sees("Your year");
    let (_, year) = walk.page.split_once("Last frost usually about").unwrap();
    let words = year.split("Days under").next().unwrap();
    assert!(!words.contains("202"), "{words}");
    assert!(words.contains("Oct") || words.contains("Sep"), "{words}");
    let lows = [12, 12, 10, 7, 4, 2, 1, 2, 4, 6, 8, 11].map(|low| low.to_string());
    let highs = [23, 22, 20, 17, 14, 11, 10, 12, 15, 17, 19, 21].map(|high| high.to_string());
    walk.event(
        "submit",
        "save-settings",
        &json!({"units": "metric", "site": {"latitude": "43.5 S", "coldest": {"low": "", "high": ""}, "hottest": {"low": "", "high": ""}, "monthly_low": lows, "monthly_high": highs}}),
    );
    walk.sees("Settings kept");
    let kept = &walk.app.garden().place["monthly_high"];
    assert_eq!(kept[0], "23 C");
    walk.go("#/ask/soil-temperature");
    walk.event("input", "depth", &json!({"depth": "10"}));
    walk.lacks("all twelve would make it surer");
}
