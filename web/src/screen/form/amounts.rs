//! How much to haul or buy, and how long to run the drip.

use maud::{Markup, html};
use pegline_core::record;

use super::parts::{bed_choice, bed_size, crop, one, place_if_unknown, soil_choice, text};
use crate::{
    app::App,
    part::{Field, Kind},
};

/// How much does the bed take?
pub(super) fn quantities(app: &App) -> Markup {
    let item = app.form().text("item");
    let by_depth = matches!(item, "" | "compost" | "mulch" | "soil");
    html! {
        div.pair {
            (one(app, &Field {
                name: "item", label: "What",
                kind: Kind::Choice(&[
                    ("compost", "Compost"), ("mulch", "Mulch"), ("soil", "Soil to fill it"),
                    ("seed-garlic", "Garlic to plant"), ("sets", "Onion sets"), ("seed", "Seed"),
                ]),
                ..Field::default()
            }))
            (bed_choice(app, "another bed"))
            @if by_depth {
                (one(app, &Field { name: "depth", label: "How deep", example: "as usual", ..Field::default() }))
            } @else {
                (one(app, &Field { name: "spacing", label: "Space between", example: "as usual", ..Field::default() }))
            }
            @if item == "seed" { (crop(app, "crop")) }
        }
        (bed_size(app))
    }
}

/// How long do I run the drip?
pub(super) fn drip(app: &App) -> Markup {
    html! {
        div.pair {
            (bed_choice(app, "another bed"))
            (crop(app, "crop"))
            (one(app, &Field { name: "rain", label: "Rain this week", example: "none", ..Field::default() }))
        }
        (soil_choice(app, "soil", "Soil"))
        (bed_size(app))
        @if !record::knows_climate(app.garden()) {
            (text(app, "demand", "What it needs in a week, if you know", "Left empty, it is reckoned from the place"))
            (place_if_unknown(app))
        }
    }
}
