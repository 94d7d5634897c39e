//! What beds are covered with, and what they are fed with when the cover holds their nitrogen.
//!
//! The figures stand in `core/data/residues.toml`, `heaps.toml` and `nitrogen_products.toml`.

use uom::si::{
    f64::{MassDensity, Ratio},
    mass_density::{kilogram_per_cubic_meter, pound_per_cubic_yard},
    ratio::percent,
};

use super::find::{Folded, Named, exact, find};
use super::residue_words::{ResidueGroup, ResidueKind, Toxins, Watch};
use super::words::Family;
use crate::source::Source;

/// How far one material of which one figure is known differs from it. Common practice.
const SPREAD: f64 = 0.2;

/// The same where not even that figure was measured. Common practice.
const DOUBTFUL_SPREAD: f64 = 0.4;

/// One material of the catalogue.
pub struct Residue {
    id: &'static str,
    name: &'static str,
    also: &'static [&'static str],
    ratio_tenths: [u16; 3],
    doubtful: bool,
    dry_percent: u8,
    carbon_percent: u8,
    heap_lb_per_yd3: [u16; 3],
    group: ResidueGroup,
    kind: ResidueKind,
    family: Option<Family>,
    toxins: Option<Toxins>,
    watch: &'static [Watch],
    sources: &'static [Source],
}

/// A product that gives nitrogen.
pub struct Product {
    id: &'static str,
    name: &'static str,
    nitrogen_tenths: u16,
    available_percent: u8,
    caution: Option<&'static str>,
    sources: &'static [Source],
}

include!(concat!(env!("OUT_DIR"), "/residues.rs"));

/// The groups of the list that a gardener picks from, in its order, each with its words.
pub const RESIDUE_GROUPS: [(ResidueGroup, &str); 5] = [
    (ResidueGroup::Vegetables, "Vegetables"),
    (ResidueGroup::Weeds, "Weeds and grass"),
    (ResidueGroup::CoverCrops, "Cover crops"),
    (ResidueGroup::Dry, "Straw, hay, leaves, wood"),
    (ResidueGroup::Rotted, "Compost and manure"),
];

/// Every residue, in order of its id.
pub fn residues() -> &'static [Residue] {
    &RESIDUES
}

/// Every product that gives nitrogen, in order of its id.
pub fn nitrogen_products() -> &'static [Product] {
    &PRODUCTS
}

/// The residue of this id, name or other common name, written however.
///
/// # Errors
/// The three nearest by name, the nearest first.
pub fn residue(name: &str) -> Result<&'static Residue, Vec<&'static Residue>> {
    find(name, residues())
}

/// The residue of this id, name or other common name, where what is near it is not asked.
pub(crate) fn known_residue(name: &str) -> Option<&'static Residue> {
    exact(name, residues())
}

impl Named for Residue {
    fn id(&self) -> &'static str {
        self.id
    }

    fn name(&self) -> &'static str {
        self.name
    }

    fn also(&self) -> &'static [&'static str] {
        self.also
    }

    fn folded() -> &'static Folded<Self> {
        static FOLDED: Folded<Residue> = Folded::new();
        &FOLDED
    }
}

impl Residue {
    /// Kebab-case and lasting: `pea-vines`. Other programs rely on it.
    pub fn id(&self) -> &'static str {
        self.id
    }

    /// The plain name: "Pea vines, green".
    pub fn name(&self) -> &'static str {
        self.name
    }

    /// Other common names.
    pub fn also(&self) -> &'static [&'static str] {
        self.also
    }

    /// Carbon to nitrogen by mass: when soft and green, as usual, when woody. Where one figure is
    /// known the ends lie 20 % off it, 40 % where it is doubtful.
    ///
    /// Of oat straw one figure is known, so its ends lie 20 % off it:
    /// ```
    /// use pegline_core::catalogue::residue;
    /// let straw = residue("oat straw").ok().unwrap();
    /// assert_eq!(straw.carbon_to_nitrogen(), [56.0, 70.0, 84.0]);
    /// ```
    pub fn carbon_to_nitrogen(&self) -> [f64; 3] {
        let [soft, usual, woody] = self.ratio_tenths.map(|tenths| f64::from(tenths) / 10.0);
        if soft < woody {
            return [soft, usual, woody];
        }
        let spread = if self.doubtful { DOUBTFUL_SPREAD } else { SPREAD };
        [usual * (1.0 - spread), usual, usual * (1.0 + spread)]
    }

    /// Whether its stage is worth asking for: soft and green, or woody.
    pub fn stage_matters(&self) -> bool {
        let [soft, _, woody] = self.ratio_tenths;
        soft < woody
    }

    /// Whether no measurement of the material itself stands behind its C:N.
    pub fn is_doubtful(&self) -> bool {
        self.doubtful
    }

    /// Share of dry matter as it lies, 0 to 1.
    pub fn dry_share(&self) -> f64 {
        f64::from(self.dry_percent) / 100.0
    }

    /// Whether it is dry as it lies: straw, hay, dead haulm.
    pub fn lies_dry(&self) -> bool {
        60 <= self.dry_percent
    }

    /// Share of carbon in dry matter, 0 to 1.
    pub(crate) fn carbon_share(&self) -> f64 {
        f64::from(self.carbon_percent) / 100.0
    }

    /// What a loose heap weighs as it lies: least, usual, most.
    pub fn heap(&self) -> [MassDensity; 3] {
        self.heap_lb_per_yd3.map(|lb| MassDensity::new::<pound_per_cubic_yard>(f64::from(lb)))
    }

    /// Where it stands in the list that a gardener picks from.
    pub fn group(&self) -> ResidueGroup {
        self.group
    }

    /// What it is.
    pub fn kind(&self) -> ResidueKind {
        self.kind
    }

    /// Whose plant it is, where that is one family.
    pub fn family(&self) -> Option<Family> {
        self.family
    }

    /// Whether its fresh residue hinders seeds longer than other greens.
    pub fn toxins(&self) -> Option<Toxins> {
        self.toxins
    }

    /// What to look for before it is laid.
    pub fn watch(&self) -> &'static [Watch] {
        self.watch
    }

    /// What its figures rest on.
    pub fn sources(&self) -> &'static [Source] {
        self.sources
    }
}

impl Product {
    /// Kebab-case and lasting: `blood-meal`.
    pub fn id(&self) -> &'static str {
        self.id
    }

    /// The plain name: "Blood meal".
    pub fn name(&self) -> &'static str {
        self.name
    }

    /// Share of nitrogen, 0 to 1.
    pub fn nitrogen_share(&self) -> Ratio {
        Ratio::new::<percent>(f64::from(self.nitrogen_tenths) / 10.0)
    }

    /// Share of that which plants can take within four to eight weeks, 0 to 1.
    pub fn available_share(&self) -> Ratio {
        Ratio::new::<percent>(f64::from(self.available_percent))
    }

    /// What to mind when using it.
    pub fn caution(&self) -> Option<&'static str> {
        self.caution
    }

    /// What its figures rest on.
    pub fn sources(&self) -> &'static [Source] {
        self.sources
    }
}

/// One residue in the answer to the topic `catalogue`.
#[derive(Clone, Debug, serde::Serialize)]
pub struct ResidueRow {
    /// The id to ask with.
    pub id: &'static str,
    /// Plain name.
    pub name: &'static str,
    /// Other names that are understood.
    pub also: &'static [&'static str],
    /// What it is.
    pub kind: ResidueKind,
    /// Carbon to nitrogen when soft and green, as usual, and when woody.
    pub carbon_to_nitrogen: [f64; 3],
    /// Whether its stage is worth telling: soft, mixed or woody.
    pub stage_matters: bool,
    /// Whether no measurement of the material itself stands behind that.
    pub doubtful: bool,
    /// Share of dry matter as it lies.
    pub dry_share: f64,
    /// Share of carbon in dry matter.
    pub carbon_share: f64,
    /// What a loose heap weighs: least, usual, most.
    pub heap_kg_per_m3: [f64; 3],
    /// Whose fresh residue hinders seeds longer than other greens; null for the rest.
    pub toxins: Option<Toxins>,
    /// What to look for before it is laid.
    pub watch: &'static [Watch],
    /// Where the figures come from.
    pub sources: &'static [Source],
}

impl Residue {
    /// The row as the door gives it.
    pub fn row(&self) -> ResidueRow {
        let tenth = |value: f64| (value * 10.0).round() / 10.0;
        ResidueRow {
            id: self.id,
            name: self.name,
            also: self.also,
            kind: self.kind,
            carbon_to_nitrogen: self.carbon_to_nitrogen().map(tenth),
            stage_matters: self.stage_matters(),
            doubtful: self.doubtful,
            dry_share: self.dry_share(),
            carbon_share: self.carbon_share(),
            heap_kg_per_m3: self.heap().map(|heap| tenth(heap.get::<kilogram_per_cubic_meter>())),
            toxins: self.toxins,
            watch: self.watch,
            sources: self.sources,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_residue_is_found_by_each_of_its_names() {
        for one in residues() {
            for name in [one.id, one.name].into_iter().chain(one.also.iter().copied()) {
                assert_eq!(residue(name).ok().map(Residue::id), Some(one.id), "{name}");
            }
        }
    }

    #[test]
    fn a_misspelt_residue_brings_the_nearest() {
        let nearest = residue("pea vine grene").err().unwrap();
        assert_eq!(nearest.len(), 3);
        assert!(nearest.iter().any(|near| near.id == "pea-vines"));
    }

    #[test]
    fn one_figure_known_has_ends_about_it() {
        assert_eq!(residue("oat-straw").ok().unwrap().carbon_to_nitrogen(), [56.0, 70.0, 84.0]);
        assert_eq!(residue("bean-tops").ok().unwrap().carbon_to_nitrogen(), [14.0, 18.0, 22.0]);
    }
}
