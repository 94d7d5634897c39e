//! `cues.toml` as it is written.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::tables::{By, common_practice};

/// The file.
#[derive(Deserialize)]
pub(super) struct Cues {
    pub(super) stop: BTreeMap<String, StopRow>,
    pub(super) caution: BTreeMap<String, CautionRow>,
    #[serde(flatten)]
    pub(super) sheets: BTreeMap<String, SheetRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StopRow {
    pub(super) head: String,
    pub(super) say: String,
    pub(super) tell: String,
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CautionRow {
    #[serde(default)]
    pub(super) late: bool,
    pub(super) say: String,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SheetRow {
    #[serde(default)]
    pub(super) crops: Vec<String>,
    #[serde(default)]
    pub(super) other_use_of: Vec<String>,
    #[serde(rename = "use")]
    pub(super) used_as: Option<String>,
    #[serde(default)]
    pub(super) names: Vec<String>,
    pub(super) part: [String; 2],
    pub(super) take: Take,
    #[serde(default)]
    pub(super) leaves: bool,
    #[serde(default)]
    pub(super) whole: bool,
    #[serde(default)]
    pub(super) sets_on: bool,
    pub(super) wait: WaitRow,
    pub(super) flower: Option<FlowerRow>,
    pub(super) heat: Option<HeatRow>,
    pub(super) grade: Option<GradeRow>,
    #[serde(default)]
    pub(super) without: Vec<Stage>,
    #[serde(default)]
    pub(super) sign: Vec<SizeRow>,
    pub(super) ask: Vec<QuestionRow>,
    #[serde(default)]
    pub(super) stops: Vec<String>,
    #[serde(default)]
    pub(super) cautions: Vec<String>,
    pub(super) good_for: GoodForRow,
    #[serde(default)]
    pub(super) keep: Vec<KeepRow>,
    #[serde(default)]
    pub(super) beware: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WaitRow {
    pub(super) holds_days: [u8; 2],
    pub(super) look_days: [u8; 2],
    pub(super) base_f: f64,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FlowerRow {
    pub(super) days: [u8; 2],
    pub(super) look_from: Option<u8>,
    pub(super) young: Option<u8>,
    #[serde(default)]
    pub(super) strong: bool,
    pub(super) say: Option<String>,
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GradeRow {
    pub(super) rules: Vec<RuleRow>,
    pub(super) rest: String,
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RuleRow {
    pub(super) what: Measure,
    pub(super) below: Option<f64>,
    pub(super) up_to: Option<f64>,
    pub(super) over: Option<f64>,
    pub(super) name: String,
    #[serde(default)]
    pub(super) optional: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HeatRow {
    pub(super) formula: Formula,
    pub(super) base_f: f64,
    pub(super) cap_f: Option<f64>,
    pub(super) sum_f: [f64; 2],
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SizeRow {
    pub(super) what: Measure,
    pub(super) of: String,
    pub(super) unit: Unit,
    #[serde(default)]
    pub(super) falling: bool,
    pub(super) below: f64,
    pub(super) prime: [f64; 2],
    pub(super) over: Option<f64>,
    pub(super) old: Option<f64>,
    #[serde(default = "weak")]
    pub(super) weight: Weight,
    #[serde(default = "common_practice")]
    pub(super) by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct QuestionRow {
    pub(super) say: String,
    pub(super) sense: Sense,
    pub(super) weight: Weight,
    #[serde(default = "common_practice")]
    pub(super) by: By,
    pub(super) signs: Vec<SignRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SignRow {
    pub(super) id: String,
    pub(super) say: String,
    pub(super) means: Stage,
    pub(super) range: Option<[Stage; 2]>,
    pub(super) weight: Option<Weight>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GoodForRow {
    #[serde(default)]
    pub(super) not_yet: Vec<String>,
    pub(super) prime: Vec<String>,
    pub(super) going: Vec<String>,
    pub(super) past: Vec<String>,
    #[serde(default)]
    pub(super) not: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct KeepRow {
    pub(super) kind: Option<String>,
    #[serde(default)]
    pub(super) crops: Vec<String>,
    pub(super) air_f: [i8; 2],
    pub(super) humidity: [u8; 2],
    pub(super) days: [u16; 2],
    pub(super) by: By,
}

/// Declares an enum whose variants the crate has under the same names.
macro_rules! same_words {
    ($($name:ident { $($variant:ident),+ })+) => {
        $(#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        pub(super) enum $name { $($variant),+ })+
    };
}

same_words! {
    Stage { NotYet, Prime, Going, Past }
    Weight { Weak, Strong, Decisive }
    Take { Pick, Cut, Pull, Dig }
    Sense { Eye, Hand, Ear, Taste, Size }
    Measure { Length, Width, Height, Colour, TopsDown, GreenLeaves, Brix }
    Formula { Average, Clamped, Sine }
}

#[derive(Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Unit {
    In,
    Cm,
    Percent,
    Count,
}

pub(super) fn weak() -> Weight {
    Weight::Weak
}
