//! The fields of the record's own forms, page by page.

use super::{look, reading, settings, start, thermometers};
use crate::{
    bed::Described,
    given::{Control, FromGiven, Readable, Row},
    quantity::{Length, Temperature},
};

const fn group(name: &'static str, control: Control) -> Row {
    Row { name, label: "", control }
}

const fn text(name: &'static str, label: &'static str) -> Row {
    Row { name, label, control: Control::Text }
}

const fn of<T: Readable>(name: &'static str, label: &'static str) -> Row {
    Row { name, label, control: T::CONTROL }
}

/// What stands on several pages beside their own fields: a note, what was picked, and when it was.
pub const OF_ANY_PAGE: Control = Control::Group(&[
    text("when", "When"),
    text("note", "Anything worth knowing"),
    group(
        "entry",
        Control::Group(&[
            text("number", "How much"),
            text("of", "Counted in"),
            text("variety", "Variety"),
        ]),
    ),
]);

/// Correcting an entry.
pub const OF_AN_ENTRY: Control = Control::Group(&[group(
    "what",
    Control::Group(&[
        text("crop", "Crop"),
        text("variety", "Variety"),
        text("count", "How many"),
        of::<Length>("spacing", "Space between"),
        text("amount", "How much"),
        text("text", "Note"),
        text("name", "Its name"),
        text("container", "In what"),
        text("why", "Why"),
        of::<Temperature>("low", "Lowest air"),
        of::<Temperature>("high", "Highest air"),
        text("soil", "Soil"),
        of::<Length>("depth", "At what depth"),
    ]),
)]);

/// Laying out a bed.
pub const OF_A_BED: Control = Control::Group(&[group("bed", Described::CONTROL)]);

/// What is written down at a bed.
pub const AT_A_BED: Control =
    Control::Group(&[group("reading", reading::Form::CONTROL), group("look", look::Form::CONTROL)]);

/// What is written down of trays.
pub const OF_TRAYS: Control = Control::Group(&[
    group("sown", start::Sown::CONTROL),
    group("look", start::Look::CONTROL),
    group("pricked", start::Done::CONTROL),
    group("moved", start::Done::CONTROL),
    group("lost", start::Done::CONTROL),
    group("day", start::Done::CONTROL),
]);

/// The thermometers, and what the cold did.
pub const OF_THERMOMETERS: Control = thermometers::Form::CONTROL;

/// The settings.
pub const OF_SETTINGS: Control = settings::Form::CONTROL;
