//! A question that takes longer than a turn.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use serde_json::{Value, json};
use walk::{Walk, now};

/// Twelve lines of close holes: a second's work on a phone.
fn wide_bed() -> Value {
    json!({
        "bed": {"length": "21 ft", "width": "5 ft", "drip": {"lines": "12", "emitter_spacing": "6 in"}},
        "plants": [{"crop": "leek", "spacing": "11 in", "sites": "emitters", "on_hand": ""}],
    })
}

impl Walk {
    /// Asks, without waiting for the answer.
    fn ask(&mut self, fields: &Value) {
        self.app.take("input", "", fields, now(self.local));
    }

    fn shown(&self) -> String {
        self.app.show().into_string()
    }
}

fn begun() -> Walk {
    let mut walk = Walk::at("2026-05-03T08:00:00");
    walk.go("#/ask/plants-per-bed");
    walk.ask(&wide_bed());
    assert!(walk.app.works());
    walk
}

#[test]
fn the_page_stays_as_it_is_for_a_while_then_says_so_then_answers() {
    let mut walk = begun();
    let mut turns = 0;
    while walk.app.is_soon_done() {
        walk.app.turn();
        turns += 1;
    }
    assert!(walk.app.works(), "done in {turns} turns");
    assert!(walk.shown().contains("Working it out"));
    assert!(!walk.shown().contains("Work it out"));
    assert!(walk.shown().contains("value=\"11 in\""), "what was typed stays");
    while walk.app.works() {
        walk.app.turn();
    }
    let answered = walk.shown();
    walk.event("input", "", &wide_bed());
    assert_eq!(answered, walk.page, "however it is cut");
    walk.sees(" fit at 11 in");
}

#[test]
fn another_question_takes_the_place_of_one_that_is_worked_out() {
    let mut walk = begun();
    let mut small = wide_bed();
    small["bed"]["length"] = "4 ft".into();
    small["bed"]["drip"]["lines"] = "2".into();
    walk.ask(&small);
    assert!(!walk.app.works());
    walk.ask(&wide_bed());
    walk.go("#/book");
    assert!(!walk.app.works());
    walk.lacks("fit at 11 in");
}

#[test]
fn what_is_written_follows_from_the_question_that_stands_in_the_form() {
    let mut walk = Walk::at("2026-05-03T08:00:00");
    walk.go("#/ask/plants-per-bed");
    let mut small = wide_bed();
    small["bed"]["length"] = "4 ft".into();
    small["bed"]["drip"]["lines"] = "2".into();
    walk.event("input", "", &small);
    walk.ask(&wide_bed());
    assert!(walk.app.works());
    walk.event("submit", "write", &json!({}));
    let bed = walk.app.beds()[0];
    let length = bed.shape["length"].as_str().unwrap();
    assert!(length.starts_with("21"), "{length}");
    assert!(bed.plantings[0].count > Some(50));
}
