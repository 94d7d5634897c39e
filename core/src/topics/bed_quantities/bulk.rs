//! Volumes and weights of what is spread on a bed or filled into it.

use crate::quantity::{Area, Length, Mass, Volume};
use uom::si::f64::MassDensity;
use uom::si::length::inch;
use uom::si::mass::pound;
use uom::si::ratio::ratio;
use uom::si::volume::cubic_yard;

/// A new fill sinks by about a tenth (common practice).
const SETTLING: f64 = 0.10;

/// What is spread or filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// Finished compost.
    Compost,
    /// Loose straw or leaves laid on top.
    Mulch,
    /// Soil or a soil mix for a new bed.
    Soil,
}

impl Material {
    /// The depth that is usual when the gardener names none; soil has none, for it fills the bed.
    ///
    /// Compost: 1 in before garlic (M. Fuller, University of Maine Cooperative Extension) or
    /// yearly on perennials (University of Maryland Extension). Mulch: 3 to 4 in of straw or
    /// leaves on garlic (C. Rosen, University of Minnesota), of which the less.
    #[must_use]
    pub fn usual_depth(self) -> Option<Length> {
        match self {
            Self::Compost => Some(Length::new::<inch>(1.0)),
            Self::Mulch => Some(Length::new::<inch>(3.0)),
            Self::Soil => None,
        }
    }

    /// What that volume weighs; nothing for soil, whose weight varies most with its water.
    ///
    /// Compost: 1350 lb per cubic yard (state recycling conversion factors: Oregon 2005,
    /// Massachusetts 2011). Mulch: straw at 227 lb per cubic yard, though fluffed it may be 58
    /// and packed 378 (*On-Farm Composting Handbook*, NRAES-54, 1992, Table A.1, from memory).
    #[must_use]
    pub fn weight(self, volume: Volume) -> Option<Mass> {
        let pounds_a_yard = match self {
            Self::Compost => 1350.0,
            Self::Mulch => 227.0,
            Self::Soil => return None,
        };
        let density: MassDensity =
            Mass::new::<pound>(pounds_a_yard) / Volume::new::<cubic_yard>(1.0);
        Some(volume * density)
    }
}

/// The volume that covers an area to a depth. Do not count chopped residue already lying there
/// twice.
#[must_use]
pub fn spread(area: Area, depth: Length) -> Volume {
    area * depth
}

/// The volume that fills a new bed to a depth, with a tenth more for settling.
#[must_use]
pub fn fill(area: Area, depth: Length) -> Volume {
    area * depth * (1.0 + SETTLING)
}

/// How deep a volume lies on an area; nothing for an area that is not above zero.
#[must_use]
pub fn depth(volume: Volume, area: Area) -> Option<Length> {
    (area.value > 0.0).then(|| volume / area)
}

/// How many whole bags or barrows of that size a volume takes; nothing for a size that is not
/// above zero or a number beyond counting. A hundredth of one is not worth another.
#[must_use]
pub fn containers(volume: Volume, each: Volume) -> Option<u32> {
    let number = ((volume / each).get::<ratio>() - 0.01).ceil();
    let counts = each.value > 0.0 && number <= f64::from(u32::MAX);
    counts.then_some(number as u32)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Quantity, WHEELBARROW};

    fn read<Q: Quantity>(text: &str) -> Q {
        Q::read(text).unwrap()
    }

    #[test]
    fn a_fill_is_a_tenth_more_than_a_layer() {
        let bed = read("4 x 8 ft");
        let ratio_of = fill(bed, read("12 in")) / spread(bed, read("12 in"));
        assert!((ratio_of.get::<ratio>() - 1.1).abs() < 1e-12);
    }

    #[test]
    fn depth_undoes_spreading() {
        let bed = read("4 x 8 ft");
        let depth = depth(spread(bed, read("3 in")), bed).unwrap();
        assert!((depth.get::<inch>() - 3.0).abs() < 1e-12);
        assert_eq!(super::depth(WHEELBARROW, read("0 m2")), None);
    }

    #[test]
    fn containers_are_whole_and_forgive_a_hundredth() {
        let litres = |number: f64| Volume::new::<uom::si::volume::liter>(number);
        assert_eq!(containers(litres(100.0), litres(50.0)), Some(2));
        assert_eq!(containers(litres(100.4), litres(50.0)), Some(2));
        assert_eq!(containers(litres(101.0), litres(50.0)), Some(3));
        assert_eq!(containers(litres(1.0), litres(50.0)), Some(1));
        assert_eq!(containers(litres(0.0), litres(50.0)), Some(0));
        assert_eq!(containers(litres(1.0), litres(0.0)), None);
        assert_eq!(containers(litres(1.0), litres(-1.0)), None);
        assert_eq!(containers(litres(f64::NAN), litres(50.0)), None);
        assert_eq!(containers(litres(1e300), litres(50.0)), None);
    }

    #[test]
    fn soil_has_no_usual_depth_or_weight() {
        assert_eq!(Material::Soil.usual_depth(), None);
        assert_eq!(Material::Soil.weight(WHEELBARROW), None);
    }
}
