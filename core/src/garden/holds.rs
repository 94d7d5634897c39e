//! Which entries hold, and how they read: strike-outs and corrections applied.
//!
//! Both act by the id of their target, in whatever order they came. An entry is struck while a
//! strike-out that is not struck itself names it. Strike-outs that name one another in a circle
//! cannot be settled that way; they change nothing.
//!
//! Entries are known here by their place in the order of ids, so that plain lists do for all that
//! is noted of them.

use super::corrections::{Corrections, Told, correct};
use crate::journal::{Entry, Journal, Ulid, What, details::StruckOut};
use crate::order;

/// What is left after every second thought.
#[derive(Default)]
pub(super) struct Holds {
    /// The entries that tell of the garden, as they read now, in order of (when, id).
    pub(super) entries: Vec<Entry>,
    /// The entries struck, in order of ids.
    pub(super) struck: Vec<Ulid>,
    /// The corrections of the entries that read otherwise, in order of these entries' ids.
    pub(super) corrected: Vec<Corrections>,
    /// The entries struck that were corrected after that, in order of ids.
    pub(super) corrected_later: Vec<Ulid>,
    /// Strike-outs and corrections that hold and change nothing.
    pub(super) idle: Vec<Ulid>,
}

/// The entries of a record in order of ids.
struct Record<'a>(Vec<&'a Entry>);

impl Record<'_> {
    fn find(&self, id: Ulid) -> Option<usize> {
        self.0.binary_search_by_key(&id, |entry| entry.id).ok()
    }
}

impl Holds {
    /// Those of a record, as if this entry were struck besides.
    pub(super) fn of(journal: &Journal, without: Option<Ulid>) -> Self {
        let record = Record(journal.entries().collect());
        let counts = counting(&record);
        // The first strike-out that counts, of each that is struck.
        let mut struck = vec![None; record.0.len()];
        for (entry, counts) in record.0.iter().zip(&counts) {
            if let (What::StruckOut(StruckOut { target }), true) = (&entry.what, counts)
                && let Some(struck) = record.find(*target).and_then(|at| struck.get_mut(at))
            {
                *struck = struck.or(Some(entry.id));
            }
        }

        if let Some(struck) = without.and_then(|id| struck.get_mut(record.find(id)?)) {
            *struck = struck.or(Some(Ulid(u128::MAX)));
        }

        let mut holds = Self::default();
        let mut corrections = vec![Vec::new(); record.0.len()];
        for (at, entry) in record.0.iter().enumerate() {
            let is_struck = struck.get(at).copied().flatten().is_some();
            if is_struck {
                holds.struck.push(entry.id);
            }
            let changes_something = match &entry.what {
                What::StruckOut(StruckOut { target }) => {
                    counts.get(at) == Some(&true) && journal.get(*target).is_some()
                }
                What::Corrected(given) => {
                    let target = record.find(given.target);
                    let told = |at: &usize| record.0.get(*at).is_some_and(|it| tells(&it.what));
                    let target = target.filter(told).and_then(|at| corrections.get_mut(at));
                    let told = Told { id: entry.id, given, counts: !is_struck };
                    target.map(|corrections| corrections.push(told)).is_some()
                }
                _ => true,
            };
            if !changes_something && !is_struck {
                holds.idle.push(entry.id);
            }
        }

        for (at, entry) in record.0.iter().enumerate() {
            let told = corrections.get(at).map_or(&[][..], Vec::as_slice);
            if let Some(strike) = struck.get(at).copied().flatten() {
                if told.iter().any(|it| it.counts && it.id > strike) {
                    holds.corrected_later.push(entry.id);
                }
                continue;
            }
            if !tells(&entry.what) {
                continue;
            }
            let mut entry = (*entry).clone();
            let corrected = correct(&mut entry, told);
            let hold = corrected.as_ref().map_or(&[][..], |it| it.hold.as_slice());
            let idle = told.iter().filter(|it| it.counts && hold.binary_search(&it.id).is_err());
            holds.idle.extend(idle.map(|it| it.id));
            holds.corrected.extend(corrected);
            holds.entries.push(entry);
        }
        // Those of one moment stay in the order of ids. OK because `when` is read and written to
        // the thousandth of a second.
        order::sort(&mut holds.entries, &|entry| [entry.when.and_utc().timestamp_millis(), 0, 0]);
        holds
    }
}

/// Whether an entry of this kind tells of the garden, not of another entry.
fn tells(what: &What) -> bool {
    !matches!(what, What::StruckOut(_) | What::Corrected(_))
}

/// For each entry, whether it is a strike-out that counts: one that none that counts names.
///
/// Each is settled once all that name it are, or once one of them counts. A list of what is
/// yet to do stands in for recursion, since a chain of undoings may be as long as the record.
fn counting(record: &Record<'_>) -> Vec<bool> {
    let is_strike = |at: &usize| record.0.get(*at).is_some_and(|entry| strikes(&entry.what));
    let targets = record.0.iter().map(|entry| match entry.what {
        What::StruckOut(StruckOut { target }) => record.find(target).filter(is_strike),
        _ => None,
    });
    let targets = targets.collect::<Vec<_>>();
    let mut unsettled_strikers = vec![0_usize; targets.len()];
    for target in targets.iter().flatten() {
        if let Some(strikers) = unsettled_strikers.get_mut(*target) {
            *strikers += 1;
        }
    }
    let mut counts = vec![None; targets.len()];
    let mut ready = Vec::new();
    for (at, counts) in counts.iter_mut().enumerate() {
        if is_strike(&at) && unsettled_strikers.get(at) == Some(&0) {
            *counts = Some(true);
            ready.push(at);
        }
    }
    while let Some(striker) = ready.pop() {
        let Some(target) = targets.get(striker).copied().flatten() else {
            continue;
        };
        let struck = counts.get(striker) == Some(&Some(true));
        let (Some(counts), Some(strikers)) =
            (counts.get_mut(target), unsettled_strikers.get_mut(target))
        else {
            continue;
        };
        if counts.is_some() {
            continue;
        }
        *strikers -= 1;
        if struck || *strikers == 0 {
            *counts = Some(!struck);
            ready.push(target);
        }
    }
    // What goes in a circle is never settled, and does not count.
    counts.into_iter().map(|counts| counts == Some(true)).collect()
}

fn strikes(what: &What) -> bool {
    matches!(what, What::StruckOut(_))
}
