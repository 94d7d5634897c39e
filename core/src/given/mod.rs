//! What was asked, as it came: each field's text with its place in the question.
//!
//! A topic declares its fields with [`asked!`](crate::given::asked), all of them optional. Nothing is refused
//! while a question is taken apart except what can never be read (an unknown field, a list where
//! one value belongs); the topic then reads each field into its typed form, and every fault met
//! on the way is kept, so that a refusal names them all at once.

mod fault;
mod read;
mod row;
mod shape;
mod words;

pub use fault::{Fault, Faults, Meant, Refusal};
pub use read::{ReadBy, Readable, Share, Taken, Text};
pub use row::{Choices, Control, Row};
pub use shape::FromGiven;
#[cfg(feature = "schema")]
pub(crate) use shape::UNIT_SUFFIXES;
pub(crate) use shape::{Object, asked, plain};
pub(crate) use words::{not_among, place_among, words};

use std::marker::PhantomData;

/// The longest text one field may hold, in characters.
pub const LONGEST: usize = 400;

/// One field as it was given: its place (`plants.1.on_hand`), its text, and what it is to be read as.
#[derive(Clone, Debug)]
pub struct Given<T> {
    field: String,
    text: Option<String>,
    reads_as: PhantomData<T>,
}

impl<T> Default for Given<T> {
    fn default() -> Self {
        Self { field: String::new(), text: None, reads_as: PhantomData }
    }
}

impl<T> Given<T> {
    /// The dotted path of the field; the form control has the same name.
    pub fn field(&self) -> &str {
        &self.field
    }

    /// The text as given, if any was.
    pub fn text(&self) -> Option<&str> {
        self.text.as_deref()
    }

    /// Whether anything was given here.
    pub fn is_given(&self) -> bool {
        self.text.is_some()
    }

    /// The same field with `text` filled in where nothing was given, for what the garden knows.
    #[must_use]
    pub fn or(mut self, text: Option<&str>) -> Self {
        if self.text.is_none() {
            self.text = text.map(str::to_owned);
        }
        self
    }

    /// Notes that this field was given a value outside what is allowed.
    pub fn refuse(&self, faults: &mut Faults, allowed: impl Into<String>, why: impl Into<String>) {
        faults.add(&self.field, self.text().unwrap_or_default(), allowed, why);
    }
}

impl<T: Readable> Given<T> {
    /// The typed value; `None` if nothing was given, or, with a fault noted, if it can't be read.
    pub fn read(&self, faults: &mut Faults) -> Option<T> {
        let text = self.text()?;
        let read = T::read_by(text, faults.by())
            .map_err(|why| faults.unread(&self.field, text, why))
            .ok()?;
        if let Some(taken) = T::taken(text) {
            faults.note(&self.field, text, taken);
        }
        Some(read)
    }

    /// The typed value of a field without which there is no answer; absence is a fault too.
    pub fn need(&self, faults: &mut Faults) -> Option<T> {
        if !self.is_given() {
            faults.missed(&self.field, T::allowed());
        }
        self.read(faults)
    }
}

impl<T: Readable + PartialOrd + Copy> Given<T> {
    /// The typed value if it lies from `least` to `most`; `limits` says so in words.
    pub fn within(&self, least: T, most: T, limits: &str, faults: &mut Faults) -> Option<T> {
        let value = self.read(faults)?;
        if least <= value && value <= most {
            return Some(value);
        }
        let why = if value < least { "that is too little" } else { "that is too much" };
        self.refuse(faults, limits, why);
        None
    }
}
