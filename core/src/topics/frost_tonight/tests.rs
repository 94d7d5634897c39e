//! The question of a cold night, asked at the door.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::{
    ask::ask,
    garden::Garden,
    given::Refusal,
    journal::{Journal, samples::entry_text},
};

fn told_of(garden: &Garden, mut question: Value) -> Result<Value, Refusal> {
    question["topic"] = json!("frost-tonight");
    ask(&question, garden).map(|answer| serde_json::to_value(answer).unwrap())
}

fn told(question: Value) -> Value {
    told_of(&Garden::default(), question).unwrap_or_else(|refusal| panic!("{refusal:?}"))
}

fn refused(question: Value) -> Vec<(String, String)> {
    let refusal = told_of(&Garden::default(), question).unwrap_err();
    let fields = refusal.refused.into_iter();
    fields.map(|fault| (fault.field, fault.why)).collect()
}

fn fields_refused(question: Value) -> Vec<String> {
    refused(question).into_iter().map(|(field, _)| field).collect()
}

fn clear_night(forecast: &str, crops: &[&str]) -> Value {
    let crops: Vec<Value> = crops.iter().map(|crop| json!({ "crop": crop })).collect();
    json!({ "forecast_low": forecast, "sky": "clear", "wind": "still", "crops": crops })
}

#[test]
fn beans_are_covered_at_36_and_kale_is_not() {
    let answer = told(clear_night("36 F", &["kale", "bean-snap-bush", "leek"]));
    assert_eq!(answer["cover"], json!(["bean-snap-bush"]));
    assert_eq!(answer["headline"], "Cover tonight: bush bean");
    // 36 - 4 = 32 °F, as likely above as below; in °C.
    assert_eq!(answer["bed_low_c"], 0.0);
    assert_eq!(answer["harm"]["bean-snap-bush"], 0.5);
    assert_eq!(answer["harm"]["kale"], 0.0);
    let covered = answer["with_cover"]["bean-snap-bush"].as_f64().unwrap();
    assert!((0.3..0.45).contains(&covered), "{covered}");
    assert_eq!(answer["sure"], "low");
    assert!(answer["cautions"].to_string().contains("mid-morning"));
    assert!(answer["cautions"].to_string().contains("fire"));
}

#[test]
fn chard_kale_cabbage_and_leek_need_nothing_at_29() {
    for sky in ["clear", "part", "cloudy"] {
        let mut question = clear_night("29 F", &["chard", "kale", "cabbage", "leek"]);
        question["sky"] = json!(sky);
        let answer = told(question);
        assert_eq!(answer["cover"], json!([]), "{sky}");
        assert_eq!(answer["headline"], "Nothing needs a cover tonight", "{sky}");
    }
    // Not so straight from a warm house, nor in a hard freeze.
    let tender = json!({ "forecast_low": "29 F", "sky": "clear", "wind": "still",
        "crops": [{ "crop": "cabbage", "hardened": "no" }] });
    assert_eq!(told(tender)["cover"], json!(["cabbage"]));
    assert_eq!(told(clear_night("22 F", &["cabbage"]))["cover"], json!(["cabbage"]));
}

#[test]
fn the_only_cover_goes_where_it_saves_most() {
    let crops = json!([
        { "crop": "kale", "count": 12 },
        { "crop": "cucumber", "count": 2 },
        { "crop": "tomato", "count": 9 },
    ]);
    let mut question = json!({ "forecast_low": "36 F", "sky": "clear", "wind": "still", "crops": crops,
        "covers": [{ "cover": "sheet", "count": 1 }] });
    let answer = told(question.clone());
    assert_eq!(answer["cover"], json!(["tomato"]));
    assert_eq!(answer["left_bare"], json!(["cucumber"]));
    assert_eq!(answer["headline"], "Cover tonight: tomato. No cover is left for cucumber");
    question["covers"] = json!([{ "cover": "sheet", "count": 0 }]);
    let answer = told(question);
    assert_eq!(answer["cover"], json!([]));
    assert_eq!(answer["headline"], "In danger tonight, and no cover for it: cucumber and tomato");
}

#[test]
fn no_cover_is_laid_for_nothing() {
    let answer = told(clear_night("20 F", &["tomato", "lettuce-leaf"]));
    assert_eq!(answer["cover"], json!(["lettuce-leaf"]));
    assert_eq!(answer["left_bare"], json!(["tomato"]));
    assert_eq!(
        answer["headline"],
        "Cover tonight: leaf lettuce. No cover saves tomato: pick or move what you can"
    );
    assert_eq!(
        answer["because"][0],
        "One cover hardly helps leaf lettuce: pick what you can, or lay two."
    );
}

#[test]
fn a_bed_that_told_its_nights_is_believed() {
    let nights: Vec<Value> = (0..6)
        .map(|_| json!({ "reference_low": "40 F", "bed_low": "31 F", "sky": "clear" }))
        .collect();
    let mut question = clear_night("38 F", &["tomato"]);
    let usual = told(question.clone());
    question["bed_nights"] = json!(nights);
    let learned = told(question.clone());
    assert!(learned["bed_low_c"].as_f64() < usual["bed_low_c"].as_f64());
    assert!(learned["bed_low_sd_c"].as_f64() < usual["bed_low_sd_c"].as_f64());
    assert_eq!(learned["sure"], "fair");
    assert_eq!(learned["beds"][0]["nights"], 6);
    // On a cloudy night they tell nothing.
    question["sky"] = json!("cloudy");
    assert_eq!(told(question)["beds"][0]["nights"], 0);
}

#[test]
fn some_cloud_lies_between_clear_and_cloudy_and_wind_mixes_the_air() {
    let low = |sky: &str, wind: &str| {
        let mut question = clear_night("36 F", &["tomato"]);
        question["sky"] = json!(sky);
        question["wind"] = json!(wind);
        told(question)["bed_low_c"].as_f64().unwrap()
    };
    assert!(low("clear", "still") < low("part", "still"));
    assert!(low("part", "still") < low("cloudy", "still"));
    assert!(low("clear", "3 mph") < low("clear", "8 mph"));
    assert!(low("clear", "8 mph") < low("clear", "12 mph"));
    assert_eq!(low("clear", "12 mph"), low("cloudy", "12 mph"));
}

#[test]
fn the_only_sheet_goes_to_the_colder_bed_and_not_to_the_one_less_known() {
    let nights = |bed: &str, count: usize| {
        vec![json!({ "forecast_low": "40 F", "bed_low": bed, "sky": "clear" }); count]
    };
    let answer = told(json!({
        "forecast_low": "37 F", "sky": "clear", "wind": "still",
        "covers": [{ "cover": "sheet", "count": 1 }],
        "beds": [
            { "bed": "New bed", "crops": [{ "crop": "tomato" }] },
            { "bed": "Cold bed", "bed_nights": nights("35 F", 12), "crops": [{ "crop": "tomato" }] },
        ],
    }));
    assert_eq!(answer["beds"][1]["cover_as"], 1, "{}", answer["headline"]);
    assert!(answer["look_for"].to_string().contains("thermometer among the leaves of New bed"));
}

#[test]
fn a_cover_that_hardly_helps_is_told_so() {
    let answer = told(clear_night("32 F", &["tomato"]));
    let (bare, covered) = (&answer["harm"]["tomato"], &answer["with_cover"]["tomato"]);
    assert!(bare.as_f64() > Some(0.7) && covered.as_f64() > Some(0.5), "{bare} {covered}");
    assert_eq!(answer["headline"], "Cover tonight: tomato");
    assert_eq!(
        answer["because"][0],
        "One cover hardly helps tomato: pick what you can, or lay two."
    );
}

/// Monthly means of Des Moines, Iowa, °C, rounded.
fn placed() -> (u32, String) {
    let months = |values: [i32; 12]| values.map(|c| format!("\"{c} C\"")).join(",");
    let low = months([-11, -8, -2, 5, 11, 17, 19, 18, 13, 6, -1, -8]);
    let high = months([-1, 2, 9, 17, 23, 28, 30, 29, 25, 17, 9, 1]);
    (
        0,
        format!(
            r#""kind":"place","what":{{"latitude":"41.5 N","monthly_low":[{low}],"monthly_high":[{high}]}}"#
        ),
    )
}

/// What kills by the stage that the planting's day tells: pods before leaves, flowers in spring alone.
#[test]
fn a_crop_is_judged_by_the_stage_it_has_come_to() {
    let day = |days: u32| days * 1440;
    let bed = r#""kind":"bed","about":{"bed":"low"},"what":{"name":"Low bed","bed":{"length":"8 ft","width":"4 ft"}}"#;
    let of = |minute: u32, kind: &str, crop: &str, today: &str| {
        let planted =
            format!(r#""kind":"{kind}","about":{{"bed":"low"}},"what":{{"crop":"{crop}"}}"#);
        let entries = [(0, bed.to_owned()), placed(), (minute, planted)];
        let mut journal = Journal::default();
        for (id, (minute, rest)) in entries.iter().enumerate() {
            journal.add(&entry_text(id as u128 + 1, *minute, rest));
        }
        let question =
            json!({ "today": today, "forecast_low": "29 F", "sky": "clear", "wind": "still" });
        told_of(&Garden::fold(&journal), question).unwrap()
    };
    // The samples' first day is 2026-03-01.
    let harm = |answer: &Value, crop: &str| answer["harm"][crop].as_f64().unwrap();
    let (young, podded) =
        (of(day(25), "seeded", "pea", "2026-04-20"), of(day(25), "seeded", "pea", "2026-06-10"));
    assert!(harm(&podded, "pea") > harm(&young, "pea") + 0.2, "{podded} {young}");
    let (bloom, winter) = (
        of(0, "planted", "strawberry", "2026-05-05"),
        of(0, "planted", "strawberry", "2026-12-05"),
    );
    assert!(harm(&bloom, "strawberry") > 0.5 && harm(&winter, "strawberry") < 0.1);
    assert!(bloom["headline"].as_str().unwrap().starts_with("Cover tonight"));
    assert!(!winter["look_for"].to_string().contains("flower of strawberry"));
}

/// The ten nights of FAO Environment and Natural Resources Series 10, vol. 1, 2005, ch. 5.
fn evenings(count: usize) -> Value {
    let nights = [
        (3.2, -4.2, -3.1),
        (0.8, -8.8, -5.0),
        (0.2, -6.5, -6.3),
        (2.6, -6.2, -5.4),
        (4.4, -6.1, -4.0),
        (5.2, 2.6, -2.5),
        (2.7, -0.7, -4.8),
        (1.2, -1.7, -5.0),
        (4.5, -1.2, -4.4),
        (5.6, 0.1, -3.3),
    ];
    let evening = |(air, dew, low): &(f64, f64, f64)| json!({ "temperature_c": air, "dew_point_c": dew, "low_c": low });
    Value::Array(nights[..count].iter().map(evening).collect())
}

fn at_dusk(count: usize) -> Value {
    json!({ "today": "2026-10-20", "sky": "clear", "wind": "still", "crops": [{ "crop": "lettuce" , "hardened": true }],
        "dusk": { "temperature": "4 C", "dew_point": "-2 C" }, "evenings": evenings(count),
        "site": { "latitude": "45" } })
}

#[test]
fn dusk_alone_wants_ten_evenings() {
    let mut question = at_dusk(10);
    question["crops"] = json!([{ "crop": "lettuce-leaf" }]);
    let answer = told(question);
    // -3.864 °C at the thermometer, and the leaves as usual 4 °F below it.
    let low = answer["bed_low_c"].as_f64().unwrap();
    assert!((low - (-3.864 - 4.0 / 1.8)).abs() < 0.01, "{low}");
    assert!(answer["because"].to_string().contains("comes down to freezing about"));

    let mut question = at_dusk(9);
    question["crops"] = json!([{ "crop": "lettuce-leaf" }]);
    let faults = refused(question.clone());
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].0, "evenings");
    assert!(faults[0].1.contains("fewer"), "{}", faults[0].1);
    // With a forecast it is answered all the same.
    question["forecast_low"] = json!("30 F");
    assert_eq!(told(question.clone())["beds"][0]["difference_c"], -2.22);
    question["forecast_low"] = Value::Null;
    question["evenings"] = evenings(10);
    question["wind"] = json!("windy");
    assert_eq!(fields_refused(question), ["dusk"]);
}

#[test]
fn without_any_low_it_is_refused_and_all_faults_are_told() {
    let mut all = fields_refused(json!({}));
    all.sort();
    assert_eq!(all, ["crops", "forecast_low", "sky", "wind"]);
    let faults =
        fields_refused(json!({ "sky": "clear", "wind": "still", "crops": [{ "crop": "tomato" }] }));
    assert_eq!(faults, ["forecast_low"]);
    let faults = fields_refused(
        json!({ "forecast_low": "90", "sky": "green", "crops": [{ "crop": "mango" }],
        "covers": [{ "cover": "umbrella" }, { "cover": "greenhouse" }], "colour": "red" }),
    );
    let mut sorted = faults.clone();
    sorted.sort();
    assert_eq!(
        sorted,
        [
            "colour",
            "covers.0.cover",
            "covers.1.cover",
            "crops.0.crop",
            "forecast_low",
            "sky",
            "wind"
        ]
    );
}

#[test]
fn senseless_readings_are_refused() {
    let with = |field: &str, value: Value| {
        let mut question = clear_night("34 F", &["tomato"]);
        question[field] = value;
        fields_refused(question)
    };
    assert_eq!(with("forecast_low", json!("900 F")), ["forecast_low"]);
    assert_eq!(
        with("dusk", json!({ "temperature": "5 C", "dew_point": "9 C" })),
        ["dusk.dew_point"]
    );
    assert_eq!(with("dusk", json!({ "humidity": "60 %" })), ["dusk.temperature"]);
    assert_eq!(
        with("dusk", json!({ "temperature": "5 C", "humidity": "160 %" })),
        ["dusk.humidity"]
    );
    assert_eq!(
        with("bed_nights", json!([{ "bed_low": "30 F", "sky": "clear" }])),
        ["bed_nights.0.reference_low"]
    );
    assert_eq!(with("forecast_made", json!("2026-10-01")), ["forecast_made"]);
    assert_eq!(with("leaf_height", json!("-3 in")), ["leaf_height"]);
    assert_eq!(with("crops", json!([])), ["crops"]);
    let mut old = clear_night("34 F", &["tomato"]);
    old["today"] = json!("2026-10-20");
    old["forecast_made"] = json!("2026-10-02");
    assert_eq!(fields_refused(old), ["forecast_made"]);
}

#[test]
fn several_beds_are_answered_in_order_of_what_a_cover_saves() {
    let nights = |bed: &str| {
        let one = json!({ "forecast_low": "40 F", "bed_low": bed, "sky": "clear" });
        vec![one; 5]
    };
    let answer = told(json!({
        "forecast_low": "36 F", "sky": "clear", "wind": "light",
        "covers": [{ "cover": "row cover", "count": 1 }],
        "beds": [
            { "bed": "By the wall", "bed_nights": nights("38 F"), "crops": [{ "crop": "tomato" }] },
            { "bed": "Low bed", "bed_nights": nights("36 F"), "crops": [{ "crop": "tomato" }] },
            { "bed": "Winter bed", "crops": [{ "crop": "kale" }, { "crop": "leek" }] },
        ],
    }));
    assert_eq!(answer["headline"], "Cover tonight: Low bed. No cover is left for By the wall");
    let cover_as: Vec<&Value> = (0..3).map(|bed| &answer["beds"][bed]["cover_as"]).collect();
    assert_eq!(cover_as, [&Value::Null, &json!(1), &Value::Null]);
    assert_eq!(answer["beds"][1]["cover"], "fabric-light");
}

#[test]
fn a_bold_gardener_covers_less() {
    let mut bold = Garden::default();
    let covered = |garden: &Garden| {
        let answer = told_of(garden, clear_night("38 F", &["tomato"])).unwrap();
        answer["cover"].clone()
    };
    assert_eq!(covered(&bold), json!(["tomato"]));
    bold.settings.nerve = Some(50);
    assert_eq!(covered(&bold), json!([]));
}

/// A record: a bed with beans, a chopped mat on it, three clear nights beside the spot in the open.
fn garden() -> Garden {
    const DAY: u32 = 1440;
    const EVENING: u32 = 20 * 60;
    const MORNING: u32 = 8 * 60;
    let mut entries = vec![
        (0, r#""kind":"bed","about":{"bed":"low"},"what":{"name":"Low bed","bed":{"length":"8 ft","width":"4 ft"}}"#.to_owned()),
        (1, r#""kind":"seeded","about":{"bed":"low"},"what":{"crop":"bean-snap-bush","count":40}"#.to_owned()),
        (2, r#""kind":"seeded","about":{"bed":"low"},"what":{"crop":"our own bean","count":4}"#.to_owned()),
        (3, r#""kind":"residue-laid","about":{"bed":"low"},"what":{"materials":[{"residue":"pea-vines"}]}"#.to_owned()),
        (4, r#""kind":"start-sown","what":{"crop":"cabbage","count":24,"spot":"unheated-greenhouse"}"#.to_owned()),
    ];
    for day in 1..4 {
        entries.push((
            day * DAY + EVENING,
            r#""kind":"reading","what":{"spot":"outdoors","forecast_low":"40 F","sky":"clear","wind":"still"}"#.to_owned(),
        ));
        entries.push((
            (day + 1) * DAY + MORNING,
            r#""kind":"reading","what":{"spot":"outdoors","low":"38 F"}"#.to_owned(),
        ));
        for minute in [MORNING, MORNING + 60] {
            // Read twice, at dawn and an hour later: one night all the same.
            entries.push((
                (day + 1) * DAY + minute,
                r#""kind":"reading","about":{"bed":"low"},"what":{"low":"32 F"}"#.to_owned(),
            ));
        }
    }
    let mut journal = Journal::default();
    for (id, (minute, rest)) in entries.iter().enumerate() {
        journal.add(&entry_text(id as u128 + 1, *minute, rest));
    }
    Garden::fold(&journal)
}

#[test]
fn the_record_brings_beds_crops_and_nights() {
    let question =
        json!({ "today": "2026-03-06", "forecast_low": "38 F", "sky": "clear", "wind": "still" });
    let answer = told_of(&garden(), question).unwrap();
    let low = &answer["beds"][0];
    assert_eq!(low["bed"], "Low bed");
    assert_eq!(low["nights"], 3);
    assert_eq!(answer["headline"], "Cover tonight: Low bed");
    assert_eq!(answer["cover"], json!(["bean-snap-bush"]));
    assert!(answer["look_for"].to_string().contains("not known here: our own bean in Low bed"));
    // The trays under glass are a place of their own, with nothing known of it yet.
    assert_eq!(answer["beds"][1]["bed"], "Greenhouse");
    assert_eq!(
        (&answer["beds"][1]["difference_c"], &answer["beds"][1]["nights"]),
        (&json!(0.0), &json!(0))
    );
    let next = answer["next"].as_array().unwrap();
    assert_eq!(next[0]["kind"], "covered");
    assert_eq!(next[0]["about"]["bed"], "low");
    assert_eq!(next[1]["what"]["forecast_low"], "38 F");
    // Named alone, it is the same bed.
    let alone = json!({ "today": "2026-03-06", "forecast_low": "38 F", "sky": "clear", "wind": "still", "bed": "low bed" });
    assert_eq!(told_of(&garden(), alone).unwrap()["beds"][0], *low);
}

#[test]
fn what_was_read_under_a_cover_teaches_nothing_of_the_bare_bed() {
    let mut journal = Journal::default();
    for (id, (minute, rest)) in [
        (0, r#""kind":"bed","about":{"bed":"low"},"what":{"name":"Low bed","bed":{"length":"8 ft","width":"4 ft"}}"#),
        (1, r#""kind":"seeded","about":{"bed":"low"},"what":{"crop":"bean-snap-bush"}"#),
        (1440 + 1000, r#""kind":"covered","about":{"bed":"low"},"what":{"cover":"fabric-heavy"}"#),
        (2 * 1440 + 400, r#""kind":"reading","what":{"spot":"outdoors","low":"30 F","sky":"clear"}"#),
        (2 * 1440 + 410, r#""kind":"reading","about":{"bed":"low"},"what":{"low":"33 F"}"#),
        (2 * 1440 + 600, r#""kind":"uncovered","about":{"bed":"low"},"what":{}"#),
        (3 * 1440 + 400, r#""kind":"reading","what":{"spot":"outdoors","low":"34 F","sky":"clear"}"#),
        (3 * 1440 + 410, r#""kind":"reading","about":{"bed":"low"},"what":{"low":"29 F"}"#),
    ]
    .iter()
    .enumerate()
    {
        journal.add(&entry_text(id as u128 + 1, *minute, rest));
    }
    let question = json!({ "forecast_low": "38 F", "sky": "clear", "wind": "still" });
    let answer = told_of(&Garden::fold(&journal), question).unwrap();
    assert_eq!(answer["beds"][0]["nights"], 1);
    assert!(answer["beds"][0]["difference_c"].as_f64() < Some(-2.2));
}

#[test]
fn every_draft_can_be_written() {
    let question = json!({ "topic": "frost-tonight", "today": "2026-03-06", "forecast_low": "30 F", "sky": "clear", "wind": "still" });
    let answer = ask(&question, &garden()).unwrap();
    assert!(!answer.telling.next.is_empty());
    for draft in answer.telling.next {
        assert_eq!(draft.check(), []);
    }
}

const CROPS: &[&str] =
    &["tomato", "kale", "lettuce-leaf", "basil", "cabbage", "zinnia", "broccoli", "garlic"];

proptest! {
    // Each case looks crops up by name, which is slow where nothing is optimised.
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn chances_are_chances_and_a_cover_never_does_harm(
        forecast in -10..60i32, sky in prop::sample::select(vec!["clear", "part", "cloudy"]),
        wind in prop::sample::select(vec!["still", "light", "windy"]), crop in 0..CROPS.len(), hardened: bool,
        cover in prop::sample::select(vec!["sheet", "fabric-heavy", "plastic-tunnel", "fabric-and-plastic"]),
    ) {
        let question = json!({
            "forecast_low": format!("{forecast} F"), "sky": sky, "wind": wind,
            "crops": [{ "crop": CROPS[crop], "hardened": hardened }], "covers": [{ "cover": cover }],
        });
        let answer = told(question.clone());
        let (bare, covered) = (answer["harm"][CROPS[crop]].as_f64().unwrap(), answer["with_cover"][CROPS[crop]].as_f64().unwrap());
        prop_assert!((0.0..=1.0).contains(&bare) && (0.0..=bare).contains(&covered));
        // Colder by a degree is never safer.
        let mut colder = question;
        colder["forecast_low"] = json!(format!("{} F", forecast - 1));
        prop_assert!(told(colder)["harm"][CROPS[crop]].as_f64().unwrap() >= bare);
    }

    #[test]
    fn no_text_anywhere_is_worse_than_a_refusal(text in ".{0,40}", field in prop::sample::select(vec![
        "forecast_low", "forecast_made", "sky", "wind", "dusk", "evenings", "bed_nights", "covers", "crops", "beds",
        "leaf_height", "residue_on_top", "bed", "site", "afternoon",
    ])) {
        let mut question = clear_night("34 F", &["tomato"]);
        question[field] = json!(text);
        question["topic"] = json!("frost-tonight");
        if let Err(refusal) = ask(&question, &Garden::default()) {
            prop_assert!(!refusal.refused.is_empty());
        }
    }
}

/// Words that the people's language here avoids.
#[test]
fn the_words_are_plain() {
    for question in
        [clear_night("36 F", CROPS), clear_night("20 F", CROPS), clear_night("45 F", CROPS)]
    {
        let answer = told(question);
        let words =
            [&answer["headline"], &answer["because"], &answer["look_for"], &answer["cautions"]];
        let text = words.map(Value::to_string).join(" ").to_lowercase();
        for word in
            ["odds", "ledger", "banked", "gate", "bound", "proved", "on hand", "apart", "sigma"]
        {
            assert!(
                !text
                    .split(|c: char| !c.is_alphabetic() && c != ' ')
                    .any(|part| part.split(' ').any(|one| one == word)),
                "{word}: {text}"
            );
        }
        assert!(answer["because"].as_array().unwrap().len() <= 4);
        println!("{}", serde_json::to_string_pretty(&answer).unwrap());
    }
}
