//! The night's low from an evening's reading, by what earlier evenings led to.
//!
//! R. L. Snyder and J. P. de Melo-Abreu, *Frost Protection: Fundamentals, Practice, and Economics*,
//! FAO Environment and Natural Resources Series 10, vol. 1, 2005, ch. 5: two simple regressions one
//! after the other, the low on the air two hours after sunset, then what is left on the dew point
//! (not one regression on both). It holds for radiation nights only, and for the spot and the
//! thermometer it was fitted with.

use super::expected::Expected;
use crate::{
    place::air::{celsius, of_celsius},
    quantity::{Temperature, TemperatureInterval},
};
use uom::si::temperature_interval::degree_celsius as kelvin;

/// An evening and the low it led to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evening {
    /// The air two hours after sunset.
    pub air: Temperature,
    /// The dew point then.
    pub dew_point: Option<Temperature>,
    /// The night's low at the same spot.
    pub low: Temperature,
}

/// The fewest evenings to fit: the source's ten.
pub const FEWEST: usize = 10;

/// What earlier evenings teach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EveningRule {
    on_air: Line,
    /// What is left after the air, on the dew point.
    on_dew_point: Option<Line>,
}

impl EveningRule {
    /// Fitted to evenings; `None` with fewer than [`FEWEST`], or where all were alike.
    ///
    /// The dew point counts only where every evening has one.
    pub fn fit(evenings: &[Evening]) -> Option<Self> {
        if evenings.len() < FEWEST {
            return None;
        }
        let air: Vec<f64> = evenings.iter().map(|evening| celsius(evening.air)).collect();
        let lows: Vec<f64> = evenings.iter().map(|evening| celsius(evening.low)).collect();
        let on_air = Line::through(&air, &lows)?;
        let left: Vec<f64> =
            air.iter().zip(&lows).map(|(air, low)| low - on_air.at(*air)).collect();
        let dew_points: Option<Vec<f64>> =
            evenings.iter().map(|evening| evening.dew_point.map(celsius)).collect();
        let on_dew_point = dew_points.and_then(|dew_points| Line::through(&dew_points, &left));
        Some(Self { on_air, on_dew_point })
    }

    /// Whether the dew point counts in it.
    pub fn wants_dew_point(&self) -> bool {
        self.on_dew_point.is_some()
    }

    /// The low to be expected after this evening, by the air and, where both the rule and the evening
    /// have it, the dew point.
    ///
    /// The error is that of one more value beside the line: s·√(1 + 1/n + (T0 − mean)²/Sxx), with one
    /// degree of freedom less where the dew point counts.
    pub fn low_after(&self, air: Temperature, dew_point: Option<Temperature>) -> Expected {
        let air_c = celsius(air);
        let (low_c, scatter, used) = match (self.on_dew_point, dew_point) {
            (Some(line), Some(dew_point)) => {
                (self.on_air.at(air_c) + line.at(celsius(dew_point)), line.scatter(3), 3)
            }
            _ => (self.on_air.at(air_c), self.on_air.scatter(2), 2),
        };
        let n = self.on_air.count;
        let far = (air_c - self.on_air.mean_x).powi(2) / self.on_air.sxx;
        Expected {
            low: of_celsius(low_c),
            sd: TemperatureInterval::new::<kelvin>(scatter * (1.0 + 1.0 / n + far).sqrt()),
            df: Some((n as u32).saturating_sub(used).max(1)),
        }
    }
}

/// A straight line by least squares.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Line {
    slope: f64,
    at_zero: f64,
    mean_x: f64,
    sxx: f64,
    /// Sum of the squares of what is left.
    left: f64,
    count: f64,
}

impl Line {
    /// `None` where all x are the same.
    fn through(x: &[f64], y: &[f64]) -> Option<Self> {
        let count = x.len() as f64;
        let mean = |values: &[f64]| values.iter().sum::<f64>() / count;
        let (mean_x, mean_y) = (mean(x), mean(y));
        let sxx: f64 = x.iter().map(|x| (x - mean_x).powi(2)).sum();
        let sxy: f64 = x.iter().zip(y).map(|(x, y)| (x - mean_x) * (y - mean_y)).sum();
        // A hundredth of a degree is finer than any thermometer that is read by eye.
        if sxx < 1e-4 {
            return None;
        }
        let slope = sxy / sxx;
        let at_zero = mean_y - slope * mean_x;
        let left = x.iter().zip(y).map(|(x, y)| (y - at_zero - slope * x).powi(2)).sum();
        Some(Self { slope, at_zero, mean_x, sxx, left, count })
    }

    fn at(&self, x: f64) -> f64 {
        self.at_zero + self.slope * x
    }

    /// Standard deviation of what is left, `used` coefficients having been fitted.
    fn scatter(&self, used: u32) -> f64 {
        (self.left / (self.count - f64::from(used)).max(1.0)).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn evenings(count: usize) -> Vec<Evening> {
        let evening = |i: usize| Evening {
            air: of_celsius(i as f64 % 7.0),
            dew_point: Some(of_celsius(i as f64 % 5.0 - 4.0)),
            low: of_celsius(i as f64 % 3.0 - 5.0),
        };
        (0..count).map(evening).collect()
    }

    #[test]
    fn nine_evenings_are_too_few() {
        assert!(EveningRule::fit(&evenings(9)).is_none());
        assert!(EveningRule::fit(&evenings(10)).is_some());
    }

    #[test]
    fn evenings_all_alike_teach_nothing() {
        let alike = vec![evenings(1)[0]; 12];
        assert_eq!(EveningRule::fit(&alike), None);
    }

    #[test]
    fn one_evening_without_dew_point_leaves_the_air_alone() {
        let mut some = evenings(12);
        some[3].dew_point = None;
        assert!(!EveningRule::fit(&some).unwrap().wants_dew_point());
    }

    proptest! {
        #[test]
        fn lows_on_a_line_are_found_again(slope in 0.2..1.2f64, at_zero in -8.0..0.0f64, air_c in -2.0..12.0f64) {
            let on_line = |i: u32| Evening {
                air: of_celsius(f64::from(i)),
                dew_point: None,
                low: of_celsius(at_zero + slope * f64::from(i)),
            };
            let rule = EveningRule::fit(&(0..12).map(on_line).collect::<Vec<_>>()).unwrap();
            let low = rule.low_after(of_celsius(air_c), None).low;
            prop_assert!((celsius(low) - at_zero - slope * air_c).abs() < 1e-9);
        }

        #[test]
        fn farther_from_the_evenings_seen_it_is_less_sure(air_c in 0.0..6.0f64, more in 0.1..20.0f64) {
            let rule = EveningRule::fit(&evenings(20)).unwrap();
            let near = rule.low_after(of_celsius(air_c.max(3.0)), None);
            let far = rule.low_after(of_celsius(air_c.max(3.0) + more), None);
            prop_assert!(near.sd < far.sd);
        }
    }
}
