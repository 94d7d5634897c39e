//! What is asked, and how it is read.

use uom::si::length::millimeter;

use super::{Material, Share, one_of};
use crate::{
    asking::Asking,
    bed::{Bed, BedAsked, Meant},
    catalogue::{Crop, KnownCrop, Span, Start, garlic::Kind},
    garden::needed_bed,
    given::{self, Faults, Given, Readable, asked, words},
    plan::crop_and_spacing,
    quantity::{Area, Length, Mass, Micrometres, System, Volume, WHEELBARROW},
};

words! {
    /// What goes into a bed.
    pub enum Item {
        /// Finished compost, spread.
        Compost = "compost" => "Compost",
        /// Straw or leaves, laid on top.
        Mulch = "mulch" => "Mulch",
        /// Soil or a soil mix to fill the bed with.
        Soil = "soil" => "Soil to fill it",
        /// Garlic to plant, by the clove.
        SeedGarlic = "seed-garlic" => "Garlic to plant",
        /// Onion sets, or the tubers of another crop.
        Sets = "sets" => "Sets or tubers",
        /// Seed of a crop.
        Seed = "seed" => "Seed",
    }
}

impl Item {
    /// Whether it is planted or sown by the piece.
    fn is_counted(self) -> bool {
        matches!(self, Self::SeedGarlic | Self::Sets | Self::Seed)
    }
}

asked! {
    /// How much does a bed take?
    pub struct Asked {
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked> = "Bed",
        /// What goes in.
        item: Given<Item> = "What",
        /// How deep it lies: 1 in of compost or 3 in of mulch if absent; needed for soil.
        depth: Given<Length> = "How deep",
        /// The space between plants; the usual one of the crop if absent.
        spacing: Given<Length> = "Space between",
        /// The crop whose seed, sets or tubers it is; garlic and onion sets need none.
        crop: Given<KnownCrop> = "Crop",
        /// The kind of garlic; either if absent.
        kind: Given<Kind>,
        /// The share of the seed that comes up, as the packet says; three in four if absent.
        germination: Given<given::Share>,
        /// A handful of the cloves, sets or seeds, counted and weighed.
        handful: Option<HandfulAsked>,
        /// What one heaped wheelbarrow holds; the garden's own, or 0.17 m³ (6 cu ft), if absent.
        wheelbarrow: Given<Volume>,
    }
}

asked! {
    /// A handful counted and weighed.
    pub struct HandfulAsked {
        /// How many pieces.
        pieces: Given<u32>,
        /// What they weigh together.
        mass: Given<Mass>,
    }
}

/// The question read, fit to be worked out.
pub(super) enum Question {
    Bulk(BulkAsked),
    Stock(Box<StockAsked>),
    /// Seed that is strewn over the bed, for nobody prints its spacing.
    Strewn {
        crop: &'static Crop,
        area: Area,
        mass: Span<Mass>,
    },
}

/// What is to be spread on a bed or filled into it.
pub(super) struct BulkAsked {
    pub(super) material: Material,
    pub(super) area: Area,
    pub(super) depth: Length,
    pub(super) depth_given: bool,
    pub(super) barrow: Volume,
}

/// Cloves, sets or seeds that are to fill a bed.
pub(super) struct StockAsked {
    pub(super) item: Item,
    pub(super) crop: Option<&'static Crop>,
    /// What the gardener called it.
    pub(super) called: String,
    pub(super) spacing: Micrometres,
    pub(super) meant: Meant,
    pub(super) kind: Option<Kind>,
    pub(super) comes_up: Option<Share>,
    /// What one weighs, where the gardener weighed a handful.
    pub(super) piece: Option<Mass>,
}

const LEAST_DEPTH_MM: f64 = 1.0;

const MOST_DEPTH_MM: f64 = 1830.0;

const DEPTHS: &str = "a depth up to 6 ft (1.8 m), more than nothing";

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let meant = needed_bed(self.bed.as_ref(), asking.garden, asking.system, faults);
        let item = self.item.need(faults);
        let millimetres = Length::new::<millimeter>;
        let (least, most) = (millimetres(LEAST_DEPTH_MM), millimetres(MOST_DEPTH_MM));
        let depth = self.depth.within(least, most, DEPTHS, faults);
        if !item.is_some_and(Item::is_counted) {
            // Where it counts it is read with its crop.
            self.spacing.read(faults);
        }
        let known = asking.garden.settings.wheelbarrow.as_deref();
        let barrow = self.wheelbarrow.clone().or(known).read(faults).unwrap_or(WHEELBARROW);
        if barrow.value <= 0.0 {
            let allowed = Volume::allowed();
            self.wheelbarrow.refuse(faults, allowed, "a wheelbarrow holds something");
        }
        let kind = self.kind.read(faults);
        let comes_up = comes_up(&self.germination, faults);
        let piece = self.handful.as_ref().and_then(|handful| handful.read(faults));
        let bulk = |material, faults: &mut Faults| {
            let depth_given = self.depth.is_given();
            let depth = if depth_given { depth } else { self.usual_depth(material, faults) };
            let area = area(&meant.as_ref()?.bed);
            Some(Question::Bulk(BulkAsked { material, area, depth: depth?, depth_given, barrow }))
        };
        match item? {
            Item::Compost => bulk(Material::Compost, faults),
            Item::Mulch => bulk(Material::Mulch, faults),
            Item::Soil => bulk(Material::Soil, faults),
            Item::Seed if let Some(crop) = self.strewn(faults) => {
                let area = area(&meant?.bed);
                Some(Question::Strewn { crop, area, mass: crop.seed_for(area)? })
            }
            item => {
                let (crop, called, spacing) = self.planted(item, asking.system, faults)?;
                let meant = meant?;
                Some(Question::Stock(Box::new(StockAsked {
                    item,
                    crop,
                    called,
                    spacing,
                    meant,
                    kind,
                    comes_up,
                    piece,
                })))
            }
        }
    }

    /// The depth where none is given; a fault where none is usual.
    fn usual_depth(&self, material: Material, faults: &mut Faults) -> Option<Length> {
        let usual = material.usual_depth();
        if usual.is_none() {
            self.depth.refuse(
                faults,
                "how deep the bed is to be filled, such as 10 in or 25 cm",
                "how deep is the one thing still needed: soil fills the bed, and beds differ",
            );
        }
        usual
    }

    /// The crop whose seed is strewn over the bed, where it is one.
    fn strewn(&self, faults: &mut Faults) -> Option<&'static Crop> {
        if self.spacing.is_given() || self.crop.is_own_word() {
            return None;
        }
        let KnownCrop(crop) = self.crop.read(faults)?;
        let strewn = crop.spacing().is_none() && crop.seed_for(Area::default()).is_some();
        strewn.then_some(crop)
    }

    /// The crop that is planted or sown by the piece, what it was called, and its spacing.
    fn planted(
        &self,
        item: Item,
        system: System,
        faults: &mut Faults,
    ) -> Option<(Option<&'static Crop>, String, Micrometres)> {
        let usual = match item {
            Item::SeedGarlic => Some("garlic"),
            Item::Sets => Some("onion-bulb"),
            _ => None,
        };
        let crop = self.crop.clone().or(usual);
        let (row, spacing) = crop_and_spacing(&crop, &self.spacing, system, faults)?;
        if item == Item::Seed && row.is_some_and(|row| !grows_from_seed(row)) {
            let allowed =
                "a crop raised from seed; for garlic ask for seed-garlic, for onion sets for sets";
            let why = "it is planted from a clove, set, tuber or root, not from seed";
            crop.refuse(faults, allowed, why);
            return None;
        }
        let by_piece = |start: &Start| match item {
            Item::SeedGarlic => *start == Start::Clove,
            _ => matches!(start, Start::Set | Start::Tuber),
        };
        if usual.is_some() && !row.is_some_and(|row| row.starts().iter().any(by_piece)) {
            let (allowed, why) = match item {
                Item::SeedGarlic => ("garlic, or another item", "it is not planted from cloves"),
                _ => {
                    ("a crop planted from sets or tubers", "it is not planted from sets or tubers")
                }
            };
            crop.refuse(faults, allowed, why);
            return None;
        }
        Some((row, crop.text().unwrap_or_default().to_owned(), spacing))
    }
}

fn grows_from_seed(row: &Crop) -> bool {
    row.seed_mass().is_some()
        || row.starts().iter().any(|start| matches!(start, Start::Sow | Start::Transplant))
}

fn area(bed: &Bed) -> Area {
    bed.length().to_length() * bed.width().to_length()
}

impl HandfulAsked {
    /// What one piece weighs.
    fn read(&self, faults: &mut Faults) -> Option<Mass> {
        let pieces = self.pieces.need(faults);
        let mass = self.mass.need(faults);
        if pieces == Some(0) {
            self.pieces.refuse(faults, "at least one piece", "none can be weighed");
        }
        if mass.is_some_and(|mass| mass.value <= 0.0) {
            self.mass.refuse(faults, "more than nothing", "every piece weighs something");
        }
        one_of(pieces?, mass?)
    }
}

fn comes_up(given: &Given<given::Share>, faults: &mut Faults) -> Option<Share> {
    let share = Share::new(given.read(faults)?.fraction());
    if share.is_none() {
        let why = "seed of which none comes up can't be sown";
        given.refuse(faults, "more than 0 %, up to 100 %", why);
    }
    share
}
