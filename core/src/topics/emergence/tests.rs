//! The topic through the door.

use serde_json::{Value, json};

use crate::{ask::ask, catalogue, catalogue::germination, garden::Garden};

fn asked(question: Value) -> Value {
    serde_json::to_value(ask(&question, &Garden::default()).unwrap()).unwrap()
}

fn refused(question: &Value) -> Vec<String> {
    let refusal = ask(question, &Garden::default()).unwrap_err();
    refusal.refused.into_iter().map(|fault| fault.field).collect()
}

fn pea(today: &str, up: Value) -> Value {
    asked(json!({ "topic": "emergence", "today": today, "crop": "pea", "sown": "2026-04-08",
                  "soil_temperature": "12 C", "up": up }))
}

#[test]
fn every_crop_of_the_table_is_a_crop_of_the_catalogue() {
    for crop in germination::crops() {
        assert!(catalogue::crop(crop).is_ok_and(|found| found.id() == crop), "{crop}");
    }
}

#[test]
fn a_row_is_told_from_first_day_to_last() {
    let says = |today: &str, up: Value| pea(today, up)["headline"].as_str().unwrap().to_owned();
    assert_eq!(says("2026-04-10", Value::Null), "Wait: first seedlings from about 16 Apr");
    assert_eq!(says("2026-04-18", Value::Null), "Still to come: give it until 24 Apr");
    assert_eq!(says("2026-04-18", json!("60 %")), "60 % up, 6 days in the window left: wait");
    assert_eq!(says("2026-04-18", json!(0.9)), "It is up");
    assert_eq!(says("2026-04-25", Value::Null), "It is late: give it until 25 Apr");
    assert_eq!(says("2026-04-26", Value::Null), "It should have come by now: sow again");
    assert_eq!(says("2026-04-26", json!(0.6)), "60 % up, and no more will come: fill the gaps");
    assert_eq!(says("2026-04-26", json!(0.1)), "10 % up, and no more will come: sow again");
}

#[test]
fn soil_that_brings_nothing_up_is_told() {
    let answer = asked(
        json!({ "topic": "emergence", "today": "2026-04-20", "crop": "tomato", "sown": "2026-04-08",
                               "soil_temperature": "41 F" }),
    );
    assert_eq!((&answer["expected"], &answer["resow_after"]), (&Value::Null, &Value::Null));
    assert_eq!(answer["verdict"], "wait");
    assert!(answer["headline"].as_str().unwrap().contains("too cold"));
}

#[test]
fn days_given_by_date_and_the_place_s_year_both_serve() {
    let site = json!({ "latitude": "47 N", "coldest": { "low": "35 F", "high": "46 F" },
                       "hottest": { "low": "56 F", "high": "76 F" } });
    let by_days = asked(
        json!({ "topic": "emergence", "today": "2026-05-12", "crop": "carrot", "sown": "2026-04-20",
        "soil_temperature": [{ "date": "2026-04-20", "temperature": "50 F" }, { "date": "2026-05-10", "temperature": "59 F" }] }),
    );
    assert_eq!(by_days["sure"], "fair");
    let by_place = asked(
        json!({ "topic": "emergence", "today": "2026-05-12", "crop": "carrot", "sown": "2026-04-20", "site": site }),
    );
    assert_eq!(by_place["sure"], "low");
    let days = |answer: &Value| {
        let date = |field: &str| {
            answer["expected"][field].as_str().unwrap().parse::<chrono::NaiveDate>().unwrap()
        };
        (date("late") - date("early")).num_days()
    };
    assert!(days(&by_place) > days(&by_days), "the place's year is less sure than a thermometer");
}

#[test]
fn a_crop_told_by_another_says_so() {
    let kale = asked(
        json!({ "topic": "emergence", "today": "2026-04-12", "crop": "kale", "sown": "2026-04-08",
                             "soil_temperature": "15 C" }),
    );
    assert_eq!(kale["sure"], "low");
    assert!(kale["because"].to_string().contains("Told by cabbage"));
}

#[test]
fn faults_are_named_at_once() {
    let question = json!({ "topic": "emergence", "today": "2026-04-20", "crop": "garlic", "sown": "2026-05-08", "depth": "3 m",
                           "up": "2", "soil_temperature": [{ "date": "2026-05-01", "temperature": "90 C" }, {}] });
    let mut fields = refused(&question);
    fields.sort();
    assert_eq!(fields, ["crop", "depth", "sown", "up",]);
    let question = json!({ "topic": "emergence", "today": "2026-04-20", "crop": "pea", "sown": "2026-04-08",
                           "soil_temperature": [{ "date": "2026-05-01", "temperature": "90 C" }, {}] });
    let mut fields = refused(&question);
    fields.sort();
    assert_eq!(
        fields,
        [
            "soil_temperature.0.date",
            "soil_temperature.0.temperature",
            "soil_temperature.1.date",
            "soil_temperature.1.temperature",
        ]
    );
}

#[test]
fn heat_that_keeps_seed_asleep_is_no_still_to_come_and_warming_is_told() {
    let lettuce = asked(
        json!({ "topic": "emergence", "today": "2026-07-10", "crop": "lettuce", "sown": "2026-07-02",
                  "soil_temperature": "88 F" }),
    );
    let headline = lettuce["headline"].as_str().unwrap();
    assert!(!headline.contains("Still to come"), "{headline}");
    assert!(headline.contains("cooler") || headline.contains("too warm"), "{headline}");
    let tray = asked(
        json!({ "topic": "emergence", "today": "2026-03-10", "crop": "tomato", "sown": "2026-03-05",
                  "soil_temperature": "58 F" }),
    );
    assert!(tray["because"].to_string().contains("it would be up in about"), "{tray}");
}
