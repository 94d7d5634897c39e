//! What screens may know of the page's state.

use std::rc::Rc;

use chrono::NaiveDate;
use maud::{Markup, html};
use pegline_core::{
    ask::{Answer, ask},
    garden::Garden,
    given::Fault,
    journal::{Entry, Journal, file},
    quantity::System,
    record::{says, trays},
    text,
    time::iso,
};

use serde_json::Value;

use super::{App, Newer, Opens, TakingIn};
use crate::{clock::Now, forms::Form, route::Route, store::Witness};

/// So many letters are short enough for the bar at the foot.
const SHORT: usize = 90;

impl App {
    /// The garden.
    pub fn garden(&self) -> &Garden {
        &self.garden
    }

    /// The record.
    pub fn journal(&self) -> &Journal {
        &self.journal
    }

    /// The beds that are there.
    pub fn beds(&self) -> Vec<&pegline_core::garden::Bed> {
        self.garden.beds.iter().filter(|bed| bed.gone.is_none()).collect()
    }

    /// The tray of this id.
    pub fn start(&self, id: &str) -> Option<&pegline_core::garden::Start> {
        self.garden.starts.iter().find(|start| start.id.to_string() == id)
    }

    /// The trays of the garden, as they are asked about today.
    pub fn trays_today(&self) -> pegline_core::asking::Asking<'_> {
        trays::asking(&self.garden, self.now.today())
    }

    /// The answer to a question of these fields, asked of the garden today.
    pub fn asked(&self, topic: &str, fields: &[(&str, &str)]) -> Option<Answer> {
        let today = iso::show_date(self.now.today());
        let mut question = serde_json::Map::new();
        for (name, text) in [("topic", topic), ("today", &today)].iter().chain(fields) {
            question.insert((*name).to_owned(), (*text).into());
        }
        ask(&question.into(), &self.garden).ok()
    }

    /// The entry of this id, corrections applied.
    pub fn entry(&self, id: &str) -> Option<&Entry> {
        self.garden.happened.iter().map(|it| &it.entry).find(|entry| entry.id.to_string() == id)
    }

    /// What stands in the form.
    pub fn form(&self) -> &Form {
        &self.form
    }

    /// Whether the form of the question is being filled in.
    pub fn is_asking(&self) -> bool {
        self.asking
    }

    /// What is asked, in a few words.
    pub fn asked_told(&self) -> String {
        let bed = |id: &str| self.garden.bed(id).map(|bed| bed.name.clone());
        let told = self.form.told(self.system(), self.now.today(), &bed);
        if told.is_empty() { "As your record has it".to_owned() } else { told.join(", ") }
    }

    /// The faults of what stands in the form.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// The answer to what stands in the form.
    pub fn answer(&self) -> Option<&Answer> {
        self.answer.as_ref().and_then(|answer| answer.as_ref().ok())
    }

    /// The system of units.
    pub fn system(&self) -> System {
        self.garden.units()
    }

    /// Where the gardener is.
    pub fn route(&self) -> &Route {
        &self.route
    }

    /// Now.
    pub fn now(&self) -> &Now {
        &self.now
    }

    /// Whether nothing is in the record.
    pub fn is_empty(&self) -> bool {
        self.journal.is_empty()
    }

    /// What was here and can't be found any more; nothing while it is still being looked for.
    pub fn lost(&self) -> Option<Witness> {
        self.store.lost().filter(|_| !self.is_demo)
    }

    /// How many entries the phone has kept.
    pub fn entries(&self) -> usize {
        self.store.entries()
    }

    /// Whether nothing was ever written here: known once all storage was read.
    pub fn is_new(&self) -> bool {
        self.is_empty() && self.store.is_read() && self.lost().is_none()
    }

    /// What is about to be taken in.
    pub fn taking_in(&self) -> Option<&Result<TakingIn, String>> {
        self.taking_in.as_ref()
    }

    /// How many more of the Book's entries are shown than the newest.
    pub fn older(&self) -> usize {
        self.older
    }

    /// What each entry of the garden says, in small letters, oldest first. Made once for a garden: each letter
    /// that is looked for goes through all of them.
    pub fn words(&self) -> Rc<[String]> {
        let mut kept = self.words.borrow_mut();
        if let Some((garden, words)) = kept.as_ref()
            && Rc::ptr_eq(garden, &self.garden)
        {
            return Rc::clone(words);
        }
        let happened = self.garden.happened.iter().map(|it| &it.entry);
        let says = |entry: &Entry| text::small(&says(&entry.about, &entry.what, &self.garden));
        let words: Rc<[String]> = happened.map(says).collect();
        *kept = Some((Rc::clone(&self.garden), Rc::clone(&words)));
        words
    }

    /// When a copy was last handed over, and how many entries were written on later days; nothing where
    /// that is not known, or nothing is here to be copied.
    pub fn last_copy(&self) -> Option<(Option<NaiveDate>, u32)> {
        if self.is_demo || self.is_empty() || !self.store.lasts() || !self.store.is_read() {
            return None;
        }
        let copied = self.store.witness().copied;
        let later = |entry: &&Entry| copied.is_none_or(|day| self.now.day_of(entry.id) > day);
        let since = self.journal.entries().filter(later).count();
        Some((copied, u32::try_from(since).unwrap_or(u32::MAX)))
    }

    /// The copy as text, where it is to be copied by hand.
    pub fn copy(&self) -> Option<String> {
        self.shows_copy.then(|| file::write(&self.journal))
    }

    /// Whether it is the invented garden that is shown.
    pub fn is_demo(&self) -> bool {
        self.is_demo
    }

    /// Today, as the line on top has it.
    pub fn day_words(&self) -> String {
        let today = self.now.today();
        let weekday = text::weekday(today);
        format!("{weekday} {}", text::day(today, Some(today)))
    }

    /// Whether and how the record is kept, in a sentence.
    pub fn kept_words(&self) -> &'static str {
        match (self.store.lasts(), self.persisted) {
            (false, _) => {
                "This browser refuses storage, so the record is gone when the page closes. Share a copy before that."
            }
            (true, Some(true)) => "On this phone; the browser has promised to keep it.",
            (true, Some(false)) => {
                "On this phone. The browser may clear it when space runs short: install the app, or share a copy now and then."
            }
            (true, None) => "On this phone.",
        }
    }

    /// Whether the app opens without a network, in a sentence.
    pub fn opens_words(&self) -> &'static str {
        match self.opens {
            Opens::Unknown => "Not looked at yet.",
            Opens::Yes => "Yes: all of the app is on this phone.",
            Opens::NotYet => {
                "Not yet: not all of the app has come. It is tried again by itself, as soon as there is signal."
            }
            Opens::Never => {
                "No: this browser keeps no app here, as in a private window or at an address without https."
            }
        }
    }

    /// Lines above a screen: what was just done, and what the gardener should know.
    pub fn notices(&self) -> Markup {
        html! {
            div id="notices" role="status" aria-live="polite" {
                @if let Some(said) = &self.said {
                    // What can't be undone and takes many words would hide the form it speaks of.
                    @if self.undoable.is_empty() && said.len() > SHORT { p.notice.said { (said) } }
                    @else { div.saved {
                        p { (said) }
                        @if !self.undoable.is_empty() { button.plain type="button" data-action="undo" { "Undo" } }
                    } }
                }
            }
            @if self.is_demo {
                div.notice {
                    "An invented garden: nothing is kept."
                    button.plain type="button" data-action="leave-demo" { "Back to my own" }
                }
            }
            @if !self.store.lasts() && !self.is_demo { p.notice { (self.kept_words()) } }
            @if self.store.is_late() && !self.is_demo { p.notice { "This browser writes the record late: what was just written can be gone if the phone goes off within a minute. Share a copy in the Book." } }
            @if self.store.is_nearly_full() { p.notice { "This browser has room for few entries more. Share a copy in the Book and take it in with another browser, which keeps more." } }
            @match self.newer {
                Newer::No => {}
                Newer::Waits => div.notice {
                    "A newer version is ready."
                    button.plain type="button" data-action="update" { "Take it now" }
                },
                Newer::Elsewhere => p.notice { "A newer version runs in another tab. Reload here when it suits you." },
            }
        }
    }

    /// The question's own fields as the door takes them.
    pub(crate) fn question_of(&self, fields: &Value) -> Value {
        let mut question = self.form.completed(fields, self.system());
        // These two belong to the entry that is written, not to what is asked.
        if let Value::Object(fields) = &mut question {
            fields.remove("when");
            fields.remove("entry");
        }
        question
    }

    /// The question that stands in the form.
    pub fn question(&self) -> Value {
        self.question_of(&self.form.nested())
    }
}
