//! The normal distribution.

/// Chance that a standard normal value lies below `z`, 0 to 1.
///
/// Φ(z) = ½ erfc(−z/√2): M. Abramowitz and I. A. Stegun, *Handbook of Mathematical Functions*,
/// 1964, 26.2.29; the error function is the `libm` library's.
///
/// One and a half standard deviations below the middle (tables of the normal distribution: 0.0668):
/// ```
/// use pegline_core::chance::normal::chance_below;
/// assert!((chance_below(-1.5) - 0.0668).abs() < 5e-5);
/// ```
pub fn chance_below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * core::f64::consts::FRAC_1_SQRT_2)
}

/// The value below which a standard normal value lies with the given chance.
///
/// Chances outside 0 to 1 are taken as 0 or 1; those two give ∓40, beyond which no chance is left
/// in double precision.
///
/// Nine in ten lie below 1.2816 (tables of the normal distribution):
/// ```
/// use pegline_core::chance::normal::value_at;
/// assert!((value_at(0.9) - 1.2816).abs() < 5e-5);
/// ```
pub fn value_at(chance: f64) -> f64 {
    let (mut low, mut high) = (-40.0, 40.0);
    // Halving 80 a hundred times is finer than a double can tell apart.
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if chance_below(middle) < chance {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_inverse_gives_back_what_went_in(z in -5.0..5.0f64) {
            prop_assert!((value_at(chance_below(z)) - z).abs() < 1e-9);
        }

        #[test]
        fn both_tails_are_alike(z in 0.0..8.0f64) {
            prop_assert!((chance_below(z) + chance_below(-z) - 1.0).abs() < 1e-15);
        }

        #[test]
        fn a_greater_value_has_the_greater_chance(a in -6.0..6.0f64, more in 0.001..2.0f64) {
            prop_assert!(chance_below(a) < chance_below(a + more));
        }
    }

    #[test]
    fn certain_and_impossible_stay_finite() {
        assert!(value_at(0.0) < -8.0 && value_at(0.0).is_finite());
        assert!(value_at(1.0) > 8.0 && value_at(1.0).is_finite());
    }
}
