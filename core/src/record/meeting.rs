//! Two records that meet: what both tell of, asked about before one is taken into the other.
//!
//! Each phone lays its own "Bed 1" out, and both may note the same planting. Nothing is joined unasked: beds
//! stay two and are told apart by their names, plantings stay two. Either way the entries stay as they were
//! written; what is joined or told apart is so by corrections. Both phones come to the same, whichever takes the
//! other's copy in first, since it is always the one with the greater id that changes.

use super::{bed::size, names::crop_name, says::says};
use crate::{
    garden::{Bed, Garden, Planting},
    journal::{
        About, Draft, Entry, Journal, Ulid, What,
        details::{self, StruckOut},
    },
    text::day,
};

/// A record and the garden it tells of.
#[derive(Clone, Copy, Debug)]
pub struct Side<'a> {
    /// The record.
    pub journal: &'a Journal,
    /// The garden.
    pub garden: &'a Garden,
}

/// What two records both tell of, each by entries of its own.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Meeting {
    /// Beds of one name.
    pub beds: Vec<Beds>,
    /// Plantings of one crop in one bed at one time.
    pub plantings: Vec<Plantings>,
}

/// Two beds of one name.
#[derive(Clone, Debug, PartialEq)]
pub struct Beds {
    /// What is known of them, in a sentence.
    pub told: String,
    /// Whether they are one bed; at first not.
    pub is_one: bool,
    /// What the one laid out later is called, where they are two.
    pub renamed: String,
    stays: String,
    later: String,
    /// The later one's first entry.
    first: Ulid,
    /// Whether the later one is this record's own.
    is_ours: bool,
}

/// Two plantings that may be one.
#[derive(Clone, Debug, PartialEq)]
pub struct Plantings {
    /// What was planted, in a sentence.
    pub told: String,
    /// Whether they are one planting; at first not.
    pub is_one: bool,
    /// The beds that must be one for these to be, by their place in [`Meeting::beds`].
    of_beds: Option<usize>,
    stays: Ulid,
    goes: Ulid,
}

/// Days between two notes of one planting, at most: one of them was perhaps written the day after.
const DAYS_APART: i64 = 1;

impl Meeting {
    /// What this record and another both tell of.
    #[must_use]
    pub fn of(ours: Side<'_>, theirs: Side<'_>) -> Self {
        let mut meeting = Self::default();
        let new_beds = |of: Side<'_>, in_other: Side<'_>| -> Vec<(String, Ulid)> {
            let beds = of.garden.beds.iter().filter(|bed| bed.gone.is_none());
            let first = |bed: &Bed| Some((bed.id.clone(), laid_out_by(of.garden, &bed.id)?));
            beds.filter_map(first).filter(|it| in_other.journal.get(it.1).is_none()).collect()
        };
        let of_theirs = new_beds(theirs, ours);
        for (our_id, our_first) in new_beds(ours, theirs) {
            for (their_id, their_first) in &of_theirs {
                let found = (ours.garden.bed(&our_id), theirs.garden.bed(their_id));
                let (Some(our), Some(their)) = found else { continue };
                if our_id != *their_id && !our.name.eq_ignore_ascii_case(&their.name) {
                    continue;
                }
                let is_ours = our_first > *their_first;
                let (stays, later) =
                    if is_ours { (their_id, &our_id) } else { (&our_id, their_id) };
                meeting.beds.push(Beds {
                    told: format!(
                        "Both have a bed called “{}”: here {}, in the copy {}.",
                        their.name,
                        told(our, ours.garden),
                        told(their, ours.garden)
                    ),
                    is_one: false,
                    renamed: free_name(&their.name, ours.garden, theirs.garden),
                    stays: stays.clone(),
                    later: later.clone(),
                    first: our_first.max(*their_first),
                    is_ours,
                });
            }
        }
        meeting.meet_plantings(ours, theirs);
        meeting
    }

    fn meet_plantings(&mut self, ours: Side<'_>, theirs: Side<'_>) {
        let mut taken: Vec<Ulid> = Vec::new();
        for (our_bed, our) in new_plantings(ours, theirs) {
            let mut others = new_plantings(theirs, ours);
            let found = others.find(|(bed, their)| {
                (bed.id == our_bed.id || self.of_beds(&our_bed.id, &bed.id).is_some())
                    && !taken.contains(&their.id)
                    && is_alike(our, their)
            });
            let Some((their_bed, their)) = found else { continue };
            taken.push(their.id);
            let entry = ours.garden.happened.iter().find(|it| it.entry.id == our.id);
            let what = entry.map(|it| says(&it.entry.about, &it.entry.what, ours.garden));
            self.plantings.push(Plantings {
                told: format!("{}, {}", what.unwrap_or_default(), day(our.since.date(), None)),
                is_one: false,
                of_beds: self.of_beds(&our_bed.id, &their_bed.id),
                stays: our.id.min(their.id),
                goes: our.id.max(their.id),
            });
        }
    }

    fn of_beds(&self, ours: &str, theirs: &str) -> Option<usize> {
        self.beds.iter().position(|it| {
            let (our, their) =
                if it.is_ours { (&it.later, &it.stays) } else { (&it.stays, &it.later) };
            our == ours && their == theirs
        })
    }

    /// The plantings that may be one, as the beds were said to be, each with its place.
    pub fn offered(&self) -> impl Iterator<Item = (usize, &Plantings)> {
        self.plantings.iter().enumerate().filter(|(_, it)| self.may_be_one(it))
    }

    fn may_be_one(&self, plantings: &Plantings) -> bool {
        plantings.of_beds.is_none_or(|at| self.beds.get(at).is_some_and(|beds| beds.is_one))
    }

    /// What is written besides when the other record is taken in.
    #[must_use]
    pub fn drafts(&self, ours: Side<'_>, theirs: Side<'_>) -> Vec<Draft> {
        let mut drafts = Vec::new();
        for beds in &self.beds {
            beds.write(ours, theirs, &mut drafts);
        }
        for plantings in self.plantings.iter().filter(|it| it.is_one && self.may_be_one(it)) {
            let (goes, stays) = (plantings.goes.to_string(), plantings.stays.to_string());
            let what = What::StruckOut(StruckOut { target: plantings.goes });
            drafts.push(Draft { about: About::default(), what });
            for side in [ours, theirs] {
                let of_it = |entry: &Entry| entry.about.planting.as_ref() == Some(&goes);
                let to = |draft: &mut Draft, _| draft.about.planting = Some(stays.clone());
                drafts.extend(corrected(side.garden, &of_it, &to));
            }
        }
        drafts
    }
}

impl Beds {
    fn write(&self, ours: Side<'_>, theirs: Side<'_>, drafts: &mut Vec<Draft>) {
        let (own, other) = if self.is_ours { (ours, theirs) } else { (theirs, ours) };
        let share_id = self.stays == self.later;
        let goes_to = match (self.is_one, share_id) {
            (true, false) => Some(self.stays.clone()),
            (false, true) => Some(own.garden.new_bed_id(&self.renamed, self.first)),
            _ => None,
        };
        let named_by = named_by(own.garden, &self.later);
        let of_it = |entry: &Entry| {
            // Under a shared id, what both have is told of the other bed or was told before.
            let is_its = entry.about.bed.as_ref() == Some(&self.later)
                && !(share_id && other.journal.get(entry.id).is_some());
            is_its && (goes_to.is_some() || named_by == Some(entry.id))
        };
        let to = |entry: &mut Draft, id: Ulid| {
            if let Some(bed) = &goes_to {
                entry.about.bed = Some(bed.clone());
            }
            if let What::Bed(bed) = &mut entry.what
                && named_by == Some(id)
                && !self.is_one
            {
                bed.name = Some(self.renamed.clone());
            }
        };
        drafts.extend(corrected(own.garden, &of_it, &to));
    }
}

/// Corrections of these entries.
fn corrected(
    garden: &Garden,
    which: &dyn Fn(&Entry) -> bool,
    to: &dyn Fn(&mut Draft, Ulid),
) -> Vec<Draft> {
    let which = garden.happened.iter().map(|it| &it.entry).filter(|entry| which(entry));
    let corrected = which.filter_map(|entry| {
        let mut draft = Draft { about: entry.about.clone(), what: entry.what.clone() };
        to(&mut draft, entry.id);
        entry.corrected_to(entry.when, &draft, garden.latest_corrections(entry.id))
    });
    corrected.collect()
}

/// The entry that gave a bed its name.
fn named_by(garden: &Garden, bed: &str) -> Option<Ulid> {
    let mut entries = garden.happened.iter().rev().map(|it| &it.entry);
    let last = entries.find(|entry| {
        entry.about.bed.as_deref() == Some(bed)
            && matches!(entry.what, What::Bed(details::Bed { name: Some(_), gone: false, .. }))
    });
    last.map(|entry| entry.id)
}

/// The entry in which a bed was laid out first.
fn laid_out_by(garden: &Garden, bed: &str) -> Option<Ulid> {
    let mut entries = garden.happened.iter().map(|it| &it.entry);
    let first = entries.find(|entry| {
        entry.about.bed.as_deref() == Some(bed)
            && matches!(entry.what, What::Bed(details::Bed { gone: false, .. }))
    });
    first.map(|entry| entry.id)
}

fn told(bed: &Bed, garden: &Garden) -> String {
    let laid_out = bed.laid_out.map(|when| format!("laid out {}", day(when.date(), None)));
    let parts = [Some(size(bed, garden.units())).filter(|size| !size.is_empty()), laid_out];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// "Bed 1 (2)", as no bed of either is called.
fn free_name(name: &str, ours: &Garden, theirs: &Garden) -> String {
    let is_taken = |name: &str| ours.beds.iter().chain(&theirs.beds).any(|bed| bed.name == name);
    let free = (2_u32..).map(|number| format!("{name} ({number})")).find(|name| !is_taken(name));
    // OK because there are fewer beds than numbers.
    free.unwrap_or_default()
}

/// The plantings of a record that the other does not have, with their beds.
fn new_plantings<'a>(
    of: Side<'a>,
    in_other: Side<'a>,
) -> impl Iterator<Item = (&'a Bed, &'a Planting)> {
    let each = |bed: &'a Bed| bed.plantings.iter().chain(&bed.past).map(move |it| (bed, it));
    let all = of.garden.beds.iter().flat_map(each);
    all.filter(move |(_, it)| in_other.journal.get(it.id).is_none())
}

fn is_alike(one: &Planting, other: &Planting) -> bool {
    let counts = one.count.zip(other.count);
    let days = (one.since.date() - other.since.date()).num_days().abs();
    days <= DAYS_APART
        && counts.is_none_or(|(one, other)| one == other)
        && crop_name(&one.crop) == crop_name(&other.crop)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::samples::entry_text;

    fn journal(entries: &[(u128, u32, &str)]) -> Journal {
        let mut journal = Journal::default();
        for (id, minute, rest) in entries {
            journal.add(&entry_text(*id, *minute, rest));
        }
        journal
    }

    /// What two phones have after one has taken the other's copy in, its choices made.
    fn taken_in(ours: &Journal, theirs: &Journal, choose: &dyn Fn(&mut Meeting)) -> Journal {
        let (our, their) = (Garden::fold(ours), Garden::fold(theirs));
        let ours_side = Side { journal: ours, garden: &our };
        let theirs_side = Side { journal: theirs, garden: &their };
        let mut meeting = Meeting::of(ours_side, theirs_side);
        choose(&mut meeting);
        let drafts = meeting.drafts(ours_side, theirs_side);
        let mut both = ours.clone();
        both.merge(theirs);
        for (draft, id) in drafts.into_iter().zip(1000 + both.len() as u128..) {
            let when = crate::time::iso::read_when("2026-03-30T08:00").unwrap();
            both.add_entry(&draft.stamp(Ulid(id), when).unwrap());
        }
        both
    }

    fn bed(id: &str, length: &str) -> String {
        format!(
            r#""kind":"bed","about":{{"bed":"{id}"}},"what":{{"bed":{{"length":"{length}","width":"4 ft"}},"name":"Bed 1"}}"#
        )
    }

    fn leek(bed: &str) -> String {
        format!(r#""kind":"planted","about":{{"bed":"{bed}"}},"what":{{"count":6,"crop":"leek"}}"#)
    }

    /// Name, length and number of plantings of each bed, in order of names.
    fn beds(journal: &Journal) -> Vec<(String, String, usize)> {
        let garden = Garden::fold(journal);
        let told = |bed: &Bed| {
            (
                bed.name.clone(),
                bed.shape["length"].as_str().unwrap().to_owned(),
                bed.plantings.len(),
            )
        };
        let mut beds: Vec<_> =
            garden.beds.iter().filter(|bed| bed.laid_out.is_some()).map(told).collect();
        beds.sort();
        beds
    }

    fn told(rows: &[(&str, &str, usize)]) -> Vec<(String, String, usize)> {
        rows.iter()
            .map(|(name, length, count)| ((*name).into(), (*length).into(), *count))
            .collect()
    }

    #[test]
    fn two_beds_of_one_name_are_told_apart_whoever_takes_the_other_in() {
        for (one, other) in [("bed-1", "bed-1"), ("bed-1-aaaaa", "bed-1-bbbbb")] {
            let (our, their) = (bed(one, "8 ft"), bed(other, "6 ft"));
            let (our_leek, their_leek) = (leek(one), leek(other));
            let ours = journal(&[(1, 1, &our), (3, 3, &our_leek)]);
            let theirs = journal(&[(2, 2, &their), (4, 4000, &their_leek)]);
            let apart = told(&[("Bed 1", "8 ft", 1), ("Bed 1 (2)", "6 ft", 1)]);
            for (one, other) in [(&ours, &theirs), (&theirs, &ours)] {
                assert_eq!(beds(&taken_in(one, other, &|_| ())), apart);
            }
            // Each took the other's copy in before either heard of that.
            let mut both = taken_in(&ours, &theirs, &|_| ());
            both.merge(&taken_in(&theirs, &ours, &|_| ()));
            assert_eq!(beds(&both), apart);
        }
    }

    #[test]
    fn two_beds_that_are_one_become_one_and_so_do_their_plantings() {
        for (one, other) in [("bed-1", "bed-1"), ("bed-1-aaaaa", "bed-1-bbbbb")] {
            let (our, their) = (bed(one, "8 ft"), bed(other, "8 ft"));
            let (our_leek, their_leek) = (leek(one), leek(other));
            let picked = format!(
                r#""kind":"harvest","about":{{"planting":"{}"}},"what":{{"amount":"3 lb"}}"#,
                Ulid(4)
            );
            let ours = journal(&[(1, 1, &our), (3, 3, &our_leek)]);
            let theirs = journal(&[(2, 2, &their), (4, 4, &their_leek), (5, 9, &picked)]);
            let one_bed = |meeting: &mut Meeting| {
                assert_eq!(meeting.offered().count(), 0, "not while they are two beds");
                meeting.beds[0].is_one = true;
                assert_eq!(meeting.offered().count(), 1);
            };
            for (one, other) in [(&ours, &theirs), (&theirs, &ours)] {
                let joined = taken_in(one, other, &one_bed);
                assert_eq!(beds(&joined), told(&[("Bed 1", "8 ft", 2)]));
                let joined = taken_in(one, other, &|meeting| {
                    one_bed(meeting);
                    assert_eq!(meeting.plantings[0].told, "6 leek planted in Bed 1, 1 Mar 2026",);
                    meeting.plantings[0].is_one = true;
                });
                assert_eq!(beds(&joined), told(&[("Bed 1", "8 ft", 1)]));
                let garden = Garden::fold(&joined);
                assert_eq!(garden.beds.iter().map(|bed| bed.harvests.len()).sum::<usize>(), 1);
                assert!(garden.unplaced.is_empty(), "{:?}", garden.unplaced);
            }
        }
    }

    #[test]
    fn nothing_is_asked_of_what_both_have_from_one_entry() {
        let (first, planted) = (bed("bed-1", "8 ft"), leek("bed-1"));
        let ours = journal(&[(1, 1, &first), (3, 3, &planted)]);
        let mut theirs = ours.clone();
        theirs.add(&entry_text(7, 7, &leek("bed-1").replace("\"count\":6,", "")));
        let garden = [Garden::fold(&ours), Garden::fold(&theirs)];
        let sides = [&ours, &theirs]
            .into_iter()
            .zip(&garden)
            .map(|(journal, garden)| Side { journal, garden })
            .collect::<Vec<_>>();
        assert_eq!(Meeting::of(sides[0], sides[1]), Meeting::default());
        assert_eq!(Meeting::of(sides[1], sides[0]), Meeting::default());
    }

    #[test]
    fn another_crop_another_number_or_another_week_is_another_planting() {
        let first = bed("bed-1", "8 ft");
        let with = |id: u128, minute: u32, planted: &str| {
            journal(&[(1, 1, &first), (id, minute, planted)])
        };
        let offered = |minute: u32, planted: &str| {
            let (ours, theirs) = (with(3, 3, &leek("bed-1")), with(4, minute, planted));
            let garden = [Garden::fold(&ours), Garden::fold(&theirs)];
            Meeting::of(
                Side { journal: &ours, garden: &garden[0] },
                Side { journal: &theirs, garden: &garden[1] },
            )
            .plantings
            .len()
        };
        let planted = leek("bed-1");
        assert_eq!(offered(1500, &planted), 1);
        assert_eq!(offered(1500, &planted.replace("leek", "Leeks")), 1);
        assert_eq!(offered(10_000, &planted), 0);
        assert_eq!(offered(3, &planted.replace("leek", "kale")), 0);
        assert_eq!(offered(3, &planted.replace('6', "7")), 0);
    }
}
