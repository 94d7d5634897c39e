//! A note for a day to come: "2027-03-20: Cut the scapes."

use chrono::NaiveDate;

use crate::{
    text::parted,
    time::iso::{read_date, show_date},
};

/// The text of a note for a day to come: "2027-03-20: Cut the scapes."
pub fn show_ahead(on: NaiveDate, what: &str) -> String {
    format!("{}: {what}", show_date(on))
}

/// A note's day and the rest of it, where it was made for a day.
pub fn read_ahead(text: &str) -> Option<(NaiveDate, &str)> {
    let (date, what) = parted(text, ": ")?;
    Some((read_date(date)?, what))
}
