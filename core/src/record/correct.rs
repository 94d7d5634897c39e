//! Correcting an entry: what of it can be changed, and the draft that changes it.

use serde_json::{Map, Value};

use crate::{
    given::{Fault, Refusal},
    journal::{Draft, Entry, What},
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
pub fn correction(entry: &Entry, form: &Value) -> Result<Option<Draft>, Refusal> {
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
        .corrected_to(moment, &to)
        .map(Some)
        .ok_or_else(|| refused("that is more than one entry can hold".to_owned()))
}

fn text_of(value: &Value) -> Value {
    match value {
        Value::String(text) => text.as_str().into(),
        other => serde_json::to_string(other).unwrap_or_default().into(),
    }
}
