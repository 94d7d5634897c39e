//! What follows from a layout made by hand.
//!
//! Too near is what the solver calls so: nearer than the mean of two spacings (J. Jeavons, *How to
//! Grow More Vegetables*) less the tolerance, or nearer to a side than the margin. What still fits is
//! what the solver would add beside the plants chosen.

use super::ByHand;
use crate::{
    bed::Spot,
    layout::{Aim, Field, Plant, Request, SiteChoice, Want, roughly},
    plan::Wanted,
    quantity::{Micrometres, System, show_spacing},
    text::{list, small},
};

/// What a plant is too near, by its place in the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooNear {
    /// Another one that is set.
    Each(usize, usize),
    /// One that is in already, by its place among those.
    Already(usize, usize),
    /// The bed's side.
    Side(usize),
}

impl TooNear {
    /// The plant that is set.
    pub fn one(self) -> usize {
        let (Self::Each(one, _) | Self::Already(one, _) | Self::Side(one)) = self;
        one
    }
}

/// What follows from a layout made by hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// How many of each crop: "13 cabbage and 4 kale".
    pub set: String,
    /// Which plants are too near each other, a sentence each.
    pub conflicts: Vec<String>,
    /// The same as places, for a picture.
    pub too_near: Vec<TooNear>,
    /// What of each crop would still fit, and what is left over, a sentence each.
    pub more: Vec<String>,
}

/// So many conflicts are told in words; the picture shows all.
const TOLD: usize = 6;

impl ByHand {
    /// What follows from the layout as it is now.
    pub fn judge(&self, system: System) -> Judged {
        let too_near = self.too_near();
        let told = too_near.iter().take(TOLD);
        let mut conflicts: Vec<String> = told.filter_map(|pair| self.told(pair, system)).collect();
        let untold = too_near.len().saturating_sub(TOLD);
        if untold > 0 {
            let untold = u32::try_from(untold).unwrap_or(u32::MAX);
            conflicts.push(format!("And {untold} more."));
        }
        Judged { set: self.set_told(), conflicts, too_near, more: self.more(system) }
    }

    fn too_near(&self) -> Vec<TooNear> {
        let chosen = self.chosen();
        let mut found = Vec::new();
        for (place, (at, plant, crop)) in chosen.iter().enumerate() {
            let keeps_off = |other: &Plant| other.keeps_off(&plant.site.spot, plant.spacing);
            let others = chosen.iter().skip(place + 1).filter(|(_, other, _)| keeps_off(other));
            found.extend(others.map(|(other, ..)| TooNear::Each(*at, *other)));
            let already = self.already.iter().enumerate().filter(|(_, other)| keeps_off(other));
            found.extend(already.map(|(other, _)| TooNear::Already(*at, other)));
            let field = Field::loosely_within(&self.bed, margin(crop));
            if !field.is_some_and(|field| field.holds(&plant.site.spot)) {
                found.push(TooNear::Side(*at));
            }
        }
        found
    }

    /// How far a spot is from the nearest side.
    fn to_the_side(&self, spot: &Spot) -> Micrometres {
        let along = spot.along.min(self.bed.length() - spot.along);
        along.min(spot.across).min(self.bed.width() - spot.across)
    }

    /// A pair in a sentence: "Line 1, hole 3 and hole 4: 9 in between, 15 in wanted."
    fn told(&self, pair: &TooNear, system: System) -> Option<String> {
        let show = |um: i64| show_spacing(Micrometres::new(um).to_length(), system);
        let set = |at: usize| {
            let place = self.places.get(at)?;
            Some((place, self.crops.get(place.set?)?))
        };
        let (place, crop) = set(pair.one())?;
        let (name, spot) = (self.name(place, system), place.site.spot);
        let (other, there, needs) = match *pair {
            TooNear::Side(_) => {
                let (side, wanted) = (self.to_the_side(&spot), margin(crop));
                let (side, wanted) = (show(side.get()), show(wanted.get()));
                return Some(format!("{name}: {side} from the side, {wanted} wanted."));
            }
            TooNear::Each(_, other) => {
                let (other, crop) = set(other)?;
                let named = match (other.site.hole, other.site.line == place.site.line) {
                    (Some(hole), true) => format!("hole {hole}"),
                    _ => small(&self.name(other, system)),
                };
                (named, other.site.spot, crop.want.spacing)
            }
            TooNear::Already(_, other) => {
                let plant = self.already.get(other)?;
                ("a plant already in".to_owned(), plant.site.spot, plant.spacing)
            }
        };
        let between = spot.square_to(&there).isqrt();
        let wanted = (crop.want.spacing + needs).get().div_euclid(2);
        Some(format!("{name} and {other}: {} between, {} wanted.", show(between), show(wanted)))
    }

    fn set_told(&self) -> String {
        let each = self.crops.iter().zip(self.counts());
        let each: Vec<String> = each.map(|(crop, set)| format!("{set} {}", crop.name())).collect();
        list(&each)
    }

    /// What of each crop is left over and what of it would still fit, a sentence each.
    fn more(&self, system: System) -> Vec<String> {
        let chosen = self.chosen();
        let plants = chosen.iter().map(|(_, plant, _)| plant);
        let standing: Vec<Plant> = plants.chain(&self.already).copied().collect();
        let mut lines = Vec::new();
        for (crop, set) in self.crops.iter().zip(self.counts()) {
            let name = crop.name();
            let over = crop.want.on_hand.and_then(|all| all.checked_sub(set));
            if let Some(over) = over.filter(|over| *over > 0) {
                lines.push(format!("{over} {name} left over."));
            }
            let want = Want { on_hand: None, ..crop.want };
            let request = Request::new(&self.bed, &[want], &standing, Aim::InOrder);
            let spacing = crop.spacing_told(system);
            let fit = request.ok().and_then(|request| roughly(&request));
            lines.extend(fit.map(|fit| match fit {
                (0, _) => format!("No more {name} would fit at {spacing}."),
                (more, bound) if bound > more && want.sites == SiteChoice::Emitters => {
                    format!("At least {more} more {name} would fit at {spacing}.")
                }
                (more, _) => format!("{more} more {name} would fit at {spacing}."),
            }));
        }
        lines
    }
}

/// The room a crop keeps at the sides.
fn margin(crop: &Wanted) -> Micrometres {
    crop.want.edge_margin.at(crop.want.spacing)
}
