//! Writes the checked tables as Rust.

use std::fmt::{Debug, Write as _};

use super::check::{ColdCounts, Crop, Growth};
use super::tables::{Basis, By, Classes, Sources};
use super::words::Family;

/// `enum Source` with its citations.
pub(super) fn sources(sources: &Sources) -> String {
    let mut variants = String::new();
    let mut rows = String::new();
    for (key, row) in sources {
        let name = camel(key);
        let mark = match row.basis {
            Basis::FromMemory => " (from memory)",
            Basis::Derived => " (derived)",
            Basis::Read | Basis::CommonPractice => "",
        };
        let cite = format!("{}{mark}", row.cite);
        // Writing to a String cannot fail.
        let _ = writeln!(variants, "    /// {cite}.\n    {name},");
        let _ = writeln!(rows, "            Self::{name} => ({cite:?}, Basis::{:?}),", row.basis);
    }
    let all: String = sources.keys().map(|key| format!("Self::{}, ", camel(key))).collect();
    format!(
        "/// What a figure rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {{
{variants}}}

impl Source {{
    /// Every source, in order of its key.
    pub const ALL: &[Self] = &[{all}];

    #[allow(clippy::too_many_lines, reason = \"a table\")]
    const fn row(self) -> (&'static str, Basis) {{
        match self {{
{rows}        }}
    }}
}}
"
    )
}

/// The class figures as functions of the classes.
pub(super) fn classes(classes: &Classes) -> String {
    let mut out = String::new();
    let mut function = |signature: &str, arms: Vec<String>| {
        let _ = writeln!(
            out,
            "const fn {signature} {{\n    match class {{\n{}    }}\n}}\n",
            arms.concat()
        );
    };
    let arm = |class: &dyn Debug, word: &str, value: String| {
        format!("        {word}::{class:?} => {value},\n")
    };
    function(
        "family_row(class: Family) -> FamilyRow",
        (classes.family.iter())
            .map(|(class, row)| {
                arm(
                    class,
                    "Family",
                    format!(
                        "FamilyRow {{ called: {:?}, botanical: {:?}, gap_years: {}, sources: {}, tray: {} }}",
                        row.called,
                        row.botanical,
                        row.gap_years,
                        source_list(&row.by),
                        tray(*class, classes)
                    ),
                )
            })
            .collect(),
    );
    function(
        "hardiness_row(class: Hardiness) -> (i8, i8, &'static [Source])",
        (classes.hardiness.iter())
            .map(|(class, row)| {
                arm(
                    class,
                    "Hardiness",
                    format!("({}, {}, {})", row.cover_f, row.loss_f, source_list(&row.by)),
                )
            })
            .collect(),
    );
    function(
        "hardening_row(class: Hardening) -> (i8, &'static [Source])",
        (classes.hardening.iter())
            .map(|(class, row)| {
                arm(class, "Hardening", format!("({}, {})", row.air_f, source_list(&row.by)))
            })
            .collect(),
    );
    function(
        "edge_in(class: Habit) -> u8",
        (classes.habit.iter())
            .map(|(class, row)| arm(class, "Habit", row.edge_in.to_string()))
            .collect(),
    );
    function(
        "height_in(class: Height) -> (u8, Option<u8>)",
        (classes.height.iter())
            .map(|(class, row)| arm(class, "Height", format!("({}, {:?})", row.from_in, row.to_in)))
            .collect(),
    );
    function(
        "spread_in(class: Spread) -> (u8, Option<u8>)",
        (classes.spread.iter())
            .map(|(class, row)| arm(class, "Spread", format!("({}, {:?})", row.from_in, row.to_in)))
            .collect(),
    );
    out
}

/// Of a family: its own figures, or else the usual ones.
fn tray(family: Family, classes: &Classes) -> String {
    let usual = &classes.usual_tray;
    let own = classes.tray.get(&family);
    format!(
        "Tray {{ grace_weeks: {}, leaves: {:?}, wait: {:?}, sources: {} }}",
        own.and_then(|tray| tray.grace_weeks).unwrap_or(usual.grace_weeks),
        own.and_then(|tray| tray.leaves).unwrap_or(usual.leaves),
        own.and_then(|tray| tray.wait.as_ref()).unwrap_or(&usual.wait),
        own.and_then(|tray| tray.by.as_ref()).map_or("&[]".to_owned(), source_list)
    )
}

/// The crops, in order of their ids.
pub(super) fn crops(crops: &[Crop]) -> String {
    let rows: String = crops.iter().map(crop).collect();
    format!("static CROPS: [Crop; {}] = [\n{rows}];\n", crops.len())
}

fn crop(crop: &Crop) -> String {
    let (name, also) = crop.names.split_first().map_or(("", &[][..]), |(name, also)| (name, also));
    let sources: String = crop
        .sources
        .iter()
        .map(|(facet, key)| format!("(Facet::{facet}, Source::{}), ", camel(key)))
        .collect();
    let cold = crop.cold.map_or("None".to_owned(), |cold| {
        let counts = match cold.counts {
            ColdCounts::NightsBelow { below_f, days } => {
                format!("NightsBelow {{ below_f: {below_f}, days: {days:?} }}")
            }
            ColdCounts::Carrot => "Carrot".to_owned(),
            ColdCounts::NotFound => "NotFound".to_owned(),
        };
        format!(
            "Some(ColdWeeks {{ counts: ColdCounts::{counts}, after_weeks: {}, does: ColdHarm::{:?} }})",
            cold.after_weeks, cold.does
        )
    });
    let part = crop.part.as_ref().map(|(part, f, heat)| (part.as_str(), *f, *heat));
    format!(
        "    Crop {{
        id: {:?}, name: {name:?}, also: &{also:?},
        family: Family::{:?}, mixed_with: {}, kind: Kind::{:?}, starts: &[{}],
        habit: Habit::{:?}, height: Height::{:?}, spread: Spread::{:?}, seen: Seen::{:?},
        spacing_in: {:?}, feeder: {}, feeder_disputed: {:?},
        pick: {}, pick_days: {:?}, ready_days: {:?},
        hardiness: Hardiness::{:?}, kill_f: {:?}, cover_f: {:?}, part: {part:?},
        hardening: {}, hardening_air_f: {:?}, weeks: {:?},
        soil_f: {:?}, soil_stop_f: {:?}, deeper: {},
        seeds_per_ounce: {:?}, pieces_per_pound: {:?}, seed_rate: {:?},
        eaten: {:?}, cautions: &{:?},
        water: {:?}, keep_years: {:?}, growth: {}, cold: {cold},
        maggots: {}, damps_off: {}, snip: {}, wait: {:?}, not_by_cold_f: {:?}, frost_say: {:?},
        own_brine: {}, sources: &[{sources}],
    }},
",
        crop.id,
        crop.family,
        optional("Family", crop.mixed_with),
        crop.kind,
        list("Start", &crop.starts),
        crop.habit,
        crop.height,
        crop.spread,
        crop.seen,
        crop.spacing_in,
        optional("Feeder", crop.feeder),
        crop.feeder_disputed,
        optional("Pick", crop.pick),
        crop.pick_days,
        crop.ready_days,
        crop.hardiness,
        crop.kill_f,
        crop.cover_f,
        optional("Hardening", crop.hardening),
        crop.hardening_air_f,
        crop.weeks,
        crop.soil_f,
        crop.soil_stop_f,
        optional("Deeper", crop.deeper),
        crop.seeds_per_ounce,
        crop.pieces_per_pound,
        crop.seed_rate,
        crop.eaten,
        crop.cautions,
        crop.water,
        crop.keep_years,
        crop.growth.as_ref().map_or("None".to_owned(), growth),
        crop.maggots,
        crop.damps_off,
        crop.snip,
        crop.wait.as_deref(),
        crop.not_by_cold_f,
        crop.frost_say.as_deref(),
        crop.own_brine,
    )
}

fn growth(growth: &Growth) -> String {
    format!(
        "Some(GrowthRow {{ base_c: {}, cap_c: {}, light: {}, up_sum: {:?}, sown: {:?}, set: {:?}, \
         hot_c: {:?}, young_f: {}, part_f: {:?}, soil_f: {:?}, winters: {}, bolts: {}, bulbs: {} }})",
        growth.base_c,
        growth.cap_c,
        growth.light,
        growth.up_sum,
        growth.sown,
        growth.set,
        growth.hot_c,
        growth.young_f,
        growth.part_f,
        growth.soil_f,
        growth.winters,
        optional("Bolts", growth.bolts),
        growth.bulbs,
    )
}

fn optional<T: Debug>(word: &str, value: Option<T>) -> String {
    value.map_or("None".to_owned(), |value| format!("Some({word}::{value:?})"))
}

fn list<T: Debug>(word: &str, values: &[T]) -> String {
    values.iter().map(|value| format!("{word}::{value:?}, ")).collect()
}

pub(super) fn source_list(by: &By) -> String {
    let names: String =
        by.as_slice().iter().map(|key| format!("Source::{}, ", camel(key))).collect();
    format!("&[{names}]")
}

/// `garlic-bulletin-2009` as a variant's name, `GarlicBulletin2009`.
fn camel(key: &str) -> String {
    key.split('-')
        .flat_map(|word| {
            let mut letters = word.chars();
            letters.next().map(|first| first.to_ascii_uppercase()).into_iter().chain(letters)
        })
        .collect()
}
