use super::*;
use crate::journal::{
    Journal, file,
    samples::{any_good_text, any_second_thought, entry_text},
};
use crate::time::iso::{read_when, show_when};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// Minutes in a day.
const DAY: u32 = 1440;

/// A record of entries told as (number, day of March, the rest); `$9` stands for the id 9.
pub(super) fn journal(entries: &[(u128, u32, &str)]) -> Journal {
    let mut journal = Journal::default();
    for (id, day, rest) in entries {
        let rest = (0..100_u128).rev().fold((*rest).to_owned(), |rest, id| {
            rest.replace(&format!("${id}"), &Ulid(id).to_string())
        });
        let text = entry_text(*id, (day - 1) * DAY, &rest);
        crate::journal::read_entry(&text).unwrap_or_else(|why| panic!("{text}: {why}"));
        journal.add(&text);
    }
    journal
}

pub(super) fn garden(entries: &[(u128, u32, &str)]) -> Garden {
    Garden::fold(&journal(entries))
}

fn day(day: u32) -> Option<NaiveDateTime> {
    read_when(&format!("2026-03-{day:02}T00:00"))
}

pub(super) const FENCE: &str =
    r#""kind":"bed","about":{"bed":"fence"},"what":{"name":"Fence bed","bed":{"length":"8 ft"}}"#;
pub(super) const KALE: &str =
    r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"kale","count":6}"#;
const GARLIC: &str =
    r#""kind":"planted","about":{"bed":"fence"},"what":{"crop":"garlic","count":140}"#;
const TRAY: &str = r#""kind":"start-sown","what":{"crop":"cabbage","variety":"Early Round","count":24,"spot":"sill"}"#;
const CLEARED: &str = r#""kind":"cleared","about":{"bed":"fence"},"what":{}"#;

#[test]
fn a_bed_is_what_was_told_of_it() {
    let garden = garden(&[
        (1, 1, FENCE),
        (2, 5, r#""kind":"bed","about":{"bed":"fence"},"what":{"name":"Long bed"}"#),
        (
            3,
            9,
            r#""kind":"bed","about":{"bed":"fence"},"what":{"bed":{"length":"12 ft","width":"4 ft"}}"#,
        ),
    ]);
    let bed = garden.bed("fence").unwrap();
    assert_eq!((bed.name.as_str(), bed.laid_out), ("Long bed", day(1)));
    assert_eq!(bed.shape["length"], "12 ft");
    assert_eq!(bed.shape_at(day(8).unwrap())["length"], "8 ft");
    assert_eq!(bed.shape_at(day(9).unwrap())["length"], "12 ft");
    assert_eq!(bed.empty_since(), day(1));
    assert_eq!(garden.bed("shed"), None);
}

#[test]
fn beds_stand_in_the_order_in_which_they_were_laid_out() {
    let bed =
        |id: &str| format!(r#""kind":"bed","about":{{"bed":"{id}"}},"what":{{"name":"{id}"}}"#);
    let note = r#""kind":"planted","about":{"bed":"late"},"what":{"crop":"kale"}"#;
    let garden = garden(&[
        (1, 1, note),
        (2, 2, &bed("first")),
        (3, 3, &bed("late")),
        (4, 1, r#""kind":"watered","about":{"bed":"never-laid"},"what":{}"#),
    ]);
    let ids = garden.beds.iter().map(|bed| bed.id.as_str()).collect::<Vec<_>>();
    assert_eq!(ids, ["first", "late", "never-laid"]);
    assert_eq!(garden.bed("late").unwrap().plantings.len(), 1);
    assert!(garden.unplaced.is_empty());
}

#[test]
fn a_bed_taken_away_can_be_laid_out_again() {
    let gone = r#""kind":"bed","about":{"bed":"fence"},"what":{"gone":true}"#;
    assert_eq!(garden(&[(1, 1, FENCE), (2, 3, gone)]).beds[0].gone, day(3));
    assert_eq!(garden(&[(1, 1, FENCE), (2, 3, gone), (3, 4, FENCE)]).beds[0].gone, None);
}

#[test]
fn place_and_settings_keep_the_latest_of_each_field() {
    let garden = garden(&[
        (1, 1, r#""kind":"place","what":{"latitude":"45.5","soil":"clay","elevation":"300 ft"}"#),
        (2, 2, r#""kind":"place","what":{"soil":"loam","elevation":null}"#),
        (3, 1, r#""kind":"settings","what":{"units":"metric","nerve":10}"#),
        (4, 2, r#""kind":"settings","what":{"nerve":25}"#),
    ]);
    let place = serde_json::to_string(&garden.place).unwrap();
    assert_eq!(place, r#"{"latitude":"45.5","soil":"loam"}"#);
    assert_eq!((garden.units(), garden.settings.nerve), (System::Metric, Some(25)));
    assert_eq!(Garden::default().units(), System::Us);
}

#[test]
fn a_tray_is_counted_from_sowing_to_planting() {
    let garden = garden(&[
        (1, 1, TRAY),
        (
            2,
            10,
            r#""kind":"start-pricked-out","about":{"start":"$1"},"what":{"count":20,"container":"4 in pots"}"#,
        ),
        (3, 12, r#""kind":"start-lost","about":{"start":"$1"},"what":{"count":3,"why":"slugs"}"#),
        (4, 15, r#""kind":"start-moved","about":{"start":"$1"},"what":{"spot":"cold-frame"}"#),
        (5, 16, r#""kind":"hardening-done","about":{"start":"$1"},"what":{"hours":2}"#),
        (6, 16, r#""kind":"check-in","about":{"start":"$1"},"what":{"leaves":4}"#),
        (
            7,
            20,
            r#""kind":"planted","about":{"bed":"fence","start":"$1"},"what":{"crop":"cabbage","count":12}"#,
        ),
    ]);
    let tray = garden.start(Ulid(1)).unwrap();
    assert_eq!((tray.count, tray.left, tray.is_growing()), (Some(24), Some(5), true));
    assert_eq!((tray.sown, tray.pricked_out), (day(1).unwrap(), day(10)));
    assert_eq!((tray.container.as_deref(), tray.spot()), (Some("4 in pots"), Some("cold-frame")));
    assert_eq!((tray.hardening.len(), tray.check_ins.len()), (1, 1));
    assert_eq!(tray.plantings, [Ulid(7)]);
    assert_eq!(garden.happened_to(Ulid(1)).count(), 7);
    let (bed, planting) = garden.planting(Ulid(7)).unwrap();
    assert_eq!(bed.id, "fence");
    assert_eq!(planting.came, Came::Planted(Some(Ulid(1))));
    assert_eq!(planting.variety.as_deref(), Some("Early Round"));
}

#[test]
fn a_tray_lost_or_planted_out_is_used_up_and_an_unknown_number_stays_unknown() {
    let left = |rest: &str| garden(&[(1, 1, TRAY), (2, 2, rest)]).starts[0].left;
    assert_eq!(left(r#""kind":"start-lost","about":{"start":"$1"},"what":{}"#), Some(0));
    assert_eq!(left(r#""kind":"start-lost","about":{"start":"$1"},"what":{"count":99}"#), Some(0));
    let planted =
        r#""kind":"planted","about":{"bed":"fence","start":"$1"},"what":{"crop":"cabbage"}"#;
    assert_eq!(left(planted), None);
}

#[test]
fn cleared_takes_out_what_is_meant_and_keeps_it_for_rotation() {
    let base = [(1, 1, FENCE), (2, 2, KALE), (3, 3, GARLIC)];
    let with = |rest: &str| garden(&[&base[..], &[(4, 9, rest)]].concat()).beds[0].clone();

    let all = with(CLEARED);
    assert_eq!((all.plantings.len(), all.past.len(), all.empty_since()), (0, 2, day(9)));
    assert_eq!(all.planted_since(), None);
    let grown = all.grown();
    assert_eq!((grown[0].crop, Some(grown[0].from), grown[0].to), ("kale", day(2), day(9)));

    let kale_out = with(r#""kind":"cleared","about":{"bed":"fence"},"what":{"crop":"kale"}"#);
    assert_eq!((kale_out.plantings.len(), kale_out.past[0].id), (1, Ulid(2)));
    assert_eq!((kale_out.empty_since(), kale_out.planted_since()), (None, day(3)));

    let one = with(r#""kind":"cleared","about":{"planting":"$3"},"what":{}"#);
    assert_eq!(one.past[0].id, Ulid(3));

    let some = with(r#""kind":"cleared","about":{"planting":"$2"},"what":{"plants":4}"#);
    assert_eq!((some.plantings[0].left, some.past.len()), (Some(2), 0));

    let unclear = with(r#""kind":"cleared","about":{"bed":"fence"},"what":{"plants":4}"#);
    assert_eq!((unclear.plantings[0].left, unclear.plantings[1].left), (Some(6), Some(140)));
}

#[test]
fn what_was_cleared_before_it_was_planted_stays() {
    let garden = garden(&[(1, 1, FENCE), (2, 5, KALE), (3, 4, CLEARED)]);
    assert_eq!(garden.beds[0].plantings.len(), 1);
}

#[test]
fn heads_taken_whole_are_counted_down_to_the_end() {
    let cut = |plants: u32| {
        format!(
            r#""kind":"harvest","about":{{"bed":"fence"}},"what":{{"crop":"kale","plants":{plants}}}"#
        )
    };
    let garden = garden(&[
        (1, 1, FENCE),
        (2, 2, KALE),
        (3, 3, KALE),
        (4, 4, &cut(4)),
        (5, 5, &cut(4)),
        (6, 6, r#""kind":"harvest","about":{"planting":"$3"},"what":{"all":true,"amount":"3 lb"}"#),
    ]);
    let bed = &garden.beds[0];
    assert_eq!((bed.past[0].id, bed.past[0].ended), (Ulid(2), day(5)));
    assert_eq!((bed.plantings[0].left, bed.plantings[0].picked_clean), (Some(4), day(6)));
    assert_eq!(bed.harvests.len(), 3);
}

#[test]
fn a_bed_remembers_what_was_laid_seen_and_done_there() {
    let garden = garden(&[
        (1, 1, FENCE),
        (2, 2, KALE),
        (
            3,
            3,
            r#""kind":"residue-laid","about":{"bed":"fence"},"what":{"materials":[{"residue":"rye"}]}"#,
        ),
        (4, 4, r#""kind":"check-in","about":{"bed":"fence"},"what":{"left":0.5}"#),
        (5, 5, r#""kind":"check-in","about":{"planting":"$2"},"what":{"up":0.9}"#),
        (6, 6, r#""kind":"reading","about":{"bed":"fence"},"what":{"low":"29 F"}"#),
        (7, 7, r#""kind":"reading","what":{"spot":"greenhouse","low":"36 F"}"#),
        (8, 8, r#""kind":"frost-seen","about":{"bed":"fence"},"what":{"harm":"none"}"#),
        (9, 8, r#""kind":"frost-seen","what":{"spot":"outdoors"}"#),
        (10, 9, r#""kind":"watered","about":{"bed":"fence"},"what":{"minutes":40}"#),
        (11, 9, r#""kind":"fed","about":{"bed":"fence"},"what":{"product":"blood meal"}"#),
        (12, 10, r#""kind":"note","about":{"bed":"fence"},"what":{"text":"mice"}"#),
        (13, 11, r#""kind":"covered","about":{"bed":"fence"},"what":{"cover":"light-sheet"}"#),
    ]);
    let bed = &garden.beds[0];
    assert_eq!(bed.residue[0].what.materials[0].residue, "rye");
    assert_eq!((bed.check_ins.len(), bed.plantings[0].check_ins.len()), (1, 1));
    assert_eq!((bed.readings.len(), garden.readings.len()), (1, 1));
    assert_eq!((bed.frosts.len(), garden.frosts.len()), (1, 1));
    assert_eq!((bed.watered.len(), bed.fed.len()), (1, 1));
    assert_eq!(bed.covered.as_ref().map(|cover| cover.when), day(11));
    let newest_first = garden.happened_in("fence").map(|it| it.entry.id.0).collect::<Vec<_>>();
    assert_eq!(newest_first, [13, 12, 11, 10, 8, 6, 5, 4, 3, 2, 1]);
}

#[test]
fn a_cover_taken_off_lies_there_no_more() {
    let garden = garden(&[
        (1, 1, r#""kind":"covered","about":{"bed":"fence"},"what":{}"#),
        (2, 2, r#""kind":"uncovered","about":{"bed":"fence"},"what":{}"#),
    ]);
    assert_eq!(garden.beds[0].covered, None);
}

#[test]
fn planting_the_crop_a_bed_was_kept_for_ends_that_and_a_filler_does_not() {
    let kept =
        r#""kind":"reserved","about":{"bed":"fence"},"what":{"crop":"garlic","from":"2026-10-01"}"#;
    assert_eq!(garden(&[(1, 1, kept), (2, 2, KALE)]).beds[0].reserved.len(), 1);
    assert_eq!(garden(&[(1, 1, kept), (2, 2, GARLIC)]).beds[0].reserved.len(), 0);
}

#[test]
fn what_it_is_about_must_be_known() {
    let garden = garden(&[
        (1, 1, FENCE),
        (2, 2, KALE),
        (3, 3, r#""kind":"start-lost","about":{"start":"$77"},"what":{}"#),
        (4, 3, r#""kind":"cleared","about":{"bed":"fence","planting":"$88"},"what":{}"#),
        (5, 3, r#""kind":"planted","what":{"crop":"kale"}"#),
        (6, 3, r#""kind":"struck-out","what":{"target":"$99"}"#),
        (7, 3, r#""kind":"corrected","what":{"target":"$2","what":{"crop":7}}"#),
        (8, 3, r#""kind":"corrected","what":{"target":"$6","when":"2026-03-01T00:00"}"#),
        (9, 3, r#""kind":"reading","about":{"planting":"$88"},"what":{"low":"29 F"}"#),
    ]);
    let unplaced = garden.unplaced.iter().map(|id| id.0).collect::<BTreeSet<_>>();
    assert_eq!(unplaced, BTreeSet::from([3, 4, 5, 6, 7, 8, 9]));
    assert_eq!(garden.beds[0].plantings.len(), 1, "nothing was cleared by a planting not known");
    assert_eq!(garden.readings, [], "nor was its reading taken for one of the whole garden");
}

#[test]
fn a_strike_out_undoes_and_its_own_undoing_restores() {
    let strike =
        |target: u128| format!(r#""kind":"struck-out","what":{{"target":"{}"}}"#, Ulid(target));
    let (one, two, three) = (strike(2), strike(3), strike(4));
    let entries = [(1, 1, FENCE), (2, 2, KALE), (3, 3, &*one), (4, 3, &*two), (5, 3, &*three)];
    let plantings = |upto: usize| garden(&entries[..upto]).beds[0].plantings.len();
    assert_eq!((plantings(2), plantings(3), plantings(4), plantings(5)), (1, 0, 1, 0));
    assert!(garden(&entries).is_struck(Ulid(2)));
}

#[test]
fn a_strike_out_from_a_phone_with_a_slow_clock_counts_all_the_same() {
    let garden = garden(&[
        (5, 5, FENCE),
        (6, 6, KALE),
        (1, 1, r#""kind":"struck-out","what":{"target":"$6"}"#),
    ]);
    assert_eq!(garden.beds[0].plantings, []);
}

#[test]
fn one_strike_out_of_two_is_enough() {
    let strike = r#""kind":"struck-out","what":{"target":"$2"}"#;
    let undo = r#""kind":"struck-out","what":{"target":"$3"}"#;
    let garden =
        garden(&[(1, 1, FENCE), (2, 2, KALE), (3, 3, strike), (4, 3, strike), (5, 4, undo)]);
    assert_eq!(garden.beds[0].plantings, []);
}

#[test]
fn one_undoing_of_two_is_enough_whichever_is_settled_first() {
    let strike =
        |target: u128| format!(r#""kind":"struck-out","what":{{"target":"{}"}}"#, Ulid(target));
    // 2 strikes the note; 3 and another strike 2; and 3 is struck itself.
    for (other, third) in [(4, 5), (5, 4)] {
        let garden = garden(&[
            (1, 1, r#""kind":"note","what":{"text":"hail"}"#),
            (2, 2, &strike(1)),
            (3, 3, &strike(2)),
            (other, 3, &strike(2)),
            (third, 3, &strike(3)),
        ]);
        assert_eq!(garden.struck, [Ulid(2), Ulid(3)]);
        assert_eq!(garden.happened.len(), 1);
    }
}

#[test]
fn strike_outs_in_a_circle_change_nothing_until_one_is_struck_from_outside() {
    let strike =
        |target: u128| format!(r#""kind":"struck-out","what":{{"target":"{}"}}"#, Ulid(target));
    let (a, b, own, outside) = (strike(11), strike(10), strike(12), strike(10));
    let circle = [(10, 1, &*a), (11, 1, &*b), (12, 1, &*own)];
    let garden_now = garden(&circle);
    assert!(garden_now.struck.is_empty());
    assert_eq!(garden_now.unplaced.len(), 3);
    let garden_then = garden(&[&circle[..], &[(13, 2, &*outside)]].concat());
    assert_eq!(garden_then.struck, [Ulid(10)]);
}

#[test]
fn a_hundred_thousand_undoings_are_no_trouble() {
    let mut journal = journal(&[(1, 1, FENCE)]);
    let undoings = 100_000_u128;
    for id in 2..2 + undoings {
        journal.add(&entry_text(
            id,
            0,
            &format!(r#""kind":"struck-out","what":{{"target":"{}"}}"#, Ulid(id - 1)),
        ));
    }
    assert_eq!(Garden::fold(&journal).beds.len(), 1);
    journal.add(&entry_text(
        2 + undoings,
        0,
        &format!(r#""kind":"struck-out","what":{{"target":"{}"}}"#, Ulid(1 + undoings)),
    ));
    assert_eq!(Garden::fold(&journal).beds.len(), 0);
}

#[test]
fn of_two_corrections_the_one_with_the_greater_id_holds() {
    let five = r#""kind":"corrected","what":{"target":"$2","what":{"crop":"kale","count":5}}"#;
    let four = r#""kind":"corrected","what":{"target":"$2","what":{"crop":"kale","count":4}}"#;
    let base = [(1, 1, FENCE), (2, 2, KALE)];
    let count =
        |more: &[(u128, u32, &str)]| garden(&[&base[..], more].concat()).beds[0].plantings[0].count;
    assert_eq!(count(&[(3, 3, five), (4, 3, four)]), Some(4));
    // The later date does not matter, nor does the order of the text.
    assert_eq!(count(&[(4, 3, four), (3, 9, five)]), Some(4));
    let undo = r#""kind":"struck-out","what":{"target":"$4"}"#;
    assert_eq!(count(&[(3, 3, five), (4, 3, four), (5, 3, undo)]), Some(5));
}

#[test]
fn corrections_of_different_parts_hold_together() {
    let garden = garden(&[
        (1, 1, FENCE),
        (2, 9, KALE),
        (3, 10, r#""kind":"corrected","what":{"target":"$2","what":{"crop":"kale","count":5}}"#),
        (4, 10, r#""kind":"corrected","what":{"target":"$2","when":"2026-03-03T00:00"}"#),
        (5, 10, r#""kind":"corrected","what":{"target":"$2","about":{"bed":"shed"}}"#),
    ]);
    let (bed, planting) = garden.planting(Ulid(2)).unwrap();
    assert_eq!((bed.id.as_str(), planting.count, Some(planting.since)), ("shed", Some(5), day(3)));
    assert_eq!(garden.corrections(Ulid(2)).unwrap().hold, [Ulid(3), Ulid(4), Ulid(5)]);
}

#[test]
fn an_entry_written_later_for_an_earlier_day_lands_on_that_day() {
    let lost = r#""kind":"start-lost","about":{"start":"$1"},"what":{"count":4}"#;
    let pricked = r#""kind":"start-pricked-out","about":{"start":"$1"},"what":{"count":20}"#;
    // Lost before they were counted anew, though written down after.
    assert_eq!(garden(&[(1, 1, TRAY), (2, 9, pricked), (3, 5, lost)]).starts[0].left, Some(20));
    assert_eq!(garden(&[(1, 1, TRAY), (2, 9, pricked), (3, 10, lost)]).starts[0].left, Some(16));
}

#[test]
fn a_new_bed_gets_an_id_no_bed_has() {
    let id = |name: &str| Garden::default().free_bed_id(name);
    assert_eq!(id("Fence bed"), "fence-bed");
    assert_eq!(id("  Aunt's (long) bed! "), "aunts-long-bed");
    assert_eq!(id("Hochbeet Süd"), "hochbeet-süd");
    assert_eq!(id("畑の一番"), "畑の一番");
    assert_eq!(id("?!"), "bed");
    assert_eq!(id(&"long ".repeat(30)), "long-long-long-long-long");
    let taken = r#""kind":"bed","about":{"bed":"fence-2"},"what":{"name":"x"}"#;
    assert_eq!(garden(&[(1, 1, FENCE), (2, 1, taken)]).free_bed_id("Fence"), "fence-3");
}

#[test]
fn a_new_bed_of_the_record_gets_an_id_that_no_phone_has_given() {
    let id = |name: &str, entry: &str| {
        Garden::default().new_bed_id(name, crate::journal::id::read_id(entry).unwrap())
    };
    assert_eq!(id("Bed 1", "01KAXW7Y2Q3V4S5T6R7P8N9M0K"), "bed-1-n9m0k");
    assert_eq!(id("Bed 1", "01KAXW7Y2Q3V4S5T6R7P8N9M0M"), "bed-1-n9m0m");
    assert_eq!(id("½ barrel, by Ann’s", "01KAXW7Y2Q3V4S5T6R7P8N9M0K"), "½-barrel-by-ann-n9m0k");
    let longest = id(&"long ".repeat(30), "01KAXW7Y2Q3V4S5T6R7P8N9M0K");
    assert_eq!((longest.as_str(), longest.len()), ("long-long-long-lon-n9m0k", 24));
    let taken = r#""kind":"bed","about":{"bed":"bed-1-00003"},"what":{"name":"x"}"#;
    let garden = garden(&[(1, 1, taken)]);
    assert_eq!(garden.new_bed_id("Bed 1", Ulid(3)), "bed-1-00003-2");
}

/// What the record tells of the garden, without what it tells of itself.
fn facts(garden: Garden) -> Garden {
    Garden {
        struck: Vec::new(),
        corrected: Vec::new(),
        corrected_later: Vec::new(),
        unplaced: Vec::new(),
        ..garden
    }
}

fn any_texts() -> impl Strategy<Value = Vec<String>> {
    let text = prop_oneof![3 => any_good_text(), 1 => any_second_thought()];
    prop::collection::vec(text, 0..40)
}

fn journal_of(texts: &[String]) -> Journal {
    let mut journal = Journal::default();
    for text in texts {
        journal.add(text);
    }
    journal
}

proptest! {
    #[test]
    fn the_order_in_which_entries_came_does_not_matter(
        (texts, shuffled) in any_texts()
            .prop_flat_map(|texts| (Just(texts.clone()), Just(texts).prop_shuffle())),
    ) {
        prop_assert_eq!(Garden::fold(&journal_of(&texts)), Garden::fold(&journal_of(&shuffled)));
    }

    #[test]
    fn files_fold_alike_however_the_record_was_split_and_in_whatever_order_they_came(
        texts in prop::collection::vec(prop_oneof![1 => any_good_text(), 1 => any_second_thought()], 0..40),
        of_file in prop::collection::vec(0..3_usize, 40),
        order in Just([0, 1, 2]).prop_shuffle(),
    ) {
        let file_of = |file: usize| {
            let texts = texts.iter().zip(&of_file).filter(|(_, of)| **of == file);
            file::write(&journal_of(&texts.map(|(text, _)| text.clone()).collect::<Vec<_>>()))
        };
        let mut merged = Journal::default();
        for file in order {
            merged.merge(&file::read(&file_of(file)).unwrap().journal);
        }
        prop_assert_eq!(Garden::fold(&merged), Garden::fold(&journal_of(&texts)));
    }

    #[test]
    fn an_entry_struck_is_as_if_never_written(texts in any_texts(), which: prop::sample::Index) {
        prop_assume!(!texts.is_empty());
        let journal = journal_of(&texts);
        let target = which.get(&journal.entries().map(|entry| entry.id).collect::<Vec<_>>()).to_owned();
        let mut without = Journal::default();
        for (_, held) in journal.held().filter(|(id, _)| *id != target) {
            for text in held.texts() {
                without.add(text);
            }
        }
        let mut struck = journal;
        struck.add(&entry_text(90, 0, &format!(r#""kind":"struck-out","what":{{"target":"{target}"}}"#)));
        let garden = Garden::fold(&struck);
        prop_assert!(garden.is_struck(target));
        prop_assert_eq!(facts(garden), facts(Garden::fold(&without)));
    }

    #[test]
    fn undoing_an_undoing_restores(texts in any_texts(), which: prop::sample::Index) {
        prop_assume!(!texts.is_empty());
        let before = journal_of(&texts);
        let target = which.get(&before.entries().map(|entry| entry.id).collect::<Vec<_>>()).to_owned();
        let mut after = before.clone();
        for (id, target) in [(90, target), (91, Ulid(90))] {
            after.add(&entry_text(id, 0, &format!(r#""kind":"struck-out","what":{{"target":"{target}"}}"#)));
        }
        let (before, mut after) = (Garden::fold(&before), Garden::fold(&after));
        prop_assert_eq!(after.struck.pop(), Some(Ulid(90)));
        prop_assert_eq!(after, before);
    }

    #[test]
    fn a_corrected_date_is_as_if_written_so_at_once(
        texts in any_texts(), which: prop::sample::Index, minute in 0..28 * DAY,
    ) {
        let journal = journal_of(&texts);
        let told = journal.entries().filter(|entry| !entry.text().contains("\"target\"")).collect::<Vec<_>>();
        prop_assume!(!told.is_empty());
        let target = (*which.get(&told)).clone();
        let (mut corrected, mut at_once) = (journal.clone(), Journal::default());
        // A correction above every other id, so that it holds.
        let when = show_when(day(1).unwrap() + chrono::TimeDelta::minutes(minute.into()));
        let correction = format!(r#""kind":"corrected","what":{{"target":"{}","when":"{when}"}}"#, target.id);
        corrected.add(&entry_text(90, 0, &correction));
        for (id, held) in journal.held() {
            if id == target.id {
                at_once.add(&Entry { when: read_when(&when).unwrap(), ..target.clone() }.text());
            } else {
                for text in held.texts() {
                    at_once.add(text);
                }
            }
        }
        // Other corrections of its date would undo it in the second garden only.
        let dates = journal.entries().any(|entry| {
            let text = entry.text();
            text.contains("\"corrected\"") && text.contains("\"when\":\"2026-03-09T07:00\"}}")
                && text.contains(&format!("\"target\":\"{}\"", target.id))
        });
        prop_assume!(!dates);
        prop_assert_eq!(facts(Garden::fold(&corrected)), facts(Garden::fold(&at_once)));
    }

    #[test]
    fn everything_that_holds_is_in_the_book_once_and_in_order(texts in any_texts()) {
        let journal = journal_of(&texts);
        let garden = Garden::fold(&journal);
        let order = garden.happened.iter().map(|it| (it.entry.when, it.entry.id)).collect::<Vec<_>>();
        prop_assert!(order.is_sorted());
        let ids = order.iter().map(|(_, id)| *id).collect::<BTreeSet<_>>();
        prop_assert_eq!(ids.len(), order.len());
        for entry in journal.entries() {
            let of_itself = entry.text().contains("\"target\"");
            let held = !of_itself && !garden.is_struck(entry.id);
            prop_assert_eq!(ids.contains(&entry.id), held);
        }
    }

    #[test]
    fn no_plant_is_made_up(texts in any_texts()) {
        for bed in Garden::fold(&journal_of(&texts)).beds {
            for planting in bed.plantings.iter().chain(&bed.past) {
                prop_assert!(planting.left <= planting.count);
            }
            prop_assert!(bed.past.iter().all(|planting| planting.ended >= Some(planting.since)));
            prop_assert!(bed.plantings.iter().all(|planting| planting.ended.is_none()));
        }
    }
}
