//! How much one reads before the button that writes: of every example that is answered.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use serde_json::Value;
use walk::Walk;

/// So many words at most stand between the top of the page and the button.
const MOST: usize = 60;

/// The words of a part of the page; those inside drawings, and cautions, which are never left out, don't
/// count.
fn words(page: &str) -> usize {
    let mut text = String::new();
    let mut rest = page;
    let skipped = [
        ("<svg", "</svg>"),
        ("<p class=\"warn\"", "</p>"),
        ("<section class=\"warn\"", "</section>"),
    ];
    while let Some((before, tag)) = rest.split_once('<') {
        text.push_str(before);
        text.push(' ');
        let tag = &rest[rest.len() - tag.len() - 1..];
        let skip = skipped.iter().find(|(open, _)| tag.starts_with(open));
        let end = skip.map_or(">", |(_, close)| *close);
        rest = tag.split_once(end).map_or("", |(_, after)| after);
    }
    text.split_whitespace().filter(|word| word.chars().any(char::is_alphanumeric)).count()
}

#[test]
fn words_are_counted_without_tags_drawings_and_cautions() {
    let page = "<h1>All 14 fit</h1><svg><text>1</text></svg><p class=\"warn\">Mind this.</p><p>at 15 in.</p>";
    assert_eq!(words(page), 6);
}

#[test]
fn the_button_is_near_on_every_question() {
    let examples = include_str!("../../tests/examples/questions.jsonl");
    let (mut offered, mut far) = (0, Vec::new());
    for line in examples.lines() {
        let example: Value = serde_json::from_str(line).unwrap();
        let question = example.get("question").unwrap_or(&example);
        let Some(mut fields) = question.as_object().cloned() else { continue };
        let topic = fields.remove("topic").unwrap_or_default();
        let today = fields.remove("today");
        fields.remove("units");
        let (Some(topic), Some(today)) = (topic.as_str(), today.as_ref().and_then(Value::as_str))
        else {
            continue;
        };
        if pegline_web::screen::ask::question(topic).is_none() || topic == "harvest-readiness" {
            continue;
        }
        let Ok(_) = today.parse::<chrono::NaiveDate>() else { continue };
        let mut walk = Walk::at(&format!("{today}T08:00:00"));
        walk.go(&format!("#/ask/{topic}"));
        walk.event("submit", "answer", &fields.into());
        walk.sees("<main>");
        walk.lacks("data-action=\"undo\"");
        let Some((_, page)) = walk.page.split_once("id=\"verdict\"") else { continue };
        let Some((before, _)) =
            page.split_once("<form id=\"write\" data-action=\"write\" novalidate><button")
        else {
            continue;
        };
        offered += 1;
        let many = words(before);
        if many > MOST {
            far.push(format!(
                "{many} words: {topic}: {}",
                walk.app.answer().unwrap().telling.headline
            ));
        }
    }
    assert!(offered > 12, "{offered} examples offer something to write");
    assert!(far.is_empty(), "{}", far.join("\n"));
}
