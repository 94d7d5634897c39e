//! `germination.toml`: reads, checks and writes the table of how seed comes up.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use serde::Deserialize;

use super::tables::Crops;

/// By the kind's name.
pub(super) type Kinds = BTreeMap<String, Row>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Row {
    crops: Vec<String>,
    #[serde(default)]
    like: Vec<String>,
    limits_f: [u8; 5],
    days: Option<String>,
    percent: Option<String>,
    days_of: Option<String>,
}

/// Nine cells of a row; `None` where nothing is printed, 0 days where little or none came up.
type Cells = [Option<u8>; 9];

/// The table as Rust, or every fault found.
pub(super) fn written(kinds: &Kinds, crops: &Crops) -> Result<String, Vec<String>> {
    let mut faults = Vec::new();
    let mut told = BTreeSet::new();
    let mut rows = String::new();
    for (name, row) in kinds {
        let mut fault = |field: &str, why: &str| {
            faults.push(format!("germination.toml: [{name}] {field}: {why}"));
        };
        for crop in row.crops.iter().chain(&row.like) {
            if !crops.contains_key(crop) {
                fault("crops", &format!("no crop \"{crop}\" in crops.toml"));
            }
            if !told.insert(crop) {
                fault("crops", &format!("\"{crop}\" is told twice"));
            }
        }
        let [minimum, from, to, optimum, maximum] = row.limits_f;
        if !(minimum <= from && from <= to && to <= maximum) {
            fault("limits_f", "minimum, optimum range and maximum are not in order");
        }
        if !(minimum..=maximum).contains(&optimum) {
            fault("limits_f", "the optimum is outside minimum and maximum");
        }
        let of = row.days_of.as_ref().map_or(Some(row), |other| kinds.get(other));
        let cells =
            of.and_then(|of| Some((cells(of.days.as_ref()?)?, cells(of.percent.as_ref()?)?)));
        let Some((days, percent)) = cells else {
            fault("days", "nine cells of days and of percent, or days_of a kind that has them");
            continue;
        };
        if percent.iter().flatten().any(|percent| *percent > 100) {
            fault("percent", "is more than a hundred");
        }
        // Writing to a String cannot fail.
        let _ = writeln!(
            rows,
            "    Germination {{ name: {:?}, crops: &{:?}, like: &{:?}, days_of: {:?}, limits_f: {:?}, \
             days: {days:?}, percent: {percent:?} }},",
            name.replace('-', " "),
            row.crops,
            row.like,
            row.days_of,
            row.limits_f,
        );
    }
    if faults.is_empty() {
        Ok(format!("static KINDS: [Germination; {}] = [\n{rows}];\n", kinds.len()))
    } else {
        Err(faults)
    }
}

fn cells(row: &str) -> Option<Cells> {
    let cells: Option<Vec<Option<u8>>> = row
        .split_whitespace()
        .map(|cell| match cell {
            "x" => Some(Some(0)),
            "-" | "?" => Some(None),
            number => number.parse().ok().map(Some),
        })
        .collect();
    cells?.try_into().ok()
}
