//! From entries to facts.

use super::{
    Bed, Came, Dated, Garden, Happened, Planting, Start, corrections::lay_over, holds::Holds,
};
use crate::journal::{
    About, Entry, Journal, Ulid, What,
    details::{self, CheckIn, Planted, Seeded, Settings, StartSown},
    id::read_id,
};
use chrono::NaiveDateTime;

impl Garden {
    /// The garden as this record tells it.
    #[must_use]
    pub fn fold(journal: &Journal) -> Self {
        Self::fold_without(journal, None)
    }

    /// The same as it would be, were this entry struck; one that is no strike-out itself.
    pub(crate) fn fold_without(journal: &Journal, struck: Option<Ulid>) -> Self {
        let holds = Holds::of(journal, struck);
        let mut folding = Folding::new(journal);
        // First the beds, so that one which is spoken of before its day has its place all the same.
        for entry in &holds.entries {
            if let (What::Bed(details::Bed { gone: false, .. }), Some(id)) =
                (&entry.what, &entry.about.bed)
            {
                folding.bed_at(id);
            }
        }
        folding.unplaced = holds.idle;
        for entry in holds.entries {
            folding.take(entry);
        }
        Self {
            struck: holds.struck,
            corrected: holds.corrected,
            corrected_later: holds.corrected_later,
            unplaced: folding.unplaced,
            unread: journal.unread().count() + journal.strays().len(),
            ..folding.garden
        }
    }
}

/// The garden so far.
struct Folding {
    garden: Garden,
    unplaced: Vec<Ulid>,
    /// What each entry began, in order of ids.
    begun: Vec<(Ulid, Begun)>,
}

/// What an entry began, by its place in the lists of beds and starts.
#[derive(Clone, Copy, PartialEq)]
enum Begun {
    Nothing,
    Start(usize),
    PlantingIn(usize),
}

/// What an entry is about, as far as it is known: places in the lists of beds and starts.
struct Subject {
    bed: Option<usize>,
    start: Option<usize>,
    planting: Option<Ulid>,
}

impl Folding {
    fn new(journal: &Journal) -> Self {
        let begun = journal.entries().map(|entry| (entry.id, Begun::Nothing)).collect();
        Self { garden: Garden::default(), unplaced: Vec::new(), begun }
    }

    fn begun(&self, id: &Option<String>) -> Begun {
        let id = id.as_deref().and_then(read_id);
        let at = id.and_then(|id| self.begun.binary_search_by_key(&id, |it| it.0).ok());
        at.and_then(|at| self.begun.get(at)).map_or(Begun::Nothing, |it| it.1)
    }

    fn begin(&mut self, id: Ulid, begun: Begun) {
        let at = self.begun.binary_search_by_key(&id, |it| it.0).ok();
        if let Some(it) = at.and_then(|at| self.begun.get_mut(at)) {
            it.1 = begun;
        }
    }

    fn take(&mut self, entry: Entry) {
        let subject = self.subject(&entry.about);
        let start = match entry.what {
            What::StartSown(_) => Some(entry.id),
            _ => subject.start.and_then(|at| self.garden.starts.get(at)).map(|start| start.id),
        };
        let bed = match subject.bed.and_then(|at| self.garden.beds.get(at)) {
            Some(bed) => Some(bed.id.clone()),
            None => entry.about.bed.clone(),
        };
        self.garden.happened.push(Happened { entry: entry.clone(), bed, start });
        let id = entry.id;
        let planting_unknown = entry.about.planting.is_some() && subject.planting.is_none();
        if planting_unknown || !self.place(entry, &subject) {
            self.unplaced.push(id);
        }
    }

    fn subject(&mut self, about: &About) -> Subject {
        let start = match self.begun(&about.start) {
            Begun::Start(at) => Some(at),
            _ => None,
        };
        match (self.begun(&about.planting), &about.planting, &about.bed) {
            (Begun::PlantingIn(bed), Some(planting), _) => {
                Subject { bed: Some(bed), start, planting: read_id(planting) }
            }
            (_, None, Some(bed)) => Subject { bed: Some(self.bed_at(bed)), start, planting: None },
            _ => Subject { bed: None, start, planting: None },
        }
    }

    /// The place of a bed in the list, also of one that is not laid out yet: what happened there
    /// is not lost.
    fn bed_at(&mut self, id: &str) -> usize {
        let beds = &mut self.garden.beds;
        beds.iter().position(|bed| bed.id == id).unwrap_or_else(|| {
            beds.push(Bed { id: id.to_owned(), name: id.to_owned(), ..Bed::default() });
            beds.len() - 1
        })
    }

    /// Works the entry into the garden; false when what it is about is not known.
    fn place(&mut self, entry: Entry, subject: &Subject) -> bool {
        let Entry { id, when, what, .. } = entry;
        let garden = &mut self.garden;
        let start = subject.start.and_then(|at| garden.starts.get_mut(at));
        let bed = subject.bed.and_then(|at| garden.beds.get_mut(at));
        match (what, bed, start) {
            (What::Note(_), ..) => {}
            (What::Place(fields), ..) => lay_over(&mut garden.place, fields),
            (What::Settings(settings), ..) => lay_settings_over(&mut garden.settings, settings),
            (What::StartSown(sown), ..) => {
                garden.starts.push(start_from(id, when, sown));
                self.begin(id, Begun::Start(self.garden.starts.len() - 1));
            }
            (What::Reading(what), bed, _) => {
                let readings = bed.map_or(&mut garden.readings, |bed| &mut bed.readings);
                readings.push(Dated { id, when, what });
            }
            (What::FrostSeen(what), bed, _) => {
                let frosts = bed.map_or(&mut garden.frosts, |bed| &mut bed.frosts);
                frosts.push(Dated { id, when, what });
            }
            (What::CheckIn(what), bed, start) => {
                let list = match (bed, start) {
                    (Some(bed), _) => bed.check_ins_of(subject.planting),
                    (None, Some(start)) => &mut start.check_ins,
                    (None, None) => return false,
                };
                list.push(Dated { id, when, what });
            }
            // What a tray was given is told by what happened to it.
            (What::Watered(_) | What::Fed(_), None, Some(_)) => {}
            (What::Planted(planted), Some(bed), start) => {
                bed.grow(planting_of_plants(id, when, planted, start));
                self.begin(id, subject.bed.map_or(Begun::Nothing, Begun::PlantingIn));
            }
            (What::Seeded(seeded), Some(bed), _) => {
                bed.grow(planting_of_seed(id, when, seeded));
                self.begin(id, subject.bed.map_or(Begun::Nothing, Begun::PlantingIn));
            }
            (
                what @ (What::StartPrickedOut(_)
                | What::StartMoved(_)
                | What::StartLost(_)
                | What::HardeningDone(_)),
                _,
                Some(start),
            ) => start.tend(id, when, what),
            (what, Some(bed), _) => return bed.work(id, when, what, subject.planting),
            (_, None, _) => return false,
        }
        true
    }
}

impl Start {
    fn tend(&mut self, id: Ulid, when: NaiveDateTime, what: What) {
        match what {
            What::StartPrickedOut(pricked) => {
                self.pricked_out = Some(when);
                self.left = pricked.count.or(self.left);
                if pricked.container.is_some() {
                    self.container = pricked.container;
                }
            }
            What::StartMoved(moved) => self.spots.push((when, moved.spot)),
            What::StartLost(lost) => self.left = less(self.left, lost.count),
            What::HardeningDone(what) => self.hardening.push(Dated { id, when, what }),
            _ => {}
        }
    }
}

impl Bed {
    /// Works in what was done here; false for what is not done in a bed.
    fn work(&mut self, id: Ulid, when: NaiveDateTime, what: What, planting: Option<Ulid>) -> bool {
        match what {
            What::Bed(laid) => self.lay_out(when, laid),
            What::ResidueLaid(what) => self.residue.push(Dated { id, when, what }),
            What::Covered(what) => self.covered = Some(Dated { id, when, what }),
            What::Uncovered(_) => self.covered = None,
            What::Watered(what) => self.watered.push(Dated { id, when, what }),
            What::Fed(what) => self.fed.push(Dated { id, when, what }),
            What::Reserved(what) => self.reserved.push(Dated { id, when, what }),
            What::Harvest(what) => {
                let crop = what.crop.as_deref();
                if what.all {
                    for planting in self.meant(planting, crop) {
                        planting.picked_clean = Some(when);
                    }
                }
                if what.plants.is_some() {
                    self.take_out(when, planting, crop, what.plants);
                }
                self.harvests.push(Dated { id, when, what });
            }
            What::Cleared(cleared) => {
                self.take_out(when, planting, cleared.crop.as_deref(), cleared.plants);
            }
            _ => return false,
        }
        true
    }

    fn lay_out(&mut self, when: NaiveDateTime, laid: details::Bed) {
        if laid.gone {
            self.gone = Some(when);
            return;
        }
        self.gone = None;
        self.laid_out = self.laid_out.or(Some(when));
        if let Some(name) = laid.name {
            self.name = name;
        }
        if let Some(shape) = laid.bed {
            self.shapes.push((when, shape.clone()));
            self.shape = shape;
        }
    }

    /// The looks at one planting here, in the ground or past, or those at the bed.
    fn check_ins_of(&mut self, planting: Option<Ulid>) -> &mut Vec<Dated<CheckIn>> {
        let mut plantings = self.plantings.iter_mut().chain(&mut self.past);
        match planting.and_then(|id| plantings.find(|it| it.id == id)) {
            Some(planting) => &mut planting.check_ins,
            None => &mut self.check_ins,
        }
    }

    fn grow(&mut self, planting: Planting) {
        self.reserved
            .retain(|kept| kept.what.crop.as_ref().is_some_and(|crop| *crop != planting.crop));
        self.plantings.push(planting);
    }

    /// The plantings in the ground that an entry means, oldest first: the one named, else those
    /// of the crop named, else all.
    fn meant(&mut self, planting: Option<Ulid>, crop: Option<&str>) -> Vec<&mut Planting> {
        let is_meant = |it: &&mut Planting| match (planting, crop) {
            (Some(planting), _) => it.id == planting,
            (None, Some(crop)) => it.crop == crop,
            (None, None) => true,
        };
        self.plantings.iter_mut().filter(is_meant).collect()
    }

    /// Takes out so many of the plants meant, the oldest planting first, or all of them.
    fn take_out(
        &mut self,
        when: NaiveDateTime,
        planting: Option<Ulid>,
        crop: Option<&str>,
        plants: Option<u32>,
    ) {
        let mut meant = self.meant(planting, crop);
        match plants {
            None => meant.iter_mut().for_each(|planting| planting.ended = Some(when)),
            // So many plants of several crops could be any of them.
            Some(_)
                if meant.iter().any(|it| meant.first().is_some_and(|at| at.crop != it.crop)) => {}
            Some(mut plants) => {
                for planting in meant {
                    let Some(left) = planting.left else { continue };
                    let taken = left.min(plants);
                    plants -= taken;
                    planting.left = Some(left - taken);
                    if taken == left {
                        planting.ended = Some(when);
                    }
                }
            }
        }
        let out = self.plantings.extract_if(.., |planting| planting.ended.is_some());
        self.past.extend(out);
    }
}

/// So many fewer, never below none; all gone when the number is absent.
fn less(left: Option<u32>, by: Option<u32>) -> Option<u32> {
    match by {
        None => Some(0),
        Some(by) => left.map(|left| left.saturating_sub(by)),
    }
}

fn lay_settings_over(below: &mut Settings, settings: Settings) {
    below.units = settings.units.or(below.units);
    below.nerve = settings.nerve.or(below.nerve);
    if settings.wheelbarrow.is_some() {
        below.wheelbarrow = settings.wheelbarrow;
    }
}

fn start_from(id: Ulid, when: NaiveDateTime, sown: StartSown) -> Start {
    Start {
        id,
        name: sown.name,
        crop: sown.crop,
        variety: sown.variety,
        sown: when,
        count: sown.count,
        left: sown.count,
        container: sown.container,
        warmth: sown.warmth,
        seed_year: sown.seed_year,
        spots: sown.spot.into_iter().map(|spot| (when, spot)).collect(),
        pricked_out: None,
        check_ins: Vec::new(),
        hardening: Vec::new(),
        plantings: Vec::new(),
    }
}

/// A planting, and the start it came from lessened by it.
fn planting_of_plants(
    id: Ulid,
    since: NaiveDateTime,
    planted: Planted,
    start: Option<&mut Start>,
) -> Planting {
    let mut planting = Planting {
        variety: planted.variety,
        count: planted.count,
        left: planted.count,
        spacing: planted.spacing,
        at: planted.at,
        ..bare_planting(id, since, planted.crop)
    };
    if let Some(start) = start {
        planting.came = Came::Planted(Some(start.id));
        if planting.variety.is_none() {
            planting.variety.clone_from(&start.variety);
        }
        // Who plants without counting leaves an unknown number behind.
        start.left = planted.count.and_then(|count| less(start.left, Some(count)));
        start.plantings.push(id);
    }
    planting
}

fn planting_of_seed(id: Ulid, since: NaiveDateTime, seeded: Seeded) -> Planting {
    Planting {
        came: Came::Seeded,
        variety: seeded.variety,
        count: seeded.count,
        left: seeded.count,
        spacing: seeded.spacing,
        at: seeded.at,
        ..bare_planting(id, since, seeded.crop)
    }
}

fn bare_planting(id: Ulid, since: NaiveDateTime, crop: String) -> Planting {
    Planting {
        id,
        came: Came::Planted(None),
        since,
        crop,
        variety: None,
        count: None,
        left: None,
        spacing: None,
        at: None,
        check_ins: Vec::new(),
        picked_clean: None,
        ended: None,
    }
}
