//! What is asked, and how it is read.

use super::one_of;
use crate::{
    bed::BedAsked,
    catalogue::{KnownCrop, garlic::Kind},
    given::{self, Faults, Given, asked, words},
    quantity::{Length, Mass, Volume},
};

words! {
    /// What goes into a bed.
    pub enum Item {
        /// Finished compost, spread.
        Compost = "compost" => "Compost",
        /// Straw or leaves, laid on top.
        Mulch = "mulch" => "Mulch",
        /// Soil or a soil mix to fill the bed with.
        Soil = "soil" => "Soil to fill it",
        /// Garlic to plant, by the clove.
        SeedGarlic = "seed-garlic" => "Garlic to plant",
        /// Onion sets.
        Sets = "sets" => "Onion sets",
        /// Seed of a crop.
        Seed = "seed" => "Seed",
    }
}

impl Item {
    /// Whether it is planted or sown by the piece.
    pub(super) fn is_counted(self) -> bool {
        matches!(self, Self::SeedGarlic | Self::Sets | Self::Seed)
    }
}

asked! {
    /// How much does a bed take?
    pub struct Asked {
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked> = "Bed",
        /// What goes in.
        item: Given<Item> = "What",
        /// How deep it lies: 1 in of compost or 3 in of mulch if absent; needed for soil.
        depth: Given<Length> = "How deep",
        /// The space between plants; the usual one of the crop if absent.
        spacing: Given<Length> = "Space between",
        /// The crop whose seed it is; the other items need none.
        crop: Given<KnownCrop> = "Crop",
        /// The kind of garlic; either if absent.
        kind: Given<Kind>,
        /// The share of the seed that comes up, as the packet says; three in four if absent.
        germination: Given<given::Share>,
        /// A handful of the cloves, sets or seeds, counted and weighed.
        handful: Option<HandfulAsked>,
        /// What one heaped wheelbarrow holds; the garden's own, or 0.17 m³ (6 cu ft), if absent.
        wheelbarrow: Given<Volume>,
    }
}

asked! {
    /// A handful counted and weighed.
    pub struct HandfulAsked {
        /// How many pieces.
        pieces: Given<u32>,
        /// What they weigh together.
        mass: Given<Mass>,
    }
}

pub(super) const LEAST_DEPTH_MM: f64 = 1.0;

pub(super) const MOST_DEPTH_MM: f64 = 1830.0;

pub(super) const DEPTHS: &str = "a depth up to 6 ft (1.8 m), more than nothing";

impl HandfulAsked {
    /// What one piece weighs.
    pub(super) fn read(&self, faults: &mut Faults) -> Option<Mass> {
        let pieces = self.pieces.need(faults);
        let mass = self.mass.need(faults);
        if pieces == Some(0) {
            self.pieces.refuse(faults, "at least one piece", "none can be weighed");
        }
        if mass.is_some_and(|mass| mass.value <= 0.0) {
            self.mass.refuse(faults, "more than nothing", "every piece weighs something");
        }
        one_of(pieces?, mass?)
    }
}

pub(super) fn comes_up(given: &Given<given::Share>, faults: &mut Faults) -> Option<f64> {
    let share = given.read(faults)?.fraction();
    if share > 0.0 {
        return Some(share);
    }
    given.refuse(faults, "more than 0 %, up to 100 %", "seed of which none comes up can't be sown");
    None
}
