//! Ways through the trays: sown, looked at, got used to outdoors, planted; without a browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use chrono::{Days, NaiveDateTime};
use serde_json::{Value, json};
use walk::Walk;

const BEGAN: &str = "2026-04-15T08:00:00";

impl Walk {
    fn begin() -> Self {
        Self::at(BEGAN)
    }

    /// At eight in the morning, so many days after the walk began.
    fn on_day(&mut self, day: u64) {
        let began: NaiveDateTime = BEGAN.parse().unwrap();
        self.local = began + Days::new(day);
    }

    fn start(&self, at: usize) -> String {
        self.app.garden().starts[at].id.to_string()
    }
}

fn cabbage() -> Value {
    json!({
        "sown": {"crop": "Cabbage", "count": "18", "container": "2 in cells", "spot": "heated-house",
                 "name": "Tray 3", "variety": "Blue Peg", "on": "2026-03-04", "warmth": "65"},
        "look": {"leaves": "5", "roots": "holding", "leggy": "yes", "doubled": "no", "budding": "no", "yellow": "no", "large": "no"},
    })
}

fn sown() -> Walk {
    let mut walk = Walk::begin();
    walk.go("#/starts/new");
    walk.event("submit", "sow", &cabbage());
    walk
}

#[test]
fn a_tray_is_written_down_with_its_looks_and_listed_by_its_age() {
    let walk = &mut sown();
    walk.sees("Written: 18 cabbage (Blue Peg) sown");
    walk.sees("Ready to plant: like 6 weeks in a warm house");
    walk.sees("set it as deep as its seed leaves");
    walk.sees("Cabbage kin that waits makes smaller heads");
    assert_eq!(walk.app.garden().starts[0].sown.date().to_string(), "2026-03-04");
    assert_eq!(walk.app.garden().starts[0].check_ins.len(), 1);
    walk.go("#/starts");
    walk.sees("Tray 3");
    walk.sees("18 cabbage (Blue Peg), 2 in cells, heated house");
    walk.sees("Ready to plant: like 6 weeks in a warm house, good up to 8 weeks");
    walk.sees("aria-current=\"page\">Starts");
}

#[test]
fn faults_of_a_new_tray_stand_beside_their_fields() {
    let mut walk = Walk::begin();
    walk.go("#/starts/new");
    walk.event(
        "submit",
        "sow",
        &json!({"sown": {"crop": "quux", "count": "none", "on": "2027-01-01"}}),
    );
    walk.sees("Please fix");
    walk.sees("<b>How many plants</b> &quot;none&quot; is not a number");
    walk.lacks("data-names");
    walk.sees("no crop of that name is known");
    walk.sees("that day has not come yet");
    walk.sees("value=\"quux\"");
    assert!(walk.app.garden().starts.is_empty());
}

#[test]
fn the_oldest_tray_comes_first_and_says_what_waiting_costs() {
    let walk = &mut sown();
    walk.go("#/starts/new");
    walk.event(
        "submit",
        "sow",
        &json!({"sown": {"crop": "cucumber", "spot": "heated-house", "on": "2026-03-14"}}),
    );
    walk.go("#/starts");
    let (cucumber, cabbage) =
        (walk.page.find("Cucumber").unwrap(), walk.page.find("Tray 3").unwrap());
    assert!(cucumber < cabbage);
    walk.sees("class=\"due\"");
    walk.sees("Squash kin hates it");
}

#[test]
fn roots_are_written_in_one_tap_and_decide() {
    let walk = &mut sown();
    let id = walk.start(0);
    walk.go(&format!("#/start/{id}"));
    walk.event("click", &format!("rooted:circling:{id}"), &json!({}));
    walk.sees("Written: Looked at Tray 3: roots circling, leggy");
    walk.sees("Plant it now: the roots are running out of room");
    walk.sees("Tease or score the roots");
}

#[test]
fn a_day_outdoors_is_one_tap_and_the_next_is_longer() {
    let walk = &mut sown();
    let id = walk.start(0);
    walk.go(&format!("#/start/{id}"));
    walk.sees("Plan its days outdoors");
    walk.go(&format!("#/ask/hardening-plan/for/{id}"));
    walk.sees("Today: 3 h out, full shade, no wind, in at night");
    walk.sees("Today, 15 Apr");
    walk.sees("Tomorrow, 16 Apr");
    walk.event("submit", "write", &json!({}));
    walk.sees("Written: Tray 3: outdoors 3 h");
    walk.sees("1 of 7 days outdoors done. Done for today");
    walk.lacks("Today’s hours outdoors: done");
    walk.on_day(1);
    walk.go("#/starts");
    walk.sees("Today’s hours outdoors: done");
    walk.event("click", &format!("outdoors:{id}"), &json!({}));
    assert_eq!(walk.app.garden().starts[0].hardening.len(), 2);
    walk.sees("2 of 7 days outdoors done");
    // Burnt on the third day: that one does not count.
    walk.on_day(2);
    walk.go(&format!("#/start/{id}"));
    walk.event(
        "submit",
        &format!("tray:day:{id}"),
        &json!({"day": {"hours": "8", "night": "in", "damage": "yes"}}),
    );
    walk.sees("2 of 7 days outdoors done. Done for today");
}

#[test]
fn tonight_typed_in_changes_the_day() {
    let walk = &mut sown();
    let id = walk.start(0);
    walk.go(&format!("#/ask/hardening-plan/for/{id}"));
    let fields = json!({"tray": id, "nights": [{"low": "28", "high": "34", "wind": "", "sky": "", "hard_rain": ""}], "way": ""});
    walk.event("input", "nights.0.low", &fields);
    walk.sees("Today: stay in");
    let fields = json!({"tray": id, "nights": [{"low": "40", "high": "", "wind": "", "sky": "", "hard_rain": ""}], "way": "one-move"});
    walk.event("input", "way", &fields);
    walk.sees("in shelter, under a sheet or shade cloth");
}

#[test]
fn a_tray_goes_into_a_bed_and_the_planting_names_it() {
    let mut walk = sown();
    let id = walk.start(0);
    walk.go(&format!("#/ask/plants-per-bed/for/{id}"));
    walk.sees("value=\"Cabbage\"");
    walk.sees("value=\"18\"");
    let question = json!({
        "bed": {"length": "8", "width": "4", "name": "Fence bed",
                "drip": {"lines": "4", "line_spacing": "12", "emitter_spacing": "9"}},
        "plants": [{"crop": "Cabbage", "on_hand": "14"}],
    });
    walk.event("submit", "answer", &question);
    walk.event("submit", "write", &json!({}));
    walk.sees("14 cabbage planted in Fence bed");
    let garden = walk.app.garden();
    assert_eq!(garden.starts[0].left, Some(4));
    assert_eq!(garden.beds[0].plantings[0].variety.as_deref(), Some("Blue Peg"));
}

#[test]
fn what_else_happens_to_a_tray_is_written_from_its_page() {
    let mut walk = sown();
    let id = walk.start(0);
    walk.go(&format!("#/start/{id}"));
    for (form, fields, words) in [
        (
            "pricked",
            json!({"pricked": {"count": "16", "container": "3 in pots"}}),
            "Tray 3: moved into 3 in pots",
        ),
        ("moved", json!({"moved": {"spot": "cold-frame"}}), "Tray 3: carried to cold frame"),
        ("lost", json!({"lost": {"count": "2", "why": "slugs"}}), "Tray 3: 2 gone, slugs"),
    ] {
        walk.event("submit", &format!("tray:{form}:{id}"), &fields);
        walk.sees(&format!("Written: {words}"));
    }
    assert_eq!(walk.app.garden().starts[0].left, Some(14));
    walk.event("submit", &format!("tray:lost:{id}"), &json!({"lost": {"count": "40", "why": ""}}));
    walk.sees("as many as are left");
    assert_eq!(walk.app.garden().starts[0].left, Some(14));
    walk.event(
        "submit",
        &format!("tray:lost:{id}"),
        &json!({"lost": {"count": "", "why": "given away"}}),
    );
    walk.go("#/starts");
    walk.sees("No tray is growing");
    walk.sees("Planted, lost or given away: 1");
}

#[test]
fn both_questions_answer_with_no_garden() {
    let mut walk = Walk::begin();
    walk.go("#/ask/start-age");
    let fields = json!({"crop": "Cabbage", "sown": "2026-02-25", "warmth": "50", "leaves": "", "roots": "",
        "signs": ["leggy", "", "", "", ""]});
    walk.event("submit", "answer", &fields);
    walk.sees("Too young to plant: like 2.8 weeks in a warm house");
    walk.sees("as deep as its seed leaves");
    walk.event("submit", "answer", &json!({"crop": "quux", "sown": "", "warmth": ""}));
    walk.sees("Please fix");
    walk.go("#/ask/hardening-plan");
    let fields = json!({"crop": "Lettuce, leaf", "raised": "heated-house", "days_done": "3", "nights": [{"low": "", "high": ""}]});
    walk.event("submit", "answer", &fields);
    walk.sees("Today: 5 h out, shade, with 1 hour of early sun, in at night");
}

#[test]
fn the_invented_garden_has_trays_to_decide_on() {
    let mut walk = Walk::begin();
    walk.event("click", "demo", &json!({}));
    walk.go("#/starts");
    for tray in [
        "Cauliflower tray",
        "Onion tray",
        "Lettuce tray",
        "Kale tray",
        "Cabbage tray",
        "Broccoli tray",
    ] {
        walk.sees(tray);
    }
    walk.sees("days outdoors done");
    let first = walk.page.find("Cauliflower tray").unwrap();
    assert!(first < walk.page.find("Kale tray").unwrap());
}
