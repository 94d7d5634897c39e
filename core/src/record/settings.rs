//! Units and place.

use serde_json::Value;

use crate::{
    given::{Faults, FromGiven, Given, Refusal, asked},
    journal::{About, Draft, What, details},
    place::Latitude,
    quantity::System,
};

asked! {
    /// What the settings form holds.
    struct Form {
        /// The system of units.
        units: Given<System>,
        /// The latitude.
        latitude: Given<Latitude>,
    }
}

/// The drafts that keep what the settings form holds.
///
/// # Errors
/// Every field that can't be read.
pub fn settings(form: &Value) -> Result<Vec<Draft>, Refusal> {
    let mut faults = Faults::default();
    let form = Form::from_given(Some(form), "", &mut faults);
    let units = form.units.read(&mut faults);
    form.latitude.read(&mut faults);
    let settings = details::Settings {
        units,
        ..details::Settings::default()
    };
    let mut drafts = vec![Draft {
        about: About::default(),
        what: What::Settings(settings),
    }];
    let latitude = form.latitude.text().map_or(Value::Null, Value::from);
    let place = [("latitude".to_owned(), latitude)].into_iter().collect();
    drafts.push(Draft {
        about: About::default(),
        what: What::Place(place),
    });
    faults.or_refuse(Some(drafts))
}
