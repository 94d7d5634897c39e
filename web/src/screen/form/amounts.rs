//! How much to haul or buy, and how long to run the drip.

use maud::{Markup, html};
use pegline_core::record;

use super::parts::{bed_choice, bed_size, crop, declared, place_if_unknown, plain};
use crate::state::App;

/// How much does the bed take?
pub(super) fn quantities(app: &App) -> Markup {
    let item = app.form().text("item");
    let by_depth = matches!(item, "" | "compost" | "mulch" | "soil");
    html! {
        div.pair {
            (plain(app, "item"))
            (bed_choice(app, "another bed"))
            @if by_depth { (declared(app, "depth", "as usual", "")) } @else { (declared(app, "spacing", "as usual", "")) }
            @if item == "seed" { (crop(app, "crop")) }
        }
        (bed_size(app))
    }
}

/// How long to water?
pub(super) fn drip(app: &App) -> Markup {
    html! {
        div.pair {
            (bed_choice(app, "another bed"))
            (crop(app, "crop"))
            (declared(app, "rain", "none", ""))
        }
        (declared(app, "soil", "not known", ""))
        (bed_size(app))
        @if !record::knows_climate(app.garden()) {
            (declared(app, "demand", "", "Left empty, it is reckoned from the place"))
            (place_if_unknown(app))
        }
    }
}
