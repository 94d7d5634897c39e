//! Lengths as whole micrometres, so that a layout's distances are exact.

use super::Length;
use std::ops::{Add, Mul, Neg, Sub};
use uom::si::length::{meter, micrometer};

/// A length as a whole number of micrometres; an inch is exactly 25 400 of them.
///
/// Sums and products stop at the ends of the range (nine million kilometres) rather than wrap.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Micrometres(i64);

impl Micrometres {
    /// No length.
    pub const ZERO: Self = Self(0);

    /// The nearest whole micrometre; nothing when not finite or beyond 10 km either way.
    ///
    /// An inch is 25.4 mm exactly (NIST Special Publication 811, Appendix B):
    /// ```
    /// use pegline_core::quantity::{Length, Micrometres, unit::length::inch};
    /// let foot = Micrometres::from_length(Length::new::<inch>(12.0));
    /// assert_eq!(foot.map(Micrometres::get), Some(304_800));
    /// ```
    #[must_use]
    pub fn from_length(length: Length) -> Option<Self> {
        const FARTHEST: f64 = 1e10;
        let micrometres = length.get::<micrometer>().round();
        (-FARTHEST..=FARTHEST).contains(&micrometres).then_some(Self(micrometres as i64))
    }

    /// So many inches, of exactly 25.4 mm (NIST SP 811, B.8).
    #[must_use]
    pub const fn from_inches(inches: i64) -> Self {
        Self(inches.saturating_mul(25_400))
    }

    /// So many micrometres.
    #[must_use]
    pub const fn new(micrometres: i64) -> Self {
        Self(micrometres)
    }

    /// The whole number of micrometres.
    #[must_use]
    pub const fn get(self) -> i64 {
        self.0
    }

    /// As a typed length.
    #[must_use]
    pub fn to_length(self) -> Length {
        Length::new::<meter>(self.metres())
    }

    /// In metres, for output: the float nearest to the exact decimal value.
    #[must_use]
    pub fn metres(self) -> f64 {
        self.0 as f64 / 1e6
    }
}

impl From<Micrometres> for i64 {
    fn from(length: Micrometres) -> Self {
        length.0
    }
}

impl Add for Micrometres {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Micrometres {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Micrometres {
    type Output = Self;

    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Mul<i64> for Micrometres {
    type Output = Self;

    fn mul(self, factor: i64) -> Self {
        Self(self.0.saturating_mul(factor))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    fn read(text: &str) -> Option<Micrometres> {
        Micrometres::from_length(Length::read(text).unwrap())
    }

    #[test]
    fn inches_feet_and_centimetres_are_whole() {
        assert_eq!(read("18 in"), Some(Micrometres::from_inches(18)));
        assert_eq!(read("8 ft"), Some(Micrometres::from_inches(96)));
        assert_eq!(read("1/4 in"), Some(Micrometres::new(6_350)));
        assert_eq!(read("23 cm"), Some(Micrometres::new(230_000)));
        assert_eq!(read("-1 mm"), Some(Micrometres::new(-1_000)));
    }

    #[test]
    fn every_inch_up_to_a_hundred_feet_is_exact() {
        for inches in 0..=1200 {
            assert_eq!(read(&format!("{inches} in")), Some(Micrometres::from_inches(inches)));
        }
    }

    #[test]
    fn beyond_ten_kilometres_or_not_finite_is_nothing() {
        assert_eq!(read("10 km"), Some(Micrometres::new(10_000_000_000)));
        assert_eq!(read("10.001 km"), None);
        assert_eq!(read("-10.001 km"), None);
        assert_eq!(Micrometres::from_length(Length::new::<meter>(f64::NAN)), None);
        assert_eq!(Micrometres::from_length(Length::new::<meter>(f64::INFINITY)), None);
    }

    #[test]
    fn metres_print_as_the_decimal_value() {
        assert_eq!(Micrometres::from_inches(18).metres().to_string(), "0.4572");
        assert_eq!(Micrometres::from_inches(96).metres().to_string(), "2.4384");
    }

    #[test]
    fn sums_stop_at_the_ends() {
        let largest = Micrometres::new(i64::MAX);
        assert_eq!(largest + largest, largest);
        assert_eq!((-largest - largest).get(), i64::MIN);
        assert_eq!(largest * 2, largest);
        assert_eq!(
            Micrometres::from_inches(2) * 3 - Micrometres::from_inches(1),
            Micrometres::from_inches(5)
        );
    }
}
