//! The age of a tray, asked at the door.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::{ask::ask, garden::Garden, given::Refusal};

fn told_of(garden: &Garden, topic: &str, mut question: Value) -> Result<Value, Refusal> {
    question["topic"] = json!(topic);
    ask(&question, garden).map(|answer| serde_json::to_value(answer).unwrap())
}

fn told(topic: &str, question: Value) -> Value {
    told_of(&Garden::default(), topic, question).unwrap_or_else(|refusal| panic!("{refusal:?}"))
}

fn fields_refused(topic: &str, question: Value) -> Vec<String> {
    let refusal = told_of(&Garden::default(), topic, question).unwrap_err();
    refusal.refused.into_iter().map(|fault| fault.field).collect()
}

fn cabbage_tray() -> Value {
    json!({ "today": "2026-03-20", "crop": "cabbage", "sown": "2026-01-30", "warmth": "50 F" })
}

#[test]
fn a_cool_tray_is_younger_than_its_days() {
    // 49 days at 10 degrees over 40, of 25 in a warm house: 2.8 weeks.
    let answer = told("start-age", cabbage_tray());
    assert_eq!(answer["like_weeks_warm"], 2.8);
    assert_eq!(answer["verdict"], "young");
    assert_eq!(answer["headline"], "Too young to plant: like 2.8 weeks in a warm house");
    assert_eq!(answer["limit_weeks"], 8.0);
    // 5.2 more weeks at 0.4 of a warm day each: 91 days.
    assert_eq!(answer["limit"]["likely"], "2026-06-19");
    assert!(answer["limit"]["early"].as_str() < answer["limit"]["likely"].as_str());
}

#[test]
fn roots_and_leaves_overrule_the_warmth() {
    let with = |field: &str, value: &str| {
        let mut question = cabbage_tray();
        question[field] = json!(value);
        told("start-age", question)
    };
    assert_eq!(with("leaves", "5")["verdict"], "ready");
    let circling = with("roots", "circling");
    assert_eq!(circling["verdict"], "plant-now");
    assert!(circling["because"].to_string().contains("roots tell more"));
    assert_eq!(with("roots", "matted")["verdict"], "over");
}

#[test]
fn lows_and_highs_read_are_the_warmth() {
    let mut question = cabbage_tray();
    question["warmth"] = Value::Null;
    question["greenhouse"] = json!([
        { "date": "2026-02-01", "low": "35 F", "high": "65 F" },
        { "date": "2026-02-02", "low": "40 F", "high": "60 F" },
    ]);
    assert_eq!(told("start-age", question)["like_weeks_warm"], 2.8);
}

#[test]
fn signs_bring_what_to_do() {
    let mut question = cabbage_tray();
    question["signs"] = json!(["leggy", "doubled", "budding"]);
    let answer = told("start-age", question);
    assert!(answer["look_for"].to_string().contains("as deep as its seed leaves"));
    assert!(answer["look_for"].to_string().contains("tease them out"));
    assert!(answer["because"].to_string().contains("small heads"));
}

fn cold_site() -> Value {
    json!({ "latitude": "42 N", "coldest": { "low": "16 F", "high": "33 F" },
            "hottest": { "low": "63 F", "high": "84 F" } })
}

/// Big enough, but it can't go out yet.
#[test]
fn what_is_old_enough_where_frost_is_not_past_is_kept_growing() {
    let pepper = |today: &str, site: Value| {
        told(
            "start-age",
            json!({ "today": today, "crop": "pepper", "sown": "2026-03-22", "warmth": "66 F",
            "site": site }),
        )
    };
    // The last frost told, and nothing else of the place.
    for today in ["2026-05-01", "2026-05-15"] {
        let answer = pepper(today, json!({ "last_frost": "05-20" }));
        assert_eq!(answer["verdict"], "hold", "{answer}");
        assert!(answer["plant_from"].as_str().unwrap() >= "2026-05-20");
        let headline = answer["headline"].as_str().unwrap();
        assert!(headline.starts_with("Keep it growing, plant from about"), "{headline}");
    }
    let answer = pepper("2026-05-01", cold_site());
    assert_eq!(answer["verdict"], "hold");
    let from = answer["plant_from"].as_str().unwrap();
    assert!(("2026-05-10".."2026-06-05").contains(&from), "{from}");
    // Without a place nothing is known of the season.
    let answer = pepper("2026-05-01", Value::Null);
    assert_eq!((&answer["verdict"], &answer["plant_from"]), (&json!("ready"), &Value::Null));
}

#[test]
fn a_hardy_tray_has_seasons_too() {
    let cabbage = |today: &str, sown: &str| {
        told(
            "start-age",
            json!({ "today": today, "crop": "cabbage", "sown": sown, "warmth": "60 F",
            "site": cold_site() }),
        )
    };
    let january = cabbage("2026-01-20", "2025-12-10");
    assert_ne!(january["verdict"], "plant-now", "{january}");
    assert!(january["plant_from"].as_str().unwrap() > "2026-03-01", "{january}");
    let april = cabbage("2026-04-25", "2026-03-15");
    assert_eq!(april["verdict"], "ready", "{april}");
    let october = cabbage("2026-10-10", "2026-09-01");
    assert!(
        october["headline"].as_str().unwrap().starts_with("Too late to plant it out"),
        "{october}"
    );
}

#[test]
fn too_old_before_its_own_planting_day_is_said() {
    let basil = told(
        "start-age",
        json!({ "today": "2026-04-01", "crop": "basil", "sown": "2026-02-20",
        "warmth": "68 F", "site": cold_site() }),
    );
    let (limit, from) = (&basil["limit"]["likely"], &basil["plant_from"]);
    assert!(limit.as_str() < from.as_str(), "{basil}");
    let headline = basil["headline"].as_str().unwrap();
    assert!(headline.contains("Pot it on") || headline.contains("pot it on"), "{headline}");
}

#[test]
fn faults_of_an_age_are_told_together() {
    let question = json!({ "crop": "quux", "sown": "2027-01-01", "warmth": "500 F", "roots": "hairy", "leaves": "many" });
    let mut faults = fields_refused("start-age", question);
    faults.sort();
    assert_eq!(faults, ["crop", "leaves", "roots", "today", "warmth"]);
    let mut future = cabbage_tray();
    future["sown"] = json!("2026-04-01");
    assert_eq!(fields_refused("start-age", future), ["sown"]);
    let mut unknown = cabbage_tray();
    unknown["warmth"] = Value::Null;
    assert_eq!(fields_refused("start-age", unknown), ["warmth"]);
    let upside_down = json!({ "today": "2026-03-20", "crop": "cabbage", "sown": "2026-01-30",
        "greenhouse": [{ "date": "2026-02-01", "low": "65 F", "high": "35 F" }] });
    assert_eq!(fields_refused("start-age", upside_down), ["greenhouse.0.high"]);
}

proptest! {
    // Each case looks crops up by name, which is slow where nothing is optimised.
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_longer_stay_makes_no_tray_younger(days in 0..200i64, more in 0..60i64, warmth in 30..80i32) {
        let today: chrono::NaiveDate = "2026-06-01".parse().unwrap();
        let weeks = |days: i64| {
            let question = json!({ "today": today, "crop": "leek", "sown": today - chrono::TimeDelta::days(days), "warmth": format!("{warmth} F") });
            told("start-age", question)["like_weeks_warm"].as_f64().unwrap()
        };
        prop_assert!(weeks(days) <= weeks(days + more));
    }
}
