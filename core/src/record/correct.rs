//! Correcting an entry: what of it can be changed, and the draft that changes it.

use serde_json::{Map, Value};

use super::OF_AN_ENTRY;
use crate::{
    garden::{Garden, GaveWay},
    given::{Fault, Refusal},
    journal::{Draft, Entry, What},
    text::day,
    time::iso,
};

/// The fields of an entry that can be corrected, by name.
pub fn correctable(what: &What) -> &'static [&'static str] {
    match what {
        What::Planted(_) | What::Seeded(_) => &["crop", "variety", "count", "spacing"],
        What::Harvest(_) => &["amount", "variety"],
        What::Note(_) => &["text"],
        What::StartSown(_) => &["crop", "variety", "count", "name", "container"],
        What::StartPrickedOut(_) => &["count", "container"],
        What::StartLost(_) => &["count", "why"],
        What::Reading(_) => &["low", "high", "soil", "depth"],
        _ => &[],
    }
}

/// What stands in the form that corrects an entry, nested as the form's names are.
pub fn correction_form(entry: &Entry) -> Value {
    let own = entry.what.object();
    let mut shown = Map::new();
    for name in correctable(&entry.what) {
        if let Some(value) = own.get(*name) {
            shown.insert((*name).to_owned(), text_of(value));
        }
    }
    let mut form = Map::new();
    form.insert("when".into(), iso::show_when(entry.when).into());
    form.insert("what".into(), Value::Object(shown));
    Value::Object(form)
}

/// The draft that makes an entry read as the form says; none if that is what it says already.
///
/// # Errors
/// The field that can't be so, named as on the form.
pub fn correction(entry: &Entry, form: &Value, garden: &Garden) -> Result<Option<Draft>, Refusal> {
    let text =
        |value: Option<&Value>| value.and_then(Value::as_str).unwrap_or_default().trim().to_owned();
    let moment_text = text(form.get("when"));
    let Some(moment) = iso::read_when(&moment_text) else {
        return Err(Refusal::of(
            "when",
            &moment_text,
            "a day and a time",
            "no moment can be read from it",
        ));
    };
    let mut what = entry.what.object();
    for name in correctable(&entry.what) {
        let given = text(form.get("what").and_then(|what| what.get(name)));
        if given.is_empty() {
            what.remove(*name);
        } else if matches!(*name, "count") {
            let field = format!("what.{name}");
            let count = crate::quantity::number::read_count(&given)
                .map_err(|unread| Refusal::of(&field, &given, unread.allowed, unread.why))?;
            what.insert((*name).to_owned(), count.into());
        } else {
            what.insert((*name).to_owned(), given.into());
        }
    }
    let refused = |why: String| Refusal {
        refused: vec![Fault {
            field: "what".into(),
            given: String::new(),
            allowed: "what the entry needs".into(),
            why,
        }],
    };
    let to = Draft::of(entry.what.kind(), entry.about.clone(), what)
        .map_err(|why| refused(why.to_string()))?;
    if moment == entry.when && to.what.object() == entry.what.object() {
        return Ok(None);
    }
    entry
        .corrected_to(moment, &to, garden.latest_corrections(entry.id))
        .map(Some)
        .ok_or_else(|| refused("that is more than one entry can hold".to_owned()))
}

/// What two phones corrected without knowing of each other, and what counts of it, in sentences.
pub fn gave_way(entry: &Entry, garden: &Garden) -> Vec<String> {
    let counts = entry.what.object();
    let told = |value: Option<&Value>| match value.filter(|value| !value.is_null()).map(text_of) {
        Some(Value::String(text)) => format!("“{text}”"),
        _ => "nothing".to_owned(),
    };
    let gave_way = garden.corrections(entry.id).into_iter().flat_map(|it| &it.gave_way);
    let say = |it: &GaveWay| {
        let name = it.field.strip_prefix("what.");
        let label = OF_AN_ENTRY.row(&it.field).map(|row| row.label);
        let (label, values) = match (it.field.as_str(), name) {
            ("when", _) => {
                let then = it.said.as_str().and_then(iso::read_when);
                let said = then.map(|then| day(then.date(), None)).unwrap_or_default();
                ("When it happened", Some((day(entry.when.date(), None), said)))
            }
            (_, Some(name)) => {
                (label.unwrap_or(name), Some((told(counts.get(name)), told(Some(&it.said)))))
            }
            _ => ("What it is about", None),
        };
        let values = values.map_or_else(
            || "the correction with the later name counts".to_owned(),
            |(counts, other)| format!("{counts} counts, the other says {other}"),
        );
        format!("{label}: corrected on two phones that did not know of each other; {values}.")
    };
    gave_way.map(say).collect()
}

fn text_of(value: &Value) -> Value {
    match value {
        Value::String(text) => text.as_str().into(),
        other => serde_json::to_string(other).unwrap_or_default().into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::{Journal, Ulid, samples::entry_text};

    #[test]
    fn both_of_two_corrections_are_told_where_neither_knew_of_the_other() {
        let corrected =
            |rest: &str| format!(r#""kind":"corrected","what":{{{rest},"target":"{}"}}"#, Ulid(1));
        let mut journal = Journal::default();
        let kale = r#""kind":"planted","about":{"bed":"fence"},"what":{"count":6,"crop":"kale"}"#;
        journal.add(&entry_text(1, 0, kale));
        journal.add(&entry_text(2, 1, &corrected(r#""set":{"count":4,"spacing":"18 in"}"#)));
        journal.add(&entry_text(3, 2, &corrected(r#""set":{"count":5}"#)));
        let said = |journal: &Journal| {
            let garden = Garden::fold(journal);
            gave_way(&garden.happened[0].entry, &garden)
        };
        let other = "corrected on two phones that did not know of each other; ";
        assert_eq!(said(&journal), [format!("How many: {other}“5” counts, the other says “4”.")]);
        journal.add(&entry_text(
            4,
            3,
            &corrected(&format!(r#""over":["{}"],"set":{{"spacing":null}}"#, Ulid(2))),
        ));
        assert_eq!(said(&journal).len(), 1, "a space taken out by one who saw it is no dispute");
        journal.add(&entry_text(
            5,
            3,
            &corrected(&format!(r#""over":["{}","{}"],"set":{{"count":4}}"#, Ulid(3), Ulid(4))),
        ));
        assert!(said(&journal).is_empty(), "who saw both has settled it");
    }
}
