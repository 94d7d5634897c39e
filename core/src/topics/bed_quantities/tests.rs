//! The topic as it is asked at the door.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::{
    ask::ask,
    catalogue::{Crop, crops},
    garden::Garden,
    journal::{file, merge::Journal},
};

fn answer(fields: &Value) -> Value {
    let answer = ask(&question(fields), &Garden::default());
    serde_json::to_value(answer.unwrap_or_else(|refused| panic!("{fields}: {refused:?}"))).unwrap()
}

fn refused(fields: &Value) -> Vec<(String, String)> {
    let refusal = ask(&question(fields), &Garden::default()).unwrap_err();
    let faults = refusal.refused.into_iter();
    faults.map(|fault| (fault.field, fault.why)).collect()
}

/// The fields with the topic and a bed of 8 x 4 ft, unless they have another.
fn question(fields: &Value) -> Value {
    let mut question = json!({
        "topic": "bed-quantities", "bed": {"length": "8 ft", "width": "4 ft"}
    });
    for (name, value) in fields.as_object().unwrap() {
        question[name] = value.clone();
    }
    question
}

fn told(answer: &Value) -> String {
    answer["because"]
        .as_array()
        .unwrap()
        .iter()
        .fold(String::new(), |told, line| told + line.as_str().unwrap() + "\n")
}

#[test]
fn a_crop_that_was_asked_for_is_the_one_that_is_counted() {
    let potato = answer(&json!({"item": "sets", "crop": "potato"}));
    let onions = answer(&json!({"item": "sets"}));
    assert_ne!(potato["pieces"], onions["pieces"]);
    assert!(!potato["headline"].as_str().unwrap().contains("onion"), "{potato}");
    let faults = refused(&json!({"item": "sets", "crop": "tomato"}));
    assert_eq!(faults[0].0, "crop");
    assert_eq!(refused(&json!({"item": "seed-garlic", "crop": "carrot"}))[0].0, "crop");
}

#[test]
fn an_inch_of_compost_is_told_in_both_systems() {
    let us = answer(&json!({"item": "compost"}));
    assert_eq!(us["headline"], "2.7 cu ft of compost");
    assert_eq!(us["volume_l"], 75.51);
    assert!(told(&us).contains("1 in deep over 32 sq ft: half a wheelbarrow, heaped."), "{us}");
    assert!(told(&us).contains("An inch (2.5 cm) is usual"), "{us}");
    let metric = answer(&json!({"item": "compost", "depth": "1 in", "units": "metric"}));
    assert_eq!(metric["headline"], "76 litres of compost");
    assert_eq!(metric["volume_l"], 75.51);
    assert_eq!(metric["sure"], "high");
    assert!((metric["mass_kg"].as_f64().unwrap() - 60.5).abs() < 0.1);
    for null in ["pieces", "plants", "spares", "bulbs", "settling_l", "mass_range_kg"] {
        assert_eq!(metric.get(null), Some(&Value::Null), "{null}");
    }
}

#[test]
fn mulch_has_a_usual_depth_and_soil_asks_for_one() {
    let mulch = answer(&json!({"item": "mulch"}));
    assert_eq!(mulch["volume_l"], 226.53);
    assert!(told(&mulch).contains("3 to 4 in"));
    let soil = answer(&json!({"item": "soil", "depth": "12 in"}));
    assert_eq!(soil["volume_l"], 906.14);
    assert_eq!(soil["settling_l"], 90.61);
    assert_eq!(soil["mass_kg"], Value::Null);
    assert!(told(&soil).contains("6 wheelbarrows"), "{soil}");
    let [(field, why)] = &refused(&json!({"item": "soil"}))[..] else {
        panic!("one fault");
    };
    assert_eq!(field, "depth");
    assert!(why.contains("the one thing still needed"), "{why}");
}

#[test]
fn the_gardener_s_own_wheelbarrow_counts() {
    let small = answer(&json!({"item": "soil", "depth": "12 in", "wheelbarrow": "3 cu ft"}));
    assert!(told(&small).contains("11 wheelbarrows"), "{small}");
    let entries = r#"{"pegline":1,"entries":[{"v":1,"id":"01J00000000000000000000001","when":"2026-03-01T08:00","kind":"settings","what":{"wheelbarrow":"3 cu ft"}}]}"#;
    let journal: Journal = file::read(entries).unwrap().journal;
    let kept = ask(&question(&json!({"item": "soil", "depth": "12 in"})), &Garden::fold(&journal));
    assert!(kept.unwrap().telling.because[0].contains("11 wheelbarrows"));
}

#[test]
fn garlic_is_counted_weighed_and_kept_back() {
    let garlic = answer(&json!({"item": "seed-garlic", "spacing": "6 in"}));
    // Without drip half the spacing is kept at the sides: 16 rows of 8.
    assert_eq!(garlic["pieces"], 128);
    assert_eq!(garlic["plants"], 128);
    assert_eq!(garlic["spares"], 13);
    assert_eq!(garlic["bulbs"], 26);
    assert_eq!(garlic["headline"], "128 cloves: about 2.6 lb");
    let pound = 0.453_592_37;
    let near = |value: &Value, pounds: f64| {
        assert!((value.as_f64().unwrap() - pounds * pound).abs() < 1e-5, "{value}");
    };
    near(&garlic["mass_kg"], 128.0 / 50.0);
    near(&garlic["mass_range_kg"]["least"], 128.0 / 80.0);
    near(&garlic["mass_range_kg"]["most"], 128.0 / 20.0);
    assert_eq!(garlic["volume_l"], Value::Null);
    assert!(told(&garlic).contains("26 bulbs of hardneck or 16 of softneck"), "{garlic}");
    // As the layout topics have it.
    assert!(told(&garlic).contains("Set staggered, 140 fit: then have 12 more"), "{garlic}");
    assert!(garlic["cautions"][0].as_str().unwrap().contains("dogs"), "{garlic}");

    let softneck = answer(&json!({"item": "seed-garlic", "kind": "softneck"}));
    assert_eq!(softneck["bulbs"], 16);
    near(&softneck["mass_range_kg"]["most"], 128.0 / 50.0);

    let handful = json!({"pieces": 12, "mass": "66 g"});
    let weighed = answer(&json!({"item": "seed-garlic", "handful": handful}));
    assert_eq!(weighed["mass_kg"], 0.704);
    assert_eq!(weighed["mass_range_kg"], json!({"least": 0.704, "most": 0.704}));
}

#[test]
fn the_edge_margin_is_the_bed_s_or_the_crop_s() {
    let pieces = |bed: Value| {
        answer(&json!({"item": "seed-garlic", "spacing": "8 in", "bed": bed}))["pieces"].clone()
    };
    let size = |more: Value| {
        let mut bed = json!({"length": "8 ft", "width": "4 ft"});
        bed.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        bed
    };
    // 88 by 40 in between half-spacings, 90 by 42 in the habit's 3 in, 72 by 24 in the bed's 12 in.
    assert_eq!(pieces(size(json!({}))), 12 * 6);
    let drip = json!({"drip": {"lines": 4, "emitter_spacing": "9 in"}});
    assert_eq!(pieces(size(drip)), 12 * 6);
    assert_eq!(pieces(size(json!({"edge_margin": "12 in"}))), 10 * 4);
}

#[test]
fn sets_are_counted_with_spares() {
    let sets = answer(&json!({"item": "sets", "spacing": "4 in"}));
    assert_eq!(sets["pieces"], 24 * 12);
    assert_eq!(sets["spares"], 29);
    assert_eq!(sets["bulbs"], Value::Null);
    assert_eq!(sets["headline"], "288 sets: about 2.1 lb");
}

#[test]
fn seed_that_fails_is_sown_besides() {
    let carrot = answer(&json!({"item": "seed", "crop": "carrot", "spacing": "3 in"}));
    assert_eq!(carrot["plants"], 32 * 16);
    assert_eq!(carrot["pieces"], 683);
    assert_eq!(carrot["spares"], Value::Null);
    assert_eq!(carrot["headline"], "683 carrot seeds: less than 0.1 oz");
    assert_eq!(carrot["sure"], "low");
    let sure = answer(
        &json!({"item": "seed", "crop": "carrot", "spacing": "3 in", "germination": "80 %"}),
    );
    assert_eq!(sure["pieces"], 640);
    // 25 000 seeds an ounce.
    let grams = 640.0 / 25_000.0 * 28.349_523;
    assert!((sure["mass_kg"].as_f64().unwrap() * 1000.0 - grams).abs() < 0.001);
}

#[test]
fn cover_crops_are_strewn_by_weight() {
    let strewn = answer(&json!({"item": "seed", "crop": "rye"}));
    assert_eq!(strewn["pieces"], Value::Null);
    let range = &strewn["mass_range_kg"];
    assert_eq!(strewn["mass_kg"], range["most"]);
    assert!(range["least"].as_f64() < range["most"].as_f64());
    assert!(strewn["headline"].as_str().unwrap().starts_with("About "), "{strewn}");
}

#[test]
fn what_is_planted_as_a_root_or_bulb_has_no_amount_of_seed() {
    let refused: Vec<&str> = crops()
        .iter()
        .map(Crop::id)
        .filter(|id| {
            let fields = json!({"item": "seed", "crop": id, "spacing": "6 in"});
            ask(&question(&fields), &Garden::default()).is_err()
        })
        .collect();
    assert_eq!(
        refused,
        [
            "artichoke-jerusalem",
            "crocus",
            "daffodil",
            "garlic",
            "garlic-elephant",
            "grape-hyacinth",
            "horseradish",
            "mint",
            "potato",
            "rhubarb",
            "shallot",
            "sweet-potato",
            "tarragon",
            "tulip"
        ]
    );
}

#[test]
fn an_unknown_crop_is_counted_where_its_spacing_is_given() {
    let own = answer(&json!({"item": "seed", "crop": "a plant of our own", "spacing": "1 ft"}));
    assert_eq!(own["plants"], 32);
    assert_eq!(own["mass_kg"], Value::Null);
    assert_eq!(own["headline"], "43 a plant of our own seeds");
}

#[test]
fn a_bed_too_small_holds_none() {
    let bed = json!({"length": "1 ft", "width": "5 in", "edge_margin": "2.5 in"});
    let garlic = answer(&json!({"item": "seed-garlic", "bed": bed, "spacing": "6 in"}));
    assert_eq!(garlic["pieces"], 2);
    let bed =
        json!({"length": "2 ft", "width": "5 in", "drip": {"lines": 1, "emitter_spacing": "9 in"}});
    let none = answer(&json!({"item": "seed", "crop": "pumpkin", "bed": bed}));
    assert_eq!(none["pieces"], 0);
    assert_eq!(none["headline"], "Nothing fits with 36 in between");
}

#[test]
fn every_fault_is_refused_at_once() {
    let faults = refused(&json!({
        "bed": {"length": "0", "width": "4 ft"}, "item": "gravel", "depth": "-1 in", "spacing": "wide",
        "kind": "purple", "germination": "0", "handful": {"pieces": 0}, "wheelbarrow": "0 l", "colour": "red"
    }));
    let fields: Vec<&str> = faults.iter().map(|(field, _)| field.as_str()).collect();
    assert_eq!(
        fields,
        [
            "colour",
            "bed.length",
            "item",
            "depth",
            "spacing",
            "wheelbarrow",
            "kind",
            "germination",
            "handful.mass",
            "handful.pieces"
        ]
    );
    assert_eq!(refused(&json!({"bed": null, "item": null})).len(), 2);
    let unknown = refused(&json!({"item": "seed", "crop": "quux"}));
    assert_eq!(unknown[0].0, "crop");
    assert_eq!(refused(&json!({"item": "seed"}))[0].0, "crop");
    let garlic = refused(&json!({"item": "seed", "crop": "garlic"}));
    assert!(garlic[0].1.contains("not from seed"));
    for depth in ["0", "7 ft", "1e9 m", "NaN in", "3"] {
        assert_eq!(refused(&json!({"item": "compost", "depth": depth}))[0].0, "depth", "{depth}");
    }
    for spacing in ["0 in", "-6 in", "30 ft", "x"] {
        let faults = refused(&json!({"item": "seed-garlic", "spacing": spacing}));
        assert_eq!(faults.len(), 1, "{spacing}: {faults:?}");
    }
}

proptest! {
    #[test]
    fn more_bed_and_more_depth_never_take_less(
        length in 0.1..30.0_f64, width in 0.1..6.0_f64, depth in 0.001..1.8_f64, more in 1.0..1.01_f64,
    ) {
        let of = |factor: f64| {
            let bed = json!({"length_m": length * factor, "width_m": width});
            let bulk = answer(&json!({"item": "soil", "bed": bed, "depth_m": depth * factor}));
            let garlic = answer(&json!({"item": "seed-garlic", "bed": bed}));
            (bulk["volume_l"].as_f64().unwrap(), garlic["pieces"].as_u64().unwrap())
        };
        let (small, large) = (of(1.0), of(more));
        prop_assert!(small.0 <= large.0);
        prop_assert!(small.1 <= large.1);
    }
}
