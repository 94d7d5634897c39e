//! `cues.toml`: read, checked, and written as Rust.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::{Debug, Write as _};

use serde::Deserialize;

use super::emit::source_list;
use super::reader::is_kebab;
use super::tables::{By, Crops, Sources, common_practice};

/// The file.
#[derive(Deserialize)]
pub(super) struct Cues {
    stop: BTreeMap<String, StopRow>,
    caution: BTreeMap<String, CautionRow>,
    #[serde(flatten)]
    sheets: BTreeMap<String, SheetRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StopRow {
    head: String,
    say: String,
    tell: String,
    by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CautionRow {
    #[serde(default)]
    late: bool,
    say: String,
    #[serde(default = "common_practice")]
    by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SheetRow {
    #[serde(default)]
    crops: Vec<String>,
    #[serde(default)]
    other_use_of: Vec<String>,
    #[serde(rename = "use")]
    used_as: Option<String>,
    #[serde(default)]
    names: Vec<String>,
    part: [String; 2],
    take: Take,
    #[serde(default)]
    leaves: bool,
    #[serde(default)]
    sets_on: bool,
    wait: WaitRow,
    flower: Option<FlowerRow>,
    heat: Option<HeatRow>,
    #[serde(default)]
    sign: Vec<SizeRow>,
    ask: Vec<QuestionRow>,
    #[serde(default)]
    stops: Vec<String>,
    #[serde(default)]
    cautions: Vec<String>,
    good_for: GoodForRow,
    #[serde(default)]
    keep: Vec<KeepRow>,
    #[serde(default)]
    beware: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WaitRow {
    holds_days: [u8; 2],
    look_days: [u8; 2],
    base_f: f64,
    #[serde(default = "common_practice")]
    by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FlowerRow {
    days: [u8; 2],
    look_from: Option<u8>,
    young: Option<u8>,
    #[serde(default)]
    strong: bool,
    by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct HeatRow {
    formula: Formula,
    base_f: f64,
    cap_f: Option<f64>,
    sum_f: [f64; 2],
    by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SizeRow {
    what: Measure,
    of: String,
    unit: Unit,
    #[serde(default)]
    falling: bool,
    below: f64,
    prime: [f64; 2],
    over: Option<f64>,
    old: Option<f64>,
    #[serde(default = "weak")]
    weight: Weight,
    #[serde(default = "common_practice")]
    by: By,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct QuestionRow {
    say: String,
    sense: Sense,
    weight: Weight,
    #[serde(default = "common_practice")]
    by: By,
    signs: Vec<SignRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SignRow {
    id: String,
    say: String,
    means: Stage,
    range: Option<[Stage; 2]>,
    weight: Option<Weight>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GoodForRow {
    #[serde(default)]
    not_yet: Vec<String>,
    prime: Vec<String>,
    going: Vec<String>,
    past: Vec<String>,
    #[serde(default)]
    not: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct KeepRow {
    kind: Option<String>,
    air_f: [i8; 2],
    humidity: [u8; 2],
    days: [u16; 2],
    by: By,
}

/// Declares an enum whose variants the crate has under the same names.
macro_rules! same_words {
    ($($name:ident { $($variant:ident),+ })+) => {
        $(#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        enum $name { $($variant),+ })+
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
enum Unit {
    In,
    Cm,
    Percent,
    Count,
}

fn weak() -> Weight {
    Weight::Weak
}

/// The file as Rust, or every fault in it.
pub(super) fn rust(cues: &Cues, crops: &Crops, sources: &Sources) -> Result<String, Vec<String>> {
    let mut faults = Faults {
        row: String::new(),
        sources,
        faults: Vec::new(),
    };
    let mut out = String::new();
    for (id, row) in &cues.stop {
        faults.row = format!("stop.{id}");
        faults.kebab(id);
        faults.by(&row.by);
        // Writing to a String cannot fail.
        let _ = writeln!(
            out,
            "static {}: Stop = Stop {{ id: {id:?}, head: {:?}, say: {:?}, tell: {:?}, by: {} }};",
            constant(id),
            row.head,
            row.say,
            row.tell,
            source_list(&row.by)
        );
    }
    for (id, row) in &cues.caution {
        faults.row = format!("caution.{id}");
        faults.by(&row.by);
    }
    let mut usual = BTreeSet::new();
    let mut sheets = String::new();
    for (id, row) in &cues.sheets {
        faults.row.clone_from(id);
        faults.sheet(id, row, cues, crops, &mut usual);
        sheets += &sheet(id, row, cues);
    }
    let _ = writeln!(out, "static SHEETS: &[Sheet] = &[\n{sheets}];");
    if faults.faults.is_empty() {
        Ok(out)
    } else {
        Err(faults.faults)
    }
}

struct Faults<'a> {
    row: String,
    sources: &'a Sources,
    faults: Vec<String>,
}

impl Faults<'_> {
    fn add(&mut self, why: &str) {
        self.faults.push(format!("cues.toml: [{}] {why}", self.row));
    }

    fn kebab(&mut self, id: &str) {
        if !is_kebab(id) {
            self.add(&format!("\"{id}\" is not kebab-case"));
        }
    }

    fn by(&mut self, by: &By) {
        for key in by.as_slice() {
            if !self.sources.contains_key(key) {
                self.add(&format!("by: no source \"{key}\" in sources.toml"));
            }
        }
    }

    fn rising<T: PartialOrd + Debug>(&mut self, field: &str, [least, most]: &[T; 2]) {
        if least > most {
            self.add(&format!("{field}: {least:?} is more than {most:?}"));
        }
    }

    fn sheet<'c>(
        &mut self,
        id: &str,
        row: &'c SheetRow,
        cues: &Cues,
        crops: &Crops,
        usual: &mut BTreeSet<&'c str>,
    ) {
        self.kebab(id);
        for crop in row.crops.iter().chain(&row.other_use_of) {
            if !crops.contains_key(crop) {
                self.add(&format!("no crop \"{crop}\" in crops.toml"));
            }
        }
        for crop in &row.crops {
            if !usual.insert(crop) {
                self.add(&format!("crops: \"{crop}\" has its usual sheet already"));
            }
        }
        if row.crops.is_empty() && (row.other_use_of.is_empty() || row.used_as.is_none()) {
            self.add("is no crop's sheet");
        }
        for key in row.stops.iter().filter(|key| !cues.stop.contains_key(*key)) {
            self.add(&format!("stops: no [stop] \"{key}\""));
        }
        for key in row
            .cautions
            .iter()
            .filter(|key| !cues.caution.contains_key(*key))
        {
            self.add(&format!("cautions: no [caution] \"{key}\""));
        }
        self.rising("wait.holds_days", &row.wait.holds_days);
        self.rising("wait.look_days", &row.wait.look_days);
        self.by(&row.wait.by);
        if let Some(flower) = &row.flower {
            self.rising("flower.days", &flower.days);
            self.by(&flower.by);
            if flower.strong && flower.young.is_none() {
                self.add("flower: strong, but until when it is young is not said");
            }
        }
        if let Some(heat) = &row.heat {
            self.rising("heat.sum_f", &heat.sum_f);
            self.by(&heat.by);
        }
        for size in &row.sign {
            self.size(size);
        }
        for keep in &row.keep {
            self.rising("keep.air_f", &keep.air_f);
            self.rising("keep.humidity", &keep.humidity);
            self.rising("keep.days", &keep.days);
            self.by(&keep.by);
        }
        let mut ids: BTreeSet<&str> = row.stops.iter().map(String::as_str).collect();
        let mut seen = BTreeSet::new();
        for question in &row.ask {
            self.by(&question.by);
            for sign in &question.signs {
                self.kebab(&sign.id);
                if !ids.insert(&sign.id) {
                    self.add(&format!("sign \"{}\" is there twice", sign.id));
                }
                let [from, to] = sign.range.unwrap_or([sign.means; 2]);
                if !(from <= sign.means && sign.means <= to) {
                    self.add(&format!(
                        "sign \"{}\": what it means is outside its range",
                        sign.id
                    ));
                }
                seen.insert(sign.means);
            }
        }
        for stage in [Stage::NotYet, Stage::Prime, Stage::Going, Stage::Past] {
            if !seen.contains(&stage) && !STAGES_WITHOUT_SIGN.contains(&(id, stage)) {
                self.add(&format!("no sign means {stage:?}"));
            }
        }
    }

    fn size(&mut self, size: &SizeRow) {
        self.by(&size.by);
        let turn = if size.falling { -1.0 } else { 1.0 };
        let [from, to] = size.prime;
        let mut steps = vec![size.below, from, to];
        steps.extend(size.over);
        steps.extend(size.old);
        if !steps.iter().map(|step| step * turn).is_sorted() {
            self.add(&format!(
                "sign {:?} of {}: its steps do not follow one another",
                size.what, size.of
            ));
        }
    }
}

/// Sheets that by the crop's nature have no sign of a stage.
const STAGES_WITHOUT_SIGN: [(&str, Stage); 4] = [
    // A new potato left longer becomes a store potato.
    ("new-potato", Stage::Past),
    ("sweet-potato", Stage::Past),
    // Winter squash ripens and then keeps.
    ("winter-squash", Stage::Going),
    // Between sound and mealy a gardener sees nothing from outside.
    ("watermelon", Stage::Going),
];

fn sheet(id: &str, row: &SheetRow, cues: &Cues) -> String {
    let stops: String = row
        .stops
        .iter()
        .map(|id| format!("&{}, ", constant(id)))
        .collect();
    let cautions: String = (row.cautions.iter())
        .filter_map(|key| cues.caution.get(key))
        .map(|row| {
            let (late, by) = (row.late, source_list(&row.by));
            format!("Caution {{ say: {:?}, late: {late}, by: {by} }}, ", row.say)
        })
        .collect();
    let flower = row.flower.as_ref().map_or("None".to_owned(), |flower| {
        format!(
            "Some(Flower {{ days: {:?}, look_from: {:?}, young: {:?}, strong: {}, by: {} }})",
            flower.days,
            flower.look_from,
            flower.young,
            flower.strong,
            source_list(&flower.by)
        )
    });
    let heat = row.heat.as_ref().map_or("None".to_owned(), |heat| {
        let formula = match heat.formula {
            Formula::Sine => "Sine(CutOff::Horizontal)".to_owned(),
            other => format!("{other:?}"),
        };
        format!(
            "Some(HeatSum {{ formula: Formula::{formula}, base_f: {:?}, cap_f: {:?}, sum_f: {:?}, by: {} }})",
            heat.base_f,
            heat.cap_f,
            heat.sum_f,
            source_list(&heat.by)
        )
    });
    let sizes: String = row.sign.iter().map(size).collect();
    let questions: String = row.ask.iter().map(question).collect();
    let keep: String = (row.keep.iter())
        .map(|keep| {
            format!(
                "Keep {{ kind: {:?}, air_f: {:?}, humidity: {:?}, days: {:?}, by: {} }}, ",
                keep.kind.as_deref(),
                keep.air_f,
                keep.humidity,
                keep.days,
                source_list(&keep.by)
            )
        })
        .collect();
    let good_for = &row.good_for;
    format!(
        "    Sheet {{
        id: {id:?}, crops: &{:?}, other_use_of: &{:?}, used_as: {:?}, names: &{:?},
        part: {:?}, take: Take::{:?}, leaves: {}, sets_on: {},
        wait: Wait {{ holds_days: {:?}, look_days: {:?}, base_f: {:?}, by: {} }},
        flower: {flower}, heat: {heat}, sizes: &[{sizes}],
        questions: &[\n{questions}        ],
        stops: &[{stops}], cautions: &[{cautions}],
        good_for: GoodFor {{ not_yet: &{:?}, prime: &{:?}, going: &{:?}, past: &{:?}, not: &{:?} }},
        keep: &[{keep}], beware: &{:?},
    }},
",
        row.crops,
        row.other_use_of,
        row.used_as.as_deref(),
        row.names,
        row.part,
        row.take,
        row.leaves,
        row.sets_on,
        row.wait.holds_days,
        row.wait.look_days,
        row.wait.base_f,
        source_list(&row.wait.by),
        good_for.not_yet,
        good_for.prime,
        good_for.going,
        good_for.past,
        good_for.not,
        row.beware,
    )
}

fn size(size: &SizeRow) -> String {
    let unit = match size.unit {
        Unit::In => "Inch",
        Unit::Cm => "Centimetre",
        Unit::Percent => "Percent",
        Unit::Count => "Count",
    };
    format!(
        "Size {{ what: Measure::{:?}, of: {:?}, unit: Unit::{unit}, falling: {}, below: {:?}, prime: {:?}, over: {:?}, old: {:?}, weight: Weight::{:?}, by: {} }}, ",
        size.what,
        size.of,
        size.falling,
        size.below,
        size.prime,
        size.over,
        size.old,
        size.weight,
        source_list(&size.by)
    )
}

fn question(question: &QuestionRow) -> String {
    let signs: String = (question.signs.iter())
        .map(|sign| {
            let [from, to] = sign.range.unwrap_or([sign.means; 2]);
            format!(
                "                Sign {{ id: {:?}, say: {:?}, reads: Reading {{ from: Stage::{from:?}, likely: Stage::{:?}, to: Stage::{to:?}, weight: Weight::{:?} }} }},\n",
                sign.id,
                sign.say,
                sign.means,
                sign.weight.unwrap_or(question.weight)
            )
        })
        .collect();
    format!(
        "            Question {{ say: {:?}, sense: Sense::{:?}, by: {}, signs: &[\n{signs}            ] }},\n",
        question.say,
        question.sense,
        source_list(&question.by)
    )
}

/// `green-skin` as `STOP_GREEN_SKIN`.
fn constant(id: &str) -> String {
    format!("STOP_{}", id.replace('-', "_").to_uppercase())
}
