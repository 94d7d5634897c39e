//! Parts that screens are made of: the page, fields with their faults, lists of rows.

use maud::{Markup, PreEscaped, html};
use pegline_core::{
    given::Fault,
    quantity::System,
    text::{capital, parted},
};

use crate::{
    forms::{Form, unit},
    route::{Place, Route},
};

/// A whole screen: a line on top, the screen itself, the places at the bottom.
pub fn page(title: &str, beside: &str, route: &Route, body: &Markup) -> Markup {
    let places = [
        (Place::Ask, Route::Ask, "Ask"),
        (Place::Beds, Route::Beds, "Beds"),
        (Place::Starts, Route::Starts, "Starts"),
        (Place::Book, Route::Book, "Book"),
    ];
    html! {
        header.top { b { (title) } span { (beside) } }
        main { (PreEscaped(with_labels(&body.0))) }
        nav.places aria-label="Places" {
            ul {
                @for (place, to, name) in &places {
                    li { a href=(to.address()) aria-current=[(route.place() == *place).then_some("page")] { (name) } }
                }
            }
        }
    }
}

/// Where the list of faults names a field: its label is only known once the form below is made.
const NAMES: (&str, &str) = ("<i data-names=\"", "\"></i>");

/// The markup with each field that is named called by its label.
fn with_labels(body: &str) -> String {
    let mut named = String::new();
    let mut rest = body;
    while let Some((before, (id, after))) =
        parted(rest, NAMES.0).and_then(|(before, after)| Some((before, parted(after, NAMES.1)?)))
    {
        named.push_str(before);
        let label = parted(body, &format!("<label for=\"{id}\">"))
            .and_then(|(_, label)| label.split_once(['<', ',']));
        for part in label.iter().flat_map(|(label, _)| ["<b>", label, "</b> "]) {
            named.push_str(part);
        }
        rest = after;
    }
    named.push_str(rest);
    named
}

/// How a field is typed.
#[derive(Clone, Copy, Debug)]
pub enum Kind<'a> {
    /// Text, such as a name or a length with its unit.
    Text,
    /// A whole number: the phone shows the number pad.
    Count,
    /// One of a few: value and words.
    Choice(&'a [(&'a str, &'a str)]),
    /// Text with suggestions, from the list of this id.
    Suggest(&'a str),
    /// A local date and time.
    Moment,
    /// A date.
    Day,
}

/// One field of a form.
#[derive(Clone, Copy, Debug)]
pub struct Field<'a> {
    /// Dotted name, the same as the question's field.
    pub name: &'a str,
    /// The words above it.
    pub label: &'a str,
    /// Words below it.
    pub hint: &'a str,
    /// What stands in it, pale, while it is empty.
    pub example: &'a str,
    /// How it is typed.
    pub kind: Kind<'a>,
}

impl Default for Field<'_> {
    fn default() -> Self {
        Self { name: "", label: "", hint: "", example: "", kind: Kind::Text }
    }
}

/// The id of a field's control.
pub fn control_id(name: &str) -> String {
    format!("f-{}", name.replace('.', "-"))
}

/// A field with its label, its text as typed, its hint, and its fault if one is due.
pub fn field(form: &Form, faults: &[Fault], system: System, field: &Field<'_>) -> Markup {
    let id = control_id(field.name);
    let fault = faults.iter().find(|fault| fault.field == field.name && form.is_due(fault));
    let hint_id = format!("{id}-hint");
    let fault_id = format!("{id}-fault");
    let described = match (field.hint.is_empty(), fault) {
        (true, None) => None,
        (false, None) => Some(hint_id.clone()),
        (true, Some(_)) => Some(fault_id.clone()),
        (false, Some(_)) => Some(format!("{fault_id} {hint_id}")),
    };
    let invalid = fault.map(|_| "true");
    let text = form.text(field.name);
    let unit = unit(field.name, system);
    let input = |kind: &str, mode: Option<&str>, list: Option<&str>| {
        html! {
            input id=(id) name=(field.name) type=(kind) inputmode=[mode] list=[list] value=(text)
                placeholder=[(!field.example.is_empty()).then_some(field.example)]
                autocomplete="off" autocapitalize="off" spellcheck="false"
                aria-describedby=[described.as_deref()] aria-invalid=[invalid];
        }
    };
    html! {
        div.field id=(format!("{id}-field")) {
            label for=(id) { (field.label) @if let Some(unit) = unit { ", " (unit) } }
            @match field.kind {
                Kind::Text => (input("text", None, None)),
                Kind::Count => (input("text", Some("numeric"), None)),
                Kind::Suggest(list) => (input("text", None, Some(list))),
                Kind::Moment => (input("datetime-local", None, None)),
                Kind::Day => (input("date", None, None)),
                Kind::Choice(choices) => {
                    select id=(id) name=(field.name) aria-describedby=[described.as_deref()] aria-invalid=[invalid] {
                        @for (value, words) in choices {
                            option value=(value) selected[*value == text] { (words) }
                        }
                    }
                }
            }
            @if let Some(fault) = fault { span.fault id=(fault_id) { (fault_words(fault)) } }
            @if !field.hint.is_empty() { span.hint id=(hint_id) { (field.hint) } }
        }
    }
}

/// The fault of a field, if one is due.
pub fn fault_of(form: &Form, faults: &[Fault], name: &str) -> Option<String> {
    let fault = faults.iter().find(|fault| fault.field == name && form.is_due(fault))?;
    Some(fault_words(fault))
}

/// A fault beside its field: why, and what is allowed.
fn fault_words(fault: &Fault) -> String {
    let why = capital(&fault.why);
    if fault.given.is_empty() || parted(&fault.why, &fault.given).is_some() {
        format!("{why}. Give {}.", fault.allowed)
    } else {
        format!("“{}”: {}. Give {}.", fault.given, fault.why, fault.allowed)
    }
}

/// All faults in one place, focused when the gardener asked for the answer; each leads to its field.
pub fn fault_summary(form: &Form, faults: &[Fault]) -> Markup {
    html! {
        @if form.is_submitted() && !faults.is_empty() {
            section.faults id="faults" tabindex="-1" role="alert" data-focus="faults" aria-labelledby="faults-title" {
                h2 id="faults-title" { "Not yet answered" }
                ul {
                    @for fault in faults {
                        li { a href=(format!("#{}", control_id(&fault.field))) data-action=(format!("field:{}", control_id(&fault.field))) {
                            i data-names=(control_id(&fault.field)) {}
                            (fault_words(fault))
                        } }
                    }
                }
            }
        }
    }
}
