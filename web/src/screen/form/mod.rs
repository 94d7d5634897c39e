//! The forms of the questions, one file for each room that asks.

mod amounts;
mod layout;
mod parts;
mod place;
mod sowing;

use maud::{Markup, html};

pub use parts::{bed_fields, place_fields};

use crate::app::App;

/// The form of a topic.
pub fn of(app: &App, topic: &str) -> Markup {
    match topic {
        "plants-per-bed" => layout::how_many(app),
        "spacing-for-count" => layout::how_far(app),
        "bed-quantities" => amounts::quantities(app),
        "drip-run-time" => amounts::drip(app),
        "garlic-window" => sowing::garlic(app),
        "sow-now" => sowing::sow_now(app),
        "emergence" => sowing::emergence(app),
        "soil-temperature" => place::soil(app),
        "day-length" => place::day_length(app),
        _ => html! {},
    }
}
