//! Garlic, sowing, and what is still to come up.

use maud::{Markup, html};
use pegline_core::{
    garden::{Came, Garden},
    journal::id::read_id,
    quantity::System,
    topics::emergence,
};

use super::{
    parts::{bed_choice, crop, one, place_if_unknown, text},
    place::MULCH,
};
use crate::{
    app::App,
    forms::Form,
    part::{Field, Kind},
};

/// Is it garlic time?
pub(super) fn garlic(app: &App) -> Markup {
    html! {
        div.pair {
            (one(app, &Field {
                name: "kind", label: "Kind",
                kind: Kind::Choice(&[("hardneck", "Hardneck"), ("softneck", "Softneck")]), ..Field::default()
            }))
            (bed_choice(app, "the best one"))
        }
        (place_if_unknown(app))
        details {
            summary { "More choices" }
            div.pair {
                (text(app, "spacing", "Space between", ""))
                (text(app, "depth", "How deep", ""))
                (one(app, &Field { name: "mulch", label: "What lies on it", kind: Kind::Choice(&MULCH), ..Field::default() }))
                @if app.system() == System::Metric {
                    (one(app, &Field { name: "cloves_per_kg", label: "Cloves to a kilogram", kind: Kind::Count, example: "110", ..Field::default() }))
                }
            }
            (one(app, &Field {
                name: "white_rot", label: "White fluff and black specks seen on onions or garlic there",
                kind: Kind::Choice(&[("no", "never"), ("yes", "yes")]), ..Field::default()
            }))
        }
    }
}

/// Do I sow now?
pub(super) fn sow_now(app: &App) -> Markup {
    let indoors = matches!(app.form().text("where"), "greenhouse" | "sill" | "mat");
    html! {
        div.pair {
            (crop(app, "crop"))
            (one(app, &Field { name: "wanted", label: "How many plants", kind: Kind::Count, ..Field::default() }))
            (one(app, &Field {
                name: "where", label: "Where it will stand",
                kind: Kind::Choice(&[("bed", "the bed"), ("greenhouse", "greenhouse"), ("sill", "a sill"), ("mat", "a heat mat")]),
                ..Field::default()
            }))
            (one(app, &Field { name: "seed_age_years", label: "Age of the seed, years", kind: Kind::Count, example: "fresh", ..Field::default() }))
            (text(app, "temperature", "Soil there, if measured", ""))
            @if !indoors { (bed_choice(app, "any bed")) }
        }
        @if !indoors { (place_if_unknown(app)) }
    }
}

/// The form of what was sown, as the garden fills it in: of one planting, or of the last sowing in a bed.
pub fn fresh(form: &mut Form, garden: &Garden, about: &str) {
    let named = read_id(about).and_then(|id| garden.planting(id));
    let sown_last = || {
        let bed = garden.bed(about)?;
        let mut sown = bed.plantings.iter().rev();
        Some((bed, sown.find(|it| it.came == Came::Seeded)?))
    };
    let Some((bed, planting)) = named.or_else(sown_last) else {
        return form.set("bed", about);
    };
    form.set("bed", &bed.id);
    for (field, text) in emergence::of_sowing(garden, planting) {
        form.set(field, &text);
    }
}

/// Is it still coming up?
pub(super) fn emergence(app: &App) -> Markup {
    html! {
        div.pair {
            (crop(app, "crop"))
            (one(app, &Field { name: "sown", label: "Sown", kind: Kind::Day, ..Field::default() }))
            (one(app, &Field {
                name: "up", label: "How much is up",
                kind: Kind::Choice(&[("", "can't tell"), ("0 %", "nothing"), ("10 %", "a few"), ("30 %", "a third"), ("60 %", "over half"), ("90 %", "nearly all")]),
                ..Field::default()
            }))
            (text(app, "soil_temperature", "Soil since then, if measured", ""))
            (text(app, "depth", "How deep", "Half an inch if left empty"))
            (bed_choice(app, "any bed"))
        }
        (place_if_unknown(app))
    }
}
