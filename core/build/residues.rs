//! What beds are covered with and fed with: the tables `residues.toml`, `heaps.toml` and
//! `nitrogen_products.toml` read, checked and written out.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde::Deserialize;

use super::emit::source_list;
use super::fold::fold;
use super::reader::is_kebab;
use super::residue_words::{ResidueGroup, ResidueKind, Toxins, Watch};
use super::tables::{By, OneOrMany, Sources};
use super::words::Family;

/// `residues.toml`, by id.
pub(super) type Residues = BTreeMap<String, ResidueRow>;
/// `heaps.toml`, by key.
pub(super) type Heaps = BTreeMap<String, HeapRow>;
/// `nitrogen_products.toml`, by id.
pub(super) type Products = BTreeMap<String, ProductRow>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ResidueRow {
    group: ResidueGroup,
    names: Vec<String>,
    c_to_n: Ratio,
    dry: u8,
    heap: String,
    #[serde(default = "carbon_of_plants")]
    carbon: u8,
    #[serde(default = "plant")]
    kind: ResidueKind,
    toxins: Option<Toxins>,
    #[serde(default)]
    fine: bool,
    family: Option<Family>,
    #[serde(default)]
    watch: Vec<Watch>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Ratio {
    ratio: OneOrMany<f64>,
    #[serde(default)]
    doubtful: bool,
    by: Option<By>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HeapRow {
    lb_per_yd3: OneOrMany<u16>,
    by: Option<By>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ProductRow {
    name: String,
    percent: f64,
    by: Option<By>,
    available: f64,
    available_by: Option<By>,
    caution: Option<String>,
}

fn carbon_of_plants() -> u8 {
    42
}

fn plant() -> ResidueKind {
    ResidueKind::Plant
}

/// The tables as Rust, or every fault found, by row and field.
pub(super) fn tables(
    residues: &Residues,
    heaps: &Heaps,
    products: &Products,
    sources: &Sources,
) -> Result<String, Vec<String>> {
    let mut check = Check { sources, faults: Vec::new() };
    let rows: String = residues.iter().map(|(id, row)| check.residue(id, row, heaps)).collect();
    check.names(residues);
    for (key, heap) in heaps {
        check.three("heaps.toml", key, "lb_per_yd3", heap.lb_per_yd3.as_slice());
        if !residues.values().any(|row| row.heap == *key) {
            check.fault("heaps.toml", key, "", "no residue lies so");
        }
    }
    let meals: String = products.iter().map(|(id, row)| check.product(id, row)).collect();
    if !check.faults.is_empty() {
        return Err(check.faults);
    }
    Ok(format!(
        "static RESIDUES: [Residue; {}] = [\n{rows}];\n\nstatic PRODUCTS: [Product; {}] = [\n{meals}];\n",
        residues.len(),
        products.len()
    ))
}

struct Check<'a> {
    sources: &'a Sources,
    faults: Vec<String>,
}

impl Check<'_> {
    fn residue(&mut self, id: &str, row: &ResidueRow, heaps: &Heaps) -> String {
        const FILE: &str = "residues.toml";
        let tenths: Vec<u16> =
            row.c_to_n.ratio.as_slice().iter().map(|r| (r * 10.0).round() as u16).collect();
        let ratio = self.three(FILE, id, "c_to_n.ratio", &tenths);
        if ratio.iter().any(|tenths| !(50..=6000).contains(tenths)) {
            self.fault(FILE, id, "c_to_n.ratio", "is not between 5 and 600");
        }
        for (field, percent) in [("dry", row.dry), ("carbon", row.carbon)] {
            if !(1..=100).contains(&percent) {
                self.fault(FILE, id, field, "is no share of a hundred");
            }
        }
        let heap = heaps.get(&row.heap);
        if heap.is_none() {
            self.fault(FILE, id, "heap", "is no row of heaps.toml");
        }
        let lb = heap.map_or([0; 3], |heap| {
            self.three("heaps.toml", &row.heap, "lb_per_yd3", heap.lb_per_yd3.as_slice())
        });
        let mut by = self.by(FILE, id, "c_to_n.by", row.c_to_n.by.as_ref());
        let heap_by = self.by(FILE, id, "heap", heap.and_then(|heap| heap.by.as_ref()));
        for key in heap_by {
            if !by.contains(&key) {
                by.push(key);
            }
        }
        let watch: String = row.watch.iter().map(|watch| format!("Watch::{watch:?}, ")).collect();
        let (name, also) =
            row.names.split_first().map_or(("", &[][..]), |(name, also)| (name, also));
        let fine = row.fine;
        let family =
            row.family.map_or("None".to_owned(), |family| format!("Some(Family::{family:?})"));
        let toxins =
            row.toxins.map_or("None".to_owned(), |toxins| format!("Some(Toxins::{toxins:?})"));
        format!(
            "    Residue {{ id: {id:?}, name: {name:?}, also: &{also:?}, ratio_tenths: {ratio:?}, \
             doubtful: {}, dry_percent: {}, carbon_percent: {}, heap_lb_per_yd3: {lb:?}, \
             group: ResidueGroup::{:?}, kind: ResidueKind::{:?}, family: {family}, toxins: {toxins}, fine: {fine}, watch: &[{watch}], sources: {} }},\n",
            row.c_to_n.doubtful,
            row.dry,
            row.carbon,
            row.group,
            row.kind,
            source_list(&OneOrMany::Many(by)),
        )
    }

    fn product(&mut self, id: &str, row: &ProductRow) -> String {
        const FILE: &str = "nitrogen_products.toml";
        if !is_kebab(id) {
            self.fault(FILE, id, "id", "is not kebab-case, like blood-meal");
        }
        if !(0.5..=50.0).contains(&row.percent) {
            self.fault(FILE, id, "percent", "is not between 0.5 and 50");
        }
        if !(0.05..=1.0).contains(&row.available) {
            self.fault(FILE, id, "available", "is not between 0.05 and 1");
        }
        let mut by = self.by(FILE, id, "by", row.by.as_ref());
        for key in self.by(FILE, id, "available_by", row.available_by.as_ref()) {
            if !by.contains(&key) {
                by.push(key);
            }
        }
        format!(
            "    Product {{ id: {id:?}, name: {:?}, nitrogen_tenths: {}, available_percent: {}, \
             caution: {:?}, sources: {} }},\n",
            row.name,
            (row.percent * 10.0).round() as u16,
            (row.available * 100.0).round() as u8,
            row.caution,
            source_list(&OneOrMany::Many(by)),
        )
    }

    /// One figure stands for all three.
    fn three(&mut self, file: &str, id: &str, field: &str, figures: &[u16]) -> [u16; 3] {
        match figures {
            [only] => [*only; 3],
            [least, usual, most] if least <= usual && usual <= most => [*least, *usual, *most],
            _ => {
                self.fault(file, id, field, "takes one figure, or three that rise");
                [0; 3]
            }
        }
    }

    fn by(&mut self, file: &str, id: &str, field: &str, by: Option<&By>) -> Vec<String> {
        let common = || vec!["common-practice".to_owned()];
        let keys = by.map_or_else(common, |by| by.as_slice().to_vec());
        for key in keys.iter().filter(|key| !self.sources.contains_key(*key)) {
            self.faults
                .push(format!("{file}: [{id}] {field}: no source \"{key}\" in sources.toml"));
        }
        keys
    }

    /// No two residues may be called alike.
    fn names(&mut self, residues: &Residues) {
        const FILE: &str = "residues.toml";
        let mut named: BTreeMap<String, &str> = BTreeMap::new();
        for (id, row) in residues {
            if !is_kebab(id) {
                self.fault(FILE, id, "id", "is not kebab-case, like pea-vines");
            }
            if row.names.is_empty() {
                self.fault(FILE, id, "names", "is empty");
            }
            for name in row.names.iter().map(String::as_str).chain([id.as_str()]) {
                match named.insert(fold(name), id) {
                    Some(other) if other != id.as_str() => {
                        self.fault(
                            FILE,
                            id,
                            "names",
                            &format!("\"{name}\" is a name of [{other}] already"),
                        );
                    }
                    _ => {}
                }
            }
        }
    }

    fn fault(&mut self, file: &str, id: &str, field: &str, why: &str) {
        let mut fault = String::new();
        // Writing to a String cannot fail.
        let _ = write!(fault, "{file}: [{id}] {field}: {why}");
        self.faults.push(fault);
    }
}
