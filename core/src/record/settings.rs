//! Units, place, and the gardener's own measures.

use serde_json::Value;
use uom::si::volume::liter;

use crate::{
    garden::Garden,
    given::{Faults, FromGiven, Given, Refusal, asked},
    journal::{
        About, Draft, What,
        details::{self, Object},
    },
    place::site::SiteAsked,
    quantity::{System, Volume},
};

asked! {
    /// What the settings form holds.
    pub(super) struct Form {
        /// The system of units.
        units: Given<System> = "Units",
        /// What one heaped wheelbarrow holds.
        wheelbarrow: Given<Volume> = "A heaped wheelbarrow holds",
        /// The chance of harm that one is ready to take on a cold night, percent.
        nerve: Given<u32> = "Cover when the risk of harm is" [
            "10" => "1 in 10", "25" => "1 in 4", "50" => "1 in 2",
        ],
        /// The place.
        site: Option<SiteAsked> = "The place",
    }
}

/// A wheelbarrow, heaped: the trade's size (common practice).
const USUAL_WHEELBARROW: &str = "6 cu ft";

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
    let litres = Volume::new::<liter>;
    read.wheelbarrow.within(
        litres(20.0),
        litres(1000.0),
        "from 0.7 to 35 cu ft (20 to 1000 litres)",
        &mut faults,
    );
    read.nerve.within(1, 99, "a percentage from 1 to 99", &mut faults);
    SiteAsked::read(read.site.as_ref(), &Object::default(), &mut faults);

    let own = |what| Draft { about: About::default(), what };
    let mut drafts = Vec::new();
    let news = details::Settings {
        units: units.filter(|units| garden.settings.units != Some(*units)),
        wheelbarrow: read
            .wheelbarrow
            .text()
            .map(str::to_owned)
            // Emptied, it is the trade's size again.
            .or_else(|| {
                let emptied = garden.settings.wheelbarrow.is_some() && !read.wheelbarrow.is_given();
                emptied.then(|| USUAL_WHEELBARROW.to_owned())
            })
            .filter(|text| garden.settings.wheelbarrow.as_deref() != Some(text.as_str())),
        nerve: read
            .nerve
            .text()
            .and_then(|text| text.parse().ok())
            .filter(|nerve| garden.settings.nerve != Some(*nerve)),
    };
    if news != details::Settings::default() {
        drafts.push(own(What::Settings(news)));
    }
    let given = form.get("site").and_then(Value::as_object).cloned().unwrap_or_default();
    let emptied = garden.place.keys().filter(|name| !given.contains_key(*name));
    let emptied = emptied.map(|name| (name.clone(), Value::Null));
    let news = given.iter().filter(|(name, value)| garden.place.get(*name) != Some(*value));
    let news = news.map(|(name, value)| (name.clone(), value.clone())).chain(emptied);
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
    SiteAsked::read(None, &garden.place, &mut Faults::default()).air.is_some()
}
