//! Plants in a bed, when two are too near, and the room kept at the sides.

use crate::bed::{Bed, Site, Spot, TOLERANCE};
use crate::order;
use crate::quantity::Micrometres;

/// A plant in a bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Plant {
    /// Where it stands.
    pub site: Site,
    /// The distance that plants of its kind keep.
    pub spacing: Micrometres,
}

impl Plant {
    /// A plant that is on no line.
    #[must_use]
    pub fn open(spot: Spot, spacing: Micrometres) -> Self {
        Self { site: Site::open(spot), spacing }
    }

    /// Whether it keeps a plant of this spacing off a spot.
    ///
    /// Unlike neighbours keep the mean of their spacings (J. Jeavons, *How to Grow More
    /// Vegetables*), less the tolerance.
    pub(crate) fn keeps_off(&self, spot: &Spot, spacing: Micrometres) -> bool {
        too_near(spot, &self.site.spot, [spacing - TOLERANCE, self.spacing - TOLERANCE])
    }
}

/// Whether two spots lie nearer than the mean of what the plants at them keep.
///
/// The one place where this is decided, but for the sweeps of [`pack`](super::pack) and
/// [`joint`](super::joint), which go by what a plant leaves free on each line.
pub(super) fn too_near(one: &Spot, other: &Spot, keep: [Micrometres; 2]) -> bool {
    // Twice everything, since the mean of two whole numbers may end in a half.
    let [one_keeps, other_keeps] = keep;
    let apart = (one_keeps + other_keeps).get();
    apart > 0 && one.square_to(other) * 4 < apart * apart
}

/// The plants that stay, in order along the bed, and what they keep free around them.
pub(super) struct Kept {
    plants: Vec<Plant>,
    widest: Micrometres,
}

impl Kept {
    /// The plants as given, in any order.
    pub(super) fn new(plants: &[Plant]) -> Self {
        let mut plants = plants.to_vec();
        order::sort(&mut plants, &|plant| plant.site.spot.key());
        let widest = plants.iter().map(|plant| plant.spacing).max().unwrap_or_default();
        Self { plants, widest }
    }

    /// The plants, in order along the bed.
    pub(super) fn plants(&self) -> &[Plant] {
        &self.plants
    }

    /// Whether some plant that stays keeps a new one of this spacing off a spot.
    pub(super) fn off(&self, spot: &Spot, spacing: Micrometres) -> bool {
        let reach = spacing + self.widest;
        let along = |plant: &Plant| plant.site.spot.along;
        let first = self.plants.partition_point(|plant| along(plant) < spot.along - reach);
        let near = self.plants.iter().skip(first);
        let mut near = near.take_while(|plant| along(plant) <= spot.along + reach);
        near.any(|plant| plant.keeps_off(spot, spacing))
    }
}

/// The part of a bed inside the edge margin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Field {
    /// Its near left corner.
    pub(crate) corner: Spot,
    /// Its size along the bed.
    pub(crate) length: Micrometres,
    /// Its size across the bed.
    pub(crate) width: Micrometres,
}

impl Field {
    /// The part inside this margin, or nothing where the margins leave no room.
    pub(crate) fn within(bed: &Bed, margin: Micrometres) -> Option<Self> {
        let inside = |side: Micrometres| {
            let left = side - margin * 2;
            (left >= Micrometres::ZERO).then_some(left)
        };
        Some(Self {
            length: inside(bed.length())?,
            width: inside(bed.width())?,
            corner: Spot { along: margin, across: margin },
        })
    }

    /// The part inside this margin less the tolerance, never outside the bed.
    pub(crate) fn loosely_within(bed: &Bed, margin: Micrometres) -> Option<Self> {
        Self::within(bed, (margin - TOLERANCE).max(Micrometres::ZERO))
    }

    /// Whether a spot lies inside, sides included.
    pub(crate) fn holds(&self, spot: &Spot) -> bool {
        let along = spot.along - self.corner.along;
        let across = spot.across - self.corner.across;
        Micrometres::ZERO <= along
            && along <= self.length
            && Micrometres::ZERO <= across
            && across <= self.width
    }
}
