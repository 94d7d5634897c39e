//! Salt for fermenting vegetables, by weight.
//!
//! Salt is told as a share of all that it must season: shredded vegetables make their own brine, so
//! for them it is the vegetable alone; whole ones lie in brine, so the water counts too. The printed
//! recipes measure by volume and disagree with one another for that reason (3/4 cup to 25 lb is
//! 1.9 %, 3 tablespoons to 5 lb 2.4 % at 18 g a tablespoon and 292 g a cup, from memory).
//!
//! Sources: Michigan State University Extension, Preserving Food Safely 01600078 (shredded cabbage);
//! USDA Complete Guide to Home Canning, fermented dill pickles (whole cucumbers).

use crate::{harvest::measures::Percent, quantity::Mass};

/// How the vegetable lies in its salt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cut {
    /// Shredded, grated or thinly sliced: it makes its own brine.
    Shredded,
    /// Whole or in pieces: it lies in water.
    Whole,
}

impl Cut {
    /// Percent of the whole used where none is named: 2.25 for shredded (inside 2.25 to 2.5, from
    /// memory), 4 for whole (half a cup of salt to 4 lb and 8 cups is 3.9 %).
    pub fn usual_percent(self) -> f64 {
        match self {
            Self::Shredded => 2.25,
            Self::Whole => 4.0,
        }
    }

    /// Least and most percent that recipes use; outside them the ferment may spoil or not start.
    pub fn usual_percents(self) -> [f64; 2] {
        match self {
            Self::Shredded => [2.0, 3.0],
            Self::Whole => [3.0, 5.5],
        }
    }
}

/// The salt for this much vegetable and water.
pub fn salt(vegetable: Mass, water: Mass, percent: Percent) -> Mass {
    (vegetable + water) * (percent.number() / 100.0)
}

#[cfg(test)]
mod tests {
    use uom::si::mass::gram;

    use super::*;

    proptest::proptest! {
        #[test]
        fn salt_grows_with_each_of_what_it_seasons(
            vegetable in 1.0..50_000.0f64, water in 0.0..50_000.0f64, percent in 0.1..10.0f64,
            more in 1.0..1_000.0f64,
        ) {
            let grams = |grams| Mass::new::<gram>(grams);
            let share = Percent::new(percent).unwrap();
            let base = salt(grams(vegetable), grams(water), share);
            proptest::prop_assert!(salt(grams(vegetable + more), grams(water), share) > base);
            proptest::prop_assert!(salt(grams(vegetable), grams(water + more), share) > base);
            // What is salted weighs more than its salt.
            proptest::prop_assert!(base < grams(vegetable + water));
        }
    }
}
