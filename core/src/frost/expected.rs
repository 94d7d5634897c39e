//! A temperature that is expected, and how far it may turn out from that.

use uom::si::temperature_interval::degree_celsius as kelvin;

use crate::{
    chance::{normal, t},
    place::air::{celsius, of_celsius},
    quantity::{Temperature, TemperatureInterval},
};

/// A low that is expected.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// The likely low.
    pub low: Temperature,
    /// Standard deviation of its error; with few degrees of freedom, the scale of its t distribution.
    pub sd: TemperatureInterval,
    /// Degrees of freedom of its t distribution; `None` where the error is taken as normal.
    pub df: Option<u32>,
}

impl Expected {
    /// Chance that the low comes below this temperature, 0 to 1.
    pub fn chance_below(&self, temperature: Temperature) -> f64 {
        let far = celsius(temperature) - celsius(self.low);
        let sds = far / self.sd.get::<kelvin>().max(LEAST_SD);
        self.df.map_or_else(|| normal::chance_below(sds), |df| t::chance_below(sds, df))
    }

    /// The lows between which it lies with this chance, 0 to 1, the same on both sides.
    pub fn range(&self, chance: f64) -> (Temperature, Temperature) {
        let upper = 0.5 + 0.5 * chance;
        let sds = self.df.map_or_else(|| normal::value_at(upper), |df| t::value_at(upper, df));
        let half_c = sds * self.sd.get::<kelvin>();
        let low_c = celsius(self.low);
        (of_celsius(low_c - half_c), of_celsius(low_c + half_c))
    }

    /// The same moved by a difference that is itself only known within its standard deviation.
    #[must_use]
    pub fn moved(&self, by: TemperatureInterval, sd: TemperatureInterval) -> Self {
        let hypot = self.sd.get::<kelvin>().hypot(sd.get::<kelvin>());
        Self {
            low: of_celsius(celsius(self.low) + by.get::<kelvin>()),
            sd: TemperatureInterval::new::<kelvin>(hypot),
            df: self.df,
        }
    }
}

/// By how much one temperature lies above another.
pub(crate) fn above(one: Temperature, other: Temperature) -> TemperatureInterval {
    TemperatureInterval::new::<kelvin>(celsius(one) - celsius(other))
}

/// So that a certain low can be asked for its chances too, °C.
const LEAST_SD: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn expected(low_c: f64, sd_c: f64, df: Option<u32>) -> Expected {
        Expected { low: of_celsius(low_c), sd: TemperatureInterval::new::<kelvin>(sd_c), df }
    }

    proptest! {
        #[test]
        fn chances_lie_between_none_and_certain_and_fall_with_the_threshold(
            low_c in -20.0..20.0f64, sd_c in 0.0..6.0f64, few: bool, at_c in -30.0..30.0f64, less in 0.0..10.0f64,
        ) {
            let low = expected(low_c, sd_c, few.then_some(3));
            let (higher, lower) = (low.chance_below(of_celsius(at_c)), low.chance_below(of_celsius(at_c - less)));
            prop_assert!((0.0..=1.0).contains(&higher) && (0.0..=1.0).contains(&lower));
            prop_assert!(lower <= higher);
        }

        #[test]
        fn the_range_holds_its_chance(low_c in -20.0..20.0f64, sd_c in 0.1..6.0f64, few: bool, chance in 0.1..0.95f64) {
            let low = expected(low_c, sd_c, few.then_some(5));
            let (from, to) = low.range(chance);
            prop_assert!((low.chance_below(to) - low.chance_below(from) - chance).abs() < 1e-6);
        }
    }

    #[test]
    fn a_certain_low_has_certain_chances() {
        let certain = expected(1.0, 0.0, None);
        assert_eq!(certain.chance_below(of_celsius(0.0)), 0.0);
        assert_eq!(certain.chance_below(of_celsius(2.0)), 1.0);
    }
}
