//! The topic as it is asked at the door.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::{
    ask::ask,
    garden::Garden,
    given::{Fault, Readable},
    journal::file,
    quantity::Length,
};

use super::Demand;

fn bed(flow: &str) -> Value {
    json!({"length": "8 ft", "width": "4 ft", "drip": {"lines": 3, "emitter_spacing": "9 in", "flow": flow}})
}

/// The fields with the topic, a day in summer, and a bed of 8 x 4 ft with 33 holes, unless they
/// have others.
fn question(fields: &Value) -> Value {
    let mut question =
        json!({"topic": "drip-run-time", "today": "2026-07-15", "bed": bed("0.5 gal/h")});
    for (name, value) in fields.as_object().unwrap() {
        question[name] = value.clone();
    }
    question
}

fn answer(fields: &Value) -> Value {
    let answer = ask(&question(fields), &Garden::default());
    serde_json::to_value(answer.unwrap_or_else(|refused| panic!("{fields}: {refused:?}"))).unwrap()
}

fn refused(fields: &Value) -> Vec<Fault> {
    ask(&question(fields), &Garden::default()).unwrap_err().refused
}

fn fields_of(faults: &[Fault]) -> Vec<&str> {
    faults.iter().map(|fault| fault.field.as_str()).collect()
}

fn told(answer: &Value, part: &str) -> String {
    let lines = answer[part].as_array().unwrap();
    lines.iter().fold(String::new(), |told, line| told + line.as_str().unwrap() + "\n")
}

/// The usual air of Seattle, and where it lies.
fn seattle() -> Value {
    json!({
        "latitude": "47.45",
        "monthly_low_c": [2.4, 2.8, 4.0, 5.7, 8.4, 11.1, 13.1, 13.3, 11.3, 7.7, 4.4, 2.2],
        "monthly_high_c": [7.9, 9.7, 11.7, 14.4, 17.9, 21.0, 24.2, 24.3, 21.3, 15.3, 10.3, 7.5]
    })
}

#[test]
fn a_week_s_need_is_split_into_runs_the_roots_can_hold() {
    let asked = json!({"demand": "1.25 in", "rain": "0.25 in"});
    let mix = answer(&asked);
    // 0.8271 in an hour, 80.6 min in all, at most 0.7 in of the mix's water at once.
    assert_eq!(mix["rate_mm_per_h"], 21.01);
    assert_eq!(mix["demand_mm"], 31.75);
    assert_eq!(mix["runs"], 2);
    assert_eq!(mix["run_min"], 40.3);
    assert_eq!(mix["longest_run_min"], 56.4);
    assert_eq!(mix["water_l"], 83.9);
    assert_eq!(mix["headline"], "Run the drip 40 min, twice");
    assert!(told(&mix, "because").contains("1.25 in needed, less 0.25 in of rain."), "{mix}");
    let clay = answer(&json!({"demand": "1.25 in", "rain": "0.25 in", "soil": "clay"}));
    assert_eq!(clay["runs"], 1);
    assert_eq!(clay["run_min"], 80.6);
    assert_eq!(clay["headline"], "Run the drip 1 h 21 min");
    let metric = answer(&json!({"demand": "25 mm", "units": "metric"}));
    assert!(
        told(&metric, "because")
            .contains("From 33 holes at 1.9 L/h the bed gets 21 mm of water an hour"),
        "{metric}"
    );
}

#[test]
fn enough_rain_means_no_run() {
    let wet = answer(&json!({"demand": "1 in", "rain": "1 in"}));
    assert_eq!(wet["runs"], 0);
    assert_eq!(wet["run_min"], 0.0);
    assert_eq!(wet["water_l"], 0.0);
    assert_eq!(wet["headline"], "No need to water: the rain is enough");
    assert_eq!(answer(&json!({"demand": "0 in"}))["headline"], "No need to water");
}

#[test]
fn a_need_may_be_a_day_s_or_a_week_s() {
    let inches = |text: &str| {
        let demand = answer(&json!({"demand": text}))["demand_mm"].as_f64().unwrap();
        demand / 25.4
    };
    for (text, expected) in [
        ("0.2 in a day", 1.4),
        ("0.2 in/day", 1.4),
        ("0.2 in / Day", 1.4),
        ("0.2 inches per day", 1.4),
        ("1.25 in a week", 1.25),
        ("1.25 in weekly", 1.25),
        ("1.25 in", 1.25),
        ("25.4 mm/d", 7.0),
    ] {
        assert!((inches(text) - expected).abs() < 0.001, "{text}");
    }
    let ten = answer(&json!({"demand": "0.1 in a day", "days": 10}));
    assert_eq!(ten["demand_mm"], 25.4);
    assert!(told(&ten, "because").contains("For 10 days from 15 Jul: 1 in needed."), "{ten}");
    assert_eq!(answer(&json!({"demand_mm": 25.4}))["demand_mm"], 25.4);
    assert_eq!(
        Demand::read("1 in"),
        Ok(Demand::InAll(<Length as crate::quantity::Quantity>::read("1 in").unwrap()))
    );
}

#[test]
fn the_place_tells_the_need() {
    let week = |fields: Value| {
        let mut fields = fields;
        fields["site"] = seattle();
        answer(&fields)
    };
    let plain = week(json!({}));
    // Seattle in mid-July by hand: (18.65 + 17.8) √11.1 × 0.0023 × 16.6 mm is 4.6 mm a day.
    let a_day = plain["demand_mm"].as_f64().unwrap() / 7.0 / 1.05;
    assert!((a_day - 4.6).abs() < 0.1, "{a_day}");
    assert_eq!(plain["sure"], "fair");
    assert!(told(&plain, "because").contains("vegetables in full leaf 1.05 times"), "{plain}");
    assert!(told(&plain, "sources").contains("FAO"), "{plain}");
    let tomato = week(json!({"crop": "tomatoes"}));
    let more = tomato["demand_mm"].as_f64().unwrap() / plain["demand_mm"].as_f64().unwrap();
    assert!((more - 1.15 / 1.05).abs() < 1e-3);
    let winter = week(json!({"date": "2026-12-15"}));
    assert!(winter["demand_mm"].as_f64().unwrap() < 7.0 * 0.7);
    // In the record the place need not be told again.
    let entries = json!({"pegline": 1, "entries": [{
        "v": 1, "id": "01J00000000000000000000001", "when": "2026-03-01T08:00", "kind": "place", "what": seattle()
    }]});
    let journal = file::read(&entries.to_string()).unwrap().journal;
    let known = ask(&question(&json!({})), &Garden::fold(&journal)).unwrap();
    assert_eq!(serde_json::to_value(known).unwrap()["demand_mm"], plain["demand_mm"]);
}

#[test]
fn four_numbers_and_the_latitude_are_enough() {
    let site = json!({
        "latitude": "47.45",
        "coldest": {"low": "36 F", "high": "46 F"}, "hottest": {"low": "56 F", "high": "76 F"}
    });
    let found = answer(&json!({"site": site}));
    assert_eq!(found["sure"], "low");
    let rough = found["demand_mm"].as_f64().unwrap();
    let known = answer(&json!({"site": seattle()}))["demand_mm"].as_f64().unwrap();
    assert!((rough / known - 1.0).abs() < 0.1, "{rough} {known}");
}

#[test]
fn with_nothing_known_one_question_is_left() {
    for site in [json!(null), json!({"latitude": "45"}), json!({"soil": "loam"})] {
        let faults = refused(&json!({"site": site}));
        assert_eq!(fields_of(&faults), ["demand"]);
        assert!(faults[0].allowed.contains("1.2 in a week"), "{faults:?}");
    }
    let mut no_latitude = seattle();
    no_latitude["latitude"] = json!(null);
    assert_eq!(fields_of(&refused(&json!({"site": no_latitude}))), ["site.latitude"]);
    assert_eq!(fields_of(&refused(&json!({"site": seattle(), "today": null}))), ["date"]);
}

#[test]
fn a_recorded_bed_is_watered_into_the_record() {
    let shape = |flow: Value| {
        let mut bed = bed("0.5 gal/h");
        bed["drip"]["flow"] = flow;
        bed
    };
    let garden = |flow: Value| {
        let entries = json!({"pegline": 1, "entries": [{
            "v": 1, "id": "01J00000000000000000000001", "when": "2026-03-01T08:00", "kind": "bed",
            "about": {"bed": "fence"}, "what": {"name": "Fence bed", "bed": shape(flow)}
        }]});
        Garden::fold(&file::read(&entries.to_string()).unwrap().journal)
    };
    let asked = question(&json!({"bed": "fence", "demand": "1 in"}));
    let answer = serde_json::to_value(ask(&asked, &garden(json!("0.5 gal/h"))).unwrap()).unwrap();
    assert_eq!(answer["next"][0]["kind"], "watered");
    assert_eq!(answer["next"][0]["about"]["bed"], "fence");
    assert_eq!(answer["next"][0]["what"]["minutes"], 40.0);
    // Where the record does not know the flow, it can be told beside the bed.
    let unknown = garden(json!(null));
    let refusal = ask(&asked, &unknown).unwrap_err();
    assert_eq!(fields_of(&refusal.refused), ["flow"]);
    let mut with_flow = asked;
    with_flow["flow"] = json!("0.5 gal/h");
    assert_eq!(ask(&with_flow, &unknown).unwrap().telling.headline, "Run the drip 40 min, twice");
}

#[test]
fn every_fault_is_refused_at_once() {
    let faults = refused(&json!({
        "bed": {"length": "8 ft", "width": "4 ft", "drip": {"lines": 3, "emitter_spacing": "9 in"}},
        "crop": "quux", "demand": "a lot", "rain": "-1 in", "soil": "moon", "days": 0, "date": "tomorrow",
        "colour": "red"
    }));
    assert_eq!(
        fields_of(&faults),
        ["colour", "bed.drip.flow", "crop", "days", "date", "demand", "rain", "soil"]
    );
    let one = |fields: Value, field: &str| {
        let mut fields = fields;
        if fields.get("demand").is_none() {
            fields["demand"] = json!("1 in");
        }
        let faults = refused(&fields);
        assert_eq!(fields_of(&faults), [field], "{fields}");
    };
    one(json!({"bed": {"length": "8 ft", "width": "4 ft"}}), "bed.drip");
    one(json!({"bed": null}), "bed");
    for flow in ["0 gal/h", "-1 L/h", "30 gal/h"] {
        one(json!({"bed": bed(flow)}), "bed.drip.flow");
        one(json!({"flow": flow}), "flow");
    }
    for demand in ["-1 in", "30 in", "5 in a day", "1", "in a day", "1 in a month"] {
        one(json!({"demand": demand}), "demand");
    }
    one(json!({"rain": "21 in"}), "rain");
    one(json!({"days": 32}), "days");
}

#[test]
fn a_bed_that_draws_too_much_is_watered_in_turns() {
    let long = json!({
        "length": "100 ft", "width": "4 ft", "drip": {"lines": 4, "emitter_spacing": "12 in", "flow": "1 gal/h"}
    });
    let found = answer(&json!({"bed": long, "demand": "1 in"}));
    assert!(told(&found, "cautions").contains("in turns"), "{found}");
    let wide = json!({
        "length": "8 ft", "width": "4 ft", "drip": {"lines": 2, "emitter_spacing": "18 in", "flow": "1 gal/h"}
    });
    let found = answer(&json!({"bed": wide, "demand": "1 in"}));
    assert!(told(&found, "cautions").contains("dry ground between"), "{found}");
    assert!(!told(&answer(&json!({"demand": "1 in"})), "cautions").contains("dry ground"));
}

proptest! {
    #[test]
    fn more_flow_or_more_rain_never_runs_longer(
        demand in 0.0..200.0_f64, rain in 0.0..200.0_f64, more_rain in 0.0..50.0_f64,
        flow in 0.1..10.0_f64, more_flow in 1.0..8.0_f64, soil in 0..5_usize,
    ) {
        let soil = ["sand", "loam", "clay", "peat", "raised-bed-mix"][soil];
        let of = |rain: f64, flow: f64| {
            let fields = json!({"demand_mm": demand, "rain_mm": rain, "flow_l_per_h": flow, "soil": soil});
            let answer = answer(&fields);
            let [run, runs, longest] = ["run_min", "runs", "longest_run_min"]
                .map(|name| answer[name].as_f64().unwrap());
            assert!(run <= longest + 0.06, "{answer}");
            (run, run * runs, runs)
        };
        let plain = of(rain, flow);
        for less in [of(rain + more_rain, flow), of(rain, flow * more_flow)] {
            prop_assert!(less.0 <= plain.0);
            // Each run is rounded to a tenth of a minute.
            prop_assert!(less.1 <= plain.1 + 0.1 * plain.2);
        }
    }
}

/// Where the air takes less than a millimetre a day nothing is run, unless it is said that no rain fell.
#[test]
fn nothing_is_run_in_the_rain_of_december() {
    let question = |today: &str| {
        json!({ "topic": "drip-run-time", "today": today,
            "bed": { "length": "8 ft", "width": "4 ft", "drip": { "lines": 4, "emitter_spacing": "9 in", "flow": "0.6 gal/h" } },
            "site": { "latitude": "47.5 N", "coldest": { "low": "36 F", "high": "46 F" },
                      "hottest": { "low": "56 F", "high": "76 F" } } })
    };
    let told = |question: serde_json::Value| {
        serde_json::to_value(crate::ask::ask(&question, &crate::garden::Garden::default()).unwrap())
            .unwrap()
    };
    let december = told(question("2026-12-05"));
    assert_eq!(december["runs"], 0);
    assert!(december["headline"].as_str().unwrap().starts_with("Nothing to run"));
    let mut dry = question("2026-12-05");
    dry["rain"] = json!("0 in");
    assert!(told(dry)["runs"].as_u64() > Some(0));
    assert!(told(question("2026-07-05"))["runs"].as_u64() > Some(0));
}
