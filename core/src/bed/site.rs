//! Places in a bed.

use super::{Bed, Drip};
use crate::{order, quantity::Micrometres};

/// A point in a bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// From the left end.
    pub along: Micrometres,
    /// From the near side.
    pub across: Micrometres,
}

/// A place for a plant, and where on the drip lines it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Site {
    /// Where it is.
    pub spot: Spot,
    /// The drip line, from 1 at the near side, for a place on one.
    pub line: Option<u16>,
    /// The hole, from 1 at the left end of the line, for a place at one.
    pub hole: Option<u16>,
}

impl Spot {
    /// What spots are put in order by: along the bed, then across.
    pub(crate) fn key(&self) -> order::Key {
        [self.along.get(), self.across.get(), 0]
    }

    /// The square of the distance, in square micrometres.
    pub(crate) fn square_to(&self, other: &Self) -> i64 {
        // OK because no bed is longer than 31 m: squares stay below 2e15.
        let along = self.along.get() - other.along.get();
        let across = self.across.get() - other.across.get();
        along * along + across * across
    }
}

impl Site {
    /// A place that is on no line.
    #[must_use]
    pub fn open(spot: Spot) -> Self {
        Self { spot, line: None, hole: None }
    }
}

impl Drip {
    /// The holes line by line, each from the left end.
    #[must_use]
    pub fn holes(&self) -> Vec<Site> {
        let mut holes = Vec::new();
        for (number, line) in (1_u16..).zip(self.lines()) {
            for (hole, along) in (1_u16..).zip(self.emitters(line)) {
                let spot = Spot { along, across: line.across };
                holes.push(Site { spot, line: Some(number), hole: Some(hole) });
            }
        }
        holes
    }
}

impl Bed {
    /// Whether a spot lies in the bed, sides included.
    #[must_use]
    pub fn holds(&self, spot: &Spot) -> bool {
        let inside = |place: Micrometres, side| Micrometres::ZERO <= place && place <= side;
        inside(spot.along, self.length()) && inside(spot.across, self.width())
    }
}
