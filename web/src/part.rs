//! Parts that screens are made of: the page, fields with their faults, lists of rows.

use maud::{Markup, html};
use pegline_core::{
    given::{Control, Fault, Row},
    quantity::System,
    text::{capital, parted},
};

use crate::{
    forms::Form,
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
        main { (body) }
        nav.places aria-label="Places" {
            ul {
                @for (place, to, name) in &places {
                    li { a href=(to.address()) aria-current=[(route.place() == *place).then_some("page")] { (name) } }
                }
            }
        }
    }
}

/// How a field is typed.
#[derive(Clone, Copy, Debug)]
pub enum Kind<'a> {
    /// As core declares it; the example of a choice is none of those.
    Declared(Control),
    /// One of a few that the garden tells: value and words.
    Choice(&'a [(&'a str, &'a str)]),
    /// Text with suggestions, from the list of this id.
    Suggest(&'a str),
    /// A local date and time.
    Moment,
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

impl<'a> Field<'a> {
    /// A field as it is declared.
    pub fn of(form: &Form, name: &'a str) -> Self {
        let (label, control) =
            form.row(name).map_or(("", Control::Text), |row| (row.label, row.control));
        Self { name, label, hint: "", example: "", kind: Kind::Declared(control) }
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
    let control = match field.kind {
        Kind::Declared(control) => control,
        _ => Control::Text,
    };
    let unit = control.unit(system);
    let input = |kind: &str, mode: Option<&str>, list: Option<&str>| {
        html! {
            input id=(id) name=(field.name) type=(kind) inputmode=[mode] list=[list] value=(text)
                placeholder=[(!field.example.is_empty()).then_some(field.example)]
                autocomplete="off" autocapitalize="off" spellcheck="false"
                aria-describedby=[described.as_deref()] aria-invalid=[invalid];
        }
    };
    let choice = |choices: &[(&str, &str)]| {
        html! {
            select id=(id) name=(field.name) aria-describedby=[described.as_deref()] aria-invalid=[invalid] {
                @if !field.example.is_empty() { option value="" selected[text.is_empty()] { (field.example) } }
                @for (value, words) in choices {
                    option value=(value) selected[*value == text] { (words) }
                }
            }
        }
    };
    html! {
        div.field id=(format!("{id}-field")) {
            label for=(id) { (field.label) @if let Some(unit) = unit { ", " (unit) } }
            @match (field.kind, control) {
                (Kind::Choice(choices), _) | (_, Control::Choice(choices)) => (choice(choices)),
                (Kind::Suggest(list), _) => (input("text", None, Some(list))),
                (Kind::Moment, _) => (input("datetime-local", None, None)),
                (_, Control::Crop) => (input("text", None, Some("crops"))),
                (_, Control::Count) => (input("text", Some("numeric"), None)),
                (_, Control::Day) => (input("date", None, None)),
                _ => (input("text", None, None)),
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
    fault_list(form, faults, &|_| None)
}

/// [`fault_summary`] with names for fields that are called by more than their label.
pub fn fault_list(
    form: &Form,
    faults: &[Fault],
    called: &dyn Fn(&str) -> Option<String>,
) -> Markup {
    // A group's fault says itself what it is of; an aside in a label is left out.
    let label = |name: &str| match form.row(name)? {
        Row { control: Control::Group(_), .. } => None,
        row => row.label.split(',').next().map(capital),
    };
    html! {
        @if form.is_submitted() && !faults.is_empty() {
            section.faults id="faults" tabindex="-1" role="alert" data-focus="faults" aria-labelledby="faults-title" {
                h2 id="faults-title" { "Please fix" }
                ul {
                    @for fault in faults {
                        li { a href=(format!("#{}", control_id(&fault.field))) data-action=(format!("field:{}", control_id(&fault.field))) {
                            @if let Some(name) = called(&fault.field).or_else(|| label(&fault.field)) { b { (name) } " " }
                            (fault_words(fault))
                        } }
                    }
                }
            }
        }
    }
}
