//! Topic `bed-quantities`: how much compost, mulch, soil, seed garlic, sets or seed a bed takes.

use uom::si::{length::millimeter, mass::kilogram, volume::liter};

use super::{
    Material, Share, bulbs_to_keep, clove, fill, in_grid, one_of, spread, to_obtain, words,
};
use crate::{
    asking::Asking,
    bed::{self, Bed, BedAsked, Meant},
    catalogue::{Crop, KnownCrop, Range, Span, Start, garlic::Kind},
    given::{self, Faults, Given, Readable, asked, words},
    plan::{crop_and_spacing, edge_margin},
    quantity::{Area, Length, Mass, System, Volume, WHEELBARROW},
    telling::Telling,
};

words! {
    /// What goes into a bed.
    pub enum Item {
        /// Finished compost, spread.
        Compost = "compost",
        /// Straw or leaves, laid on top.
        Mulch = "mulch",
        /// Soil or a soil mix to fill the bed with.
        Soil = "soil",
        /// Garlic to plant, by the clove.
        SeedGarlic = "seed-garlic",
        /// Onion sets.
        Sets = "sets",
        /// Seed of a crop.
        Seed = "seed",
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
        bed: Option<BedAsked>,
        /// What goes in.
        item: Given<Item>,
        /// How deep it lies: 1 in of compost or 3 in of mulch if absent; needed for soil.
        depth: Given<Length>,
        /// The space between plants; the usual one of the crop if absent.
        spacing: Given<Length>,
        /// The crop whose seed it is; the other items need none.
        crop: Given<KnownCrop>,
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

/// How much a bed takes; what has no meaning for the item is null.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Volume to spread or fill, litres.
    pub volume_l: Option<f64>,
    /// More of it because a new fill sinks, litres.
    pub settling_l: Option<f64>,
    /// Weight, kilograms; of planting stock and seed without spares.
    pub mass_kg: Option<f64>,
    /// The weight if all is light or all is heavy.
    pub mass_range_kg: Option<MassRange>,
    /// Cloves or sets to plant, or seeds to sow.
    pub pieces: Option<u32>,
    /// Plants that stand in the bed then.
    pub plants: Option<u32>,
    /// Pieces to have besides in case some are soft or lost.
    pub spares: Option<u32>,
    /// Garlic bulbs to keep back for planting; of the kind with fewer cloves where it is not known.
    pub bulbs: Option<u32>,
}

/// A weight from the lightest to the heaviest.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MassRange {
    /// The least, kilograms.
    pub least: f64,
    /// The most, kilograms.
    pub most: f64,
}

/// What was worked out, as the words need it.
pub(super) enum Amount {
    Bulk(Bulk),
    Stock(Stock),
    /// Seed strewn over an area.
    Strewn {
        crop: &'static Crop,
        area: Area,
        mass: Span<Mass>,
    },
}

/// What is spread on a bed or filled into it.
pub(super) struct Bulk {
    pub material: Material,
    pub area: Area,
    pub depth: Length,
    pub depth_given: bool,
    pub volume: Volume,
    /// More of it because a new fill sinks.
    pub settling: Option<Volume>,
    pub mass: Option<Mass>,
    pub barrow: Volume,
}

/// Cloves, sets or seeds.
pub(super) struct Stock {
    pub item: Item,
    pub crop: Option<&'static Crop>,
    /// What the gardener called it.
    pub called: String,
    pub spacing: Length,
    pub margin: Length,
    /// How many stand in straight rows.
    pub plants: u32,
    /// How many cloves stand in the best layout.
    pub staggered: Option<u32>,
    pub pieces: u32,
    pub mass: Option<Range<Mass>>,
    /// Whether the gardener weighed a handful.
    pub weighed: bool,
    pub kind: Option<Kind>,
    /// The share of seed that comes up, where the gardener said it.
    pub comes_up: Option<f64>,
}

/// Three seeds in four come up in a bed (common practice).
pub(super) const USUALLY_COMES_UP: f64 = 0.75;

/// One more in ten, for those that are soft or lost (common practice).
const SPARE_OF: u32 = 10;

const LEAST_DEPTH_MM: f64 = 1.0;
const MOST_DEPTH_MM: f64 = 1830.0;
const DEPTHS: &str = "a depth up to 6 ft (1.8 m), more than nothing";

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let meant = bed::needed(asked.bed.as_ref(), asking.garden, asking.system, faults);
    let bed = meant.as_ref().map(|meant| &meant.bed);
    let item = asked.item.need(faults);
    let millimetres = Length::new::<millimeter>;
    let (least, most) = (millimetres(LEAST_DEPTH_MM), millimetres(MOST_DEPTH_MM));
    let depth = asked.depth.within(least, most, DEPTHS, faults);
    if !item.is_some_and(Item::is_counted) {
        // Where it counts it is read with its crop.
        asked.spacing.read(faults);
    }
    let known = asking.garden.settings.wheelbarrow.as_deref();
    let barrow = asked.wheelbarrow.clone().or(known).read(faults);
    let barrow = barrow.unwrap_or(WHEELBARROW);
    if barrow.value <= 0.0 {
        let allowed = Volume::allowed();
        asked.wheelbarrow.refuse(faults, allowed, "a wheelbarrow holds something");
    }
    let kind = asked.kind.read(faults);
    let comes_up = comes_up(&asked.germination, faults);
    let piece = asked.handful.as_ref().and_then(|handful| handful.read(faults));
    let given = StockAsked { kind, comes_up, piece };
    let amount = match item? {
        Item::Compost => bulk(Material::Compost, asked, depth, barrow, bed, faults),
        Item::Mulch => bulk(Material::Mulch, asked, depth, barrow, bed, faults),
        Item::Soil => bulk(Material::Soil, asked, depth, barrow, bed, faults),
        item => stock(item, asked, &given, meant.as_ref(), asking.system, faults),
    }?;
    Some((words::told(&amount, asking.system), amount.answer()))
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

fn comes_up(given: &Given<given::Share>, faults: &mut Faults) -> Option<f64> {
    let share = given.read(faults)?.fraction();
    if share > 0.0 {
        return Some(share);
    }
    given.refuse(faults, "more than 0 %, up to 100 %", "seed of which none comes up can't be sown");
    None
}

fn bulk(
    material: Material,
    asked: &Asked,
    depth: Option<Length>,
    barrow: Volume,
    bed: Option<&Bed>,
    faults: &mut Faults,
) -> Option<Amount> {
    let depth_given = asked.depth.is_given();
    let usual = material.usual_depth();
    if !depth_given && usual.is_none() {
        asked.depth.refuse(
            faults,
            "how deep the bed is to be filled, such as 10 in or 25 cm",
            "how deep is the one thing still needed: soil fills the bed, and beds differ",
        );
    }
    let depth = if depth_given { depth } else { usual }?;
    let area = area(bed?);
    let volume = spread(area, depth);
    Some(Amount::Bulk(Bulk {
        material,
        area,
        depth,
        depth_given,
        volume,
        settling: (material == Material::Soil).then(|| fill(area, depth) - volume),
        mass: material.weight(volume),
        barrow,
    }))
}

/// What is given about cloves, sets or seeds beside the crop and its spacing.
struct StockAsked {
    kind: Option<Kind>,
    comes_up: Option<f64>,
    /// What one weighs.
    piece: Option<Mass>,
}

fn stock(
    item: Item,
    asked: &Asked,
    given: &StockAsked,
    meant: Option<&Meant>,
    system: System,
    faults: &mut Faults,
) -> Option<Amount> {
    let crop = match item {
        Item::SeedGarlic => Given::default().or(Some("garlic")),
        Item::Sets => Given::default().or(Some("onion-bulb")),
        _ => asked.crop.clone(),
    };
    if item == Item::Seed
        && !asked.spacing.is_given()
        && !crop.is_own_word()
        && let Some(KnownCrop(row)) = crop.read(faults)
        && row.spacing().is_none()
        && row.seed_for(Area::default()).is_some()
    {
        let area = area(&meant?.bed);
        let mass = row.seed_for(area)?;
        return Some(Amount::Strewn { crop: row, area, mass });
    }
    let (row, spacing) = crop_and_spacing(&crop, &asked.spacing, system, faults)?;
    if item == Item::Seed && row.is_some_and(|row| !grows_from_seed(row)) {
        let allowed =
            "a crop raised from seed; for garlic ask for seed-garlic, for onion sets for sets";
        crop.refuse(
            faults,
            allowed,
            "it is planted from a clove, set, tuber or root, not from seed",
        );
        return None;
    }
    let meant = meant?;
    let bed = &meant.bed;
    let margin = edge_margin(bed, row).at(spacing).to_length();
    let spacing = spacing.to_length();
    let sides = [bed.length().to_length(), bed.width().to_length()];
    let plants = in_grid(sides, margin, spacing, spacing);
    let pieces = match item {
        Item::Seed => {
            let share = Share::new(given.comes_up.unwrap_or(USUALLY_COMES_UP))?;
            to_obtain(plants, share, Share::ALL)
        }
        _ => plants,
    };
    let exact = |mass| Range { least: mass, usual: mass, most: mass };
    let one = match (given.piece, item, given.kind) {
        (Some(weighed), ..) => Some(exact(weighed)),
        (None, Item::SeedGarlic, Some(kind)) => Some(clove(kind)),
        // The heavier seed, so that what is bought by weight is enough.
        (None, Item::Seed, _) => row.and_then(Crop::seed_mass).map(|one| Range {
            least: one.least,
            usual: one.most,
            most: one.most,
        }),
        _ => row.and_then(Crop::piece_mass),
    };
    let all = |one| super::weight(pieces, one);
    Some(Amount::Stock(Stock {
        staggered: (item == Item::SeedGarlic).then(|| clove::cloves(meant, spacing)),
        item,
        crop: row,
        called: crop.text().unwrap_or_default().to_owned(),
        spacing,
        margin,
        plants,
        pieces,
        mass: one.map(|Range { least, usual, most }| Range {
            least: all(least),
            usual: all(usual),
            most: all(most),
        }),
        weighed: given.piece.is_some(),
        kind: given.kind,
        comes_up: given.comes_up,
    }))
}

fn grows_from_seed(row: &Crop) -> bool {
    row.seed_mass().is_some()
        || row.starts().iter().any(|start| matches!(start, Start::Sow | Start::Transplant))
}

fn area(bed: &Bed) -> Area {
    bed.length().to_length() * bed.width().to_length()
}

impl Stock {
    /// Pieces to have besides: none of seed, where those that fail are counted already.
    pub(super) fn spares(&self) -> Option<u32> {
        (self.item != Item::Seed).then(|| self.pieces.div_ceil(SPARE_OF))
    }

    /// Bulbs of a kind to keep back.
    pub(super) fn bulbs(&self, kind: Kind) -> u32 {
        bulbs_to_keep(self.pieces, kind.cloves_to_plant())
    }
}

impl Amount {
    fn answer(&self) -> Answer {
        match self {
            Self::Bulk(bulk) => Answer {
                volume_l: Some(litres(bulk.volume)),
                settling_l: bulk.settling.map(litres),
                mass_kg: bulk.mass.map(kilograms),
                ..Answer::default()
            },
            Self::Stock(stock) => Answer {
                mass_kg: stock.mass.map(|mass| kilograms(mass.usual)),
                mass_range_kg: stock.mass.map(|mass| MassRange {
                    least: kilograms(mass.least),
                    most: kilograms(mass.most),
                }),
                pieces: Some(stock.pieces),
                plants: Some(stock.plants),
                spares: stock.spares(),
                bulbs: (stock.item == Item::SeedGarlic)
                    .then(|| stock.bulbs(stock.kind.unwrap_or(Kind::Hardneck))),
                ..Answer::default()
            },
            Self::Strewn { mass, .. } => Answer {
                mass_kg: Some(kilograms(mass.most)),
                mass_range_kg: Some(MassRange {
                    least: kilograms(mass.least),
                    most: kilograms(mass.most),
                }),
                ..Answer::default()
            },
        }
    }
}

/// To the hundredth of a litre.
fn litres(volume: Volume) -> f64 {
    (volume.get::<liter>() * 100.0).round() / 100.0
}

/// To the milligram, for seed is light.
fn kilograms(mass: Mass) -> f64 {
    (mass.get::<kilogram>() * 1e6).round() / 1e6
}
