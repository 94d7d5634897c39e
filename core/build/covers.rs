//! `covers.toml`: reads, checks and writes the table of covers against frost.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde::Deserialize;

use super::cover_words::CoverWatch;
use super::emit::source_list;
use super::fold::fold;
use super::reader::is_kebab;
use super::tables::{By, OneOrMany, Sources};

/// By id.
pub(super) type Covers = BTreeMap<String, Row>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Row {
    names: Vec<String>,
    gain: Gain,
    sheet: bool,
    watch: Vec<CoverWatch>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Gain {
    f: Option<[u8; 2]>,
    by: Option<By>,
}

/// The table as Rust, or every fault found, by row and field.
pub(super) fn written(covers: &Covers, sources: &Sources) -> Result<String, Vec<String>> {
    let mut faults = Vec::new();
    let mut named: BTreeMap<String, &str> = BTreeMap::new();
    let mut rows = String::new();
    for (id, row) in covers {
        let mut fault = |field: &str, why: &str| {
            faults.push(format!("covers.toml: [{id}] {field}: {why}"));
        };
        if !is_kebab(id) {
            fault("id", "is not kebab-case, like fabric-light");
        }
        for name in row.names.iter().chain([id]) {
            if let Some(other) = named.insert(fold(name), id).filter(|other| other != id) {
                fault("names", &format!("\"{name}\" is a name of [{other}] already"));
            }
        }
        if let Some([mean, sd]) = row.gain.f
            && (mean > 20 || sd == 0 || sd > 10)
        {
            fault("gain.f", "is a mean of at most 20 and a standard deviation of 1 to 10");
        }
        let common = OneOrMany::One("common-practice".to_owned());
        let by = row.gain.by.as_ref().unwrap_or(&common);
        for key in by.as_slice().iter().filter(|key| !sources.contains_key(*key)) {
            fault("gain.by", &format!("no source \"{key}\" in sources.toml"));
        }
        let Some((name, also)) = row.names.split_first() else {
            fault("names", "is empty");
            continue;
        };
        let watch: String =
            row.watch.iter().map(|watch| format!("CoverWatch::{watch:?}, ")).collect();
        // Writing to a String cannot fail.
        let _ = writeln!(
            rows,
            "    Cover {{ id: {id:?}, name: {name:?}, also: &{also:?}, gain_f: {:?}, sheet: {}, \
             watch: &[{watch}], sources: {} }},",
            row.gain.f,
            row.sheet,
            source_list(by),
        );
    }
    if faults.is_empty() {
        Ok(format!("static COVERS: [Cover; {}] = [\n{rows}];\n", covers.len()))
    } else {
        Err(faults)
    }
}
