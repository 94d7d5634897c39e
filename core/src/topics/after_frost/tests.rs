//! The question after a frost, asked at the door.

use serde_json::{Value, json};

use super::answer::Verdict;
use crate::{
    ask::ask,
    garden::Garden,
    journal::{Journal, samples::entry_text},
};

fn told_of(garden: &Garden, mut question: Value) -> Result<Value, Vec<String>> {
    question["topic"] = json!("after-frost");
    question["today"] = json!("2026-03-06");
    let answer = ask(&question, garden);
    let answer = answer.map_err(|refusal| {
        refusal.refused.into_iter().map(|fault| fault.field).collect::<Vec<_>>()
    })?;
    Ok(serde_json::to_value(answer).unwrap())
}

fn told(crop: &str, signs: &[&str]) -> Value {
    told_of(&Garden::default(), json!({ "crop": crop, "signs": signs })).unwrap()
}

#[test]
fn frozen_plants_are_left_alone_until_they_have_thawed() {
    for crop in ["cabbage", "lettuce-leaf", "tomato", "leek"] {
        let answer = told(crop, &["glassy", "limp"]);
        assert_eq!(
            (&answer["verdict"], &answer["look_again"]),
            (&json!("wait"), &json!("2026-03-08"))
        );
        assert!(answer["headline"].as_str().unwrap().contains("until it has thawed"));
        assert!(answer["cautions"][0].as_str().unwrap().contains("thawed by themselves"));
    }
}

#[test]
fn each_sign_comes_to_what_growers_do() {
    for (crop, signs, verdict) in [
        ("tomato", &["black"][..], "pick-now"),
        ("tomato", &["fruit-soft", "black"], "pick-now"),
        ("basil", &["black", "split-stem"], "gone"),
        ("potato", &["black"], "wait"),
        ("potato", &["black", "new-growth"], "cut-back"),
        ("kale", &["black"], "wait"),
        ("kale", &["brown-edges"], "wait"),
        ("kale", &["firm"], "wait"),
        ("celery", &["split-stem"], "pick-now"),
        ("lettuce-leaf", &["soft-crown", "black"], "gone"),
    ] {
        assert_eq!(told(crop, signs)["verdict"], verdict, "{crop} {signs:?}");
    }
}

#[test]
fn what_harm_tells_of_the_low_is_a_bound() {
    let between = |answer: &Value| {
        let low = &answer["low_between_c"];
        (low["from"].as_f64().unwrap(), low["to"].as_f64().unwrap())
    };
    let dead = between(&told("lettuce-leaf", &["soft-crown"]));
    let sound = between(&told("lettuce-leaf", &["firm"]));
    assert!(dead.0 < sound.0 && dead.1 < sound.1, "{dead:?} {sound:?}");
    // A thermometer that says otherwise is told to.
    let question = json!({ "crop": "lettuce-leaf", "signs": ["soft-crown"], "low": "40 F" });
    let answer = told_of(&Garden::default(), question).unwrap();
    assert_eq!(answer["low_clashes"], true);
    assert!(answer["because"].to_string().contains("Your thermometer says 40 °F"));
}

#[test]
fn what_cannot_be_told_is_refused_all_at_once() {
    let refused = |question: Value| told_of(&Garden::default(), question).unwrap_err();
    assert_eq!(refused(json!({})), ["crop", "signs"]);
    assert_eq!(
        refused(json!({ "crop": "kale", "signs": ["soft-crown", "new-growth"] })),
        ["signs"]
    );
    let mut all =
        refused(json!({ "crop": "quux", "signs": ["melted"], "low": "900 F", "bed": "moon" }));
    all.sort();
    assert_eq!(all, ["bed", "crop", "low", "signs.0"]);
}

/// Two crops of a bed, one dead and one sound, tell more of its low than either; all is written down.
#[test]
fn the_bed_s_other_crops_narrow_the_low() {
    let entries = [
        (
            0,
            r#""kind":"bed","about":{"bed":"low"},"what":{"name":"Low bed","bed":{"length":"8 ft","width":"4 ft"}}"#,
        ),
        (
            4 * 1440,
            r#""kind":"frost-seen","about":{"bed":"low"},"what":{"crop":"potato","harm":"none"}"#,
        ),
    ];
    let mut journal = Journal::default();
    for (id, (minute, rest)) in entries.iter().enumerate() {
        journal.add(&entry_text(id as u128 + 1, *minute, rest));
    }
    let garden = Garden::fold(&journal);
    let alone = json!({ "crop": "bean-snap-bush", "signs": ["black", "soft-crown"] });
    let mut here = alone.clone();
    here["bed"] = json!("Low bed");
    let (alone, here) = (told_of(&garden, alone).unwrap(), told_of(&garden, here).unwrap());
    let from = |answer: &Value| answer["low_between_c"]["from"].as_f64().unwrap();
    assert!(from(&here) > from(&alone) + 2.0, "{here} {alone}");
    let draft = &here["next"][0];
    assert_eq!((&draft["kind"], &draft["about"]["bed"]), (&json!("frost-seen"), &json!("low")));
    assert_eq!(draft["what"]["harm"], "all");
}

#[test]
fn every_mix_of_two_signs_has_an_answer_or_a_clash() {
    use super::question::Sign;
    for crop in ["tomato", "kale", "garlic", "zinnia", "strawberry", "potato"] {
        for one in Sign::ALL {
            for other in Sign::ALL {
                let question = json!({ "crop": crop, "signs": [one.word(), other.word()] });
                match told_of(&Garden::default(), question) {
                    Ok(answer) => {
                        assert!(answer["look_again"].as_str() >= Some("2026-03-06"));
                        let gone = answer["verdict"] == Verdict::Gone.word();
                        assert!(!(gone && *one == Sign::NewGrowth), "{crop} {one:?} {other:?}");
                    }
                    Err(fields) => assert_eq!(fields, ["signs"], "{crop} {one:?} {other:?}"),
                }
            }
        }
    }
}
