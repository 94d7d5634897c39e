//! Whether a winter is cold enough to split the bulb into cloves.
//!
//! Chilling is not needed to make a bulb, but to make cloves: M. S. Bandara and others, *Can. J.
//! Plant Sci.* 80:379-384, 2000 (more than 30 days at 4 °C in the field, 45 in the greenhouse).
//! "Enough" as growers' guides have it: 40 days at or below 40 °F (P. Dawling, *Growing for
//! Market*, September 2016) or 8 weeks at 32 to 50 °F (advice of the University of Minnesota).
//! Applied here to days of the usual year's soil at 2 in (derived).

use uom::si::length::centimeter;

use crate::catalogue::garlic::Kind;
use crate::{
    given::words,
    place::{air::of_celsius, soil::SoilYear},
    quantity::Length,
};

/// Days at or below 45 °F (7.2 °C) that are enough: six weeks.
const ENOUGH_AT_7_C: u32 = 42;
/// Days at or below 50 °F (10 °C) that are enough: eight weeks.
pub(super) const ENOUGH_AT_10_C: u32 = 56;
/// Fewer days at or below 45 °F than this are next to none: a week.
const NEXT_TO_NONE: u32 = 7;

words! {
    /// Whether the winter's cold will split the bulb.
    pub enum Verdict {
        /// It will.
        Enough = "enough",
        /// It may.
        Unsure = "unsure",
        /// It won't: chill the seed garlic first.
        Short = "short",
    }
}

/// The cold of the usual year at the depth of the cloves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cold {
    /// Days with soil at 2 in at or below 10 °C (50 °F).
    pub days_at_10_c: u32,
    /// Days with soil at 2 in at or below 7.2 °C (45 °F).
    pub days_at_7_c: u32,
}

impl Cold {
    /// Counted in the usual year of a bed.
    pub fn of(soil: &SoilYear) -> Self {
        let depth = Length::new::<centimeter>(5.0);
        Self {
            days_at_10_c: soil.days_at_or_below(of_celsius(10.0), depth),
            days_at_7_c: soil.days_at_or_below(of_celsius(7.2), depth),
        }
    }

    /// Whether it is enough for that kind.
    ///
    /// Hardneck: six weeks at or below 45 °F are enough, or eight weeks at or below 50 °F of which
    /// some are at or below 45 °F; eight weeks none of which is so cold leave it unsure. Softneck
    /// asks for less, how much less was not found: a short winter leaves it unsure (considered).
    pub fn verdict(self, kind: Kind) -> Verdict {
        let cool = self.days_at_10_c >= ENOUGH_AT_10_C;
        if self.days_at_7_c >= ENOUGH_AT_7_C || (cool && self.days_at_7_c >= NEXT_TO_NONE) {
            return Verdict::Enough;
        }
        match kind {
            Kind::Softneck if cool => Verdict::Enough,
            Kind::Softneck => Verdict::Unsure,
            Kind::Hardneck if cool => Verdict::Unsure,
            Kind::Hardneck => Verdict::Short,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn more_cold_never_makes_the_verdict_worse(
            at_10 in 0u32..250, below in 0u32..250, more in 0u32..60,
        ) {
            let cold = |more: u32| Cold {
                days_at_10_c: at_10 + more,
                days_at_7_c: at_10.saturating_sub(below) + more,
            };
            for kind in [Kind::Hardneck, Kind::Softneck] {
                prop_assert!(cold(more).verdict(kind) <= cold(0).verdict(kind));
            }
            prop_assert!(cold(0).verdict(Kind::Softneck) <= cold(0).verdict(Kind::Hardneck));
        }
    }
}
