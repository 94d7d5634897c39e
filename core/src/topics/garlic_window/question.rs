//! What is asked, and how it is read.

use chrono::NaiveDate;

use crate::{
    asking::Asking,
    bed::{BedAsked, Meant},
    catalogue::{
        Crop,
        garlic::{Kind, garlic},
    },
    given::{Control, Faults, Given, Readable, asked},
    place::{
        known_soil::{BedSoil, ReadingAsked, depth},
        readings::Reading,
        site::{Site, SiteAsked},
        soil::{Mulch, Texture},
    },
    quantity::{Length, Unreadable, number::read_number},
};

asked! {
    /// When is garlic planted?
    pub struct Asked {
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// The kind of garlic; hardneck if absent.
        kind: Given<Kind> = "Kind",
        /// Where the soil's temperature counts; 4 in if absent.
        depth: Given<Length> = "How deep",
        /// What lies on the soil.
        mulch: Given<Mulch> = "What lies on it",
        /// Soil readings of the bed.
        readings: Vec<ReadingAsked>,
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked> = "Bed",
        /// The space between cloves; the usual one if absent.
        spacing: Given<Length> = "Space between",
        /// How many cloves weigh a kilogram; 110 if absent.
        cloves_per_kg: Given<ClovesPerKg> = "Cloves to a kilogram",
        /// Whether white rot was ever seen in this bed.
        white_rot: Given<bool> = "White fluff and black specks seen on onions or garlic there" [
            "no" => "never", "yes" => "yes",
        ],
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question {
    pub(super) site: Site,
    pub(super) today: NaiveDate,
    /// The kind, if it was said.
    pub(super) kind: Option<Kind>,
    pub(super) depth: Length,
    pub(super) mulch: Mulch,
    /// Those of the question, else of the bed in the record.
    pub(super) readings: Vec<Reading>,
    pub(super) meant: Option<Meant>,
    pub(super) spacing: Length,
    /// How many cloves weigh a kilogram, if it was said.
    pub(super) cloves_per_kg: Option<f64>,
    /// White rot was told of.
    pub(super) white_rot: bool,
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let today = asking.need_today(faults);
        let kind = self.kind.read(faults);
        let depth = depth(&self.depth, faults);
        let mulch = self.mulch.read(faults).unwrap_or(Mulch::Bare);
        let given = self.readings.iter();
        let readings: Vec<Reading> =
            given.filter_map(|reading| reading.read(asking.today, faults)).collect();
        let meant =
            self.bed.as_ref().and_then(|bed| bed.read(asking.garden, asking.system, faults));
        let spacing = spacing(&self.spacing, faults);
        let cloves_per_kg = self.cloves_per_kg.read(faults).map(|ClovesPerKg(cloves)| cloves);
        let white_rot = self.white_rot.read(faults) == Some(true);
        // In a winter that freezes the usual first frost alone says something.
        if site.first_frost.is_none() || site.air.is_some() {
            site.need_air(faults)?;
        }
        let (today, depth, spacing) = (today?, depth?, spacing?);
        if !faults.is_empty() {
            return None;
        }

        let garden = asking.garden;
        let recorded = meant.as_ref().and_then(|meant| garden.bed(meant.id.as_deref()?));
        let readings = match recorded {
            Some(bed) if readings.is_empty() => bed.soil_readings(),
            _ => readings,
        };
        Some(Question {
            site,
            today,
            kind,
            depth,
            mulch,
            readings,
            meant,
            spacing,
            cloves_per_kg,
            white_rot,
        })
    }
}

impl Question {
    /// The soil of the bed by these readings; `None` where the air of the place is not known.
    pub(super) fn soil(&self, readings: &[Reading]) -> Option<BedSoil> {
        let texture = self.site.soil.unwrap_or(Texture::Loam);
        Some(BedSoil::new(self.site.air.as_ref()?, texture, self.mulch, readings, self.today))
    }
}

/// How many cloves weigh a kilogram.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClovesPerKg(f64);

impl Readable for ClovesPerKg {
    const CONTROL: Control = Control::Count;

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
fn spacing(given: &Given<Length>, faults: &mut Faults) -> Option<Length> {
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
