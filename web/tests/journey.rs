//! Whole ways through the screens, without a browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use pegline_core::journal::file;
use pegline_web::app::Effect;
use serde_json::{Value, json};
use walk::Walk;

impl Walk {
    fn begin() -> Self {
        Self::at("2026-11-25T08:00:00")
    }
}

fn fourteen_cabbages() -> Value {
    json!({
        "bed": {"length": "8", "width": "4", "name": "Fence bed",
                "drip": {"lines": "4", "line_spacing": "12", "emitter_spacing": "9"}},
        "plants": [{"crop": "cabbage", "spacing": "18", "on_hand": "14"}],
    })
}

fn planted() -> Walk {
    let mut walk = Walk::begin();
    walk.go("#/ask/plants-per-bed");
    walk.event("submit", "answer", &fourteen_cabbages());
    walk.event("submit", "write", &json!({}));
    walk
}

#[test]
fn the_verdict_comes_while_typing_and_nothing_typed_is_lost() {
    let mut walk = Walk::begin();
    walk.go("#/ask/plants-per-bed");
    walk.event("input", "plants.0.on_hand", &fourteen_cabbages());
    walk.sees("All 14 fit at 15 in");
    walk.sees("At 18 in 12 fit and 2 are left over");
    let mut wrong = fourteen_cabbages();
    wrong["bed"]["width"] = "fore feet".into();
    walk.event("submit", "answer", &wrong);
    walk.sees("value=\"fore feet\"");
    walk.sees("value=\"cabbage\"");
    walk.sees("aria-invalid=\"true\"");
    walk.sees("Please fix");
}

#[test]
fn an_answer_is_written_with_its_bed_and_found_in_the_record() {
    let mut walk = planted();
    walk.sees("Written: Fence bed laid out and 14 cabbage planted in Fence bed");
    walk.go("#/bed/fence-bed-ge1r7");
    walk.sees("14 cabbage since 25 Nov");
    walk.sees("Line 1: holes 1, 3, 5, 7.");
    walk.go("#/book");
    walk.sees("14 cabbage planted in Fence bed, 15 in between");
}

#[test]
fn what_is_in_already_keeps_its_room() {
    let mut walk = planted();
    walk.go("#/ask/plants-per-bed/fence-bed-ge1r7");
    walk.event(
        "submit",
        "answer",
        &json!({"bed": "fence-bed-ge1r7", "plants": [{"crop": "kale"}]}),
    );
    walk.sees("The 14 plants already in keep their room.");
}

#[test]
fn an_entry_can_be_backdated_corrected_and_undone() {
    let mut walk = Walk::begin();
    walk.go("#/ask/plants-per-bed");
    walk.event("submit", "answer", &fourteen_cabbages());
    walk.event("submit", "write", &json!({"when": "2026-11-17T16:30"}));
    walk.go("#/bed/fence-bed-ge1r7");
    walk.sees("14 cabbage since 17 Nov");

    let planted = walk.app.garden().happened.last().unwrap().entry.id.to_string();
    walk.go(&format!("#/book/{planted}"));
    walk.event(
        "submit",
        &format!("correct:{planted}"),
        &json!({"when": "2026-11-18T09:00", "what": {"crop": "cabbage", "count": "12", "spacing": "15 in", "variety": "Blue Peg"}}),
    );
    walk.go("#/bed/fence-bed-ge1r7");
    walk.sees("12 cabbage since 18 Nov");
    walk.sees("(Blue Peg)");

    walk.event("click", &format!("strike:{planted}"), &Value::Null);
    walk.sees("Nothing in it yet");
    assert_eq!(walk.app.journal().len(), 4, "undoing and correcting are entries too");
}

#[test]
fn a_moment_that_cannot_be_read_writes_nothing() {
    let mut walk = Walk::begin();
    walk.go("#/ask/plants-per-bed");
    walk.event("submit", "answer", &fourteen_cabbages());
    walk.event("submit", "write", &json!({"when": "last Tuesday"}));
    walk.sees("no moment can be read from it");
    assert!(walk.app.journal().is_empty());
}

#[test]
fn a_copy_goes_out_and_comes_in_on_another_phone() {
    let mut walk = planted();
    walk.go("#/book");
    walk.event("click", "hand-over", &Value::Null);
    let text =
        match walk.app.effects().into_iter().find(|effect| matches!(effect, Effect::File { .. })) {
            Some(Effect::File { text, .. }) => text,
            _ => panic!("no file is handed over"),
        };
    assert_eq!(text, file::write(walk.app.journal()));

    let mut other = Walk::begin();
    other.go("#/book");
    other.event("file", "copy", &json!({ "text": text }));
    other.sees("This copy adds 2 entries; 0 entries are here already.");
    assert!(other.app.journal().is_empty(), "nothing is added before it is agreed to");
    other.event("click", "take-in", &Value::Null);
    other.sees("Taken in: 2 entries");
    assert_eq!(other.app.beds()[0].name, "Fence bed");
    other.event("file", "copy", &json!({ "text": text }));
    other.sees("This copy adds 0 entries; 2 entries are here already.");
}

#[test]
fn a_hostile_copy_is_refused_and_the_record_stays() {
    let mut walk = planted();
    walk.go("#/book");
    for text in ["", "[]", "{\"pegline\":", &"[".repeat(100_000), "<script>alert(1)</script>"] {
        walk.event("file", "copy", &json!({ "text": text }));
        walk.sees("role=\"alert\"");
        assert_eq!(walk.app.journal().len(), 2);
    }
}

#[test]
fn words_of_the_gardener_are_shown_as_words() {
    let mut walk = planted();
    walk.go("#/bed/fence-bed-ge1r7");
    walk.event("submit", "note:fence-bed-ge1r7", &json!({"note": "<img src=x onerror=alert(1)>"}));
    walk.sees("&lt;img src=x onerror=alert(1)&gt;");
    walk.lacks("<img");
}

#[test]
fn a_note_too_long_for_an_entry_is_kept_in_its_field() {
    let mut walk = planted();
    walk.go("#/bed/fence-bed-ge1r7");
    let long = "x".repeat(500);
    walk.event("submit", "note:fence-bed-ge1r7", &json!({ "note": long }));
    walk.sees(&long);
    assert_eq!(walk.app.journal().len(), 2);
}

#[test]
fn the_invented_garden_is_never_kept() {
    let mut walk = Walk::begin();
    walk.event("click", "demo", &Value::Null);
    walk.sees("An invented garden");
    walk.go("#/bed/fence-bed-ge1r7");
    walk.event("submit", "note:fence-bed-ge1r7", &json!({"note": "looked round"}));
    walk.sees("not kept");
    walk.event("click", "leave-demo", &Value::Null);
    assert!(walk.app.journal().is_empty());
}

#[test]
fn settings_change_what_is_printed_and_keep_the_place() {
    let mut walk = Walk::begin();
    walk.go("#/settings");
    walk.event(
        "submit",
        "save-settings",
        &json!({"units": "metric", "site": {"latitude": "45.5 N", "coldest": {"low": "-2", "high": "5"}, "hottest": {"low": "14", "high": "27"}}}),
    );
    walk.sees("Settings kept");
    walk.sees("Your year");
    walk.go("#/ask/soil-temperature");
    walk.event("input", "depth", &json!({"depth": "10"}));
    walk.sees("°C at 10 cm");
    walk.go("#/settings");
    walk.sees("value=\"45.5 N\"");
    walk.event("submit", "save-settings", &json!({"units": "metric", "site": {"latitude": "95"}}));
    walk.sees("lies beyond the pole");
    walk.sees("value=\"95\"");
}

#[test]
fn a_name_is_given_to_one_bed_only() {
    let mut walk = planted();
    walk.go("#/beds/new");
    walk.event(
        "submit",
        "save-bed:",
        &json!({"bed": {"name": "Fence bed", "length": "6", "width": "3"}}),
    );
    walk.sees("another bed is called so");
    walk.sees("value=\"Fence bed\"");
}

#[test]
fn a_bed_of_any_name_opens_from_the_list() {
    for name in [
        "Café bed",
        "½ barrel",
        "Ann’s bed",
        "Ann's bed",
        "Küchenbeet",
        "Señor Ñ",
        "Bed #2 / 50%",
        "畑",
        "Грядка",
        "Carrots 🥕",
        "\u{65}\u{301}t\u{e9}",
    ] {
        let mut walk = Walk::begin();
        walk.go("#/beds/new");
        let bed = json!({"bed": {"name": name, "length": "8", "width": "4"}});
        walk.event("submit", "save-bed:", &bed);
        walk.go("#/beds");
        let (before, _) = walk.page.split_once(&name.replace('&', "&amp;")).unwrap();
        let (_, address) = before.rsplit_once("href=\"").unwrap();
        let address = address.split('"').next().unwrap().to_owned();
        assert!(address.is_ascii(), "{address}");
        walk.go(&address);
        walk.sees(&format!("<h1>{name}</h1>"));
        walk.sees("Ask about this bed");
        walk.go(&format!("{address}/change"));
        walk.sees("Change this bed");
        walk.sees(&format!("value=\"{name}\""));
    }
}

#[test]
fn what_is_undone_can_be_brought_back() {
    let mut walk = planted();
    let [laid_out, planting] = [0, 1].map(|at| walk.app.garden().happened[at].entry.id.to_string());
    walk.go(&format!("#/book/{planting}"));
    walk.lacks("If it is undone");
    walk.event("click", &format!("strike:{planting}"), &Value::Null);
    walk.go("#/book");
    walk.sees("<summary>Undone (1)</summary>");
    walk.sees("14 cabbage planted in Fence bed");
    walk.event("click", &format!("bring-back:{planting}"), &Value::Null);
    walk.sees("Brought back: it counts again");
    walk.lacks("Undone (");
    walk.go("#/bed/fence-bed-ge1r7");
    walk.sees("14 cabbage since 25 Nov");

    // A bed's only description: what goes is said before, and what is in it stays.
    walk.go(&format!("#/book/{laid_out}"));
    walk.sees("If it is undone: Its name and its size go with it.");
    walk.event("click", &format!("strike:{laid_out}"), &Value::Null);
    walk.go("#/beds");
    walk.sees("fence-bed-ge1r7");
    walk.go("#/bed/fence-bed-ge1r7");
    walk.sees("14 cabbage since 25 Nov");
    walk.go("#/book");
    walk.sees("Fence bed laid out");
    walk.event("click", &format!("bring-back:{laid_out}"), &Value::Null);
    walk.go("#/bed/fence-bed-ge1r7");
    walk.sees("<h1>Fence bed</h1>");
    walk.sees("14 cabbage since 25 Nov");
    assert_eq!(walk.app.journal().len(), 6, "each second thought is an entry too");
    // Asked again it changes nothing.
    walk.event("click", &format!("bring-back:{laid_out}"), &Value::Null);
    assert_eq!(walk.app.journal().len(), 6);
}

#[test]
fn a_damaged_copy_gives_all_that_can_be_read_and_says_what_it_is() {
    let planted = planted();
    let text = file::write(planted.app.journal());
    for (text, said, adds) in [
        (text.replacen("\"kind\"", "\"kind", 1), "This copy is damaged at line 2.", "1 entry"),
        (text[..text.len() - 40].to_owned(), "This copy breaks off at line 3", "1 entry"),
        (
            text.replacen(":1,", ":2,", 1),
            "A newer version of Pegline wrote this copy.",
            "2 entries",
        ),
        (
            text.replace("Fence", "F\u{fffd}nce"),
            "saved in another encoding than UTF-8",
            "2 entries",
        ),
    ] {
        let mut walk = Walk::begin();
        walk.go("#/book");
        walk.event("file", "copy", &json!({ "text": text }));
        walk.sees(said);
        walk.sees(&format!("This copy adds {adds}"));
        walk.event("click", "take-in", &Value::Null);
        walk.sees(&format!("Taken in: {adds}"));
        walk.event("file", "copy", &json!({ "text": "" }));
        walk.lacks(said);
    }
}

#[test]
fn nothing_is_taken_in_while_the_invented_garden_is_shown() {
    let text = file::write(planted().app.journal());
    let mut walk = Walk::begin();
    walk.go("#/book");
    walk.event("file", "copy", &json!({ "text": text }));
    walk.sees("This copy adds 2 entries");
    walk.event("click", "demo", &Value::Null);
    let invented = walk.app.journal().len();
    walk.go("#/book");
    walk.lacks("type=\"file\"");
    walk.sees("go back to it first");
    walk.event("click", "take-in", &Value::Null);
    walk.event("file", "copy", &json!({ "text": text }));
    walk.lacks("This copy adds");
    walk.event("click", "take-in", &Value::Null);
    assert_eq!(walk.app.journal().len(), invented);
    walk.event("click", "leave-demo", &Value::Null);
    walk.go("#/book");
    walk.sees("type=\"file\"");
    assert!(walk.app.journal().is_empty());
}

#[test]
fn of_a_copy_only_what_is_known_is_said() {
    let mut walk = planted();
    walk.go("#/book");
    walk.event("handed-over", "downloaded", &Value::Null);
    walk.sees("The browser was given a copy to save.");
    walk.lacks("was saved");
    walk.event("handed-over", "not", &Value::Null);
    walk.lacks("The browser was given");
    walk.lacks("<textarea");
    walk.event("handed-over", "copy", &Value::Null);
    walk.sees("copy the text below");
    let (_, shown) = walk.page.split_once("<textarea").unwrap();
    let shown = shown.split_once('>').unwrap().1.split("</textarea>").next().unwrap();
    assert_eq!(shown.replace("&quot;", "\""), file::write(walk.app.journal()));
}

#[test]
fn while_one_types_the_form_stands_first_and_then_the_answer() {
    let mut walk = Walk::begin();
    walk.go("#/ask/plants-per-bed");
    walk.event("input", "plants.0.on_hand", &fourteen_cabbages());
    let place = |walk: &Walk, of: &str| walk.page.find(of).unwrap_or(usize::MAX);
    assert!(place(&walk, "id=\"question\"") < place(&walk, "class=\"verdict\""));
    walk.sees("See it");
    walk.event("submit", "answer", &fourteen_cabbages());
    walk.lacks("id=\"question\"");
    walk.lacks("See it");
    assert!(place(&walk, "class=\"plan\"") < place(&walk, "id=\"write\""));
    assert!(place(&walk, "id=\"write\"") < place(&walk, "id=\"told\""));
    walk.sees("cabbage, 14");
    walk.event("click", "change-question", &json!({}));
    walk.sees("value=\"cabbage\"");
    walk.sees("name=\"bed.length\"");
}

#[test]
fn what_was_written_is_undone_from_the_bar_and_can_be_brought_back() {
    let mut walk = planted();
    walk.sees("data-action=\"undo\"");
    walk.event("click", "undo", &json!({}));
    walk.sees("Undone");
    walk.lacks("data-action=\"undo\"");
    assert!(walk.app.garden().beds.is_empty(), "the bed went with its plants");
    walk.go("#/book");
    walk.lacks("Undone</p>");
    walk.sees("Bring it back");
}

#[test]
fn a_second_tap_within_seconds_writes_nothing_twice() {
    let mut walk = planted();
    walk.go("#/bed/fence-bed-ge1r7");
    let note = json!({"note": "slugs under the boards"});
    let at = walk.local;
    let notes = |walk: &Walk| walk.app.journal().len();
    let before = notes(&walk);
    walk.event("submit", "note:fence-bed-ge1r7", &note);
    // The clock of the second tap stands a second after the first, whether the form was emptied or not.
    for fields in [note.clone(), json!({"note": ""})] {
        walk.local = at + chrono::TimeDelta::seconds(1);
        walk.event("submit", "note:fence-bed-ge1r7", &fields);
    }
    assert_eq!(notes(&walk), before + 1);
    walk.sees("Written");
    // Typed again, or minutes later, it is meant.
    walk.event("typed", "note", &note);
    walk.event("submit", "note:fence-bed-ge1r7", &note);
    assert_eq!(notes(&walk), before + 2);
    walk.event("submit", "note:fence-bed-ge1r7", &note);
    assert_eq!(notes(&walk), before + 3);
}
