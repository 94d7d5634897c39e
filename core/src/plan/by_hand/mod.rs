//! A layout made by hand: the proposed one, with plants put in and taken away at its places, and what
//! follows from that.
//!
//! Places are the holes of the drip lines, where a crop goes to holes, and every one that was
//! proposed.

mod follows;
mod sheet;
#[cfg(test)]
mod tests;

use uom::si::length::meter;

pub use follows::{Judged, TooNear};
pub use sheet::Row;

use super::{Drawn, Laid, Wanted};
use crate::{
    bed::{Bed, Site, Spot},
    layout::{Plant, SiteChoice},
    order,
    quantity::{Length, Micrometres, Quantity, System},
};

/// A place where a plant may be put with one tap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// Where it is.
    pub site: Site,
    /// The crop set there, by its place among the crops.
    pub set: Option<usize>,
}

/// A touch on the drawing, in metres, since that is what drawings are scaled by.
#[derive(Clone, Copy, Debug)]
pub struct Touch {
    /// From the left end.
    pub along_m: f64,
    /// From the near side.
    pub across_m: f64,
    /// A site farther than this is not meant.
    pub reach_m: f64,
}

/// A layout in the making.
#[derive(Clone, Debug)]
pub struct ByHand {
    bed: Bed,
    bed_id: Option<String>,
    crops: Vec<Wanted>,
    already: Vec<Plant>,
    places: Vec<Place>,
}

impl ByHand {
    /// A layout that was made, ready to be changed.
    pub fn of(laid: &Laid) -> Self {
        let mut places: Vec<Place> = Vec::new();
        let at_holes = |wanted: &Wanted| wanted.want.sites == SiteChoice::Emitters;
        if let Some(drip) = laid.bed.drip().filter(|_| laid.wanted.iter().any(at_holes)) {
            places.extend(drip.holes().into_iter().map(|site| Place { site, set: None }));
        }
        for (crop, plants) in laid.layout.plants.iter().enumerate() {
            for site in plants.iter().map(|plant| plant.site) {
                match places.iter_mut().find(|place| place.site == site) {
                    Some(place) => place.set = Some(crop),
                    None => places.push(Place { site, set: Some(crop) }),
                }
            }
        }
        let mut by_hand = Self {
            bed: laid.bed.clone(),
            bed_id: laid.bed_id.clone(),
            crops: laid.wanted.clone(),
            already: laid.standing.clone(),
            places,
        };
        by_hand.in_order();
        by_hand
    }

    fn in_order(&mut self) {
        order::sort(&mut self.places, &|place| {
            let Spot { along, across } = place.site.spot;
            [across.get(), along.get(), 0]
        });
    }

    /// The bed.
    pub fn bed(&self) -> &Bed {
        &self.bed
    }

    /// The bed's id in the record, if it is there.
    pub fn bed_id(&self) -> Option<&str> {
        self.bed_id.as_deref()
    }

    /// The places, from the near side, then from the left end.
    pub fn places(&self) -> &[Place] {
        &self.places
    }

    /// The crops' names.
    pub fn crops(&self) -> Vec<String> {
        self.crops.iter().map(Wanted::name).collect()
    }

    /// The crops with their plants, as the drawing shows them.
    pub fn drawn(&self) -> Vec<Drawn> {
        let of = |(crop, wanted): (usize, &Wanted)| {
            let set = self.places.iter().filter(|place| place.set == Some(crop));
            let spots = set.map(|place| place.site.spot).collect();
            Drawn { spots, ..Drawn::of(wanted.row, &wanted.called, Some(wanted.want.spacing)) }
        };
        self.crops.iter().enumerate().map(of).collect()
    }

    /// Puts a plant of this crop at a place, or takes away the one that is there.
    pub fn tap(&mut self, place: usize, crop: usize) {
        let known = crop < self.crops.len();
        if let Some(place) = self.places.get_mut(place).filter(|_| known) {
            place.set = match place.set {
                Some(_) => None,
                None => Some(crop),
            };
        }
    }

    /// Takes a touch: the nearest site gets a plant of this crop or loses its own. A crop on open
    /// ground goes where the finger is, to the inch or centimetre, unless a plant is meant. Whether
    /// anything was meant at all.
    pub fn touch(&mut self, touch: Touch, crop: usize, system: System) -> bool {
        let at = (metres(touch.along_m), metres(touch.across_m));
        let ((Some(along), Some(across)), Some(reach)) = (at, metres(touch.reach_m)) else {
            return false;
        };
        let Some(want) = self.crops.get(crop).map(|crop| crop.want) else {
            return false;
        };
        let open = want.sites == SiteChoice::Anywhere;
        let reach = match open {
            true => reach.min(Micrometres::new(want.spacing.get() / 3)),
            false => reach,
        };
        let spot = Spot { along, across };
        let off = |place: &Place| place.site.spot.square_to(&spot);
        let nearest = (0..self.places.len()).filter_map(|at| Some((off(self.places.get(at)?), at)));
        if let Some((off, place)) = nearest.min()
            && off <= reach.get() * reach.get()
        {
            self.tap(place, crop);
            return true;
        }
        let step = system.whole_step().get();
        let whole =
            |at: Micrometres| Micrometres::new((at.get() + step / 2).div_euclid(step) * step);
        let spot = Spot { along: whole(along), across: whole(across) };
        if !open || !self.bed.holds(&spot) {
            return false;
        }
        self.places.push(Place { site: Site::open(spot), set: Some(crop) });
        self.in_order();
        true
    }

    /// Whether some crop goes anywhere, so that places can be made by touching.
    pub fn is_open(&self) -> bool {
        let open = |crop: &Wanted| crop.want.sites == SiteChoice::Anywhere;
        self.crops.iter().any(open)
    }

    /// "Line 1, hole 3", or where it lies.
    pub fn name(&self, place: &Place, system: System) -> String {
        let site = place.site;
        let along = site.spot.along.to_length().show(system);
        match (site.line, site.hole) {
            (Some(line), Some(hole)) => format!("Line {line}, hole {hole}"),
            (Some(line), None) => format!("Line {line}, {along} from the left end"),
            _ => format!(
                "{along} from the left end, {} from the near side",
                site.spot.across.to_length().show(system)
            ),
        }
    }

    /// What is set at a place: the crop's name.
    pub fn set_at(&self, place: &Place) -> Option<String> {
        Some(self.crops.get(place.set?)?.name())
    }

    /// Those that are set, each with its place in the list, its plant and its crop.
    fn chosen(&self) -> Vec<(usize, Plant, &Wanted)> {
        let places = self.places.iter().enumerate();
        places
            .filter_map(|(at, place)| {
                let crop = self.crops.get(place.set?)?;
                Some((at, Plant { site: place.site, spacing: crop.want.spacing }, crop))
            })
            .collect()
    }

    /// How many of each crop are set.
    fn counts(&self) -> Vec<u32> {
        let of = |crop: usize| self.places.iter().filter(|place| place.set == Some(crop)).count();
        (0..self.crops.len()).map(|crop| u32::try_from(of(crop)).unwrap_or(u32::MAX)).collect()
    }
}

fn metres(metres: f64) -> Option<Micrometres> {
    Micrometres::from_length(Length::new::<meter>(metres))
}
