//! The topic through the door.

use serde_json::{Value, json};

use crate::{ask::ask, garden::Garden};

fn asked(mut question: Value) -> Value {
    question["topic"] = json!("sow-now");
    serde_json::to_value(ask(&question, &Garden::default()).unwrap()).unwrap()
}

fn refused(mut question: Value) -> Vec<String> {
    question["topic"] = json!("sow-now");
    let refusal = ask(&question, &Garden::default()).unwrap_err();
    refusal.refused.into_iter().map(|fault| fault.field).collect()
}

fn site() -> Value {
    json!({ "latitude": "42 N", "coldest": { "low": "25 F", "high": "38 F" }, "hottest": { "low": "62 F", "high": "84 F" } })
}

#[test]
fn beans_wait_for_warm_soil_and_stop_before_frost() {
    let beans = |today: &str| {
        asked(json!({ "today": today, "crop": "bush bean", "wanted": 30, "site": site() }))
    };
    assert_eq!(beans("2026-04-10")["verdict"], "wait");
    assert_eq!(beans("2026-06-01")["verdict"], "now");
    let october = beans("2026-10-01");
    assert_eq!(october["verdict"], "too-late");
    assert!(october["headline"].as_str().unwrap().starts_with("Too late: "), "{october}");
    assert!(october["when"]["likely"].as_str().unwrap() > "2027-04-15");
}

#[test]
fn spinach_waits_out_the_summer() {
    let hot = json!({ "latitude": "36 N", "coldest": { "low": "32 F", "high": "54 F" }, "hottest": { "low": "72 F", "high": "96 F" } });
    let answer =
        asked(json!({ "today": "2026-07-15", "crop": "spinach", "wanted": 30, "site": hot }));
    assert_eq!(
        (&answer["verdict"], &answer["reason"]),
        (&json!("too-hot"), &json!("too-hot-to-come-up"))
    );
    assert!(answer["headline"].as_str().unwrap().contains("too warm for spinach"));
    assert!(answer["when"]["likely"].as_str().unwrap() > "2026-08-15");
}

#[test]
fn peas_before_a_winter_of_nine_degrees_are_too_late() {
    let cold = json!({ "latitude": "42 N", "coldest": { "low": "9 F", "high": "27 F" },
                       "hottest": { "low": "62 F", "high": "84 F" } });
    let peas = |today: &str, site: Value| {
        asked(json!({ "today": today, "crop": "pea", "wanted": 100, "site": site }))
    };
    let october = peas("2026-10-20", cold.clone());
    assert_eq!(october["verdict"], "too-late", "{october}");
    assert!(october["when"]["likely"].as_str().unwrap() > "2027-02-15");
    let april = peas("2026-04-15", cold);
    assert_eq!((&april["verdict"], &april["reason"]), (&json!("now"), &Value::Null));
    assert!(april["picked"]["likely"].as_str().unwrap() > "2026-06-01");
    assert!(april["alive"].as_f64().unwrap() > 0.7);
    assert!(april["last_day"].as_str().unwrap() > "2026-04-15");
    // A thermometer alone knows nothing of the season.
    let soil = asked(
        json!({ "today": "2026-10-20", "crop": "pea", "wanted": 100, "temperature": "55 F" }),
    );
    assert_eq!((&soil["verdict"], &soil["alive"]), (&json!("now"), &Value::Null));
}

#[test]
fn the_bed_s_soil_is_never_used_indoors() {
    let place = |place: &str, temperature: Value| {
        json!({ "today": "2026-02-01", "crop": "tomato", "wanted": 12, "site": site(), "where": place,
                "temperature": temperature })
    };
    assert_eq!(asked(place("bed", Value::Null))["verdict"], "wait");
    assert_eq!(asked(place("sill", Value::Null))["verdict"], "now");
    assert_eq!(asked(place("mat", json!("80 F")))["verdict"], "now");
    let cold = asked(place("greenhouse", json!("45 F")));
    assert_eq!(
        (&cold["verdict"], &cold["when"], &cold["seeds"]),
        (&json!("warmer"), &Value::Null, &Value::Null)
    );
    assert_eq!(refused(place("greenhouse", Value::Null)), ["temperature"]);
    assert_eq!(asked(place("mat", json!("104 F")))["verdict"], "cooler");
}

#[test]
fn old_seed_takes_more_of_it() {
    let seeds = |age: Value| {
        let answer = asked(
            json!({ "today": "2026-03-01", "crop": "parsnip", "wanted": 20, "where": "sill", "seed_age_years": age }),
        );
        answer["seeds"].as_u64().unwrap()
    };
    let fresh = seeds(json!(0));
    assert_eq!(fresh, seeds(json!(1)));
    assert!(seeds(json!("2")) > fresh + 15);
}

#[test]
fn old_seed_that_would_take_hundreds_is_bought_fresh() {
    let parsnip = asked(
        json!({ "today": "2026-03-01", "crop": "parsnip", "wanted": 40, "where": "sill", "seed_age_years": 5 }),
    );
    let headline = parsnip["headline"].as_str().unwrap();
    assert!(
        headline.contains("resh seed") || headline.contains("too old to count on"),
        "{parsnip}"
    );
}

#[test]
fn faults_are_named_at_once() {
    let question = json!({ "today": "2026-03-15", "crop": "bean stalk", "wanted": 0, "where": "moon", "seed_age_years": -1,
                           "depth": "2 ft", "temperature": "300 F" });
    let mut fields = refused(question);
    fields.sort();
    assert_eq!(fields, ["crop", "depth", "seed_age_years", "temperature", "wanted", "where"]);
    assert_eq!(
        refused(json!({ "today": "2026-03-15", "crop": "pea", "wanted": 3 })),
        ["site.coldest"]
    );
}
