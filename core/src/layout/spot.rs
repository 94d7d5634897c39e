//! Points in a bed, and when two are too near.

use super::request::Standing;
use crate::bed::{Bed, TOLERANCE};
use crate::order;
use crate::quantity::Micrometres;

/// A point in the bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Spot {
    /// From the left end.
    pub(super) along: Micrometres,
    /// From the near side.
    pub(super) across: Micrometres,
}

impl Spot {
    /// What spots are put in order by: along the bed, then across.
    pub(super) fn key(&self) -> order::Key {
        [self.along.get(), self.across.get(), 0]
    }

    /// The square of the distance, in square micrometres.
    pub(super) fn square_to(&self, other: &Self) -> i64 {
        // OK because no bed is longer than 31 m: squares stay below 2e15.
        let along = self.along.get() - other.along.get();
        let across = self.across.get() - other.across.get();
        along * along + across * across
    }
}

/// Whether two points lie nearer than `apart`.
pub(super) fn too_near(one: &Spot, other: &Spot, apart: Micrometres) -> bool {
    apart > Micrometres::ZERO && one.square_to(other) < apart.get() * apart.get()
}

/// The plants that stay, in order along the bed, and what they keep free around them.
pub(super) struct Kept {
    standing: Vec<Standing>,
    widest: Micrometres,
}

impl Kept {
    /// The plants as given, in any order.
    pub(super) fn new(standing: &[Standing]) -> Self {
        let mut standing = standing.to_vec();
        order::sort(&mut standing, &|plant| [plant.along.get(), plant.across.get(), 0]);
        let widest = standing.iter().map(|plant| plant.spacing).max().unwrap_or_default();
        Self { standing, widest }
    }

    /// The plants, in order along the bed.
    pub(super) fn plants(&self) -> &[Standing] {
        &self.standing
    }

    /// Whether some plant that stays keeps a new one of this spacing off a spot.
    ///
    /// Unlike neighbours keep the mean of their spacings (J. Jeavons, *How to Grow More
    /// Vegetables*), less the tolerance.
    pub(super) fn off(&self, spot: &Spot, spacing: Micrometres) -> bool {
        let reach = spacing + self.widest;
        let first = self.standing.partition_point(|plant| plant.along < spot.along - reach);
        self.standing.iter().skip(first).take_while(|plant| plant.along <= spot.along + reach).any(
            |plant| {
                // Twice everything, since the mean of two whole numbers may end in a half.
                let apart = twice_mean(spacing, plant);
                let there = Spot { along: plant.along, across: plant.across };
                apart > 0 && spot.square_to(&there) * 4 < apart * apart
            },
        )
    }
}

/// Twice the distance that a new plant of this spacing must keep from one that stays.
pub(super) fn twice_mean(spacing: Micrometres, standing: &Standing) -> i64 {
    (spacing + standing.spacing - TOLERANCE * 2).get()
}

/// The part of a bed inside the edge margin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Field {
    /// Its near left corner.
    pub(super) corner: Spot,
    /// Its size along the bed.
    pub(super) length: Micrometres,
    /// Its size across the bed.
    pub(super) width: Micrometres,
}

impl Field {
    /// The part inside this margin, or nothing where the margins leave no room.
    pub(super) fn within(bed: &Bed, margin: Micrometres) -> Option<Self> {
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
    pub(super) fn loosely_within(bed: &Bed, margin: Micrometres) -> Option<Self> {
        Self::within(bed, (margin - TOLERANCE).max(Micrometres::ZERO))
    }

    /// Whether a spot lies inside, sides included.
    pub(super) fn holds(&self, spot: &Spot) -> bool {
        let along = spot.along - self.corner.along;
        let across = spot.across - self.corner.across;
        Micrometres::ZERO <= along
            && along <= self.length
            && Micrometres::ZERO <= across
            && across <= self.width
    }
}
