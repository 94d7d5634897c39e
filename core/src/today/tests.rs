use chrono::{Days, NaiveDate, TimeDelta};
use proptest::prelude::*;

use super::{Answer, Due, MOST};
use crate::{
    ask::{Of, ask},
    asking::Topic,
    garden::Garden,
    journal::{Journal, Ulid, file, samples::any_journal},
    telling::Telling,
    time::iso::show_date,
};

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// A record of these entries: the day, and the rest of it. Their ids count from 1.
fn garden(entries: &[(&str, &str)]) -> Garden {
    let mut journal = Journal::default();
    for (id, (day, rest)) in (1_u128..).zip(entries) {
        let text = format!(r#"{{"v":1,"id":"{}","when":"{day}T10:00",{rest}}}"#, Ulid(id));
        journal.add(&text);
    }
    let garden = Garden::fold(&journal);
    assert!(garden.unplaced.is_empty() && journal.unread().count() == 0);
    garden
}

fn asked(garden: &Garden, today: NaiveDate) -> (Telling, Answer) {
    let question = serde_json::json!({"topic": "today", "today": show_date(today)});
    let answer = ask(&question, garden).unwrap();
    let Of::Today(of) = answer.of else { panic!() };
    (answer.telling, of)
}

fn due(garden: &Garden, today: &str) -> Vec<Due> {
    asked(garden, date(today)).1.due
}

/// What is due on a day, each as its topic and what to do.
fn told(garden: &Garden, today: &str) -> Vec<(Topic, String)> {
    due(garden, today).into_iter().map(|it| (it.topic, it.what)).collect()
}

/// The first day from `from` on, within a year, on which this is due.
fn first_day(garden: &Garden, from: &str, what: &str) -> NaiveDate {
    let mut days = date(from).iter_days().take(366);
    days.find(|day| asked(garden, *day).1.due.iter().any(|it| it.what == what))
        .unwrap_or_else(|| panic!("{what} is never due"))
}

const PLACE: (&str, &str) = (
    "2026-01-01",
    r#""kind":"place","what":{"latitude":"38.6","coldest":{"low":"36 F","high":"53 F"},"hottest":{"low":"58 F","high":"91 F"},"last_frost":"04-02","first_frost":"11-18"}"#,
);
const BED: (&str, &str) = (
    "2026-01-01",
    r#""kind":"bed","about":{"bed":"fence"},"what":{"name":"Fence bed","bed":{"length":"8 ft","width":"4 ft"}}"#,
);
/// A bed kept for garlic, so that its window is not told.
const GARLIC_BED: (&str, &str) =
    ("2025-10-01", r#""kind":"bed","about":{"bed":"garlic"},"what":{"name":"Garlic bed"}"#);
const GARLIC: (&str, &str) =
    ("2025-11-01", r#""kind":"reserved","about":{"bed":"garlic"},"what":{"crop":"garlic"}"#);

#[test]
fn an_empty_record_says_how_to_begin() {
    let (telling, answer) = asked(&Garden::default(), date("2026-11-25"));
    assert_eq!(telling.headline, "Nothing is known of your garden yet");
    assert!(telling.because[0].contains("Lay out a bed"));
    assert_eq!((answer.due.len(), answer.quiet_until), (0, None));
}

#[test]
fn a_note_is_due_on_its_day_and_until_it_is_done() {
    let note = |text: &str| {
        format!(r#""kind":"note","about":{{"bed":"fence"}},"what":{{"text":"{text}"}}"#)
    };
    let ahead = note("2026-07-10: Look at the mulch.");
    let garden = garden(&[BED, ("2026-06-01", &ahead)]);
    let (telling, answer) = asked(&garden, date("2026-07-09"));
    assert_eq!(telling.headline, "Nothing to decide before Fri 10 Jul: look at the mulch");
    assert_eq!(answer.quiet_until, Some(date("2026-07-10")));
    let on_the_day = due(&garden, "2026-07-10");
    assert_eq!(on_the_day.len(), 1);
    assert_eq!(
        (on_the_day[0].by_told.as_str(), on_the_day[0].bed.as_deref()),
        ("Today", Some("fence"))
    );
    assert_eq!(on_the_day[0].note.as_deref(), Some(Ulid(2).to_string().as_str()));
    let late = due(&garden, "2027-05-01");
    assert_eq!(late[0].by_told, "Overdue since 10 Jul");
    assert_eq!(late[0].why, "Noted on 1 Jun 2026.");
}

#[test]
fn notes_of_no_bed_of_a_bed_taken_away_and_of_a_tray_are_told_too() {
    let garden = garden(&[
        BED,
        ("2026-01-02", r#""kind":"bed","about":{"bed":"fence"},"what":{"gone":true}"#),
        (
            "2026-02-01",
            r#""kind":"note","about":{"bed":"fence"},"what":{"text":"2026-03-01: One."}"#,
        ),
        ("2026-02-01", r#""kind":"note","what":{"text":"2026-03-01: Two."}"#),
        ("2026-02-01", r#""kind":"start-sown","what":{"crop":"our own kale"}"#),
        (
            "2026-02-01",
            r#""kind":"note","about":{"start":"00000000000000000000000005"},"what":{"text":"2026-03-01: Three."}"#,
        ),
    ]);
    assert_eq!(due(&garden, "2026-02-28").len(), 0);
    assert_eq!(told(&garden, "2026-03-01").len(), 3);
}

#[test]
fn a_note_and_the_topic_of_the_same_bed_are_one_in_the_words_of_the_note() {
    let laid = r#""kind":"residue-laid","about":{"bed":"fence"},"what":{"materials":[{"residue":"corn-stalks","amount":"3 buckets"}],"placement":"worked-in"}"#;
    let note = r#""kind":"note","about":{"bed":"fence"},"what":{"text":"2026-06-09: Is the left half ahead?"}"#;
    let alone = garden(&[PLACE, BED, GARLIC_BED, GARLIC, ("2026-06-01", laid)]);
    let look = "Look how far Fence bed has settled".to_owned();
    assert_eq!(told(&alone, "2026-06-07"), []);
    assert_eq!(told(&alone, "2026-06-08"), [(Topic::ResidueWait, look)]);
    let both =
        garden(&[PLACE, BED, GARLIC_BED, GARLIC, ("2026-06-01", laid), ("2026-06-02", note)]);
    let due = due(&both, "2026-06-09");
    assert_eq!(due.len(), 1);
    assert_eq!(due[0].what, "Is the left half ahead?");
    assert!(due[0].why.starts_with("Look how far Fence bed has settled"), "{}", due[0].why);
    assert!(due[0].note.is_some());
}

#[test]
fn a_bed_that_has_settled_is_told_three_days_before_and_no_longer_once_it_is_planted() {
    let laid = r#""kind":"residue-laid","about":{"bed":"fence"},"what":{"materials":[{"residue":"corn-stalks","amount":"3 buckets"}],"placement":"worked-in"}"#;
    let record = [PLACE, BED, GARLIC_BED, GARLIC, ("2026-06-01", laid)];
    let garden_now = garden(&record);
    let progress =
        crate::topics::residue_wait::progress("fence", &garden_now, date("2026-06-01")).unwrap();
    let ready = progress.plant_from.likely.unwrap();
    assert!(ready > date("2026-06-08"));
    let first = first_day(&garden_now, "2026-06-01", "Plant Fence bed again");
    assert_eq!(first, ready - Days::new(3));
    let planted = r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"kale"}"#;
    let day = show_date(first);
    let planted = garden(&[record.as_slice(), &[(day.as_str(), planted)]].concat());
    assert!(asked(&planted, ready).1.due.iter().all(|it| it.what != "Plant Fence bed again"));
}

#[test]
fn a_cover_is_told_from_the_next_day_and_until_it_is_off() {
    let covered = r#""kind":"covered","about":{"bed":"fence"},"what":{}"#;
    let off = r#""kind":"uncovered","about":{"bed":"fence"},"what":{}"#;
    let on = garden(&[BED, ("2026-03-10", covered)]);
    assert_eq!(due(&on, "2026-03-10").len(), 0);
    assert_eq!(due(&on, "2026-03-11")[0].what, "Take the cover off Fence bed");
    let off = garden(&[BED, ("2026-03-10", covered), ("2026-03-11", off)]);
    assert_eq!(due(&off, "2026-03-12").len(), 0);
}

#[test]
fn a_bed_kept_for_something_is_told_on_its_day() {
    let kept = r#""kind":"reserved","about":{"bed":"fence"},"what":{"crop":"garlic","from":"2026-11-01","until":"2026-11-20"}"#;
    let garden = garden(&[BED, ("2026-09-01", kept)]);
    assert_eq!(due(&garden, "2026-10-31").len(), 0);
    let due = due(&garden, "2026-11-01");
    assert_eq!(
        (due[0].what.as_str(), due[0].topic),
        ("Plant garlic in Fence bed", Topic::GarlicWindow)
    );
    assert_eq!(due[0].by, date("2026-11-20"));
}

#[test]
fn garlic_time_is_told_while_the_window_is_open_and_no_bed_is_kept() {
    let what = "Plant garlic, or keep a bed for it";
    let open = garden(&[PLACE, BED]);
    let question = serde_json::json!({"topic": "garlic-window", "today": "2026-09-01"});
    let Of::GarlicWindow(garlic) = ask(&question, &open).unwrap().of else { panic!() };
    let window = garlic.window.unwrap();
    let opens = window.opens.likely.unwrap();
    assert_eq!(first_day(&open, "2026-08-01", what), opens);
    let last = window.closes.likely.unwrap();
    assert!(asked(&open, last).1.due.iter().any(|it| it.what == what && it.by == last));
    assert!(asked(&open, last + Days::new(1)).1.due.iter().all(|it| it.what != what));
    let kept = r#""kind":"reserved","about":{"bed":"fence"},"what":{"crop":"garlic"}"#;
    let kept = garden(&[PLACE, BED, ("2026-09-01", kept)]);
    assert_eq!(told(&kept, &show_date(opens)), []);
}

#[test]
fn tonight_s_low_is_asked_for_in_the_season_of_frost_while_something_tender_stands_out() {
    let what = "Read tonight's low";
    let tomato = r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"tomato","count":6}"#;
    let leek = r#""kind":"seeded","about":{"bed":"fence"},"what":{"crop":"leek"}"#;
    let record = [PLACE, BED, ("2026-05-20", tomato)];
    let first = first_day(&garden(&record), "2026-06-01", what);
    // The usual first frost is 18 Nov; one year in ten has it some three weeks before.
    assert!(date("2026-10-15") < first && first < date("2026-11-18"), "{first}");
    let hardy = garden(&[PLACE, BED, ("2026-05-20", leek)]);
    assert!(due(&hardy, "2026-11-25").iter().all(|it| it.what != what));
    // Written down, it is answered: which beds, or nothing.
    for (low, cover) in [("30 F", Some("Cover Fence bed")), ("55 F", None)] {
        let read =
            format!(r#""kind":"reading","what":{{"spot":"outdoors","forecast_low":"{low}"}}"#);
        let read = garden(&[record.as_slice(), &[("2026-11-25", read.as_str())]].concat());
        let due = due(&read, "2026-11-25");
        let frost: Vec<&str> = due
            .iter()
            .filter(|it| it.topic == Topic::FrostTonight)
            .map(|it| it.what.as_str())
            .collect();
        assert_eq!(frost, cover.into_iter().collect::<Vec<_>>());
        if cover.is_some() {
            assert_eq!(due[0].topic, Topic::FrostTonight);
        }
    }
}

#[test]
fn seed_is_looked_for_when_it_should_be_up_and_sown_again_after_that() {
    let peas = r#""kind":"seeded","about":{"bed":"fence"},"what":{"crop":"pea","depth":"1 in"}"#;
    let record = [PLACE, BED, GARLIC_BED, GARLIC, ("2026-04-01", peas)];
    let sown = garden(&record);
    let question = serde_json::json!({"topic": "emergence", "today": "2026-04-01", "crop": "pea", "sown": "2026-04-01", "depth": "1 in", "bed": "fence"});
    let Of::Emergence(answer) = ask(&question, &sown).unwrap().of else { panic!() };
    let (likely, again) = (answer.expected.unwrap().likely.unwrap(), answer.resow_after.unwrap());
    let (look, sow) = ("Look for seedlings of pea in Fence bed", "Sow again: pea in Fence bed");
    assert_eq!(first_day(&sown, "2026-04-01", look), likely);
    assert_eq!(first_day(&sown, "2026-04-01", sow), again + Days::new(1));
    assert!(
        asked(&sown, again + Days::new(29)).1.due.iter().all(|it| it.topic != Topic::Emergence)
    );
    let up = r#""kind":"check-in","about":{"bed":"fence"},"what":{"up":0.9}"#;
    let up = garden(&[record.as_slice(), &[("2026-04-15", up)]].concat());
    for day in date("2026-04-15").iter_days().take(60) {
        assert!(asked(&up, day).1.due.iter().all(|it| it.topic != Topic::Emergence));
    }
}

#[test]
fn a_crop_is_looked_at_once_it_is_old_enough_and_again_when_that_is_due() {
    let beans = r#""kind":"seeded","about":{"bed":"fence"},"what":{"crop":"bean-snap-bush"}"#;
    let record = [PLACE, BED, GARLIC_BED, GARLIC, ("2026-05-20", beans)];
    let sown = garden(&record);
    let what = "Look at snap bean, bush in Fence bed";
    let due_on = |garden: &Garden, from: &str| {
        let mut days = date(from).iter_days().take(120);
        days.find(|day| {
            asked(garden, *day).1.due.iter().any(|it| it.topic == Topic::HarvestReadiness)
        })
    };
    let first = due_on(&sown, "2026-05-20").unwrap();
    // Bush beans take 45 to 65 days from sowing; a look is worth it from 15 % before.
    let days = (first - date("2026-05-20")).num_days();
    assert!((35..=65).contains(&days), "{days} days");
    let told = due(&sown, &show_date(first));
    let told = told.iter().find(|it| it.topic == Topic::HarvestReadiness).unwrap();
    assert!(
        told.what.starts_with("Look at ") && told.what.ends_with(" in Fence bed"),
        "{} {what}",
        told.what
    );
    assert_eq!(told.planting.as_deref(), Some(Ulid(5).to_string().as_str()));
    let seen = format!(
        r#""kind":"check-in","about":{{"planting":"{}"}},"what":{{"stage":"not-yet"}}"#,
        Ulid(5)
    );
    let day = show_date(first);
    let seen = garden(&[record.as_slice(), &[(day.as_str(), seen.as_str())]].concat());
    let again = due_on(&seen, &day).unwrap();
    let days = (again - first).num_days();
    assert!((1..=14).contains(&days), "{days} days");
    let clean =
        r#""kind":"harvest","about":{"bed":"fence"},"what":{"crop":"bean-snap-bush","all":true}"#;
    let clean = garden(&[record.as_slice(), &[(day.as_str(), clean)]].concat());
    assert_eq!(due_on(&clean, &day), None);
}

#[test]
fn two_crops_of_a_bed_are_one_look() {
    let crops = ["chard", "leek"].map(|crop| {
        format!(r#""kind":"planted","about":{{"bed":"fence"}},"what":{{"crop":"{crop}"}}"#)
    });
    let [chard, leek] = crops.each_ref().map(|rest| ("2026-01-10", rest.as_str()));
    let garden = garden(&[BED, chard, leek]);
    let due = due(&garden, "2026-08-01");
    assert_eq!(due.len(), 1);
    assert_eq!(due[0].what, "Look at swiss chard and leek in Fence bed");
    assert_eq!((due[0].planting.as_ref(), due[0].bed.as_deref()), (None, Some("fence")));
}

fn tray(sown: &'static str, crop: &str) -> (&'static str, String) {
    (
        sown,
        format!(
            r#""kind":"start-sown","what":{{"crop":"{crop}","name":"Tray 1","count":12,"spot":"heated-house","warmth":"65 F"}}"#
        ),
    )
}

#[test]
fn a_tray_is_told_before_its_way_outdoors_must_begin_then_day_by_day_then_to_be_planted() {
    let sown = "2026-03-01";
    let start = r#""kind":"start-sown","what":{"crop":"cabbage","name":"Tray 1","spot":"unheated-greenhouse"}"#;
    let read =
        r#""kind":"reading","what":{"spot":"unheated-greenhouse","low":"36 F","high":"72 F"}"#;
    let mut record: Vec<(String, &str)> =
        vec![(sown.to_owned(), start), (PLACE.0.to_owned(), PLACE.1)];
    record.extend(date(sown).iter_days().take(70).map(|day| (show_date(day), read)));
    let of = |record: &[(String, &str)]| {
        let entries: Vec<(&str, &str)> =
            record.iter().map(|(day, rest)| (day.as_str(), *rest)).collect();
        garden(&entries)
    };
    let begin = "Begin to get Tray 1 used to outdoors";
    let first = first_day(&of(&record), sown, begin);
    let begun = asked(&of(&record), first).1.due;
    let begun = begun.iter().find(|it| it.what == begin).unwrap();
    assert_eq!(begun.by - first, TimeDelta::days(7));
    let done = format!(
        r#""kind":"hardening-done","about":{{"start":"{}"}},"what":{{"hours":24,"night":"out"}}"#,
        Ulid(1)
    );
    let mut day = first;
    loop {
        let due = asked(&of(&record), day).1.due;
        let of_tray: Vec<&str> =
            due.iter().filter(|it| it.start.is_some()).map(|it| it.what.as_str()).collect();
        if of_tray == ["Plant out Tray 1"] {
            break;
        }
        if day > first {
            assert_eq!(of_tray, ["Carry Tray 1 outdoors"]);
        }
        assert!(day < first + Days::new(21), "it never gets out");
        record.push((show_date(day), &done));
        // What was asked today is done.
        let due = asked(&of(&record), day).1.due;
        assert!(due.iter().all(|it| it.tick.is_none()), "{due:?}");
        day = day + Days::new(1);
    }
    assert!(day > first + Days::new(2), "{day}");
}

#[test]
fn a_tray_past_its_age_comes_first_of_what_waits() {
    let (sown, rest) = tray("2026-03-01", "cauliflower");
    let note = r#""kind":"note","what":{"text":"2026-03-02: Oil the spade."}"#;
    let garden = garden(&[PLACE, (sown, &rest), ("2026-03-01", note)]);
    let due = due(&garden, "2026-06-20");
    let whats: Vec<&str> = due.iter().map(|it| it.what.as_str()).collect();
    // The note is overdue for longer, and nothing is lost by it.
    assert_eq!(whats, ["Plant, repot or give away Tray 1", "Oil the spade"]);
    assert!(due[0].by < date("2026-06-20"));
}

#[test]
fn a_dozen_are_told_the_rest_counted_and_no_note_is_among_the_rest() {
    let bed = |number: u32| {
        format!(r#""kind":"bed","about":{{"bed":"b{number}"}},"what":{{"name":"Bed {number}"}}"#)
    };
    let covered =
        |number: u32| format!(r#""kind":"covered","about":{{"bed":"b{number}"}},"what":{{}}"#);
    let texts: Vec<String> = (0..20).flat_map(|number| [bed(number), covered(number)]).collect();
    let mut entries: Vec<(&str, &str)> =
        texts.iter().map(|text| ("2026-03-01", text.as_str())).collect();
    let note = r#""kind":"note","what":{"text":"2026-03-10: Oil the spade."}"#;
    entries.push(("2026-03-01", note));
    let garden = garden(&entries);
    let (telling, answer) = asked(&garden, date("2026-03-10"));
    assert_eq!((answer.due.len(), answer.more), (MOST, 9));
    assert_eq!(telling.headline, "21 things to decide today");
    assert!(answer.due.iter().any(|it| it.what == "Oil the spade"));
}

/// The tray of a garden's file, its count and warmth written in several ways.
fn file_with(count: &str, hours: &str) -> Journal {
    let texts = [
        r#"{"v":1,"id":"00000000000000000000000001","when":"2026-01-01T10:00","kind":"place","what":{"latitude":"38.6","last_frost":"04-02"}}"#.to_owned(),
        format!(r#"{{"v":1,"id":"00000000000000000000000002","when":"2026-02-01T10:00","kind":"start-sown","what":{{"crop":"cabbage","name":"Tray 1","spot":"heated-house","warmth":"65 F","count":{count}}}}}"#),
        format!(r#"{{"v":1,"id":"00000000000000000000000003","when":"2026-03-01T10:00","kind":"hardening-done","about":{{"start":"00000000000000000000000002"}},"what":{{"hours":{hours}}}}}"#),
    ];
    let text = format!(r#"{{"pegline":1,"entries":[{}]}}"#, texts.join(","));
    let opened = file::read(&text).unwrap();
    // However it is written, it is kept as it came.
    assert_eq!(
        opened.journal.held().map(|(_, held)| held.raw().to_owned()).collect::<Vec<_>>(),
        texts
    );
    opened.journal
}

#[test]
fn a_number_written_as_text_in_a_file_counts_like_any_other() {
    let today = date("2026-04-20");
    let plain = Garden::fold(&file_with("60", "2.5"));
    assert!(!asked(&plain, today).1.due.is_empty());
    for (count, hours) in [(r#""60""#, "2.5"), ("60", r#""2.5""#), (r#""60""#, r#""2 1/2""#)] {
        let garden = Garden::fold(&file_with(count, hours));
        assert_eq!(garden.starts, plain.starts);
        assert_eq!(asked(&garden, today), asked(&plain, today));
    }
}

#[test]
fn what_cant_be_read_is_said_to_be_missing() {
    let today = date("2026-04-20");
    let journal = file_with(r#""plenty""#, "2");
    let (id, _, why) = journal.unread().next().unwrap();
    assert_eq!(id, Ulid(2));
    assert_eq!(why.to_string(), "its details cannot be read: count is not a whole number");
    let (telling, answer) = asked(&Garden::fold(&journal), today);
    assert!(answer.due.iter().all(|it| it.start.is_none()));
    let one = "1 entry of the record can't be read, and nothing here rests on it.";
    assert_eq!(telling.because[0], one);

    let mut more = journal.clone();
    more.add("no entry at all");
    let (telling, _) = asked(&Garden::fold(&more), today);
    let two = "2 entries of the record can't be read, and nothing here rests on them.";
    assert_eq!(telling.because[0], two);
    let (telling, _) = asked(&Garden::fold(&file_with("60", "2")), today);
    assert!(telling.because.iter().all(|it| !it.contains("can't be read")));
}

/// Whether the order holds that the head of the room states, as far as an answer shows it.
fn is_in_order(due: &[Due], today: NaiveDate) -> bool {
    let later: Vec<NaiveDate> = due.iter().map(|it| it.by).skip_while(|by| *by <= today).collect();
    later.is_sorted() && later.iter().all(|by| *by > today)
}

proptest! {
    #[test]
    fn any_record_is_gone_through(mut journal in any_journal(), after in 28..400_u64, known: bool) {
        if known {
            let (day, rest) = PLACE;
            journal.add(&format!(r#"{{"v":1,"id":"{}","when":"{day}T10:00",{rest}}}"#, Ulid(1 << 40)));
        }
        let garden = Garden::fold(&journal);
        let today = date("2026-03-01") + Days::new(after);
        let (telling, answer) = asked(&garden, today);
        prop_assert!(is_in_order(&answer.due, today));
        prop_assert!(!telling.headline.is_empty() && answer.due.len() <= MOST.max(16));
        let mut seen = Vec::new();
        for it in &answer.due {
            prop_assert!(it.bed.as_deref().is_none_or(|bed| garden.bed(bed).is_some()));
            let start = it.start.as_deref().map(|id| id.parse().unwrap());
            prop_assert!(start.is_none_or(|id| garden.start(id).is_some()));
            let planting = it.planting.as_deref().map(|id| id.parse().unwrap());
            prop_assert!(planting.is_none_or(|id| garden.planting(id).is_some()));
            if it.note.is_none() {
                let key = (it.topic, &it.bed, &it.start);
                prop_assert!(!seen.contains(&key), "{:?} is told twice", key);
                seen.push(key);
            }
        }
        let noted = garden.happened.iter().filter_map(crate::record::ahead);
        let noted = noted.filter(|it| it.on <= today);
        for it in noted {
            let id = Some(it.id.to_string());
            prop_assert!(answer.due.iter().any(|due| due.note == id));
        }
        // What is said to be quiet is quiet.
        if let Some(until) = answer.quiet_until {
            prop_assert!(until > today);
            for day in today.iter_days().skip(1).take_while(|day| *day < until).take(40) {
                let due = asked(&garden, day).1.due;
                prop_assert!(due.is_empty(), "{} is due on {} already", due[0].what, day);
            }
        }
    }
}
