//! `cues.toml` checked, and written as Rust.

use std::collections::BTreeSet;
use std::fmt::{Debug, Write as _};

use super::cue_rows::{
    Cues, Formula, GradeRow, KeepRow, QuestionRow, RuleRow, SheetRow, SizeRow, Stage, Unit,
};
use super::emit::source_list;
use super::reader::is_kebab;
use super::tables::{By, Column, Crops, Sources};
use super::words::Kind;

/// The file as Rust, or every fault in it.
pub(super) fn rust(cues: &Cues, crops: &Crops, sources: &Sources) -> Result<String, Vec<String>> {
    let mut faults = Faults { row: String::new(), sources, faults: Vec::new() };
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
    for (id, row) in crops {
        let eaten = matches!(row.plant.kind, Kind::Vegetable | Kind::Herb);
        let told = row.not_known.contains(&Column::Cues);
        if eaten && !told && !usual.contains(id.as_str()) {
            faults.faults.push(format!(
                "crops.toml: [{id}] cues: add it to the crops of a sheet in cues.toml, or name cues in not_known"
            ));
        }
    }
    let _ = writeln!(out, "static SHEETS: &[Sheet] = &[\n{sheets}];");
    if faults.faults.is_empty() { Ok(out) } else { Err(faults.faults) }
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
        for key in row.cautions.iter().filter(|key| !cues.caution.contains_key(*key)) {
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
        if let Some(grade) = &row.grade {
            self.by(&grade.by);
            if grade.rules.is_empty() || grade.rules.iter().any(|rule| end(rule).is_none()) {
                self.add("grade: each rule takes one of below, up_to and over");
            }
        }
        for size in &row.sign {
            self.size(size);
        }
        for keep in &row.keep {
            self.rising("keep.air_f", &keep.air_f);
            if keep.crops.iter().any(|crop| !row.crops.contains(crop)) {
                self.add("keep.crops: not among the crops of the sheet");
            }
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
                    self.add(&format!("sign \"{}\": what it means is outside its range", sign.id));
                }
                seen.insert(sign.means);
            }
        }
        for stage in [Stage::NotYet, Stage::Prime, Stage::Going, Stage::Past] {
            if seen.contains(&stage) == row.without.contains(&stage) {
                let why = if seen.contains(&stage) { "though it stands in without" } else { "yet" };
                let no = if seen.contains(&stage) { "a" } else { "no" };
                self.add(&format!("{no} sign means {stage:?} {why}"));
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

/// How a crop keeps, as it is packed.
fn keep(keep: &KeepRow) -> String {
    format!(
        "Keep {{ kind: {:?}, crops: &{:?}, air_f: {:?}, humidity: {:?}, days: {:?}, by: {} }}, ",
        keep.kind.as_deref(),
        keep.crops,
        keep.air_f,
        keep.humidity,
        keep.days,
        source_list(&keep.by)
    )
}

fn sheet(id: &str, row: &SheetRow, cues: &Cues) -> String {
    let stops: String = row.stops.iter().map(|id| format!("&{}, ", constant(id))).collect();
    let cautions: String = (row.cautions.iter())
        .filter_map(|key| cues.caution.get(key))
        .map(|row| {
            let (late, by) = (row.late, source_list(&row.by));
            format!("Caution {{ say: {:?}, late: {late}, by: {by} }}, ", row.say)
        })
        .collect();
    let flower = row.flower.as_ref().map_or("None".to_owned(), |flower| {
        format!(
            "Some(Flower {{ days: {:?}, look_from: {:?}, young: {:?}, strong: {}, say: {:?}, by: {} }})",
            flower.days,
            flower.look_from,
            flower.young,
            flower.strong,
            flower.say.as_deref().unwrap_or("Flower opened on"),
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
    let keep: String = row.keep.iter().map(keep).collect();
    let good_for = &row.good_for;
    format!(
        "    Sheet {{
        id: {id:?}, crops: &{:?}, other_use_of: &{:?}, used_as: {:?}, names: &{:?},
        part: {:?}, take: Take::{:?}, leaves: {}, whole: {}, sets_on: {},
        wait: Wait {{ holds_days: {:?}, look_days: {:?}, base_f: {:?}, by: {} }},
        flower: {flower}, heat: {heat}, grade: {}, sizes: &[{sizes}],
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
        row.whole,
        row.sets_on,
        row.wait.holds_days,
        row.wait.look_days,
        row.wait.base_f,
        source_list(&row.wait.by),
        row.grade.as_ref().map_or("None".to_owned(), grade),
        good_for.not_yet,
        good_for.prime,
        good_for.going,
        good_for.past,
        good_for.not,
        row.beware,
    )
}

/// Where a rule ends, and how.
fn end(rule: &RuleRow) -> Option<(&'static str, f64)> {
    match (rule.below, rule.up_to, rule.over) {
        (Some(step), None, None) => Some(("Below", step)),
        (None, Some(step), None) => Some(("UpTo", step)),
        (None, None, Some(step)) => Some(("Over", step)),
        _ => None,
    }
}

fn grade(grade: &GradeRow) -> String {
    let rules: String = (grade.rules.iter())
        .filter_map(|rule| {
            let (ends, step) = end(rule)?;
            Some(format!(
                "Rule {{ what: Measure::{:?}, ends: Ends::{ends}, step: {step:?}, name: {:?}, optional: {} }}, ",
                rule.what, rule.name, rule.optional
            ))
        })
        .collect();
    format!(
        "Some(Grades {{ rules: &[{rules}], rest: {:?}, by: {} }})",
        grade.rest,
        source_list(&grade.by)
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
