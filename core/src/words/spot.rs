//! Where trays stand and thermometers hang, beside the beds.

use crate::given::{Readable, words};

words! {
    /// A place for trays.
    pub enum Spot {
        /// A greenhouse or tunnel without heat.
        Greenhouse = "unheated-greenhouse" => "unheated greenhouse",
        /// A cold frame.
        ColdFrame = "cold-frame" => "cold frame",
        /// A sill indoors.
        Sill = "sill" => "sill indoors",
        /// Under lamps.
        Lamps = "lamps" => "under lamps",
        /// A heat mat.
        Mat = "mat" => "heat mat",
        /// A heated house.
        HeatedHouse = "heated-house" => "heated house",
        /// Outdoors; for thermometers, in the open.
        Outdoors = "outdoors" => "outdoors",
    }
}

/// What a spot of the record is called.
pub fn spot_words(spot: &str) -> &str {
    Spot::CONTROL.said(spot).unwrap_or(spot)
}
