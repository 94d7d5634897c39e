//! The typed numbers of the answer.

use uom::si::{mass::kilogram, volume::liter};

use super::{amount::Amount, question::Item};
use crate::{
    catalogue::garlic::Kind,
    quantity::{Mass, Volume},
};

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

impl Amount {
    pub(super) fn answer(&self) -> Answer {
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
