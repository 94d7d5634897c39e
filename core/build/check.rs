//! Reads the tables and refuses what cannot be right, naming the row and the field.

use std::collections::{BTreeMap, BTreeSet};

use super::fold::fold;
use super::reader::{Pair, Reader, Triple, is_kebab};
use super::tables::{By, Classes, CropRow, Crops, Frost, OneOrMany, Seed, Set, Sources};
use super::words::{
    Deeper, Family, Feeder, Habit, Hardening, Hardiness, Height, Kind, Pick, Spread, Start,
};

/// One row of `crops.toml` that stood every check; numbers are whole and fit their fields.
pub(super) struct Crop {
    pub(super) id: String,
    pub(super) names: Vec<String>,
    pub(super) family: Family,
    pub(super) mixed_with: Option<Family>,
    pub(super) kind: Kind,
    pub(super) starts: Vec<Start>,
    pub(super) habit: Habit,
    pub(super) height: Height,
    pub(super) spread: Spread,
    pub(super) spacing_in: Option<Triple>,
    pub(super) feeder: Option<Feeder>,
    pub(super) feeder_disputed: bool,
    pub(super) pick: Option<Pick>,
    pub(super) pick_days: Option<Pair>,
    pub(super) ready_days: Option<Pair>,
    pub(super) hardiness: Hardiness,
    pub(super) kill_f: Option<Pair>,
    pub(super) cover_f: Option<i32>,
    pub(super) part: Option<(String, i32)>,
    pub(super) hardening: Option<Hardening>,
    pub(super) hardening_air_f: Option<i32>,
    pub(super) weeks: Option<Pair>,
    pub(super) soil_f: Option<i32>,
    pub(super) soil_stop_f: Option<i32>,
    pub(super) deeper: Option<Deeper>,
    pub(super) seeds_per_ounce: Option<Pair>,
    pub(super) pieces_per_pound: Option<Triple>,
    /// Hundredths of a pound on 1000 square feet.
    pub(super) seed_rate: Option<Pair>,
    pub(super) eaten: bool,
    /// What each caution says.
    pub(super) cautions: Vec<String>,
    /// The facet's name and the source's key, in the order of the row.
    pub(super) sources: Vec<(&'static str, String)>,
}

/// Every crop in order of its id, or every fault found.
pub(super) fn crops(
    table: &Crops,
    classes: &Classes,
    sources: &Sources,
) -> Result<Vec<Crop>, Vec<String>> {
    let mut faults = Vec::new();
    class_faults(classes, sources, &mut faults);
    let mut named = BTreeMap::new();
    let mut crops = Vec::new();
    for (id, row) in table {
        let mut reader = Reader { id, sources, found: Vec::new(), faults: &mut faults };
        reader.names(row, &mut named);
        crops.push(reader.crop(row, classes));
    }
    if faults.is_empty() { Ok(crops) } else { Err(faults) }
}

/// Keys are kebab-case and citations say something.
pub(super) fn source_faults(sources: &Sources) -> Vec<String> {
    let mut faults = Vec::new();
    for (key, row) in sources {
        if !is_kebab(key) {
            faults.push(format!(
                "sources.toml: {key}: a key is kebab-case, like garlic-bulletin-2009"
            ));
        }
        if row.cite.trim().is_empty() {
            faults.push(format!("sources.toml: {key}: cite: is empty"));
        }
    }
    faults
}

fn class_faults(classes: &Classes, sources: &Sources, faults: &mut Vec<String>) {
    let mut known = |table: &str, key: String, by: &By| {
        for source in by.as_slice().iter().filter(|source| !sources.contains_key(*source)) {
            faults.push(format!("classes.toml: [{table}] {key}: by: no source \"{source}\""));
        }
    };
    for (family, row) in &classes.family {
        known("family", format!("{family:?}"), &row.by);
    }
    for (class, row) in &classes.hardiness {
        known("hardiness", format!("{class:?}"), &row.by);
    }
    for (class, row) in &classes.hardening {
        known("hardening", format!("{class:?}"), &row.by);
    }
    for (key, row) in &classes.caution {
        known("caution", key.clone(), &row.by);
    }
    let mut warmer: Option<i8> = None;
    for (class, row) in &classes.hardiness {
        if row.cover_f < row.loss_f {
            faults.push(format!("classes.toml: [hardiness] {class:?}: cover_f: below loss_f"));
        }
        if warmer.is_some_and(|cover| cover <= row.cover_f) {
            faults.push(format!(
                "classes.toml: [hardiness] {class:?}: cover_f: not below the tenderer class's"
            ));
        }
        warmer = Some(row.cover_f);
    }
}

impl Reader<'_> {
    fn crop(mut self, row: &CropRow, classes: &Classes) -> Crop {
        let plant = &row.plant;
        if plant.mixed_with == Some(plant.family) {
            self.fault("plant.mixed_with", "is the family itself");
        }
        self.distinct("plant.start", plant.start.as_slice());

        let spacing_in = row.space.as_ref().and_then(|space| {
            self.by("Spacing", "space", &space.by);
            // The wider of two fits ordinary kinds at full size.
            self.three("space.inches", &space.inches, 1.0..=96.0, |_, most| most)
        });
        if let Some(feed) = &row.feed {
            self.by("Feed", "feed", &feed.by);
        }
        let pick_days = row.pick.as_ref().and_then(|pick| {
            self.by("Pick", "pick", &pick.by);
            self.two("pick.every_days", pick.every_days.as_ref()?, 1.0, 1.0..=30.0)
        });
        let ready_days = row.ready.as_ref().and_then(|ready| {
            self.by("Ready", "ready", &ready.by);
            self.two("ready.days", &ready.days, 1.0, 10.0..=400.0)
        });
        let weeks = row.raise.as_ref().and_then(|raise| {
            self.by("Raise", "raise", &raise.by);
            self.two("raise.weeks", &raise.weeks, 1.0, 1.0..=20.0)
        });
        let (kill_f, cover_f) = self.frost(row, classes);
        let part = self.part(&row.frost);
        let hardening_air_f = self.harden(row, classes);
        let (soil_f, soil_stop_f) = row.set.as_ref().map_or((None, None), |set| self.set(set));
        let (seeds_per_ounce, pieces_per_pound, seed_rate) =
            row.seed.as_ref().map_or((None, None, None), |seed| self.seed(seed));
        let cautions = self.cautions(row, classes);

        Crop {
            id: self.id.to_owned(),
            names: row.names.clone(),
            family: plant.family,
            mixed_with: plant.mixed_with,
            kind: plant.kind,
            starts: plant.start.as_slice().to_vec(),
            habit: plant.habit,
            height: plant.height,
            spread: plant.spread,
            spacing_in,
            feeder: row.feed.as_ref().map(|feed| feed.needs),
            feeder_disputed: row.feed.as_ref().is_some_and(|feed| feed.disputed),
            pick: row.pick.as_ref().map(|pick| pick.how),
            pick_days,
            ready_days,
            hardiness: row.frost.class,
            kill_f,
            cover_f,
            part,
            hardening: row.harden.as_ref().map(|harden| harden.class),
            hardening_air_f,
            weeks,
            soil_f,
            soil_stop_f,
            deeper: row.set.as_ref().and_then(|set| set.deeper),
            seeds_per_ounce,
            pieces_per_pound,
            seed_rate,
            eaten: row.eaten.unwrap_or(matches!(plant.kind, Kind::Vegetable | Kind::Herb)),
            cautions,
            sources: self.found,
        }
    }

    fn names(&mut self, row: &CropRow, named: &mut BTreeMap<String, String>) {
        if !is_kebab(self.id) {
            self.fault("id", "is not kebab-case, like bean-snap-bush");
        }
        if row.names.is_empty() {
            self.fault("names", "is empty");
        }
        let mut own = BTreeSet::new();
        for name in &row.names {
            if !own.insert(fold(name)) {
                self.fault(
                    "names",
                    &format!("\"{name}\" stands there twice, but for its spelling"),
                );
            }
        }
        for name in row.names.iter().map(String::as_str).chain([self.id]) {
            let folded = fold(name);
            if folded.is_empty() {
                self.fault("names", "has one without a letter");
            } else if let Some(other) = named.get(&folded).filter(|other| *other != self.id) {
                self.fault("names", &format!("\"{name}\" is a name of [{other}] already"));
            } else {
                named.insert(folded, self.id.to_owned());
            }
        }
    }

    fn frost(&mut self, row: &CropRow, classes: &Classes) -> (Option<Pair>, Option<i32>) {
        let frost = &row.frost;
        self.by("Frost", "frost", &frost.by);
        let kill =
            frost.kill_f.as_ref().and_then(|f| self.two("frost.kill_f", f, 1.0, -60.0..=45.0));
        let own_cover = frost.cover_f.and_then(|f| self.whole("frost.cover_f", f, -60.0..=45.0));
        let class_cover = classes.hardiness.get(&frost.class).map(|row| i32::from(row.cover_f));
        if let (Some([hardiest, tenderest]), Some(cover)) = (kill, own_cover.or(class_cover)) {
            // Twice the middle of the range: what the kinds usual in gardens stand.
            let middle_twice = hardiest + tenderest;
            if 2 * cover < middle_twice {
                self.fault("frost.kill_f", &format!("is above {cover} F, at which it is covered"));
            }
        }
        (kill, own_cover)
    }

    fn part(&mut self, frost: &Frost) -> Option<(String, i32)> {
        if frost.part.is_some() != frost.part_kill_f.is_some() {
            self.fault("frost.part", "goes with part_kill_f: give both or neither");
        }
        let killed_at = self.whole("frost.part_kill_f", frost.part_kill_f?, -60.0..=45.0)?;
        Some((frost.part.clone()?, killed_at))
    }

    fn harden(&mut self, row: &CropRow, classes: &Classes) -> Option<i32> {
        let harden = row.harden.as_ref()?;
        self.by("Harden", "harden", &harden.by);
        let air = self.whole("harden.air_f", harden.air_f?, 32.0..=70.0)?;
        let class_air = classes.hardening.get(&harden.class).map(|row| i32::from(row.air_f));
        if class_air == Some(air) {
            self.fault("harden.air_f", "is the class's own figure: leave it out");
        }
        Some(air)
    }

    fn set(&mut self, set: &Set) -> (Option<i32>, Option<i32>) {
        self.by("PlantOut", "set", &set.by);
        if set.soil_f.is_none() && set.deeper.is_none() {
            self.fault("set", "says nothing: give soil_f or deeper");
        }
        let soil = set.soil_f.and_then(|f| self.whole("set.soil_f", f, 30.0..=90.0));
        let stop = set.stop_f.and_then(|f| self.whole("set.stop_f", f, 30.0..=90.0));
        if stop.is_some() && stop > soil {
            self.fault("set.stop_f", "is above soil_f, or soil_f is missing");
        }
        (soil, stop)
    }

    fn seed(&mut self, seed: &Seed) -> (Option<Pair>, Option<Triple>, Option<Pair>) {
        self.by("Seed", "seed", &seed.by);
        let per_ounce = seed
            .per_ounce
            .as_ref()
            .and_then(|f| self.two("seed.per_ounce", f, 1.0, 5.0..=60_000.0));
        // The fewer of two: what is bought by weight is then enough.
        let pieces = seed
            .pieces_per_pound
            .as_ref()
            .and_then(|f| self.three("seed.pieces_per_pound", f, 1.0..=1000.0, |least, _| least));
        let rate = seed
            .pounds_per_1000_sqft
            .as_ref()
            .and_then(|f| self.two("seed.pounds_per_1000_sqft", f, 100.0, 0.01..=20.0));
        if seed.per_ounce.is_none()
            && seed.pieces_per_pound.is_none()
            && seed.pounds_per_1000_sqft.is_none()
        {
            self.fault("seed", "says nothing");
        }
        (per_ounce, pieces, rate)
    }

    fn cautions(&mut self, row: &CropRow, classes: &Classes) -> Vec<String> {
        let mut said = Vec::new();
        for key in row.caution.iter().flat_map(OneOrMany::as_slice) {
            if let Some(caution) = classes.caution.get(key) {
                self.by("Caution", "caution", &caution.by);
                said.push(caution.say.clone());
            } else {
                self.fault("caution", &format!("no caution \"{key}\" in classes.toml"));
            }
        }
        said
    }
}
