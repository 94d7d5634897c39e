//! How much seed garlic: cloves, their weight, and the bulbs to keep back at harvest.

use uom::si::{f64::Mass, mass::pound};

use super::chill::Kind;

/// Cloves in a pound where they have not been weighed (common practice; 20 to 80 by variety: C. Rosen,
/// University of Minnesota).
pub const CLOVES_PER_POUND: f64 = 50.0;

/// The fewest and the most cloves in a pound (Rosen).
pub const CLOVES_PER_POUND_RANGE: (f64, f64) = (20.0, 80.0);

/// Seed garlic for so many cloves, where `cloves_per_pound` weigh a pound.
pub fn mass(cloves: u32, cloves_per_pound: f64) -> Mass {
    Mass::new::<pound>(f64::from(cloves) / cloves_per_pound)
}

/// Cloves fit for planting in one bulb: hardneck 4 to 8 large ones (University of Maine 2012), softneck 8 to 12
/// (J. Allen, Ontario Ministry of Agriculture, 2009) of which the inner ones are small; cautiously, the lesser half.
pub fn cloves_per_bulb(kind: Kind) -> u32 {
    match kind {
        Kind::Hardneck => 5,
        Kind::Softneck => 8,
    }
}

/// Bulbs to keep back at harvest for planting so many cloves.
pub fn bulbs_to_keep(cloves: u32, kind: Kind) -> u32 {
    cloves.div_ceil(cloves_per_bulb(kind))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_of_a_bulb_is_a_whole_one() {
        assert_eq!(bulbs_to_keep(11, Kind::Hardneck), 3);
        assert_eq!(bulbs_to_keep(0, Kind::Softneck), 0);
    }
}
