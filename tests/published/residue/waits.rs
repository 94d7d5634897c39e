//! Published waits, asked through the door. Soil at 15 °C and damp, so that a day counts as one, unless
//! said otherwise.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use pegline_core::{ask::ask, garden::Garden};
use serde_json::{Value, json};

/// The answer on what was laid on 1 May.
fn asked(more: Value) -> Value {
    let mut question = json!({
        "topic": "residue-wait", "today": "2026-05-01", "laid": "2026-05-01", "soil_temperature": "15 C",
        "moisture": "moist", "area": "1 m2", "placement": "worked-in", "plan": "direct-sow",
    });
    for (name, value) in more.as_object().unwrap() {
        question[name] = value.clone();
    }
    serde_json::to_value(ask(&question, &Garden::default()).unwrap()).unwrap()
}

/// Early, likely and late day of a limit, as ISO dates.
fn limit(answer: &Value, name: &str) -> [String; 3] {
    let limits = answer["limits"].as_array().unwrap();
    let found = limits.iter().find(|one| one["limit"] == name).unwrap();
    ["early", "likely", "late"].map(|end| found["range"][end].as_str().unwrap_or("9999").to_owned())
}

/// Grünwald, Hu and van Bruggen 2000: *Pythium* down by three weeks, *Rhizoctonia* two weeks later.
#[test]
fn seedling_rots_fade_in_three_weeks_and_in_five() {
    let greens = json!([{ "residue": "lettuce-leaves", "amount": "2 kg" }]);
    let carrot = asked(json!({ "materials": greens, "crop": "carrot" }));
    assert_eq!(limit(&carrot, "seedling-rot")[1], "2026-05-22");
    let bean = asked(json!({ "materials": greens, "crop": "pole bean", "damping_off": "yes" }));
    assert_eq!(limit(&bean, "seedling-rot")[1], "2026-06-05");
}

/// UC IPM, seedcorn maggot: dig cover crops in two weeks or more ahead; old residue left on top is no risk
/// (Iowa State).
#[test]
fn seed_maggots_want_two_weeks_dug_in_and_none_on_top() {
    let vetch = json!([{ "residue": "hairy-vetch", "amount": "2 kg" }]);
    let dug_in = asked(json!({ "materials": vetch, "crop": "pole bean" }));
    assert!("2026-05-15" <= limit(&dug_in, "seed-maggot")[1].as_str());
    let on_top = asked(json!({ "materials": vetch, "crop": "pole bean", "placement": "on-top" }));
    assert_eq!(limit(&on_top, "seed-maggot")[1], "2026-05-01");
    let carrot = asked(json!({ "materials": vetch, "crop": "carrot" }));
    assert_eq!(limit(&carrot, "seed-maggot")[1], "2026-05-01");
}

/// Mason-Sedun and Jessop 1988: brassica toxins gone after 20 to 40 days at 20 to 24 °C. Our late end at
/// 22 °C, with a thermometer's error, lies about the 40th day; early is half of the 20th or later, for
/// garden doses are lower (common practice).
#[test]
fn brassica_toxins_fade_in_about_forty_warm_days() {
    let kale = json!([{ "residue": "cabbage-leaves", "amount": "3 kg" }]);
    let warm = asked(json!({ "materials": kale, "crop": "carrot", "soil_temperature": "22 C" }));
    let [early, _, late] = limit(&warm, "toxins");
    assert!("2026-05-10" <= early.as_str(), "{early}");
    assert!(("2026-06-08".."2026-06-21").contains(&late.as_str()), "{late}");
    // At 2 °C they did not fade in any time tried.
    let cold = asked(json!({ "materials": kale, "crop": "carrot", "soil_temperature": "2 C" }));
    assert!("2026-07-01" < limit(&cold, "toxins")[1].as_str());
}

/// Winter rye: two weeks (University of Massachusetts, Nebraska) to four (Penn State) before what is not
/// fine; alfalfa seed four weeks after rye still lost 35 to 64 % of its seedlings (Adhikari 2018), so fine
/// seed waits longer than that.
#[test]
fn rye_wants_two_to_four_weeks_and_fine_seed_more() {
    let rye = json!([{ "residue": "rye", "amount": "2 kg" }]);
    let corn = asked(json!({ "materials": rye, "crop": "sweet corn" }));
    let likely = limit(&corn, "toxins")[1].clone();
    assert!(("2026-05-15".."2026-05-31").contains(&likely.as_str()), "{likely}");
    let carrot = asked(json!({ "materials": rye, "crop": "carrot" }));
    assert!("2026-05-29" < limit(&carrot, "toxins")[1].as_str());
}

/// US National Organic Program, 7 CFR 205.203: raw manure 120 days before picking what touches soil, else 90.
#[test]
fn raw_manure_waits_its_days_before_picking() {
    let because = |crop: &str| {
        let answer = asked(json!({
            "laid": "2026-05-01", "materials": [{ "residue": "rotted-manure" }, { "residue": "rye" }], "crop": crop,
        }));
        answer["because"].to_string()
    };
    assert!(because("carrot").contains("before 29 Aug"), "{}", because("carrot"));
    assert!(because("lettuce-leaf").contains("before 29 Aug"));
    assert!(because("sweet-corn").contains("before 30 Jul"));
}

/// Mulch of greens is planted through without a wait (Ask Extension): the default on top, below C:N 36.
#[test]
fn greens_on_top_are_planted_through_at_once() {
    for residue in ["pea-vines", "tomato-vines", "bean-tops", "hairy-vetch", "ryegrass"] {
        let answer = asked(json!({
            "materials": [{ "residue": residue, "amount": "2 kg" }], "placement": "on-top", "plan": "transplant",
        }));
        assert_eq!(answer["way_round"]["what"], "through-the-top", "{residue}");
        assert_eq!(answer["plant_from"]["likely"], "2026-05-01", "{residue}");
    }
}

/// Soil colder than 10 °C does not count toward the fading of rots, and warmer is not faster (common
/// practice).
#[test]
fn rots_fade_by_the_calendar_and_not_in_cold_soil() {
    let greens = json!([{ "residue": "lettuce-leaves", "amount": "2 kg" }]);
    let at = |soil: &str| {
        let answer =
            asked(json!({ "materials": greens, "crop": "carrot", "soil_temperature": soil }));
        limit(&answer, "seedling-rot")[1].clone()
    };
    assert_eq!(at("15 C"), at("25 C"));
    assert_eq!(at("7 C"), "9999");
}
