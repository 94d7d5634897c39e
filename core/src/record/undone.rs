//! Undoing an entry: what goes with it, what was undone, and bringing it back.

use crate::{
    garden::Garden,
    journal::{
        About, Draft, Entry, Journal, Ulid, What,
        details::{self, StruckOut},
    },
    text::count,
};

/// What goes when an entry is undone, in sentences, so that it can be said before. Nothing where only what
/// the entry itself says goes.
pub fn goes_with(entry: &Entry, journal: &Journal, garden: &Garden) -> Vec<String> {
    // Nothing else is told by what begins nothing, and folding a record of ten years takes its time.
    let begins = matches!(
        entry.what,
        What::Bed(_) | What::StartSown(_) | What::Planted(_) | What::Seeded(_)
    );
    if !begins {
        return Vec::new();
    }
    let without = Garden::fold_without(journal, Some(entry.id));
    let mut said = Vec::new();
    let bed = entry.about.bed.as_deref().filter(|_| lays_out(&entry.what));
    if let Some(bed) = bed.and_then(|id| garden.bed(id)) {
        let name = &bed.name;
        match without.bed(&bed.id) {
            None => said.push(format!("{name} goes with it: nothing else is told of it.")),
            Some(left) if left.laid_out.is_none() => said.push(format!(
                "Its name and its size go with it. What else is written of it stays, under “{}”.",
                left.name
            )),
            Some(left) if left.name != *name || left.shape != bed.shape => {
                said.push(format!("The bed is then {}, as it was told before.", left.name));
            }
            Some(_) => said.push(format!("{name} stays as it was told last.")),
        }
    }
    let idle = without.unplaced.len().saturating_sub(garden.unplaced.len());
    if idle > 0 {
        let entries = count(u32::try_from(idle).unwrap_or(u32::MAX), "entry", "entries");
        said.push(format!("What goes by it changes nothing then: {entries}."));
    }
    said
}

fn lays_out(what: &What) -> bool {
    matches!(what, What::Bed(details::Bed { gone: false, .. }))
}

/// The entries that were undone, newest first; not the undoings that were taken back.
pub fn undone<'a>(journal: &'a Journal, garden: &Garden) -> Vec<&'a Entry> {
    let struck = garden.struck.iter().rev().filter_map(|id| journal.get(*id)?.entry());
    struck.filter(|entry| !matches!(entry.what, What::StruckOut(_))).collect()
}

/// What undoes an entry.
pub fn undo(target: Ulid) -> Draft {
    Draft { about: About::default(), what: What::StruckOut(StruckOut { target }) }
}

/// The drafts that bring an undone entry back: each undoing of it that counts is undone in turn. None where
/// it counts already.
pub fn bring_back(id: Ulid, journal: &Journal, garden: &Garden) -> Vec<Draft> {
    let undoes = |entry: &&Entry| match entry.what {
        What::StruckOut(StruckOut { target }) => target == id && !garden.is_struck(entry.id),
        _ => false,
    };
    journal.entries().filter(undoes).map(|entry| undo(entry.id)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::samples::{any_journal, entry_text};
    use proptest::prelude::*;

    const LAID_OUT: &str = r#""kind":"bed","about":{"bed":"fence"},"what":{"bed":{"length":"8 ft","width":"4 ft"},"name":"Fence bed"}"#;
    const SMALLER: &str = r#""kind":"bed","about":{"bed":"fence"},"what":{"bed":{"length":"6 ft","width":"4 ft"},"name":"Low bed"}"#;
    const PLANTED: &str =
        r#""kind":"planted","about":{"bed":"fence"},"what":{"count":6,"crop":"leek"}"#;

    fn journal(rests: &[&str]) -> Journal {
        let mut journal = Journal::default();
        for (at, rest) in rests.iter().enumerate() {
            let id = at as u128 + 1;
            journal.add(&entry_text(id, id as u32, rest));
        }
        journal
    }

    fn strike(target: u128) -> String {
        format!(r#""kind":"struck-out","what":{{"target":"{}"}}"#, Ulid(target))
    }

    fn said(rests: &[&str]) -> Vec<String> {
        let journal = journal(rests);
        let garden = Garden::fold(&journal);
        goes_with(journal.entries().next().unwrap(), &journal, &garden)
    }

    #[test]
    fn what_goes_with_a_bed_is_said_before() {
        assert_eq!(said(&[LAID_OUT]), ["Fence bed goes with it: nothing else is told of it."]);
        assert_eq!(
            said(&[LAID_OUT, PLANTED]),
            ["Its name and its size go with it. What else is written of it stays, under “fence”."]
        );
        assert_eq!(said(&[LAID_OUT, SMALLER, PLANTED]), ["Low bed stays as it was told last."]);
        let eaten = format!(
            r#""kind":"harvest","about":{{"planting":"{}"}},"what":{{"all":true}}"#,
            Ulid(1)
        );
        assert_eq!(said(&[PLANTED, &eaten]), ["What goes by it changes nothing then: 1 entry."]);
        assert!(said(&[r#""kind":"note","what":{"text":"hail"}"#]).is_empty());
    }

    #[test]
    fn a_bed_whose_first_entry_is_undone_keeps_what_later_ones_tell() {
        let all = journal(&[LAID_OUT, SMALLER, PLANTED, &strike(1)]);
        let garden = Garden::fold(&all);
        let bed = garden.bed("fence").unwrap();
        assert_eq!((bed.name.as_str(), bed.shape["length"].as_str()), ("Low bed", Some("6 ft")));
        assert_eq!(bed.plantings.len(), 1);
        let bare = journal(&[LAID_OUT, PLANTED, &strike(1)]);
        let garden = Garden::fold(&bare);
        assert_eq!(garden.bed("fence").unwrap().plantings.len(), 1);
    }

    #[test]
    fn each_undoing_by_any_phone_is_taken_back() {
        let mut all = journal(&[LAID_OUT, PLANTED, &strike(2), &strike(2)]);
        let garden = Garden::fold(&all);
        let undone_now: Vec<Ulid> = undone(&all, &garden).iter().map(|entry| entry.id).collect();
        assert_eq!(undone_now, [Ulid(2)]);
        let drafts = bring_back(Ulid(2), &all, &garden);
        assert_eq!(drafts.len(), 2);
        for (draft, id) in drafts.into_iter().zip(10..) {
            let when = crate::time::iso::read_when("2026-03-02T08:00").unwrap();
            all.add_entry(&draft.stamp(Ulid(id), when).unwrap());
        }
        let garden = Garden::fold(&all);
        assert_eq!(garden.bed("fence").unwrap().plantings.len(), 1);
        assert!(undone(&all, &garden).is_empty());
        assert!(bring_back(Ulid(2), &all, &garden).is_empty());
    }

    proptest! {
        #[test]
        fn whatever_is_listed_as_undone_can_be_brought_back(mut journal in any_journal()) {
            let garden = Garden::fold(&journal);
            let listed: Vec<Ulid> = undone(&journal, &garden).iter().map(|entry| entry.id).collect();
            let mut next = 1000;
            for id in listed {
                let garden = Garden::fold(&journal);
                let drafts = bring_back(id, &journal, &garden);
                prop_assert!(!drafts.is_empty());
                for draft in drafts {
                    let when = crate::time::iso::read_when("2026-03-30T08:00").unwrap();
                    journal.add_entry(&draft.stamp(Ulid(next), when).unwrap());
                    next += 1;
                }
                prop_assert!(!Garden::fold(&journal).is_struck(id));
            }
        }
    }
}
