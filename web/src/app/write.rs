//! Writing to the record: forms and offers become entries, all of them or none.

use chrono::NaiveDateTime;
use pegline_core::{
    garden::Garden,
    given::{Fault, Refusal},
    harvest::picked::picked,
    journal::{About, Draft, Entry, Ulid, next_id},
    record,
    time::iso,
};
use serde_json::{Map, Value};

use super::keep::lines_of;
use crate::route::Route;
use crate::state::{App, Effect, group};

/// Reads a form into what it writes.
type ReadDrafts<'a> = dyn Fn(&Value, &Garden) -> Result<Vec<Draft>, Refusal> + 'a;

impl App {
    /// Writes what the answer offers, one entry after the other, all or none: what is done now, or
    /// `all` with what is noted for later, or only the one at a place in the list.
    pub(super) fn write_next(&mut self, which: &str) {
        let drafts = self.next();
        if let Ok(only) = which.parse() {
            if self.write(drafts.into_iter().skip(only).take(1).collect(), None) {
                self.ask_again();
            }
            return;
        }
        let mut drafts: Vec<Draft> =
            drafts.into_iter().filter(|draft| which == "all" || !record::is_ahead(draft)).collect();
        self.name_start(&mut drafts);
        let ids = self.ids_ahead(drafts.len());
        record::name_beds(&mut drafts, &ids, &self.garden);
        let start = drafts.iter().find_map(|draft| draft.about.start.clone());
        let bed = drafts.iter().find_map(|draft| draft.about.bed.clone());
        if self.write(drafts, None) {
            self.form = self.form.emptied();
            self.answer = None;
            if let Some(bed) = bed {
                self.arrive(Route::Bed(bed));
            } else if let Some(start) = start {
                self.arrive(Route::Start(start));
            }
        }
    }

    /// Writes what was picked, as the answer offers it and the form tells more; of a `look` only what was
    /// seen, and of `all` that nothing is left.
    pub(super) fn write_picked(&mut self, how: &str) {
        let Some(Ok(answer)) = &self.answer else {
            return;
        };
        let Some(offered) = answer.telling.next.first() else {
            return;
        };
        let typed = self.sent.nested();
        let none = group([]);
        let typed = typed.get("entry").unwrap_or(&none);
        self.form.submit();
        let drafts = match (how, answer.telling.next.get(1)) {
            ("look", Some(look)) => Ok(vec![look.clone()]),
            _ => picked(offered, typed, how == "all"),
        };
        match drafts {
            Err(refusal) => self.faults = refusal.refused,
            Ok(drafts) => {
                let bed = self.form.text("bed").to_owned();
                if self.write(drafts, None) {
                    self.arrive(Route::Bed(bed));
                }
            }
        }
    }

    pub(super) fn save_bed(&mut self, id: &str) {
        self.form.submit();
        let described = self.form.completed(&self.sent.nested(), self.system());
        let described = described.get("bed").cloned().unwrap_or_else(|| group([]));
        match record::bed(id, &described, &self.garden, self.system()) {
            Err(refusal) => self.faults = refusal.refused,
            Ok(draft) => {
                let mut drafts = vec![draft];
                record::name_beds(&mut drafts, &self.ids_ahead(1), &self.garden);
                let id =
                    drafts.iter().find_map(|draft| draft.about.bed.clone()).unwrap_or_default();
                if self.write(drafts, None) {
                    self.arrive(Route::Bed(id));
                }
            }
        }
    }

    pub(super) fn save_settings(&mut self) {
        self.form.submit();
        let given = self.form.completed(&self.form.nested(), self.system());
        match record::settings(&given, &self.garden) {
            Err(refusal) => self.faults = refusal.refused,
            Ok(drafts) => {
                self.faults.clear();
                if self.write(drafts, Some("Settings kept")) {
                    self.form.is_kept();
                }
            }
        }
    }

    pub(super) fn save_note(&mut self, bed: &str) {
        let text = self.sent.text("note").trim().to_owned();
        if text.is_empty() {
            return;
        }
        self.faults.clear();
        let about = if bed.is_empty() { About::default() } else { About::bed(bed) };
        if self.write_of("note", about, Some(("text", text.into()))) {
            self.sent_is_written();
        }
    }

    /// Notes that what was noted for a day was done now.
    pub(super) fn done_ahead(&mut self, id: &str) {
        let id = id.parse().ok();
        let done = id.and_then(|id| record::done_ahead(&self.garden, id, self.now.local));
        if let Some(done) = done {
            self.write(vec![done], Some("Written down as done"));
        }
    }

    /// Writes what a form of the record's own holds.
    pub(super) fn save_drafts(&mut self, read: &ReadDrafts<'_>) {
        self.form.submit();
        let typed = self.form.completed(&self.sent.nested(), self.system());
        match read(&typed, &self.garden) {
            Err(refusal) => self.faults = refusal.refused,
            Ok(drafts) => {
                self.faults.clear();
                if self.write(drafts, None) {
                    self.sent_is_written();
                }
            }
        }
    }

    /// Writes a reading told in one line, at the moment the line tells.
    pub(super) fn save_spoken(&mut self) {
        let line = self.sent.text("line").to_owned();
        match record::spoken(&line, &self.garden, self.system(), self.now.local) {
            Err(why) => {
                self.form.submit();
                self.faults = vec![Fault {
                    field: "line".into(),
                    given: line,
                    allowed: "a place, a number and, if you like, a time of day".into(),
                    why,
                }];
            }
            Ok(spoken) => {
                self.faults.clear();
                if self.write_at(vec![(spoken.draft, spoken.when)], None) {
                    self.sent_is_written();
                }
            }
        }
    }

    /// Undoes what was just written; the Book brings it back.
    pub(super) fn undo(&mut self) {
        // The last first: what was built on another goes before it.
        let drafts: Vec<Draft> = self.undoable.iter().rev().copied().map(record::undo).collect();
        if !drafts.is_empty() && self.write(drafts, Some("Undone")) {
            self.undoable.clear();
        }
    }

    /// Makes an entry count again that was undone.
    pub(super) fn bring_back(&mut self, id: &str) {
        let back = id.parse().map(|id| record::bring_back(id, &self.journal, &self.garden));
        let back = back.unwrap_or_default();
        if !back.is_empty() {
            self.write(back, Some("Brought back: it counts again"));
        }
    }

    pub(super) fn correct(&mut self, id: &str) {
        self.form.submit();
        let Some(entry) = self.entry(id).cloned() else {
            return;
        };
        match record::correction(&entry, &self.form.nested(), &self.garden) {
            Err(refusal) => self.faults = refusal.refused,
            Ok(None) => self.said = Some("Nothing was changed".to_owned()),
            Ok(Some(draft)) => {
                self.faults.clear();
                if self.write(vec![draft], Some("Corrected")) {
                    self.arrive(Route::Book);
                }
            }
        }
    }

    /// Writes one entry of a kind the page itself offers.
    /// Whether it was done.
    pub(super) fn write_of(
        &mut self,
        kind: &str,
        about: About,
        what: Option<(&str, Value)>,
    ) -> bool {
        let what = what.map(|(name, value)| (name.to_owned(), value));
        let mut fields = Map::new();
        fields.extend(what);
        match Draft::of(kind, about, fields) {
            Ok(draft) => self.write(vec![draft], None),
            Err(why) => {
                self.faults = vec![page_fault(kind, &why.to_string())];
                false
            }
        }
    }

    /// What was sent is in the record now; the other forms of the page stay as they are.
    pub(super) fn sent_is_written(&mut self) {
        let fresh = self.fresh_form(&self.route);
        self.form.written(&self.sent, fresh);
    }

    /// Stamps drafts and writes them, all or none; whether it was done. Without `words` it is said
    /// what was written, with the names the record has from then on.
    pub(super) fn write(&mut self, drafts: Vec<Draft>, words: Option<&str>) -> bool {
        let moment = match self.moment() {
            Ok(moment) => moment,
            Err(fault) => {
                self.form.submit();
                self.faults = vec![fault];
                return false;
            }
        };
        let drafts = drafts.into_iter().map(|draft| (draft, moment));
        self.write_at(drafts.collect(), words)
    }

    /// The same with a moment for each.
    pub(super) fn write_at(
        &mut self,
        drafts: Vec<(Draft, NaiveDateTime)>,
        words: Option<&str>,
    ) -> bool {
        let Some(entries) = self.stamp(drafts.clone()) else {
            return false;
        };
        for entry in &entries {
            self.journal.add_entry(entry);
        }
        self.garden = Garden::fold(&self.journal).into();
        self.undoable = entries.iter().map(|entry| entry.id).collect();
        let drafts: Vec<Draft> = drafts.into_iter().map(|(draft, _)| draft).collect();
        let words = words.map_or_else(|| record::done(&drafts, &self.garden), str::to_owned);
        self.put(lines_of(&entries), words);
        true
    }

    /// The ids that the next so many entries get, if they are written at this moment.
    pub(super) fn ids_ahead(&self, count: usize) -> Vec<Ulid> {
        let next = |last| Some(next_id(self.now.millis, self.now.chance(), last));
        let first = next(self.last_own);
        std::iter::successors(first, |last| next(Some(*last))).take(count).collect()
    }

    /// Makes entries of drafts, all or none; where one can't be, its faults show.
    pub(super) fn stamp(&mut self, drafts: Vec<(Draft, NaiveDateTime)>) -> Option<Vec<Entry>> {
        let (ids, mut entries) = (self.ids_ahead(drafts.len()), Vec::new());
        for ((draft, moment), id) in drafts.into_iter().zip(ids) {
            match draft.stamp(id, moment) {
                Ok(entry) => entries.push(entry),
                Err(faults) => {
                    self.faults =
                        faults.iter().map(|fault| page_fault(fault.field, &fault.why)).collect();
                    self.form.submit();
                    return None;
                }
            }
        }
        self.last_own = entries.last().map(|entry| entry.id).or(self.last_own);
        Some(entries)
    }

    /// When it happened: as the gardener set it in the form that was sent, else now.
    fn moment(&self) -> Result<NaiveDateTime, Fault> {
        let Some((field, text)) = self.sent.when() else {
            // What was laid on another day is written for the noon of that day.
            let laid = iso::read_date(self.form.text("laid"));
            let laid = laid.filter(|laid| *laid != self.now.today());
            let noon = laid.and_then(|laid| laid.and_hms_opt(12, 0, 0));
            return Ok(noon.unwrap_or(self.now.local));
        };
        iso::read_when(text).ok_or_else(|| Fault {
            field: field.into(),
            given: text.into(),
            allowed: "a day and a time".into(),
            why: "no moment can be read from it".into(),
        })
    }

    /// Goes to a screen after writing, so that going back does not write again. What was written is no
    /// longer half filled; forms of other screens are.
    pub(super) fn arrive(&mut self, route: Route) {
        let (said, undoable) = (self.said.take(), std::mem::take(&mut self.undoable));
        self.form = self.form.emptied();
        self.effects.push(Effect::Go(route.address()));
        self.go(route);
        (self.said, self.undoable) = (said, undoable);
    }
}

/// A fault the record itself finds in what is about to be written.
fn page_fault(field: &str, why: &str) -> Fault {
    Fault {
        field: field.to_owned(),
        given: String::new(),
        allowed: "something shorter or plainer".into(),
        why: why.to_owned(),
    }
}
