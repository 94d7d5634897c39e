//! The Book: its newest entries and the older ones, and two phones' records that meet, without a browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use std::collections::BTreeSet;

use pegline_core::journal::file;
use serde_json::{Value, json};
use walk::Walk;

/// A phone that has laid a bed out and planted it, some hours after the other.
fn phone(hour: u32, length: &str, leeks: &str) -> Walk {
    let mut walk = Walk::at(&format!("2026-05-03T{hour:02}:00:00"));
    walk.go("#/beds/new");
    let bed = json!({"bed": {"name": "Bed 1", "length": length, "width": "4"}});
    walk.event("submit", "save-bed:", &bed);
    let id = walk.app.beds()[0].id.clone();
    walk.go("#/ask/plants-per-bed");
    let question =
        json!({"bed": id, "plants": [{"crop": "leek", "on_hand": leeks, "sites": "anywhere"}]});
    walk.event("submit", "answer", &question);
    walk.event("submit", "write", &json!({}));
    walk
}

/// As [`phone`], with chance of its own.
fn other_phone() -> String {
    // All chance is the same here, so the other's ids are written otherwise.
    let text = file::write(phone(9, "6", "6").app.journal());
    text.replace("ge1r7", "zzzzz").replace("GE1R7", "ZZZZZ")
}

fn take_in(walk: &mut Walk, text: &str, taps: &[&str]) {
    walk.go("#/book");
    walk.event("file", "copy", &json!({ "text": text }));
    for tap in taps {
        walk.event("click", tap, &Value::Null);
    }
    walk.event("click", "take-in", &Value::Null);
}

fn names(walk: &Walk) -> Vec<&str> {
    walk.app.beds().iter().map(|bed| bed.name.as_str()).collect()
}

#[test]
fn a_new_bed_has_an_id_of_its_own_and_one_of_an_older_record_goes_on_working() {
    let mut walk = phone(8, "8", "6");
    assert_eq!(walk.app.beds()[0].id, "bed-1-ge1r7");
    assert_eq!(walk.app.beds()[0].plantings.len(), 1);
    walk.go("#/bed/bed-1-ge1r7");
    walk.sees("6 leek");
    let old = file::write(walk.app.journal()).replace("bed-1-ge1r7", "bed-1");
    let mut older = Walk::at("2026-06-01T08:00:00");
    take_in(&mut older, &old, &[]);
    older.go("#/bed/bed-1/change");
    let bed = json!({"bed": {"name": "Low bed", "length": "8", "width": "4"}});
    older.event("submit", "save-bed:bed-1", &bed);
    assert_eq!(older.app.beds().len(), 1);
    older.go("#/bed/bed-1");
    older.sees("Low bed");
    older.sees("6 leek");
}

#[test]
fn two_phones_beds_of_one_name_are_told_apart_before_they_are_added() {
    let mut walk = phone(8, "8", "6");
    walk.go("#/book");
    walk.event("file", "copy", &json!({"text": other_phone()}));
    walk.sees("Both have a bed called “Bed 1”: here 8 ft by 4 ft, laid out 3 May 2026, in the copy 6 ft by 4 ft, laid out 3 May 2026.");
    walk.sees("the one laid out later is then called “Bed 1 (2)”");
    walk.lacks("Noted by both");
    walk.event("click", "take-in", &Value::Null);
    walk.sees("Taken in: 2 entries");
    assert_eq!(names(&walk), ["Bed 1", "Bed 1 (2)"]);
    for (bed, size) in [("bed-1-ge1r7", "8 ft by 4 ft"), ("bed-1-zzzzz", "6 ft by 4 ft")] {
        walk.go(&format!("#/bed/{bed}"));
        walk.sees(size);
        walk.sees("6 leek");
    }
    // Taken in again there is nothing left to ask.
    take_in(&mut walk, &other_phone(), &[]);
    assert_eq!(names(&walk), ["Bed 1", "Bed 1 (2)"]);
}

#[test]
fn a_bed_and_a_planting_that_both_phones_noted_can_be_one() {
    let mut walk = phone(8, "6", "6");
    let text = other_phone();
    walk.go("#/book");
    walk.event("file", "copy", &json!({ "text": text }));
    walk.event("click", "join-beds:0", &Value::Null);
    walk.sees("They become one bed.");
    walk.sees("Noted by both: 6 leek planted in Bed 1");
    walk.sees("It counts twice.");
    walk.event("click", "join-plantings:0", &Value::Null);
    walk.sees("It counts once.");
    // It can be taken back as long as nothing was taken in.
    walk.event("click", "join-beds:0", &Value::Null);
    walk.lacks("Noted by both");
    walk.event("click", "join-beds:0", &Value::Null);
    walk.event("click", "take-in", &Value::Null);
    assert_eq!(names(&walk), ["Bed 1"]);
    let left: u32 = walk.app.beds()[0].plantings.iter().filter_map(|it| it.left).sum();
    assert_eq!(left, 6);
    walk.event("click", "join-beds:7", &Value::Null);
    walk.event("click", "join-plantings:x", &Value::Null);
}

#[test]
fn both_corrections_of_two_phones_are_shown_on_the_entry() {
    let mut walk = phone(8, "8", "6");
    let text = file::write(walk.app.journal());
    let planted = walk.app.beds()[0].plantings[0].id;
    let correct = |walk: &mut Walk, count: &str| {
        walk.go(&format!("#/book/{planted}"));
        let fields = json!({"when": "2026-05-03T08:05", "what": {"crop": "leek", "count": count}});
        walk.event("input", "what.count", &fields);
        walk.event("submit", &format!("correct:{planted}"), &fields);
        walk.sees("Corrected");
    };
    let mut other = Walk::at("2026-05-03T12:00:00");
    take_in(&mut other, &text, &[]);
    correct(&mut other, "4");
    correct(&mut walk, "5");
    take_in(&mut walk, &file::write(other.app.journal()), &[]);
    walk.go(&format!("#/book/{planted}"));
    walk.sees("How many: corrected on two phones that did not know of each other; “4” counts, the other says “5”.");
    correct(&mut walk, "5");
    walk.go(&format!("#/book/{planted}"));
    walk.lacks("did not know of each other");
    assert_eq!(walk.app.beds()[0].plantings[0].count, Some(5));
}

#[test]
fn the_book_shows_the_newest_and_older_ones_when_asked() {
    let mut walk = Walk::at("2026-05-03T08:00:00");
    walk.go("#/book");
    for number in 0..250 {
        walk.event("submit", "note:", &json!({"note": format!("hail no. {number:03}")}));
    }
    walk.go("#/book");
    walk.sees("hail no. 249");
    walk.sees("hail no. 150");
    walk.lacks("hail no. 149");
    walk.sees("Older: 150 more");
    walk.event("click", "older", &Value::Null);
    walk.sees("hail no. 050");
    walk.sees("Older: 50 more");
    walk.event("click", "older", &Value::Null);
    walk.sees("hail no. 000");
    walk.lacks("Older: ");
    // Each row has a name of its own, by which the page finds it again.
    let ids: Vec<&str> =
        walk.page.split(" id=\"").skip(1).filter_map(|it| it.split('"').next()).collect();
    assert_eq!(ids.iter().filter(|id| id.starts_with("e-")).count(), 250);
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
    // Looking for one looks through all of them; elsewhere and back it begins anew.
    walk.go("#/beds");
    walk.go("#/book");
    walk.sees("Older: 150 more");
    walk.event("input", "search", &json!({"search": "no. 007"}));
    walk.sees("hail no. 007");
    walk.lacks("Older: ");
}
