//! Ways through the harvest screens, without a browser: every tap is a button that the page shows.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use pegline_core::journal::{Draft, Journal, What, file};
use serde_json::{Map, Value, json};
use walk::Walk;

impl Walk {
    /// A garden with one bed a crop, each seeded or planted on a day.
    fn with(crops: &[(&str, &str, &str)]) -> Self {
        let mut journal = Journal::default();
        let mut write = |kind: &str, bed: &str, when: &str, what: Value| {
            let Value::Object(what) = what else { panic!() };
            let about = pegline_core::journal::About::bed(bed);
            let id = pegline_core::journal::Ulid(u128::from(journal.len() as u32) + 1);
            let when = pegline_core::time::iso::read_when(when).unwrap();
            let entry = Draft::of(kind, about, what).unwrap().stamp(id, when).unwrap();
            journal.add_entry(&entry);
        };
        for (bed, _, _) in crops {
            write(
                "bed",
                bed,
                "2026-01-01T08:00",
                json!({"name": format!("Bed {bed}"), "bed": {"length": "8 ft", "width": "4 ft"}}),
            );
        }
        for (bed, crop, when) in crops {
            write("seeded", bed, when, json!({"crop": crop, "count": 20}));
        }
        let text = file::write(&journal);
        let mut walk = Self::at("2026-07-14T08:00:00");
        walk.go("#/book");
        walk.event("file", "copy", &json!({ "text": text }));
        walk.event("click", "take-in", &Value::Null);
        walk
    }

    /// Taps the first button with these words that the page shows.
    #[track_caller]
    fn tap(&mut self, words: &str) {
        let at = self.page.find(&format!(">{words}</button>"));
        let at = at.unwrap_or_else(|| panic!("no button {words}:\n{}", self.page));
        let before = &self.page[..at];
        let action = &before[before.rfind("data-action=\"").unwrap() + 13..];
        let action = action[..action.find('"').unwrap()].to_owned();
        let fields = self.fields();
        let name = if self.page[before.rfind("<button").unwrap()..at].contains("type=\"submit\"") {
            "submit"
        } else {
            "click"
        };
        self.event(name, &action, &fields);
    }

    /// What the page's script would send: every field on the page.
    fn fields(&self) -> Value {
        let mut form = pegline_web::forms::Form::of(pegline_core::ask::fields("harvest-readiness"));
        for input in self.page.split("<input").skip(1) {
            let input = &input[..input.find('>').unwrap()];
            let of = |name: &str| {
                let from = input.find(&format!(" {name}=\""))? + name.len() + 3;
                Some(&input[from..from + input[from..].find('"')?])
            };
            if let Some(name) = of("name") {
                form.set(name, of("value").unwrap_or(""));
            }
        }
        form.nested()
    }

    fn verdict(&self) -> &str {
        let from = self.page.find("<h1>").unwrap() + 4;
        &self.page[from..from + self.page[from..].find('<').unwrap()]
    }
}

const BEAN: [(&str, &str, &str); 1] = [("fence", "bean-snap-bush", "2026-05-20T08:00")];

#[test]
fn one_tap_at_the_bed_settles_five_crops() {
    // (crop, sown, the answer tapped first, the verdict)
    for (crop, sown, tap, verdict) in [
        (
            "bean-snap-bush",
            "2026-05-20T08:00",
            "Spongy or leathery",
            "Past its prime: take it off, so that others come",
        ),
        ("broccoli", "2026-04-20T08:00", "Yellow petals", "Past its prime"),
        ("squash-summer", "2026-05-20T08:00", "Nail cuts easily", "Cut today"),
        ("garlic", "2025-10-20T08:00", "Cloves fill tight skins", "Ready"),
        ("melon", "2026-04-20T08:00", "Slips off with a light push or twist", "Pick today"),
    ] {
        let mut walk = Walk::with(&[("fence", crop, sown)]);
        walk.go("#/ask/harvest-readiness/fence");
        walk.tap(tap);
        assert!(walk.verdict().starts_with(verdict), "{crop}: {}", walk.verdict());
    }
}

#[test]
fn each_answer_changes_the_verdict_and_can_be_taken_back() {
    let mut walk = Walk::with(&BEAN);
    walk.go("#/ask/harvest-readiness/fence");
    walk.sees("Bush bean, since 20 May");
    walk.tap("Firm, snaps clean");
    walk.sees("Likely: firm, snaps clean.");
    walk.tap("Seeds a quarter grown");
    walk.sees("Sure: firm, snaps clean and seeds a quarter grown.");
    walk.tap("Seeds half grown or more");
    walk.sees("The signs disagree");
    walk.tap("Can't tell");
    walk.sees("Likely: seeds half grown or more.");
}

#[test]
fn a_stop_stands_first_and_nothing_else_is_offered() {
    let mut walk = Walk::with(&[("fence", "squash-summer", "2026-05-20T08:00")]);
    walk.go("#/ask/harvest-readiness/fence");
    walk.tap("Tastes bitter: a raw sliver touched to the tongue");
    assert_eq!(walk.verdict(), "Do not eat it");
    walk.lacks("Picked everything");
    walk.tap("Tastes bitter: a raw sliver touched to the tongue");
    assert_ne!(walk.verdict(), "Do not eat it");
}

#[test]
fn eight_pods_are_counted_in_eight_taps_and_written_with_the_picking() {
    let mut walk = Walk::with(&BEAN);
    walk.go("#/ask/harvest-readiness/fence");
    for (sign, times) in [("counted.1.count", 5), ("counted.3.count", 3)] {
        for _ in 0..times {
            let fields = walk.fields();
            walk.event("click", &format!("more:{sign}"), &fields);
        }
    }
    walk.sees("Of 8 pods looked at: 5 at their prime and 3 past.");
    walk.sees("take the past ones off");
    let fields = json!({"entry": {"number": "2", "of": "colander", "variety": "Blue Peg"}});
    walk.event("submit", "picked", &fields);
    walk.sees("2 colanders of bush bean picked in Bed fence");
    let written = &walk.app.garden().happened.last().unwrap().entry;
    let What::Harvest(harvest) = &written.what else { panic!() };
    assert_eq!(
        (
            harvest.amount.as_deref(),
            harvest.variety.as_deref(),
            harvest.stage.as_deref(),
            harvest.all
        ),
        (Some("2 colanders"), Some("Blue Peg"), Some("5 prime, 3 past"), false)
    );
}

#[test]
fn a_look_alone_is_written_and_nothing_is_picked() {
    let mut walk = Walk::with(&BEAN);
    walk.go("#/ask/harvest-readiness/fence");
    walk.tap("Spongy or leathery");
    walk.tap("Only looked");
    walk.sees("Written: Looked at Bed fence: bush bean past");
    let bed = walk.app.garden().bed("fence").unwrap();
    assert!(bed.harvests.is_empty() && !bed.plantings.is_empty());
}

#[test]
fn what_can_hurt_whoever_eats_it_stands_before_the_questions() {
    let mut walk = Walk::with(&[]);
    walk.go("#/ask/harvest-readiness");
    walk.event("input", "crop", &json!({"crop": "bean-snap-bush"}));
    let at = |words: &str| walk.page.find(words).unwrap();
    assert!(at("id=\"before-eating\"") < at("Break a pod in two"));
    assert_eq!(walk.page.matches("id=\"before-eating\"").count(), 1);
}

#[test]
fn one_tap_writes_that_everything_is_picked() {
    let mut walk = Walk::with(&[("fence", "garlic", "2025-10-20T08:00")]);
    walk.go("#/ask/harvest-readiness/fence");
    walk.tap("Cloves fill tight skins");
    walk.tap("Picked everything");
    walk.sees("Written:");
    let bed = walk.app.garden().bed("fence").unwrap();
    assert!(bed.plantings.is_empty() && bed.harvests[0].what.all);
}

#[test]
fn an_amount_that_cannot_be_read_is_refused_beside_its_field_and_nothing_is_written() {
    let mut walk = Walk::with(&BEAN);
    let before = walk.app.journal().len();
    walk.go("#/ask/harvest-readiness/fence");
    walk.tap("Firm, snaps clean");
    walk.event("submit", "picked", &json!({"entry": {"number": "plenty"}}));
    walk.sees("no amount can be read from it");
    walk.sees("value=\"plenty\"");
    assert_eq!(walk.app.journal().len(), before);
}

#[test]
fn where_several_grow_one_is_chosen_and_its_answers_are_its_own() {
    let mut walk = Walk::with(&[
        ("fence", "bean-snap-bush", "2026-05-20T08:00"),
        ("fence", "okra", "2026-05-10T08:00"),
    ]);
    walk.go("#/ask/harvest-readiness/fence");
    walk.tap("Bush bean in Bed fence, since 20 May");
    walk.tap("Spongy or leathery");
    walk.tap("Another");
    walk.tap("Okra in Bed fence, since 10 May");
    walk.lacks("role=\"alert\"");
    walk.sees("Bend the tip");
    // The bed's own page leads to each of them.
    walk.go("#/bed/fence");
    assert_eq!(walk.page.matches(">Ready?</a>").count(), 2);
}

#[test]
fn a_crop_that_is_not_in_the_record_can_be_named() {
    let mut walk = Walk::with(&[]);
    walk.go("#/ask/harvest-readiness");
    walk.event("input", "crop", &json!({"crop": "pea"}));
    walk.sees("Open a pod and taste a pea");
    walk.tap("snow");
    walk.lacks("Open a pod and taste a pea");
    let mut fields = walk.fields();
    let mut measures = Map::new();
    measures.insert("length".to_owned(), "three".into());
    fields["measures"] = Value::Object(measures);
    walk.event("submit", "answer", &fields);
    walk.sees("aria-invalid=\"true\"");
    fields["crop"] = "okra".into();
    walk.event("input", "crop", &fields);
    walk.lacks("aria-invalid");
}

#[test]
fn before_going_one_tap_lists_what_to_pick_and_each_row_leads_to_its_question() {
    let mut walk = Walk::with(&[
        ("fence", "bean-snap-bush", "2026-05-20T08:00"),
        ("wall", "carrot", "2026-04-20T08:00"),
    ]);
    walk.go("#/ask/harvest-before-away");
    walk.tap("7");
    assert_eq!(walk.verdict(), "Before you go: bush bean");
    walk.sees("Bush bean in Bed fence");
    walk.sees("Pick all, the small ones too.");
    walk.sees("These wait: 1");
    let bean = walk.app.garden().bed("fence").unwrap().plantings[0].id;
    walk.sees(&format!("#/ask/harvest-readiness/{bean}"));
    walk.go(&format!("#/ask/harvest-readiness/{bean}"));
    walk.sees("Break a pod in two");
    // A day that is over is refused beside its field.
    walk.go("#/ask/harvest-before-away");
    let mut fields = walk.fields();
    fields["back_on"] = "2026-07-01".into();
    walk.event("submit", "answer", &fields);
    walk.sees("that is over");
}

#[test]
fn without_a_record_what_grows_is_named() {
    let mut walk = Walk::with(&[]);
    walk.go("#/ask/harvest-before-away");
    walk.event("input", "plants.0.crop", &json!({"back_in": "7", "plants": [{"crop": "okra"}]}));
    assert_eq!(walk.verdict(), "Before you go: okra");
}

#[test]
fn salt_is_told_while_typing_and_whole_vegetables_need_their_water() {
    let mut walk = Walk::with(&BEAN);
    walk.go("#/ask/salt-for-fermenting");
    walk.event(
        "input",
        "vegetable_mass",
        &json!({"vegetable": "shredded cabbage", "vegetable_mass": "25", "water_mass": "", "percent": "2.5"}),
    );
    // 25 lb at 2.5 percent are 283.5 g.
    assert_eq!(walk.verdict(), "283 g of salt");
    walk.event(
        "submit",
        "answer",
        &json!({"vegetable": "whole cucumbers", "vegetable_mass": "4 lb"}),
    );
    walk.sees("the water must be weighed");
}
