//! What the door says to every example, a file a topic.

use std::fmt::Write;

use pegline_core::asking::Topic;
use serde_json::{Map, Number, Value};

use crate::{
    examples::{Example, of_no_garden, of_the_garden},
    kept::{Texts, hold},
};

/// What is shorter stands on one line.
const WIDTH: usize = 100;

#[test]
fn every_example_is_answered_or_refused_as_kept() {
    let mut texts = Texts::new();
    for (asked, examples) in [("Q", of_no_garden()), ("Q, of the garden", of_the_garden())] {
        for Example { question, back } in examples {
            let topic = topic(&question).map_or("no-topic", Topic::word);
            let text = texts.entry(format!("{topic}.txt")).or_default();
            writeln!(text, "{asked}: {question}").unwrap();
            write(&rounded(&back), 0, text);
            text.push_str("\n\n");
        }
    }
    hold("door", &texts);
}

#[test]
fn every_topic_has_examples_and_is_refused_with_several_faults() {
    let examples = of_no_garden();
    for asked in Topic::ALL {
        let of: Vec<&Example> =
            examples.iter().filter(|example| topic(&example.question) == Some(*asked)).collect();
        assert!(of.len() >= 6, "{} has {} examples", asked.word(), of.len());
        let faults = of.iter().filter_map(|example| example.back["refused"].as_array());
        assert!(faults.map(Vec::len).max() >= Some(2), "{} is never refused", asked.word());
    }
}

fn topic(question: &Value) -> Option<Topic> {
    let word = question.get("topic")?.as_str()?;
    Topic::ALL.iter().copied().find(|topic| topic.word() == word)
}

/// To nine significant digits: processors round `exp` and `cos` differently in the last ones.
fn rounded(value: &Value) -> Value {
    let short = |number: f64| format!("{number:.8e}").parse().ok().and_then(Number::from_f64);
    match value {
        Value::Number(number) if number.is_f64() => {
            number.as_f64().and_then(short).map_or(Value::Null, Value::Number)
        }
        Value::Array(items) => items.iter().map(rounded).collect(),
        Value::Object(fields) => fields
            .iter()
            .map(|(name, value)| (name.clone(), rounded(value)))
            .collect::<Map<_, _>>()
            .into(),
        other => other.clone(),
    }
}

/// With what fits on a line in one, so that a list of plants has a plant a line.
fn write(value: &Value, depth: usize, text: &mut String) {
    let line = value.to_string();
    let (open, close, items): (_, _, Vec<(String, &Value)>) = match value {
        Value::Array(items) => ('[', ']', items.iter().map(|item| (String::new(), item)).collect()),
        Value::Object(fields) => {
            let named =
                |(name, value)| (format!("{}: ", Value::String(String::clone(name))), value);
            ('{', '}', fields.iter().map(named).collect())
        }
        _ => return text.push_str(&line),
    };
    if line.len() + 2 * depth <= WIDTH && depth > 0 {
        return text.push_str(&line);
    }
    text.push(open);
    for (place, (name, item)) in items.iter().enumerate() {
        let comma = if place == 0 { "" } else { "," };
        write!(text, "{comma}\n{:1$}{name}", "", 2 * depth + 2).unwrap();
        write(item, depth + 1, text);
    }
    write!(text, "\n{:1$}{close}", "", 2 * depth).unwrap();
}
