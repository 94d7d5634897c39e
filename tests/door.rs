//! The door as other programs meet it: examples, their JSON, and the schema.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod examples;

use examples::Example;
use pegline_core::{ask::schema, garden::Garden};
use serde_json::Value;

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
            "plants": [{"crop": "cabage", "on_hand": "a lot"}]}"#,
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
    ];
    assert_eq!(fields, expected);
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
fn ten_thousand_characters_are_refused_beside_their_field() {
    let question = serde_json::json!({"topic": "plants-per-bed", "bed": {"length": "8 ft", "width": "4 ft"},
        "plants": [{"crop": "x".repeat(10_000), "spacing": "9".repeat(10_000)}]});
    let back = door(&question);
    let faults = back["refused"].as_array().unwrap();
    assert!(faults.iter().any(|fault| fault["field"] == "plants.0.crop"), "{back}");
    assert!(faults.iter().all(|fault| fault["given"].as_str().unwrap().chars().count() <= 61));
}
