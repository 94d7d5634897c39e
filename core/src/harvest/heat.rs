//! Heat a crop has had, in degree-days, by the four published ways of adding it up.
//!
//! A sum holds only with the formula it was fitted with (Oregon State University Integrated Plant
//! Protection Center, degree-day notes), so a sum and its formula travel together.
//!
//! Sources: average and clamped ("86/50") forms, common to extension services; maximum-only form
//! folded at the cap, K. B. Perry and T. C. Wehner, HortTechnology 6(1):27, 1996; single sine,
//! `DayWave` in `place`, with the three cut-offs as the University of California Statewide IPM Program defines
//! them.

use uom::si::{
    temperature_interval::{degree_fahrenheit as fahrenheit_step, kelvin as kelvin_step},
    thermodynamic_temperature::kelvin,
};

use crate::{
    order::between,
    place::DayWave,
    quantity::{Temperature, TemperatureInterval},
};

/// Heat summed over time. Never negative.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct DegreeDays {
    kelvin_days: f64,
}

impl DegreeDays {
    /// A whole day of this much heat; what is below nothing counts as nothing.
    pub fn of_one_day(heat: TemperatureInterval) -> Self {
        Self::from_kelvin_days(heat.get::<kelvin_step>())
    }

    /// A sum as American publications print it, in Fahrenheit degree-days.
    pub fn from_fahrenheit_days(days: f64) -> Self {
        Self::of_one_day(TemperatureInterval::new::<fahrenheit_step>(days))
    }

    fn from_kelvin_days(days: f64) -> Self {
        // Not a number, too, counts as nothing.
        Self { kelvin_days: if days > 0.0 { days } else { 0.0 } }
    }

    /// The sum in Celsius (or kelvin) degree-days.
    pub fn celsius_days(self) -> f64 {
        self.kelvin_days
    }

    /// The sum in Fahrenheit degree-days.
    pub fn fahrenheit_days(self) -> f64 {
        TemperatureInterval::new::<kelvin_step>(self.kelvin_days).get::<fahrenheit_step>()
    }
}

impl core::ops::Add for DegreeDays {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::from_kelvin_days(self.kelvin_days + other.kelvin_days)
    }
}

impl core::iter::Sum for DegreeDays {
    fn sum<I: Iterator<Item = Self>>(days: I) -> Self {
        days.fold(Self::default(), |sum, day| sum + day)
    }
}

/// The lowest and highest air temperature of a day, in either order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayAir {
    /// The day's minimum.
    pub low: Temperature,
    /// The day's maximum.
    pub high: Temperature,
}

/// Between which temperatures warmth makes a crop grow faster.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thresholds {
    /// Below this nothing moves.
    pub base: Temperature,
    /// Above this more warmth brings no more growth; what happens instead is the formula's business.
    pub cap: Option<Temperature>,
}

/// What warmth above the cap does, in the sine form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutOff {
    /// Growth stays at its fastest.
    Horizontal,
    /// Growth slows as fast as it rose.
    Intermediate,
    /// Growth stops while it is that hot.
    Vertical,
}

/// How a day's heat is reckoned from its lowest and highest temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Formula {
    /// Mean of both less the base; the cap is not used.
    Average,
    /// Both brought inside base and cap first: the "86/50" rule of maize growers.
    Clamped,
    /// The maximum alone, folded down above the cap: cucumbers.
    FoldedMaximum,
    /// The day as one sine wave.
    Sine(CutOff),
}

/// The heat of one day.
pub fn of_day(formula: Formula, thresholds: Thresholds, air: DayAir) -> DegreeDays {
    let base = thresholds.base.get::<kelvin>();
    let cap = thresholds.cap.map_or(f64::INFINITY, |cap| cap.get::<kelvin>().max(base));
    let (one, other) = (air.low.get::<kelvin>(), air.high.get::<kelvin>());
    let wave = DayWave { low: one.min(other), high: one.max(other) };
    DegreeDays::from_kelvin_days(match formula {
        Formula::Average => wave.mean() - base,
        Formula::Clamped => {
            (between(wave.low, base, cap) + between(wave.high, base, cap)) / 2.0 - base
        }
        Formula::FoldedMaximum => wave.high.min(2.0 * cap - wave.high) - base,
        Formula::Sine(cut_off) => {
            let above_cap = if cap.is_finite() { wave.heat_above(cap) } else { 0.0 };
            let heat = wave.heat_above(base);
            match cut_off {
                CutOff::Horizontal => heat - above_cap,
                CutOff::Intermediate => heat - 2.0 * above_cap,
                CutOff::Vertical if cap.is_finite() => {
                    heat - above_cap - (cap - base) * wave.share_above(cap)
                }
                CutOff::Vertical => heat,
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use proptest::prelude::*;
    use uom::si::thermodynamic_temperature::degree_celsius;

    use super::*;

    const ALL: [Formula; 6] = [
        Formula::Average,
        Formula::Clamped,
        Formula::FoldedMaximum,
        Formula::Sine(CutOff::Horizontal),
        Formula::Sine(CutOff::Intermediate),
        Formula::Sine(CutOff::Vertical),
    ];

    fn celsius(degrees: f64) -> Temperature {
        Temperature::new::<degree_celsius>(degrees)
    }

    fn between(base: f64, cap: f64) -> Thresholds {
        Thresholds { base: celsius(base), cap: Some(celsius(cap)) }
    }

    fn air(low: f64, high: f64) -> DayAir {
        DayAir { low: celsius(low), high: celsius(high) }
    }

    /// The same by adding up ten thousand moments of the day.
    fn by_moments(cut_off: CutOff, base: f64, cap: f64, low: f64, high: f64) -> f64 {
        const MOMENTS: u32 = 10_000;
        let (mean, half) = (f64::midpoint(low, high), (high - low) / 2.0);
        let rate = |t: f64| match cut_off {
            _ if t <= base => 0.0,
            _ if t <= cap => t - base,
            CutOff::Horizontal => cap - base,
            CutOff::Intermediate => 2.0 * cap - base - t,
            CutOff::Vertical => 0.0,
        };
        let turn = |moment: u32| (f64::from(moment) + 0.5) / f64::from(MOMENTS) * 2.0 * PI;
        let sum: f64 = (0..MOMENTS).map(|moment| rate(mean + half * turn(moment).sin())).sum();
        (sum / f64::from(MOMENTS)).max(0.0)
    }

    #[test]
    fn a_day_without_swing_is_read_alike_by_all_but_the_capped_ones() {
        for formula in ALL {
            let heat = of_day(formula, between(10.0, 30.0), air(20.0, 20.0));
            assert!((heat.celsius_days() - 10.0).abs() < 1e-9, "{formula:?}");
        }
    }

    #[test]
    fn low_and_high_may_come_in_either_order() {
        for formula in ALL {
            let limits = between(10.0, 30.0);
            assert_eq!(
                of_day(formula, limits, air(6.0, 33.0)),
                of_day(formula, limits, air(33.0, 6.0))
            );
        }
    }

    #[test]
    fn without_a_cap_heat_is_not_cut_off() {
        let limits = Thresholds { base: celsius(10.0), cap: None };
        for formula in ALL {
            let heat = of_day(formula, limits, air(30.0, 50.0)).celsius_days();
            let expected = if formula == Formula::FoldedMaximum { 40.0 } else { 30.0 };
            assert!((heat - expected).abs() < 1e-9, "{formula:?} gave {heat}");
        }
    }

    proptest! {
        #[test]
        fn the_sine_agrees_with_adding_up_the_moments_of_the_day(
            base in -5.0..20.0f64, span in 5.0..25.0f64, low in -20.0..35.0f64, swing in 0.1..25.0f64,
        ) {
            let (cap, high) = (base + span, low + swing);
            for cut_off in [CutOff::Horizontal, CutOff::Vertical] {
                let heat = of_day(Formula::Sine(cut_off), between(base, cap), air(low, high));
                let summed = by_moments(cut_off, base, cap, low, high);
                // A vertical cut-off jumps at the cap, so one moment more or less counts whole.
                let allowed = if cut_off == CutOff::Vertical { span / 2_000.0 } else { 1e-4 };
                prop_assert!((heat.celsius_days() - summed).abs() <= allowed, "{heat:?} {summed}");
            }
        }

        #[test]
        fn the_intermediate_cut_off_agrees_while_growth_stays_above_nothing(
            base in -5.0..20.0f64, span in 13.0..25.0f64, low in -20.0..20.0f64, swing in 0.1..25.0f64,
        ) {
            let (cap, high) = (base + span, low + swing);
            prop_assume!(high < cap + span);
            let heat = of_day(Formula::Sine(CutOff::Intermediate), between(base, cap), air(low, high));
            let summed = by_moments(CutOff::Intermediate, base, cap, low, high);
            prop_assert!((heat.celsius_days() - summed).abs() <= 1e-4);
        }

        #[test]
        fn no_formula_gives_less_than_nothing_or_more_than_the_hottest_moment(
            base in -5.0..20.0f64, span in 0.0..25.0f64, low in -40.0..50.0f64, high in -40.0..50.0f64,
        ) {
            for formula in ALL {
                let heat = of_day(formula, between(base, base + span), air(low, high)).celsius_days();
                prop_assert!(heat >= 0.0);
                prop_assert!(heat <= (low.max(high) - base).max(0.0) + 1e-9, "{formula:?} {heat}");
            }
        }

        #[test]
        fn a_warmer_day_never_has_less_heat_where_heat_is_not_held_against_it(
            low in -20.0..35.0f64, swing in 0.0..25.0f64, more in 0.0..10.0f64,
        ) {
            for formula in [Formula::Average, Formula::Clamped, Formula::Sine(CutOff::Horizontal)] {
                let limits = between(10.0, 30.0);
                let cool = of_day(formula, limits, air(low, low + swing));
                let warm = of_day(formula, limits, air(low + more, low + swing + more));
                prop_assert!(warm.celsius_days() >= cool.celsius_days() - 1e-9);
            }
        }
    }
}
