//! Where the record is kept on the phone: one key an entry, written once, never rewritten.
//!
//! It is kept twice. `localStorage` is read at once, but a browser commits it up to 42 s late
//! (measured in Chromium), so that a phone that goes off may lose what was written last. IndexedDB is
//! sure and answers a little later; it takes promises, so the page's script works it. The [`Store`] here
//! is the good copy that both are united into; it never gives up a line that one of them has lost.

use std::fmt::Debug;

use chrono::NaiveDate;
use gloo_storage::{LocalStorage, Storage as _};
use pegline_core::{
    journal::line::{ENTRY_KEYS, STRAY_KEYS, decode},
    time::iso,
};
use serde_json::Value;
use web_sys::Storage;

/// What the browser grants one origin in `localStorage` (Storage Standard), in bytes.
const GRANTED: usize = 5 * 1024 * 1024;

/// A key and what is kept under it.
pub type Line = (String, String);

/// A place that keeps texts by their keys and answers at once.
///
/// Whether a text was kept is found by reading it back, so that `set` has nothing to say: there is
/// storage that does nothing, and storage that keeps a text and then complains.
pub trait Quick: Debug {
    /// The keys of all that is there, whosever it is.
    fn keys(&self) -> Vec<String>;
    /// What is kept under a key.
    fn get(&self, key: &str) -> Option<String>;
    /// Asks for a text to be kept.
    fn set(&mut self, key: &str, text: &str);
    /// Takes a text away.
    fn remove(&mut self, key: &str);
}

/// The browser's `localStorage`, asked for anew each time, since a browser may take it away between
/// two events.
#[derive(Debug)]
struct Phone;

/// The browser's `localStorage`; nothing where it is refused.
fn phone() -> Option<Storage> {
    // gloo's handle throws where storage is refused, so the browser is asked first. Its typed calls
    // would read other programs' keys and fail whole on one bad value; the raw handle does neither.
    web_sys::window()?.local_storage().ok()??;
    Some(LocalStorage::raw())
}

impl Quick for Phone {
    fn keys(&self) -> Vec<String> {
        let Some(storage) = phone() else {
            return Vec::new();
        };
        let keys = 0..storage.length().unwrap_or(0);
        keys.filter_map(|index| storage.key(index).ok().flatten()).collect()
    }

    fn get(&self, key: &str) -> Option<String> {
        phone()?.get_item(key).ok().flatten()
    }

    fn set(&mut self, key: &str, text: &str) {
        let _ = phone().map(|storage| storage.set_item(key, text));
    }

    fn remove(&mut self, key: &str) {
        let _ = phone().map(|storage| storage.remove_item(key));
    }
}

/// What IndexedDB remembers of the record beside its lines: it tells a store that was emptied from a
/// first visit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Witness {
    /// How many entries there were.
    pub entries: usize,
    /// The day on which a copy was last handed over.
    pub copied: Option<NaiveDate>,
}

impl Witness {
    /// As it was kept; nothing is known where it can't be read.
    fn read(kept: &Value) -> Self {
        let entries = kept.get("entries").and_then(Value::as_u64).unwrap_or(0);
        Self {
            entries: usize::try_from(entries).unwrap_or(0),
            copied: kept.get("copied").and_then(Value::as_str).and_then(iso::read_date),
        }
    }
}

/// The record's lines, and what is known of the two places that keep them.
#[derive(Debug)]
pub struct Store {
    /// In order, without repeats. A key has two texts where one place has a damaged one.
    lines: Vec<Line>,
    /// Nothing where it is refused.
    quick: Option<Box<dyn Quick>>,
    /// Whether IndexedDB takes lines, once it has told.
    sure: Option<bool>,
    /// Whether all that IndexedDB has was read.
    is_read: bool,
    /// As IndexedDB told it last.
    witness: Witness,
    /// How many entries there were more than are found.
    missing: usize,
}

impl Store {
    /// The phone's storage, as far as it answers at once.
    pub fn open() -> Self {
        Self::on(Phone)
    }

    /// The same with something else in place of `localStorage`. Where that keeps nothing it is done without.
    pub fn on(mut quick: impl Quick + 'static) -> Self {
        const PROBE: &str = "pegline/probe";
        quick.set(PROBE, "1");
        // A full store refuses the probe too but is not refused storage: it can be read.
        let granted = quick.get(PROBE).is_some() || !quick.keys().is_empty();
        quick.remove(PROBE);
        let mut store = Self { sure: None, is_read: false, ..Self::memory() };
        if granted {
            store.quick = Some(Box::new(quick));
            store.read_quick();
        }
        store
    }

    /// A store that is gone when the page closes.
    pub fn memory() -> Self {
        Self {
            lines: Vec::new(),
            quick: None,
            sure: Some(false),
            is_read: true,
            witness: Witness::default(),
            missing: 0,
        }
    }

    /// Whether the record outlives the page, as far as is known.
    pub fn lasts(&self) -> bool {
        self.quick.is_some() || self.sure != Some(false)
    }

    /// Whether the record outlives the page, but only as late as `localStorage` is committed.
    pub fn is_late(&self) -> bool {
        self.quick.is_some() && self.sure == Some(false)
    }

    /// Whether all that the phone has of the record was read.
    pub fn is_read(&self) -> bool {
        self.is_read
    }

    /// Every line of the record.
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// What is to be remembered of the record beside its lines.
    pub fn witness(&self) -> Witness {
        Witness { entries: self.entries() + self.missing, ..self.witness }
    }

    /// What is remembered of a record of which something is missing.
    pub fn lost(&self) -> Option<Witness> {
        (self.is_read && self.missing > 0).then(|| self.witness())
    }

    /// Goes on without what is missing.
    pub fn forget_lost(&mut self) {
        self.missing = 0;
    }

    /// Remembers that a copy was handed over on this day.
    pub fn handed_over(&mut self, day: NaiveDate) {
        self.witness.copied = Some(day);
    }

    /// How many entries there are, by their keys.
    pub fn entries(&self) -> usize {
        let keys = self.lines.iter().map(|(key, _)| key).filter(|key| key.starts_with(ENTRY_KEYS));
        let mut last = None;
        keys.filter(|key| last.replace(*key) != Some(*key)).count()
    }

    /// The share of what the browser grants that the record fills, from 0 to 1; two bytes a letter.
    pub fn filled(&self) -> f64 {
        let bytes: usize = self.lines.iter().map(|(key, line)| size(key, line)).sum();
        #[expect(clippy::cast_precision_loss, reason = "far below 2^52 bytes")]
        let share = bytes as f64 / GRANTED as f64;
        share.min(1.0)
    }

    /// Takes in what `localStorage` has by now, and gives it what it lacks; whether any was new.
    pub fn read_quick(&mut self) -> bool {
        let Some(quick) = &self.quick else {
            return false;
        };
        let keys = quick.keys().into_iter().filter(|key| is_ours(key));
        let lines = keys.filter_map(|key| Some((quick.get(&key)?, key)));
        let lines: Vec<Line> = lines.map(|(line, key)| (key, line)).collect();
        self.take(lines)
    }

    /// Takes in lines that IndexedDB has, which are all that were asked for; whether any was new.
    pub fn read_late(&mut self, lines: Vec<Line>) -> bool {
        let more = self.take(lines);
        self.all_read();
        more
    }

    fn all_read(&mut self) {
        self.is_read = true;
        self.missing = self.witness.entries.saturating_sub(self.entries());
    }

    fn take(&mut self, lines: Vec<Line>) -> bool {
        let before = self.lines.len();
        for line in lines {
            self.add(line);
        }
        for (key, line) in &self.lines {
            // As far as there is room: IndexedDB has the rest.
            if self.quick.as_mut().is_some_and(|quick| put(quick.as_mut(), key, line) == Put::No) {
                break;
            }
        }
        self.lines.len() > before
    }

    fn add(&mut self, line: Line) {
        if let Err(at) = self.lines.binary_search(&line) {
            self.lines.insert(at, line);
        }
    }

    /// Takes in new lines; whether `localStorage` has them too, which it does of all or of none.
    pub fn write(&mut self, new: &[Line]) -> bool {
        for line in new {
            self.add(line.clone());
        }
        let Some(quick) = &mut self.quick else {
            return false;
        };
        let mut done: Vec<&str> = Vec::new();
        for (key, line) in new {
            match put(quick.as_mut(), key, line) {
                Put::No => {
                    done.iter().for_each(|key| quick.remove(key));
                    return false;
                }
                Put::Now => done.push(key),
                Put::Before => {}
            }
        }
        true
    }

    /// Gives up lines that nothing has kept.
    pub fn take_back(&mut self, refused: &[Line]) {
        self.lines.retain(|line| !refused.contains(line));
    }

    /// IndexedDB can't be read.
    pub fn not_found(&mut self) {
        self.sure = Some(false);
        self.is_read = true;
    }

    /// IndexedDB has these keys, in order, and remembers this: gives the keys that are to be read from it, and
    /// the lines it lacks.
    pub fn found(&mut self, keys: &[String], witness: &Value) -> (Vec<String>, Vec<Line>) {
        let copied = self.witness.copied;
        self.witness = Witness::read(witness);
        self.witness.copied = self.witness.copied.max(copied);
        let missing = keys.iter().filter(|key| is_ours(key) && !self.has_good(key));
        let missing: Vec<String> = missing.cloned().collect();
        let lacking = self.lines.iter().filter(|(key, _)| keys.binary_search(key).is_err());
        let lacking: Vec<Line> = lacking.cloned().collect();
        if lacking.is_empty() || self.sure.is_none() {
            self.sure = Some(true);
        }
        self.is_read = false;
        if missing.is_empty() {
            self.all_read();
        }
        (missing, lacking)
    }

    /// Whether a line is there that can be trusted: of a damaged one the other place may have a better.
    fn has_good(&self, wanted: &str) -> bool {
        let from = self.lines.partition_point(|(key, _)| key.as_str() < wanted);
        let same = self.lines.iter().skip(from).take_while(|(key, _)| key == wanted);
        same.into_iter().any(|(key, line)| key.starts_with(STRAY_KEYS) || decode(key, line).is_ok())
    }

    /// IndexedDB took lines, or did not.
    pub fn told(&mut self, kept: bool) {
        self.sure = Some(kept);
    }
}

/// Keys with other prefixes are somebody else's and never touched.
fn is_ours(key: &str) -> bool {
    key.starts_with(ENTRY_KEYS) || key.starts_with(STRAY_KEYS)
}

/// What became of a line that was to be put somewhere.
#[derive(PartialEq)]
enum Put {
    /// Something lay there already.
    Before,
    Now,
    No,
}

/// Puts a line where none lies yet.
fn put(quick: &mut dyn Quick, key: &str, line: &str) -> Put {
    if quick.get(key).is_some() {
        return Put::Before;
    }
    quick.set(key, line);
    if quick.get(key).as_deref() == Some(line) { Put::Now } else { Put::No }
}

/// Bytes a line takes: browsers count two for each UTF-16 unit.
fn size(key: &str, line: &str) -> usize {
    2 * (key.encode_utf16().count() + line.encode_utf16().count())
}
