//! What can be measured at the bed.

use crate::{
    given::{Readable, words},
    quantity::{Length, Unreadable, number::read_number},
};

words! {
    /// What can be measured.
    pub enum Measure {
        /// From end to end.
        Length = "length",
        /// Across, at the widest.
        Width = "width",
        /// From the soil up.
        Height = "height",
        /// Share that is in its ripe colour.
        Colour = "colour",
        /// Share of the tops that have fallen over.
        TopsDown = "tops_down",
        /// Leaves that are still green.
        GreenLeaves = "green_leaves",
        /// Soluble solids of the juice, percent.
        Brix = "brix",
    }
}

/// A share or a content in percent, 0 to 100.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Percent(f64);

impl Percent {
    /// The number of percent; `None` outside 0 to 100.
    pub fn new(number: f64) -> Option<Self> {
        (0.0..=100.0).contains(&number).then_some(Self(number))
    }

    /// The number of percent.
    pub fn number(self) -> f64 {
        self.0
    }
}

/// `60 %`, `60`, or as a share of the whole, `0.6`; what is at most 1 without a sign is a share.
impl Readable for Percent {
    fn allowed() -> String {
        "a share such as 60 % or 0.6".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let (number, signed) = match text.strip_suffix('%') {
            Some(number) => (number.trim(), true),
            None => (text, false),
        };
        let number = read_number(number)?;
        let percent =
            if !signed && (0.0..=1.0).contains(&number) { number * 100.0 } else { number };
        Self::new(percent).ok_or_else(|| Unreadable {
            allowed: Self::allowed(),
            why: "that is outside the whole".to_owned(),
        })
    }
}

/// One value measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measured {
    /// A length, width or height.
    Length(Length),
    /// A share or a content.
    Percent(Percent),
    /// How many.
    Count(u32),
}

/// All that was measured on one fruit, head, root or plant.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measures {
    /// From end to end.
    pub length: Option<Length>,
    /// Across, at the widest.
    pub width: Option<Length>,
    /// From the soil up.
    pub height: Option<Length>,
    /// Share that is in its ripe colour.
    pub colour: Option<Percent>,
    /// Share of the tops that have fallen over.
    pub tops_down: Option<Percent>,
    /// Leaves that are still green.
    pub green_leaves: Option<u32>,
    /// Soluble solids of the juice.
    pub brix: Option<Percent>,
}

impl Measures {
    /// The value of one measure, if it was taken.
    pub fn get(&self, measure: Measure) -> Option<Measured> {
        match measure {
            Measure::Length => self.length.map(Measured::Length),
            Measure::Width => self.width.map(Measured::Length),
            Measure::Height => self.height.map(Measured::Length),
            Measure::Colour => self.colour.map(Measured::Percent),
            Measure::TopsDown => self.tops_down.map(Measured::Percent),
            Measure::GreenLeaves => self.green_leaves.map(Measured::Count),
            Measure::Brix => self.brix.map(Measured::Percent),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_percentage_may_be_written_as_a_share() {
        for (text, percent) in
            [("60 %", 60.0), ("60", 60.0), ("0.6", 60.0), ("1", 100.0), ("1 %", 1.0), ("0", 0.0)]
        {
            assert_eq!(Percent::read(text).map(Percent::number).ok(), Some(percent), "{text}");
        }
        for text in ["101", "-1", "half %x", "", "NaN"] {
            assert!(Percent::read(text).is_err(), "{text}");
        }
    }
}
