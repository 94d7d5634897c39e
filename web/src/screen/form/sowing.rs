//! Garlic, sowing, and what is still to come up.

use maud::{Markup, html};
use pegline_core::{
    garden::{Came, Garden},
    journal::id::read_id,
    quantity::System,
    topics::{emergence, what_fits_when},
};

use super::parts::{bed_choice, crop, declared, place_if_unknown, plain};
use crate::{forms::Form, state::App};

/// Garlic time?
pub(super) fn garlic(app: &App) -> Markup {
    html! {
        div.pair {
            (plain(app, "kind"))
            (bed_choice(app, "the best one"))
        }
        (place_if_unknown(app))
        details {
            summary { "More choices" }
            div.pair {
                (plain(app, "spacing"))
                (plain(app, "depth"))
                (declared(app, "mulch", "nothing", ""))
                @if app.system() == System::Metric { (declared(app, "cloves_per_kg", "110", "")) }
            }
            (plain(app, "white_rot"))
        }
    }
}

/// Sow now?
pub(super) fn sow_now(app: &App) -> Markup {
    let indoors = matches!(app.form().text("where"), "greenhouse" | "sill" | "mat");
    html! {
        div.pair {
            (crop(app, "crop"))
            (plain(app, "wanted"))
            (plain(app, "where"))
            (declared(app, "seed_age_years", "fresh", ""))
            (plain(app, "temperature"))
            @if !indoors { (bed_choice(app, "any bed")) }
        }
        @if !indoors { (place_if_unknown(app)) }
    }
}

/// What can still go in?
pub(super) fn what_fits(app: &App) -> Markup {
    html! {
        div.pair {
            (bed_choice(app, "any bed"))
            (declared(app, "from", "", "Today if left empty"))
            (plain(app, "as"))
        }
        (place_if_unknown(app))
    }
}

/// So many rows are shown unfolded.
const SHOWN: usize = 12;

/// What can go in, most pressing first.
pub fn fitting(found: &what_fits_when::Answer) -> Markup {
    let (first, rest) = found.can.split_at(found.can.len().min(SHOWN));
    let rows = |can: &[what_fits_when::Can]| {
        html! {
            ul.rows {
                @for can in can {
                    li { div.row { (can.name) small { (pegline_core::text::capital(&can.told)) "." } } }
                }
            }
        }
    };
    html! {
        @if !first.is_empty() { (rows(first)) }
        @if !rest.is_empty() {
            details {
                summary { "And " (rest.len()) " more" }
                (rows(rest))
            }
        }
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
            (plain(app, "sown"))
            (declared(app, "up", "can't tell", ""))
            (plain(app, "soil_temperature"))
            (declared(app, "depth", "", "Half an inch if left empty"))
            (bed_choice(app, "any bed"))
        }
        (place_if_unknown(app))
    }
}
