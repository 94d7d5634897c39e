//! The fields of each kind of entry.
//!
//! Quantities stay the gardener's own text ("8 ft"), and words that a topic offers to choose
//! from (`on-top`, `prime`) stay text too: the topic that asks for them reads them with all its
//! faults, and the record never loses a digit. What the record itself acts on is typed.

use super::{
    entry::About,
    id::{self, Ulid},
    sites::Sites,
    when,
};
use crate::quantity::System;
use chrono::{NaiveDate, NaiveDateTime};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// A JSON object whose fields a topic reads, such as a bed's shape.
pub type Object = Map<String, Value>;

fn is_false(flag: &bool) -> bool {
    !flag
}

/// A bed laid out or changed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Bed {
    /// What the gardener calls it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Its shape, in the field names of the door's `bed`; replaces the whole shape before it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bed: Option<Object>,
    /// The bed was taken away.
    #[serde(default, skip_serializing_if = "is_false")]
    pub gone: bool,
}

/// The gardener's own settings.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Settings {
    /// The system of units answers are printed in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub units: Option<System>,
    /// What one heaped wheelbarrow holds, a volume.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wheelbarrow: Option<String>,
    /// The chance of harm the gardener is ready to take on a cold night, in percent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nerve: Option<u8>,
}

/// A tray sown.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct StartSown {
    /// The crop's catalogue id, or the gardener's own word for it.
    pub crop: String,
    /// The variety.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub variety: Option<String>,
    /// What the gardener calls the tray.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// How many cells or pots were sown.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// What it was sown in, such as "72-cell tray".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub container: Option<String>,
    /// Where it stands: `sill`, `mat`, `heated-house`, `unheated-greenhouse`, `cold-frame`,
    /// `outdoors`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spot: Option<String>,
    /// The mean temperature it is kept at.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub warmth: Option<String>,
    /// The year the seed was grown or packed for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seed_year: Option<u16>,
}

/// Seedlings moved into larger room.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct StartPrickedOut {
    /// How many there are from now on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// What they stand in now.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub container: Option<String>,
}

/// A start carried to another spot.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct StartMoved {
    /// Where it stands now, in the words of [`StartSown::spot`].
    pub spot: String,
}

/// Plants of a start that are no more.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct StartLost {
    /// How many; all of them when absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// What took them, such as "damping off".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

/// Plants set into a bed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Planted {
    /// The crop's catalogue id, or the gardener's own word for it.
    pub crop: String,
    /// The variety; that of the start when absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub variety: Option<String>,
    /// How many plants.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// The space between them, a length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spacing: Option<String>,
    /// Where they stand.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<Sites>,
}

/// Seed sown where it will grow.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Seeded {
    /// The crop's catalogue id, or the gardener's own word for it.
    pub crop: String,
    /// The variety.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub variety: Option<String>,
    /// How many plants are wanted there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// How many seeds were sown.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seeds: Option<u32>,
    /// The space between plants, a length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spacing: Option<String>,
    /// How deep, a length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth: Option<String>,
    /// The year the seed was grown or packed for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seed_year: Option<u16>,
    /// Where it was sown.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<Sites>,
}

/// One material among the residue, in the field names of the door's `residue-wait`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Material {
    /// The residue's catalogue id.
    pub residue: String,
    /// How much, a mass or a volume.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amount: Option<String>,
    /// `fresh` or `dry`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub state: Option<String>,
}

/// Residue laid, in the field names of the door's `residue-wait`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ResidueLaid {
    /// What was laid.
    pub materials: Vec<Material>,
    /// `on-top` or `worked-in`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub placement: Option<String>,
    /// `dry`, `part`, `moist` or `soggy`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub moisture: Option<String>,
    /// `whole`, `hand` or `fine`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub chop: Option<String>,
    /// What lies over it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cover: Option<String>,
    /// `diseased`, `in-seed`, `running`, `herbicide`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub flags: Vec<String>,
    /// The part of the bed it lies on, such as "left half"; the whole bed when absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
}

/// A look, to compare with the forecast.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CheckIn {
    /// Share of the residue that can still be seen, 0 to 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left: Option<f64>,
    /// Share of the seedlings that are up, 0 to 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub up: Option<f64>,
    /// True leaves on most plants.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leaves: Option<u32>,
    /// `loose`, `holding`, `circling` or `matted`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub roots: Option<String>,
    /// Slugs in a baited trap overnight.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slugs: Option<f64>,
    /// The part of the bed looked at, in the words of [`ResidueLaid::part`].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
}

/// Something measured.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Where, when not at a bed: the words of [`StartSown::spot`], `outdoors` being the spot
    /// that every bed is compared with.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spot: Option<String>,
    /// The lowest air temperature of the night.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low: Option<String>,
    /// The highest air temperature of the day.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub high: Option<String>,
    /// The air temperature at that moment, such as at dusk.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub air: Option<String>,
    /// The dew point at that moment.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dew_point: Option<String>,
    /// Relative humidity at that moment, in percent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub humidity: Option<f64>,
    /// The low that was forecast for the night.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub forecast_low: Option<String>,
    /// `clear`, `part` or `cloudy`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sky: Option<String>,
    /// `still`, `light` or `windy`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wind: Option<String>,
    /// The soil temperature.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub soil: Option<String>,
    /// The depth of the soil temperature, a length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth: Option<String>,
    /// Rain since the day before, a length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rain: Option<String>,
}

/// A bed covered.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Covered {
    /// The cover's catalogue id.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cover: Option<String>,
    /// How many of them it took.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
}

/// A bed uncovered.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Uncovered {}

/// Frost seen.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FrostSeen {
    /// Where, when not at a bed, in the words of [`StartSown::spot`].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spot: Option<String>,
    /// The low, if it was read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low: Option<String>,
    /// The crop looked at; every crop of the bed when absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub crop: Option<String>,
    /// `none`, `some`, `most` or `all`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub harm: Option<String>,
}

/// A day outdoors, in the field names of the door's `hardening-plan`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct HardeningDone {
    /// Hours outdoors, 0 to 24.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hours: Option<f64>,
    /// The night after it: `in`, `covered` or `out`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub night: Option<String>,
    /// Whether the plants were harmed.
    #[serde(default, skip_serializing_if = "is_false")]
    pub damage: bool,
}

/// Something picked.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Harvest {
    /// The crop, when the planting is not named.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub crop: Option<String>,
    /// The variety.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub variety: Option<String>,
    /// How much, such as "3 lb" or "a bucket".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amount: Option<String>,
    /// `not-yet`, `prime`, `going` or `past`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stage: Option<String>,
    /// How many plants were taken whole, as cabbage and garlic are.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plants: Option<u32>,
    /// Whether nothing is left to pick. The plants stay until they are cleared.
    #[serde(default, skip_serializing_if = "is_false")]
    pub all: bool,
}

/// Plants taken out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Cleared {
    /// The crop, when only that one came out and the planting is not named.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub crop: Option<String>,
    /// How many plants; all of them when absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plants: Option<u32>,
    /// How or why, such as "pulled" or "winter-killed".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub how: Option<String>,
}

/// A watering.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Watered {
    /// How long the drip ran, in minutes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub minutes: Option<f64>,
    /// How much, a volume.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amount: Option<String>,
}

/// A feeding.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Fed {
    /// With what, such as "blood meal".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub product: Option<String>,
    /// How much, a mass or a volume.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amount: Option<String>,
}

/// A bed kept free.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Reserved {
    /// The crop it is kept for. Planting or sowing that crop there ends the reservation.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub crop: Option<String>,
    /// The first day it must be free.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<NaiveDate>,
    /// The last day it is kept.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub until: Option<NaiveDate>,
}

/// Anything else worth knowing.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Note {
    /// The gardener's own words.
    pub text: String,
}

/// An entry that no longer counts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StruckOut {
    /// The entry struck. When that is a strike-out itself, what it struck counts again.
    #[serde(with = "id::text")]
    pub target: Ulid,
}

/// An entry that reads otherwise. Each part given replaces that part of the target; of several
/// corrections of one part, the one with the greatest id holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Corrected {
    /// The entry corrected. It keeps its id and its kind.
    #[serde(with = "id::text")]
    pub target: Ulid,
    /// When it happened.
    #[serde(default, with = "when::text", skip_serializing_if = "Option::is_none")]
    pub when: Option<NaiveDateTime>,
    /// What it is about.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub about: Option<About>,
    /// The whole of its `what`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub what: Option<Object>,
}
