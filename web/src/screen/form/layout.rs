//! How many fit, and how far from each other.

use maud::{Markup, html};
use pegline_core::{
    catalogue,
    quantity::{System, show_spacing},
};

use super::parts::{bed_choice, bed_size, crop, crops, one};
use crate::{
    app::App,
    part::{Field, Kind},
};

const OTHER_BED: &str = "Another: give its size";

/// The usual spacing of a crop, pale in the field until one is typed.
fn usual_spacing(crop: &str, system: System) -> String {
    let row = catalogue::crop(crop).ok();
    row.and_then(catalogue::Crop::spacing)
        .map_or_else(|| "as usual".to_owned(), |range| show_spacing(range.usual, system))
}

/// How many fit?
pub(super) fn how_many(app: &App) -> Markup {
    let form = app.form();
    let rows = (0..).take_while(|at| *at == 0 || form.has(&format!("plants.{at}.crop"))).count();
    html! {
        @for at in 0..rows {
            @let name = |part: &str| format!("plants.{at}.{part}");
            div.pair {
                (one(app, &Field {
                    name: &name("crop"), label: if at == 0 { "Crop" } else { "And another" }, kind: Kind::Suggest("crops"), ..Field::default()
                }))
                (one(app, &Field {
                    name: &name("on_hand"), label: "How many have you", kind: Kind::Count, example: "as fit", ..Field::default()
                }))
                (one(app, &Field {
                    name: &name("spacing"), label: "Space between", example: &usual_spacing(form.text(&name("crop")), app.system()), ..Field::default()
                }))
                @if at == 0 { (bed_choice(app, OTHER_BED)) }
            }
        }
        (crops())
        (bed_size(app))
        details id="more-choices" {
            summary { "More choices" }
            (one(app, &Field {
                name: "plants.0.sites", label: "Where the plants may go",
                kind: Kind::Choice(&[("", "as usual for the crop"), ("emitters", "at the holes"), ("along-line", "along the lines"), ("anywhere", "anywhere")]),
                ..Field::default()
            }))
            @if rows > 1 {
                (one(app, &Field {
                    name: "aim", label: "When not all fit",
                    kind: Kind::Choice(&[("in-order", "the first crop goes first"), ("most", "as many as possible in all")]),
                    ..Field::default()
                }))
            }
            button.plain type="button" data-action="another-crop" { "And another crop" }
        }
    }
}

/// So many must all go in: how close?
pub(super) fn how_far(app: &App) -> Markup {
    html! {
        div.pair {
            (crop(app, "crop"))
            (one(app, &Field { name: "count", label: "How many have you", kind: Kind::Count, ..Field::default() }))
            (bed_choice(app, OTHER_BED))
        }
        (bed_size(app))
    }
}
