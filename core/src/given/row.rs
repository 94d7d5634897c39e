//! What is said of a field once, for all that ask for it: its label, and what it is typed with.

use crate::quantity::System;

/// A field that forms show.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// Its name in its group, and in the form.
    pub name: &'static str,
    /// The words above it; none where it is a group.
    pub label: &'static str,
    /// What it is typed with.
    pub control: Control,
}

/// The values of a field that has only a few: the word of each, and how a person says it.
pub type Choices = &'static [(&'static str, &'static str)];

/// What a field is typed with.
#[derive(Clone, Copy, Debug)]
pub enum Control {
    /// Text.
    Text,
    /// A whole number: the phone shows the number pad.
    Count,
    /// A date.
    Day,
    /// A box to tick.
    YesNo,
    /// A number in a unit: a bare one is taken in the first in US units, in the second in metric ones.
    Measure(&'static str, &'static str),
    /// One of a few.
    Choice(Choices),
    /// The name of a crop.
    Crop,
    /// Fields of its own.
    Group(&'static [Row]),
}

impl Control {
    /// A long side, such as a bed's, or a height above the sea.
    pub(crate) const FEET: Self = Self::Measure("ft", "m");
    /// A depth of water.
    pub(crate) const RAIN: Self = Self::Measure("in", "mm");

    /// One of those said; text, where no value is.
    pub(crate) const fn of(said: Choices) -> Self {
        if said.is_empty() { Self::Text } else { Self::Choice(said) }
    }

    /// The unit of a bare number.
    pub const fn unit(self, system: System) -> Option<&'static str> {
        match (self, system) {
            (Self::Measure(us, _), System::Us) => Some(us),
            (Self::Measure(_, metric), System::Metric) => Some(metric),
            _ => None,
        }
    }

    /// The values to choose from.
    pub const fn choices(self) -> Choices {
        match self {
            Self::Choice(choices) => choices,
            _ => &[],
        }
    }

    /// How the value of that word is said.
    pub fn said(self, word: &str) -> Option<&'static str> {
        self.choices().iter().find(|choice| choice.0 == word).map(|choice| choice.1)
    }

    /// The field at this place within a group: `drip.flow`, `plants.1.crop`, `monthly_low.11`.
    pub fn row(self, place: &str) -> Option<Row> {
        let Self::Group(rows) = self else { return None };
        let (name, rest) = place.split_once('.').unwrap_or((place, ""));
        let row = *rows.iter().find(|row| row.name == name)?;
        let rest = rest.trim_start_matches(|it: char| it.is_ascii_digit());
        match rest.trim_start_matches('.') {
            "" => Some(row),
            within => row.control.row(within),
        }
    }
}
