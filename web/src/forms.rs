//! A submitted form: from the browser's object to typed questions, and back to what was typed.

use chrono::NaiveDate;
use pegline_core::{
    given::{Control, Fault, Row},
    journal,
    quantity::System,
    record, text,
    time::iso,
};
use serde_json::{Map, Value};

/// What stands in a form: each field's raw text by its dotted name, and which faults are due.
#[derive(Clone, Debug)]
pub struct Form {
    /// Its fields, as core declares them.
    fields: Control,
    /// In the order in which they came. Plain lists here and in `left`: a form has few fields, and
    /// a tree weighs 6 kB on the phone.
    raw: Vec<Raw>,
    left: Vec<String>,
    submitted: bool,
}

/// One field as it stands.
#[derive(Clone, Debug)]
struct Raw {
    name: String,
    text: String,
    /// Whether the gardener put it there, not the garden.
    typed: bool,
}

impl Default for Form {
    fn default() -> Self {
        Self::of(Control::Group(&[]))
    }
}

impl Form {
    /// A form with these fields, empty.
    pub fn of(fields: Control) -> Self {
        Self { fields, raw: Vec::new(), left: Vec::new(), submitted: false }
    }

    /// The same form, empty again.
    pub fn emptied(&self) -> Self {
        Self::of(self.fields)
    }

    /// What is declared of a field: its label, and what it is typed with.
    pub fn row(&self, name: &str) -> Option<Row> {
        // Each form of a page asks for its own moment: `when.look`.
        let name = if name.starts_with("when.") { "when" } else { name };
        self.fields.row(name).or_else(|| record::OF_ANY_PAGE.row(name))
    }

    /// What was typed as the doors take it: empty fields dropped, and a bare number in a field whose
    /// label names a unit completed with it.
    pub fn completed(&self, typed: &Value, system: System) -> Value {
        completed(typed, self.fields, system)
    }

    /// A form of no declared fields, with these texts in it.
    pub fn filled(fields: &Value) -> Self {
        let mut form = Self::default();
        flatten(fields, "", &mut |name, text| form.set(name, text));
        form
    }

    /// The raw text of a field.
    pub fn text(&self, name: &str) -> &str {
        self.raw.iter().find(|field| field.name == name).map_or("", |field| field.text.as_str())
    }

    /// Takes over everything typed; fields that are not on the page now keep their text.
    pub fn take(&mut self, fields: &Value) {
        flatten(fields, "", &mut |name, text| self.put(name, text));
    }

    /// Whether the field was ever on the page.
    pub fn has(&self, name: &str) -> bool {
        self.raw.iter().any(|field| field.name == name)
    }

    /// The fields nested as the doors take them.
    pub fn nested(&self) -> Value {
        let mut all = Value::Object(Map::new());
        // A chooser before the group it stands for, so that what is chosen counts.
        for grouped in [false, true] {
            for field in &self.raw {
                if field.name.bytes().any(|byte| byte == b'.') == grouped {
                    put(&mut all, &field.name, &field.text);
                }
            }
        }
        all
    }

    /// What stands in it, as a person says it: of a choice its words, of a measure its unit, of a bed its
    /// name; labels only where the rest says too little.
    pub fn told(
        &self,
        system: System,
        today: NaiveDate,
        bed: &dyn Fn(&str) -> Option<String>,
    ) -> Vec<String> {
        let filled = self.raw.iter().filter(|field| !field.text.trim().is_empty());
        let mut told: Vec<String> = Vec::new();
        for field in filled {
            let Some(row) = self.fields.row(&field.name) else { continue };
            let text = field.text.trim();
            let chosen = row.control.choices().iter().find(|(value, _)| *value == text);
            let label = text::small(row.label.split(',').next().unwrap_or_default());
            told.push(match row.control {
                _ if field.name == "bed" => bed(text).unwrap_or_default(),
                // Ids of the record say nothing to anyone.
                _ if journal::id::read_id(text).is_some() => String::new(),
                Control::YesNo => label,
                Control::Choice(_) => {
                    chosen.map_or_else(String::new, |(_, words)| (*words).to_owned())
                }
                Control::Day => iso::read_date(text)
                    .map_or_else(|| text.to_owned(), |day| text::day(day, Some(today))),
                Control::Measure(..) => {
                    let unit =
                        row.control.unit(system).filter(|_| !text.chars().any(is_unit_letter));
                    format!(
                        "{label} {text}{}",
                        unit.map(|unit| format!(" {unit}")).unwrap_or_default()
                    )
                }
                _ => text.to_owned(),
            });
        }
        told.retain(|words| !words.is_empty());
        told
    }

    /// The fields by their dotted names, none left out: [`Form::take`] reads them.
    pub fn texts(&self) -> Value {
        let named = |field: &Raw| (field.name.clone(), field.text.as_str().into());
        Value::Object(self.raw.iter().map(named).collect())
    }

    /// Sets one field as the garden fills it in.
    pub fn set(&mut self, name: &str, text: &str) {
        self.lay(name, text, false);
    }

    /// Puts into one field what the gardener chose there.
    pub fn put(&mut self, name: &str, text: &str) {
        // What the page sends back as it was given is not the gardener's.
        if self.text(name) != text || !self.has(name) {
            self.lay(name, text, !text.is_empty() || self.has(name));
        }
    }

    fn lay(&mut self, name: &str, text: &str, typed: bool) {
        let text = text.to_owned();
        match self.raw.iter_mut().find(|field| field.name == name) {
            Some(field) => (field.text, field.typed) = (text, typed),
            None => self.raw.push(Raw { name: name.to_owned(), text, typed }),
        }
    }

    /// Whether anything stands in it.
    pub fn is_filled(&self) -> bool {
        self.raw.iter().any(|field| !field.text.trim().is_empty())
    }

    /// Whether the gardener put anything in.
    pub fn is_typed_in(&self) -> bool {
        self.raw.iter().any(|field| field.typed)
    }

    /// The moment set in this form, with the name of its field: one page may hold several forms that
    /// ask for one, each under `when` or within it.
    pub fn when(&self) -> Option<(&str, &str)> {
        let is_moment = |name: &str| name == "when" || name.starts_with("when.");
        let field = self.raw.iter().find(|field| is_moment(&field.name))?;
        Some((field.name.as_str(), field.text.as_str())).filter(|(_, text)| !text.is_empty())
    }

    /// Takes out what was written with one form of the page; what is typed in the others stays, and
    /// all else is filled in anew.
    pub fn written(&mut self, sent: &Self, fresh: Self) {
        self.raw.retain(|field| field.typed && !sent.has(&field.name));
        for field in fresh.raw {
            if !self.has(&field.name) {
                self.raw.push(field);
            }
        }
        self.left.clear();
        self.submitted = false;
    }

    /// Notes that all of it is in the record now.
    pub fn is_kept(&mut self) {
        self.raw.iter_mut().for_each(|field| field.typed = false);
    }

    /// Forgets a field and all within it; whether there was anything.
    pub fn forget(&mut self, name: &str) -> bool {
        let before = self.raw.len();
        self.raw.retain(|field| {
            let rest = field.name.strip_prefix(name);
            !rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
        });
        self.raw.len() < before
    }

    /// Notes that the gardener has left a field: its fault may be shown from now on.
    pub fn leave(&mut self, name: &str) {
        self.left.push(name.to_owned());
    }

    /// Notes that the gardener asked for the answer: every fault may be shown.
    pub fn submit(&mut self) {
        self.submitted = true;
    }

    /// Whether the gardener asked for the answer.
    pub fn is_submitted(&self) -> bool {
        self.submitted
    }

    /// Whether a field's fault is to be shown.
    pub fn is_due(&self, fault: &Fault) -> bool {
        self.submitted || (!fault.given.is_empty() && self.left.contains(&fault.field))
    }
}

/// Puts a text at a dotted name. A chooser may bear the name of the group it stands for: while
/// something is chosen there the group does not count.
fn put(at: &mut Value, name: &str, text: &str) {
    if at.as_str().is_some_and(|chosen| !chosen.is_empty()) {
        return;
    }
    let (part, rest) = name.split_once('.').map_or((name, None), |(part, rest)| (part, Some(rest)));
    let slot = match part.parse::<usize>() {
        Ok(index) if index < 1_000 => {
            if !at.is_array() {
                *at = Value::Array(Vec::new());
            }
            at.as_array_mut().and_then(|items| {
                if items.len() <= index {
                    items.resize(index + 1, Value::Null);
                }
                items.get_mut(index)
            })
        }
        _ => {
            if !at.is_object() {
                *at = Value::Object(Map::new());
            }
            at.as_object_mut().map(|fields| fields.entry(part).or_insert(Value::Null))
        }
    };
    match (slot, rest) {
        (Some(slot), Some(rest)) => put(slot, rest, text),
        (Some(slot), None) if !slot.is_object() && !slot.is_array() => *slot = text.into(),
        _ => {}
    }
}

/// Flattens nested fields into dotted names.
fn flatten(value: &Value, name: &str, into: &mut dyn FnMut(&str, &str)) {
    let inside = |part: &str| {
        if name.is_empty() { part.to_owned() } else { format!("{name}.{part}") }
    };
    match value {
        Value::Object(fields) => {
            fields.iter().for_each(|(part, value)| flatten(value, &inside(part), into));
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(part, value)| {
                flatten(value, &inside(&part.to_string()), into);
            });
        }
        Value::String(text) => into(name, text),
        Value::Null => {}
        other => into(name, &serde_json::to_string(other).unwrap_or_default()),
    }
}

/// Empty fields dropped, and a bare number in a field whose label names a unit completed with it.
fn completed(value: &Value, typed: Control, system: System) -> Value {
    match value {
        Value::Object(fields) => {
            let mut kept = Map::new();
            for (part, value) in fields {
                let typed = typed.row(part).map_or(Control::Text, |row| row.control);
                let value = completed(value, typed, system);
                if !is_empty(&value) {
                    kept.insert(part.clone(), value);
                }
            }
            Value::Object(kept)
        }
        Value::Array(items) => {
            let read: Vec<Value> =
                items.iter().map(|item| completed(item, typed, system)).collect();
            // Months keep their place in the year: of twelve, an empty one is a fault, not a gap.
            let places = read.iter().all(Value::is_string) && !read.iter().all(is_empty);
            Value::Array(read.into_iter().filter(|item| places || !is_empty(item)).collect())
        }
        Value::String(text) => {
            let text = text.trim();
            let bare = !text.is_empty() && !has_unit(text);
            match typed.unit(system) {
                Some(unit) if bare => Value::String(format!("{text} {unit}")),
                _ => Value::String(text.to_owned()),
            }
        }
        other => other.clone(),
    }
}

/// Whether a unit or a number word stands in it; "8 x 4" and "8 by 4" are two numbers.
fn has_unit(text: &str) -> bool {
    let (one, other) = text::parted(text, " by ").unwrap_or((text, ""));
    let said =
        |text: &str| text.chars().any(|it| is_unit_letter(it) && !matches!(it, 'x' | 'X' | '×'));
    said(one) || said(other)
}

/// Letters and marks that a unit or a number word is written with. Beyond ASCII, letters of
/// every script lie between À and the punctuation; ½ and its like lie outside.
fn is_unit_letter(letter: char) -> bool {
    letter.is_ascii_alphabetic()
        || matches!(letter, 'µ' | 'À'..='\u{1fff}' | '\'' | '"' | '′' | '″' | '’' | '”')
}

fn is_empty(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::String(text) => text.is_empty(),
        Value::Object(fields) => fields.is_empty(),
        Value::Array(items) => items.is_empty(),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pegline_core::ask;
    use serde_json::json;

    fn blank() -> Form {
        Form::of(Control::Group(&[]))
    }

    fn filled(typed: &Value) -> Form {
        let mut form = blank();
        form.take(typed);
        form
    }

    fn asked(topic: &str, typed: &Value, system: System) -> Value {
        Form::of(ask::fields(topic)).completed(typed, system)
    }

    #[test]
    fn nested_fields_get_dotted_names() {
        let form = filled(&json!({"bed": {"length": "8"}, "plants": [{"crop": "cabbage"}]}));
        assert_eq!(form.text("bed.length"), "8");
        assert_eq!(form.text("plants.0.crop"), "cabbage");
        assert_eq!(form.text("plants.1.crop"), "");
    }

    #[test]
    fn fields_nest_back() {
        let sent = json!({"bed": {"drip": {"lines": "4"}, "length": "8"}, "plants": [{"crop": "kale"}, {"crop": ""}]});
        assert_eq!(filled(&sent).nested(), sent);
        // The page sends them by their dotted names.
        assert_eq!(
            filled(&json!({"bed.length": "8", "plants.1.crop": "kale"})).nested(),
            json!({"bed": {"length": "8"}, "plants": [null, {"crop": "kale"}]})
        );
    }

    #[test]
    fn a_group_counts_while_nothing_is_chosen_in_its_place() {
        let mut form = blank();
        form.set("bed", "");
        form.set("bed.length", "8 ft");
        assert_eq!(form.nested(), json!({"bed": {"length": "8 ft"}}));
        form.set("bed", "fence-bed");
        assert_eq!(form.nested(), json!({"bed": "fence-bed"}));
        let mut later = blank();
        later.set("bed.length", "8 ft");
        later.set("bed", "fence-bed");
        assert_eq!(later.nested(), json!({"bed": "fence-bed"}));
    }

    #[test]
    fn a_bare_number_takes_the_unit_of_its_label() {
        let typed = json!({"bed": {"length": "8", "width": "4 ft", "name": ""}, "plants": [{"spacing": "15", "on_hand": "14"}]});
        assert_eq!(
            asked("plants-per-bed", &typed, System::Us),
            json!({"bed": {"length": "8 ft", "width": "4 ft"}, "plants": [{"spacing": "15 in", "on_hand": "14"}]})
        );
        assert_eq!(
            asked("garlic-window", &json!({"spacing": "38"}), System::Metric),
            json!({"spacing": "38 cm"})
        );
    }

    #[test]
    fn what_is_measured_in_the_hand_is_in_small_units() {
        assert_eq!(
            asked("harvest-readiness", &json!({"measures": {"width": "3/8"}}), System::Us),
            json!({"measures": {"width": "3/8 in"}})
        );
    }

    #[test]
    fn a_field_is_forgotten_with_all_in_it_and_no_other() {
        let mut form = filled(&json!({"cues": ["a", "b"], "cuesheet": "c", "crop": "kale"}));
        assert!(form.forget("cues"));
        assert!(!form.has("cues.0") && form.has("cuesheet") && form.has("crop"));
        assert!(!form.forget("cues"));
    }

    #[test]
    fn feet_and_inches_marks_count_as_units() {
        assert_eq!(
            asked("drip-run-time", &json!({"bed": {"length": "4'6\""}}), System::Us),
            json!({"bed": {"length": "4'6\""}})
        );
    }
}
