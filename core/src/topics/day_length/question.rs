//! What is asked, and how it is read.

use chrono::NaiveDate;

use crate::{
    asking::Asking,
    given::{Faults, Given, asked},
    place::Latitude,
};

asked! {
    /// How long is the day?
    pub struct Asked {
        /// Latitude of the garden, north positive; the garden's own if absent.
        latitude: Given<Latitude> = "Latitude",
        /// The day asked about; today if absent.
        date: Given<NaiveDate> = "Day",
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question {
    pub(super) latitude: Latitude,
    pub(super) date: NaiveDate,
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let known = asking.garden.place.get("latitude").and_then(serde_json::Value::as_str);
        let latitude = self.latitude.clone().or(known).need(faults);
        let date = match (self.date.is_given(), asking.today) {
            (false, Some(today)) => Some(today),
            _ => self.date.need(faults),
        };
        Some(Question { latitude: latitude?, date: date? })
    }
}
