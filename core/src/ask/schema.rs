//! The JSON Schema of the door: each topic's question and answer, and the refusal.

use schemars::{JsonSchema, SchemaGenerator};
use serde_json::{Map, Value, json};

use super::{Common, schemas};
use crate::{
    given::{Meant, Refusal, UNIT_SUFFIXES},
    telling::Telling,
};

/// The schema of every question and answer, in JSON Schema 2020-12.
///
/// Fields of questions are all optional here: what a topic can't do without, its refusal names.
pub fn schema() -> Value {
    let mut with = SchemaGenerator::default();
    let telling = with.subschema_for::<Telling>().to_value();
    let common = <Common as JsonSchema>::json_schema(&mut with).to_value();
    let refusal = with.subschema_for::<Refusal>().to_value();
    let meant = with.subschema_for::<Vec<Meant>>().to_value();
    let (mut questions, mut answers) = (Vec::new(), Vec::new());
    for (topic, asked, answer) in schemas(&mut with) {
        let word = topic.word();
        let topic = json!({ "const": word });
        let own = resolved(&with, &asked.to_value());
        let properties = |of: &Value| of.get("properties").cloned().unwrap_or_default();
        questions.push(json!({
            "type": "object",
            "title": word,
            "description": own.get("description"),
            "properties": merged(&[&properties(&common), &properties(&own), &json!({ "topic": topic })]),
            "required": ["topic"],
            "patternProperties": si_numbers(),
            "additionalProperties": false,
        }));
        answers.push(json!({
            "allOf": [telling, answer.to_value(), { "properties": { "topic": topic, "meant": meant }, "required": ["topic"] }],
        }));
    }
    let mut definitions = Value::Object(with.take_definitions(true));
    loosen_questions(&mut definitions);
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Pegline's door",
        "description": "A question is one of `question`; what comes back is one of `answer`, or `refusal`.",
        "$defs": merged(&[&definitions, &json!({
            "question": { "oneOf": questions },
            "answer": { "oneOf": answers },
            "refusal": refusal,
        })]),
    })
}

/// The schema a reference points to.
fn resolved(with: &SchemaGenerator, schema: &Value) -> Value {
    let name = schema.get("$ref").and_then(Value::as_str).and_then(|path| path.rsplit('/').next());
    name.and_then(|name| with.definitions().get(name)).unwrap_or(schema).clone()
}

fn merged(parts: &[&Value]) -> Value {
    let all: Map<String, Value> = parts
        .iter()
        .filter_map(|part| part.as_object())
        .flatten()
        .map(|(name, value)| (name.clone(), value.clone()))
        .collect();
    Value::Object(all)
}

/// A quantity may come as an SI number with its unit at the end of the field's name.
fn si_numbers() -> Value {
    let units: Vec<&str> =
        UNIT_SUFFIXES.iter().map(|(suffix, _)| suffix.trim_start_matches('_')).collect();
    json!({ format!("_({})$", units.join("|")): { "type": ["number", "string", "array", "null"] } })
}

/// A group that takes no further fields is a part of a question, and those are all optional.
fn loosen_questions(definitions: &mut Value) {
    for definition in definitions.as_object_mut().into_iter().flat_map(|all| all.values_mut()) {
        if let Some(fields) = definition.as_object_mut()
            && fields.get("additionalProperties") == Some(&Value::Bool(false))
        {
            fields.remove("required");
            fields.insert("patternProperties".to_owned(), si_numbers());
        }
    }
}
