//! The harvest topics as they are asked at the door.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::{
    ask::ask,
    catalogue::crop,
    garden::Garden,
    harvest::cues::{Sheet, sheets},
    journal::{Draft, Journal, Ulid},
};

fn told(question: &Value) -> Value {
    told_of(question, &Garden::default())
}

fn told_of(question: &Value, garden: &Garden) -> Value {
    match ask(question, garden) {
        Ok(answer) => serde_json::to_value(answer).unwrap(),
        Err(refusal) => panic!("{question}: {refusal:?}"),
    }
}

fn refused(question: &Value) -> Vec<String> {
    let refusal = ask(question, &Garden::default())
        .err()
        .unwrap_or_else(|| panic!("{question} was answered"));
    refusal.refused.iter().map(|fault| fault.field.clone()).collect()
}

/// A question about one, on a summer day.
fn readiness(crop: &str, cues: &[&str]) -> Value {
    json!({"topic": "harvest-readiness", "today": "2026-07-10", "crop": crop, "cues": cues})
}

fn purpose(sheet: &Sheet) -> Value {
    sheet.used_as().map_or(Value::Null, Value::from)
}

/// Every string of a JSON value.
fn strings(value: &Value) -> Vec<&str> {
    match value {
        Value::String(text) => vec![text],
        Value::Array(items) => items.iter().flat_map(strings).collect(),
        Value::Object(fields) => fields.values().flat_map(strings).collect(),
        _ => Vec::new(),
    }
}

/// What a person reads of an answer.
fn words(answer: &Value) -> Vec<&str> {
    ["headline", "because", "look_for", "cautions"]
        .iter()
        .flat_map(|field| strings(&answer[*field]))
        .collect()
}

fn garden(entries: &[(u128, &str, &str)]) -> Garden {
    let mut journal = Journal::default();
    for (id, when, rest) in entries {
        let id = Ulid(*id).to_string();
        journal.add(&format!(r#"{{"v":1,"id":"{id}","when":"{when}",{rest}}}"#));
    }
    Garden::fold(&journal)
}

const BED: &str = r#""kind":"bed","about":{"bed":"fence"},"what":{"name":"Fence bed","bed":{"length":"8 ft","width":"4 ft"}}"#;
const PLACE: &str = r#""kind":"place","what":{"latitude":"42","coldest":{"low":"18 F","high":"35 F"},"hottest":{"low":"62 F","high":"84 F"}}"#;

fn seeded(crop: &str) -> String {
    format!(
        r#""kind":"seeded","about":{{"bed":"fence"}},"what":{{"crop":"{crop}","variety":"Ours"}}"#
    )
}

fn picked(crop: &str) -> String {
    format!(r#""kind":"harvest","about":{{"bed":"fence"}},"what":{{"crop":"{crop}"}}"#)
}

const CLEARED: &str = r#""kind":"cleared","about":{"bed":"fence"},"what":{}"#;

#[test]
fn no_signs_give_no_verdict_for_any_crop() {
    for sheet in sheets() {
        for id in sheet.crops() {
            let mut question = readiness(id, &[]);
            question["purpose"] = purpose(sheet);
            let answer = told(&question);
            assert_eq!(answer["stage"], Value::Null, "{id}");
            assert_eq!(answer["allowed"].as_array().unwrap().len(), 4);
            assert_eq!(answer["sure"], "low");
        }
    }
}

#[test]
fn every_sign_of_every_sheet_is_told_in_plain_words() {
    // Words that belong to the workshop, not to the bed.
    const BANNED: [&str; 14] = [
        "on hand",
        "apart",
        "standing",
        "worked in",
        "proved",
        "bound",
        " gate",
        "ledger",
        "banked",
        "mineral n",
        "odds of harm",
        "struck out",
        "??",
        "?.",
    ];
    for sheet in sheets() {
        let id = sheet.crops().next().unwrap();
        let cues = told(&json!({"topic": "harvest-cues", "crop": id, "purpose": purpose(sheet)}));
        for cue in cues["cues"].as_array().unwrap() {
            let mut question = readiness(id, &[cue["id"].as_str().unwrap()]);
            question["purpose"] = purpose(sheet);
            let answer = told(&question);
            assert_eq!(answer["stage"], cue["stage"], "{id} {}", cue["id"]);
            assert_eq!(answer["allowed"], cue["allowed"], "{id} {}", cue["id"]);
            assert_eq!(answer["stops"].as_array().unwrap().is_empty(), cue["stop"] == false);
            assert!(answer["because"].as_array().unwrap().len() <= 4, "{answer}");
            let headline = answer["headline"].as_str().unwrap();
            assert!((4..=70).contains(&headline.chars().count()), "{headline}");
            assert!(!answer["sources"].as_array().unwrap().is_empty());
            for text in words(&answer) {
                let small = text.to_lowercase();
                for banned in BANNED {
                    assert!(!small.contains(banned), "{text}");
                }
            }
        }
    }
}

#[test]
fn stops_come_first_and_leave_no_other_advice() {
    let answer = told(&readiness("zucchini", &["glossy", "nail-cuts", "bitter"]));
    assert_eq!(answer["headline"], "Do not eat it");
    assert_eq!((&answer["stage"], &answer["allowed"]), (&Value::Null, &json!([])));
    assert_eq!(answer["good_for"], json!([]));
    assert_eq!(answer["look_again"], Value::Null);
    assert!(answer["because"][1].as_str().unwrap().starts_with("When in doubt, don't eat it"));
    let tomato = told(&readiness("tomato", &["nearly-all", "frost-killed-vine"]));
    assert!(tomato["stops"][0].as_str().unwrap().contains("Not for home canning"));
}

#[test]
fn what_can_hurt_is_cautioned_where_it_is_asked_about() {
    for (crop, purpose, caution) in [
        ("bush bean", "dry", "slow cooker"),
        ("bush bean", "shell", "boil 30 minutes"),
        ("garlic", "", "botulism"),
        ("potato", "store", "green"),
        ("broad bean", "", "G6PD"),
        ("parsnip", "", "sap"),
        ("tomato", "", "living vines"),
        ("rhubarb", "", "poisonous"),
        ("spinach", "", "nitrate"),
    ] {
        let question = json!({"topic": "harvest-cues", "crop": crop, "purpose": purpose});
        let answer = told(&question);
        let cautions = strings(&answer["cautions"]).join(" ").to_lowercase();
        assert!(cautions.contains(&caution.to_lowercase()), "{crop}: {cautions}");
    }
}

#[test]
fn a_bed_is_told_by_counts_and_the_way_to_pick_it() {
    let answer = told(&json!({
        "topic": "harvest-readiness", "today": "2026-07-10", "crop": "bush bean",
        "samples": [{"cues": ["snaps-clean"], "count": 5}, {"cues": ["spongy"], "count": "3"}],
        "next_visit": "2026-07-17",
    }));
    assert_eq!(answer["stage"], "prime");
    assert_eq!(answer["tally"], json!({"not-yet": 0, "prime": 5, "going": 0, "past": 3}));
    assert_eq!(answer["headline"], "Pick today, the small ones too");
    assert!(answer["because"][1].as_str().unwrap().contains("5 at their prime and 3 past"));
    assert_eq!(answer["late_by_next_visit"], true);
}

#[test]
fn what_is_judged_by_age_alone_is_told_to_be_looked_at() {
    let answer = told(&json!({
        "topic": "harvest-readiness", "today": "2026-07-25", "crop": "bush bean", "sown": "2026-05-20",
    }));
    assert_eq!((&answer["decisive"], &answer["sure"]), (&json!(["days"]), &json!("low")));
    assert!(answer["headline"].as_str().unwrap().starts_with("Old enough to be ready"));
    let seen = told(&json!({
        "topic": "harvest-readiness", "today": "2026-07-25", "crop": "bush bean", "sown": "2026-05-20",
        "cues": ["bends-thin"],
    }));
    assert_eq!(seen["stage"], "not-yet");
}

#[test]
fn the_record_fills_in_dates_and_takes_the_picking() {
    let bean = seeded("bean-snap-bush");
    let garden = garden(&[(1, "2026-05-01T08:00", BED), (2, "2026-05-20T08:00", &bean)]);
    let answer = told_of(&readiness("bush bean", &["snaps-clean"]), &garden);
    let next = answer["next"].as_array().unwrap();
    // The picking, or the look alone.
    assert_eq!(next.len(), 2);
    assert_eq!(next[1]["kind"], "check-in");
    for draft in next {
        let draft = Draft::read(&draft.to_string()).unwrap();
        assert!(draft.check().is_empty());
    }
    assert_eq!(
        next[0]["what"],
        json!({"crop": "bean-snap-bush", "variety": "Ours", "stage": "prime"})
    );
    let by_age = told_of(&readiness("bush bean", &[]), &garden);
    assert_eq!(by_age["decisive"], json!(["days"]));
    assert_eq!(
        refused(&json!({"topic": "harvest-readiness", "crop": "kale", "bed": "nowhere"})),
        ["bed"]
    );
}

#[test]
fn a_planting_tells_its_crop_and_its_bed() {
    let bean = seeded("bean-snap-bush");
    let garden = garden(&[
        (1, "2026-05-01T08:00", BED),
        (2, "2026-05-20T08:00", &bean),
        (3, "2026-06-20T08:00", &bean),
    ]);
    let asked = |planting: u128| {
        json!({
            "topic": "harvest-readiness", "today": "2026-07-22",
            "planting": Ulid(planting).to_string(),
        })
    };
    // The older sowing is old enough, the younger is not.
    assert_eq!(told_of(&asked(2), &garden)["stage"], "prime");
    assert_eq!(told_of(&asked(3), &garden)["stage"], "not-yet");
    let about = &told_of(&asked(2), &garden)["next"][0]["about"];
    assert_eq!(about["planting"], Ulid(2).to_string());
    let mut other = asked(2);
    other["crop"] = json!("kale");
    assert!(ask(&other, &garden).is_err());
    assert_eq!(refused(&asked(9)), ["planting", "crop"]);
}

#[test]
fn one_looked_at_closely_and_others_counted_make_one_sample() {
    let question = json!({
        "topic": "harvest-readiness", "today": "2026-07-10", "crop": "bush bean", "cues": ["snaps-clean"],
        "counted": [{"cue": "snaps-clean", "count": 4}, {"cue": "spongy", "count": "3"},
                    {"cue": "bends-thin", "count": "0"}, {"cue": "bends-tough"}],
    });
    let answer = told(&question);
    assert_eq!(answer["tally"], json!({"not-yet": 0, "prime": 5, "going": 0, "past": 3}));
    let because = strings(&answer["because"]);
    assert!(because[1].starts_with("Of 8 pods looked at: 5 at their prime and 3 past."));
    assert_eq!(
        because[2],
        "Pick those at their prime and take the past ones off, so that others come."
    );
    assert_eq!(
        refused(&json!({
            "topic": "harvest-readiness", "crop": "bush bean",
            "counted": [{"cue": "purple", "count": 1}, {"count": 2}, {"cue": "spongy", "count": "few"}],
        })),
        ["counted.0.cue", "counted.1.cue", "counted.2.count"]
    );
}

#[test]
fn what_a_sample_showed_is_written_with_the_picking() {
    let bean = seeded("bean-snap-bush");
    let garden = garden(&[(1, "2026-05-01T08:00", BED), (2, "2026-05-20T08:00", &bean)]);
    let mut question = readiness("bush bean", &[]);
    question["counted"] =
        json!([{"cue": "snaps-clean", "count": 5}, {"cue": "spongy", "count": 3}]);
    let answer = told_of(&question, &garden);
    assert_eq!(answer["next"][0]["what"]["stage"], "5 prime, 3 past");
}

#[test]
fn a_small_tight_broccoli_head_is_left_to_grow() {
    let question = |width: &str| {
        json!({ "topic": "harvest-readiness", "today": "2026-06-01", "crop": "broccoli",
            "cues": ["buds-shut"], "measures": { "width": width } })
    };
    assert_eq!(told(&question("2 in"))["stage"], "not-yet");
    assert_eq!(told(&question("4 in"))["stage"], "prime");
}

#[test]
fn two_answers_that_exclude_each_other_clash() {
    for (crop, one, other) in [
        ("bean-snap-bush", "snaps-clean", "spongy"),
        ("bean-snap-bush", "smooth", "bulges"),
        ("bean-snap-bush", "no-seeds", "seeds-half"),
        ("broccoli", "beads-hard", "yellow-petals"),
    ] {
        if (one, other) == ("smooth", "bulges") {
            // A smooth pod may be ripe, a bulging one going: at least these two are never one pod's.
            continue;
        }
        let answer = told(&readiness(crop, &[one, other]));
        assert_eq!(answer["clash"], json!([one, other]), "{crop}");
        assert_eq!(answer["stage"], serde_json::Value::Null);
    }
}

#[test]
fn a_pumpkin_keeps_two_to_three_months_and_a_squash_longer() {
    let keeps = |crop: &str| told(&readiness(crop, &["nail-fails", "stem-corky"]))["keeps"].clone();
    let pumpkin = keeps("pumpkin");
    assert_eq!(pumpkin.as_array().unwrap().len(), 1, "{pumpkin}");
    assert_eq!(pumpkin[0]["days"], json!([60, 90]));
    assert_eq!(keeps("squash-winter")[0]["days"], json!([168, 182]));
}

#[test]
fn the_gardeners_own_pickings_set_the_next_look() {
    let bean = seeded("bean-snap-bush");
    let pick = picked("bean-snap-bush");
    let garden = garden(&[
        (1, "2026-05-01T08:00", PLACE),
        (2, "2026-05-01T08:00", BED),
        (3, "2026-05-20T08:00", &bean),
        (4, "2026-07-10T08:00", &pick),
        (5, "2026-07-15T08:00", &pick),
        (6, "2026-07-20T08:00", &pick),
    ]);
    let question = json!({"topic": "harvest-readiness", "today": "2026-07-20", "crop": "bush bean", "cues": ["snaps-clean"]});
    let answer = told_of(&question, &garden);
    assert_eq!(answer["look_again"]["likely"], "2026-07-25");
    assert!(strings(&answer["because"]).iter().any(|line| line.contains("your own pace")));
}

#[test]
fn two_earlier_seasons_replace_the_published_sum_of_heat() {
    let bean = seeded("bean-snap-bush");
    let pick = picked("bean-snap-bush");
    // A quick variety: picked after some forty days in both years.
    let entries = [
        (1, "2024-05-01T08:00", PLACE),
        (2, "2024-05-01T08:00", BED),
        (3, "2024-06-01T08:00", bean.as_str()),
        (4, "2024-07-12T08:00", pick.as_str()),
        (5, "2024-09-01T08:00", CLEARED),
        (6, "2025-06-01T08:00", bean.as_str()),
        (7, "2025-07-11T08:00", pick.as_str()),
        (8, "2025-09-01T08:00", CLEARED),
        (9, "2026-06-01T08:00", bean.as_str()),
    ];
    let question =
        json!({"topic": "harvest-readiness", "today": "2026-07-11", "crop": "bush bean"});
    let own = told_of(&question, &garden(&entries));
    assert_eq!((&own["decisive"], &own["stage"]), (&json!(["heat"]), &json!("prime")));
    assert!(own["because"][0].as_str().unwrap().contains("your own earlier seasons"), "{own}");
    assert_eq!(own["heat"]["own"], true);
    assert!(own["heat"]["words"].as_str().unwrap().contains("by your own earlier seasons"));
    let first_season = told_of(&question, &garden(&[entries[0], entries[1], entries[8]]));
    let heat = &first_season["heat"];
    assert_eq!(heat["own"], false);
    // 800 and 1,160 Fahrenheit-days.
    assert_eq!((&heat["least_c_days"], &heat["most_c_days"]), (&json!(444.4), &json!(644.4)));
    assert!(heat["words"].as_str().unwrap().contains("as published"));
    assert!(!first_season["because"][0].as_str().unwrap().contains("your own"));
}

#[test]
fn all_faults_are_named_at_once() {
    let fields = refused(&json!({
        "topic": "harvest-readiness", "today": "2026-07-10", "crop": "quux", "sown": "2027-01-01",
        "next_visit": "2026-01-01", "measures": {"width": "wide"}, "colour": "red",
    }));
    assert_eq!(fields, ["colour", "sown", "next_visit", "crop"]);
    let fields = refused(&json!({
        "topic": "harvest-readiness", "today": "2026-07-10", "crop": "cabbage", "cues": ["purple", "solid"],
        "measures": {"width": "wide", "brix": 11}, "samples": [{"cues": ["blue"], "count": 0}],
        "transplanted": "2026-13-01", "flowered": "soon",
    }));
    for field in [
        "cues",
        "cues.0",
        "measures.width",
        "measures.brix",
        "samples.0.cues.0",
        "samples.0.count",
        "transplanted",
        "flowered",
    ] {
        assert!(fields.iter().any(|found| found == field), "{field} in {fields:?}");
    }
    assert_eq!(
        refused(&json!({"topic": "harvest-readiness", "crop": "okra", "flowered": "2026-07-01"})),
        ["today"]
    );
    assert_eq!(
        refused(&json!({"topic": "harvest-cues", "crop": "pea", "purpose": "popcorn"})),
        ["purpose"]
    );
    assert_eq!(refused(&json!({"topic": "harvest-cues", "crop": "rye"})), ["crop"]);
    assert_eq!(refused(&json!({"topic": "harvest-cues"})), ["crop"]);
}

#[test]
fn a_use_can_be_named_with_the_crop() {
    for (crop, purpose) in [
        ("snow pea", "snow"),
        ("pickling cucumber", "pickling"),
        ("dry bean", "dry"),
        ("pea", "shelling"),
        ("green beans", "snap"),
    ] {
        let answer = told(&json!({"topic": "harvest-cues", "crop": crop}));
        assert_eq!(answer["purpose"], purpose, "{crop}");
    }
}

#[test]
fn signs_seen_are_not_asked_again() {
    let answer =
        told(&json!({"topic": "harvest-cues", "crop": "bush bean", "cues": ["snaps-clean"]}));
    let ids: Vec<&str> =
        answer["cues"].as_array().unwrap().iter().filter_map(|cue| cue["id"].as_str()).collect();
    assert!(!ids.contains(&"spongy") && ids.contains(&"seeds-quarter"));
}

#[test]
fn salt_is_told_by_weight_and_whole_vegetables_need_their_water() {
    let salt = |question: Value| told(&question)["salt_g"].clone();
    assert_eq!(
        salt(
            json!({"topic": "salt-for-fermenting", "vegetable": "cabbage", "vegetable_mass": "1 kg"})
        ),
        22.5
    );
    assert_eq!(
        salt(
            json!({"topic": "salt-for-fermenting", "vegetable": "Cabbage", "vegetable_mass": "25 lb", "percent": "2.5 %"})
        ),
        283.5
    );
    assert_eq!(
        salt(
            json!({"topic": "salt-for-fermenting", "vegetable": "whole cucumbers", "vegetable_mass_kg": 1, "water_mass_kg": 1})
        ),
        80.0
    );
    let whole =
        json!({"topic": "salt-for-fermenting", "vegetable": "cucumbers", "vegetable_mass": "1 kg"});
    assert_eq!(refused(&whole), ["water_mass"]);
    let nothing = json!({"topic": "salt-for-fermenting", "vegetable_mass": "0 g", "percent": 90});
    assert_eq!(refused(&nothing), ["vegetable", "vegetable_mass", "percent"]);
    let weak = told(
        &json!({"topic": "salt-for-fermenting", "vegetable": "cabbage", "vegetable_mass": "1 kg", "percent": 1}),
    );
    assert_eq!((&weak["usual"], &weak["salt_g"]), (&json!(false), &json!(10.0)));
    assert!(strings(&weak["cautions"])[0].contains("not safe"));
}

#[test]
fn before_going_away_what_hurries_is_picked_and_the_rest_waits() {
    let answer = told(&json!({
        "topic": "harvest-before-away", "today": "2026-07-10", "back_on": "2026-07-17",
        "plants": [{"crop": "cabbage"}, {"crop": "okra"}, {"crop": "zucchini", "stage": "past"}, {"crop": "leek"}],
    }));
    let crops = |list: &Value| -> Vec<String> {
        list.as_array()
            .unwrap()
            .iter()
            .map(|row| row["crop"].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(crops(&answer["take"]), ["okra", "squash-summer"]);
    assert_eq!(crops(&answer["wait"]), ["cabbage", "leek"]);
    let tomorrow = told(&json!({
        "topic": "harvest-before-away", "today": "2026-07-10", "back_on": "2026-07-11", "plants": [{"crop": "bush bean"}],
    }));
    assert_eq!(crops(&tomorrow["take"]), Vec::<String>::new());
    let frost = told(&json!({
        "topic": "harvest-before-away", "today": "2026-10-01", "back_on": "2026-10-08", "frost": "2026-10-03",
        "plants": [{"crop": "winter squash"}, {"crop": "kale"}],
    }));
    assert_eq!(
        (crops(&frost["take"]), crops(&frost["wait"])),
        (vec!["squash-winter".to_owned()], vec!["kale".to_owned()])
    );
}

#[test]
fn before_going_away_the_record_tells_what_grows() {
    let (bean, kale) = (seeded("bean-snap-bush"), seeded("kale"));
    let garden = garden(&[
        (1, "2026-05-01T08:00", BED),
        (2, "2026-05-10T08:00", &bean),
        (3, "2026-07-01T08:00", &seeded("okra")),
        (4, "2026-05-10T08:00", &kale),
    ]);
    let answer = told_of(
        &json!({"topic": "harvest-before-away", "today": "2026-07-10", "back_on": "2026-07-17"}),
        &garden,
    );
    assert_eq!(answer["take"][0]["crop"], "bean-snap-bush");
    assert_eq!(answer["take"][0]["bed"], "fence");
    assert_eq!(answer["take"][0]["planting"], Ulid(2).to_string());
    assert_eq!(answer["take"][0]["name"], "Bush bean in Fence bed");
    let in_days = told_of(
        &json!({"topic": "harvest-before-away", "today": "2026-07-10", "back_in": "7"}),
        &garden,
    );
    assert_eq!(in_days, answer);
    // Okra sown nine days ago bears nothing yet.
    assert!(
        !strings(&answer["take"]).contains(&"okra") && !strings(&answer["wait"]).contains(&"okra")
    );
}

#[test]
fn every_sign_is_in_the_catalogues_list() {
    let rows = crate::topics::harvest_cues::rows();
    let listed = told(&json!({"topic": "catalogue", "kind": "cue"}));
    assert_eq!(listed["rows"].as_array().unwrap().len(), rows.len());
    assert_eq!(listed["rows"][0]["id"], rows[0].cue.id);
    let signs: usize = sheets()
        .iter()
        .map(|sheet| {
            sheet.stops().len()
                + sheet.questions().iter().map(|question| question.signs().len()).sum::<usize>()
        })
        .sum();
    assert_eq!(rows.len(), signs);
    for row in rows {
        assert!(row.crops.iter().all(|id| crop(id).is_ok()));
        assert!(!row.sources.is_empty(), "{}", row.cue.id);
    }
}

proptest! {
    #[test]
    fn any_signs_and_sizes_get_an_honest_answer(
        sheet in any::<prop::sample::Index>(),
        picks in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 0..5),
        width in prop::option::of(0.0..12.0f64),
        days in prop::option::of(0..150_i64),
        stop in any::<bool>(),
    ) {
        let sheet = &sheets()[sheet.index(sheets().len())];
        let mut cues: Vec<&str> = Vec::new();
        for (question, sign) in picks {
            let signs = sheet.questions()[question.index(sheet.questions().len())].signs();
            cues.push(signs[sign.index(signs.len())].id());
        }
        let stop = if stop { sheet.stops().first() } else { None };
        cues.extend(stop.map(|stop| stop.id()));
        let mut question = readiness(sheet.crops().next().unwrap(), &cues);
        question["purpose"] = purpose(sheet);
        if let Some(width) = width {
            question["measures"] = json!({"width": format!("{width} in")});
        }
        if let Some(days) = days {
            let today: chrono::NaiveDate = "2026-07-10".parse().unwrap();
            question["flowered"] = json!((today - chrono::TimeDelta::days(days)).to_string());
        }
        let answer = told(&question);
        let allowed = answer["allowed"].as_array().unwrap();
        match &answer["stage"] {
            Value::Null => {
                let nothing = cues.is_empty() && (width.is_none() || sheet.sizes().is_empty());
                prop_assert!(stop.is_some() || answer["clash"] != Value::Null || nothing || allowed.len() == 4);
            }
            stage => {
                prop_assert!(stop.is_none() && answer["clash"] == Value::Null);
                prop_assert!(allowed.contains(stage));
                prop_assert!(!answer["decisive"].as_array().unwrap().is_empty());
            }
        }
        prop_assert_eq!(allowed.is_empty(), stop.is_some());
        for text in words(&answer) {
            prop_assert!(!text.contains("  ") && !text.contains("{}") && !text.is_empty(), "{}", text);
        }
    }

    #[test]
    fn a_worse_answer_to_one_question_never_improves_the_verdict(
        sheet in any::<prop::sample::Index>(), which in any::<prop::sample::Index>(), better in any::<prop::sample::Index>(),
        worse in any::<prop::sample::Index>(), other in any::<prop::sample::Index>(),
    ) {
        let sheet = &sheets()[sheet.index(sheets().len())];
        let question = &sheet.questions()[which.index(sheet.questions().len())];
        let (better, worse) = (better.index(question.signs().len()), worse.index(question.signs().len()));
        let (better, worse) = (&question.signs()[better.min(worse)], &question.signs()[better.max(worse)]);
        // An answer of another weight brings or takes away certainty as well.
        prop_assume!(better.reads().weight == worse.reads().weight);
        let beside = sheet.questions()[other.index(sheet.questions().len())].signs();
        let beside = beside[other.index(beside.len())].id();
        let stage = |id: &str| {
            let mut asked = readiness(sheet.crops().next().unwrap(), &[id, beside]);
            asked["purpose"] = purpose(sheet);
            let order = ["not-yet", "prime", "going", "past"];
            let answer = told(&asked);
            order.iter().position(|word| answer["stage"] == *word)
        };
        if let (Some(before), Some(after)) = (stage(better.id()), stage(worse.id())) {
            prop_assert!(before <= after);
        }
    }

    #[test]
    fn any_text_in_any_field_is_answered_or_refused_by_name(
        topic in prop::sample::select(vec!["harvest-readiness", "harvest-cues", "salt-for-fermenting", "harvest-before-away"]),
        field in prop::sample::select(vec![
            "crop", "purpose", "cues", "measures", "samples", "sown", "flowered", "next_visit", "frost", "bed",
            "site", "vegetable", "vegetable_mass", "water_mass", "percent", "back_on", "plants", "today",
        ]),
        text in ".{0,40}", as_list in any::<bool>(),
    ) {
        let mut question = json!({
            "topic": topic, "today": "2026-07-10", "crop": "kale", "vegetable": "cabbage",
            "vegetable_mass": "1 kg", "back_on": "2026-07-12", "plants": [{"crop": "kale"}],
        });
        question[field] = if as_list { json!([text]) } else { json!(text) };
        if let Err(refusal) = ask(&question, &Garden::default()) {
            prop_assert!(!refusal.refused.is_empty());
            prop_assert!(refusal.refused.iter().all(|fault| !fault.allowed.is_empty() && !fault.why.is_empty()), "{:?}", refusal);
        }
    }
}
