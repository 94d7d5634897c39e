//! The record as a set, and its union with another.
//!
//! The union is commutative, associative and idempotent, and nothing ever leaves it. Texts that
//! cannot be used are in it, too: they are shown and handed over with the rest.

use super::{
    entry::{Entry, WhyNot, id_inside, read_entry},
    id::Ulid,
};
use serde::Serialize;
use serde_json::Value;

/// A household's whole record.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Journal {
    /// In order of ids. A plain list: a tree of its own would weigh 6 kB on the phone, and
    /// making room in the middle is quick in a record of some thousand entries.
    held: Vec<(Ulid, Held)>,
    /// In order, without repeats.
    strays: Vec<Stray>,
}

/// All texts that bear one id. Usually there is one.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// In byte order and never empty; the first counts.
    texts: Vec<String>,
    kept: Kept,
}

/// What an entry's text says.
#[derive(Clone, Debug, PartialEq)]
pub enum Kept {
    /// It was understood.
    Read(Box<Entry>),
    /// It was not, and is kept byte for byte.
    Unread(WhyNot),
}

/// A text that cannot take part, since it does not tell which entry it is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Stray {
    /// The storage key it was found under; empty when it came in a file.
    pub key: String,
    /// The text as it was found.
    pub text: String,
}

/// What became of a text that was added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Added {
    /// The first of this id.
    New(Ulid),
    /// It was there already.
    Known(Ulid),
    /// Another text of this id was there. The lesser counts, both are kept.
    Twin(Ulid),
    /// It names no entry, and is kept as a stray.
    Stray,
}

/// What another record would add to this one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Adds {
    /// Entries not held yet, in order of their ids.
    pub new: Vec<Ulid>,
    /// Entries held already with other bytes.
    pub twins: Vec<Ulid>,
    /// How many entries are held already, byte for byte.
    pub known: usize,
    /// How many texts are new that name no entry.
    pub strays: usize,
}

/// One of two texts with the same id that does not count.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Twin<'a> {
    /// The id of both.
    pub id: Ulid,
    /// The text that counts.
    pub counts: &'a str,
    /// The text set aside.
    pub set_aside: &'a str,
    /// Whether both mean the same and differ only in how they are written.
    pub same_meaning: bool,
}

impl Stray {
    /// The stray that was written as this JSON.
    pub(super) fn read(json: &str) -> Option<Self> {
        let fields: Value = serde_json::from_str(json).ok()?;
        Some(Self {
            key: fields.get("key").map_or(Some(""), Value::as_str)?.to_owned(),
            text: fields.get("text")?.as_str()?.to_owned(),
        })
    }
}

impl Held {
    fn new(text: String) -> Self {
        let kept = Kept::of(&text);
        Self { texts: vec![text], kept }
    }

    fn take_in(&mut self, text: &str) -> bool {
        let Err(at) = self.texts.binary_search_by(|held| held.as_str().cmp(text)) else {
            return false;
        };
        self.texts.insert(at, text.to_owned());
        if at == 0 {
            self.kept = Kept::of(text);
        }
        true
    }

    /// The text that counts, byte for byte as it came.
    #[must_use]
    pub fn raw(&self) -> &str {
        self.texts.first().map_or("", String::as_str)
    }

    /// What that text says.
    #[must_use]
    pub fn kept(&self) -> &Kept {
        &self.kept
    }

    /// The entry, if it was understood.
    #[must_use]
    pub fn entry(&self) -> Option<&Entry> {
        match &self.kept {
            Kept::Read(entry) => Some(entry),
            Kept::Unread(_) => None,
        }
    }

    /// Every text of this id, the one that counts first.
    pub fn texts(&self) -> impl Iterator<Item = &str> {
        self.texts.iter().map(String::as_str)
    }
}

impl Kept {
    fn of(text: &str) -> Self {
        match read_entry(text) {
            Ok(entry) => Self::Read(Box::new(entry)),
            Err(why) => Self::Unread(why),
        }
    }
}

impl Journal {
    /// Adds the text of an entry, whatever it is. White space around it is no part of it.
    pub fn add(&mut self, text: &str) -> Added {
        let text = text.trim_matches([' ', '\t', '\n', '\r']);
        let Some(id) = id_inside(text) else {
            return self.add_stray(Stray { key: String::new(), text: text.to_owned() });
        };
        self.add_named(id, text)
    }

    /// Adds the text of an entry in which this id was found, without white space around it.
    pub(super) fn add_named(&mut self, id: Ulid, text: &str) -> Added {
        match self.place(id) {
            Err(at) => {
                self.held.insert(at, (id, Held::new(text.to_owned())));
                Added::New(id)
            }
            Ok(at) => {
                let is_new = self.held.get_mut(at).is_some_and(|held| held.1.take_in(text));
                if is_new { Added::Twin(id) } else { Added::Known(id) }
            }
        }
    }

    /// Adds an entry made here.
    pub fn add_entry(&mut self, entry: &Entry) -> Added {
        self.add(&entry.text())
    }

    /// Keeps a text that names no entry.
    pub fn add_stray(&mut self, stray: Stray) -> Added {
        if let Err(at) = self.strays.binary_search(&stray) {
            self.strays.insert(at, stray);
        }
        Added::Stray
    }

    /// Adds everything that another record holds.
    pub fn merge(&mut self, other: &Self) {
        for (_, theirs) in &other.held {
            for text in &theirs.texts {
                self.add(text);
            }
        }
        for stray in &other.strays {
            self.add_stray(stray.clone());
        }
    }

    /// What merging `other` would add, before it is done.
    #[must_use]
    pub fn adds(&self, other: &Self) -> Adds {
        let mut adds = Adds {
            strays: other.strays.iter().filter(|it| self.strays.binary_search(it).is_err()).count(),
            ..Adds::default()
        };
        for (id, theirs) in &other.held {
            match self.get(*id) {
                None => adds.new.push(*id),
                Some(ours)
                    if theirs.texts.iter().all(|text| ours.texts.binary_search(text).is_ok()) =>
                {
                    adds.known += 1
                }
                Some(_) => adds.twins.push(*id),
            }
        }
        adds
    }

    /// Everything held under this id.
    #[must_use]
    pub fn get(&self, id: Ulid) -> Option<&Held> {
        self.held.get(self.place(id).ok()?).map(|held| &held.1)
    }

    /// Where an id is held, or where it would have to be.
    fn place(&self, id: Ulid) -> Result<usize, usize> {
        self.held.binary_search_by(|held| held.0.cmp(&id))
    }

    /// Everything that has an id, in order of ids.
    pub fn held(&self) -> impl Iterator<Item = (Ulid, &Held)> {
        self.held.iter().map(|held| (held.0, &held.1))
    }

    /// The entries that were understood, in order of ids.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.held.iter().filter_map(|held| held.1.entry())
    }

    /// The entries that were not, with the text that is kept and why.
    pub fn unread(&self) -> impl Iterator<Item = (Ulid, &str, &WhyNot)> {
        self.held().filter_map(|(id, held)| match held.kept() {
            Kept::Unread(why) => Some((id, held.raw(), why)),
            Kept::Read(_) => None,
        })
    }

    /// The texts that do not count because a lesser one bears the same id.
    pub fn twins(&self) -> impl Iterator<Item = Twin<'_>> {
        self.held().flat_map(|(id, held)| {
            let counts = held.raw();
            held.texts().skip(1).map(move |set_aside| {
                let same_meaning = means_the_same(counts, set_aside);
                Twin { id, counts, set_aside, same_meaning }
            })
        })
    }

    /// The texts that name no entry.
    pub fn strays(&self) -> core::slice::Iter<'_, Stray> {
        self.strays.iter()
    }

    /// How many ids there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.held.len()
    }

    /// Whether there is nothing in it at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.held.is_empty() && self.strays.is_empty()
    }
}

fn means_the_same(one: &str, other: &str) -> bool {
    let value = |text| serde_json::from_str::<Value>(text).ok();
    value(one).is_some_and(|one| value(other) == Some(one))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::samples::{any_journal, any_text, note};
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    fn merged(one: &Journal, other: &Journal) -> Journal {
        let mut both = one.clone();
        both.merge(other);
        both
    }

    fn every_text(journal: &Journal) -> BTreeSet<String> {
        let entries = journal.held().flat_map(|(_, held)| held.texts());
        entries
            .chain(journal.strays().map(|stray| stray.text.as_str()))
            .map(str::to_owned)
            .collect()
    }

    #[test]
    fn of_two_texts_with_one_id_the_lesser_counts_whichever_came_first() {
        let (lesser, greater) = (note(1, "hail"), note(1, "snow"));
        for order in [[&lesser, &greater], [&greater, &lesser]] {
            let mut journal = Journal::default();
            assert!(matches!(journal.add(order[0]), Added::New(_)));
            assert!(matches!(journal.add(order[1]), Added::Twin(_)));
            assert!(matches!(journal.add(order[1]), Added::Known(_)));
            let twin = journal.twins().next().unwrap();
            assert_eq!((twin.counts, twin.set_aside), (lesser.as_str(), greater.as_str()));
            assert!(!twin.same_meaning);
            let entry = journal.entries().next().unwrap();
            assert_eq!(Ok(entry), read_entry(&lesser).as_ref());
        }
    }

    #[test]
    fn a_text_only_written_otherwise_is_a_twin_of_the_same_meaning() {
        let text = note(1, "hail");
        let mut journal = Journal::default();
        journal.add(&text);
        journal.add(&text.replace(':', ": ").replace("08: 30", "08:30"));
        assert!(journal.twins().next().unwrap().same_meaning);
    }

    #[test]
    fn white_space_around_an_entry_is_no_part_of_it() {
        let mut journal = Journal::default();
        journal.add(&note(1, "hail"));
        assert!(matches!(journal.add(&format!("\r\n {} ", note(1, "hail"))), Added::Known(_)));
    }

    #[test]
    fn an_unread_text_may_count_and_then_its_twin_does_not() {
        let unread = note(1, "hail").replace("note", "a-bee");
        let mut journal = Journal::default();
        journal.add(&note(1, "hail"));
        journal.add(&unread);
        assert_eq!(journal.entries().count(), 0);
        assert_eq!(journal.unread().next().unwrap().1, unread);
    }

    #[test]
    fn a_preview_counts_what_merging_would_add() {
        let (mut ours, mut theirs) = (Journal::default(), Journal::default());
        for text in [note(1, "hail"), note(2, "snow"), "rubbish".to_owned()] {
            ours.add(&text);
        }
        for text in [
            note(1, "hail"),
            note(2, "sleet"),
            note(3, "fog"),
            "rubbish".to_owned(),
            "7".to_owned(),
        ] {
            theirs.add(&text);
        }
        let adds = ours.adds(&theirs);
        assert_eq!((adds.new, adds.twins), (vec![Ulid(3)], vec![Ulid(2)]));
        assert_eq!((adds.known, adds.strays), (1, 1));
    }

    proptest! {
        #[test]
        fn merging_does_not_mind_the_order(a in any_journal(), b in any_journal()) {
            prop_assert_eq!(merged(&a, &b), merged(&b, &a));
        }

        #[test]
        fn merging_does_not_mind_the_grouping(a in any_journal(), b in any_journal(), c in any_journal()) {
            prop_assert_eq!(merged(&merged(&a, &b), &c), merged(&a, &merged(&b, &c)));
        }

        #[test]
        fn merging_twice_changes_nothing(a in any_journal(), b in any_journal()) {
            let once = merged(&a, &b);
            prop_assert_eq!(merged(&once, &b), once.clone());
            prop_assert_eq!(merged(&once, &once), once);
            prop_assert_eq!(merged(&a, &Journal::default()), a);
        }

        #[test]
        fn merging_drops_nothing_and_makes_nothing_up(a in any_journal(), b in any_journal()) {
            let both = every_text(&a).union(&every_text(&b)).cloned().collect::<BTreeSet<_>>();
            prop_assert_eq!(every_text(&merged(&a, &b)), both);
        }

        #[test]
        fn adding_does_not_mind_the_order(
            (texts, shuffled) in prop::collection::vec(any_text(), 0..20)
                .prop_flat_map(|texts| (Just(texts.clone()), Just(texts).prop_shuffle())),
        ) {
            let of = |texts: &[String]| {
                let mut journal = Journal::default();
                for text in texts {
                    journal.add(text);
                }
                journal
            };
            let journal = of(&texts);
            prop_assert_eq!(&of(&shuffled), &journal);
            let given = texts.iter().map(|text| text.trim().to_owned()).collect::<BTreeSet<_>>();
            prop_assert_eq!(every_text(&journal), given);
        }

        #[test]
        fn a_preview_is_what_happens(a in any_journal(), b in any_journal()) {
            let adds = a.adds(&b);
            let both = merged(&a, &b);
            prop_assert_eq!(a.len() + adds.new.len(), both.len());
            prop_assert_eq!(a.strays().len() + adds.strays, both.strays().len());
            prop_assert_eq!(adds.new.len() + adds.twins.len() + adds.known, b.len());
            prop_assert_eq!(both.adds(&b).known, b.len());
        }
    }
}
