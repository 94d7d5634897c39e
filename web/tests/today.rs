//! Ways through what must be decided today, without a browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use chrono::TimeDelta;
use serde_json::json;
use walk::Walk;

impl Walk {
    fn begin() -> Self {
        Self::at("2026-11-25T08:00:00")
    }

    /// With the invented garden, on the screen of questions.
    fn look_round() -> Self {
        let mut walk = Self::begin();
        walk.event("click", "demo", &json!({}));
        walk.go("#/");
        walk
    }

    /// The address behind the row that begins so.
    fn leads(&self, words: &str) -> &str {
        let before = self.page.split(words).next().unwrap();
        let address = before.rsplit("href=\"").next().unwrap();
        address.split('"').next().unwrap()
    }

    fn follow(&mut self, words: &str) {
        self.sees(words);
        let to = self.leads(words).to_owned();
        self.go(&to);
    }
}

fn bed() -> serde_json::Value {
    json!({"bed": {"name": "Fence bed", "length": "8", "width": "4"}})
}

#[test]
fn an_empty_record_shows_the_questions_at_once() {
    let walk = Walk::begin();
    walk.sees("How many fit here?");
    walk.lacks("id=\"today\"");
    walk.lacks("Nothing to decide");
}

#[test]
fn where_nothing_is_due_it_says_until_when() {
    let mut walk = Walk::begin();
    walk.go("#/beds/new");
    walk.event("submit", "save-bed", &bed());
    walk.go("#/");
    walk.sees("Nothing to decide today");
    walk.go("#/bed/fence-bed-ge1r7");
    let note = json!({"note": "2026-11-28: Look at the mulch."});
    walk.event("submit", "note:fence-bed-ge1r7", &note);
    walk.go("#/");
    walk.sees("Nothing to decide before Sat 28 Nov: look at the mulch");
    walk.sees("How many fit here?");
}

#[test]
fn an_entry_that_cant_be_read_is_told_and_can_be_looked_at() {
    let mut walk = Walk::begin();
    let entry = r#"{"v":1,"id":"00000000000000000000000002","when":"2026-02-01T10:00","kind":"start-sown","what":{"crop":"cabbage","count":"plenty"}}"#;
    let text = format!(r#"{{"pegline":1,"entries":[{entry}]}}"#);
    walk.event("file", "copy", &json!({ "text": text }));
    walk.event("click", "take-in", &json!(null));
    walk.go("#/");
    walk.sees("1 entry of the record can't be read, and nothing here rests on it.");
    walk.follow("See what is kept aside");
    walk.sees("Set aside: 1");
    walk.sees("Its details cannot be read: count is not a whole number");
    walk.sees("&quot;count&quot;:&quot;plenty&quot;");
}

#[test]
fn each_row_leads_to_its_question_filled_in() {
    for (row, there) in [
        ("Read tonight's low", "Cold tonight?"),
        ("Plant, repot or give away Cauliflower tray", "Past its best"),
        ("Look for seedlings of spinach in Wall bed", "11 Nov"),
        ("Look at swiss chard in Low bed", "Is it ready?"),
        ("Take the cover off Rain barrel bed", "Cold tonight?"),
        ("Plant Fence bed again", "Plant today, right through it"),
        ("Lift the burlap and compare both halves", "Long bed"),
    ] {
        let mut walk = Walk::look_round();
        walk.follow(row);
        walk.sees(there);
    }
}

#[test]
fn what_is_due_now_is_told_in_words_and_not_by_colour_alone() {
    let walk = Walk::look_round();
    walk.sees("10 things to decide today");
    walk.sees("Overdue since 20 Nov");
    walk.sees("By Thu 3 Dec");
    walk.sees("And 7 more");
    let now = walk.page.find("Read tonight's low").unwrap();
    let later = walk.page.find("Plant Fence bed again").unwrap();
    assert!(now < later && later < walk.page.find("How many fit here?").unwrap());
}

#[test]
fn a_note_and_a_cover_are_ticked_off_in_one_tap() {
    let mut walk = Walk::look_round();
    for (words, verb) in
        [("Lift the burlap", "ahead-done"), ("Take the cover off Rain barrel bed", "covers-off")]
    {
        walk.sees(words);
        let action = walk.page.split(&format!("data-action=\"{verb}:")).nth(1).unwrap();
        let action = format!("{verb}:{}", action.split('"').next().unwrap());
        walk.event("click", &action, &json!({}));
        walk.sees("Written");
        let rows = walk.page.split("id=\"today\"").nth(1).unwrap().to_owned();
        assert!(!rows.contains(words), "{words} is still due");
    }
    walk.sees("8 things to decide today");
    let rain = walk.app.garden().bed("rain-barrel-bed").unwrap();
    assert!(rain.covered.is_none());
}

#[test]
fn the_next_morning_it_is_the_next_day_s() {
    let mut walk = Walk::look_round();
    let list = |walk: &Walk| {
        let (_, from) = walk.page.split_once("<section id=\"today\">").unwrap();
        from.split("</section>").next().unwrap().to_owned()
    };
    let before = list(&walk);
    walk.event("looked", "", &json!({}));
    assert_eq!(list(&walk), before);
    walk.local += TimeDelta::hours(24);
    walk.event("looked", "", &json!({}));
    assert_ne!(list(&walk), before);
}
