//! The binomial distribution, asked the way a sower asks it.

/// The fewest tries with which at least `wanted` succeed with at least chance `sure`, where each
/// try succeeds with chance `each`, all of them independent. `None` if more than `most` would be
/// needed.
///
/// The number of tries up to the k-th success has the negative binomial distribution (W. Feller,
/// *An Introduction to Probability Theory and Its Applications*, vol. 1, VI.8), whose terms are
/// summed here until they reach `sure`.
///
/// Where every seed comes up, as many seeds as plants; where none does, no number will do:
/// ```
/// use pegline_core::chance::binomial::tries_for;
/// assert_eq!(tries_for(12, 1.0, 0.9, 1000), Some(12));
/// assert_eq!(tries_for(12, 0.0, 0.9, 1000), None);
/// ```
pub fn tries_for(wanted: u32, each: f64, sure: f64, most: u32) -> Option<u32> {
    if wanted == 0 {
        return Some(0);
    }
    if each <= 0.0 {
        return None;
    }
    let each = each.min(1.0);
    let k = f64::from(wanted);
    // Logarithms, because 0.3 to the power of a thousand is no longer a double.
    let mut log_term = k * each.ln();
    let mut reached = 0.0;
    for tries in wanted..=most {
        reached += log_term.exp();
        // A chance of exactly `sure` must not be missed by the last bit of a sum.
        if reached >= sure - 1e-12 {
            return Some(tries);
        }
        let n = f64::from(tries);
        log_term += (1.0 - each).ln() + (n / (n - k + 1.0)).ln();
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn certain_seed_needs_no_spare() {
        assert_eq!(tries_for(12, 1.0, 0.9, 1000), Some(12));
    }

    #[test]
    fn dead_seed_never_does() {
        assert_eq!(tries_for(1, 0.0, 0.9, 1000), None);
        assert_eq!(tries_for(0, 0.0, 0.9, 1000), Some(0));
    }

    #[test]
    fn a_thousand_plants_of_poor_seed_still_have_an_answer() {
        let seeds = tries_for(1000, 0.1, 0.9, 100_000).unwrap();
        // Ten seeds a plant on average, and 1.28 standard deviations of the negative binomial.
        let expected = 10_000.0 + 1.2816 * (1000.0f64 * 0.9).sqrt() / 0.1;
        assert!((f64::from(seeds) - expected).abs() < 20.0, "{seeds}");
    }

    proptest! {
        #[test]
        fn more_plants_or_poorer_seed_never_need_less(
            wanted in 1u32..200, each in 0.05..0.99f64, poorer in 0.5..1.0f64,
        ) {
            let seeds = tries_for(wanted, each, 0.9, 1_000_000).unwrap();
            prop_assert!(tries_for(wanted + 1, each, 0.9, 1_000_000).unwrap() > seeds);
            prop_assert!(tries_for(wanted, each * poorer, 0.9, 1_000_000).unwrap() >= seeds);
        }

        #[test]
        fn one_try_less_is_not_sure_enough(wanted in 1u32..40, each in 0.2..0.98f64) {
            let seeds = tries_for(wanted, each, 0.9, 10_000).unwrap();
            // The other way round: fewer than `wanted` successes among one try less.
            let n = seeds - 1;
            let mut fewer = 0.0;
            let mut term = (1.0 - each).powi(n as i32);
            for k in 0..wanted.min(n + 1) {
                fewer += term;
                term *= f64::from(n - k) / f64::from(k + 1) * each / (1.0 - each);
            }
            prop_assert!(1.0 - fewer < 0.9 + 1e-9);
        }
    }
}
