//! How much salt a ferment takes.

use maud::{Markup, html};

use super::parts::{declared, one};
use crate::{
    app::App,
    part::{Field, Kind},
};

/// How much salt for the ferment?
pub(super) fn salt(app: &App) -> Markup {
    html! {
        div.pair {
            (one(app, &Field {
                kind: Kind::Suggest("ferments"), example: "shredded cabbage", ..Field::of(app.form(), "vegetable")
            }))
            (declared(app, "vegetable_mass", "", "Such as 5 lb or 2.3 kg"))
            (declared(app, "water_mass", "", "Only where it lies whole or in pieces in brine"))
            (declared(app, "percent", "as usual", ""))
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
