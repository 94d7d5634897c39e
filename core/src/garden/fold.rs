//! From entries to facts.

use super::{Bed, Came, Dated, Garden, Happened, Planting, Start, holds::Holds};
use crate::journal::{
    About, Entry, Journal, Ulid, What,
    details::{self, Object, Planted, Seeded, Settings},
    id::read_id,
};
use chrono::NaiveDateTime;
use std::collections::BTreeMap;

impl Garden {
    /// The garden as this record tells it.
    #[must_use]
    pub fn fold(journal: &Journal) -> Self {
        let holds = Holds::of(journal);
        let mut folding = Folding {
            garden: Self {
                struck: holds.struck,
                corrected: holds.corrected,
                unplaced: holds.idle,
                ..Self::default()
            },
            home: BTreeMap::new(),
        };
        for entry in holds.entries {
            folding.take(entry);
        }
        let mut garden = folding.garden;
        // A bed that the record speaks of before it was laid out comes when it was laid out.
        garden
            .beds
            .sort_by_key(|bed| (bed.laid_out.is_none(), bed.laid_out));
        garden
    }
}

/// The garden so far.
struct Folding {
    garden: Garden,
    /// The bed of each planting.
    home: BTreeMap<Ulid, String>,
}

/// What an entry is about, as far as it is known.
struct Subject {
    bed: Option<String>,
    start: Option<Ulid>,
    planting: Option<Ulid>,
}

impl Folding {
    fn take(&mut self, entry: Entry) {
        let mut subject = self.subject(&entry.about);
        if matches!(entry.what, What::StartSown(_)) {
            subject.start = Some(entry.id);
        }
        if !self.place(&entry, &subject) {
            self.garden.unplaced.insert(entry.id);
        }
        self.garden.happened.push(Happened {
            entry,
            bed: subject.bed,
            start: subject.start,
        });
    }

    fn subject(&self, about: &About) -> Subject {
        let id = |text: &Option<String>| text.as_deref().and_then(read_id);
        let planting = id(&about.planting).filter(|planting| self.home.contains_key(planting));
        let home = planting.and_then(|planting| self.home.get(&planting).cloned());
        let bed = home.or_else(|| about.bed.clone().filter(|bed| !bed.is_empty()));
        let start = id(&about.start).filter(|start| self.garden.start(*start).is_some());
        Subject {
            bed,
            start,
            planting,
        }
    }

    /// Works the entry into the garden; false when what it is about is not known.
    fn place(&mut self, entry: &Entry, subject: &Subject) -> bool {
        let Entry {
            id,
            when,
            about,
            what,
        } = entry;
        let (id, when) = (*id, *when);
        if about.planting.is_some() && subject.planting.is_none() {
            return false;
        }
        match what {
            What::Place(fields) => lay_over(&mut self.garden.place, fields),
            What::Settings(settings) => lay_settings_over(&mut self.garden.settings, settings),
            What::StartSown(sown) => self.garden.starts.push(start(id, when, sown)),
            What::Note(_) => {}
            // These were applied before the fold.
            What::StruckOut(_) | What::Corrected(_) => {}
            What::Reading(reading) => {
                let readings = match self.bed(subject) {
                    Some(bed) => &mut bed.readings,
                    None => &mut self.garden.readings,
                };
                readings.push(Dated {
                    id,
                    when,
                    what: reading.clone(),
                });
            }
            What::FrostSeen(frost) => {
                let frosts = match self.bed(subject) {
                    Some(bed) => &mut bed.frosts,
                    None => &mut self.garden.frosts,
                };
                frosts.push(Dated {
                    id,
                    when,
                    what: frost.clone(),
                });
            }
            What::StartPrickedOut(_)
            | What::StartMoved(_)
            | What::StartLost(_)
            | What::HardeningDone(_) => return self.tend(entry, subject),
            What::CheckIn(look) => {
                let look = Dated {
                    id,
                    when,
                    what: look.clone(),
                };
                if let Some(planting) = subject.planting {
                    let look = |it: &mut Planting| it.check_ins.push(look.clone());
                    self.planting(planting).map(look);
                } else if let Some(start) = self.start(subject) {
                    start.check_ins.push(look);
                } else if let Some(bed) = self.bed(subject) {
                    bed.check_ins.push(look);
                } else {
                    return false;
                }
            }
            // What a tray was given is told by what happened to it.
            What::Watered(_) | What::Fed(_) if subject.start.is_some() => {}
            _ => return self.work(entry, subject),
        }
        true
    }

    /// What is done to a start.
    fn tend(&mut self, entry: &Entry, subject: &Subject) -> bool {
        let when = entry.when;
        let Some(start) = self.start(subject) else {
            return false;
        };
        match &entry.what {
            What::StartPrickedOut(pricked) => {
                start.pricked_out = Some(when);
                start.left = pricked.count.or(start.left);
                start.container = pricked.container.clone().or(start.container.take());
            }
            What::StartMoved(moved) => start.spots.push((when, moved.spot.clone())),
            What::StartLost(lost) => start.left = less(start.left, lost.count),
            What::HardeningDone(day) => {
                start.hardening.push(Dated {
                    id: entry.id,
                    when,
                    what: day.clone(),
                });
            }
            _ => {}
        }
        true
    }

    /// What is done in a bed.
    fn work(&mut self, entry: &Entry, subject: &Subject) -> bool {
        let Entry { id, when, what, .. } = entry;
        let (id, when) = (*id, *when);
        let variety = self.start(subject).and_then(|start| start.variety.clone());
        let Some(bed) = self.bed(subject) else {
            return false;
        };
        match what {
            What::Bed(laid) => lay_out(bed, when, laid),
            What::Planted(planted) => {
                bed.grow(planting_of_plants(
                    id,
                    when,
                    planted,
                    subject.start,
                    variety,
                ));
                self.home.extend(subject.bed.clone().map(|bed| (id, bed)));
                if let Some(start) = self.start(subject) {
                    // Who plants without counting leaves an unknown number behind.
                    start.left = planted
                        .count
                        .and_then(|count| less(start.left, Some(count)));
                    start.plantings.push(id);
                }
            }
            What::Seeded(seeded) => {
                bed.grow(planting_of_seed(id, when, seeded));
                self.home.extend(subject.bed.clone().map(|bed| (id, bed)));
            }
            What::ResidueLaid(laid) => bed.residue.push(Dated {
                id,
                when,
                what: laid.clone(),
            }),
            What::Covered(cover) => {
                bed.covered = Some(Dated {
                    id,
                    when,
                    what: cover.clone(),
                })
            }
            What::Uncovered(_) => bed.covered = None,
            What::Watered(watered) => bed.watered.push(Dated {
                id,
                when,
                what: watered.clone(),
            }),
            What::Fed(fed) => bed.fed.push(Dated {
                id,
                when,
                what: fed.clone(),
            }),
            What::Reserved(kept) => bed.reserved.push(Dated {
                id,
                when,
                what: kept.clone(),
            }),
            What::Harvest(harvest) => {
                let crop = harvest.crop.as_deref();
                bed.harvests.push(Dated {
                    id,
                    when,
                    what: harvest.clone(),
                });
                if harvest.all {
                    for planting in bed.meant(subject.planting, crop) {
                        planting.picked_clean = Some(when);
                    }
                }
                if let Some(plants) = harvest.plants {
                    bed.take_out(when, subject.planting, crop, Some(plants));
                }
            }
            What::Cleared(cleared) => {
                bed.take_out(
                    when,
                    subject.planting,
                    cleared.crop.as_deref(),
                    cleared.plants,
                );
            }
            _ => {}
        }
        true
    }

    /// The bed meant, also one that is not laid out yet: what happened there is not lost.
    fn bed(&mut self, subject: &Subject) -> Option<&mut Bed> {
        let id = subject.bed.as_ref()?;
        let beds = &mut self.garden.beds;
        let at = beds
            .iter()
            .position(|bed| bed.id == *id)
            .unwrap_or_else(|| {
                beds.push(Bed {
                    id: id.clone(),
                    name: id.clone(),
                    ..Bed::default()
                });
                beds.len() - 1
            });
        beds.get_mut(at)
    }

    fn start(&mut self, subject: &Subject) -> Option<&mut Start> {
        let id = subject.start?;
        self.garden.starts.iter_mut().find(|start| start.id == id)
    }

    fn planting(&mut self, id: Ulid) -> Option<&mut Planting> {
        let beds = self.garden.beds.iter_mut();
        let mut all = beds.flat_map(|bed| bed.plantings.iter_mut().chain(&mut bed.past));
        all.find(|planting| planting.id == id)
    }
}

impl Bed {
    fn grow(&mut self, planting: Planting) {
        self.reserved.retain(|kept| {
            kept.what
                .crop
                .as_ref()
                .is_some_and(|crop| *crop != planting.crop)
        });
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
            None => meant
                .iter_mut()
                .for_each(|planting| planting.ended = Some(when)),
            // So many plants of several crops could be any of them.
            Some(_)
                if meant
                    .iter()
                    .any(|it| meant.first().is_some_and(|at| at.crop != it.crop)) => {}
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
        let out = self
            .plantings
            .extract_if(.., |planting| planting.ended.is_some());
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

/// Each field given replaces the one below it; null takes it out.
fn lay_over(below: &mut Object, fields: &Object) {
    for (name, value) in fields {
        if value.is_null() {
            below.remove(name);
        } else {
            below.insert(name.clone(), value.clone());
        }
    }
}

fn lay_settings_over(below: &mut Settings, settings: &Settings) {
    let Settings {
        units,
        wheelbarrow,
        nerve,
    } = settings;
    below.units = units.or(below.units);
    below.nerve = nerve.or(below.nerve);
    if wheelbarrow.is_some() {
        below.wheelbarrow.clone_from(wheelbarrow);
    }
}

fn lay_out(bed: &mut Bed, when: NaiveDateTime, laid: &details::Bed) {
    if laid.gone {
        bed.gone = Some(when);
        return;
    }
    bed.gone = None;
    bed.laid_out = bed.laid_out.or(Some(when));
    if let Some(name) = &laid.name {
        bed.name.clone_from(name);
    }
    if let Some(shape) = &laid.bed {
        bed.shape.clone_from(shape);
        bed.shapes.push((when, shape.clone()));
    }
}

fn start(id: Ulid, when: NaiveDateTime, sown: &details::StartSown) -> Start {
    Start {
        id,
        name: sown.name.clone(),
        crop: sown.crop.clone(),
        variety: sown.variety.clone(),
        sown: when,
        count: sown.count,
        left: sown.count,
        container: sown.container.clone(),
        warmth: sown.warmth.clone(),
        seed_year: sown.seed_year,
        spots: sown.spot.iter().map(|spot| (when, spot.clone())).collect(),
        pricked_out: None,
        check_ins: Vec::new(),
        hardening: Vec::new(),
        plantings: Vec::new(),
    }
}

fn planting_of_plants(
    id: Ulid,
    when: NaiveDateTime,
    planted: &Planted,
    start: Option<Ulid>,
    variety: Option<String>,
) -> Planting {
    Planting {
        variety: planted.variety.clone().or(variety),
        count: planted.count,
        left: planted.count,
        spacing: planted.spacing.clone(),
        at: planted.at.clone(),
        ..bare_planting(id, when, Came::Planted(start), &planted.crop)
    }
}

fn planting_of_seed(id: Ulid, when: NaiveDateTime, seeded: &Seeded) -> Planting {
    Planting {
        variety: seeded.variety.clone(),
        count: seeded.count,
        left: seeded.count,
        spacing: seeded.spacing.clone(),
        at: seeded.at.clone(),
        ..bare_planting(id, when, Came::Seeded, &seeded.crop)
    }
}

fn bare_planting(id: Ulid, since: NaiveDateTime, came: Came, crop: &str) -> Planting {
    Planting {
        id,
        came,
        since,
        crop: crop.to_owned(),
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
