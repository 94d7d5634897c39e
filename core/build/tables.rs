//! The tables in `core/data` as they are written.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::words::{
    Bolts, ColdHarm, Deeper, Family, Feeder, Habit, Hardening, Hardiness, Height, Kind, Pick, Seen,
    Spread, Start,
};

/// `sources.toml`, by key.
pub(super) type Sources = BTreeMap<String, SourceRow>;

/// `crops.toml`, by id.
pub(super) type Crops = BTreeMap<String, CropRow>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SourceRow {
    pub(super) basis: Basis,
    pub(super) cite: String,
}

#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Basis {
    Read,
    FromMemory,
    CommonPractice,
    Derived,
}

/// One value, or a list of them.
#[derive(Clone, Deserialize)]
#[serde(untagged)]
pub(super) enum OneOrMany<T> {
    One(T),
    Many(Vec<T>),
}

impl<T> OneOrMany<T> {
    pub(super) fn as_slice(&self) -> &[T] {
        match self {
            Self::One(value) => std::slice::from_ref(value),
            Self::Many(values) => values,
        }
    }
}

/// Keys of `sources.toml`.
pub(super) type By = OneOrMany<String>;

pub(super) fn common_practice() -> By {
    OneOrMany::One("common-practice".to_owned())
}

/// `classes.toml`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Classes {
    pub(super) family: BTreeMap<Family, FamilyRow>,
    pub(super) usual_tray: UsualTray,
    #[serde(default)]
    pub(super) tray: BTreeMap<Family, TrayRow>,
    #[serde(default)]
    pub(super) cold: BTreeMap<String, ColdRow>,
    pub(super) hardiness: BTreeMap<Hardiness, HardinessRow>,
    pub(super) hardening: BTreeMap<Hardening, HardeningRow>,
    pub(super) habit: BTreeMap<Habit, HabitRow>,
    pub(super) height: BTreeMap<Height, SizeRow>,
    pub(super) spread: BTreeMap<Spread, SizeRow>,
    pub(super) caution: BTreeMap<String, CautionRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FamilyRow {
    pub(super) called: String,
    pub(super) botanical: String,
    pub(super) gap_years: u8,
    #[serde(default = "common_practice")]
    pub(super) by: By,
    #[serde(default)]
    pub(super) maggots: bool,
    #[serde(default)]
    pub(super) damps_off: bool,
    #[serde(default)]
    pub(super) snip: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct UsualTray {
    pub(super) grace_weeks: u8,
    pub(super) leaves: [u8; 2],
    pub(super) wait: String,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TrayRow {
    pub(super) grace_weeks: Option<u8>,
    pub(super) leaves: Option<[u8; 2]>,
    pub(super) wait: Option<String>,
    pub(super) by: Option<By>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ColdRow {
    pub(super) counts: Option<ColdModel>,
    pub(super) below_f: Option<u8>,
    pub(super) days: Option<[u16; 2]>,
    #[serde(default)]
    pub(super) after_weeks: u8,
    pub(super) does: ColdHarm,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum ColdModel {
    Carrot,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HardinessRow {
    pub(super) cover_f: i8,
    pub(super) loss_f: i8,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HardeningRow {
    pub(super) air_f: i8,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HabitRow {
    pub(super) edge_in: u8,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SizeRow {
    pub(super) from_in: u8,
    pub(super) to_in: Option<u8>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CautionRow {
    pub(super) say: String,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CropRow {
    pub(super) names: Vec<String>,
    pub(super) plant: Plant,
    pub(super) space: Option<Space>,
    pub(super) feed: Option<Feed>,
    pub(super) pick: Option<Picking>,
    pub(super) ready: Option<Ready>,
    pub(super) frost: Frost,
    pub(super) raise: Option<Raise>,
    pub(super) harden: Option<Harden>,
    pub(super) set: Option<Set>,
    pub(super) seed: Option<Seed>,
    pub(super) caution: Option<OneOrMany<String>>,
    pub(super) eaten: Option<bool>,
    pub(super) water: Option<Water>,
    pub(super) keep: Option<Keep>,
    pub(super) grow: Option<Grow>,
    pub(super) cold: Option<String>,
    pub(super) maggots: Option<bool>,
    pub(super) snip: Option<bool>,
    pub(super) wait: Option<Wait>,
    pub(super) not_by_cold: Option<NotByCold>,
    pub(super) frost_say: Option<String>,
    #[serde(default)]
    pub(super) own_brine: bool,
    #[serde(default)]
    pub(super) not_known: Vec<Column>,
}

/// What every crop has that it is asked of, or says that it is not known.
#[derive(Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Column {
    /// A sheet of `cues.toml`.
    Cues,
    Water,
    Keep,
    /// `grow`.
    Growth,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Water {
    pub(super) mid_season: f64,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Keep {
    pub(super) years: f64,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Grow {
    pub(super) base_c: f64,
    pub(super) cap_c: f64,
    #[serde(default)]
    pub(super) light: bool,
    pub(super) up_sum: Option<f64>,
    pub(super) sown: Option<OneOrMany<f64>>,
    pub(super) set: Option<OneOrMany<f64>>,
    pub(super) best_f: Option<OneOrMany<f64>>,
    pub(super) hot_c: Option<f64>,
    pub(super) young_f: f64,
    pub(super) part_f: Option<f64>,
    pub(super) soil_f: Option<f64>,
    #[serde(default)]
    pub(super) winters: bool,
    pub(super) bolts: Option<Bolts>,
    #[serde(default)]
    pub(super) bulbs: bool,
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Wait {
    pub(super) say: String,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NotByCold {
    pub(super) air_f: f64,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Plant {
    pub(super) family: Family,
    pub(super) mixed_with: Option<Family>,
    pub(super) kind: Kind,
    pub(super) start: OneOrMany<Start>,
    pub(super) habit: Habit,
    pub(super) height: Height,
    pub(super) spread: Spread,
    pub(super) seen: Seen,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Space {
    pub(super) inches: OneOrMany<f64>,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Feed {
    pub(super) needs: Feeder,
    #[serde(default)]
    pub(super) disputed: bool,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Picking {
    pub(super) how: Pick,
    pub(super) every_days: Option<OneOrMany<f64>>,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ready {
    pub(super) days: OneOrMany<f64>,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Frost {
    pub(super) class: Hardiness,
    pub(super) kill_f: Option<OneOrMany<f64>>,
    pub(super) cover_f: Option<f64>,
    pub(super) part: Option<String>,
    pub(super) part_kill_f: Option<f64>,
    pub(super) part_heat: Option<[u16; 2]>,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Raise {
    pub(super) weeks: OneOrMany<f64>,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Harden {
    pub(super) class: Hardening,
    pub(super) air_f: Option<f64>,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Set {
    pub(super) soil_f: Option<f64>,
    pub(super) stop_f: Option<f64>,
    pub(super) deeper: Option<Deeper>,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Seed {
    pub(super) per_ounce: Option<OneOrMany<f64>>,
    pub(super) pieces_per_pound: Option<OneOrMany<f64>>,
    pub(super) pounds_per_1000_sqft: Option<OneOrMany<f64>>,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}
