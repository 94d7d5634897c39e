//! What the classes mean in figures. The figures stand in `core/data/classes.toml`.

use uom::si::length::inch;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use super::family::{FamilyRow, Tray};
use super::words::{Family, Habit, Hardening, Hardiness, Height, Spread};
use crate::quantity::{Length, Temperature};
use crate::source::Source;

include!(concat!(env!("OUT_DIR"), "/classes.rs"));

impl Habit {
    /// How far from the bed's side its nearest plant stands on a drip bed, 3 to 6 in. Without drip
    /// it is half the spacing. Common practice, and the gardener's to change.
    pub fn edge_margin(self) -> Length {
        inches(edge_in(self))
    }
}

impl Height {
    /// From this height, and up to the other; the tallest class has no upper bound. Common practice.
    pub fn bounds(self) -> (Length, Option<Length>) {
        let (from, to) = height_in(self);
        (inches(from), to.map(inches))
    }
}

impl Spread {
    /// From this spread, and up to the other; the widest class has no upper bound. Common practice.
    pub fn bounds(self) -> (Length, Option<Length>) {
        let (from, to) = spread_in(self);
        (inches(from), to.map(inches))
    }
}

impl Hardiness {
    /// Cover when the leaves may come down to this. Leaf temperature, not the forecast's air.
    pub fn cover_below(self) -> Temperature {
        fahrenheit(hardiness_row(self).0)
    }

    /// Serious loss, for a crop of the class with no killing temperature of its own.
    pub fn serious_loss(self) -> Temperature {
        fahrenheit(hardiness_row(self).1)
    }

    /// What the class's figures rest on.
    pub const fn sources(self) -> &'static [Source] {
        hardiness_row(self).2
    }
}

impl Hardening {
    /// Lowest air for a plant that is not used to outdoors yet, as published: 40 to 65 F.
    pub fn lowest_air(self) -> Temperature {
        fahrenheit(hardening_row(self).0)
    }

    /// What the class's figure rests on.
    pub const fn sources(self) -> &'static [Source] {
        hardening_row(self).1
    }
}

pub(super) fn family_figures(family: Family) -> FamilyRow {
    family_row(family)
}

pub(super) fn inches(inches: u8) -> Length {
    Length::new::<inch>(f64::from(inches))
}

pub(super) fn fahrenheit(degrees: impl Into<f64>) -> Temperature {
    Temperature::new::<degree_fahrenheit>(degrees.into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hardier_class_is_covered_later() {
        let classes = [
            Hardiness::Chilling,
            Hardiness::Tender,
            Hardiness::HalfHardy,
            Hardiness::Hardy,
            Hardiness::VeryHardy,
        ];
        assert!(classes.is_sorted());
        assert!(classes.windows(2).all(|pair| pair[1].cover_below() < pair[0].cover_below()));
        assert!(classes.iter().all(|class| class.serious_loss() < class.cover_below()));
    }

    #[test]
    fn the_number_in_a_tender_class_is_its_lowest_air() {
        for (class, f) in
            [(Hardening::Tender50, 50), (Hardening::Tender60, 60), (Hardening::Tender65, 65)]
        {
            assert_eq!(class.lowest_air(), fahrenheit(f));
        }
    }

    #[test]
    fn height_classes_meet_without_a_gap() {
        let classes = [Height::Low, Height::Medium, Height::Tall, Height::VeryTall];
        for pair in classes.windows(2) {
            assert_eq!(pair[0].bounds().1, Some(pair[1].bounds().0));
        }
        assert_eq!(Height::VeryTall.bounds().1, None);
    }
}
