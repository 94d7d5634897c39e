//! Keeping the record: lines on their way to IndexedDB, and what came of them.

use pegline_core::{
    garden::Garden,
    journal::{Entry, Journal, line},
};
use serde_json::Value;

use crate::state::{App, Effect, Pending};
use crate::store::Line;

impl App {
    /// Takes in what was told of storage; not whether it was anything else.
    pub(super) fn take_kept(&mut self, name: &str, fields: &Value) {
        let texts = |name: &str| -> Vec<String> {
            let texts = fields.get(name).and_then(Value::as_array).into_iter().flatten();
            texts.filter_map(Value::as_str).map(str::to_owned).collect()
        };
        let more = match name {
            // Another tab has written, or may have.
            "storage" | "looked" => {
                self.look();
                self.store.read_quick()
            }
            "found" => {
                let seen = fields.get("witness").unwrap_or(&Value::Null);
                let (missing, lacking) = self.store.found(&texts("keys"), seen);
                if !missing.is_empty() {
                    self.effects.push(Effect::Fetch(missing));
                }
                if !lacking.is_empty() {
                    self.send(lacking);
                }
                false
            }
            "late" => self.store.read_late(lines(fields.get("lines"))),
            "not-found" => {
                self.store.not_found();
                false
            }
            "kept" | "not-kept" => {
                self.told(name == "kept", &texts("keys"));
                false
            }
            _ => false,
        };
        if more && !self.is_demo {
            self.refold();
        }
    }

    /// Looks what IndexedDB has.
    pub(super) fn look(&mut self) {
        if self.store.lasts() {
            self.effects.push(Effect::Look);
        }
    }

    /// Folds the store's lines anew.
    pub(super) fn read_store(&mut self) {
        let mut journal = Journal::default();
        for (key, value) in self.store.lines() {
            journal.add_line(key, value);
        }
        self.garden = Garden::fold(&journal).into();
        self.journal = journal;
    }

    /// The same while a screen is open, whose form stays where anything was typed in it.
    fn refold(&mut self) {
        self.read_store();
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

    /// IndexedDB has the lines under these keys, or refused them all.
    fn told(&mut self, kept: bool, keys: &[String]) {
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
                self.refuse(told);
            }
        }
    }

    /// Gives up what was not written, and shows again what was typed.
    fn refuse(&mut self, refused: Pending) {
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
        self.said = Some(
            "Not written: this phone's storage for the app is full or takes nothing. Nothing was lost; share a copy in the Book, then make room.".to_owned(),
        );
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
