//! What follows from the place: day length and soil temperature.

use maud::{Markup, html};

use super::parts::{bed_choice, one, place_if_unknown, text};
use crate::{
    app::App,
    part::{Field, Kind},
};

/// What lies on the soil.
pub(super) const MULCH: [(&str, &str); 4] =
    [("", "nothing"), ("straw", "straw"), ("leaves", "leaves"), ("residue", "chopped plants")];

/// Is the day long enough to grow?
pub(super) fn day_length(app: &App) -> Markup {
    let known =
        app.garden().place.get("latitude").and_then(|known| known.as_str()).unwrap_or_default();
    html! {
        div.pair {
            (one(app, &Field { name: "latitude", label: "Latitude", example: known, ..Field::default() }))
            (one(app, &Field { name: "date", label: "Day", kind: Kind::Day, hint: "Today if left empty", ..Field::default() }))
        }
    }
}

/// How warm is the soil?
pub(super) fn soil(app: &App) -> Markup {
    html! {
        div.pair {
            (text(app, "depth", "At what depth", ""))
            (one(app, &Field { name: "date", label: "Day", kind: Kind::Day, hint: "Today if left empty", ..Field::default() }))
            (bed_choice(app, "any bed"))
            (one(app, &Field { name: "mulch", label: "What lies on it", kind: Kind::Choice(&MULCH), ..Field::default() }))
        }
        (place_if_unknown(app))
    }
}
