//! Whatever is wrong with a question, its refusal names fields that the question has.

use pegline_core::{ask::schema, garden::Garden};
use serde_json::{Value, json};

use crate::examples;

/// What may stand anywhere by mistake.
fn junk() -> [Value; 8] {
    [
        json!("quux"),
        json!("-3"),
        json!("0"),
        json!("1000000 ft"),
        json!(""),
        json!({}),
        json!([]),
        json!("2026-02-30"),
    ]
}

/// What may stand at the end of a field's name, its value then being in that unit.
const UNITS: [&str; 12] =
    ["_l_per_h", "_m2", "_m3", "_mm", "_min", "_kg", "_m", "_c", "_g", "_l", "_h", "_ms"];

/// One of so many changes is tried; all of them where `PEGLINE_ALL_CHANGES` is set.
const EACH: usize = 9;

/// Where something stands in a question: `["plants", "0", "crop"]`.
type Place = Vec<String>;

/// Every value within, groups and lists too, but for the topic.
fn places(value: &Value, at: &Place, into: &mut Vec<Place>) {
    let within: Vec<(String, &Value)> = match value {
        Value::Object(fields) => fields.iter().map(|(name, it)| (name.clone(), it)).collect(),
        Value::Array(items) => {
            items.iter().enumerate().map(|(at, it)| (at.to_string(), it)).collect()
        }
        _ => return,
    };
    for (name, value) in within.into_iter().filter(|(name, _)| name != "topic") {
        let mut place = at.clone();
        place.push(name);
        into.push(place.clone());
        places(value, &place, into);
    }
}

/// The same question with another value there, or without any.
fn changed(question: &Value, place: &Place, to: Option<&Value>) -> Value {
    let mut question = question.clone();
    let (last, path) = place.split_last().unwrap();
    let group = path.iter().fold(&mut question, |at, name| match at {
        Value::Array(items) => &mut items[name.parse::<usize>().unwrap()],
        at => &mut at[name.as_str()],
    });
    match (group, to) {
        (Value::Array(items), Some(to)) => items[last.parse::<usize>().unwrap()] = to.clone(),
        (Value::Array(items), None) => drop(items.remove(last.parse().unwrap())),
        (group, Some(to)) => group[last.as_str()] = to.clone(),
        (group, None) => drop(group.as_object_mut().unwrap().remove(last)),
    }
    question
}

/// The number there below nothing, if it is one.
fn negated(question: &Value, place: &Place) -> Option<Value> {
    match question.pointer(&format!("/{}", place.join("/")))? {
        Value::Number(number) => Some(json!(-number.as_f64()?)),
        Value::String(text) if text.starts_with(|it: char| it.is_ascii_digit()) => {
            Some(json!(format!("-{text}")))
        }
        _ => None,
    }
}

/// Whether the schema has a field there; one with a unit at the end of its name counts as itself.
fn has(schema: &Value, of: &Value, place: &[&str]) -> bool {
    let meant = of.get("$ref").and_then(Value::as_str);
    if let Some(meant) = meant.and_then(|path| schema.pointer(path.strip_prefix('#')?)) {
        return has(schema, meant, place);
    }
    let ways = ["anyOf", "oneOf"].iter().filter_map(|way| of.get(way)?.as_array()).flatten();
    let Some((name, rest)) = place.split_first() else { return true };
    let own = if name.parse::<usize>().is_ok() {
        of.get("items").into_iter().collect::<Vec<_>>()
    } else {
        let stems = UNITS.iter().filter_map(|unit| name.strip_suffix(unit));
        let fields = of.get("properties");
        stems.chain([*name]).filter_map(|name| fields?.get(name)).collect()
    };
    own.into_iter().any(|field| has(schema, field, rest))
        || ways.into_iter().any(|way| has(schema, way, place))
}

#[test]
fn a_refusal_names_fields_that_the_question_has() {
    let schema = schema();
    let topics = schema["$defs"]["question"]["oneOf"].as_array().unwrap();
    let (mut at, mut asked, mut refused) = (0, 0, 0);
    let mut unknown = Vec::new();
    let mut hold = |question: &Value, of: &Value| {
        asked += 1;
        let back = examples::door(question, &Garden::default());
        for fault in back["refused"].as_array().into_iter().flatten() {
            refused += 1;
            let field = fault["field"].as_str().unwrap();
            let is_known = fault["why"] == "there is no such field"
                || field.is_empty()
                || has(&schema, of, &field.split('.').collect::<Vec<_>>());
            let known = format!("{}: {field}", question["topic"]);
            if !is_known && !unknown.iter().any(|(it, _)| *it == known) {
                unknown.push((known, question.clone()));
            }
        }
    };
    for example in examples::of_no_garden() {
        let question = example.question;
        let Some(of) = topics.iter().find(|of| of["title"] == question["topic"]) else { continue };
        hold(&question, of);
        let mut all = Vec::new();
        places(&question, &Vec::new(), &mut all);
        for place in &all {
            let values = junk().into_iter().chain(negated(&question, place)).map(Some);
            for to in values.chain([None]) {
                at += 1;
                if at % EACH != 0 && std::env::var_os("PEGLINE_ALL_CHANGES").is_none() {
                    continue;
                }
                hold(&changed(&question, place, to.as_ref()), of);
            }
        }
    }
    println!("{asked} questions, {refused} faults");
    let unknown: Vec<String> = unknown.iter().map(|(it, of)| format!("{it} of {of}")).collect();
    assert!(unknown.is_empty(), "{}", unknown.join("\n"));
    assert!(refused > asked / 2);
    // No field of that name passes.
    for unknown in ["plant", "plants.0.spot", "bed.length.0.of", "bed_x", "bed.drip.flows"] {
        assert!(!has(&schema, &topics[0], &unknown.split('.').collect::<Vec<_>>()), "{unknown}");
    }
}
