//! Written means written: the record in two places, one of which answers late, without a browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use std::{
    cell::{Cell, RefCell},
    collections::BTreeMap,
    rc::Rc,
};

use pegline_core::journal::line;
use pegline_web::{
    app::{App, Effect},
    store::{Quick, Store, Witness},
};
use serde_json::{Value, json};
use walk::{Walk, now};

/// What a browser's `localStorage` may be like.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Good,
    /// It is read but takes nothing more.
    Full,
    /// It says nothing and does nothing.
    Idle,
}

/// A phone's two places, which outlive the page.
#[derive(Clone, Debug)]
struct Phone {
    quick: Rc<RefCell<BTreeMap<String, String>>>,
    kind: Rc<Cell<Kind>>,
    sure: Rc<RefCell<BTreeMap<String, String>>>,
    witness: Rc<RefCell<Value>>,
    /// Whether IndexedDB can be opened, and whether it takes anything.
    opens: Rc<Cell<bool>>,
    takes: Rc<Cell<bool>>,
    /// How many letters `localStorage` takes.
    room: Rc<Cell<usize>>,
    /// How many texts were read from it, and how often its keys were.
    read: Rc<Cell<usize>>,
    listed: Rc<Cell<usize>>,
}

impl Quick for Phone {
    fn count(&self) -> usize {
        self.quick.borrow().len()
    }

    fn keys(&self) -> Vec<String> {
        self.listed.set(self.listed.get() + 1);
        self.quick.borrow().keys().cloned().collect()
    }

    fn get(&self, key: &str) -> Option<String> {
        self.read.set(self.read.get() + 1);
        self.quick.borrow().get(key).cloned()
    }

    fn set(&mut self, key: &str, text: &str) {
        let filled: usize =
            self.quick.borrow().iter().map(|(key, text)| key.len() + text.len()).sum();
        if self.kind.get() == Kind::Good && filled + key.len() + text.len() <= self.room.get() {
            self.quick.borrow_mut().insert(key.to_owned(), text.to_owned());
        }
    }

    fn remove(&mut self, key: &str) {
        self.quick.borrow_mut().remove(key);
    }
}

impl Phone {
    fn new(kind: Kind) -> Self {
        let phone = Self {
            quick: Rc::default(),
            kind: Rc::new(Cell::new(kind)),
            sure: Rc::default(),
            witness: Rc::default(),
            opens: Rc::new(Cell::new(true)),
            takes: Rc::new(Cell::new(true)),
            room: Rc::new(Cell::new(5_000_000)),
            read: Rc::default(),
            listed: Rc::default(),
        };
        if kind == Kind::Full {
            phone.quick.borrow_mut().insert("someone/else".into(), "all there is room for".into());
        }
        phone
    }

    /// The page as it is before IndexedDB has said anything.
    fn open(&self) -> Walk {
        let mut walk = Walk::at("2026-11-25T08:00:00");
        walk.app = App::new(Store::on(self.clone()), now(walk.local));
        walk.go("#/");
        walk
    }

    /// Does for a page what its script does in IndexedDB, until there is nothing more to do.
    fn settle(&self, walk: &mut Walk) {
        loop {
            let effects = walk.app.effects();
            if effects.is_empty() {
                return;
            }
            for effect in effects {
                self.carry_out(&effect, walk);
            }
        }
    }

    fn carry_out(&self, effect: &Effect, walk: &mut Walk) {
        match effect {
            Effect::Look(known) if self.opens.get() => {
                let keys: Vec<String> = self.sure.borrow().keys().cloned().collect();
                let keys = (*known != Some(keys.len())).then_some(keys);
                let found = json!({"keys": keys, "witness": *self.witness.borrow()});
                walk.event("found", "", &found);
            }
            Effect::Look(_) => walk.event("not-found", "", &json!({})),
            Effect::Fetch(keys) => {
                let sure = self.sure.borrow().clone();
                let lines: Vec<Value> =
                    keys.iter().filter_map(|key| Some(json!([key, sure.get(key)?]))).collect();
                walk.event("late", "", &json!({ "lines": lines }));
            }
            Effect::Keep { lines, witness } => {
                let keys: Vec<&String> = lines.iter().map(|(key, _)| key).collect();
                let taken = self.opens.get() && self.takes.get();
                if taken {
                    for (key, line) in lines {
                        let mut sure = self.sure.borrow_mut();
                        let there = sure.entry(key.clone()).or_insert_with(|| line.clone());
                        assert_eq!(there, line, "written once");
                    }
                    let Witness { entries, copied } = witness;
                    *self.witness.borrow_mut() = json!({"entries": entries, "copied": copied});
                }
                let event = if taken { "kept" } else { "not-kept" };
                let full = self.kind.get() == Kind::Full;
                walk.event(event, "", &json!({ "keys": keys, "full": full }));
            }
            _ => {}
        }
    }

    fn opened(&self) -> Walk {
        let mut walk = self.open();
        self.settle(&mut walk);
        walk.go("#/");
        walk
    }
}

fn lay_out(walk: &mut Walk, name: &str) {
    walk.go("#/beds/new");
    let bed = json!({"bed": {"name": name, "length": "8", "width": "4"}});
    walk.event("submit", "save-bed:", &bed);
}

const NEW: &str = "Nothing is set up yet";
const FULL: &str = "Not written: the phone is full";
const TAKES_NOTHING: &str = "storage takes nothing";
const LATE: &str = "This browser writes the record late";

#[test]
fn writing_becomes_written_once_the_sure_place_has_it() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    lay_out(&mut walk, "Fence bed");
    walk.sees("Writing: Fence bed laid out");
    walk.lacks("Written");
    assert!(phone.sure.borrow().is_empty());
    phone.settle(&mut walk);
    walk.sees("Written: Fence bed laid out");
    walk.lacks("Writing");
    walk.lacks(LATE);
    assert_eq!(*phone.sure.borrow(), *phone.quick.borrow(), "the same bytes in both");
    assert_eq!(phone.sure.borrow().len(), 1);
}

#[test]
fn a_refused_writing_keeps_what_was_typed_and_says_so() {
    let phone = Phone::new(Kind::Full);
    let mut walk = phone.opened();
    phone.takes.set(false);
    lay_out(&mut walk, "Fence bed");
    walk.sees("Writing: Fence bed laid out");
    phone.settle(&mut walk);
    walk.sees(FULL);
    walk.sees("value=\"Fence bed\"");
    assert!(walk.app.journal().is_empty() && walk.app.beds().is_empty());
    // With room again the very same is written.
    phone.takes.set(true);
    lay_out(&mut walk, "Fence bed");
    phone.settle(&mut walk);
    walk.sees("Written: Fence bed laid out");
    assert_eq!(phone.opened().app.beds()[0].name, "Fence bed");
}

#[test]
fn what_was_refused_comes_back_though_the_gardener_has_gone_on() {
    let phone = Phone::new(Kind::Full);
    let mut walk = phone.opened();
    phone.takes.set(false);
    lay_out(&mut walk, "Fence bed");
    let effects = walk.app.effects();
    walk.go("#/book");
    walk.event("input", "search", &json!({"search": "garlic"}));
    for effect in &effects {
        phone.carry_out(effect, &mut walk);
    }
    walk.sees("value=\"Fence bed\"");
    assert!(walk.app.effects().contains(&Effect::Go("#/beds/new".into())));
    walk.go("#/book");
    walk.sees("value=\"garlic\"");
}

#[test]
fn a_full_quick_place_refuses_nothing_that_the_sure_one_took() {
    let phone = Phone::new(Kind::Full);
    let mut walk = phone.opened();
    lay_out(&mut walk, "Fence bed");
    phone.settle(&mut walk);
    walk.sees("Written: Fence bed laid out");
    walk.lacks(LATE);
    assert_eq!(phone.quick.borrow().len(), 1, "only what others keep");
    assert_eq!(phone.opened().app.beds()[0].name, "Fence bed");
}

#[test]
fn what_only_the_quick_place_took_is_written_for_now_and_later_in_both() {
    let phone = Phone::new(Kind::Good);
    phone.opens.set(false);
    let mut walk = phone.opened();
    walk.sees(LATE);
    lay_out(&mut walk, "Fence bed");
    phone.settle(&mut walk);
    walk.sees("Written: Fence bed laid out (for now)");
    phone.opens.set(true);
    walk.event("looked", "", &Value::Null);
    phone.settle(&mut walk);
    walk.lacks(LATE);
    assert_eq!(phone.sure.borrow().len(), 1);
}

#[test]
fn storage_that_does_nothing_is_found_by_reading_back() {
    let phone = Phone::new(Kind::Idle);
    phone.opens.set(false);
    let mut walk = phone.opened();
    walk.sees("This browser refuses storage");
    lay_out(&mut walk, "Fence bed");
    phone.settle(&mut walk);
    walk.sees("Written: Fence bed laid out");
    assert!(phone.opened().app.beds().is_empty());

    // It comes to do nothing while the page is open.
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    lay_out(&mut walk, "Fence bed");
    phone.kind.set(Kind::Idle);
    phone.takes.set(false);
    lay_out(&mut walk, "Gate bed");
    phone.settle(&mut walk);
    walk.sees(TAKES_NOTHING);
}

#[test]
fn lines_that_come_late_are_merged_and_copied_to_the_quick_place() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    walk.sees(NEW);
    lay_out(&mut walk, "Fence bed");
    phone.settle(&mut walk);
    phone.quick.borrow_mut().clear();

    let mut again = phone.open();
    again.lacks(NEW);
    again.lacks("invented garden");
    again.go("#/book");
    again.lacks("Nothing is written yet");
    again.go("#/settings");
    phone.settle(&mut again);
    again.go("#/beds");
    again.sees("Fence bed");
    assert!(again.app.lost().is_none());
    assert_eq!(*phone.sure.borrow(), *phone.quick.borrow());
}

#[test]
fn a_form_that_the_garden_fills_in_waits_for_late_lines_and_one_in_use_stays() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    walk.go("#/settings");
    let place = json!({"units": "metric", "site": {"latitude": "45.5 N"}});
    walk.event("submit", "save-settings", &place);
    phone.settle(&mut walk);
    phone.quick.borrow_mut().clear();

    let mut again = phone.open();
    again.go("#/settings");
    again.lacks("value=\"45.5 N\"");
    phone.settle(&mut again);
    again.sees("value=\"45.5 N\"");

    phone.quick.borrow_mut().clear();
    let mut typing = phone.open();
    typing.go("#/settings");
    typing.event("input", "wheelbarrow", &json!({"wheelbarrow": "90 l"}));
    phone.settle(&mut typing);
    typing.sees("90 l");
}

#[test]
fn lines_that_only_the_quick_place_has_go_to_the_sure_one() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    lay_out(&mut walk, "Fence bed");
    // The page ends before its script has done anything.
    assert!(phone.sure.borrow().is_empty());
    phone.opened();
    assert_eq!(*phone.sure.borrow(), *phone.quick.borrow());
}

#[test]
fn a_damaged_line_is_kept_aside_and_the_better_one_counts() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    lay_out(&mut walk, "Fence bed");
    phone.settle(&mut walk);
    let (key, good) = phone.quick.borrow_mut().pop_first().unwrap();
    let damaged = good.replace("Fence", "Fense");
    phone.quick.borrow_mut().insert(key.clone(), damaged.clone());
    let again = phone.opened();
    assert_eq!(again.app.beds()[0].name, "Fence bed");
    assert_eq!(again.app.journal().strays().count(), 1);
    assert_eq!(phone.quick.borrow()[&key], damaged, "never rewritten");
    assert_eq!(phone.sure.borrow()[&key], good);
    assert!(again.app.lost().is_none());
}

#[test]
fn a_store_that_was_emptied_is_no_first_visit() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    for name in ["Fence bed", "Gate bed", "Shed bed"] {
        lay_out(&mut walk, name);
        phone.settle(&mut walk);
    }
    walk.event("handed-over", "downloaded", &Value::Null);
    phone.settle(&mut walk);
    phone.quick.borrow_mut().clear();
    let last = phone.sure.borrow_mut().pop_last().unwrap();

    let mut some = phone.opened();
    some.sees("There were 3 entries here; only 2 can be found now.");
    // Writing on is no reason to forget what is missing.
    lay_out(&mut some, "Pear bed");
    phone.settle(&mut some);
    some.go("#/");
    some.sees("There were 4 entries here; only 3 can be found now.");

    phone.quick.borrow_mut().clear();
    phone.sure.borrow_mut().clear();
    let mut none = phone.opened();
    none.sees("There were 4 entries here; none can be found now.");
    none.sees("A copy was last handed over on 25 Nov");
    none.lacks(NEW);
    none.lacks("invented garden");
    // What was lost comes back from elsewhere.
    phone.sure.borrow_mut().insert(last.0, last.1);
    none.event("looked", "", &Value::Null);
    phone.settle(&mut none);
    none.sees("only 1 can be found now");
    none.event("click", "forget-lost", &Value::Null);
    none.lacks("can be found now");
    phone.settle(&mut none);
    phone.opened().lacks("can be found now");
}

#[test]
fn an_open_tab_takes_in_what_others_wrote_and_gives_back_what_storage_lost() {
    let phone = Phone::new(Kind::Good);
    let (mut one, mut other) = (phone.opened(), phone.opened());
    lay_out(&mut one, "Fence bed");
    phone.settle(&mut one);
    // Full for both: only the sure place can tell the other tab.
    phone.kind.set(Kind::Full);
    other.local += chrono::TimeDelta::hours(1);
    lay_out(&mut other, "Gate bed");
    phone.settle(&mut other);
    for tab in [&mut one, &mut other] {
        tab.event("storage", "", &Value::Null);
        phone.settle(tab);
        tab.go("#/beds");
        tab.sees("Fence bed");
        tab.sees("Gate bed");
    }
    phone.kind.set(Kind::Good);
    phone.quick.borrow_mut().clear();
    phone.sure.borrow_mut().clear();
    one.event("looked", "", &Value::Null);
    phone.settle(&mut one);
    one.go("#/beds");
    one.sees("Fence bed");
    assert_eq!(phone.quick.borrow().len(), 2);
    assert_eq!(*phone.sure.borrow(), *phone.quick.borrow());
}

/// A bed and so many notes, as another page of this phone would write them.
fn written_elsewhere(notes: usize) -> Vec<(String, String)> {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    lay_out(&mut walk, "Fence bed");
    let bed: Vec<(String, String)> = phone.quick.borrow().clone().into_iter().collect();
    let note = |at: usize| {
        let id = format!("01KAXW7Y2Q3V4S5T6R7P{at:06}");
        let text = format!(
            r#"{{"v":1,"id":"{id}","when":"2026-11-25T08:30","kind":"note","about":{{"bed":"fence-bed"}},"what":{{"text":"Note {at}"}}}}"#
        );
        (format!("pegline/e/{id}"), line::encode(&text))
    };
    bed.into_iter().chain((0..notes).map(note)).collect()
}

#[test]
fn what_another_tab_wrote_is_read_from_what_was_told_and_not_from_storage() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    let lines = written_elsewhere(5000);
    phone.quick.borrow_mut().extend(lines.iter().cloned());
    phone.sure.borrow_mut().extend(lines.iter().cloned());
    *phone.witness.borrow_mut() = json!({"entries": 5001});
    phone.read.set(0);
    phone.listed.set(0);
    walk.event("storage", "", &json!({ "lines": lines }));
    assert_eq!(walk.app.effects(), [Effect::Look(Some(5001))]);
    walk.event("found", "", &json!({"keys": null, "witness": *phone.witness.borrow()}));
    assert_eq!(walk.app.effects(), []);
    assert_eq!((phone.read.get(), phone.listed.get()), (0, 0));
    assert_eq!(walk.app.garden().happened.len(), 5001);
    walk.go("#/beds");
    walk.sees("Fence bed");
    // What is somebody else's is not taken for a line.
    walk.event("storage", "", &json!({"lines": [["someone/else", "x"]]}));
    assert_eq!(walk.app.journal().strays().count(), 0);
}

#[test]
fn a_return_to_sight_reads_only_what_is_new() {
    let phone = Phone::new(Kind::Good);
    let lines = written_elsewhere(50);
    phone.quick.borrow_mut().extend(lines.iter().skip(2).cloned());
    phone.sure.borrow_mut().extend(lines.iter().skip(2).cloned());
    let mut walk = phone.opened();
    phone.read.set(0);
    phone.listed.set(0);
    walk.event("looked", "", &Value::Null);
    assert_eq!((phone.read.get(), phone.listed.get()), (0, 0));
    phone.settle(&mut walk);
    assert_eq!((phone.read.get(), phone.listed.get()), (0, 0));
    // One line was written while this page heard nothing, and another only to the sure place.
    phone.quick.borrow_mut().extend(lines.iter().take(1).cloned());
    phone.sure.borrow_mut().extend(lines.iter().take(2).cloned());
    walk.event("looked", "", &Value::Null);
    assert_eq!((phone.read.get(), phone.listed.get()), (1, 1));
    phone.settle(&mut walk);
    assert_eq!(walk.app.garden().happened.len(), 51);
    assert_eq!(phone.quick.borrow().len(), 51, "and it is given to the quick place");
}

const FEW: &str = "This browser has room for few entries more";

#[test]
fn room_is_tried_and_told_of_only_where_nothing_else_keeps_the_record() {
    let phone = Phone::new(Kind::Good);
    phone.opens.set(false);
    let mut walk = phone.opened();
    // A third of what browsers grant, and then all but a little.
    phone.quick.borrow_mut().insert("someone/else".into(), "x".repeat(1_700_000));
    lay_out(&mut walk, "Fence bed");
    phone.settle(&mut walk);
    walk.sees("Written: Fence bed laid out (for now)");
    walk.lacks(FEW);
    phone.quick.borrow_mut().insert("someone/else".into(), "x".repeat(4_990_000));
    lay_out(&mut walk, "Gate bed");
    phone.settle(&mut walk);
    walk.sees("Written: Gate bed laid out (for now)");
    walk.sees(FEW);
    assert!(!phone.quick.borrow().contains_key("pegline/probe"));

    // The way out: a copy is taken in by a browser that keeps more.
    let copy = pegline_core::journal::file::write(walk.app.journal());
    let other = Phone::new(Kind::Full);
    let mut there = other.opened();
    there.event("file", "", &json!({ "text": copy }));
    there.event("click", "take-in", &Value::Null);
    other.settle(&mut there);
    there.sees("Taken in: 2 entries");
    there.lacks(FEW);
    assert_eq!(other.opened().app.beds().len(), 2);
}

#[test]
fn lines_are_kept_as_the_record_defines_them() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    lay_out(&mut walk, "Fence bed");
    phone.settle(&mut walk);
    for (key, text) in phone.sure.borrow().iter() {
        assert!(line::decode(key, text).is_ok(), "{key}");
    }
}

#[test]
fn the_invented_garden_keeps_nothing_in_either_place() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    walk.event("click", "demo", &Value::Null);
    lay_out(&mut walk, "Own bed");
    walk.sees("not kept");
    walk.event("handed-over", "downloaded", &Value::Null);
    phone.settle(&mut walk);
    assert!(phone.quick.borrow().is_empty() && phone.sure.borrow().is_empty());
    assert_eq!(*phone.witness.borrow(), Value::Null);
    walk.event("click", "leave-demo", &Value::Null);
    assert!(walk.app.journal().is_empty());
}

/// The text of a note's entry with so many in place of its chance.
fn note(number: u32) -> String {
    format!(
        r#"{{"v":1,"id":"01KAXW7Y2Q3V4S5T6R7P8N{number:04}","when":"2026-11-20T08:30","kind":"note","what":{{"text":"note {number}"}}}}"#
    )
}

fn copy_of(texts: &[String]) -> Value {
    json!({"text": format!("{{\"pegline\":1,\"entries\":[\n{}\n]}}\n", texts.join(",\n"))})
}

#[test]
fn what_a_copy_had_set_aside_is_there_after_a_restart() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    walk.go("#/book");
    let newer = format!(r#"{{"pegline":7,"season":{{"x":1}},"entries":[{},["\u007f"]]}}"#, note(1));
    walk.event("file", "copy", &json!({ "text": newer }));
    walk.event("click", "take-in", &Value::Null);
    phone.settle(&mut walk);
    let kept = walk.app.journal().clone();
    assert_eq!((kept.len(), kept.strays().count()), (1, 2));
    for emptied in [&phone.quick, &phone.sure] {
        assert_eq!(phone.opened().app.journal(), &kept);
        emptied.borrow_mut().clear();
        assert_eq!(phone.opened().app.journal(), &kept, "by the other place alone");
    }
}

#[test]
fn a_taking_in_that_fails_leaves_every_key_as_it_was() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    walk.go("#/book");
    walk.event("file", "copy", &copy_of(&[note(1), note(3)]));
    walk.event("click", "take-in", &Value::Null);
    phone.settle(&mut walk);
    // One of them lies damaged in both places.
    let key = phone.sure.borrow().keys().next_back().unwrap().clone();
    for place in [&phone.quick, &phone.sure] {
        place.borrow_mut().insert(key.clone(), "rubbish".to_owned());
    }
    let before = (phone.quick.borrow().clone(), phone.sure.borrow().clone());

    let mut walk = phone.opened();
    phone.takes.set(false);
    // There is room for two lines of three.
    let size = |(key, text): (&String, &String)| key.len() + text.len();
    let (filled, line) = {
        let quick = phone.quick.borrow();
        (quick.iter().map(size).sum::<usize>(), quick.iter().map(size).max().unwrap())
    };
    phone.room.set(filled + 2 * line + line / 2);
    walk.go("#/book");
    walk.event("file", "copy", &copy_of(&[note(1), note(2), note(3), note(4)]));
    walk.sees("This copy adds 3 entries; 1 entry are here already.");
    walk.event("click", "take-in", &Value::Null);
    phone.settle(&mut walk);
    walk.sees("Not written: ");
    assert_eq!((phone.quick.borrow().clone(), phone.sure.borrow().clone()), before);
    assert_eq!(walk.app.journal().len(), 1);

    // With room they are taken in, beside the damaged line and not in its place.
    phone.takes.set(true);
    phone.room.set(usize::MAX);
    walk.event("file", "copy", &copy_of(&[note(1), note(2), note(3), note(4)]));
    walk.event("click", "take-in", &Value::Null);
    phone.settle(&mut walk);
    walk.sees("Taken in: 3 entries");
    assert_eq!(phone.sure.borrow()[&key], "rubbish");
    assert_eq!(phone.opened().app.journal().entries().count(), 4);
    assert_eq!(*phone.sure.borrow(), *phone.quick.borrow());
}

#[test]
fn the_book_tells_of_the_last_copy_and_a_quiet_word_reminds() {
    let phone = Phone::new(Kind::Good);
    let mut walk = phone.opened();
    walk.go("#/book");
    walk.lacks("No copy was handed over");
    lay_out(&mut walk, "Fence bed");
    walk.go("#/book");
    walk.sees("No copy was handed over from this phone yet.");
    walk.event("handed-over", "downloaded", &Value::Null);
    phone.settle(&mut walk);
    walk.sees("Last copy: 25 Nov, nothing written since that day.");
    for _ in 0..37 {
        walk.local += chrono::TimeDelta::days(1);
        walk.event("submit", "note:", &json!({"note": "hail"}));
        phone.settle(&mut walk);
    }
    walk.go("#/book");
    walk.sees("Last copy: 25 Nov, 37 entries since that day.");
    walk.go("#/");
    walk.sees("Last copy: 25 Nov, 37 entries since. ");
    // The day outlives the page; a new copy ends the reminding.
    let mut again = phone.opened();
    again.local = walk.local;
    again.go("#/");
    again.sees("Last copy: 25 Nov 2026, 37 entries since. ".replace(" 2026", "").as_str());
    again.event("handed-over", "shared", &Value::Null);
    again.lacks("entries since.");
}
