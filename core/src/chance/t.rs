//! Student's t distribution, for few measurements whose scatter is only known from themselves.

/// Chance that a t value with `df` degrees of freedom lies below `t`, 0 to 1.
///
/// The closed form for whole degrees of freedom: M. Abramowitz and I. A. Stegun, *Handbook of
/// Mathematical Functions*, 1964, 26.7.3 and 26.7.4. Good to 1e-15, so that
/// a tail of less is told as none. No degree of freedom is taken as one.
pub fn chance_below(t: f64, df: u32) -> f64 {
    let df = df.max(1);
    let angle = (t / f64::from(df).sqrt()).atan();
    let (sin, cos) = angle.sin_cos();
    let odd = df % 2 == 1;
    // 1 + 2/3 cos² + (2·4)/(3·5) cos⁴ + … for odd degrees, 1 + 1/2 cos² + (1·3)/(2·4) cos⁴ + …
    // for even ones: each term is the one before times cos² (k − 1)/k.
    let mut term = if odd { cos } else { 1.0 };
    let mut sum = if df == 1 { 0.0 } else { term };
    let mut k = if odd { 3 } else { 2 };
    while k < df {
        term *= cos * cos * f64::from(k - 1) / f64::from(k);
        sum += term;
        k += 2;
    }
    let both_sides =
        if odd { core::f64::consts::FRAC_2_PI * (angle + sin * sum) } else { sin * sum };
    (0.5 + 0.5 * both_sides).clamp(0.0, 1.0)
}

/// The value below which a t value lies with the given chance; chances are taken within 1e-9 of 0 and 1.
///
/// With five degrees of freedom nineteen in twenty lie below 2.015 (tables of Student's t):
/// ```
/// use pegline_core::chance::t::value_at;
/// assert!((value_at(0.95, 5) - 2.015).abs() < 5e-4);
/// ```
pub fn value_at(chance: f64, df: u32) -> f64 {
    let chance = chance.clamp(1e-9, 1.0 - 1e-9);
    // With one degree of freedom, the widest, these hold all but 1e-10 on either side.
    let (mut low, mut high) = (-1e10, 1e10);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if chance_below(middle, df) < chance {
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
    use crate::chance::normal;
    use proptest::prelude::*;

    #[test]
    fn many_degrees_of_freedom_are_normal() {
        for z in [-3.0, -1.0, 0.0, 0.5, 2.0] {
            let far = (chance_below(z, 100_000) - normal::chance_below(z)).abs();
            assert!(far < 1e-5, "{z} {far}");
        }
    }

    #[test]
    fn one_degree_of_freedom_is_cauchy() {
        for t in [-5.0, -1.0, 0.0, 0.3, 12.706] {
            let cauchy = 0.5 + f64::atan(t) / core::f64::consts::PI;
            assert!((chance_below(t, 1) - cauchy).abs() < 1e-12);
        }
    }

    proptest! {
        #[test]
        fn the_inverse_gives_back_what_went_in(chance in 0.001..0.999f64, df in 1..60u32) {
            prop_assert!((chance_below(value_at(chance, df), df) - chance).abs() < 1e-9);
        }

        #[test]
        fn a_greater_value_has_the_greater_chance(a in -5.0..4.0f64, more in 0.001..2.0f64, df in 1..30u32) {
            prop_assert!(chance_below(a, df) < chance_below(a + more, df));
        }

        #[test]
        fn both_tails_are_alike(t in 0.0..50.0f64, df in 1..60u32) {
            prop_assert!((chance_below(t, df) + chance_below(-t, df) - 1.0).abs() < 1e-12);
        }
    }
}
