//! Each kind appears when it should and not a day earlier.

use chrono::{NaiveDate, TimeDelta};
use proptest::prelude::*;

use super::{Answer, Asked, Due, answer};
use crate::{
    ask::{Asking, Topic},
    garden::Garden,
    given::Faults,
    journal::{Journal, Ulid, samples::any_journal},
    turns::{Pace, at_once},
};

fn garden(entries: &[(u32, &str)]) -> Garden {
    let mut journal = Journal::default();
    for (at, (days, rest)) in entries.iter().enumerate() {
        let (id, on) = (Ulid(at as u128 + 1), day(*days));
        journal.add(&format!(
            r#"{{"v":1,"id":"{id}","when":"{on}T08:00",{rest}}}"#
        ));
    }
    Garden::fold(&journal)
}

/// So many days after the first of March.
fn day(days: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 3, 1).unwrap() + TimeDelta::days(days.into())
}

fn asked_on(garden: &Garden, today: NaiveDate) -> (String, Answer) {
    let asking = Asking {
        garden,
        today: Some(today),
        system: garden.units(),
    };
    let mut faults = Faults::default();
    let asked = Asked::default();
    let told = at_once(async |pace: &Pace| answer(&asked, &asking, &mut faults, pace).await);
    let (telling, answer) = told.unwrap();
    assert!(
        answer
            .due
            .iter()
            .all(|due| due.by <= today + TimeDelta::days(3))
    );
    for due in &answer.due {
        assert!(
            due.bed
                .as_deref()
                .is_none_or(|bed| garden.bed(bed).is_some())
        );
    }
    (telling.headline, answer)
}

fn due(garden: &Garden, days: u32, topic: Topic) -> Vec<Due> {
    let (_, answer) = asked_on(garden, day(days));
    answer
        .due
        .into_iter()
        .filter(|due| due.topic == topic)
        .collect()
}

const BED: &str = r#""kind":"bed","about":{"bed":"fence"},"what":{"name":"Fence bed","bed":{"length":"8 ft","width":"4 ft"}}"#;

const PLACE: &str = r#""kind":"place","what":{"latitude":45,"coldest":{"low":"30 F","high":"42 F"},"hottest":{"low":"55 F","high":"80 F"}}"#;

fn in_bed(rest: &str) -> String {
    format!(r#""about":{{"bed":"fence"}},{rest}"#)
}

#[test]
fn an_empty_record_says_how_to_begin() {
    let (headline, answer) = asked_on(&Garden::default(), day(0));
    assert_eq!(headline, "Nothing is known of your garden yet");
    assert!(answer.due.is_empty());
    let bed = garden(&[(0, BED)]);
    assert_eq!(asked_on(&bed, day(1)).0, "Nothing to decide today");
}

#[test]
fn what_was_noted_for_a_day_is_due_until_it_is_done() {
    let on = day(30);
    let note = in_bed(&format!(
        r#""kind":"note","what":{{"text":"{on}: See how the mulched half did."}}"#
    ));
    let noted = garden(&[(0, BED), (1, &note)]);
    assert!(due(&noted, 26, Topic::Today).is_empty());
    assert_eq!(
        asked_on(&noted, day(28)).0,
        format!(
            "Nothing to decide before {}",
            crate::telling::day(on, Some(day(28)))
        )
    );
    for days in [30, 300] {
        let due = due(&noted, days, Topic::Today);
        assert_eq!(due[0].what, "See how the mulched half did.");
        assert_eq!((due[0].by, due[0].bed.as_deref()), (on, Some("fence")));
    }
    assert_eq!(asked_on(&noted, day(30)).0, "1 thing to decide today");
}

#[test]
fn a_crop_is_looked_at_when_its_kind_is_ready_and_then_at_its_own_rhythm() {
    let planted = in_bed(r#""kind":"seeded","what":{"crop":"bean-snap-bush"}"#);
    let up = format!(
        r#""about":{{"planting":"{}"}},"kind":"check-in","what":{{"up":1}}"#,
        Ulid(2)
    );
    let mut entries = vec![(0, BED), (1, planted.as_str()), (12, up.as_str())];
    // 50 to 60 days (Britannica; the catalogue's row), from the day of sowing.
    let beans = garden(&entries);
    assert!(due(&beans, 47, Topic::HarvestReadiness).is_empty());
    let due_now = due(&beans, 51, Topic::HarvestReadiness);
    assert_eq!(due_now[0].what, "Look at the bush bean in Fence bed");
    assert_eq!(due_now[0].by, day(51));
    assert!(
        due_now[0].why.contains("its kind takes 50 to 60"),
        "{}",
        due_now[0].why
    );
    let picked = in_bed(r#""kind":"harvest","what":{"crop":"bean-snap-bush"}"#);
    entries.push((52, picked.as_str()));
    // Every two to three days.
    let beans = garden(&entries);
    assert_eq!(due(&beans, 52, Topic::HarvestReadiness)[0].by, day(55));
    let all = in_bed(r#""kind":"harvest","what":{"crop":"bean-snap-bush","all":true}"#);
    entries.push((56, all.as_str()));
    assert!(due(&garden(&entries), 60, Topic::HarvestReadiness).is_empty());
}

#[test]
fn seed_is_looked_for_until_it_was_seen() {
    let sown = in_bed(r#""kind":"seeded","what":{"crop":"pea"}"#);
    let mut entries = vec![(0, BED), (1, sown.as_str()), (1, PLACE)];
    let peas = garden(&entries);
    let late = (2..50).find(|days| !due(&peas, *days, Topic::Emergence).is_empty());
    assert!(late.is_some_and(|days| 5 < days), "{late:?}");
    let up = format!(
        r#""about":{{"planting":"{}"}},"kind":"check-in","what":{{"up":0.9}}"#,
        Ulid(2)
    );
    entries.push((9, up.as_str()));
    let seen = garden(&entries);
    assert!((9..60).all(|days| due(&seen, days, Topic::Emergence).is_empty()));
}

#[test]
fn a_covered_bed_is_looked_at_and_then_free() {
    let laid = in_bed(
        r#""kind":"residue-laid","what":{"materials":[{"residue":"pea-vines","amount":"20 lb"}],"placement":"worked-in"}"#,
    );
    let soil = in_bed(r#""kind":"reading","what":{"soil":"65 F","depth":"4 in"}"#);
    let bed = garden(&[(0, BED), (1, &laid), (1, &soil)]);
    let told: Vec<String> = (2..90)
        .flat_map(|days| due(&bed, days, Topic::ResidueWait))
        .map(|due| due.what)
        .collect();
    assert!(
        told.first()
            .is_some_and(|what| what == "Look at what lies on Fence bed"),
        "{told:?}"
    );
    assert!(
        told.last()
            .is_some_and(|what| what == "Fence bed can be planted")
    );
    let planted = in_bed(r#""kind":"planted","what":{"crop":"kale"}"#);
    let full = garden(&[(0, BED), (1, &laid), (1, &soil), (60, &planted)]);
    assert!(due(&full, 61, Topic::ResidueWait).is_empty());
}

#[test]
fn covers_are_lifted_the_day_after() {
    let covered = in_bed(r#""kind":"covered","what":{"cover":"sheet"}"#);
    let bed = garden(&[(0, BED), (3, &covered)]);
    assert!(due(&bed, 3, Topic::FrostTonight).is_empty());
    assert_eq!(
        due(&bed, 4, Topic::FrostTonight)[0].what,
        "Lift the covers on Fence bed"
    );
    let off = in_bed(r#""kind":"uncovered","what":{}"#);
    let bare = garden(&[(0, BED), (3, &covered), (4, &off)]);
    assert!(due(&bare, 5, Topic::FrostTonight).is_empty());
}

#[test]
fn the_night_comes_first_and_only_where_something_can_be_hurt() {
    let planted = in_bed(r#""kind":"planted","what":{"crop":"pepper"}"#);
    let on = day(1);
    let note = in_bed(&format!(
        r#""kind":"note","what":{{"text":"{on}: Turn the heap."}}"#
    ));
    let tender = garden(&[(0, BED), (0, PLACE), (1, &planted), (1, &note)]);
    let in_year = |garden: &Garden, month: u32| {
        let today = NaiveDate::from_ymd_opt(2027, month, 5).unwrap();
        asked_on(garden, today).1.due
    };
    let winter = in_year(&tender, 1);
    assert_eq!(winter[0].topic, Topic::FrostTonight);
    assert!(
        winter[0].why.starts_with("Pepper may want a cover"),
        "{}",
        winter[0].why
    );
    assert!(winter.iter().any(|due| due.topic == Topic::Today));
    assert!(
        in_year(&tender, 7)
            .iter()
            .all(|due| due.topic != Topic::FrostTonight)
    );
    let kale = in_bed(r#""kind":"planted","what":{"crop":"kale"}"#);
    let hardy = garden(&[(0, BED), (0, PLACE), (1, &kale)]);
    assert!(
        in_year(&hardy, 1)
            .iter()
            .all(|due| due.topic != Topic::FrostTonight)
    );
}

#[test]
fn a_tray_is_told_of_while_it_can_still_be_helped() {
    let sown = r#""kind":"start-sown","what":{"crop":"cabbage","count":18,"spot":"heated-house"}"#;
    let tray = garden(&[(0, sown)]);
    let first = tray.starts[0].sown.date();
    let on = |days: i64| asked_on(&tray, first + TimeDelta::days(days)).1.due;
    assert!(on(10).is_empty());
    let told: Vec<Due> = (10..80).flat_map(on).collect();
    assert_eq!(told[0].what, "Cabbage: begin to use it to outdoors");
    assert_eq!(told[0].topic, Topic::HardeningPlan);
    let last = told.last().unwrap();
    assert_eq!(last.what, "Cabbage: plant it out or part with it");
    assert_eq!(
        last.start.as_deref(),
        Some(tray.starts[0].id.to_string().as_str())
    );
}

#[test]
fn garlic_is_told_of_where_a_bed_is_kept_for_it() {
    let kept = in_bed(r#""kind":"reserved","what":{"crop":"garlic"}"#);
    let garden_with = garden(&[(0, BED), (0, PLACE), (1, &kept)]);
    let days = |garden: &Garden| -> Vec<NaiveDate> {
        (0..365)
            .filter_map(|at| NaiveDate::from_yo_opt(2027, at + 1))
            .filter(|today| {
                asked_on(garden, *today)
                    .1
                    .due
                    .iter()
                    .any(|due| due.topic == Topic::GarlicWindow)
            })
            .collect()
    };
    let told = days(&garden_with);
    assert!(told.len() > 7, "{}", told.len());
    use chrono::Datelike;
    assert!(told.iter().all(|day| (9..=12).contains(&day.month())));
    assert!(days(&garden(&[(0, BED), (0, PLACE)])).is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn of_any_record_what_is_due_comes_first_and_the_rest_by_date(
        journal in any_journal(), days in 0_u32..700,
    ) {
        let garden = Garden::fold(&journal);
        let today = day(days);
        let (_, answer) = asked_on(&garden, today);
        let late = answer.due.iter().take_while(|due| due.by <= today).count();
        let ahead = &answer.due[late..];
        prop_assert!(ahead.iter().all(|due| due.by > today));
        prop_assert!(ahead.is_sorted_by_key(|due| due.by));
        for due in &answer.due {
            prop_assert!(!due.what.is_empty() && !due.why.is_empty(), "{due:?}");
        }
    }
}
