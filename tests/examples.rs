//! Example questions with what comes back: `questions.jsonl` asked of no garden, and
//! `of_the_garden.jsonl` of the invented one, whose record ends on 2026-11-25.

use pegline_core::{ask::ask, garden::Garden, journal::file};
use serde_json::Value;

const QUESTIONS: &str = include_str!("examples/questions.jsonl");
const OF_THE_GARDEN: &str = include_str!("examples/of_the_garden.jsonl");
const RECORD: &str = include_str!("../web/demo/garden.json");

/// A question, and the answer or the refusal.
pub(crate) struct Example {
    pub(crate) question: Value,
    pub(crate) back: Value,
}

/// Those that tell all by themselves, in order.
pub(crate) fn of_no_garden() -> Vec<Example> {
    read(QUESTIONS, &Garden::default())
}

/// Those that leave something to the invented garden, in order.
pub(crate) fn of_the_garden() -> Vec<Example> {
    read(OF_THE_GARDEN, &Garden::fold(&file::read(RECORD).unwrap().journal))
}

fn read(lines: &str, garden: &Garden) -> Vec<Example> {
    let read = |line| {
        let question = serde_json::from_str(line).unwrap();
        Example { back: door(&question, garden), question }
    };
    lines.lines().map(read).collect()
}

/// What comes back, as JSON.
pub(crate) fn door(question: &Value, garden: &Garden) -> Value {
    match ask(question, garden) {
        Ok(answer) => serde_json::to_value(answer).unwrap(),
        Err(refusal) => serde_json::to_value(refusal).unwrap(),
    }
}
