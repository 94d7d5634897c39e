//! The garden as the record tells it: facts only, no judgement.
//!
//! [`Garden::fold`] reads the entries that hold in order of (when, id). What a fact means (is
//! the bed free, is the start too old) is for the topics to say.

mod bed_asked;
mod corrections;
mod fold;
mod holds;
mod soil;
#[cfg(test)]
mod tests;

pub(crate) use bed_asked::needed_bed;
pub use corrections::{Corrections, GaveWay};

use crate::journal::{
    Entry, Sites, Ulid,
    details::{
        CheckIn, Covered, Fed, FrostSeen, HardeningDone, Harvest, Object, Reading, Reserved,
        ResidueLaid, Settings, Watered,
    },
};
use crate::quantity::System;
use chrono::{NaiveDate, NaiveDateTime};

/// Everything the record says about the garden.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Garden {
    /// The gardener's own settings.
    pub settings: Settings,
    /// What is known of the place, in the field names of the door's `site`.
    pub place: Object,
    /// The beds in the order in which they were laid out; those taken away stay among them.
    pub beds: Vec<Bed>,
    /// The starts in the order in which they were sown; those used up stay among them.
    pub starts: Vec<Start>,
    /// Readings not taken at a bed.
    pub readings: Vec<Dated<Reading>>,
    /// Frosts not seen at a bed.
    pub frosts: Vec<Dated<FrostSeen>>,
    /// All that happened, oldest first: the entries that hold, as they read now.
    pub happened: Vec<Happened>,
    /// The entries that do not count because they were struck, in order of ids.
    pub struck: Vec<Ulid>,
    /// The corrections of the entries that read otherwise, in order of these entries' ids.
    pub corrected: Vec<Corrections>,
    /// The entries struck that were corrected after that, in order of ids.
    pub corrected_later: Vec<Ulid>,
    /// The entries that changed nothing because what they are about is not known.
    pub unplaced: Vec<Ulid>,
    /// How many texts of the record can't be read, so that nothing here rests on them.
    pub unread: usize,
}

/// One thing that happened.
#[derive(Clone, Debug, PartialEq)]
pub struct Happened {
    /// The entry, corrections applied.
    pub entry: Entry,
    /// The bed it concerns, by id, also when the entry names only a planting there.
    pub bed: Option<String>,
    /// The start it concerns.
    pub start: Option<Ulid>,
}

/// A fact with its date and the entry that tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct Dated<T> {
    /// The entry.
    pub id: Ulid,
    /// The local date and time at which it happened.
    pub when: NaiveDateTime,
    /// The fact.
    pub what: T,
}

/// A bed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bed {
    /// Its id, as entries name it.
    pub id: String,
    /// What the gardener calls it.
    pub name: String,
    /// Its shape, in the field names of the door's `bed`; empty while not told.
    pub shape: Object,
    /// Every shape it had, oldest first, each with the moment from which it held.
    pub shapes: Vec<(NaiveDateTime, Object)>,
    /// When it was laid out; nothing while the record only speaks of it.
    pub laid_out: Option<NaiveDateTime>,
    /// When it was taken away.
    pub gone: Option<NaiveDateTime>,
    /// What grows there, oldest first.
    pub plantings: Vec<Planting>,
    /// What grew there and came out, in the order in which it came out.
    pub past: Vec<Planting>,
    /// Residue laid, oldest first.
    pub residue: Vec<Dated<ResidueLaid>>,
    /// Looks at the bed, oldest first.
    pub check_ins: Vec<Dated<CheckIn>>,
    /// Readings taken there, oldest first.
    pub readings: Vec<Dated<Reading>>,
    /// Frosts seen there, oldest first.
    pub frosts: Vec<Dated<FrostSeen>>,
    /// What was picked there, oldest first.
    pub harvests: Vec<Dated<Harvest>>,
    /// Waterings, oldest first.
    pub watered: Vec<Dated<Watered>>,
    /// Feedings, oldest first.
    pub fed: Vec<Dated<Fed>>,
    /// The cover that lies on it.
    pub covered: Option<Dated<Covered>>,
    /// What it is kept for.
    pub reserved: Vec<Dated<Reserved>>,
}

/// How a planting came into its bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Came {
    /// As plants, from this start if it is known.
    Planted(Option<Ulid>),
    /// As seed.
    Seeded,
}

/// One crop planted or sown in a bed at one time.
#[derive(Clone, Debug, PartialEq)]
pub struct Planting {
    /// The entry in which it was planted or sown.
    pub id: Ulid,
    /// How it came there.
    pub came: Came,
    /// Since when.
    pub since: NaiveDateTime,
    /// The crop, as entries name it.
    pub crop: String,
    /// The variety; that of the start when the planting does not tell.
    pub variety: Option<String>,
    /// How many plants there were.
    pub count: Option<u32>,
    /// How many are left; nothing while the count is not known.
    pub left: Option<u32>,
    /// The space between them, a length.
    pub spacing: Option<String>,
    /// Where they stand.
    pub at: Option<Sites>,
    /// Looks at this planting, oldest first.
    pub check_ins: Vec<Dated<CheckIn>>,
    /// When nothing was left to pick. The plants may still be there.
    pub picked_clean: Option<NaiveDateTime>,
    /// When it came out.
    pub ended: Option<NaiveDateTime>,
}

/// A tray of starts.
#[derive(Clone, Debug, PartialEq)]
pub struct Start {
    /// The entry in which it was sown.
    pub id: Ulid,
    /// What the gardener calls it, if not by its crop.
    pub name: Option<String>,
    /// The crop, as entries name it.
    pub crop: String,
    /// The variety.
    pub variety: Option<String>,
    /// When it was sown.
    pub sown: NaiveDateTime,
    /// How many cells were sown.
    pub count: Option<u32>,
    /// How many plants are left; nothing while that is not known.
    pub left: Option<u32>,
    /// What they stand in.
    pub container: Option<String>,
    /// The mean temperature the tray is kept at.
    pub warmth: Option<String>,
    /// The year the seed was grown or packed for.
    pub seed_year: Option<u16>,
    /// Every spot it stood at, oldest first, each with the moment from which it stood there.
    pub spots: Vec<(NaiveDateTime, String)>,
    /// When it was last moved into larger room.
    pub pricked_out: Option<NaiveDateTime>,
    /// Looks at the tray, oldest first.
    pub check_ins: Vec<Dated<CheckIn>>,
    /// Days outdoors, oldest first.
    pub hardening: Vec<Dated<HardeningDone>>,
    /// The plantings made from it, oldest first.
    pub plantings: Vec<Ulid>,
}

/// A crop that grew in a bed, for rotation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Grown<'a> {
    /// The crop, as entries name it.
    pub crop: &'a str,
    /// When it came into the bed.
    pub from: NaiveDateTime,
    /// When it came out; nothing while it grows there.
    pub to: Option<NaiveDateTime>,
}

impl Garden {
    /// The system of units the gardener chose.
    #[must_use]
    pub fn units(&self) -> System {
        self.settings.units.unwrap_or_default()
    }

    /// A name for the next bed, where the gardener gives none.
    #[must_use]
    pub fn next_bed_name(&self) -> String {
        let taken = |name: &str| self.beds.iter().any(|bed| bed.name == name);
        let free = (1u32..).map(|number| format!("Bed {number}")).find(|name| !taken(name));
        // OK because there are fewer beds than numbers.
        free.unwrap_or_default()
    }

    /// The bed with this id.
    #[must_use]
    pub fn bed(&self, id: &str) -> Option<&Bed> {
        self.beds.iter().find(|bed| bed.id == id)
    }

    /// The start with this id.
    #[must_use]
    pub fn start(&self, id: Ulid) -> Option<&Start> {
        self.starts.iter().find(|start| start.id == id)
    }

    /// The planting with this id, in the ground or past, and its bed.
    #[must_use]
    pub fn planting(&self, id: Ulid) -> Option<(&Bed, &Planting)> {
        self.beds.iter().find_map(|bed| {
            let planting = bed.plantings.iter().chain(&bed.past).find(|it| it.id == id)?;
            Some((bed, planting))
        })
    }

    /// Whether this entry was struck.
    #[must_use]
    pub fn is_struck(&self, id: Ulid) -> bool {
        self.struck.binary_search(&id).is_ok()
    }

    /// The corrections of this entry, if it reads otherwise.
    #[must_use]
    pub fn corrections(&self, id: Ulid) -> Option<&Corrections> {
        let at = self.corrected.binary_search_by_key(&id, |it| it.target).ok()?;
        self.corrected.get(at)
    }

    /// The corrections that one made now is made over, in order of their ids.
    #[must_use]
    pub fn latest_corrections(&self, id: Ulid) -> &[Ulid] {
        self.corrections(id).map_or(&[], |it| it.latest.as_slice())
    }

    /// What happened in a bed, newest first.
    pub fn happened_in<'a>(&'a self, bed: &'a str) -> impl Iterator<Item = &'a Happened> {
        self.happened.iter().rev().filter(move |it| it.bed.as_deref() == Some(bed))
    }

    /// What happened to a start, newest first.
    pub fn happened_to(&self, start: Ulid) -> impl Iterator<Item = &Happened> {
        self.happened.iter().rev().filter(move |it| it.start == Some(start))
    }

    /// An id for a new bed of this name that no bed has: `fence-bed`, then `fence-bed-2`.
    #[must_use]
    pub fn free_bed_id(&self, name: &str) -> String {
        let slug = slug(name, LONGEST_SLUG);
        let mut id = slug.clone();
        let mut number = 2_u32;
        // OK because every round meets another bed, and there are only so many.
        while self.bed(&id).is_some() {
            id = format!("{slug}-{number}");
            number += 1;
        }
        id
    }

    /// An id for a new bed of this name that no bed of this phone or another has: with the last letters of
    /// the id of the entry that lays it out, which are chance. `fence-bed-x7k2q`.
    #[must_use]
    pub fn new_bed_id(&self, name: &str, entry: Ulid) -> String {
        let entry = entry.to_string().to_ascii_lowercase();
        let letters = entry.get(entry.len().saturating_sub(LETTERS)..).unwrap_or_default();
        let id = format!("{}-{letters}", slug(name, LONGEST_SLUG - LETTERS - 1));
        if self.bed(&id).is_some() { self.free_bed_id(&id) } else { id }
    }
}

impl Bed {
    /// The shape the bed had at a moment, by which the holes of an older planting are counted.
    /// Before the first one told, the first.
    #[must_use]
    pub fn shape_at(&self, moment: NaiveDateTime) -> &Object {
        let then = self.shapes.iter().rev().find(|(from, _)| *from <= moment);
        then.or(self.shapes.first()).map_or(&self.shape, |(_, shape)| shape)
    }

    /// Since when nothing grows there; nothing while something does, or when it is not known.
    #[must_use]
    pub fn empty_since(&self) -> Option<NaiveDateTime> {
        if self.plantings.is_empty() {
            self.past.iter().filter_map(|planting| planting.ended).max().max(self.laid_out)
        } else {
            None
        }
    }

    /// Since when something grows there without a break in the oldest of it.
    #[must_use]
    pub fn planted_since(&self) -> Option<NaiveDateTime> {
        self.plantings.iter().map(|planting| planting.since).min()
    }

    /// What it is still kept for on this day.
    pub fn kept(&self, today: NaiveDate) -> impl Iterator<Item = &Reserved> {
        let kept = self.reserved.iter().map(|reserved| &reserved.what);
        kept.filter(move |kept| kept.until.is_none_or(|until| until >= today))
    }

    /// All that grew there, oldest first. What was told of the years before the record is in
    /// the shape's `history`.
    #[must_use]
    pub fn grown(&self) -> Vec<Grown<'_>> {
        let mut grown = Vec::new();
        for it in self.past.iter().chain(&self.plantings) {
            // By hand, since one more sort weighs more than a bed's few plantings take time.
            let after = grown.partition_point(|before: &Grown<'_>| before.from <= it.since);
            grown.insert(after, Grown { crop: &it.crop, from: it.since, to: it.ended });
        }
        grown
    }
}

impl Start {
    /// Whether plants are left in it, as far as is known.
    #[must_use]
    pub fn is_growing(&self) -> bool {
        self.left != Some(0)
    }

    /// Where it stands.
    #[must_use]
    pub fn spot(&self) -> Option<&str> {
        self.spots.last().map(|(_, spot)| spot.as_str())
    }
}

/// The longest id made from a name, in bytes, so that it leaves room in an entry.
const LONGEST_SLUG: usize = 24;

/// So many letters of an entry's id tell beds of one name apart: of two phones' beds one pair in 30
/// million would share them.
const LETTERS: usize = 5;

/// A name in small letters with hyphens, cut to so many bytes; letters beyond ASCII stay as they are.
fn slug(name: &str, longest: usize) -> String {
    let mut slug = String::new();
    for letter in name.chars() {
        if slug.len() + letter.len_utf8() > longest {
            break;
        }
        if letter.is_ascii_alphanumeric() || !letter.is_ascii() {
            slug.push(letter.to_ascii_lowercase());
        } else if letter != '\'' && !slug.is_empty() && !slug.ends_with('-') {
            slug.push('-');
        }
    }
    let slug = slug.trim_end_matches('-');
    if slug.is_empty() { "bed".to_owned() } else { slug.to_owned() }
}
