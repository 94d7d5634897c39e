//! Crops laid out in a bed: what the questions that place plants have in common.
//!
//! | file | what it knows |
//! |---|---|
//! | `crop` | a crop as it is asked for, with its spacing, margin and sites |
//! | `rotation` | families that the bed should rest from |
//! | `standing` | where the plants of the record stand |
//! | `words` | a layout as it is told, and what of it is written |
//! | `by_hand` | a layout changed plant by plant, and what follows |

pub mod by_hand;
mod crop;
mod rotation;
mod standing;
mod words;

pub use crop::Wanted;
pub(crate) use crop::{crop_and_spacing, edge_margin, range_words, sites_for};
pub(crate) use rotation::{Stood, resting};
pub use standing::{Drawn, Stands, drawn, stands};
pub(crate) use standing::{recorded, shape};
pub(crate) use words::{arrangement, drafts, no_place, sentence};

use crate::{
    bed::{Bed, Site},
    layout::{Layout, Plant},
    order,
};

/// A layout that was made.
#[derive(Clone, Debug)]
pub struct Laid {
    /// The bed.
    pub bed: Bed,
    /// Its id in the record, if it is there.
    pub bed_id: Option<String>,
    /// What stays in it.
    pub standing: Vec<Plant>,
    /// The crops that go in.
    pub wanted: Vec<Wanted>,
    /// Where they go.
    pub layout: Layout,
}

/// One plant's place.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(rename = "Plant"))]
pub struct Placed {
    /// The crop's catalogue id, or the gardener's word for it.
    pub crop: String,
    /// From the left end, metres.
    pub along_m: f64,
    /// From the near side, metres.
    pub across_m: f64,
    /// The drip line, counted from the near side, where the plant stands at one.
    pub line: Option<u16>,
    /// The hole, counted along the line from the left end, where the plant stands at one.
    pub hole: Option<u16>,
}

impl Laid {
    /// Each plant, by its distance from the near side, then from the left end.
    pub(crate) fn placed(&self) -> Vec<Placed> {
        let mut all: Vec<(&Wanted, Site)> = Vec::new();
        for (wanted, plants) in self.wanted.iter().zip(&self.layout.plants) {
            all.extend(plants.iter().map(|plant| (wanted, plant.site)));
        }
        // By their places, since a sort of these is there already.
        let mut order: Vec<usize> = (0..all.len()).collect();
        order::sort(&mut order, &|&at| {
            all.get(at).map_or([0; 3], |(_, site)| {
                [site.spot.across.get(), site.spot.along.get(), at as i64]
            })
        });
        let placed = order.into_iter().filter_map(|at| all.get(at)).map(|(wanted, site)| Placed {
            crop: wanted.id().to_owned(),
            along_m: site.spot.along.metres(),
            across_m: site.spot.across.metres(),
            line: site.line,
            hole: site.hole,
        });
        placed.collect()
    }
}
