//! The topic as it is asked at the door.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::{ask::ask, garden::Garden, given::Refusal};

fn told(mut question: Value) -> Result<Value, Refusal> {
    question["topic"] = json!("open-greenhouse");
    ask(&question, &Garden::default()).map(|answer| serde_json::to_value(answer).unwrap())
}

#[test]
fn a_sunny_day_opens_it_and_a_cold_dull_one_does_not() {
    let verdict = |sky: &str, high: &str| {
        told(json!({"sky": sky, "forecast_high": high})).unwrap()["verdict"].clone()
    };
    assert_eq!(verdict("clear", "58 F"), "open");
    assert_eq!(verdict("part", "48 F"), "ajar");
    assert_eq!(verdict("cloudy", "45 F"), "shut");
    // 75 °F inside opens it whatever the forecast.
    let now = json!({"sky": "cloudy", "forecast_high": "45 F", "inside": "76 F"});
    assert_eq!(told(now).unwrap()["headline"], "Open the greenhouse now");
}

#[test]
fn its_own_middays_are_believed() {
    let question = |middays: usize| {
        let midday = json!({"inside": "62 F", "outside": "50 F", "sky": "clear"});
        json!({"sky": "clear", "forecast_high": "50 F", "middays": vec![midday; middays]})
    };
    let warmer = |middays| told(question(middays)).unwrap()["warmer_c"].as_f64().unwrap() * 1.8;
    assert!((warmer(0) - 30.0).abs() < 0.1);
    assert!((12.0..15.0).contains(&warmer(6)), "{}", warmer(6));
    assert_eq!(told(question(6)).unwrap()["sure"], "fair");
    // Those of another sky tell nothing.
    let mut dull = question(6);
    dull["sky"] = json!("cloudy");
    assert_eq!(told(dull).unwrap()["middays"], 0);
}

#[test]
fn a_hot_spell_is_told_and_faults_are_named() {
    let hot = told(json!({"sky": "clear", "forecast_high": "92 F"})).unwrap();
    assert_eq!(hot["hot"], true);
    assert!(hot["because"].to_string().contains("shade trays, water in the morning"));
    let refused =
        told(json!({"sky": "blue", "inside": "300 F", "middays": [{"sky": "clear"}]})).unwrap_err();
    let fields: Vec<&str> = refused.refused.iter().map(|fault| fault.field.as_str()).collect();
    assert_eq!(fields, ["sky", "inside", "middays.0.inside", "middays.0.outside", "forecast_high"]);
}

proptest! {
    #[test]
    fn warmer_outdoors_is_warmer_inside_and_never_more_shut(
        high in -10..100i32, more in 1..20i32, sky in prop::sample::select(vec!["clear", "part", "cloudy"]),
    ) {
        let one = |high: i32| told(json!({"sky": sky, "forecast_high": format!("{high} F")})).unwrap();
        let (cool, warm) = (one(high), one(high + more));
        prop_assert!(cool["inside_high_c"].as_f64() < warm["inside_high_c"].as_f64());
        let rank = |answer: &Value| ["shut", "ajar", "open"].iter().position(|word| answer["verdict"] == **word);
        prop_assert!(rank(&cool) <= rank(&warm));
    }
}
