//! Several crops in one bed, asked through the door.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use serde_json::{Value, json};

use crate::{
    ask::{self, Answer, Of},
    garden::Garden,
    layout::how_many,
};

fn asked(bed: &Value, more: &Value) -> (Answer, how_many::Answer) {
    let mut whole = json!({
        "length": "8 ft", "width": "4 ft", "drip": { "lines": 4, "emitter_spacing": "9 in" }
    });
    let fields = |value: &Value| value.as_object().unwrap().clone();
    whole.as_object_mut().unwrap().extend(fields(bed));
    let mut question = json!({ "topic": "plants-per-bed", "today": "2026-04-20", "bed": whole });
    question.as_object_mut().unwrap().extend(fields(more));
    let mut garden = Garden::default();
    garden.place.insert("latitude".to_owned(), json!("45 N"));
    let answer = ask::ask(&question, &garden).unwrap();
    let Of::PlantsPerBed(found) = answer.of.clone() else { unreachable!() };
    (answer, found)
}

#[test]
fn each_crop_is_told_line_by_line() {
    let (answer, found) = asked(
        &json!({}),
        &json!({ "plants": [{ "crop": "cabbage" }, { "crop": "head lettuce" }, { "crop": "calendula" }] }),
    );
    assert_eq!((found.counts, found.proved, found.bound), (vec![12, 10, 0], true, 22));
    assert_eq!(answer.telling.headline, "12 cabbage and 10 head lettuce fit, no calendula");
    assert_eq!(
        found.arrangement,
        "Cabbage: Line 1: holes 1, 3, 5, 7, 9, 11. Line 3: holes 1, 3, 5, 7, 9, 11. \
         Head lettuce: Line 2: holes 2, 4, 6, 8, 10. Line 4: holes 2, 4, 6, 8, 10."
    );
}

#[test]
fn as_many_as_possible_in_all_may_leave_the_first_crop_out() {
    let plants = json!([{ "crop": "cabbage", "on_hand": 9 }, { "crop": "head lettuce" }]);
    let (_, order) = asked(&json!({}), &json!({ "plants": plants }));
    let (_, most) = asked(&json!({}), &json!({ "plants": plants, "aim": "most" }));
    assert_eq!((order.counts[0], order.proved), (9, true));
    let total = |found: &how_many::Answer| found.counts.iter().sum::<u32>();
    assert!(total(&most) >= total(&order));
    assert_eq!((total(&most), most.bound, most.proved), (24, 24, true));
}

/// Tall plants on the north side: Montana State University Extension, MT199502AG.
#[test]
fn tall_crops_stand_to_the_north_where_that_is_known() {
    let plants = json!({ "plants": [
        { "crop": "head lettuce", "on_hand": 6 }, { "crop": "tomato", "on_hand": 3 },
    ] });
    let mean = |found: &how_many::Answer, crop: &str| {
        let own = found.placed.iter().filter(|plant| plant.crop == crop);
        let across: Vec<f64> = own.map(|plant| plant.across_m).collect();
        across.iter().sum::<f64>() / across.len() as f64
    };
    // Facing north the north side is the far one; facing south it is the near one.
    let (north, facing_north) = asked(&json!({ "faces": "N" }), &plants);
    let (_, facing_south) = asked(&json!({ "faces": "S" }), &plants);
    assert!(mean(&facing_north, "tomato") > mean(&facing_north, "lettuce-head"));
    assert!(mean(&facing_south, "tomato") < mean(&facing_south, "lettuce-head"));
    assert_eq!(facing_north.counts, [6, 3]);
    assert_eq!(facing_south.counts, [6, 3]);
    let why = north.telling.because.join(" ");
    assert!(why.contains("Tomato, the tallest, to the north"), "{why}");
    let (unknown, _) = asked(&json!({}), &plants);
    assert!(!unknown.telling.because.join(" ").contains("north"));
}

#[test]
fn a_family_that_comes_back_too_soon_is_warned_of() {
    let warned = |year: u32, crop: &str| {
        let history = json!({ "history": [{ "crop": "broccoli", "year": year }] });
        let (answer, _) = asked(&history, &json!({ "plants": [{ "crop": crop }] }));
        let cautions = answer.telling.cautions.into_iter();
        cautions.filter(|caution| caution.contains("was here")).collect::<Vec<_>>()
    };
    assert_eq!(
        warned(2025, "cabbage"),
        ["Cabbage family was here in 2025: until 2029 another bed is better for cabbage."]
    );
    assert!(warned(2021, "cabbage").is_empty());
    assert!(warned(2025, "head lettuce").is_empty());
}

#[test]
fn gaps_are_told_with_crops_for_them() {
    let (answer, found) =
        asked(&json!({}), &json!({ "plants": [{ "crop": "cabbage", "sites": "emitters" }] }));
    assert!(!found.fillers.is_empty());
    for row in &found.fillers {
        assert!(row.count > 0 && !row.crops.is_empty());
        assert!(row.spacing_m < 0.4572);
    }
    let why = answer.telling.because.join(" ");
    assert!(why.contains("In between there is room for"), "{why}");
}

/// The fields that are refused, in order, each with what is allowed there.
fn refused(question: &Value) -> Vec<(String, String)> {
    let refusal = ask::ask(question, &Garden::default()).unwrap_err();
    refusal.refused.into_iter().map(|fault| (fault.field, fault.allowed)).collect()
}

#[test]
fn what_the_bed_lacks_is_refused_once() {
    let bed = json!({ "length": "8 ft", "width": "4 ft" });
    let crop = json!({ "crop": "cabbage", "sites": "emitters" });
    let question = json!({ "topic": "plants-per-bed", "bed": bed, "plants": [crop] });
    assert_eq!(refused(&question), [("plants.0.sites".to_owned(), "anywhere".to_owned())]);
    let nothing = json!({ "topic": "plants-per-bed", "bed": bed, "plants": [] });
    assert_eq!(refused(&nothing), [("plants".to_owned(), "at least one crop".to_owned())]);
    let mut spacing =
        json!({ "topic": "spacing-for-count", "bed": bed, "count": 4, "sites": "emitters" });
    spacing["crop"] = "cabbage".into();
    assert_eq!(refused(&spacing), [("sites".to_owned(), "anywhere".to_owned())]);
}

#[test]
fn a_bed_that_would_hold_more_than_are_set_one_by_one_still_has_a_spacing_for_a_few() {
    let question = json!({
        "topic": "spacing-for-count", "bed": { "length": "24 ft", "width": "6 ft" },
        "crop": "cabbage", "count": 100, "sites": "anywhere",
    });
    let answer = ask::ask(&question, &Garden::default()).unwrap();
    let Of::SpacingForCount(found) = answer.of else { unreachable!() };
    assert_eq!(found.placed.len(), 100);
    // A hundred squares of 14.4 in fill the bed.
    assert!(found.spacing_m.unwrap() >= 0.0254 * 14.4, "{found:?}");
}

#[test]
fn the_number_of_lines_has_one_limit_however_it_is_missed() {
    for lines in ["-1", "0", "25", "1.5", "many"] {
        let drip = json!({ "lines": lines, "emitter_spacing": "9 in" });
        let question = json!({
            "topic": "plants-per-bed", "plants": [{ "crop": "cabbage" }],
            "bed": { "length": "8 ft", "width": "4 ft", "drip": drip },
        });
        let all = [("bed.drip.lines".to_owned(), "1 to 24 lines".to_owned())];
        assert_eq!(refused(&question), all, "{lines}");
    }
}
