//! What a measured size, share or number says about the stage.
//!
//! Between the steps that are published a value allows either neighbour. Sizes depend on the variety, so
//! most are weak signs.

use uom::si::length::{centimeter, inch};

use super::{
    measures::{Measure, Measured},
    stage::{Reading, Stage, Weight},
};
use crate::{quantity::Length, source::Source};

/// A measure, and which of its values mean what.
pub struct Size {
    pub(crate) what: Measure,
    pub(crate) of: &'static str,
    pub(crate) unit: Unit,
    pub(crate) falling: bool,
    pub(crate) below: f64,
    pub(crate) prime: [f64; 2],
    pub(crate) over: Option<f64>,
    pub(crate) old: Option<f64>,
    pub(crate) weight: Weight,
    pub(crate) by: &'static [Source],
}

/// The unit its steps are told in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unit {
    Inch,
    Centimetre,
    Percent,
    Count,
}

impl Size {
    /// What is measured.
    pub fn what(&self) -> Measure {
        self.what
    }

    /// On what: "fruit", "shoulder".
    pub fn of(&self) -> &'static str {
        self.of
    }

    /// What it rests on.
    pub fn sources(&self) -> &'static [Source] {
        self.by
    }

    /// The values that mean prime, from the least to the most, where they are lengths.
    pub fn prime_lengths(&self) -> Option<[Length; 2]> {
        let [from, to] = self.prime;
        Some([self.length(from)?, self.length(to)?])
    }

    /// The values that mean prime, from the least to the most, where they are no lengths.
    pub(crate) fn prime_numbers(&self) -> Option<[f64; 2]> {
        let [from, to] = self.prime;
        self.length(from).is_none().then_some([from.min(to), from.max(to)])
    }

    fn length(&self, step: f64) -> Option<Length> {
        match self.unit {
            Unit::Inch => Some(Length::new::<inch>(step)),
            Unit::Centimetre => Some(Length::new::<centimeter>(step)),
            Unit::Percent | Unit::Count => None,
        }
    }

    /// What a measured value says; `None` if it is of another kind.
    pub fn read(&self, measured: Measured) -> Option<Reading> {
        // A tape at the bed tells no micrometre, so a value that falls on a step is on its good side.
        let (value, slack) = match (self.unit, measured) {
            (Unit::Inch, Measured::Length(length)) => (length.get::<inch>(), 4e-5),
            (Unit::Centimetre, Measured::Length(length)) => (length.get::<centimeter>(), 1e-4),
            (Unit::Percent, Measured::Percent(percent)) => (percent.number(), 1e-9),
            (Unit::Count, Measured::Count(count)) => (f64::from(count), 1e-9),
            _ => return None,
        };
        let turn = if self.falling { -1.0 } else { 1.0 };
        let older_than = |step: f64| value * turn >= step * turn - slack;
        let beyond = |step: f64| value * turn > step * turn + slack;
        let [from, to] = self.prime;
        let (from, likely, to) = if !older_than(self.below) {
            (Stage::NotYet, Stage::NotYet, Stage::NotYet)
        } else if !older_than(from) {
            let nearer = if older_than(f64::midpoint(self.below, from)) {
                Stage::Prime
            } else {
                Stage::NotYet
            };
            (Stage::NotYet, nearer, Stage::Prime)
        } else if !beyond(to) {
            (Stage::Prime, Stage::Prime, Stage::Prime)
        } else if self.old.is_some_and(older_than) {
            (Stage::Going, Stage::Past, Stage::Past)
        } else if self.over.is_some_and(older_than) {
            let latest = if self.old.is_some() { Stage::Going } else { Stage::Past };
            (Stage::Going, Stage::Going, latest)
        } else {
            (Stage::Prime, Stage::Prime, Stage::Going)
        };
        Some(Reading { from, likely, to, weight: self.weight })
    }
}

#[cfg(test)]
mod tests {
    use super::super::cues::{sheet_named, sheets};
    use super::super::measures::Percent;
    use super::*;

    fn sizes_of(sheet: &str) -> &'static [Size] {
        sheet_named(sheet).unwrap().sizes()
    }

    #[test]
    fn between_two_steps_either_neighbour_is_possible() {
        let across = &sizes_of("turnip")[0];
        let read =
            |inches: f64| across.read(Measured::Length(Length::new::<inch>(inches))).unwrap();
        assert_eq!(read(1.0).to, Stage::NotYet);
        assert_eq!((read(1.6).from, read(1.6).to), (Stage::NotYet, Stage::Prime));
        assert_eq!((read(1.75).from, read(3.0).to), (Stage::Prime, Stage::Prime));
        assert_eq!(read(3.1).from, Stage::Going);
        assert!(across.read(Measured::Count(2)).is_none());
    }

    #[test]
    fn fewer_green_leaves_are_older() {
        let leaves = &sizes_of("garlic")[0];
        use Stage::{Going, NotYet, Past, Prime};
        let read = |count: u32| leaves.read(Measured::Count(count)).unwrap().likely;
        let stages: Vec<_> = [8, 7, 6, 5, 4, 3, 2].map(read).into();
        assert_eq!(stages, [NotYet, NotYet, Prime, Prime, Going, Going, Past]);
    }

    proptest::proptest! {
        #[test]
        fn a_larger_one_is_never_read_younger(which in 0..1000_usize, one in 0..60_u32, more in 0..40_u32) {
            let sizes: Vec<&Size> = sheets().iter().flat_map(super::super::cues::Sheet::sizes).collect();
            let size = sizes[which % sizes.len()];
            let measured = |value: u32| match size.unit {
                Unit::Inch => Measured::Length(Length::new::<inch>(f64::from(value) / 4.0)),
                Unit::Centimetre => Measured::Length(Length::new::<centimeter>(f64::from(value))),
                Unit::Percent => Measured::Percent(Percent::new(f64::from(value)).unwrap()),
                Unit::Count => Measured::Count(value),
            };
            let (small, large) = (size.read(measured(one)).unwrap(), size.read(measured(one + more)).unwrap());
            let (young, old) = if size.falling { (large, small) } else { (small, large) };
            proptest::prop_assert!(young.from <= old.from && young.likely <= old.likely && young.to <= old.to);
        }
    }
}
