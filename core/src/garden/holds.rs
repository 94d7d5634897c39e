//! Which entries hold, and how they read: strike-outs and corrections applied.
//!
//! Both act by the id of their target, in whatever order they came. An entry is struck while a
//! strike-out that is not struck itself names it. Strike-outs that name one another in a circle
//! cannot be settled that way; they change nothing.

use crate::journal::{
    Entry, Journal, Ulid, What,
    details::{Corrected, StruckOut},
};
use std::collections::{BTreeMap, BTreeSet};

/// What is left after every second thought.
#[derive(Default)]
pub(super) struct Holds {
    /// The entries that tell of the garden, as they read now, in order of (when, id).
    pub(super) entries: Vec<Entry>,
    /// The entries struck.
    pub(super) struck: BTreeSet<Ulid>,
    /// The corrections that hold, by the entry they correct.
    pub(super) corrected: BTreeMap<Ulid, Vec<Ulid>>,
    /// Strike-outs and corrections that hold and change nothing.
    pub(super) idle: BTreeSet<Ulid>,
}

impl Holds {
    pub(super) fn of(journal: &Journal) -> Self {
        let mut holds = Self::default();
        let strikes = journal.entries().filter_map(|entry| match &entry.what {
            What::StruckOut(StruckOut { target }) => Some((entry.id, *target)),
            _ => None,
        });
        let strikes = strikes.collect::<BTreeMap<_, _>>();
        let effective = effective(&strikes);
        holds.struck = effective
            .iter()
            .filter_map(|id| strikes.get(id).copied())
            .collect();

        let mut corrections = BTreeMap::<Ulid, Vec<(Ulid, &Corrected)>>::new();
        for entry in journal.entries() {
            if let What::Corrected(corrected) = &entry.what
                && !holds.struck.contains(&entry.id)
            {
                corrections
                    .entry(corrected.target)
                    .or_default()
                    .push((entry.id, corrected));
            }
        }
        for entry in journal.entries() {
            if holds.struck.contains(&entry.id) {
                continue;
            }
            match &entry.what {
                What::StruckOut(StruckOut { target }) => {
                    if !effective.contains(&entry.id) || journal.get(*target).is_none() {
                        holds.idle.insert(entry.id);
                    }
                }
                What::Corrected(Corrected { target, .. }) => {
                    let target = journal.get(*target).and_then(|held| held.entry());
                    if !target.is_some_and(|target| tells_of_the_garden(&target.what)) {
                        holds.idle.insert(entry.id);
                    }
                }
                _ => {
                    let mut entry = entry.clone();
                    let corrections = corrections.remove(&entry.id).unwrap_or_default();
                    holds.correct(&mut entry, &corrections);
                    holds.entries.push(entry);
                }
            }
        }
        holds.entries.sort_by_key(|entry| (entry.when, entry.id));
        holds
    }

    /// Applies corrections, given in order of their ids: the last to give a part decides it.
    fn correct(&mut self, entry: &mut Entry, corrections: &[(Ulid, &Corrected)]) {
        let (mut when, mut about, mut what) = (None, None, None);
        let mut applied = Vec::new();
        for (id, correction) in corrections.iter().rev() {
            let mut helps = false;
            if let (None, Some(given)) = (&when, correction.when) {
                (when, helps) = (Some(given), true);
            }
            if let (None, Some(given)) = (&about, &correction.about) {
                (about, helps) = (Some(given.clone()), true);
            }
            if let (None, Some(given)) = (&what, &correction.what)
                && let Some(read) = What::from_object(entry.what.kind(), given)
            {
                (what, helps) = (Some(read), true);
            }
            if helps {
                applied.push(*id);
            } else {
                self.idle.insert(*id);
            }
        }
        entry.when = when.unwrap_or(entry.when);
        if let Some(about) = about {
            entry.about = about;
        }
        if let Some(what) = what {
            entry.what = what;
        }
        if !applied.is_empty() {
            applied.reverse();
            self.corrected.insert(entry.id, applied);
        }
    }
}

fn tells_of_the_garden(what: &What) -> bool {
    !matches!(what, What::StruckOut(_) | What::Corrected(_))
}

/// The strike-outs that are not struck themselves, among `strikes` (from strike-out to target).
///
/// Each is settled once all that strike it are, or once one of them counts. A list of what is
/// yet to do stands in for recursion, since a chain of undoings may be as long as the record.
fn effective(strikes: &BTreeMap<Ulid, Ulid>) -> BTreeSet<Ulid> {
    let mut unsettled_strikers = BTreeMap::<Ulid, usize>::new();
    for target in strikes
        .values()
        .filter(|target| strikes.contains_key(target))
    {
        *unsettled_strikers.entry(*target).or_default() += 1;
    }
    let is_free = |id: &&Ulid| !unsettled_strikers.contains_key(id);
    let mut ready = strikes.keys().filter(is_free).copied().collect::<Vec<_>>();
    let mut effective = ready.iter().copied().collect::<BTreeSet<_>>();
    let mut settled = effective.clone();
    while let Some(id) = ready.pop() {
        let Some(target) = strikes
            .get(&id)
            .filter(|target| strikes.contains_key(target))
        else {
            continue;
        };
        if settled.contains(target) {
            continue;
        }
        if effective.contains(&id) {
            settled.insert(*target);
            ready.push(*target);
        } else if let Some(left) = unsettled_strikers.get_mut(target) {
            *left = left.saturating_sub(1);
            if *left == 0 {
                settled.insert(*target);
                effective.insert(*target);
                ready.push(*target);
            }
        }
    }
    effective
}
