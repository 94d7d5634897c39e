//! What is worked out: bulk by its depth, stock and seed by the piece.

use super::{
    Material, Share, bulbs_to_keep, clove, fill, in_grid,
    question::{Asked, Item},
    spread, to_obtain,
};
use crate::{
    bed::{Bed, Meant},
    catalogue::{Crop, KnownCrop, Range, Span, Start, garlic::Kind},
    given::{Faults, Given},
    plan::{crop_and_spacing, edge_margin},
    quantity::{Area, Length, Mass, System, Volume},
};

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

pub(super) fn bulk(
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
pub(super) struct StockAsked {
    pub(super) kind: Option<Kind>,
    pub(super) comes_up: Option<f64>,
    /// What one weighs.
    pub(super) piece: Option<Mass>,
}

pub(super) fn stock(
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
