//! Units and place.

use serde_json::Value;

use crate::{
    garden::Garden,
    given::{Faults, FromGiven, Given, Refusal, asked},
    journal::{
        About, Draft, What,
        details::{self, Object},
    },
    place::site::SiteAsked,
    quantity::System,
};

asked! {
    /// What the settings form holds.
    struct Form {
        /// The system of units.
        units: Given<System>,
        /// The place.
        site: Option<SiteAsked>,
    }
}

/// The drafts that keep what the settings form holds, beside what is known already.
///
/// Fields of the place that were emptied are taken out of the record.
///
/// # Errors
/// Every field that can't be read.
pub fn settings(form: &Value, garden: &Garden) -> Result<Vec<Draft>, Refusal> {
    let mut faults = Faults::default();
    let read = Form::from_given(Some(form), "", &mut faults);
    let units = read.units.read(&mut faults);
    SiteAsked::read(read.site.as_ref(), &Garden::default(), &mut faults);

    let own = |what| Draft {
        about: About::default(),
        what,
    };
    let mut drafts = Vec::new();
    if units.is_some_and(|units| garden.settings.units != Some(units)) {
        drafts.push(own(What::Settings(details::Settings {
            units,
            ..details::Settings::default()
        })));
    }
    let given = form
        .get("site")
        .and_then(Value::as_object)
        .cloned()
        .unwrap_or_default();
    let emptied = garden
        .place
        .keys()
        .filter(|name| !given.contains_key(*name));
    let emptied = emptied.map(|name| (name.clone(), Value::Null));
    let news = given
        .iter()
        .filter(|(name, value)| garden.place.get(*name) != Some(*value));
    let news = news
        .map(|(name, value)| (name.clone(), value.clone()))
        .chain(emptied);
    // Twelve lows and twelve highs are too long for one entry together.
    let mut rest = Object::new();
    for (name, value) in news {
        if value.is_array() {
            let mut months = Object::new();
            months.insert(name, value);
            drafts.push(own(What::Place(months)));
        } else {
            rest.insert(name, value);
        }
    }
    if !rest.is_empty() {
        drafts.push(own(What::Place(rest)));
    }
    faults.or_refuse(Some(drafts))
}

/// Whether the record tells the usual air of the place.
pub fn knows_climate(garden: &Garden) -> bool {
    SiteAsked::read(None, garden, &mut Faults::default())
        .air
        .is_some()
}
