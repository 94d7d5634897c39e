//! The forms of the questions, one file for each room that asks.

mod amounts;
pub mod away;
mod ferment;
pub(super) mod frost;
pub mod harvest;
mod layout;
pub(super) mod parts;
mod place;
mod residue;
pub mod sowing;
mod starts;

use maud::{Markup, html};

pub use parts::{bed_fields, crop as crop_field, place_fields};
pub use starts::{looks, tick};

use crate::state::App;

/// Whether a topic's form is a long list of taps: its verdict then stays in sight while one scrolls.
pub fn is_tapped(topic: &str) -> bool {
    topic == "harvest-readiness"
}

/// The form of a topic.
pub fn of(app: &App, topic: &str) -> Markup {
    match topic {
        "plants-per-bed" => layout::how_many(app),
        "spacing-for-count" => layout::how_far(app),
        "bed-quantities" => amounts::quantities(app),
        "drip-run-time" => amounts::drip(app),
        "residue-wait" => residue::wait(app),
        "garlic-window" => sowing::garlic(app),
        "sow-now" => sowing::sow_now(app),
        "emergence" => sowing::emergence(app),
        "soil-temperature" => place::soil(app),
        "start-age" => starts::age(app),
        "hardening-plan" => starts::hardening(app),
        "frost-tonight" => frost::tonight(app),
        "open-greenhouse" => frost::opening(app),
        "day-length" => place::day_length(app),
        "harvest-before-away" => away::back(app),
        "salt-for-fermenting" => ferment::salt(app),
        "harvest-readiness" => harvest::ready(app),
        _ => html! {},
    }
}
