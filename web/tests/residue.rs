//! Ways through the screens of a covered bed, without a browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use serde_json::{Value, json};
use walk::Walk;

impl Walk {
    fn begin() -> Self {
        Self::at("2026-05-04T08:00:00")
    }

    /// With one bed laid out.
    fn with_bed() -> Self {
        let mut walk = Self::begin();
        walk.go("#/beds/new");
        walk.event(
            "submit",
            "save-bed:",
            &json!({"bed": {"name": "Fence bed", "length": "8", "width": "4"}}),
        );
        walk
    }

    fn ask(&mut self, fields: &Value) {
        self.go("#/ask/residue-wait");
        self.event("submit", "answer", fields);
    }
}

#[test]
fn pea_vines_and_lettuce_dug_in_today_are_enough_for_an_answer() {
    let mut walk = Walk::begin();
    walk.ask(&json!({
        "materials": [{"residue": "pea-vines"}, {"residue": "lettuce-leaves"}], "placement": "worked-in",
    }));
    walk.sees("Rake it out on top, plant through it today");
    walk.sees("Just wait: about 11 May");
    walk.sees("A guess to start from");
    walk.sees("Taken for granted: ");
    // Both rows of pegs, with their words for those who can't see them.
    walk.sees("aria-label=\"Rake it out on top: from today. Just wait: from about 11 May");
    walk.sees("class=\"peg full\"");
    walk.sees("class=\"peg lying\"");
    // A third material can be picked.
    walk.event("click", "change-question", &json!({}));
    walk.sees("name=\"materials.2.residue\"");
    walk.lacks("name=\"materials.3.residue\"");
}

#[test]
fn nothing_picked_is_told_beside_the_list() {
    let mut walk = Walk::begin();
    walk.ask(&json!({"placement": "worked-in"}));
    walk.sees("Please fix");
    walk.sees("href=\"#f-materials\"");
    walk.ask(&json!({"materials": [{"residue": "pea-vines", "amount": "a heap of it"}]}));
    walk.sees("value=\"a heap of it\"");
    walk.sees("aria-invalid=\"true\"");
}

#[test]
fn sickness_is_asked_first_and_decides_first() {
    let mut walk = Walk::begin();
    walk.ask(&json!({
        "flags": ["diseased", "", "", "", ""], "illness": "clubroot",
        "materials": [{"residue": "cabbage-leaves"}],
    }));
    walk.sees("Take the sick plants out first");
    walk.sees("Clubroot: lift the roots whole");
    walk.event("click", "change-question", &json!({}));
    let (sick, chopped) = (walk.page.find("Diseased, seeding"), walk.page.find("What was chopped"));
    assert!(sick < chopped);
    // Taking the tick off counts.
    walk.event(
        "input",
        "flags.0",
        &json!({"flags": ["", "", "", "", ""], "materials": [{"residue": "cabbage-leaves"}]}),
    );
    walk.lacks("Take the sick plants out first");
}

#[test]
fn straw_dug_in_is_fed_by_weight_and_its_curve_is_drawn() {
    let mut walk = Walk::begin();
    walk.ask(&json!({
        "materials": [{"residue": "wheat-straw", "amount": "2 buckets"}], "placement": "worked-in",
        "moisture": "moist", "soil_temperature": "60 F",
    }));
    walk.sees("Nitrogen to give, by weight");
    walk.sees("Blood meal");
    walk.sees("class=\"balance\"");
    walk.sees("The rotting holds nitrogen, most about");
    walk.sees("held below the line");
}

#[test]
fn more_straw_than_can_be_fed_for_has_a_way_round_and_no_table_of_products() {
    let mut walk = Walk::begin();
    walk.ask(&json!({
        "materials": [{"residue": "wheat-straw", "amount": "4 in over the bed"}], "placement": "worked-in",
        "laid": "2026-04-10", "moisture": "moist", "soil_temperature": "60 F",
    }));
    walk.sees("<h1>Fork most of it out, feed the rest, plant today</h1>");
    walk.lacks("Nitrogen to give, by weight");
}

#[test]
fn a_bed_that_is_planted_through_it_still_tells_what_lies_there() {
    let mut walk = Walk::with_bed();
    walk.ask(&json!({
        "bed": "fence-bed-ge1r7", "laid": "2026-04-29", "materials": [{"residue": "wheat-straw", "amount": "1 bucket"}],
    }));
    walk.event("submit", "write", &json!({}));
    walk.ask(&json!({"bed": "fence-bed-ge1r7"}));
    walk.lacks("Chop away");
    walk.go("#/ask/plants-per-bed/fence-bed-ge1r7");
    walk.event(
        "submit",
        "answer",
        &json!({"bed": "fence-bed-ge1r7", "plants": [{"crop": "cabbage"}]}),
    );
    walk.event("submit", "write", &json!({}));
    walk.go("#/beds");
    walk.sees("cabbage since 4 May. Wheat straw on top since 29 Apr");
}

#[test]
fn what_is_laid_is_written_and_fills_the_next_question_in() {
    let mut walk = Walk::with_bed();
    walk.ask(&json!({
        "bed": "fence-bed-ge1r7", "laid": "2026-04-29", "placement": "worked-in", "moisture": "moist",
        "materials": [{"residue": "rye-flowering", "amount": "1 bucket", "stage": ""}],
        "compost": "1 in", "cover": "burlap",
    }));
    walk.sees("Write: Rye dug into Fence bed");
    walk.event("submit", "write", &json!({}));
    walk.sees("Rye dug in since 29 Apr");
    walk.sees("day 5 of about");
    walk.go("#/beds");
    walk.sees("day 5 of about");
    walk.go("#/ask/residue-wait/fence-bed-ge1r7");
    walk.event("click", "change-question", &json!({}));
    walk.sees("From the record: Rye dug in since 29 Apr");
    walk.sees("class=\"days\"");
    walk.lacks("Please fix");
    // It is in the record already.
    walk.lacks("data-action=\"write\"");
}

#[test]
fn a_look_at_the_bed_moves_the_estimate_and_is_kept() {
    let mut walk = Walk::with_bed();
    walk.ask(&json!({
        "bed": "fence-bed-ge1r7", "laid": "2026-04-10", "placement": "worked-in", "moisture": "moist",
        "materials": [{"residue": "pea-vines", "amount": "3 buckets"}],
    }));
    walk.event("submit", "write", &json!({}));
    walk.sees("I looked: how much is left?");
    walk.sees("half: half of it crumbles, half keeps its shape");
    walk.event("submit", "look:fence-bed-ge1r7", &json!({"look": {"left": ""}}));
    walk.sees("Nothing was looked at");
    let faster = |walk: &Walk| {
        let question =
            json!({"topic": "residue-wait", "today": "2026-05-04", "bed": "fence-bed-ge1r7"});
        let answer = pegline_core::ask::ask(&question, walk.app.garden()).unwrap();
        serde_json::to_value(answer).unwrap()["faster_by"].as_f64().unwrap()
    };
    assert_eq!(faster(&walk), 1.0);
    walk.event(
        "submit",
        "look:fence-bed-ge1r7",
        &json!({"look": {"left": "all", "smell": "sour", "worms": "none"}, "when": "2026-05-03T08:00"}),
    );
    walk.event("submit", "look:fence-bed-ge1r7", &json!({"look": {"left": "most"}}));
    walk.sees("most can still be recognised");
    assert!(faster(&walk) < 1.0);
    walk.go("#/ask/residue-wait/fence-bed-ge1r7");
    walk.event("click", "change-question", &json!({}));
    walk.sees("2 looks since");
}

#[test]
fn a_jar_of_seeds_overrules_the_wait() {
    let mut walk = Walk::with_bed();
    walk.ask(&json!({
        "bed": "fence-bed-ge1r7", "laid": "2026-05-01", "placement": "worked-in",
        "materials": [{"residue": "lettuce-leaves", "amount": "1 bucket"}],
    }));
    walk.event("submit", "write", &json!({}));
    walk.sees("day 3 of about 7");
    walk.event(
        "submit",
        "look:fence-bed-ge1r7",
        &json!({"look": {"jar": "19", "jar_plain": "20"}}),
    );
    walk.sees("young plants can go in");
}

#[test]
fn two_halves_are_told_side_by_side_with_their_doubt() {
    let mut walk = Walk::with_bed();
    for (part, cover) in [("left half", "burlap"), ("right half", "")] {
        walk.ask(&json!({
            "bed": "fence-bed-ge1r7", "laid": "2026-04-04", "placement": "on-top", "part": part, "cover": cover,
            "materials": [{"residue": "young-weeds", "amount": "2 buckets"}],
        }));
        walk.event("submit", "write", &json!({}));
    }
    walk.sees(
        "Left half: young mixed weeds on top; right half: young mixed weeds on top since 4 Apr",
    );
    for (part, left) in [("left half", "half"), ("right half", "most")] {
        walk.event(
            "submit",
            "look:fence-bed-ge1r7",
            &json!({"look": {"left": left, "part": part}}),
        );
    }
    walk.sees("Left half: half could still be recognised on 4 May; plant from today");
    walk.sees("The left half is ahead by about");
    walk.sees("give or take");
    walk.go("#/ask/residue-wait/fence-bed-ge1r7");
    walk.sees("Side by side");
}

#[test]
fn the_invented_garden_has_a_bed_that_settles() {
    let mut walk = Walk::begin();
    walk.event("click", "demo", &json!({}));
    walk.go("#/beds");
    walk.sees("Bean plants on top since");
    walk.sees("plant through it; day 6 of about");
    walk.go("#/bed/long-bed");
    walk.sees("half is ahead by about");
}
