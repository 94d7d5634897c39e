//! What a clove of either kind of garlic weighs: narrower than the catalogue's clove of any kind.

use crate::{catalogue::Range, quantity::Mass, words::garlic::Kind};
use uom::si::mass::pound;

/// What a clove of that kind weighs.
///
/// Hardneck: 40 to 50 in a pound of bulbs, the largest 33. Softneck: 50 to 60, small ones 80
/// (J. Allen, Ontario Ministry of Agriculture, factsheet 09-011w, 2009, and growers' summaries).
/// The usual is the middle of the common range.
#[must_use]
pub fn clove(kind: Kind) -> Range<Mass> {
    let in_a_pound = |number: f64| Mass::new::<pound>(1.0) / number;
    let [most, usual, fewest] = match kind {
        Kind::Hardneck => [50.0, 45.0, 33.0],
        Kind::Softneck => [80.0, 55.0, 50.0],
    };
    Range { least: in_a_pound(most), usual: in_a_pound(usual), most: in_a_pound(fewest) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::crop;

    #[test]
    fn a_clove_of_either_kind_lies_inside_the_range_of_any() {
        let any = crop("garlic").ok().unwrap().piece_mass().unwrap();
        for kind in Kind::ALL {
            let clove = clove(*kind);
            assert!(any.least <= clove.least && clove.most <= any.most);
            assert!(clove.least <= clove.usual && clove.usual <= clove.most);
        }
    }
}
