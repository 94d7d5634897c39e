//! Keeping the record: lines on their way to IndexedDB, and what came of them.

use pegline_core::{
    garden::Garden,
    journal::{
        Added, Entry, Journal,
        line::{self, ENTRY_KEYS},
    },
};
use serde_json::Value;

use crate::state::{App, Effect, Pending};
use crate::store::Line;

const FULL: &str = "Not written: the phone is full, or this browser grants the app no more. What was written before is kept. Make room on the phone (pictures, films, other apps), then write it again";
const TAKES_NOTHING: &str = "Not written: this browser\u{2019}s storage takes nothing. What was written before is kept. Share a copy in the Book, then close the browser, open it and write it again";

impl App {
    /// Takes in what was told of storage; not whether it was anything else.
    pub(super) fn take_kept(&mut self, name: &str, fields: &Value) {
        let new = match name {
            // Another tab has written: what it told of needs not be read.
            "storage" => {
                let mut new = self.store.heard(lines(fields.get("lines")));
                new.extend(self.store.look_quick());
                self.look();
                new
            }
            // It may have.
            "looked" => {
                self.look();
                self.store.look_quick()
            }
            "found" => {
                self.found(fields);
                Vec::new()
            }
            "late" => self.store.read_late(lines(fields.get("lines"))),
            "not-found" => {
                self.store.not_found();
                Vec::new()
            }
            "kept" | "not-kept" => {
                let is_full = fields.get("full").is_some_and(|full| *full == true);
                self.told(name == "kept", &texts(fields, "keys").unwrap_or_default(), is_full);
                Vec::new()
            }
            _ => Vec::new(),
        };
        if !new.is_empty() && !self.is_demo {
            self.take_lines(&new);
        }
    }

    /// IndexedDB has these keys, or as many as are known.
    fn found(&mut self, fields: &Value) {
        let seen = fields.get("witness").unwrap_or(&Value::Null);
        let keys = texts(fields, "keys");
        let (missing, lacking) = self.store.found(keys.as_deref(), seen);
        if !missing.is_empty() {
            self.effects.push(Effect::Fetch(missing));
        }
        if !lacking.is_empty() {
            self.send(lacking);
        }
    }

    /// Looks what IndexedDB has.
    pub(super) fn look(&mut self) {
        if self.store.lasts() {
            self.effects.push(Effect::Look(self.store.known()));
        }
    }

    /// Folds the store's lines anew.
    pub(super) fn read_store(&mut self) {
        self.journal = Journal::default();
        let damaged = add_to(&mut self.journal, self.store.lines());
        self.store.trust_all_but(damaged);
        self.garden = Garden::fold(&self.journal).into();
    }

    /// Takes in further lines of the store while a screen is open, whose form stays where anything was typed
    /// in it.
    fn take_lines(&mut self, new: &[Line]) {
        let damaged = add_to(&mut self.journal, new);
        self.store.distrust(damaged);
        self.garden = Garden::fold(&self.journal).into();
        if !self.form.is_typed_in() {
            self.form = self.fresh_form(&self.route);
        }
        self.ask_again();
    }

    /// Writes lines, and says `words` once they are written.
    pub(super) fn put(&mut self, lines: Vec<Line>, words: String) {
        if self.is_demo {
            self.said = Some(format!("{words} (invented garden: not kept)"));
            return;
        }
        let in_quick = self.store.write(&lines);
        if lines.is_empty() || !self.store.lasts() {
            self.said = Some(words);
            return;
        }
        self.send(lines.clone());
        if self.persisted.is_none() {
            self.effects.push(Effect::Persist);
        }
        let (route, form) = (self.route.clone(), self.form.clone());
        let pending = Pending { lines, words, in_quick, route, form };
        self.said = Some(pending.writing());
        self.pending.push(pending);
    }

    /// Gives lines to IndexedDB, and with them what it is to remember.
    pub(super) fn send(&mut self, lines: Vec<Line>) {
        self.effects.push(Effect::Keep { lines, witness: self.store.witness() });
    }

    /// IndexedDB has the lines under these keys, or refused them all: there may be no room.
    fn told(&mut self, kept: bool, keys: &[String], is_full: bool) {
        self.store.told(kept);
        // All lines of one writing share its fate, so that the first tells.
        let is_told =
            |pending: &Pending| pending.lines.first().is_none_or(|(first, _)| keys.contains(first));
        let pending = std::mem::take(&mut self.pending);
        let (told, pending): (Vec<_>, Vec<_>) = pending.into_iter().partition(is_told);
        self.pending = pending;
        for told in told {
            // What nothing has kept lives on in memory where there is no storage at all.
            if kept || told.in_quick || !self.store.lasts() {
                if self.said == Some(told.writing()) {
                    let late = if self.store.is_late() { " (for now)" } else { "" };
                    self.said = Some(told.words + late);
                }
            } else {
                self.refuse(told, is_full);
            }
        }
    }

    /// Gives up what was not written, and shows again what was typed.
    fn refuse(&mut self, refused: Pending, is_full: bool) {
        self.store.take_back(&refused.lines);
        self.undoable.clear();
        self.tapped = None;
        // What was sent since then may have counted these.
        self.send(Vec::new());
        if !self.is_demo {
            self.read_store();
            self.effects.push(Effect::Go(refused.route.address()));
            self.go(refused.route);
            self.form = refused.form;
            self.ask_again();
        }
        self.said = Some(if is_full { FULL } else { TAKES_NOTHING }.to_owned());
    }

    /// A copy was handed over today.
    pub(super) fn copied(&mut self) {
        if !self.is_demo && self.store.lasts() {
            self.store.handed_over(self.now.today());
            self.send(Vec::new());
        }
    }

    /// Goes on without what the store has lost.
    pub(super) fn forget_lost(&mut self) {
        self.store.forget_lost();
        self.send(Vec::new());
    }
}

/// Adds lines of storage to a record; gives the keys of those that can't be trusted.
fn add_to(journal: &mut Journal, lines: &[Line]) -> Vec<String> {
    let strays =
        lines.iter().filter(|(key, line)| journal.add_line(key, line) == Some(Added::Stray));
    strays.map(|(key, _)| key).filter(|key| key.starts_with(ENTRY_KEYS)).cloned().collect()
}

/// A list of texts; nothing where there is none.
fn texts(fields: &Value, name: &str) -> Option<Vec<String>> {
    let texts = fields.get(name)?.as_array()?.iter();
    Some(texts.filter_map(Value::as_str).map(str::to_owned).collect())
}

/// Keys and texts, as the page's script gives them.
fn lines(given: Option<&Value>) -> Vec<Line> {
    let line = |pair: &Value| {
        let text = |at: usize| Some(pair.get(at)?.as_str()?.to_owned());
        Some((text(0)?, text(1)?))
    };
    given.and_then(Value::as_array).into_iter().flatten().filter_map(line).collect()
}

/// The lines that keep these entries.
pub(super) fn lines_of(entries: &[Entry]) -> Vec<Line> {
    let line = |entry: &Entry| {
        let text = entry.text();
        let [key, _] = line::keys(entry.id, &text);
        (key, line::encode(&text))
    };
    entries.iter().map(line).collect()
}
