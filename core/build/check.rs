//! Reads the tables and refuses what cannot be right, naming the row and the field.

use std::collections::{BTreeMap, BTreeSet};

use super::fold::fold;
use super::reader::{Pair, Reader, Triple, is_kebab};
use super::tables::{
    By, Classes, ColdRow, Column, CropRow, Crops, Frost, Grow, OneOrMany, Seed, Set, Sources,
};
use super::words::{
    Bolts, ColdHarm, Deeper, Family, Feeder, Habit, Hardening, Hardiness, Height, Kind, Pick, Seen,
    Spread, Start,
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
    pub(super) seen: Seen,
    pub(super) spacing_in: Option<Triple>,
    pub(super) feeder: Option<Feeder>,
    pub(super) feeder_disputed: bool,
    pub(super) pick: Option<Pick>,
    pub(super) pick_days: Option<Pair>,
    pub(super) ready_days: Option<Pair>,
    pub(super) hardiness: Hardiness,
    pub(super) kill_f: Option<Pair>,
    pub(super) cover_f: Option<i32>,
    pub(super) part: Option<(String, i32, Option<[u16; 2]>)>,
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
    /// Hundredths.
    pub(super) water: Option<i32>,
    pub(super) keep_years: Option<i32>,
    pub(super) growth: Option<Growth>,
    pub(super) cold: Option<Cold>,
    pub(super) maggots: bool,
    pub(super) damps_off: bool,
    pub(super) snip: bool,
    pub(super) wait: Option<String>,
    pub(super) not_by_cold_f: Option<i32>,
    pub(super) frost_say: Option<String>,
    pub(super) own_brine: bool,
    /// The facet's name and the source's key, in the order of the row.
    pub(super) sources: Vec<(&'static str, String)>,
}

/// How warmth carries it to its first picking, as the crate has it under the same name.
pub(super) struct Growth {
    pub(super) base_c: i32,
    pub(super) cap_c: i32,
    pub(super) light: bool,
    pub(super) up_sum: Option<i32>,
    pub(super) sown: Option<Pair>,
    pub(super) set: Option<Pair>,
    /// Tenths of a degree.
    pub(super) hot_c: Option<i32>,
    pub(super) young_f: i32,
    pub(super) part_f: Option<i32>,
    pub(super) soil_f: Option<i32>,
    pub(super) winters: bool,
    pub(super) bolts: Option<Bolts>,
    pub(super) bulbs: bool,
}

/// Weeks of cold that make it bolt.
#[derive(Clone, Copy)]
pub(super) struct Cold {
    pub(super) counts: ColdCounts,
    pub(super) after_weeks: u8,
    pub(super) does: ColdHarm,
}

/// As the crate has it under the same names.
#[derive(Clone, Copy)]
pub(super) enum ColdCounts {
    NightsBelow { below_f: u8, days: [u16; 2] },
    Carrot,
    NotFound,
}

/// Crops that a topic is about, or that an item of one is: garlic, and sets, which are of onion.
const ASKED_BY_NAME: [&str; 2] = ["garlic", "onion-bulb"];

/// What must be there for a topic to answer at all.
pub(super) fn missing(table: &Crops) -> Vec<String> {
    let missing = ASKED_BY_NAME.iter().filter(|id| !table.contains_key(**id));
    missing.map(|id| format!("crops.toml: [{id}] is missing: a topic asks for it")).collect()
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
    for (family, row) in &classes.tray {
        row.by.iter().for_each(|by| known("tray", format!("{family:?}"), by));
    }
    for (key, row) in &classes.cold {
        known("cold", key.clone(), &row.by);
    }
    for (key, row) in &classes.cold {
        if cold_counts(row).is_none() {
            faults.push(format!(
                "classes.toml: [cold] {key}: give below_f and days that rise, or counts, or neither"
            ));
        }
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

fn cold_counts(row: &ColdRow) -> Option<ColdCounts> {
    match (row.counts, row.below_f, row.days) {
        (Some(_), None, None) => Some(ColdCounts::Carrot),
        (None, Some(below_f), Some(days)) if days.is_sorted() => {
            Some(ColdCounts::NightsBelow { below_f, days })
        }
        (None, None, None) => Some(ColdCounts::NotFound),
        _ => None,
    }
}

impl Reader<'_> {
    #[expect(clippy::too_many_lines, reason = "a table's row, column by column")]
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
        let water = row.water.as_ref().and_then(|water| {
            self.by("Water", "water", &water.by);
            self.scaled("water.mid_season", water.mid_season, 100.0, 0.3..=1.4)
        });
        let keep_years = row.keep.as_ref().and_then(|keep| {
            self.by("Keep", "keep", &keep.by);
            self.whole("keep.years", keep.years, 1.0..=20.0)
        });
        self.known(row);
        let growth = row.grow.as_ref().and_then(|grow| self.growth(grow));
        let cold = self.cold(row, classes);
        if let Some(wait) = &row.wait {
            self.by("Wait", "wait", &wait.by);
        }
        let not_by_cold_f = row.not_by_cold.as_ref().and_then(|kept| {
            self.by("NotByCold", "not_by_cold", &kept.by);
            self.whole("not_by_cold.air_f", kept.air_f, 32.0..=70.0)
        });
        let families = [Some(plant.family), plant.mixed_with];
        let families = || families.iter().flatten().filter_map(|it| classes.family.get(it));

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
            seen: plant.seen,
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
            water,
            keep_years,
            growth,
            cold,
            maggots: row.maggots.unwrap_or(families().any(|family| family.maggots)),
            damps_off: families().any(|family| family.damps_off),
            snip: row.snip.unwrap_or(classes.family.get(&plant.family).is_some_and(|it| it.snip)),
            wait: row.wait.as_ref().map(|wait| wait.say.clone()),
            not_by_cold_f,
            frost_say: row.frost_say.clone(),
            own_brine: row.own_brine,
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

    fn part(&mut self, frost: &Frost) -> Option<(String, i32, Option<[u16; 2]>)> {
        if frost.part.is_some() != frost.part_kill_f.is_some() {
            self.fault("frost.part", "goes with part_kill_f: give both or neither");
        }
        if frost.part_heat.is_some_and(|[from, to]| frost.part.is_none() || from >= to) {
            self.fault("frost.part_heat", "is [from, to] of a part");
        }
        let killed_at = self.whole("frost.part_kill_f", frost.part_kill_f?, -60.0..=45.0)?;
        Some((frost.part.clone()?, killed_at, frost.part_heat))
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

    /// A figure that every topic asks is there, or is said not to be known.
    fn known(&mut self, row: &CropRow) {
        let start = row.plant.start.as_slice();
        let from_seed = start.contains(&Start::Sow) || start.contains(&Start::Transplant);
        for (column, name, given, asked) in [
            (Column::Water, "water", row.water.is_some(), true),
            (Column::Keep, "keep", row.keep.is_some(), from_seed),
            (Column::Growth, "growth", row.grow.is_some(), true),
        ] {
            match (given, row.not_known.contains(&column)) {
                (true, true) => self.fault(name, "is given, and stands in not_known too"),
                (false, false) if asked => {
                    self.fault(name, "is missing: give it, or name it in not_known");
                }
                _ => {}
            }
        }
    }

    fn growth(&mut self, grow: &Grow) -> Option<Growth> {
        self.by("Growth", "grow", &grow.by);
        if grow.cap_c <= grow.base_c {
            self.fault("grow.cap_c", "is not above base_c");
        }
        if grow.sown.is_none() && grow.set.is_none() {
            self.fault("grow", "says nothing: give sown, set or both");
        }
        if grow.set.is_none() && grow.soil_f.is_some() {
            self.fault("grow.soil_f", "is for setting out: give set too");
        }
        if grow.best_f.is_some() == grow.hot_c.is_some() {
            self.fault("grow.best_f", "is missing, or hot_c stands beside it: give one of them");
        }
        let sum = 50.0..=3000.0;
        let mut pair = |field: &str, sums: &Option<OneOrMany<f64>>| {
            sums.as_ref().and_then(|sums| self.two(field, sums, 1.0, sum.clone()))
        };
        let (sown, set) = (pair("grow.sown", &grow.sown), pair("grow.set", &grow.set));
        let hot_c = match &grow.best_f {
            Some(best) => {
                let [_, most] = self.two("grow.best_f", best, 1.0, 30.0..=110.0)?;
                Some(((f64::from(most) - 32.0) / 0.18).round() as i32)
            }
            None => self.scaled("grow.hot_c", grow.hot_c?, 10.0, 15.0..=40.0),
        };
        Some(Growth {
            base_c: self.whole("grow.base_c", grow.base_c, 0.0..=20.0)?,
            cap_c: self.whole("grow.cap_c", grow.cap_c, 10.0..=40.0)?,
            light: grow.light,
            up_sum: grow.up_sum.and_then(|sum| self.whole("grow.up_sum", sum, 20.0..=600.0)),
            sown,
            set,
            hot_c,
            young_f: self.whole("grow.young_f", grow.young_f, -60.0..=45.0)?,
            part_f: grow.part_f.and_then(|f| self.whole("grow.part_f", f, -60.0..=45.0)),
            soil_f: grow.soil_f.and_then(|f| self.whole("grow.soil_f", f, 30.0..=90.0)),
            winters: grow.winters,
            bolts: grow.bolts,
            bulbs: grow.bulbs,
        })
    }

    fn cold(&mut self, row: &CropRow, classes: &Classes) -> Option<Cold> {
        let key = row.cold.as_ref()?;
        let Some(class) = classes.cold.get(key) else {
            self.fault("cold", &format!("no [cold] \"{key}\" in classes.toml"));
            return None;
        };
        self.by("Cold", "cold", &class.by);
        let counts = cold_counts(class)?;
        Some(Cold { counts, after_weeks: class.after_weeks, does: class.does })
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
