//! Cold nights written down: the covers laid and taken off, and what the cold did.

use serde_json::Value;

use super::{says::place, thermometers};
use crate::{
    garden::Garden,
    given::{Faults, FromGiven, Given, Refusal, Text, asked, words},
    journal::{About, Draft, What, details},
    text::list,
};

words! {
    /// What the cold did to plants.
    pub enum Harm {
        /// Nothing.
        None = "none" => "fine",
        /// Wilted, or some leaves gone.
        Some = "some" => "some leaves",
        /// Most of it.
        Most = "most" => "most of it",
        /// All of it.
        All = "all" => "all of it",
    }
}

asked! {
    /// What the form of a morning after holds.
    pub(super) struct Form {
        /// The bed's id.
        bed: Given<Text> = "Bed",
        /// The crop looked at.
        crop: Given<Text> = "What",
        /// What became of it.
        harm: Given<Harm> = "Wilted, burnt or gone",
    }
}

/// The draft that writes down what a cold night did in a bed.
///
/// # Errors
/// Every field that is missing or can't be read, named `seen.…` as on the form.
pub fn seen(form: &Value) -> Result<Vec<Draft>, Refusal> {
    let mut faults = Faults::default();
    let form = thermometers::Form::from_given(Some(form), "", &mut faults).seen.unwrap_or_default();
    let bed = form.bed.need(&mut faults);
    let harm = form.harm.need(&mut faults);
    let draft = bed.zip(harm).map(|(Text(bed), harm)| Draft {
        about: About::bed(&bed),
        what: What::FrostSeen(details::FrostSeen {
            crop: form.crop.text().map(str::to_owned),
            harm: Some(harm.word().to_owned()),
            ..details::FrostSeen::default()
        }),
    });
    faults.or_refuse(draft.map(|draft| vec![draft]))
}

/// The drafts that take every cover off.
pub fn uncovered(garden: &Garden) -> Vec<Draft> {
    let covered = garden.beds.iter().filter(|bed| bed.covered.is_some() && bed.gone.is_none());
    covered
        .map(|bed| Draft {
            about: About::bed(&bed.id),
            what: What::Uncovered(details::Uncovered {}),
        })
        .collect()
}

/// "Write: covered Fence bed and Wall bed, and tonight's forecast"; nothing where no cover and no forecast
/// is among the drafts.
pub(super) fn offer(drafts: &[Draft], garden: &Garden) -> Option<String> {
    let beds = |is_meant: &dyn Fn(&What) -> bool| -> Vec<String> {
        let meant = drafts.iter().filter(|draft| is_meant(&draft.what));
        meant.map(|draft| place(&draft.about, garden)).collect()
    };
    let off = beds(&|what| matches!(what, What::Uncovered(_)));
    if !off.is_empty() {
        return Some(format!("Write: covers taken off {}", list(&off)));
    }
    let on = beds(&|what| matches!(what, What::Covered(_)));
    let forecast = drafts
        .iter()
        .any(|draft| matches!(&draft.what, What::Reading(it) if it.forecast_low.is_some()));
    match (on.is_empty(), forecast) {
        (true, false) => None,
        (true, true) => Some("Write: tonight's forecast".to_owned()),
        (false, false) => Some(format!("Write: covered {}", list(&on))),
        (false, true) => Some(format!("Write: covered {}, and tonight's forecast", list(&on))),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn what_the_cold_did_is_written_for_its_bed() {
        let drafts = seen(&json!({"seen": {"bed": "fence-bed", "harm": "some"}})).unwrap();
        assert_eq!(drafts.len(), 1);
        assert!(drafts.iter().all(|draft| draft.check().is_empty()));
        let refused = seen(&json!({"seen": {"harm": "burnt"}})).unwrap_err().refused;
        let fields: Vec<&str> = refused.iter().map(|fault| fault.field.as_str()).collect();
        assert_eq!(fields, ["seen.bed", "seen.harm"]);
    }
}
