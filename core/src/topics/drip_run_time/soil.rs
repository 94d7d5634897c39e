//! How much water a soil holds for roots, and how far a drop spreads in it.

use uom::si::{
    length::{foot, inch},
    ratio::ratio,
};

use super::drip::{REACHES_ROOTS, run_time};
use crate::{
    place::soil::Texture,
    quantity::{Length, Time, Velocity},
};

/// A soil's water, as the low-volume irrigation manual of an emitter maker has it (table 3-3;
/// read).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wetting {
    /// Depth of water that roots can take out of a foot of soil.
    pub available_in_a_foot: Length,
    /// How wide one emitter wets, at least.
    pub wetted: Length,
}

/// The share of it that plants may use up before they are watered: one half (common practice).
pub const MAY_BE_USED: f64 = 0.5;

/// How deep a bed is wetted: the foot in which most vegetables root (common practice).
#[must_use]
pub fn usual_root_depth() -> Length {
    Length::new::<foot>(1.0)
}

/// What a soil holds. A compost-rich mix is taken as coarse until someone has dug and looked; peat
/// as medium, though it holds more (both considered: shorter runs do no harm).
#[must_use]
pub fn wetting(texture: Texture) -> Wetting {
    let inches = Length::new::<inch>;
    let (available, wetted) = match texture {
        // One emitter in sand in practice: 16 in (a drip seller's guide, read); the table has 1 to
        // 3 ft.
        Texture::Sand | Texture::Mix => (1.4, 16.0),
        Texture::Loam | Texture::Peat => (2.0, 24.0),
        Texture::Clay => (2.5, 36.0),
    };
    Wetting { available_in_a_foot: inches(available), wetted: inches(wetted) }
}

/// The longest single run before water passes the roots, at a rate over the whole bed.
///
/// T = C × AW × depth ÷ (rate × Ea): the manual's equation after I. Hung (California State
/// Polytechnic University, Pomona, 1993), which prints it for emitters on a square grid.
#[must_use]
pub fn longest_run(
    may_be_used: f64,
    available_in_a_foot: Length,
    depth: Length,
    rate: Velocity,
    reaches: f64,
) -> Time {
    let feet = (depth / Length::new::<foot>(1.0)).get::<ratio>();
    run_time(available_in_a_foot * (may_be_used * feet), rate, reaches)
}

/// The longest single run on a bed of that soil.
#[must_use]
pub fn usual_longest_run(texture: Texture, rate: Velocity) -> Time {
    let holds = wetting(texture).available_in_a_foot;
    longest_run(MAY_BE_USED, holds, usual_root_depth(), rate, REACHES_ROOTS)
}

/// Whether emitters that far from each other wet a whole strip: at most 0.8 of what one wets
/// (United States Natural Resources Conservation Service, *National Engineering Handbook* part 623,
/// chapter 7, from memory).
#[must_use]
pub fn strip_joins(texture: Texture, emitter_spacing: Length) -> bool {
    emitter_spacing <= wetting(texture).wetted * 0.8
}
