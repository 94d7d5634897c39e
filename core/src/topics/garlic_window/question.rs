//! What is asked, and how it is read.

use crate::{
    bed::BedAsked,
    catalogue::{
        Crop,
        garlic::{Kind, garlic},
    },
    given::{Faults, Given, Readable, asked},
    place::{known_soil::ReadingAsked, site::SiteAsked, soil::Mulch},
    quantity::{Length, Unreadable, number::read_number},
};

asked! {
    /// When is garlic planted?
    pub struct Asked {
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
        /// The kind of garlic; hardneck if absent.
        kind: Given<Kind>,
        /// Where the soil's temperature counts; 4 in if absent.
        depth: Given<Length>,
        /// What lies on the soil.
        mulch: Given<Mulch>,
        /// Soil readings of the bed.
        readings: Vec<ReadingAsked>,
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked>,
        /// The space between cloves; the usual one if absent.
        spacing: Given<Length>,
        /// How many cloves weigh a kilogram; 110 if absent.
        cloves_per_kg: Given<ClovesPerKg>,
        /// Whether white rot was ever seen in this bed.
        white_rot: Given<bool>,
    }
}

/// How many cloves weigh a kilogram.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClovesPerKg(pub(super) f64);

impl Readable for ClovesPerKg {
    fn allowed() -> String {
        "how many cloves weigh a kilogram, from 20 to 500".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let cloves = read_number(text)?;
        if (20.0..=500.0).contains(&cloves) {
            return Ok(Self(cloves));
        }
        Err(Unreadable {
            allowed: Self::allowed(),
            why: "garlic is not so small or so large".to_owned(),
        })
    }
}

/// Cloves closer than 2 in or wider than 18 in are a slip of the pen.
pub(super) fn spacing(given: &Given<Length>, faults: &mut Faults) -> Option<Length> {
    let inches = Length::new::<uom::si::length::inch>;
    if given.is_given() {
        return given.within(
            inches(2.0),
            inches(18.0),
            "a spacing from 2 in to 18 in (5 cm to 46 cm)",
            faults,
        );
    }
    let usual = garlic().and_then(Crop::spacing).map(|spacing| spacing.usual);
    Some(usual.unwrap_or_else(|| inches(6.0)))
}
