//! What follows from the place: day length and soil temperature.

use maud::{Markup, html};

use super::parts::{bed_choice, declared, place_if_unknown, plain};
use crate::app::App;

/// Is the day long enough to grow?
pub(super) fn day_length(app: &App) -> Markup {
    let known =
        app.garden().place.get("latitude").and_then(|known| known.as_str()).unwrap_or_default();
    html! {
        div.pair {
            (declared(app, "latitude", known, ""))
            (declared(app, "date", "", "Today if left empty"))
        }
    }
}

/// How warm is the soil?
pub(super) fn soil(app: &App) -> Markup {
    html! {
        div.pair {
            (plain(app, "depth"))
            (declared(app, "date", "", "Today if left empty"))
            (bed_choice(app, "any bed"))
            (declared(app, "mulch", "nothing", ""))
        }
        (place_if_unknown(app))
    }
}
