//! How much salt a ferment takes.

use maud::{Markup, html};

use super::parts::{one, text};
use crate::{
    app::App,
    part::{Field, Kind},
};

/// How much salt for the ferment?
pub(super) fn salt(app: &App) -> Markup {
    html! {
        div.pair {
            (one(app, &Field {
                name: "vegetable", label: "What", kind: Kind::Suggest("ferments"), example: "shredded cabbage", ..Field::default()
            }))
            (text(app, "vegetable_mass", "What it weighs, trimmed", "Such as 5 lb or 2.3 kg"))
            (text(app, "water_mass", "What its water weighs", "Only where it lies whole or in pieces in brine"))
            (one(app, &Field { name: "percent", label: "Salt, percent", example: "as usual", ..Field::default() }))
        }
        datalist id="ferments" {
            option value="shredded cabbage" {}
            option value="whole cucumbers" {}
            option value="shredded carrots" {}
            option value="shredded beets" {}
            option value="sliced radishes" {}
            option value="carrot pieces" {}
        }
        p { small { "A litre of water weighs 1 kg, a quart 2.1 lb." } }
    }
}
