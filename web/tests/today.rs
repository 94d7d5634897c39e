//! What must be decided stands on top of the questions.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod walk;

use chrono::TimeDelta;
use serde_json::json;
use walk::Walk;

#[test]
fn without_a_record_the_questions_come_at_once() {
    let walk = Walk::at("2026-11-25T08:00:00");
    walk.sees("Ask at the bed");
    walk.lacks("id=\"today\"");
}

#[test]
fn the_next_morning_it_is_the_next_day_s() {
    let mut walk = Walk::at("2026-11-25T21:00:00");
    walk.event("click", "demo", &json!({}));
    walk.go("#/");
    walk.sees("Carry Cabbage tray outdoors");
    let list = |walk: &Walk| {
        let (_, from) = walk.page.split_once("<section id=\"today\">").unwrap();
        from.split("</section>").next().unwrap().to_owned()
    };
    let before = list(&walk);
    walk.event("looked", "", &json!({}));
    assert_eq!(list(&walk), before);
    walk.local += TimeDelta::hours(10);
    walk.event("looked", "", &json!({}));
    assert_ne!(list(&walk), before);
}

#[test]
fn what_is_due_leads_to_its_question_filled_in() {
    let mut walk = Walk::at("2026-11-25T08:00:00");
    walk.event("click", "demo", &json!({}));
    walk.go("#/");
    walk.sees("things to decide today");
    walk.sees("<li class=\"due\">");
    // A tray opens its own question, a bed its own.
    walk.sees("href=\"#/ask/start-age/for/");
    walk.sees("href=\"#/ask/residue-wait/fence-bed\"");
    walk.sees(" more</summary>");
    let (_, from) = walk.page.split_once("href=\"#/ask/start-age/for/").unwrap();
    let link = format!("#/ask/start-age/for/{}", from.split('"').next().unwrap());
    walk.go(&link);
    walk.lacks("id=\"faults\"");
    walk.sees("<section class=\"verdict\">");
}

#[test]
fn what_is_ticked_off_is_due_no_more() {
    let mut walk = Walk::at("2026-11-25T08:00:00");
    walk.event("click", "demo", &json!({}));
    walk.go("#/");
    let (_, from) = walk.page.split_once("data-action=\"outdoors:").unwrap();
    let tick = format!("outdoors:{}", from.split('"').next().unwrap());
    walk.event("click", &tick, &json!({}));
    walk.sees("invented garden: not kept");
    walk.lacks("Carry Cabbage tray outdoors");
    walk.lacks(&tick);
}
