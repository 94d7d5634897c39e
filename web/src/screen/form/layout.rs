//! How many fit, and how far from each other.

use maud::{Markup, html};
use pegline_core::{
    catalogue,
    quantity::{System, show_spacing},
};

use super::parts::{bed_choice, bed_size, crop, crops, declared, one, plain};
use crate::{part::Field, state::App};

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
            @let crop = name("crop");
            @let asked = Field::of(app.form(), &crop);
            div.pair {
                (one(app, &Field { label: if at == 0 { asked.label } else { "And another" }, ..asked }))
                (declared(app, &name("on_hand"), "as many as fit", ""))
                (declared(app, &name("spacing"), &usual_spacing(form.text(&crop), app.system()), ""))
                @if at == 0 { (bed_choice(app, OTHER_BED)) }
            }
        }
        (crops())
        (bed_size(app))
        details id="more-choices" {
            summary { "More choices" }
            (declared(app, "plants.0.sites", "as usual for the crop", ""))
            @if rows > 1 { (plain(app, "aim")) }
            button.plain type="button" data-action="another-crop" { "And another crop" }
        }
    }
}

/// So many must all go in: how close?
pub(super) fn how_far(app: &App) -> Markup {
    html! {
        div.pair {
            (crop(app, "crop"))
            (plain(app, "count"))
            (bed_choice(app, OTHER_BED))
        }
        (bed_size(app))
    }
}
