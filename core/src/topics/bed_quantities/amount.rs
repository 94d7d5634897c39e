//! What is worked out: bulk by its depth, stock and seed by the piece.

use super::{
    Material, Share, bulbs_to_keep, clove, fill, in_grid,
    question::{BulkAsked, Item, Question, StockAsked},
    spread, to_obtain,
};
use crate::{
    catalogue::{Crop, Range, Span, garlic::Kind},
    plan::edge_margin,
    quantity::{Area, Length, Mass, Volume},
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
    pub comes_up: Option<Share>,
}

/// One more in ten, for those that are soft or lost (common practice).
const SPARE_OF: u32 = 10;

impl Question {
    /// Works it out.
    pub(super) fn amount(self) -> Amount {
        match self {
            Self::Bulk(asked) => Amount::Bulk(bulk(asked)),
            Self::Stock(asked) => Amount::Stock(stock(*asked)),
            Self::Strewn { crop, area, mass } => Amount::Strewn { crop, area, mass },
        }
    }
}

fn bulk(asked: BulkAsked) -> Bulk {
    let BulkAsked { material, area, depth, depth_given, barrow } = asked;
    let volume = spread(area, depth);
    Bulk {
        material,
        area,
        depth,
        depth_given,
        volume,
        settling: (material == Material::Soil).then(|| fill(area, depth) - volume),
        mass: material.weight(volume),
        barrow,
    }
}

fn stock(asked: StockAsked) -> Stock {
    let StockAsked { item, crop, called, spacing, meant, kind, comes_up, piece } = asked;
    let bed = &meant.bed;
    let margin = edge_margin(bed, crop).at(spacing).to_length();
    let spacing = spacing.to_length();
    let sides = [bed.length().to_length(), bed.width().to_length()];
    let plants = in_grid(sides, margin, spacing, spacing);
    let pieces = match item {
        Item::Seed => to_obtain(plants, comes_up.unwrap_or(Share::USUALLY_COMES_UP), Share::ALL),
        _ => plants,
    };
    let exact = |mass| Range { least: mass, usual: mass, most: mass };
    let one = match (piece, item, kind) {
        (Some(weighed), ..) => Some(exact(weighed)),
        (None, Item::SeedGarlic, Some(kind)) => Some(clove(kind)),
        // The heavier seed, so that what is bought by weight is enough.
        (None, Item::Seed, _) => crop.and_then(Crop::seed_mass).map(|one| Range {
            least: one.least,
            usual: one.most,
            most: one.most,
        }),
        _ => crop.and_then(Crop::piece_mass),
    };
    let all = |one| super::weight(pieces, one);
    Stock {
        staggered: (item == Item::SeedGarlic).then(|| clove::cloves(&meant, spacing)),
        item,
        crop,
        called,
        spacing,
        margin,
        plants,
        pieces,
        mass: one.map(|Range { least, usual, most }| Range {
            least: all(least),
            usual: all(usual),
            most: all(most),
        }),
        weighed: piece.is_some(),
        kind,
        comes_up,
    }
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
