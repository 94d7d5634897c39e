//! Every screen there is, by its address: questions before and after their answer, beds, book,
//! settings. What is added to the list of questions is visited by itself.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde_json::Value;

use crate::phone::Phone;

const EXAMPLES: &str = include_str!("../examples/questions.jsonl");

/// Looks at every screen of the invented garden, each under its address.
pub(crate) async fn visit(phone: &mut Phone, look: impl AsyncFn(&Phone, &str)) {
    phone.open("").await;
    phone.sees("Ask at the bed").await;
    look(phone, "an empty garden").await;
    go(phone, "#/beds").await;
    look(phone, "no beds").await;
    go(phone, "#/book").await;
    look(phone, "no entries").await;
    go(phone, "#/").await;
    phone.tap("See a sample garden").await;
    phone.sees("An invented garden").await;
    go(phone, "#/").await;
    look(phone, "#/").await;
    let mut topics = links(phone, "#/ask/").await;
    // What is due today leads to a bed's or a tray's own question.
    topics.retain(|address| address.matches('/').count() == 2);
    assert!(topics.len() >= 9, "{topics:?}");

    go(phone, "#/beds").await;
    look(phone, "#/beds").await;
    let beds = links(phone, "#/bed/").await;
    let bed = beds.first().unwrap();
    go(phone, "#/book").await;
    look(phone, "#/book").await;
    let entries = links(phone, "#/book/").await;
    for address in
        [bed, &format!("{bed}/change"), "#/beds/new", entries.first().unwrap(), "#/settings"]
    {
        go(phone, address).await;
        look(phone, address).await;
    }

    let examples = examples();
    for address in &topics {
        go(phone, address).await;
        look(phone, address).await;
        let topic = address.trim_start_matches("#/ask/");
        answer(phone, topic, examples.get(topic)).await;
        // What is folded away is looked at too.
        phone.script(UNFOLD, &[]).await;
        look(phone, &format!("{address}, answered")).await;
    }
}

const UNFOLD: &str = "for (const part of document.querySelectorAll('details')) part.open = true;";

/// Goes to a screen of the page that is open, so that the invented garden stays.
async fn go(phone: &Phone, address: &str) {
    let go = "location.hash = arguments[0];";
    phone.script(go, &[address.into()]).await;
    // The page is redrawn when the browser tells it of the new address.
    let drawn = "const done = arguments[arguments.length - 1];
        requestAnimationFrame(() => setTimeout(() => done(location.hash), 50));";
    let there = phone.slow_script(drawn.to_owned(), &[]).await;
    assert_eq!(there, address);
}

/// Addresses on the page that begin so, in their order.
async fn links(phone: &Phone, begin: &str) -> Vec<String> {
    let all = "return [...document.querySelectorAll('main a[href]')]
        .map((link) => link.getAttribute('href'))
        .filter((address) => address.startsWith(arguments[0]));";
    let all = phone.script(all, &[begin.into()]).await;
    serde_json::from_value(all).unwrap()
}

/// Example questions by topic.
fn examples() -> BTreeMap<String, Vec<Value>> {
    let mut by_topic: BTreeMap<String, Vec<Value>> = BTreeMap::new();
    for line in EXAMPLES.lines() {
        let question: Value = serde_json::from_str(line).unwrap();
        let topic = question["topic"].as_str().unwrap_or_default().to_owned();
        by_topic.entry(topic).or_default().push(question);
    }
    by_topic
}

/// A place as forms ask for it; examples name theirs month by month.
const PLACE: [(&str, &str); 5] = [
    ("site.latitude", "41.5 N"),
    ("site.coldest.low", "18 F"),
    ("site.coldest.high", "32 F"),
    ("site.hottest.low", "62 F"),
    ("site.hottest.high", "86 F"),
];

/// Fills the form with one example after the other, until one is answered.
async fn answer(phone: &Phone, topic: &str, examples: Option<&Vec<Value>>) {
    let mut said = Vec::new();
    let today = phone.script("return new Date().toLocaleDateString('sv')", &[]);
    let today = date(today.await.as_str().unwrap()).unwrap();
    for example in examples.into_iter().flatten() {
        let mut fields: Vec<(String, String)> =
            PLACE.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect();
        flatten("", example, &mut fields);
        fields.retain(|(name, _)| name != "topic" && name != "today");
        for (_, text) in &mut fields {
            *text = moved(text, example, today);
        }
        go(phone, "#/").await;
        go(phone, &format!("#/ask/{topic}")).await;
        for (name, text) in fields {
            phone.script(FILL, &[name.into(), text.into()]).await;
        }
        let submit = "document.querySelector('#question [data-action=answer]')?.click();";
        phone.script(submit, &[]).await;
        let answered = "return document.querySelector('.verdict h1') !== null;";
        if phone.script(answered, &[]).await == true {
            return;
        }
        let faults = "return document.getElementById('faults')?.innerText ?? 'nothing';";
        said.push(format!("{example}: {}", phone.script(faults, &[]).await));
    }
    panic!("no example of {topic} is answered on its screen:\n{}", said.join("\n"));
}

/// A date of the example as far from today as it is from the example's own day; other text as it is.
fn moved(text: &str, example: &Value, today: NaiveDate) -> String {
    let then = example["today"].as_str().and_then(date);
    match (date(text), then) {
        (Some(on), Some(then)) => (today + (on - then)).to_string(),
        _ => text.to_owned(),
    }
}

fn date(text: &str) -> Option<NaiveDate> {
    text.parse().ok()
}

/// Puts text into the field of this name as typing does, where the form has it.
const FILL: &str = "
    const field = document.querySelector(`#question [name=\"${CSS.escape(arguments[0])}\"]`);
    if (!field) return;
    const choices = [...document.querySelectorAll(`#question [name=\"${CSS.escape(arguments[0])}\"]`)];
    const choice = choices.find((one) => one.value === arguments[1]);
    if (field.type === 'checkbox' || field.type === 'radio') {
        if (choice) choice.checked = true;
    } else if (field.tagName !== 'SELECT' || [...field.options].some((one) => one.value === arguments[1])) {
        field.value = arguments[1];
    }
    for (const name of ['input', 'change']) field.dispatchEvent(new Event(name, { bubbles: true }));
";

/// A question's values by the dotted names of their fields.
fn flatten(at: &str, value: &Value, fields: &mut Vec<(String, String)>) {
    let below = |part: &str| {
        if at.is_empty() { part.to_owned() } else { format!("{at}.{part}") }
    };
    match value {
        Value::Object(members) => {
            for (name, value) in members {
                flatten(&below(name), value, fields);
            }
        }
        Value::Array(items) => {
            for (index, value) in items.iter().enumerate() {
                flatten(&below(&index.to_string()), value, fields);
                // Ticks beside each other bear the list's own name.
                if let Some(text) = value.as_str() {
                    fields.push((at.to_owned(), text.to_owned()));
                }
            }
        }
        Value::Null => {}
        Value::String(text) => fields.push((at.to_owned(), text.clone())),
        other => fields.push((at.to_owned(), other.to_string())),
    }
}
