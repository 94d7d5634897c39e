//! A proposed layout changed by hand on the screen, and kept as the bed's planting.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use serde_json::{Value, json};
use walk::Walk;

impl Walk {
    fn begin() -> Self {
        let mut walk = Self::at("2026-05-03T08:00:00");
        walk.go("#/ask/plants-per-bed");
        walk.event("submit", "answer", &cabbages("8", &["cabbage"]));
        walk.lacks("Line 1, hole 11");
        walk.click("hand-line:0");
        walk
    }

    fn click(&mut self, action: &str) {
        self.event("click", action, &json!({}));
    }

    /// The places in the list of the sites that are set, on the line shown.
    fn pressed(&self) -> Vec<usize> {
        let buttons = self.page.split("data-action=\"hand-set:").skip(1);
        buttons
            .filter_map(|rest| {
                let (at, rest) = rest.split_once('"')?;
                rest.starts_with(" aria-pressed=\"true\"").then(|| at.parse().ok())?
            })
            .collect()
    }
}

fn cabbages(length: &str, crops: &[&str]) -> Value {
    let plants: Vec<Value> =
        crops.iter().map(|crop| json!({"crop": crop, "spacing": "18", "on_hand": ""})).collect();
    json!({
        "bed": {"length": length, "width": "4", "name": "Fence bed",
                "drip": {"lines": "4", "line_spacing": "12", "emitter_spacing": "9"}},
        "plants": plants,
    })
}

#[test]
fn a_touch_takes_the_nearest_plant_away_and_a_second_puts_it_back() {
    let mut walk = Walk::begin();
    walk.sees("Touch a place in the drawing to put a plant there");
    walk.sees("data-action=\"hand-touch\"");
    let stakes = |walk: &Walk| {
        let (_, from) = walk.page.split_once("<path class=\"peg rim\" d=\"").unwrap();
        let (outline, _) = from.split_once('"').unwrap();
        outline.matches('M').count()
    };
    assert_eq!(stakes(&walk), 12);
    // Line 1, hole 1 lies 3 in from the left and 6 in from the near side: 43 and 137 in the drawing, whose
    // soil begins at 34 and 14 and has 35.1 units a foot.
    walk.click("hand-touch:49,146");
    walk.sees("By hand: 11 cabbage");
    walk.sees("1 more cabbage would fit at 18 in.");
    assert_eq!(stakes(&walk), 11);
    walk.click("hand-touch:43,137");
    walk.sees("By hand: 12 cabbage");
    walk.sees("No more cabbage would fit at 18 in.");
    walk.click("hand-touch:600,600");
    walk.sees("By hand: 12 cabbage");
}

#[test]
fn a_plant_too_near_is_named_and_joined_on_the_drawing() {
    let mut walk = Walk::begin();
    let first = walk.pressed()[0];
    walk.click(&format!("hand-set:{}", first + 1));
    walk.sees("By hand: 13 cabbage");
    walk.sees("Line 1, hole 1 and hole 2: 9 in between, 18 in wanted.");
    walk.sees("<line class=\"clash\"");
    walk.click("hand-back");
    walk.sees("Touch a place in the drawing to put a plant there");
    walk.lacks("clash");
}

#[test]
fn the_layout_by_hand_is_what_is_written() {
    let mut walk = Walk::begin();
    let first = walk.pressed()[0];
    walk.click(&format!("hand-set:{first}"));
    walk.sees("Write 11 cabbage plants into Fence bed, and the bed");
    walk.event("submit", "write", &json!({}));
    walk.sees("11 cabbage planted in Fence bed");
    let bed = walk.app.beds()[0];
    assert_eq!(bed.plantings[0].at.as_ref().unwrap().count(), 11);
}

#[test]
fn the_list_shows_a_line_at_a_time_and_another_question_begins_anew() {
    let mut walk = Walk::begin();
    walk.sees("Line 1, hole 11");
    walk.click("hand-line:2");
    walk.sees("Line 3, hole 11");
    walk.lacks("Line 1, hole 11");
    let first = walk.pressed()[0];
    walk.click(&format!("hand-set:{first}"));
    walk.sees("By hand: 11 cabbage");
    walk.event("input", "bed.length", &cabbages("10", &["cabbage"]));
    walk.sees("Touch a place");
}

#[test]
fn of_several_crops_the_one_chosen_is_put_in() {
    let mut walk = Walk::begin();
    let mut two = cabbages("8", &["cabbage", "kale"]);
    two["plants"][0]["on_hand"] = "2".into();
    two["plants"][1]["on_hand"] = "3".into();
    walk.event("submit", "answer", &two);
    walk.click("hand-crop:1");
    walk.click("hand-line:3");
    let free = walk
        .page
        .split("data-action=\"hand-set:")
        .skip(1)
        .filter(|rest| rest.contains("aria-pressed=\"false\""))
        .last()
        .and_then(|rest| rest.split('"').next())
        .unwrap()
        .to_owned();
    walk.click(&format!("hand-set:{free}"));
    walk.sees("2 cabbage and 4 kale");
}

#[test]
fn the_sheet_gives_the_distances_along_each_line() {
    let walk = Walk::begin();
    walk.sees("<th scope=\"row\">Line 1</th>");
    walk.sees("3 in, 1 ft 9 in");
    walk.sees("data-action=\"print\"");
}

#[test]
fn plants_are_drawn_where_they_were_set_after_the_drip_was_changed() {
    let mut walk = Walk::begin();
    walk.event("submit", "write", &json!({}));
    let already = |walk: &mut Walk| {
        walk.go("#/bed/fence-bed-ge1r7");
        let drawn = walk.page.split("<use href=\"#p-head\" class=\"stands\"").skip(1);
        let places = drawn.map(|from| from.split_once('>').unwrap().0.to_owned());
        // The key beside the drawing shows one more.
        places.filter(|at| !at.contains("width=\"28\"")).collect::<Vec<_>>()
    };
    let before = already(&mut walk);
    assert_eq!(before.len(), 12);
    walk.go("#/bed/fence-bed-ge1r7/change");
    let mut bed = cabbages("8", &[]);
    bed["bed"]["drip"] = json!({"lines": "3", "line_spacing": "", "emitter_spacing": "12"});
    walk.event("submit", "save-bed:fence-bed-ge1r7", &json!({"bed": bed["bed"]}));
    assert_eq!(walk.app.beds()[0].shapes.len(), 2);
    assert_eq!(already(&mut walk), before);
}
