//! The door as other programs meet it: examples, their JSON, and the schema.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod examples;
mod refused_fields;

use examples::Example;
use pegline_core::{ask::schema, garden::Garden};
use serde_json::{Value, json};

const SCHEMA: &str = include_str!("../docs/door.schema.json");

fn examples() -> impl Iterator<Item = Example> {
    examples::of_no_garden().into_iter().chain(examples::of_the_garden())
}

/// What comes back where no garden is known.
fn door(question: &Value) -> Value {
    examples::door(question, &Garden::default())
}

#[test]
fn the_schema_is_fresh() {
    let kept: Value = serde_json::from_str(SCHEMA).unwrap();
    assert!(kept == schema(), "run `cargo xtask schema`");
}

#[test]
fn every_example_comes_back_as_the_schema_says() {
    let mut compiler = boon::Compiler::new();
    let mut schemas = boon::Schemas::new();
    compiler.add_resource("door.json", schema()).unwrap();
    let answer = compiler.compile("door.json#/$defs/answer", &mut schemas).unwrap();
    let refusal = compiler.compile("door.json#/$defs/refusal", &mut schemas).unwrap();
    for Example { question, back } in examples() {
        let shape = if back.get("refused").is_some() { refusal } else { answer };
        if let Err(wrong) = schemas.validate(&back, shape) {
            panic!("{question}\n{wrong}");
        }
    }
}

#[test]
fn every_answered_example_is_a_question_as_the_schema_says() {
    let mut compiler = boon::Compiler::new();
    let mut schemas = boon::Schemas::new();
    compiler.add_resource("door.json", schema()).unwrap();
    let shape = compiler.compile("door.json#/$defs/question", &mut schemas).unwrap();
    for Example { question, back } in examples() {
        if back.get("refused").is_none()
            && let Err(wrong) = schemas.validate(&question, shape)
        {
            panic!("{question}\n{wrong}");
        }
    }
}

#[test]
fn a_refusal_lists_every_fault_at_once() {
    let question: Value = serde_json::from_str(
        r#"{"topic": "plants-per-bed", "today": "2026-11-25", "colour": "red",
            "bed": {"length": "0", "width": "-4 ft", "drip": {"lines": "many", "emitter_spacing": "9"}},
            "plants": [{"crop": "quux", "on_hand": "a lot"}]}"#,
    )
    .unwrap();
    let back = door(&question);
    let mut fields: Vec<&str> = back["refused"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fault| fault["field"].as_str().unwrap())
        .collect();
    fields.sort_unstable();
    let expected = [
        "bed.drip.emitter_spacing",
        "bed.drip.lines",
        "bed.length",
        "bed.width",
        "colour",
        "plants.0.crop",
        "plants.0.on_hand",
        "plants.0.spacing",
    ];
    assert_eq!(fields, expected);
}

/// A crop is read in one way, whatever is asked of it.
#[test]
fn the_same_crop_is_refused_or_taken_alike_at_every_topic() {
    let asked = |crop: &str| {
        let crops = json!([{ "crop": crop }]);
        [
            ("crop", json!({ "topic": "drip-run-time", "crop": crop })),
            ("crop", json!({ "topic": "sow-now", "crop": crop })),
            ("crop", json!({ "topic": "emergence", "crop": crop })),
            ("crop", json!({ "topic": "residue-wait", "crop": crop })),
            ("crop", json!({ "topic": "harvest-readiness", "crop": crop })),
            ("crop", json!({ "topic": "harvest-cues", "crop": crop })),
            ("crop", json!({ "topic": "hardening-plan", "crop": crop })),
            ("crop", json!({ "topic": "start-age", "crop": crop })),
            ("crop", json!({ "topic": "bed-quantities", "item": "seed", "crop": crop })),
            ("crop", json!({ "topic": "after-frost", "crop": crop })),
            ("crops.0.crop", json!({ "topic": "frost-tonight", "crops": crops })),
            ("plants.0.crop", json!({ "topic": "plants-per-bed", "plants": crops })),
            ("plants.0.crop", json!({ "topic": "harvest-before-away", "plants": crops })),
        ]
    };
    let fault = |field: &str, question: &Value| {
        let back = door(question);
        let faults = back["refused"].as_array().cloned().unwrap_or_default();
        faults.into_iter().find(|fault| fault["field"] == field).map(|mut fault| {
            fault["field"] = json!("");
            fault
        })
    };
    for unknown in ["quux", "tomatoe plant", "pear"] {
        let [first, rest @ ..] = asked(unknown);
        let expected = fault(first.0, &first.1).unwrap();
        assert_eq!(expected["why"], "no crop of that name is known");
        for (field, question) in rest {
            assert_eq!(fault(field, &question).as_ref(), Some(&expected), "{question}");
        }
    }
    for known in ["carot", "onion", "brocolli", "cabbage"] {
        for (field, question) in asked(known) {
            assert_eq!(fault(field, &question), None, "{question}");
        }
    }
}

#[test]
fn what_a_name_was_taken_for_is_said() {
    let cues = |crop: &str| door(&json!({ "topic": "harvest-cues", "crop": crop }));
    let meant = json!([{
        "field": "crop", "given": "onion", "taken": "onion-bulb",
        "others": ["onion-bunching", "onion-overwintering"],
    }]);
    assert_eq!(cues("onion")["meant"], meant);
    assert_eq!(cues("brocolli")["meant"][0]["taken"], "broccoli");
    assert!(cues("leek").get("meant").is_none());
    // A crop of one's own is taken as it is where its spacing is given, but a slip is seen through.
    let placed = |crop: &str| {
        door(&json!({
            "topic": "plants-per-bed", "bed": { "length": "4 ft", "width": "2 ft" },
            "plants": [{ "crop": crop, "spacing": "1 ft" }],
        }))
    };
    assert_eq!(placed("our own oca")["placed"][0]["crop"], "our own oca");
    assert_eq!(placed("cabage")["meant"][0]["field"], "plants.0.crop");
}

#[test]
fn numbers_may_come_as_text_and_lengths_as_si_numbers() {
    let text = r#"{"topic": "plants-per-bed", "bed": {"length": "96 in", "width": "48 in"}, "plants": [{"crop": "kale", "on_hand": "5"}]}"#;
    let si = r#"{"topic": "plants-per-bed", "bed": {"length_m": 2.4384, "width_m": "1.2192"}, "plants": [{"crop": "kale", "on_hand": 5}]}"#;
    let [one, other] = [text, si].map(|question| door(&serde_json::from_str(question).unwrap()));
    assert_eq!(one["counts"], other["counts"]);
    assert_eq!(one["placed"], other["placed"]);
}

#[test]
fn a_count_may_be_written_with_a_point_and_nothing_behind_it() {
    let on_hand = |count: &str| {
        let question = format!(
            r#"{{"topic": "plants-per-bed", "bed": {{"length": "8 ft", "width": "4 ft"}}, "plants": [{{"crop": "kale", "on_hand": {count}}}]}}"#
        );
        door(&serde_json::from_str(&question).unwrap())
    };
    let five = on_hand("5");
    assert_eq!(five["counts"], json!([5]));
    for count in ["5.0", r#""5.0""#, "0.5e1"] {
        assert_eq!(on_hand(count), five, "{count}");
    }
    for count in ["5.5", r#""5.5""#] {
        assert_eq!(on_hand(count)["refused"][0]["field"], "plants.0.on_hand", "{count}");
    }
}

#[test]
fn what_bears_its_unit_in_its_name_is_refused_by_that_name() {
    let back =
        door(&json!({ "topic": "plants-per-bed", "bed": { "length_m": -3, "width": "4 ft" },
        "plants": [{ "crop": "kale" }] }));
    assert_eq!(back["refused"][0]["field"], "bed.length_m");
    assert_eq!(back["refused"][0]["given"], "-3 m");
}

#[test]
fn ten_thousand_characters_are_refused_beside_their_field() {
    let question = serde_json::json!({"topic": "plants-per-bed", "bed": {"length": "8 ft", "width": "4 ft"},
        "plants": [{"crop": "x".repeat(10_000), "spacing": "9".repeat(10_000)}]});
    let back = door(&question);
    let faults = back["refused"].as_array().unwrap();
    assert!(faults.iter().any(|fault| fault["field"] == "plants.0.crop"), "{back}");
    assert!(faults.iter().all(|fault| fault["given"].as_str().unwrap().chars().count() <= 61));
}
