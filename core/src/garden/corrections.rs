//! How an entry reads once its corrections are applied.
//!
//! A correction sets fields and names the corrections it saw (`over`). Of those that set one field, one that
//! another of them saw has lost, whatever the ids and the phones' clocks say: it happened before, in the sense
//! of L. Lamport, "Time, Clocks, and the Ordering of Events in a Distributed System", Communications of the
//! ACM 21 (1978), 558–565. Those left did not know of each other: the greatest id counts, and what gave way to
//! it is told.

use crate::{
    journal::{
        Entry, Ulid, What,
        details::{Corrected, Object},
    },
    time::iso::show_when,
};
use serde_json::Value;

/// More corrections of one entry than any person makes. Beyond, `over` is not looked at, so that no copy keeps a
/// phone busy.
const MOST: usize = 256;

/// The corrections of one entry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Corrections {
    /// The entry corrected.
    pub target: Ulid,
    /// Those of which something counts, in order of ids.
    pub hold: Vec<Ulid>,
    /// Those that none of the others saw, in order of ids: what the next correction has to name.
    pub latest: Vec<Ulid>,
    /// What gave way to another that did not know of it.
    pub gave_way: Vec<GaveWay>,
}

/// A field that two corrections set, neither knowing of the other.
#[derive(Clone, Debug, PartialEq)]
pub struct GaveWay {
    /// The field, as a form names it: `when`, `about`, `what.count`.
    pub field: String,
    /// The correction that counts.
    pub to: Ulid,
    /// The one that does not.
    pub by: Ulid,
    /// What that one says; null where it takes the field out.
    pub said: Value,
}

/// A correction, and whether it counts: one that is struck still tells what it saw.
#[derive(Clone, Copy)]
pub(super) struct Told<'a> {
    pub(super) id: Ulid,
    pub(super) given: &'a Corrected,
    pub(super) counts: bool,
}

/// Corrections of one entry at work, in order of ids.
struct Work<'a> {
    told: &'a [Told<'a>],
    /// For each, the places of those it names.
    over: Vec<Vec<usize>>,
    helps: Vec<bool>,
    gave_way: Vec<GaveWay>,
}

/// Applies the corrections of an entry, given in order of ids; nothing where none changes anything.
pub(super) fn correct(entry: &mut Entry, told: &[Told<'_>]) -> Option<Corrections> {
    let mut work = Work::of(told);
    let when = work
        .decide("when", &Value::Null, &|_, it| it.when.map(|when| Value::String(show_when(when))));
    let about = work.decide("about", &Value::Null, &|_, it| {
        it.about.as_ref().map(|about| Value::Object(about.parts()))
    });
    if let Some(when) = when.and_then(|at| told.get(at)?.given.when) {
        entry.when = when;
    }
    if let Some(about) = about.and_then(|at| told.get(at)?.given.about.clone()) {
        entry.about = about;
    }
    work.correct_what(&mut entry.what);
    let counting = told.iter().enumerate().filter(|(_, it)| it.counts);
    let seen = work.seen_by(counting.clone().map(|(at, _)| at).collect());
    let hold = counting.clone().filter(|(at, _)| work.helps.get(*at) == Some(&true));
    let hold: Vec<Ulid> = hold.map(|(_, it)| it.id).collect();
    let latest = counting.filter(|(at, _)| seen.get(*at) != Some(&true)).map(|(_, it)| it.id);
    let target = entry.id;
    let latest = latest.collect();
    (!hold.is_empty()).then_some(Corrections { target, hold, latest, gave_way: work.gave_way })
}

/// What a correction sets a field to, if it does; by its place, too.
type Gives<'a> = dyn Fn(usize, &Corrected) -> Option<Value> + 'a;

impl<'a> Work<'a> {
    fn of(told: &'a [Told<'a>]) -> Self {
        let place = |id: &Ulid| told.binary_search_by_key(id, |it| it.id).ok();
        let over = |it: &Told<'_>| it.given.over.iter().filter_map(place).collect();
        let over = match told.len() {
            0..=MOST => told.iter().map(over).collect(),
            _ => Vec::new(),
        };
        Self { told, over, helps: vec![false; told.len()], gave_way: Vec::new() }
    }

    /// What these saw, themselves or through others that they saw, by place.
    fn seen_by(&self, mut these: Vec<usize>) -> Vec<bool> {
        let mut seen = vec![false; self.told.len()];
        while let Some(at) = these.pop() {
            for named in self.over.get(at).into_iter().flatten() {
                if let Some(seen @ false) = seen.get_mut(*named) {
                    *seen = true;
                    these.push(*named);
                }
            }
        }
        seen
    }

    /// Which correction decides a field, of those that count and give it; and notes what gave way to it.
    fn decide(&mut self, field: &str, was: &Value, gives: &Gives<'_>) -> Option<usize> {
        let counting = self.told.iter().enumerate().filter(|(_, it)| it.counts);
        let given = counting.filter_map(|(at, it)| Some((at, it.id, gives(at, it.given)?)));
        let given: Vec<(usize, Ulid, Value)> = given.collect();
        let seen = self.seen_by(given.iter().map(|it| it.0).collect());
        let standing = |it: &&(usize, Ulid, Value)| seen.get(it.0) != Some(&true);
        // Those that claim to have seen one another in a circle have all lost; then the ids decide.
        let (at, to, said) = given.iter().rev().find(standing).or(given.last())?;
        for (_, by, other) in given.iter().filter(standing) {
            // The whole of an entry names fields too that nobody has changed.
            if other != said && other != was {
                let (field, said) = (field.to_owned(), other.clone());
                self.gave_way.push(GaveWay { field, to: *to, by: *by, said });
            }
        }
        if let Some(helps) = self.helps.get_mut(*at) {
            *helps = true;
        }
        Some(*at)
    }

    /// Corrects field by field what an entry says.
    fn correct_what(&mut self, what: &mut What) {
        let (was, kind, told) = (what.object(), what.kind(), self.told);
        let fitting = |it: &Told<'_>| {
            let given = it.given;
            let mut whole = given.what.as_ref().unwrap_or(&was).clone();
            lay_over(&mut whole, given.set.clone().unwrap_or_default());
            let is_given = it.counts && (given.set.is_some() || given.what.is_some());
            Some(What::of(kind, whole).ok().filter(|_| is_given)?.object())
        };
        // What no such entry can say changes nothing, as does a field not known here.
        let fitting: Vec<Option<Object>> = told.iter().map(fitting).collect();
        let mut fields = was.clone();
        for name in fitting.iter().flatten().flat_map(Object::keys) {
            fields.entry(name).or_insert(Value::Null);
        }
        let before = (self.helps.clone(), self.gave_way.clone());
        let mut now = was.clone();
        for (name, was) in &fields {
            let gives = |at: usize, given: &Corrected| {
                fitting.get(at)?.as_ref()?;
                let of = |fields: &Object| fields.get(name).cloned();
                let whole = given.what.as_ref().map(|whole| of(whole).unwrap_or_default());
                given.set.as_ref().and_then(of).or(whole)
            };
            let Some(at) = self.decide(&format!("what.{name}"), was, &gives) else {
                continue;
            };
            let said = told.get(at).and_then(|it| gives(at, it.given));
            let mut one = Object::new();
            one.insert(name.clone(), said.unwrap_or_default());
            lay_over(&mut now, one);
        }
        match What::of(kind, now) {
            Ok(read) => *what = read,
            // Each fits, but not all together: a bed that loses its name by one and its shape by another.
            Err(_) => (self.helps, self.gave_way) = before,
        }
    }
}

/// Each field given replaces the one below it; null takes it out.
pub(super) fn lay_over(below: &mut Object, fields: Object) {
    for (name, value) in fields {
        if value.is_null() {
            below.remove(&name);
        } else {
            below.insert(name, value);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        garden::{
            Garden, Planting,
            tests::{FENCE, KALE, garden, journal},
        },
        journal::{Journal, file, samples::entry_text},
    };

    const LAID_OUT: [(u128, u32, &str); 2] = [(1, 1, FENCE), (2, 2, KALE)];

    fn with(corrections: &[(u128, &str)]) -> Garden {
        let given: Vec<String> = corrections.iter().map(|(_, what)| corrected(what)).collect();
        let given = corrections.iter().zip(&given).map(|((id, _), text)| (*id, 3, text.as_str()));
        garden(&LAID_OUT.into_iter().chain(given).collect::<Vec<_>>())
    }

    fn corrected(what: &str) -> String {
        format!(r#""kind":"corrected","what":{{"target":"$2",{what}}}"#)
    }

    fn planting(garden: &Garden) -> &Planting {
        garden.planting(Ulid(2)).unwrap().1
    }

    fn count(corrections: &[(u128, &str)]) -> Option<u32> {
        planting(&with(corrections)).count
    }

    #[test]
    fn fields_set_by_two_phones_hold_together() {
        let garden = with(&[(3, r#""set":{"count":5}"#), (4, r#""set":{"spacing":"18 in"}"#)]);
        let planting = planting(&garden);
        assert_eq!((planting.count, planting.spacing.as_deref()), (Some(5), Some("18 in")));
        let corrections = garden.corrections(Ulid(2)).unwrap();
        assert_eq!(
            (&*corrections.hold, &*corrections.gave_way),
            (&[Ulid(3), Ulid(4)][..], &[][..])
        );
        assert_eq!(corrections.latest, [Ulid(3), Ulid(4)]);
    }

    #[test]
    fn null_takes_a_field_out_but_not_one_that_is_needed() {
        assert_eq!(count(&[(3, r#""set":{"count":null}"#)]), None);
        let garden = with(&[(3, r#""set":{"crop":null,"count":5}"#)]);
        assert_eq!((planting(&garden).crop.as_str(), planting(&garden).count), ("kale", Some(6)));
        assert_eq!(garden.unplaced, [Ulid(3)]);
    }

    #[test]
    fn one_that_was_seen_has_lost_whatever_its_id() {
        // The phone that saw 9 has a slow clock.
        assert_eq!(
            count(&[(9, r#""set":{"count":5}"#), (3, r#""over":["$9"],"set":{"count":4}"#)]),
            Some(4)
        );
        // Seen through another, which sets something else.
        let chain = [
            (9, r#""set":{"count":5}"#),
            (8, r#""over":["$9"],"set":{"spacing":"18 in"}"#),
            (3, r#""over":["$8"],"set":{"count":4}"#),
        ];
        let garden = with(&chain);
        assert_eq!((planting(&garden).count, planting(&garden).spacing.is_some()), (Some(4), true));
        assert_eq!(garden.corrections(Ulid(2)).unwrap().latest, [Ulid(3)]);
        assert_eq!(garden.unplaced, [Ulid(9)]);
    }

    #[test]
    fn of_two_that_did_not_know_of_each_other_the_greater_id_counts_and_both_are_told() {
        let garden = with(&[(3, r#""set":{"count":5}"#), (4, r#""set":{"count":4}"#)]);
        assert_eq!(planting(&garden).count, Some(4));
        let gave_way =
            GaveWay { field: "what.count".to_owned(), to: Ulid(4), by: Ulid(3), said: 5.into() };
        assert_eq!(garden.corrections(Ulid(2)).unwrap().gave_way, [gave_way]);
        // Saying the same is no dispute.
        let same = with(&[(3, r#""set":{"count":5}"#), (4, r#""set":{"count":5}"#)]);
        assert!(same.corrections(Ulid(2)).unwrap().gave_way.is_empty());
        // Who knows one of them only has not settled it with the other.
        let third = [
            (3, r#""set":{"count":5}"#),
            (5, r#""set":{"count":4}"#),
            (4, r#""over":["$3"],"set":{"count":3}"#),
        ];
        assert_eq!(count(&third), Some(4));
    }

    #[test]
    fn a_struck_correction_sets_nothing_and_still_tells_what_it_saw() {
        let five = corrected(r#""set":{"count":5}"#);
        let four = corrected(r#""over":["$9"],"set":{"count":4}"#);
        let three = corrected(r#""over":["$4"],"set":{"count":3}"#);
        let strike = r#""kind":"struck-out","what":{"target":"$4"}"#;
        let all = [(9, 3, &*five), (4, 3, &*four), (3, 3, &*three), (10, 4, strike)];
        assert_eq!(planting(&garden(&[&LAID_OUT[..], &all].concat())).count, Some(3));
        let undone = [(9, 3, &*five), (4, 3, &*four), (10, 4, strike)];
        assert_eq!(planting(&garden(&[&LAID_OUT[..], &undone].concat())).count, Some(5));
    }

    #[test]
    fn those_that_claim_to_have_seen_one_another_are_settled_by_their_ids() {
        let circle = [
            (3, r#""over":["$4"],"set":{"count":5}"#),
            (4, r#""over":["$3","$4"],"set":{"count":4}"#),
        ];
        assert_eq!(count(&circle), Some(4));
    }

    #[test]
    fn what_can_not_be_said_together_leaves_the_entry_as_it_was() {
        let garden = garden(&[
            (1, 1, FENCE),
            (2, 2, r#""kind":"corrected","what":{"target":"$1","set":{"name":null}}"#),
            (3, 2, r#""kind":"corrected","what":{"target":"$1","set":{"bed":null}}"#),
        ]);
        assert_eq!(garden.beds[0].name, "Fence bed");
        assert_eq!(garden.beds[0].shape["length"], "8 ft");
        assert_eq!(garden.unplaced, [Ulid(2), Ulid(3)]);
    }

    #[test]
    fn a_correction_made_after_the_entry_was_undone_is_told() {
        let strike = r#""kind":"struck-out","what":{"target":"$2"}"#;
        let five = corrected(r#""set":{"count":5}"#);
        let told = |strike_id: u128, correction: u128| {
            let more = [(strike_id, 3, strike), (correction, 3, &*five)];
            garden(&[&LAID_OUT[..], &more].concat()).corrected_later
        };
        assert_eq!(told(3, 4), [Ulid(2)]);
        assert!(told(4, 3).is_empty());
    }

    /// A record as a version reads it that knows neither `set` nor `over`, from the same bytes.
    fn read_before(journal: &Journal) -> Garden {
        let mut before = Journal::default();
        for (_, held) in journal.held() {
            for text in held.texts() {
                before.add(&text.replace("\"set\"", "\"x\"").replace("\"over\"", "\"y\""));
            }
        }
        Garden::fold(&before)
    }

    #[test]
    fn a_version_that_knows_no_set_passes_it_over_and_keeps_its_bytes() {
        let set = corrected(r#""when":"2026-03-04T00:00","set":{"count":5}"#);
        let only = corrected(r#""over":["$3"],"set":{"count":4}"#);
        let all = journal(&[(1, 1, FENCE), (2, 2, KALE), (3, 3, &set), (4, 3, &only)]);
        let then = read_before(&all);
        assert_eq!(planting(&then).count, Some(6));
        assert_eq!(planting(&then).since, crate::time::iso::read_when("2026-03-04T00:00").unwrap());
        // What it hands over is what came, byte for byte.
        let handed_on = file::read(&file::write(&all)).unwrap().journal;
        assert_eq!(planting(&Garden::fold(&handed_on)).count, Some(4));
    }

    #[test]
    fn the_whole_that_an_older_version_wrote_and_fields_set_count_by_the_same_rules() {
        let whole = r#""what":{"crop":"leek","count":9}"#;
        let both = |whole_id: u128, set_id: u128, set: &str| {
            let garden = with(&[(whole_id, whole), (set_id, set)]);
            (planting(&garden).crop.clone(), planting(&garden).count)
        };
        let leek = |count| ("leek".to_owned(), Some(count));
        assert_eq!(both(3, 4, r#""set":{"count":5}"#), leek(5));
        assert_eq!(both(4, 3, r#""set":{"count":5}"#), leek(9), "the whole sets the count too");
        assert_eq!(
            both(4, 3, r#""over":["$4"],"set":{"count":5}"#),
            leek(5),
            "which was seen here"
        );
        // Both of it is told: the whole, made without knowing of it, has the count as it was first.
        let garden =
            with(&[(3, r#""set":{"count":5}"#), (4, r#""what":{"crop":"leek","count":6}"#)]);
        let gave_way = &garden.corrections(Ulid(2)).unwrap().gave_way;
        assert_eq!((gave_way[0].by, gave_way[0].to, gave_way.len()), (Ulid(3), Ulid(4), 1));
        // The other way round the whole did not touch what was set.
        let garden =
            with(&[(4, r#""set":{"count":5}"#), (3, r#""what":{"crop":"leek","count":6}"#)]);
        assert!(garden.corrections(Ulid(2)).unwrap().gave_way.is_empty());
        assert_eq!((planting(&garden).crop.as_str(), planting(&garden).count), ("leek", Some(5)));
    }

    #[test]
    fn a_field_that_only_a_newer_version_knows_changes_nothing_here() {
        let garden =
            with(&[(3, r#""set":{"mood":"glum"}"#), (4, r#""set":{"mood":"gay","count":5}"#)]);
        assert_eq!(planting(&garden).count, Some(5));
        assert!(garden.corrections(Ulid(2)).unwrap().gave_way.is_empty());
    }

    #[test]
    fn a_copy_full_of_corrections_keeps_nobody_busy() {
        let mut hostile = journal(&LAID_OUT);
        for id in 3..50_000_u128 {
            let what = format!(r#""over":["{}"],"set":{{"x{id}":1,"count":{id}}}"#, Ulid(id - 1));
            let text = corrected(&what).replace("$2", &Ulid(2).to_string());
            hostile.add(&entry_text(id, 0, &text));
        }
        assert_eq!(planting(&Garden::fold(&hostile)).count, Some(49_999));
    }
}
