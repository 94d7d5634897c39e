//! `kinds.toml`: words for several crops, checked and written out.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde::Deserialize;

use super::fold::fold;
use super::tables::Crops;

/// The file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Kinds {
    meant: BTreeMap<String, Vec<String>>,
    #[serde(rename = "use")]
    used: BTreeMap<String, Vec<String>>,
}

/// The tables as Rust, their words folded; or every fault found.
pub(super) fn written(kinds: &Kinds, crops: &Crops) -> Result<String, Vec<String>> {
    let mut faults = Vec::new();
    let mut out = String::new();
    for (table, name, words) in [("meant", "MEANT", &kinds.meant), ("use", "USED", &kinds.used)] {
        let mut rows = String::new();
        for (word, ids) in words {
            let mut fault = |why: &str| faults.push(format!("kinds.toml: [{table}] {word}: {why}"));
            if ids.is_empty() {
                fault("names no crop");
            }
            for id in ids.iter().filter(|id| !crops.contains_key(*id)) {
                fault(&format!("no crop \"{id}\" in crops.toml"));
            }
            let folded = fold(word);
            let named = crops.iter().find(|(id, row)| {
                fold(id) == folded || row.names.iter().any(|name| fold(name) == folded)
            });
            if let Some((id, _)) = named {
                fault(&format!("is a name of [{id}] already"));
            }
            // Writing to a String cannot fail.
            let _ = writeln!(rows, "    ({folded:?}, &{ids:?}),");
        }
        let _ = writeln!(out, "static {name}: [(&str, &[&str]); {}] = [\n{rows}];\n", words.len());
    }
    if faults.is_empty() { Ok(out) } else { Err(faults) }
}
