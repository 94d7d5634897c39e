//! Readings of a thermometer, written down at the bed.

use serde_json::Value;
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::{
    given::{Faults, FromGiven, Given, Refusal, asked},
    journal::{About, Draft, What, details},
    place::known_soil::{depth, soil_temperature},
    quantity::{Length, Temperature},
};

asked! {
    /// What the form of a reading holds.
    pub(super) struct Form {
        /// The soil's temperature.
        soil: Given<Temperature> = "Soil",
        /// How deep the thermometer was.
        depth: Given<Length> = "How deep",
        /// The lowest air of the night.
        low: Given<Temperature> = "Lowest air",
        /// The highest air of the day.
        high: Given<Temperature> = "Highest air",
    }
}

/// Where a soil thermometer is pushed to when nothing is said: 4 in, the depth of garlic's roots and of
/// most published figures.
pub(super) const USUAL_DEPTH: &str = "4 in";
/// The coldest and the hottest a garden's thermometer of the air can be believed, °C.
const BELIEVED_C: (f64, f64) = (-60.0, 60.0);

/// The draft that writes a reading down at a bed.
///
/// # Errors
/// Every field that can't be read or believed, named `reading.…` as on the form.
pub fn reading(form: &Value, bed: &str) -> Result<Draft, Refusal> {
    let mut faults = Faults::default();
    let form = Form::from_given(form.get("reading"), "reading", &mut faults);
    soil_temperature(&form.soil, &mut faults);
    for given in [&form.low, &form.high] {
        believed(given, &mut faults);
    }
    depth(&form.depth, &mut faults);
    if !(form.soil.is_given() || form.low.is_given() || form.high.is_given()) {
        form.soil.refuse(&mut faults, "at least one temperature", "nothing was read");
    }
    let text = |given: &Given<Temperature>| given.text().map(str::to_owned);
    let what = details::Reading {
        soil: text(&form.soil),
        depth: form.soil.text().map(|_| form.depth.text().unwrap_or(USUAL_DEPTH).to_owned()),
        low: text(&form.low),
        high: text(&form.high),
        ..details::Reading::default()
    };
    faults.or_refuse(Some(Draft { about: About::bed(bed), what: What::Reading(what) }))
}

/// An air temperature that a garden's thermometer can show.
pub(super) fn believed(given: &Given<Temperature>, faults: &mut Faults) -> Option<Temperature> {
    let [least, most] = [BELIEVED_C.0, BELIEVED_C.1].map(Temperature::new::<degree_celsius>);
    given.within(least, most, "from -76 °F to 140 °F (-60 °C to 60 °C)", faults)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{ask::ask, garden::Garden};
    use serde_json::json;

    #[test]
    fn a_soil_reading_without_a_depth_was_four_inches_down() {
        let draft = reading(&json!({"reading": {"soil": "52 F"}}), "fence-bed").unwrap();
        let What::Reading(what) = draft.what else { panic!("no reading") };
        assert_eq!((what.soil.as_deref(), what.depth.as_deref()), (Some("52 F"), Some("4 in")));
    }

    #[test]
    fn what_no_garden_is_and_no_probe_reaches_is_refused_together() {
        let refusal = reading(&json!({"reading": {"soil": "90 C", "depth": "3 m"}}), "fence-bed")
            .unwrap_err();
        let fields: Vec<&str> = refusal.refused.iter().map(|fault| fault.field.as_str()).collect();
        assert_eq!(fields, ["reading.soil", "reading.depth"]);
    }

    #[test]
    fn what_can_be_written_down_can_be_asked_about() {
        for (soil, depth, both) in [
            ("60 C", "2 m", true),
            ("-30 C", "0 in", true),
            ("57 C", "1.5 m", true),
            ("61 C", "1 m", false),
            ("-31 C", "1 m", false),
            ("20 C", "2.1 m", false),
        ] {
            let written = reading(&json!({"reading": {"soil": soil, "depth": depth}}), "fence-bed");
            let asked = ask(
                &json!({
                    "topic": "soil-temperature", "today": "2026-07-02", "depth": depth,
                    "site": {"coldest": {"low": "0 C", "high": "8 C"}, "hottest": {"low": "15 C", "high": "31 C"}},
                    "readings": [{"date": "2026-07-01", "depth": depth, "temperature": soil}],
                }),
                &Garden::default(),
            );
            assert_eq!((written.is_ok(), asked.is_ok()), (both, both), "{soil} {depth} {asked:?}");
        }
    }

    #[test]
    fn an_empty_reading_is_refused() {
        assert_eq!(reading(&json!({}), "fence-bed").unwrap_err().refused[0].field, "reading.soil");
    }
}
