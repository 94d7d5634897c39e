//! The topic through the door.

use serde_json::{Value, json};

use crate::{
    ask::ask,
    garden::Garden,
    journal::{Journal, Ulid},
};

fn asked_of(garden: &Garden, mut question: Value) -> Value {
    question["topic"] = json!("what-fits-when");
    serde_json::to_value(ask(&question, garden).unwrap()).unwrap()
}

fn asked(question: Value) -> Value {
    asked_of(&Garden::default(), question)
}

/// Cold winters, warm summers.
fn site() -> Value {
    json!({ "latitude": "42 N", "coldest": { "low": "16 F", "high": "33 F" },
            "hottest": { "low": "63 F", "high": "84 F" } })
}

fn on(today: &str) -> Value {
    asked(json!({ "today": today, "site": site() }))
}

fn row<'a>(answer: &'a Value, crop: &str, how: &str) -> Option<&'a Value> {
    let rows = answer["can"].as_array().unwrap();
    rows.iter().find(|row| row["crop"] == crop && row["how"] == how)
}

#[test]
fn in_august_autumn_crops_still_go_in_and_fruit_does_not() {
    let august = on("2026-08-05");
    for (crop, how) in [("radish", "sow"), ("pak-choi", "sow"), ("kale", "set-out")] {
        assert!(row(&august, crop, how).is_some(), "{crop}");
    }
    for (crop, how) in [("tomato", "set-out"), ("pumpkin", "sow"), ("sweet-corn", "sow")] {
        assert!(row(&august, crop, how).is_none(), "{crop}");
    }
}

#[test]
fn the_fewest_days_left_come_first() {
    for day in ["2026-02-20", "2026-05-20", "2026-08-05", "2026-10-10"] {
        let answer = on(day);
        let last: Vec<&str> = answer["can"]
            .as_array()
            .unwrap()
            .iter()
            .filter_map(|row| row["last_day"].as_str())
            .collect();
        assert!(last.is_sorted(), "{day}: {last:?}");
        assert!(last.iter().all(|last| *last >= day), "{day}: {last:?}");
    }
}

#[test]
fn every_row_crops_four_years_in_ten_and_is_picked_later() {
    for day in ["2026-01-10", "2026-04-01", "2026-07-10", "2026-09-20"] {
        for row in on(day)["can"].as_array().unwrap() {
            assert!(row["alive"].as_f64().unwrap() >= 0.395, "{row}");
            assert!(row["picked"]["likely"].as_str().unwrap() > day, "{row}");
        }
    }
}

#[test]
fn sow_now_tells_the_same_last_day() {
    let answer = on("2026-07-25");
    let mut compared = 0;
    for row in answer["can"].as_array().unwrap() {
        if row["how"] != "sow" || row["verdict"] != "yes" {
            continue;
        }
        let question = json!({ "topic": "sow-now", "today": "2026-07-25", "crop": row["crop"],
                               "wanted": 10, "site": site() });
        let Ok(sown) = ask(&question, &Garden::default()) else { continue };
        let sown = serde_json::to_value(sown).unwrap();
        assert_eq!(
            (&sown["verdict"], &sown["last_day"]),
            (&json!("now"), &row["last_day"]),
            "{row}"
        );
        assert_eq!((&sown["picked"], &sown["alive"]), (&row["picked"], &row["alive"]));
        compared += 1;
    }
    assert!(compared > 10, "{compared}");
}

#[test]
fn seed_alone_and_plants_alone_share_the_rows() {
    let of = |goes: Value| {
        asked(json!({ "today": "2026-05-20", "site": site(), "as": goes }))["can"]
            .as_array()
            .unwrap()
            .len()
    };
    let (both, seed, plants) = (of(Value::Null), of(json!("seed")), of(json!("plants")));
    assert!(seed > 5 && plants > 5 && seed + plants == both, "{both} {seed} {plants}");
}

#[test]
fn spinach_of_september_stands_through_a_mild_winter_and_no_bean_does() {
    let mild = json!({ "latitude": "42 N", "coldest": { "low": "27 F", "high": "40 F" },
                       "hottest": { "low": "63 F", "high": "84 F" } });
    let september = asked(json!({ "today": "2026-09-15", "site": mild }));
    let stands = |crop: &str, how: &str| {
        row(&september, crop, how).map(|row| row["stands_through_winter"].as_bool().unwrap())
    };
    assert_eq!(stands("spinach", "sow"), Some(true));
    assert_eq!(stands("kale", "set-out"), Some(true));
    // What is picked at once, weeks before winter, is gone by then.
    assert_eq!(stands("radish", "sow"), Some(false));
    assert!(september["because"].to_string().contains("To stand through the winter"));
    // Nights under 5 F, which kill spinach, come every year where the usual low is 16 F.
    let cold = on("2026-09-15");
    assert_eq!(row(&cold, "spinach", "sow").unwrap()["stands_through_winter"], false);
}

/// A record of these entries; their ids count from 1.
fn garden(entries: &[&str]) -> Garden {
    let mut journal = Journal::default();
    for (id, rest) in (1_u128..).zip(entries) {
        journal.add(&format!(r#"{{"v":1,"id":"{}","when":"2026-04-20T10:00",{rest}}}"#, Ulid(id)));
    }
    let garden = Garden::fold(&journal);
    assert!(garden.unplaced.is_empty() && journal.unread().count() == 0);
    garden
}

#[test]
fn a_bed_of_the_record_brings_along_what_stood_and_what_is_kept() {
    let garden = garden(&[
        r#""kind":"bed","about":{"bed":"low"},"what":{"name":"Low bed","bed":{"length":"8 ft","width":"4 ft","history":[{"family":"cabbage","year":2025}]}}"#,
        r#""kind":"seeded","about":{"bed":"low"},"what":{"crop":"pea","count":60}"#,
        r#""kind":"reserved","about":{"bed":"low"},"what":{"crop":"garlic","from":"2026-10-10"}"#,
    ]);
    let answer =
        asked_of(&garden, json!({ "today": "2026-07-20", "bed": "Low bed", "site": site() }));
    let because = answer["because"].to_string();
    assert!(because.contains("Growing there now: pea"), "{because}");
    assert!(because.contains("kept for garlic from 10 Oct"), "{because}");
    assert!(row(&answer, "kale", "set-out").unwrap()["rests_until"].as_i64() > Some(2026));
    assert_eq!(
        row(&answer, "spinach", "sow").map(|row| &row["rests_until"]),
        row(&answer, "spinach", "sow").map(|_| &Value::Null)
    );
    let next = answer["next"].as_array().unwrap();
    assert!(!next.is_empty() && next.iter().all(|draft| draft["kind"] == "reserved"), "{next:?}");
    let kept = &next[0]["what"]["crop"];
    assert!(
        answer["can"]
            .as_array()
            .unwrap()
            .iter()
            .any(|row| row["crop"] == *kept && row["rests_until"].is_null())
    );
}

#[test]
fn nothing_is_offered_that_is_still_there_when_the_bed_is_wanted() {
    let on_20_jul = |wanted: &str| {
        let garden = garden(&[
            r#""kind":"bed","about":{"bed":"low"},"what":{"name":"Low bed","bed":{"length":"8 ft","width":"4 ft"}}"#,
            &format!(
                r#""kind":"reserved","about":{{"bed":"low"}},"what":{{"crop":"garlic","from":"{wanted}"}}"#
            ),
        ]);
        asked_of(&garden, json!({ "today": "2026-07-20", "bed": "Low bed", "site": site() }))
    };
    let answer = on_20_jul("2026-10-10");
    assert_eq!(answer["next"].as_array().unwrap().len(), 1);
    let offered = &answer["next"][0]["what"]["crop"];
    let rows = answer["can"].as_array().unwrap().iter();
    let late: Vec<_> = rows.filter(|row| row["crop"] == *offered).collect();
    assert!(late.iter().any(|row| row["picked"]["late"].as_str() < Some("2026-10-10")), "{late:?}");

    let answer = on_20_jul("2026-07-25");
    let said = "Kept for garlic from 25 Jul: nothing sown or set now is picked before";
    assert_eq!(answer["headline"], said);
    assert_eq!(answer["next"], json!([]));
}

#[test]
fn a_sickness_of_the_record_keeps_its_family_out() {
    let garden = garden(&[
        r#""kind":"bed","about":{"bed":"low"},"what":{"name":"Low bed","bed":{"length":"8 ft","width":"4 ft"}}"#,
        r#""kind":"residue-laid","about":{"bed":"low"},"what":{"materials":[{"residue":"cabbage-leaves"}],"flags":["diseased"],"illness":"clubroot"}"#,
    ]);
    let question = |from: &str| json!({ "today": from, "bed": "Low bed", "site": site() });
    let answer = asked_of(&garden, question("2026-08-05"));
    for crop in ["kale", "radish", "cabbage", "pak-choi", "turnip"] {
        for how in ["sow", "set-out"] {
            assert!(row(&answer, crop, how).is_none(), "{crop}");
        }
    }
    assert!(answer["because"][0].as_str().unwrap().starts_with("Kept out by clubroot until 2033"));
    assert!(
        row(&answer, "lettuce-leaf", "sow").is_some() || row(&answer, "carrot", "sow").is_some()
    );
    // Seven years later it may try again.
    assert!(row(&asked_of(&garden, question("2033-08-05")), "radish", "sow").is_some());
}

/// A garden whose last frost is told as late sets out nothing tender before it, whatever its months say.
#[test]
fn a_last_frost_that_was_told_counts() {
    let months = json!({ "latitude": "42 N", "coldest": { "low": "25 F", "high": "40 F" },
                         "hottest": { "low": "63 F", "high": "86 F" } });
    let mut told = months.clone();
    told["last_frost"] = json!("06-05");
    let tomato = |site: &Value, today: &str| {
        let answer = asked(json!({ "today": today, "site": site, "as": "plants" }));
        row(&answer, "tomato", "set-out").cloned()
    };
    assert!(tomato(&months, "2026-05-20").is_some());
    assert_eq!(tomato(&told, "2026-05-20"), None);
    assert!(tomato(&told, "2026-06-15").is_some());
}

#[test]
fn faults_are_named_at_once() {
    let question = json!({ "topic": "what-fits-when", "today": "2026-08-01", "from": "2026-07-01", "as": "weeds",
                           "bed": "Moon bed", "site": { "latitude": "200 N" } });
    let refusal = ask(&question, &Garden::default()).unwrap_err();
    let mut fields: Vec<String> = refusal.refused.into_iter().map(|fault| fault.field).collect();
    fields.sort();
    assert_eq!(fields, ["as", "bed", "from", "site.latitude"]);
    let no_place = json!({ "topic": "what-fits-when", "today": "2026-08-01" });
    let refusal = ask(&no_place, &Garden::default()).unwrap_err();
    assert_eq!(refusal.refused[0].field, "site.coldest");
}
