//! The place through the door: what is refused, and what the record fills in.

use serde_json::{Value, json};

use crate::{ask::ask, garden::Garden};

fn soil(site: Value) -> Result<f64, Vec<(String, String)>> {
    let question = json!({ "topic": "soil-temperature", "today": "2026-07-15", "site": site });
    of(&question, &Garden::default())
}

fn of(question: &Value, garden: &Garden) -> Result<f64, Vec<(String, String)>> {
    match ask(question, garden) {
        Ok(answer) => Ok(serde_json::to_value(answer).unwrap()["temperature_c"].as_f64().unwrap()),
        Err(refusal) => {
            Err(refusal.refused.into_iter().map(|fault| (fault.field, fault.why)).collect())
        }
    }
}

fn fields(site: Value) -> Vec<String> {
    soil(site).unwrap_err().into_iter().map(|(field, _)| field).collect()
}

const LOWS: [f64; 12] = [2.4, 2.8, 4.0, 5.7, 8.4, 11.1, 13.1, 13.3, 11.3, 7.7, 4.4, 2.2];
const HIGHS: [f64; 12] = [7.9, 9.7, 11.7, 14.4, 17.9, 21.0, 24.2, 24.3, 21.3, 15.3, 10.3, 7.5];

fn turned(months: [f64; 12]) -> Vec<f64> {
    let (first, second) = months.split_at(6);
    [second, first].concat()
}

#[test]
fn months_are_read_with_units_or_as_bare_celsius() {
    let text: Vec<String> = LOWS.iter().map(|low| format!("{low} C")).collect();
    let bare = soil(json!({ "monthly_low_c": LOWS, "monthly_high_c": HIGHS })).unwrap();
    let written = soil(json!({ "monthly_low": text, "monthly_high_c": HIGHS })).unwrap();
    assert_eq!(bare, written);
}

#[test]
fn the_months_themselves_say_which_half_of_the_world() {
    let (lows, highs) = (turned(LOWS), turned(HIGHS));
    let winter = soil(json!({ "monthly_low_c": lows, "monthly_high_c": highs })).unwrap();
    let summer = soil(json!({ "monthly_low_c": LOWS, "monthly_high_c": HIGHS })).unwrap();
    assert!(winter < 10.0 && summer > 17.0, "{winter} {summer}");
    let wrong = json!({ "latitude": "47 N", "monthly_low_c": lows, "monthly_high_c": highs });
    assert_eq!(fields(wrong), ["site.monthly_low_c.0"]);
    let right = json!({ "latitude": "47 S", "monthly_low_c": lows, "monthly_high_c": highs });
    assert_eq!(soil(right), Ok(winter));
}

#[test]
fn south_may_be_said_beside_an_unsigned_latitude_but_not_denied() {
    let four = |latitude: &str, south: bool| {
        json!({ "latitude": latitude, "south": south, "coldest": { "low": "35 F", "high": "46 F" },
                "hottest": { "low": "56 F", "high": "76 F" } })
    };
    assert_eq!(soil(four("42", true)), soil(four("42 S", true)));
    assert!(soil(four("42", false)).unwrap() > soil(four("42", true)).unwrap() + 8.0);
    assert_eq!(fields(four("42 S", false)), ["site.south"]);
}

#[test]
fn missing_months_and_halves_are_asked_for() {
    assert_eq!(fields(json!({ "monthly_low_c": LOWS })), ["site.monthly_high"]);
    assert_eq!(
        fields(json!({ "monthly_low_c": LOWS[..11], "monthly_high_c": HIGHS })),
        ["site.monthly_low"]
    );
    let mut gap: Vec<Value> = LOWS.iter().map(|low| json!(format!("{low} C"))).collect();
    gap[3] = json!("");
    assert_eq!(
        fields(json!({ "monthly_low": gap, "monthly_high_c": HIGHS })),
        ["site.monthly_low.3"]
    );
    assert_eq!(fields(json!({ "coldest": { "low": "35 F", "high": "46 F" } })), ["site.hottest"]);
    assert_eq!(
        fields(
            json!({ "coldest": { "low": "35 F" }, "hottest": { "low": "56 F", "high": "76 F" } })
        ),
        ["site.coldest.high"]
    );
}

#[test]
fn what_no_place_has_is_refused() {
    let mut swapped = LOWS;
    swapped[4] = 19.0;
    assert_eq!(
        fields(json!({ "monthly_low_c": swapped, "monthly_high_c": HIGHS })),
        ["site.monthly_low_c.4"]
    );
    let month = |low: &str, high: &str| json!({ "low": low, "high": high });
    let site = |coldest, hottest| json!({ "coldest": coldest, "hottest": hottest });
    assert_eq!(fields(site(month("46 F", "35 F"), month("56 F", "76 F"))), ["site.coldest.low"]);
    assert_eq!(fields(site(month("56 F", "76 F"), month("35 F", "46 F"))), ["site.hottest.low"]);
    assert_eq!(fields(site(month("35 F", "46 F"), month("56 F", "190 F"))), ["site.hottest.high"]);
    let four = |more: Value| {
        let mut site = site(month("35 F", "46 F"), month("56 F", "76 F"));
        site.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        site
    };
    assert_eq!(fields(four(json!({ "elevation": "9000 m" }))), ["site.elevation"]);
    assert_eq!(fields(four(json!({ "latitude": "95" }))), ["site.latitude"]);
    assert_eq!(
        fields(four(json!({ "last_frost": "10-08", "first_frost": "05-08" }))),
        ["site.last_frost"]
    );
    assert_eq!(fields(four(json!({ "altitude": "3 m" }))), ["site.altitude"]);
}

#[test]
fn the_record_fills_in_what_the_question_leaves_out() {
    let mut garden = Garden::default();
    let place = json!({ "latitude": "47 N", "soil": "sand", "monthly_low": LOWS.map(|low| format!("{low} C")),
                        "monthly_high": HIGHS.map(|high| format!("{high} C")) });
    garden.place = place.as_object().unwrap().clone();
    let question = json!({ "topic": "soil-temperature", "today": "2026-07-15" });
    let recorded = of(&question, &garden).unwrap();
    let mut whole = place.clone();
    assert_eq!(soil(whole.clone()), Ok(recorded));
    // Another soil, the same air.
    let peat =
        json!({ "topic": "soil-temperature", "today": "2026-07-15", "site": { "soil": "peat" } });
    whole["soil"] = json!("peat");
    assert_eq!(of(&peat, &garden), soil(whole));
    // Another air, taken whole.
    let other = json!({ "topic": "soil-temperature", "today": "2026-07-15", "site":
        { "coldest": { "low": "10 F", "high": "20 F" }, "hottest": { "low": "40 F", "high": "50 F" } } });
    assert!(of(&other, &garden).unwrap() < recorded - 5.0);
}

#[test]
fn polar_soil_below_freezing_is_told_as_a_guess() {
    let site = json!({ "latitude": "80 N", "coldest": { "low": "-30 C", "high": "-20 C" },
                       "hottest": { "low": "1 C", "high": "5 C" } });
    let question = json!({ "topic": "soil-temperature", "today": "2026-01-15", "site": site });
    let answer = serde_json::to_value(ask(&question, &Garden::default()).unwrap()).unwrap();
    assert_eq!(answer["sure"], "low");
    assert!(answer["because"][0].as_str().unwrap().contains("a guess"));
}
