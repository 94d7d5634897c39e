//! Several crops in one bed, asked through the door.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use serde_json::{Value, json};

use crate::{
    ask::{self, Answer, Of},
    bed::Spot,
    garden::Garden,
    journal::{Journal, samples::entry_text},
    quantity::Micrometres,
    topics::plants_per_bed,
};

fn asked(bed: &Value, more: &Value) -> (Answer, plants_per_bed::Answer) {
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
    let total = |found: &plants_per_bed::Answer| found.counts.iter().sum::<u32>();
    assert!(total(&most) >= total(&order));
    assert_eq!((total(&most), most.bound, most.proved), (24, 24, true));
}

/// Tall plants on the north side: Montana State University Extension, MT199502AG.
#[test]
fn tall_crops_stand_to_the_north_where_that_is_known() {
    let plants = json!({ "plants": [
        { "crop": "head lettuce", "on_hand": 6 }, { "crop": "tomato", "on_hand": 3 },
    ] });
    let mean = |found: &plants_per_bed::Answer, crop: &str| {
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

/// A bed of the record with kale at its holes, and what was done to the bed since.
fn changed(then: &Value) -> Garden {
    let bed = |id: u128, day: u32, shape: &Value| {
        let what = json!({ "name": "Fence bed", "bed": shape });
        entry_text(
            id,
            day * 1440,
            &format!(r#""kind":"bed","about":{{"bed":"fence"}},"what":{what}"#),
        )
    };
    let first = json!({
        "length": "8 ft", "width": "4 ft", "drip": { "lines": 4, "emitter_spacing": "9 in" }
    });
    let kale = r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"kale","count":3,"spacing":"18 in","at":"L1:1-5x2;L4:11"}"#;
    let mut journal = Journal::default();
    for text in [bed(1, 0, &first), entry_text(2, 1440, kale), bed(3, 2, then)] {
        journal.add(&text);
    }
    Garden::fold(&journal)
}

/// In inches, from the left end and from the near side.
fn inches(spots: &[Spot]) -> Vec<(i64, i64)> {
    let inches = |at: Micrometres| at.get() / Micrometres::from_inches(1).get();
    spots.iter().map(|spot| (inches(spot.along), inches(spot.across))).collect()
}

#[test]
fn plants_stay_where_they_were_set_when_the_drip_is_changed() {
    // Three lines with a hole every 12 in; there is no line 4 and no hole 11 any longer.
    let then = json!({
        "length": "8 ft", "width": "4 ft", "drip": { "lines": 3, "emitter_spacing": "12 in" }
    });
    let garden = changed(&then);
    let known = garden.bed("fence").unwrap();
    let now = crate::record::shape(known).unwrap();
    let stands = crate::plan::stands(known, &known.plantings[0], &now);
    assert_eq!(inches(&stands.spots), [(3, 6), (39, 6), (93, 42)]);
    assert_eq!(stands.outside, 0);

    let question =
        json!({ "topic": "plants-per-bed", "bed": "fence", "plants": [{ "crop": "kale" }] });
    let answer = ask::ask(&question, &garden).unwrap();
    let why = answer.telling.because.join(" ");
    assert!(why.contains("The 3 plants already in keep their room."), "{why}");
    assert!(!why.contains("no longer"), "{why}");
    let Of::PlantsPerBed(found) = answer.of else { unreachable!() };
    // Line 1 of the new drip lies 8 in from the near side: its holes at 6 and 42 in lie too near.
    let line = |plant: &&crate::plan::Placed| plant.line == Some(1);
    let holes: Vec<_> = found.placed.iter().filter(line).filter_map(|plant| plant.hole).collect();
    assert!(!holes.is_empty() && !holes.contains(&1) && !holes.contains(&4), "{holes:?}");
}

#[test]
fn plants_outside_the_bed_as_it_is_now_are_told_and_not_refused() {
    let then = json!({
        "length": "6 ft", "width": "3 ft", "drip": { "lines": 3, "emitter_spacing": "9 in" }
    });
    let garden = changed(&then);
    for topic in ["plants-per-bed", "spacing-for-count"] {
        let mut question = json!({ "topic": topic, "bed": "fence" });
        match topic {
            "plants-per-bed" => question["plants"] = json!([{ "crop": "kale" }]),
            _ => {
                question["crop"] = "kale".into();
                question["count"] = 4.into();
            }
        }
        let told = ask::ask(&question, &garden).unwrap().telling.because.join(" ");
        let wanted = "The record has 1 plant whose place is no longer in this bed";
        assert!(told.contains(wanted), "{topic}: {told}");
    }
    let question =
        json!({ "topic": "plants-per-bed", "bed": "fence", "plants": [{ "crop": "kale" }] });
    let Of::PlantsPerBed(found) = ask::ask(&question, &garden).unwrap().of else { unreachable!() };
    assert_eq!(found.laid.standing.len(), 2);
}

#[test]
fn a_plant_of_the_question_that_lies_outside_is_refused_at_its_own_place() {
    let garden = changed(&json!({ "length": "8 ft", "width": "4 ft" }));
    let standing = json!([
        { "crop": "kale", "along": "1 ft", "across": "1 ft" },
        { "crop": "kale", "along": "9 ft", "across": "1 ft" },
    ]);
    let question = json!({
        "topic": "plants-per-bed", "bed": "fence", "plants": [{ "crop": "cabbage" }],
        "standing": standing,
    });
    let refusal = ask::ask(&question, &garden).unwrap_err();
    let fields: Vec<&str> = refusal.refused.iter().map(|fault| fault.field.as_str()).collect();
    assert_eq!(fields, ["standing.1.along"]);
}
