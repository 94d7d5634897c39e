//! Cloves, sets, tubers and seeds: how many, and what they weigh.

use crate::bed::TOLERANCE;
use crate::quantity::{Area, Length, Mass, Micrometres};
use std::num::NonZeroU32;
use uom::si::ratio::ratio;

/// A share above 0 and up to 1: seed that comes up, cloves big enough to plant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share(f64);

impl Share {
    /// All of them.
    pub const ALL: Self = Self(1.0);

    /// Three seeds in four come up in a bed (common practice).
    pub(super) const USUALLY_COMES_UP: Self = Self(0.75);

    /// In percent.
    pub(super) fn percent(self) -> f64 {
        self.0 * 100.0
    }

    /// A share; nothing unless above 0 and at most 1.
    #[must_use]
    pub fn new(share: f64) -> Option<Self> {
        (0.0 < share && share <= 1.0).then_some(Self(share))
    }
}

/// How many places a row has, one for each full spacing; none for a spacing that is not above
/// zero or cannot be measured.
#[must_use]
pub fn in_row(length: Length, spacing: Length) -> u32 {
    match measured([length, spacing]) {
        Some([length, spacing]) if spacing > 0 && length > 0 => whole(length / spacing),
        _ => 0,
    }
}

/// How many plants stand in straight rows that keep a margin from every side: the first plant of
/// each row on the margin, the rest a spacing on. None where a spacing is not above zero.
#[must_use]
pub fn in_grid(bed: [Length; 2], margin: Length, in_row: Length, between_rows: Length) -> u32 {
    let [length, width] = bed;
    let Some([length, width, margin, in_row, between_rows]) =
        measured([length, width, margin, in_row, between_rows])
    else {
        return 0;
    };
    if in_row <= 0 || between_rows <= 0 {
        return 0;
    }
    let places = |side: i64, spacing: i64| {
        // What a tape may be off at each end, so that a bed typed in centimetres has as many as the
        // same bed typed in inches.
        let free = side - 2 * margin + 2 * TOLERANCE.get();
        if free < 0 { 0 } else { whole(free / spacing + 1) }
    };
    places(length, in_row).saturating_mul(places(width, between_rows))
}

/// How many plants a large area takes, each having its spacing in the row times that between
/// rows; the edges are not counted. None where a spacing is not above zero.
#[must_use]
pub fn of_area(area: Area, in_row: Length, between_rows: Length) -> u32 {
    let each = in_row * between_rows;
    if !(in_row.value > 0.0 && between_rows.value > 0.0) {
        return 0;
    }
    // A rounding error must not cost a plant.
    ((area / each).get::<ratio>() * (1.0 + 1e-9)) as u32
}

/// How many pieces to have so that enough grow: of each, that share comes up, and that share is
/// fit to plant.
#[must_use]
pub fn to_obtain(plants: u32, comes_up: Share, usable: Share) -> u32 {
    // A rounding error must not add a piece.
    (f64::from(plants) / (comes_up.0 * usable.0) * (1.0 - 1e-12)).ceil() as u32
}

/// How many bulbs to keep back so that their usable cloves suffice.
#[must_use]
pub fn bulbs_to_keep(cloves: u32, usable_in_each: NonZeroU32) -> u32 {
    cloves.div_ceil(usable_in_each.get())
}

/// What so many pieces weigh.
#[must_use]
pub fn weight(pieces: u32, each: Mass) -> Mass {
    each * f64::from(pieces)
}

/// The weight of one, from a handful counted and weighed; nothing for a count of none or a weight
/// that is not above zero.
#[must_use]
pub fn one_of(counted: u32, weighed: Mass) -> Option<Mass> {
    (counted > 0 && weighed.value > 0.0).then(|| weighed / f64::from(counted))
}

fn measured<const N: usize>(lengths: [Length; N]) -> Option<[i64; N]> {
    let mut whole = [0; N];
    for (whole, length) in whole.iter_mut().zip(lengths) {
        *whole = Micrometres::from_length(length)?.get();
    }
    Some(whole)
}

fn whole(number: i64) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;
    use proptest::prelude::*;
    use uom::si::length::meter;
    use uom::si::mass::gram;

    fn inches(text: &str) -> Length {
        Length::read(&format!("{text} in")).unwrap()
    }

    #[test]
    fn a_row_counts_full_spacings() {
        assert_eq!(in_row(inches("96"), inches("6")), 16);
        assert_eq!(in_row(inches("95"), inches("6")), 15);
        assert_eq!(in_row(inches("5"), inches("6")), 0);
        assert_eq!(in_row(inches("96"), inches("0")), 0);
        assert_eq!(in_row(inches("96"), inches("-6")), 0);
        assert_eq!(in_row(inches("-96"), inches("6")), 0);
        assert_eq!(in_row(Length::new::<meter>(f64::NAN), inches("6")), 0);
    }

    #[test]
    fn a_grid_keeps_the_margin() {
        let bed = [inches("96"), inches("48")];
        assert_eq!(in_grid(bed, inches("4"), inches("6"), inches("8")), 90);
        assert_eq!(in_grid(bed, inches("24"), inches("6"), inches("8")), 9);
        assert_eq!(in_grid(bed, inches("25"), inches("6"), inches("8")), 0);
        assert_eq!(in_grid(bed, inches("4"), inches("0"), inches("8")), 0);
    }

    #[test]
    fn a_bed_measured_in_whole_centimetres_has_as_many() {
        let [length, width] = ["243.8 cm", "121.9 cm"].map(|text| Length::read(text).unwrap());
        let six = inches("6");
        assert_eq!(in_grid([length, width], inches("3"), six, six), 128);
    }

    #[test]
    fn seed_that_fails_is_bought_besides() {
        let share = |share| Share::new(share).unwrap();
        assert_eq!(to_obtain(90, Share::ALL, Share::ALL), 90);
        assert_eq!(to_obtain(90, share(0.9), Share::ALL), 100);
        assert_eq!(to_obtain(91, share(0.9), Share::ALL), 102);
        assert_eq!(to_obtain(90, share(0.75), share(0.8)), 150);
        assert_eq!(to_obtain(0, share(0.5), share(0.5)), 0);
        assert_eq!(to_obtain(u32::MAX, share(0.01), Share::ALL), u32::MAX);
        for none in [0.0, -0.1, 1.01, f64::NAN] {
            assert_eq!(Share::new(none), None);
        }
    }

    #[test]
    fn a_handful_weighed_gives_the_weight_of_the_lot() {
        let one = one_of(12, Mass::new::<gram>(66.0)).unwrap();
        assert!((weight(90, one).get::<gram>() - 495.0).abs() < 1e-9);
        assert_eq!(one_of(0, Mass::new::<gram>(66.0)), None);
        assert_eq!(one_of(12, Mass::new::<gram>(0.0)), None);
    }

    #[test]
    fn the_last_bulb_is_kept_whole() {
        let six = NonZeroU32::new(6).unwrap();
        assert_eq!(bulbs_to_keep(90, six), 15);
        assert_eq!(bulbs_to_keep(91, six), 16);
    }

    proptest! {
        #[test]
        fn closer_spacing_never_gives_fewer(
            side in 0.0..10.0_f64,
            other in 0.0..10.0_f64,
            spacing in 0.02..1.0_f64,
            more in 1.0..2.0_f64,
        ) {
            let metres = Length::new::<meter>;
            let bed = [metres(side), metres(other)];
            let near = metres(spacing);
            let far = metres(spacing * more);
            let margin = metres(0.1);
            prop_assert!(in_grid(bed, margin, near, near) >= in_grid(bed, margin, far, near));
            prop_assert!(in_row(metres(side), near) >= in_row(metres(side), far));
            prop_assert_eq!(
                in_grid(bed, margin, near, far),
                in_grid([metres(other), metres(side)], margin, far, near)
            );
        }

        #[test]
        fn what_is_bought_grows_enough(plants in 0..100_000_u32, up in 0.01..=1.0_f64) {
            let bought = to_obtain(plants, Share::new(up).unwrap(), Share::ALL);
            prop_assert!(f64::from(bought) * up >= f64::from(plants) - 1e-6);
            prop_assert!(f64::from(bought.saturating_sub(1)) * up < f64::from(plants) || plants == 0);
        }
    }
}
