//! How the air cools through a night: when it passes a temperature, and for how long it stays below.
//!
//! R. L. Snyder and J. P. de Melo-Abreu, FAO Environment and Natural Resources Series 10, vol. 1,
//! 2005, ch. 5: T(h) = T2 + B·√(h − 2), h hours after sunset, for radiation nights.

use uom::si::time::hour;

use crate::{
    order::between,
    place::air::{celsius, of_celsius},
    quantity::{Temperature, Time},
};

/// From here on the square root holds, hours after sunset.
const BEGINS_H: f64 = 2.0;

/// A night's cooling, from two hours after sunset to sunrise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    from_c: f64,
    to_c: f64,
    night_h: f64,
}

impl Course {
    /// From the air two hours after sunset, the low at sunrise, and the night's length; `None` where
    /// the night is shorter than three hours or does not cool.
    pub fn new(two_hours_after_sunset: Temperature, low: Temperature, night: Time) -> Option<Self> {
        let course = Self {
            from_c: celsius(two_hours_after_sunset),
            to_c: celsius(low),
            night_h: night.get::<hour>(),
        };
        (course.night_h >= BEGINS_H + 1.0 && course.to_c < course.from_c).then_some(course)
    }

    /// The air that long after sunset, two hours to the night's end.
    pub fn at(&self, after_sunset: Time) -> Temperature {
        let h = between(after_sunset.get::<hour>(), BEGINS_H, self.night_h);
        of_celsius(self.from_c + self.fall_c() * (h - BEGINS_H).sqrt())
    }

    /// How long after sunset it falls to this temperature; `None` where it never does.
    pub fn reaches(&self, temperature: Temperature) -> Option<Time> {
        let below_c = celsius(temperature) - self.from_c;
        let h =
            if below_c >= 0.0 { BEGINS_H } else { BEGINS_H + (below_c / self.fall_c()).powi(2) };
        (h <= self.night_h + 1e-9).then(|| Time::new::<hour>(h))
    }

    /// How long it is at or below this temperature before sunrise; nothing where it never is.
    pub fn below(&self, temperature: Temperature) -> Time {
        let whole = Time::new::<hour>(self.night_h);
        self.reaches(temperature).map_or(Time::new::<hour>(0.0), |since| whole - since)
    }

    /// Degrees for each square root of an hour; negative.
    fn fall_c(&self) -> f64 {
        (self.to_c - self.from_c) / (self.night_h - BEGINS_H).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn hours(h: f64) -> Time {
        Time::new::<hour>(h)
    }

    #[test]
    fn a_night_that_warms_has_no_such_course() {
        assert_eq!(Course::new(of_celsius(2.0), of_celsius(3.0), hours(14.0)), None);
        assert_eq!(Course::new(of_celsius(2.0), of_celsius(-3.0), hours(2.5)), None);
    }

    proptest! {
        #[test]
        fn it_only_falls_and_ends_at_the_low(from_c in 0.0..12.0f64, fall_c in 0.5..15.0f64, night_h in 4.0..18.0f64) {
            let low = of_celsius(from_c - fall_c);
            let course = Course::new(of_celsius(from_c), low, hours(night_h)).unwrap();
            let mut before = course.at(hours(2.0));
            for step in 1..=20 {
                let now = course.at(hours(2.0 + (night_h - 2.0) * f64::from(step) / 20.0));
                prop_assert!(now < before);
                before = now;
            }
            prop_assert!((celsius(before) - celsius(low)).abs() < 1e-9);
            // A colder mark is met later and kept for less long.
            let warm = course.below(of_celsius(from_c - 0.3 * fall_c));
            let cold = course.below(of_celsius(from_c - 0.8 * fall_c));
            prop_assert!(cold < warm);
            prop_assert_eq!(course.reaches(of_celsius(from_c - fall_c - 0.1)), None);
        }
    }
}
