//! What is typed stays typed, whatever else becomes of the page.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

/// Ids of beds laid out here: their chance is always the same.
const FENCE: &str = "fence-bed-ge1r7";
const SHED: &str = "shed-bed-ge1r7";

use pegline_web::{
    app::{App, Effect},
    store::{Quick, Store},
};
use serde_json::{Map, Value, json};
use walk::{Walk, now};

impl Walk {
    /// Two beds and a tray, so that every form there is has its screen.
    fn begin() -> Self {
        let mut walk = Self::at("2026-11-25T08:00:00");
        for name in ["Fence bed", "Shed bed"] {
            walk.go("#/beds/new");
            let bed = json!({"bed": {"name": name, "length": "8", "width": "4"}});
            walk.event("submit", "save-bed:", &bed);
        }
        walk.go("#/starts/new");
        walk.event("submit", "sow", &json!({"sown": {"crop": "kale", "count": "24"}}));
        walk
    }

    fn tray(&self) -> String {
        self.app.garden().starts[0].id.to_string()
    }

    /// Types a text of its own into each field of the page, form by form as the page's script tells it.
    fn type_everywhere(&mut self) -> Vec<String> {
        let mut typed = Vec::new();
        let page = self.page.clone();
        for form in page.split("<form ").skip(1) {
            let form = form.split("</form>").next().unwrap();
            let mut fields = Map::new();
            for input in form.split("<input ").skip(1).map(|it| it.split('>').next().unwrap()) {
                let text = match attribute(input, "type") {
                    "text" => format!("half a word {}", typed.len()),
                    "datetime-local" => format!("2026-11-{:02}T07:30", 1 + typed.len() % 25),
                    "date" => format!("2026-10-{:02}", 1 + typed.len() % 25),
                    _ => continue,
                };
                typed.push(text.clone());
                fields.insert(attribute(input, "name").to_owned(), text.into());
            }
            self.event("typed", "", &Value::Object(fields));
        }
        typed
    }

    #[track_caller]
    fn holds(&self, typed: &[String]) {
        for text in typed {
            self.sees(&format!("value=\"{text}\""));
        }
    }
}

fn attribute<'a>(tag: &'a str, name: &str) -> &'a str {
    let (_, rest) = tag.split_once(&format!("{name}=\"")).unwrap();
    rest.split('"').next().unwrap()
}

/// The screens with forms that answer nothing yet, and how many fields are typed in there.
fn screens(walk: &Walk) -> Vec<(String, usize)> {
    let tray = walk.tray();
    vec![
        ("#/settings".to_owned(), 30),
        ("#/beds/new".to_owned(), 9),
        ("#/bed/fence-bed-ge1r7/change".to_owned(), 9),
        ("#/bed/fence-bed-ge1r7".to_owned(), 6),
        ("#/starts/new".to_owned(), 7),
        (format!("#/start/{tray}"), 8),
        (format!("#/book/{tray}"), 6),
        ("#/thermometers".to_owned(), 10),
    ]
}

#[test]
fn no_redrawing_of_the_page_takes_a_typed_text_away() {
    let mut walk = Walk::begin();
    for (address, at_least) in screens(&walk) {
        walk.go(&address);
        let typed = walk.type_everywhere();
        assert!(typed.len() >= at_least, "{address} has {} fields", typed.len());
        for (event, action) in [
            ("looked", ""),
            ("newer", "ready"),
            ("newer", "elsewhere"),
            ("storage", "pegline/e/01KAXW7Y2Q3V4S5T6R7P8N9M0K"),
            ("persisted", "no"),
            ("handed-over", "downloaded"),
        ] {
            walk.event(event, action, &Value::Null);
            walk.holds(&typed);
        }
        walk.local += chrono::TimeDelta::days(1);
        walk.event("looked", "", &Value::Null);
        walk.holds(&typed);
    }
}

#[test]
fn going_back_and_forward_finds_each_form_as_it_was_left() {
    let mut walk = Walk::begin();
    let mut left = Vec::new();
    for (address, _) in screens(&walk) {
        walk.go(&address);
        left.push((address, walk.type_everywhere()));
    }
    // Writing elsewhere is no reason to forget what is half filled here.
    walk.go("#/ask/plants-per-bed");
    let question = json!({"bed": SHED, "plants": [{"crop": "leek", "on_hand": "6"}]});
    walk.event("submit", "answer", &question);
    walk.event("submit", "write", &json!({}));
    walk.sees("6 leek planted in Shed bed");
    for (address, typed) in left.iter().rev() {
        walk.go(address);
        walk.holds(typed);
    }
}

#[test]
fn a_form_that_was_written_is_empty_again_and_one_not_typed_in_follows_the_garden() {
    let mut walk = Walk::begin();
    walk.go("#/beds/new");
    walk.sees("value=\"Bed 1\"");
    walk.lacks("value=\"Shed bed\"");
    walk.go("#/bed/fence-bed-ge1r7/change");
    walk.go("#/bed/fence-bed-ge1r7/change");
    walk.event(
        "submit",
        "save-bed:fence-bed-ge1r7",
        &json!({"bed": {"name": "Low bed", "length": "6", "width": "4"}}),
    );
    walk.go("#/bed/fence-bed-ge1r7/change");
    walk.sees("value=\"Low bed\"");
}

#[test]
fn saving_one_form_leaves_the_others_of_the_page_as_they_are() {
    let mut walk = Walk::begin();
    walk.go("#/bed/fence-bed-ge1r7");
    walk.event("typed", "note", &json!({"note": "slugs under the bo"}));
    let reading = json!({"reading": {"soil": "48", "depth": "4", "low": "", "high": ""}, "when": {"reading": ""}});
    walk.event("submit", "reading:fence-bed-ge1r7", &reading);
    walk.sees("Written: Read at Fence bed");
    walk.sees("value=\"slugs under the bo\"");
    walk.lacks("value=\"48\"");
    walk.event("submit", "note:fence-bed-ge1r7", &json!({"note": "slugs under the boards"}));
    walk.lacks("value=\"slugs");
    walk.sees("slugs under the boards");
}

#[test]
fn a_moment_set_in_one_form_is_not_that_of_another() {
    let mut walk = Walk::begin();
    walk.go("#/bed/fence-bed-ge1r7");
    let reading = json!({"reading": {"soil": "48"}, "when": {"reading": "2026-11-20T07:00"}});
    walk.event("typed", "when.reading", &reading);
    walk.event("submit", "note:fence-bed-ge1r7", &json!({"note": "hail"}));
    let note = walk.app.garden().happened.last().unwrap();
    assert_eq!(note.entry.when.date(), walk.local.date());
    walk.sees("value=\"2026-11-20T07:00\"");
    walk.event("submit", "reading:fence-bed-ge1r7", &reading);
    let read = &walk.app.garden().beds[0].readings[0];
    assert_eq!(read.when.to_string(), "2026-11-20 07:00:00");

    let tray = walk.tray();
    walk.go(&format!("#/start/{tray}"));
    let lost = json!({"lost": {"count": "2"}, "when": {"lost": "2026-11-21T07:00"}});
    walk.event("typed", "when.lost", &lost);
    let moved = json!({"moved": {"spot": "cold-frame"}, "when": {"moved": ""}});
    walk.event("submit", &format!("tray:moved:{tray}"), &moved);
    let start = &walk.app.garden().starts[0];
    assert_eq!(start.spots.last().unwrap().0.date(), walk.local.date());
    walk.sees("value=\"2026-11-21T07:00\"");
    let wrong = json!({"lost": {"count": "2"}, "when": {"lost": "yesterday"}});
    walk.event("submit", &format!("tray:lost:{tray}"), &wrong);
    walk.sees("no moment can be read from it");
    walk.sees("<details open><summary>Lost, given away or composted</summary>");
}

#[test]
fn a_low_typed_for_one_bed_is_not_written_for_another() {
    let mut walk = Walk::begin();
    walk.go("#/thermometers");
    let round = json!({"at": [
        {"spot": "outdoors"}, {"spot": "unheated-greenhouse"}, {"spot": "cold-frame"},
        {"bed": FENCE, "low": "31"}, {"bed": SHED, "low": ""},
    ]});
    walk.event("input", "at.3.low", &round);
    // From now on the other bed stands before it, since it was read before.
    walk.event("submit", "spoken", &json!({"line": "28 in shed bed at dawn"}));
    walk.sees("Written: Read at Shed bed");
    let row = format!("name=\"at.3.bed\" value=\"{FENCE}\"");
    walk.sees(&row);
    walk.sees(&format!("name=\"at.4.bed\" value=\"{SHED}\""));
    let (_, rest) = walk.page.split_once(&row).unwrap();
    assert!(rest.split_once("at.3.low").unwrap().1.contains("value=\"31\""));
}

#[test]
fn what_is_typed_is_handed_over_to_the_page_that_is_loaded_next() {
    let mut walk = Walk::begin();
    let fresh = walk.app.typed();
    assert_eq!(fresh, None, "nothing is typed yet");
    let mut left = Vec::new();
    for address in ["#/settings", "#/beds/new", "#/starts/new"] {
        walk.go(address);
        left.push((address, walk.type_everywhere()));
    }
    walk.go("#/ask/plants-per-bed");
    // Chosen or described: both texts are kept, though only one counts.
    let question = json!({"bed.length": "9 ft", "bed": SHED, "plants": [{"crop": "lee"}]});
    walk.event("input", "plants.0.crop", &question);
    walk.event("click", "update", &Value::Null);
    let handed = walk.app.typed().unwrap();

    let mut next = Walk {
        app: App::new(Store::memory(), now(walk.local)),
        local: walk.local,
        page: String::new(),
    };
    next.event("typed-before", &handed, &Value::Null);
    next.go("#/ask/plants-per-bed");
    next.sees("value=\"lee\"");
    // The form is the question's own, with its labels.
    next.sees("How many have you");
    assert_eq!(next.app.form().text("bed.length"), "9 ft");
    for (address, typed) in &left {
        next.go(address);
        next.holds(typed);
    }
    for rubbish in ["", "[", "[1]", "{\"#/settings\":7}", "{\"#/settings\":{\"units\":[[]]}}"] {
        next.event("typed-before", rubbish, &Value::Null);
    }
    next.go("#/settings");
    next.sees("Units and place");
}

/// A phone's quick storage with room for a bed and no more.
#[derive(Debug, Default)]
struct Full(Vec<(String, String)>);

impl Quick for Full {
    fn count(&self) -> usize {
        self.0.len()
    }

    fn keys(&self) -> Vec<String> {
        self.0.iter().map(|(key, _)| key.clone()).collect()
    }

    fn get(&self, key: &str) -> Option<String> {
        self.0.iter().find(|(kept, _)| kept == key).map(|(_, text)| text.clone())
    }

    fn set(&mut self, key: &str, text: &str) {
        const MOST: usize = 350;
        let filled: usize = self.0.iter().map(|(key, text)| key.len() + text.len()).sum();
        if filled + key.len() + text.len() <= MOST {
            self.0.push((key.to_owned(), text.to_owned()));
        }
    }

    fn remove(&mut self, key: &str) {
        self.0.retain(|(kept, _)| kept != key);
    }
}

/// IndexedDB refuses whatever the page gives it.
fn not_kept(walk: &mut Walk) {
    let effects = walk.app.effects();
    let keys = effects.iter().filter_map(|effect| match effect {
        Effect::Keep { lines, .. } => Some(lines.iter().map(|(key, _)| key.clone())),
        _ => None,
    });
    let keys: Vec<String> = keys.flatten().collect();
    walk.event("not-kept", "", &json!({ "keys": keys }));
}

#[test]
fn a_refused_write_keeps_the_text() {
    let local = "2026-11-25T08:00:00".parse().unwrap();
    let store = Store::on(Full::default());
    let mut walk = Walk { app: App::new(store, now(local)), local, page: String::new() };
    walk.go("#/beds/new");
    let bed = json!({"bed": {"name": "Fence bed", "length": "8", "width": "4"}});
    walk.event("submit", "save-bed:", &bed);
    not_kept(&mut walk);
    walk.go("#/bed/fence-bed-ge1r7");
    let note = "Slugs under the boards, more of them than in any year before";
    walk.event("submit", "note:fence-bed-ge1r7", &json!({ "note": note }));
    not_kept(&mut walk);
    walk.sees("Not written");
    walk.sees(&format!("value=\"{note}\""));
    let line = "28 in fence bed at dawn";
    walk.go("#/thermometers");
    walk.event("submit", "spoken", &json!({ "line": line }));
    not_kept(&mut walk);
    walk.sees("Not written");
    walk.sees(&format!("value=\"{line}\""));
    walk.lacks("T07:00");
    assert_eq!(walk.app.journal().len(), 1);
}

#[test]
fn looking_round_the_invented_garden_costs_no_text_of_the_own() {
    let mut walk = Walk::at("2026-11-25T08:00:00");
    walk.go("#/ask/plants-per-bed");
    walk.event("input", "plants.0.crop", &json!({"plants": [{"crop": "lee"}]}));
    walk.go("#/");
    walk.event("click", "demo", &Value::Null);
    walk.go("#/ask/plants-per-bed");
    walk.lacks("value=\"lee\"");
    walk.event("input", "plants.0.crop", &json!({"plants": [{"crop": "lettu"}]}));
    assert!(walk.app.typed().unwrap().contains("lee"), "the own text is handed over, if any");
    walk.event("click", "leave-demo", &Value::Null);
    walk.go("#/ask/plants-per-bed");
    walk.sees("value=\"lee\"");
    walk.lacks("value=\"lettu\"");
}
