//! Cold nights written down: the covers laid, and what is said on the button.

use super::says::place;
use crate::{
    garden::Garden,
    journal::{Draft, What},
    telling::list,
};

/// "Write: covered Fence bed and Wall bed, and tonight's forecast"; nothing where no cover is among the drafts.
pub(super) fn offer(drafts: &[Draft], garden: &Garden) -> Option<String> {
    let covered = drafts
        .iter()
        .filter(|draft| matches!(draft.what, What::Covered(_)));
    let beds: Vec<String> = covered.map(|draft| place(&draft.about, garden)).collect();
    let forecast = drafts
        .iter()
        .any(|draft| matches!(&draft.what, What::Reading(it) if it.forecast_low.is_some()));
    match (beds.is_empty(), forecast) {
        (true, false) => None,
        (true, true) => Some("Write: tonight's forecast".to_owned()),
        (false, false) => Some(format!("Write: covered {}", list(&beds))),
        (false, true) => Some(format!(
            "Write: covered {}, and tonight's forecast",
            list(&beds)
        )),
    }
}
