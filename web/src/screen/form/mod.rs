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
use pegline_core::{asking::Topic, given::Readable};

pub use parts::{bed_fields, crop as crop_field, place_fields};
pub use starts::{looks, tick};

use crate::state::App;

/// Whether a topic's form is a long list of taps: its verdict then stays in sight while one scrolls.
pub fn is_tapped(topic: &str) -> bool {
    topic == "harvest-readiness"
}

/// The form of a topic.
pub fn of(app: &App, topic: &str) -> Markup {
    let Ok(topic) = Topic::read(topic) else {
        return html! {};
    };
    match topic {
        Topic::PlantsPerBed => layout::how_many(app),
        Topic::SpacingForCount => layout::how_far(app),
        Topic::BedQuantities => amounts::quantities(app),
        Topic::DripRunTime => amounts::drip(app),
        Topic::ResidueWait => residue::wait(app),
        Topic::GarlicWindow => sowing::garlic(app),
        Topic::SowNow => sowing::sow_now(app),
        Topic::Emergence => sowing::emergence(app),
        Topic::SoilTemperature => place::soil(app),
        Topic::StartAge => starts::age(app),
        Topic::HardeningPlan => starts::hardening(app),
        Topic::FrostTonight => frost::tonight(app),
        Topic::AfterFrost => frost::after(app),
        Topic::OpenGreenhouse => frost::opening(app),
        Topic::DayLength => place::day_length(app),
        Topic::HarvestBeforeAway => away::back(app),
        Topic::SaltForFermenting => ferment::salt(app),
        Topic::HarvestReadiness => harvest::ready(app),
        // These are asked by other programs, or by the page itself.
        Topic::HarvestCues | Topic::Today | Topic::Catalogue => html! {},
    }
}
