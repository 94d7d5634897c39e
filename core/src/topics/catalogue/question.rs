//! What is asked, and how it is read.

use crate::given::{Given, asked, words};

words! {
    /// A catalogue table.
    pub enum Table {
        /// Crops, filler flowers and cover crops.
        Crop = "crop",
        /// Plants and other stuff that is chopped and left.
        Residue = "residue",
        /// Covers against frost.
        Cover = "cover",
        /// Signs of readiness, of every crop that is harvested.
        Cue = "cue",
    }
}

asked! {
    /// Which rows does a catalogue table have?
    pub struct Asked {
        /// The table.
        kind: Given<Table>,
    }
}
