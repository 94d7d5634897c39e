//! What a field's text can be read as.

use chrono::NaiveDate;

use super::Control;
use crate::quantity::{
    Quantity, Unreadable,
    number::{read_count, read_number},
};
use crate::time::{
    iso::{read_date, show_date},
    said::read_said,
};

/// The id taken for a name, and the ids of what else it may mean.
pub type Taken = (&'static str, Vec<&'static str>);

/// A type that a field's text can be read as.
pub trait Readable: Sized {
    /// What it is typed with in a form.
    const CONTROL: Control = Control::Text;

    /// What is allowed, in words for a refusal.
    fn allowed() -> String;

    /// Reads the trimmed, non-empty text.
    ///
    /// # Errors
    /// What is allowed and why this is not it, when the text can't be read.
    fn read(text: &str) -> Result<Self, Unreadable>;

    /// Reads it by the day and the country it is read in, where that counts.
    ///
    /// # Errors
    /// As [`Readable::read`].
    fn read_by(text: &str, _: &ReadBy) -> Result<Self, Unreadable> {
        Self::read(text)
    }

    /// What this text was taken for, where it does not quite say so.
    fn taken(_: &str) -> Option<Taken> {
        None
    }

    /// The words allowed, where only some are; for the JSON Schema.
    fn words() -> &'static [&'static str] {
        &[]
    }
}

impl<Q: Quantity> Readable for Q {
    const CONTROL: Control = match Q::UNITS {
        Some((us, metric)) => Control::Measure(us, metric),
        None => Control::Text,
    };

    fn allowed() -> String {
        let article = if Q::WHAT.starts_with('a') { "an" } else { "a" };
        format!("{article} {} such as {}", Q::WHAT, Q::EXAMPLES)
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        <Q as Quantity>::read(text)
    }
}

/// A whole number from 0 to 1,000,000, as `14` or `"14"`.
impl Readable for u32 {
    const CONTROL: Control = Control::Count;

    fn allowed() -> String {
        "a whole number such as 14".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        read_count(text)
    }
}

/// Free text, such as a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text(pub String);

impl Readable for Text {
    fn allowed() -> String {
        "a few words".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        Ok(Self(text.to_owned()))
    }
}

/// A share of a whole from 0 to 1, as `0.6` or `60 %`.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Share(f64);

impl Share {
    /// The share as a fraction of one.
    pub(crate) fn fraction(self) -> f64 {
        self.0
    }
}

impl Readable for Share {
    fn allowed() -> String {
        "a share from 0 to 1, or from 0 % to 100 %".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let (number, whole) = match text.strip_suffix('%') {
            Some(percent) => (percent.trim(), 100.0),
            None => (text, 1.0),
        };
        let share = read_number(number)? / whole;
        if (0.0..=1.0).contains(&share) {
            Ok(Self(share))
        } else {
            Err(Unreadable {
                allowed: Self::allowed(),
                why: "that is outside the whole".to_owned(),
            })
        }
    }
}

/// What a text is read by beside itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ReadBy {
    /// Today, where it is known.
    pub today: Option<NaiveDate>,
    /// Whether a date's month is written before its day.
    pub month_first: bool,
}

/// A date as ISO 8601 writes it: `2026-11-25`; or as a person says it: "Feb 20".
impl Readable for NaiveDate {
    const CONTROL: Control = Control::Day;

    fn allowed() -> String {
        "a date such as 2026-11-25, from 1900 to 2200".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        use chrono::Datelike;
        // A local date-time is accepted for its date, so that an entry's `when` can be asked about.
        let day = text.split('T').next().unwrap_or(text);
        match read_date(day) {
            Some(date) if (1900..=2200).contains(&date.year()) => Ok(date),
            _ => Err(Unreadable {
                allowed: Self::allowed(),
                why: "no such date can be read, year first".to_owned(),
            }),
        }
    }

    fn read_by(text: &str, by: &ReadBy) -> Result<Self, Unreadable> {
        Self::read(text).or_else(|_| {
            read_said(text, by.today, by.month_first)
                .and_then(|date| Self::read(&show_date(date)).map_err(|unreadable| unreadable.why))
                .map_err(|why| Unreadable { allowed: Self::allowed(), why })
        })
    }
}

impl Readable for bool {
    const CONTROL: Control = Control::YesNo;

    fn allowed() -> String {
        "yes or no".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        match text.to_ascii_lowercase().as_str() {
            "true" | "yes" | "on" | "1" => Ok(true),
            "false" | "no" | "off" | "0" => Ok(false),
            _ => Err(Unreadable {
                allowed: Self::allowed(),
                why: "neither yes nor no can be read from it".to_owned(),
            }),
        }
    }
}
