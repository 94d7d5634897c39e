//! What planting stock weighs, as published; because it varies so much, weighing and counting a
//! handful is better.

use crate::quantity::Mass;
use uom::si::mass::{ounce, pound};

/// Stock that is bought or kept by weight and planted by the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stock {
    /// Garlic of a kind not known.
    Garlic,
    /// Garlic with a hard stem.
    GarlicHardneck,
    /// Garlic without one.
    GarlicSoftneck,
    /// Small dry onions.
    OnionSet,
    /// Seed potatoes, cut or whole.
    PotatoPiece,
}

/// The weight of one piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PieceWeight {
    /// Of a small one.
    pub small: Mass,
    /// To reckon with when nothing else is known.
    pub usual: Mass,
    /// Of a large one.
    pub large: Mass,
}

impl Stock {
    /// What one piece weighs.
    ///
    /// - Garlic: 20 to 80 cloves a pound of bulbs (C. Rosen, University of Minnesota); 50 is
    ///   common practice. Hardneck 40 to 50, the largest 33; softneck 50 to 60, small ones 80
    ///   (growers' summaries).
    /// - Onion sets: 136 a pound (weak source), and 400 of tiny ones (from memory of the row rule
    ///   of the United States Department of Agriculture); the large ones are not known to be
    ///   heavier than the usual.
    /// - Potatoes: pieces of 1.5 to 3 oz (*Potato Grower* table, 2021).
    #[must_use]
    pub fn piece(self) -> PieceWeight {
        let in_a_pound = |number: f64| Mass::new::<pound>(1.0) / number;
        let of_a_pound = |small, usual, large| PieceWeight {
            small: in_a_pound(small),
            usual: in_a_pound(usual),
            large: in_a_pound(large),
        };
        match self {
            Self::Garlic => of_a_pound(80.0, 50.0, 20.0),
            Self::GarlicHardneck => of_a_pound(50.0, 45.0, 33.0),
            Self::GarlicSoftneck => of_a_pound(80.0, 55.0, 50.0),
            Self::OnionSet => of_a_pound(400.0, 136.0, 136.0),
            Self::PotatoPiece => PieceWeight {
                small: Mass::new::<ounce>(1.5),
                usual: Mass::new::<ounce>(2.0),
                large: Mass::new::<ounce>(3.0),
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_pieces_are_no_heavier_than_large_ones() {
        let stocks = [
            Stock::Garlic,
            Stock::GarlicHardneck,
            Stock::GarlicSoftneck,
            Stock::OnionSet,
            Stock::PotatoPiece,
        ];
        for piece in stocks.map(Stock::piece) {
            assert!(piece.small <= piece.usual && piece.usual <= piece.large);
        }
    }
}
