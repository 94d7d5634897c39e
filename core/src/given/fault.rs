//! Faults in a question, and the refusal that lists them.

use super::read::{ReadBy, Taken};
use crate::quantity::Unreadable;

/// One fault: which field, what was given, what is allowed, and why that was not it.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Fault {
    /// Dotted path of the field, empty where the question as a whole can't be read.
    pub field: String,
    /// What was given, shortened where it was long; empty where nothing was.
    pub given: String,
    /// What is allowed, in words.
    pub allowed: String,
    /// Why what was given is not allowed.
    pub why: String,
}

/// A name that was taken for another: a word for several, or a slip of the pen.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Meant {
    /// Dotted path of the field.
    pub field: String,
    /// What was given.
    pub given: String,
    /// The id taken.
    pub taken: &'static str,
    /// The ids of what else it may mean.
    pub others: Vec<&'static str>,
}

/// All faults found so far, and what was taken for what.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Faults {
    faults: Vec<Fault>,
    meant: Vec<Meant>,
    by: ReadBy,
}

impl Faults {
    /// From here on fields are read by this.
    pub(crate) fn read_by(&mut self, by: ReadBy) {
        self.by = by;
    }

    /// What fields are read by.
    pub(super) fn by(&self) -> &ReadBy {
        &self.by
    }

    /// Notes one fault.
    pub fn add(
        &mut self,
        field: &str,
        given: &str,
        allowed: impl Into<String>,
        why: impl Into<String>,
    ) {
        self.faults.push(Fault {
            field: field.to_owned(),
            given: shortened(given),
            allowed: allowed.into(),
            why: why.into(),
        });
    }

    /// Notes what a name was taken for; once for each field.
    pub(super) fn note(&mut self, field: &str, given: &str, (taken, others): Taken) {
        if self.meant.iter().all(|meant| meant.field != field) {
            let (field, given) = (field.to_owned(), shortened(given));
            self.meant.push(Meant { field, given, taken, others });
        }
    }

    /// What was taken for what, in the order of the question's fields.
    pub(crate) fn take_meant(&mut self) -> Vec<Meant> {
        core::mem::take(&mut self.meant)
    }

    /// Notes that this text can't be read. Once for all that can be read, as is the next.
    pub(super) fn unread(&mut self, field: &str, given: &str, unreadable: Unreadable) {
        self.add(field, given, unreadable.allowed, unreadable.why);
    }

    /// Notes that a field without which there is no answer was not given.
    pub(crate) fn missed(&mut self, field: &str, allowed: String) {
        self.add(field, "", allowed, "this is needed for an answer");
    }

    /// The value if there is one and no fault was noted, else the refusal.
    pub fn or_refuse<T>(self, value: Option<T>) -> Result<T, Refusal> {
        match value {
            Some(value) if self.faults.is_empty() => Ok(value),
            _ => Err(Refusal { refused: self.faults }),
        }
    }

    /// Whether a fault of that field was noted.
    pub fn has(&self, field: &str) -> bool {
        self.faults.iter().any(|fault| fault.field == field)
    }

    /// Whether anything is wrong so far.
    pub fn is_empty(&self) -> bool {
        self.faults.is_empty()
    }
}

/// Why a question gets no answer: every fault, in the order of the question's fields.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, thiserror::Error)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[error("{} of the question's fields can't be read", .refused.len())]
pub struct Refusal {
    /// The faults; never empty.
    pub refused: Vec<Fault>,
}

impl Refusal {
    /// A refusal for one fault.
    pub fn of(
        field: &str,
        given: &str,
        allowed: impl Into<String>,
        why: impl Into<String>,
    ) -> Self {
        let mut faults = Faults::default();
        faults.add(field, given, allowed, why);
        Self { refused: faults.faults }
    }
}

/// Echoes at most 60 characters: enough to recognise what was typed.
fn shortened(text: &str) -> String {
    const MOST: usize = 60;
    match text.char_indices().nth(MOST) {
        None => text.to_owned(),
        Some((end, _)) => format!("{}…", text.get(..end).unwrap_or_default()),
    }
}
