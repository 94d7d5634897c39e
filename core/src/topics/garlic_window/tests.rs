//! The topic through the door: words, records, refusals.

use serde_json::{Value, json};

use crate::{
    ask::{Answer, ask},
    garden::Garden,
    given::Refusal,
    journal::Journal,
};

/// Lows and highs of a place with winters that freeze lightly.
fn site() -> Value {
    json!({ "latitude": "41.5 N", "coldest": { "low": "13 F", "high": "30 F" },
            "hottest": { "low": "67 F", "high": "86 F" } })
}

fn mild() -> Value {
    json!({ "latitude": "32.7 N", "coldest": { "low": "50 F", "high": "66 F" },
            "hottest": { "low": "67 F", "high": "77 F" } })
}

fn question(today: &str, more: Value) -> Value {
    let mut question =
        json!({ "topic": "garlic-window", "today": today, "kind": "hardneck", "site": site() });
    for (name, value) in more.as_object().unwrap() {
        question[name] = value.clone();
    }
    question
}

fn asked(today: &str, more: Value, garden: &Garden) -> Value {
    let answer: Result<Answer, Refusal> = ask(&question(today, more), garden);
    serde_json::to_value(answer.unwrap()).unwrap()
}

fn headline(today: &str, more: Value) -> String {
    asked(today, more, &Garden::default())["headline"].as_str().unwrap().to_owned()
}

fn refused(question: &Value) -> Vec<String> {
    let refusal = ask(question, &Garden::default()).unwrap_err();
    refusal.refused.into_iter().map(|fault| fault.field).collect()
}

/// A record of entries, numbered in order, each `rest` told on a day of 2026.
fn garden(entries: &[(&str, &str)]) -> Garden {
    let mut journal = Journal::default();
    for (number, (day, rest)) in entries.iter().enumerate() {
        let id = crate::journal::Ulid(number as u128 + 1);
        let text = format!(r#"{{"v":1,"id":"{id}","when":"{day}T09:00",{rest}}}"#);
        crate::journal::read_entry(&text).unwrap_or_else(|why| panic!("{text}: {why}"));
        journal.add(&text);
    }
    Garden::fold(&journal)
}

const FENCE: &str = r#""kind":"bed","about":{"bed":"fence"},"what":{"name":"Fence bed","bed":{"length":"8 ft","width":"4 ft"}}"#;
const SHED: &str = r#""kind":"bed","about":{"bed":"shed"},"what":{"name":"Shed bed","bed":{"length":"8 ft","width":"4 ft"}}"#;

#[test]
fn through_the_year_the_verdict_follows_the_ground() {
    let says = |today: &str| headline(today, json!({}));
    assert!(says("2026-08-01").starts_with("Not yet: plant from"));
    assert!(says("2026-10-18").starts_with("You can plant now"), "{}", says("2026-10-18"));
    assert_eq!(says("2026-11-05"), "Plant now");
    assert_eq!(says("2026-11-28"), "Late, and still worth it: plant while the ground opens");
    assert!(says("2027-01-15").starts_with("The ground is frozen: plant when it opens, about"));
    assert!(says("2027-03-25").contains("small bulbs"));
    assert!(says("2027-05-01").starts_with("Not yet"));
}

#[test]
fn a_winter_too_mild_asks_for_chilling_in_time() {
    let early = asked("2026-07-20", json!({ "site": mild() }), &Garden::default());
    assert_eq!(early["chill"], "short");
    assert!(early["headline"].as_str().unwrap().starts_with("Chill the seed from"));
    let from = early["prechill_from"].as_str().unwrap();
    assert!(("2026-08-01".."2026-10-01").contains(&from), "{from}");
    assert!(early["next"][0]["what"]["text"].as_str().unwrap().contains("chill the seed"));

    let later = asked("2026-11-20", json!({ "site": mild() }), &Garden::default());
    assert_eq!(later["prechill_from"], "2026-11-20");
    let late = asked("2026-12-20", json!({ "site": mild() }), &Garden::default());
    assert_eq!(late["prechill_from"], Value::Null);
    assert!(late["headline"].as_str().unwrap().contains("softneck"));

    let softneck =
        asked("2026-07-20", json!({ "site": mild(), "kind": "softneck" }), &Garden::default());
    assert_eq!(softneck["prechill_from"], Value::Null);
}

/// Means of Brisbane, °C, 2003 to 2021 (data basis: Deutscher Wetterdienst, modified, CC BY 4.0).
fn brisbane() -> Value {
    let celsius = |months: [f64; 12]| months.map(|month| format!("{month} C"));
    let low = celsius([21.7, 21.3, 19.8, 16.6, 12.9, 11.1, 9.5, 9.9, 13.1, 16.0, 18.5, 20.4]);
    let high = celsius([29.3, 29.1, 27.9, 26.0, 23.6, 21.4, 21.3, 22.4, 24.7, 26.1, 27.6, 28.7]);
    json!({ "latitude": "27.4 S", "monthly_low": low, "monthly_high": high })
}

/// Ground that never cools to 70 °F.
fn tropics() -> Value {
    json!({ "latitude": "14 N", "coldest": { "low": "72 F", "high": "88 F" },
            "hottest": { "low": "78 F", "high": "93 F" } })
}

#[test]
fn garlic_at_brisbane_is_lifted_in_november_and_never_in_january() {
    let question = json!({ "topic": "garlic-window", "today": "2026-03-20", "site": brisbane() });
    let answer = serde_json::to_value(ask(&question, &Garden::default()).unwrap()).unwrap();
    let lift = &answer["lift"];
    assert!(lift["early"].as_str() > Some("2026-10-10"), "{lift}");
    assert!(lift["late"].as_str() < Some("2026-12-10"), "{lift}");
    let last = answer["steps"].as_array().unwrap().last().unwrap();
    assert_eq!(last["on"], lift["early"]);
    assert!(last["what"].as_str().unwrap().contains("about 5 green leaves"));
}

#[test]
fn in_a_mild_winter_both_kinds_are_told_side_by_side_where_none_was_said() {
    let site = || json!({ "site": mild(), "kind": null });
    let early = asked("2026-07-20", site(), &Garden::default());
    let headline = early["headline"].as_str().unwrap();
    assert!(headline.starts_with("Softneck: not yet: plant from"), "{headline}");
    assert!(headline.contains("Hardneck: chill the seed from"), "{headline}");
    let kinds = early["kinds"].as_array().unwrap();
    assert_eq!((&kinds[0]["kind"], &kinds[1]["kind"]), (&json!("softneck"), &json!("hardneck")));
    assert_eq!((&kinds[0]["prechill_from"], &kinds[1]["chill"]), (&Value::Null, &json!("short")));
    assert_eq!(early["prechill_from"], kinds[1]["prechill_from"]);
    let late = asked("2026-12-20", site(), &Garden::default());
    let headline = late["headline"].as_str().unwrap();
    assert!(headline.contains("Softneck: plant now. Hardneck: too late"), "{headline}");
    // Said, it stands alone; where winters are cold both do as one.
    let alone = asked("2026-07-20", json!({ "site": mild() }), &Garden::default());
    assert_eq!(alone["kinds"].as_array().unwrap().len(), 1);
    let cold = asked("2026-11-05", json!({ "kind": null }), &Garden::default());
    assert_eq!(cold["headline"], "Plant now");
}

#[test]
fn where_the_soil_never_cools_the_way_round_is_the_verdict() {
    let answer =
        asked("2026-08-01", json!({ "site": tropics(), "kind": null }), &Garden::default());
    assert_eq!(answer["window"], Value::Null);
    let headline = answer["headline"].as_str().unwrap();
    assert!(headline.starts_with("Chill the seed from"), "{headline}");
    assert!(headline.contains("a kind for short days"), "{headline}");
    assert!(answer["lift"]["likely"].is_string());
    for kind in answer["kinds"].as_array().unwrap() {
        assert!(kind["plant"].is_string() && kind["prechill_from"].is_string(), "{kind}");
    }
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(48))]

    /// One reading never turns the winter's kind nor the cold's verdict, and a colder one never makes
    /// garlic ready sooner.
    #[test]
    fn a_colder_reading_never_lifts_it_earlier(
        coldest in -10.0..12.0f64, warmer in 8.0..16.0f64, at in 0.0..30.0f64, less in 0.1..15.0f64,
        planted in 0u32..28,
    ) {
        let site = json!({ "latitude": "38 N",
            "coldest": { "low": format!("{coldest} C"), "high": format!("{} C", coldest + 9.0) },
            "hottest": { "low": format!("{} C", coldest + warmer), "high": format!("{} C", coldest + warmer + 11.0) } });
        let told = |reading: Option<f64>| {
            let readings = reading.map(|at| json!([{ "date": "2026-10-20", "depth": "4 in",
                "temperature": format!("{at} C") }]));
            let more = json!({ "site": site, "kind": null, "readings": readings });
            asked(&format!("2026-10-{:02}", 21 + planted % 10), more, &Garden::default())
        };
        let (none, warm, cold) = (told(None), told(Some(at)), told(Some(at - less)));
        for other in [&warm, &cold] {
            proptest::prop_assert_eq!(&other["winter"], &none["winter"]);
            proptest::prop_assert_eq!(&other["kinds"][1]["chill"], &none["kinds"][1]["chill"]);
        }
        // Of garlic that stands, not of a planting put off.
        let bed = garden(&[("2026-03-01", FENCE), ("2026-10-05",
            r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"garlic"}"#)]);
        let lift = |at: f64| {
            let readings = json!([{ "date": "2026-10-20", "depth": "4 in", "temperature": format!("{at} C") }]);
            let more = json!({ "site": site, "bed": "fence", "readings": readings });
            asked("2026-10-25", more, &bed)["lift"]["likely"].as_str().map(str::to_owned)
        };
        proptest::prop_assert!(lift(at - less) >= lift(at));
    }
}

#[test]
fn readings_of_a_warm_bed_put_its_window_off() {
    let readings = json!([
        { "date": "2026-10-08", "depth": "4 in", "temperature": "68 F" },
        { "date": "2026-10-12", "depth": "4 in", "temperature": "67 F", "time": "9:00" },
    ]);
    let usual = asked("2026-10-12", json!({}), &Garden::default());
    let warm = asked("2026-10-12", json!({ "readings": readings }), &Garden::default());
    let best = |answer: &Value| answer["window"]["best"]["likely"].as_str().unwrap().to_owned();
    assert!(best(&warm) > best(&usual));
    assert!(warm["because"].to_string().contains("By 2 readings this soil is"));
}

#[test]
fn a_thermometer_that_shows_cool_soil_overrules_the_usual_year() {
    let readings: Vec<Value> = (1..=6)
        .map(|day| json!({ "date": format!("2026-10-0{day}"), "depth": "4 in", "temperature": "49 F" }))
        .collect();
    let answer = asked("2026-10-06", json!({ "readings": readings }), &Garden::default());
    assert_eq!(answer["now"], "in");
    assert_eq!(answer["headline"], "Plant now: your soil has come down to 50 °F");
}

#[test]
fn white_rot_locks_the_bed_and_is_remembered() {
    let known = garden(&[("2026-03-01", FENCE), ("2026-03-01", SHED)]);
    let told = asked("2026-09-20", json!({ "bed": "fence", "white_rot": true }), &known);
    assert!(told["headline"].as_str().unwrap().starts_with("Not in this bed: white rot"));
    assert!(told["cautions"][0].as_str().unwrap().contains("White rot spreads"));
    let draft = &told["next"][0];
    assert_eq!(draft["kind"], "note");
    let note = format!(
        r#""kind":"note","about":{{"bed":"fence"}},"what":{}"#,
        serde_json::to_string(&draft["what"]).unwrap()
    );
    // Years later the note still rules the bed out, and another comes first.
    let later = garden(&[("2018-03-01", FENCE), ("2018-03-01", SHED), ("2018-09-20", &note)]);
    let answer = asked("2026-09-20", json!({ "bed": "fence" }), &later);
    assert!(answer["headline"].as_str().unwrap().starts_with("Not in this bed"));
    assert_eq!(answer["beds"][0]["bed"], "shed");
    assert_eq!(answer["beds"][1]["bed"], "fence");
    assert!(answer["because"].to_string().contains("Shed bed comes first"));
}

#[test]
fn a_bed_of_the_record_is_reserved_then_planted() {
    let known = garden(&[("2026-03-01", FENCE)]);
    let early = asked("2026-08-01", json!({ "bed": "fence" }), &known);
    assert_eq!(early["next"][0]["kind"], "reserved");
    assert!(early["because"].to_string().contains("radish (about 30 days)"));
    let now = asked("2026-11-01", json!({ "bed": "fence" }), &known);
    assert_eq!(now["next"][0]["kind"], "planted");
    assert_eq!(now["next"][0]["what"]["count"], now["cloves"]);
}

#[test]
fn without_a_bed_the_best_one_is_kept_for_garlic_and_then_left_so() {
    let wet = FENCE.replace("\"4 ft\"}", "\"4 ft\",\"drains\":\"no\"}");
    let good = SHED.replace("\"4 ft\"}", "\"4 ft\",\"drains\":\"yes\",\"spring_sun\":true}");
    let entries = [("2026-03-01", wet.as_str()), ("2026-03-01", good.as_str())];
    let answer = asked("2026-08-01", json!({}), &garden(&entries));
    let said = answer["because"].to_string();
    assert!(said.contains("Shed bed comes first: it drains and it has sun in spring"), "{said}");
    assert_eq!(answer["beds"][1]["out"], "it stays wet");
    let draft = &answer["next"][0];
    assert_eq!((&draft["kind"], &draft["about"]["bed"]), (&json!("reserved"), &json!("shed")));
    assert_eq!(draft["what"]["from"], answer["window"]["opens"]["likely"]);
    assert_eq!(draft["what"]["until"], answer["window"]["closes"]["likely"]);
    let later: Vec<&str> = answer["next"]
        .as_array()
        .unwrap()
        .iter()
        .skip(1)
        .map(|draft| draft["what"]["text"].as_str().unwrap())
        .collect();
    assert_eq!(later.len(), 7, "{later:?}");
    assert!(later[1].contains("Mulch 3 to 4 in deep"), "{later:?}");

    let kept = format!(r#""kind":"reserved","about":{{"bed":"shed"}},"what":{}"#, draft["what"]);
    let note =
        format!(r#""kind":"note","about":{{"bed":"shed"}},"what":{{"text":"{}"}}"#, later[0]);
    let entries = [
        ("2026-03-01", wet.as_str()),
        ("2026-03-01", good.as_str()),
        ("2026-08-01", kept.as_str()),
        ("2026-08-01", note.as_str()),
    ];
    let again = asked("2026-08-02", json!({}), &garden(&entries));
    let said = again["because"].to_string();
    assert!(said.contains("Shed bed is kept for garlic from"), "{said}");
    let next = again["next"].as_array().unwrap();
    assert_eq!(next.len(), 6, "what is noted already is not offered again");
    assert!(next.iter().all(|draft| draft["kind"] == "note"));
}

#[test]
fn garlic_in_the_ground_is_followed_by_its_own_day() {
    let garlic = r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"garlic","count":120}"#;
    let known = garden(&[("2026-03-01", FENCE), ("2026-10-28", garlic)]);
    for today in ["2026-11-05", "2027-05-10"] {
        let answer = asked(today, json!({ "bed": "fence" }), &known);
        let headline = answer["headline"].as_str().unwrap();
        assert!(headline.starts_with("In since 28 Oct"), "{headline}");
        let last = answer["steps"].as_array().unwrap().last().unwrap();
        let lift = last["on"].as_str().unwrap();
        assert!(("2027-06-20".."2027-08-10").contains(&lift), "{lift}");
        let next = answer["next"].as_array().unwrap();
        assert!(next.iter().all(|draft| draft["kind"] == "note"));
        assert!(!next.is_empty());
    }
}

#[test]
fn in_frozen_ground_a_bed_is_kept_until_the_thaw() {
    let known = garden(&[("2026-03-01", FENCE)]);
    let answer = asked("2027-01-15", json!({ "bed": "fence" }), &known);
    let kept = &answer["next"][0];
    assert_eq!(kept["what"]["from"], "2027-01-15");
    assert!(kept["what"]["until"].as_str().unwrap() > "2027-02-01");
}

#[test]
fn depths_are_told_in_the_gardener_s_own_units() {
    let answer = asked("2026-09-20", json!({ "units": "metric" }), &Garden::default());
    let steps = answer["steps"].to_string();
    assert!(steps.contains("5 to 8 cm") && !steps.contains(" in deep"), "{steps}");
}

#[test]
fn the_onion_family_is_rested_and_a_growing_crop_waited_for() {
    let leek = r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"leek","count":20}"#;
    let cleared = r#""kind":"cleared","about":{"bed":"fence"},"what":{}"#;
    let known = garden(&[("2026-03-01", FENCE), ("2026-03-02", leek), ("2026-09-01", cleared)]);
    let answer = asked("2026-09-20", json!({ "bed": "fence" }), &known);
    assert_eq!(answer["headline"], "In another bed: the onion family grew here in 2026");
    let cabbage = r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"cabbage","count":8}"#;
    let known = garden(&[("2026-03-01", FENCE), ("2026-09-10", cabbage)]);
    let answer = asked("2026-09-20", json!({ "bed": "fence" }), &known);
    assert!(
        answer["headline"].as_str().unwrap().contains("free only about"),
        "{}",
        answer["headline"]
    );
}

#[test]
fn garlic_at_six_inches_fills_a_bed_as_growers_count_it() {
    let bed = json!({ "length": "8 ft", "width": "4 ft",
                      "drip": { "lines": 4, "line_spacing": "12 in", "emitter_spacing": "9 in" } });
    let answer = asked("2026-09-20", json!({ "bed": bed, "spacing": "6 in" }), &Garden::default());
    let cloves = answer["cloves"].as_u64().unwrap();
    assert!((128..=145).contains(&cloves), "{cloves}");
    let kilograms = answer["seed_kg"].as_f64().unwrap();
    assert!((kilograms - cloves as f64 * 0.453_592_37 / 50.0).abs() < 0.001);
    let weighed = asked(
        "2026-09-20",
        json!({ "bed": bed, "spacing": "6 in", "cloves_per_kg": 200 }),
        &Garden::default(),
    );
    assert_eq!(weighed["seed_between_kg"], Value::Null);
}

#[test]
fn hot_and_polar_places_get_an_honest_answer() {
    let tropics = json!({ "latitude": "5 N", "coldest": { "low": "73 F", "high": "86 F" },
                          "hottest": { "low": "77 F", "high": "92 F" } });
    let hot = asked("2026-10-01", json!({ "site": tropics }), &Garden::default());
    assert_eq!((&hot["window"], &hot["now"]), (&Value::Null, &Value::Null));
    let headline = hot["headline"].as_str().unwrap();
    assert!(headline.ends_with("the soil here never cools to 70 °F"), "{headline}");
    let arctic = json!({ "latitude": "78 N", "coldest": { "low": "-5 F", "high": "8 F" },
                         "hottest": { "low": "39 F", "high": "46 F" } });
    let cold = asked("2026-10-01", json!({ "site": arctic }), &Garden::default());
    assert_eq!(cold["window"], Value::Null);
    assert!(cold["headline"].as_str().unwrap().starts_with("Too cold here"));
}

#[test]
fn a_first_frost_alone_gives_a_wide_answer_that_says_so() {
    let site = json!({ "latitude": "46 N", "first_frost": "10-05" });
    let answer = asked("2026-09-01", json!({ "site": site }), &Garden::default());
    assert_eq!(answer["sure"], "low");
    assert_eq!(answer["window"]["opens"]["likely"], "2026-10-05");
    assert_eq!(answer["chill"], "unsure");
    assert!(answer["because"].to_string().contains("first frost alone"));
}

#[test]
fn every_fault_is_named_at_once() {
    let question = json!({
        "topic": "garlic-window", "today": "2026-10-01", "kind": "purple", "depth": "3 m", "mulch": "gravel",
        "spacing": "3 ft", "cloves_per_kg": "1", "white_rot": "maybe",
        "readings": [{ "date": "2026-10-02", "temperature": "90 C" }],
        "site": { "latitude": "95", "monthly_low": ["1 C"] },
    });
    let mut fields = refused(&question);
    fields.sort();
    assert_eq!(
        fields,
        [
            "cloves_per_kg",
            "depth",
            "kind",
            "mulch",
            "readings.0.date",
            "readings.0.temperature",
            "site.latitude",
            "site.monthly_high",
            "site.monthly_low",
            "spacing",
            "white_rot",
        ]
    );
    assert_eq!(
        refused(&json!({ "topic": "garlic-window", "today": "2026-10-01" })),
        ["site.coldest"]
    );
    assert_eq!(refused(&json!({ "topic": "garlic-window", "site": site() })), ["today"]);
}

#[test]
fn the_words_are_those_that_gardeners_use() {
    for today in ["2026-07-01", "2026-09-20", "2026-11-01", "2026-12-20", "2027-02-01"] {
        for site in [site(), mild()] {
            let told = asked(today, json!({ "site": site }), &Garden::default());
            let words = [&told["headline"], &told["because"], &told["look_for"], &told["cautions"]];
            let words = words.map(Value::to_string).concat().to_lowercase();
            for word in [
                "on hand",
                "apart",
                "standing",
                "worked in",
                "proved",
                "bound ",
                "gate",
                "ledger",
                "banked",
            ] {
                assert!(!words.contains(word), "{word}: {words}");
            }
            assert!(told["because"].as_array().unwrap().len() <= 4);
            assert!(told["headline"].as_str().unwrap().len() <= 90, "{}", told["headline"]);
        }
    }
}
