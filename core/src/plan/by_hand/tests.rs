use serde_json::{Value, json};

use super::{sheet::along_hose, *};
use crate::{
    ask::{Of, ask},
    garden::Garden,
    journal::{Draft, What},
    layout::fixture::inch,
};

fn question() -> Value {
    json!({
        "topic": "plants-per-bed", "today": "2026-05-01",
        "bed": {"length": "8 ft", "width": "4 ft",
                "drip": {"lines": 4, "line_spacing": "12 in", "emitter_spacing": "9 in"}},
        "plants": [{"crop": "cabbage", "spacing": "18 in"}],
    })
}

fn proposed(question: &Value) -> (ByHand, Vec<Draft>) {
    let answer = ask(question, &Garden::default()).unwrap();
    let Of::PlantsPerBed(found) = &answer.of else { panic!("another topic") };
    (ByHand::of(&found.laid), answer.telling.next)
}

fn hole(by_hand: &ByHand, line: u16, hole: u16) -> usize {
    let at = |place: &Place| (place.site.line, place.site.hole) == (Some(line), Some(hole));
    by_hand.places().iter().position(at).unwrap()
}

#[test]
fn what_was_proposed_has_no_conflict_and_no_room_left() {
    let (by_hand, next) = proposed(&question());
    let judged = by_hand.judge(System::Us);
    assert_eq!(judged.set, "12 cabbage");
    assert!(judged.conflicts.is_empty(), "{judged:?}");
    assert_eq!(judged.more, ["No more cabbage would fit at 18 in."]);
    assert_eq!(by_hand.places().len(), 44);
    assert_eq!(by_hand.drafts(&next, System::Us), next);
}

#[test]
fn a_plant_put_too_near_is_named_with_its_neighbours() {
    let (mut by_hand, _) = proposed(&question());
    let set: Vec<(u16, u16)> = by_hand
        .places()
        .iter()
        .filter(|place| place.set.is_some())
        .map(|place| (place.site.line.unwrap(), place.site.hole.unwrap()))
        .collect();
    let (line, first) = set[0];
    by_hand.tap(hole(&by_hand, line, first + 1), 0);
    let judged = by_hand.judge(System::Us);
    assert_eq!(judged.set, "13 cabbage");
    let wanted =
        format!("Line {line}, hole {first} and hole {}: 9 in between, 18 in wanted.", first + 1);
    assert!(judged.conflicts.contains(&wanted), "{judged:?}");
    assert_eq!(judged.too_near.len(), judged.conflicts.len());
}

#[test]
fn a_plant_taken_away_leaves_room_for_one() {
    let (mut by_hand, next) = proposed(&question());
    let one = by_hand.places().iter().position(|place| place.set.is_some());
    by_hand.tap(one.unwrap(), 0);
    let judged = by_hand.judge(System::Us);
    assert_eq!(judged.set, "11 cabbage");
    assert_eq!(judged.more, ["1 more cabbage would fit at 18 in."]);
    let drafts = by_hand.drafts(&next, System::Us);
    let What::Planted(planted) = &drafts.last().unwrap().what else { panic!("nothing is planted") };
    assert_eq!(planted.count, Some(11));
    assert_eq!(planted.at.as_ref().unwrap().count(), 11);
    assert!(matches!(drafts[0].what, What::Bed(_)), "the bed is written too");
}

#[test]
fn the_sides_and_what_is_in_already_keep_their_room() {
    let mut question = question();
    question["bed"]["edge_margin"] = "4 in".into();
    let (mut by_hand, _) = proposed(&question);
    for site in 0..by_hand.places().len() {
        if by_hand.places()[site].set.is_some() {
            by_hand.tap(site, 0);
        }
    }
    // Emitters begin 3 in from the end.
    by_hand.tap(hole(&by_hand, 2, 1), 0);
    let judged = by_hand.judge(System::Us);
    assert_eq!(judged.conflicts, ["Line 2, hole 1: 3 in from the side, 4 in wanted."]);
    let near = by_hand.places()[hole(&by_hand, 2, 3)];
    by_hand.already.push(Plant { site: near.site, spacing: inch(24) });
    by_hand.tap(hole(&by_hand, 2, 1), 0);
    by_hand.tap(hole(&by_hand, 2, 2), 0);
    let judged = by_hand.judge(System::Us);
    assert_eq!(
        judged.conflicts,
        ["Line 2, hole 2 and a plant already in: 9 in between, 21 in wanted."]
    );
}

#[test]
fn two_crops_keep_the_mean_of_their_spacings() {
    let mut two = question();
    two["plants"] = json!([{"crop": "cabbage", "spacing": "18 in", "on_hand": 1}, {"crop": "kale", "spacing": "12 in", "on_hand": 3}]);
    let (mut by_hand, _) = proposed(&two);
    for place in 0..by_hand.places().len() {
        if by_hand.places()[place].set == Some(1) {
            by_hand.tap(place, 1);
        }
    }
    let cabbage = by_hand.places().iter().find(|place| place.set == Some(0)).unwrap().site;
    let (line, at) = (cabbage.line.unwrap(), cabbage.hole.unwrap());
    by_hand.tap(hole(&by_hand, line, at + 1), 1);
    let judged = by_hand.judge(System::Us);
    assert_eq!(judged.set, "1 cabbage and 1 kale");
    assert!(judged.conflicts[0].ends_with("9 in between, 15 in wanted."), "{judged:?}");
    assert!(judged.more.contains(&"2 kale left over.".to_owned()));
    let sheet = by_hand.sheet(System::Us);
    assert_eq!(sheet[0].row, format!("Line {line}, cabbage"));
}

#[test]
fn the_sheet_gives_each_line_its_distances() {
    let mut near = question();
    near["plants"] = json!([{"crop": "cabbage", "spacing": "18 in", "on_hand": 3}]);
    let (by_hand, _) = proposed(&near);
    let sheet = by_hand.sheet(System::Us);
    let all: Vec<&str> = sheet.iter().flat_map(|row| row.distances.split(", ")).collect();
    assert_eq!(all.len(), 3);
    assert!(sheet[0].row.starts_with("Line "));
    let told = |inches: i64| along_hose(Micrometres::from_inches(inches), System::Us);
    assert_eq!([3, 12, 21, 33].map(told), ["3 in", "1 ft", "1 ft 9 in", "2 ft 9 in"]);
    // An emitter every 30 cm.
    assert_eq!(along_hose(Micrometres::new(900_000), System::Us), "2 ft 11 1/2 in");
    assert_eq!(along_hose(Micrometres::new(900_000), System::Metric), "90 cm");
    assert!(all.iter().all(|it| it.ends_with(" in") || it.ends_with(" ft")), "{all:?}");
}

#[test]
fn on_open_ground_a_touch_between_plants_makes_a_place() {
    let mut open = question();
    open["bed"] = json!({"length": "8 ft", "width": "4 ft"});
    open["plants"][0]["on_hand"] = 2.into();
    let (mut by_hand, _) = proposed(&open);
    let touch = |along: f64, across: f64| Touch {
        along_m: along * 0.0254,
        across_m: across * 0.0254,
        reach_m: 0.3,
    };
    assert_eq!(by_hand.places().len(), 2);
    assert!(by_hand.touch(touch(70.2, 24.4), 0, System::Us));
    let added = by_hand.places().iter().find(|it| it.site.spot.along == inch(70));
    assert_eq!(added.unwrap().site.spot.across, inch(24));
    assert_eq!(by_hand.judge(System::Us).set, "3 cabbage");
    // Near to it, it is meant; outside the bed nothing is.
    assert!(by_hand.touch(touch(73.0, 24.0), 0, System::Us));
    assert_eq!(by_hand.judge(System::Us).set, "2 cabbage");
    assert!(!by_hand.touch(touch(120.0, 24.0), 0, System::Us));
    assert!(!by_hand.touch(touch(f64::NAN, 24.0), 0, System::Us));
    assert!(!by_hand.touch(touch(10.0, 10.0), 7, System::Us));
}

#[test]
fn on_open_ground_the_proposed_places_are_the_sites() {
    let mut open = question();
    open["bed"] = json!({"length": "8 ft", "width": "4 ft"});
    let (mut by_hand, next) = proposed(&open);
    let all = by_hand.places().len();
    assert!(by_hand.judge(System::Us).conflicts.is_empty());
    by_hand.tap(0, 0);
    assert_eq!(by_hand.places().len(), all);
    let judged = by_hand.judge(System::Us);
    assert_eq!(judged.set, format!("{} cabbage", all - 1));
    assert!(judged.more[0].starts_with("1 more"), "{judged:?}");
    assert_eq!(by_hand.drafts(&next, System::Us).len(), next.len());
    assert!(by_hand.sheet(System::Us)[0].row.ends_with("from the near side"));
}
