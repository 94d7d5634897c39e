//! Where the record is kept on the phone: one key an entry, written once, never rewritten.
//!
//! It is kept twice. `localStorage` is read at once, but a browser commits it up to 42 s late
//! (measured in Chromium), so that a phone that goes off may lose what was written last. IndexedDB is
//! sure and answers a little later; it takes promises, so the page's script works it. The [`Store`] here
//! is the good copy that both are united into; it never gives up a line that one of them has lost.

use std::fmt::Debug;

use chrono::NaiveDate;
use gloo_storage::{LocalStorage, Storage as _};
use js_sys::Object;
use pegline_core::{
    journal::line::{ENTRY_KEYS, STRAY_KEYS},
    time::iso,
};
use serde_json::Value;
use web_sys::Storage;

/// Room in `localStorage` for a hundred entries more, in letters; where there is less, it is nearly full.
/// Browsers grant different amounts and count them differently, so it is tried and not reckoned.
const ROOM: usize = 25_000;

/// A key of ours under which nothing stays.
const PROBE: &str = "pegline/probe";

/// A key and what is kept under it.
pub type Line = (String, String);

/// A place that keeps texts by their keys and answers at once.
///
/// Whether a text was kept is found by reading it back, so that `set` has nothing to say: there is
/// storage that does nothing, and storage that keeps a text and then complains.
pub trait Quick: Debug {
    /// How many texts are there, whosever they are.
    fn count(&self) -> usize;
    /// The keys of all that is there, whosever it is; best in order.
    fn keys(&self) -> Vec<String>;
    /// What is kept under these keys.
    fn read(&self, keys: Vec<String>) -> Vec<Line> {
        let line = |key: String| Some((self.get(&key)?, key));
        keys.into_iter().filter_map(line).map(|(line, key)| (key, line)).collect()
    }
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
    fn count(&self) -> usize {
        let count = phone().and_then(|storage| storage.length().ok());
        count.and_then(|count| usize::try_from(count).ok()).unwrap_or(0)
    }

    fn keys(&self) -> Vec<String> {
        let Some(storage) = phone() else {
            return Vec::new();
        };
        // In one call, and sorted by the browser: asked one by one, thousands take longer than the texts.
        Object::keys(&storage).sort().iter().filter_map(|key| key.as_string()).collect()
    }

    fn read(&self, keys: Vec<String>) -> Vec<Line> {
        let Some(storage) = phone() else {
            return Vec::new();
        };
        let line = |key: String| Some((storage.get_item(&key).ok()??, key));
        keys.into_iter().filter_map(line).map(|(line, key)| (key, line)).collect()
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
    /// The keys of lines that can't be trusted, as they came.
    damaged: Vec<String>,
    /// Nothing where it is refused.
    quick: Option<Box<dyn Quick>>,
    /// How many texts it had when it was last looked at, whosever they are.
    counted: usize,
    /// Whether it has room for little more.
    is_tight: bool,
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
        quick.set(PROBE, "1");
        // A full store refuses the probe too but is not refused storage: it can be read.
        let granted = quick.get(PROBE).is_some() || quick.count() > 0;
        quick.remove(PROBE);
        let mut store = Self { sure: None, is_read: false, ..Self::memory() };
        if granted {
            store.quick = Some(Box::new(quick));
            store.look_quick();
        }
        store
    }

    /// A store that is gone when the page closes.
    pub fn memory() -> Self {
        Self {
            lines: Vec::new(),
            damaged: Vec::new(),
            quick: None,
            counted: 0,
            is_tight: false,
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
        self.keys(ENTRY_KEYS)
    }

    /// How many different keys begin so.
    fn keys(&self, prefix: &str) -> usize {
        let keys = self.lines.iter().map(|(key, _)| key).filter(|key| key.starts_with(prefix));
        let mut last = None;
        keys.filter(|key| last.replace(*key) != Some(*key)).count()
    }

    /// How many keys IndexedDB has if it has what is here and no more; nothing where all of them are to be
    /// compared.
    pub fn known(&self) -> Option<usize> {
        (self.sure == Some(true) && self.is_read).then(|| self.keys(""))
    }

    /// Whether `localStorage` alone keeps the record and has room for little more.
    pub fn is_nearly_full(&self) -> bool {
        self.is_late() && self.is_tight
    }

    /// Tries how much room is left, where that is of weight.
    fn measure(&mut self) {
        if !self.is_late() {
            return;
        }
        if let Some(quick) = &mut self.quick {
            quick.set(PROBE, &"x".repeat(ROOM));
            self.is_tight = quick.get(PROBE).is_none_or(|kept| kept.len() < ROOM);
            quick.remove(PROBE);
        }
    }

    /// Takes in what `localStorage` has by now, and gives it what it lacks; gives what was new. What is
    /// known already is not read again, and where as much is there as before, nothing is.
    pub fn look_quick(&mut self) -> Vec<Line> {
        let Some(mut quick) = self.quick.take() else {
            return Vec::new();
        };
        let mut new = Vec::new();
        if quick.count() != self.counted {
            let mut keys = quick.keys();
            keys.retain(|key| is_ours(key));
            let found = keys.len();
            keys.retain(|key| !self.has(key));
            new = self.add_all(quick.read(keys));
            if found < self.keys("") {
                fill(quick.as_mut(), &self.lines);
            }
            self.counted = quick.count();
        }
        self.quick = Some(quick);
        new
    }

    /// Takes in what another tab has put into `localStorage`, as the browser told; gives what was new.
    pub fn heard(&mut self, lines: Vec<Line>) -> Vec<Line> {
        let new = self.add_all(lines);
        self.counted += new.len();
        new
    }

    /// Takes in lines that IndexedDB has, which are all that were asked for; gives what was new.
    pub fn read_late(&mut self, lines: Vec<Line>) -> Vec<Line> {
        let new = self.add_all(lines);
        if let Some(quick) = &mut self.quick {
            fill(quick.as_mut(), &new);
            self.counted = quick.count();
        }
        self.all_read();
        new
    }

    fn all_read(&mut self) {
        self.is_read = true;
        self.missing = self.witness.entries.saturating_sub(self.entries());
    }

    /// Takes in those of the lines that are ours and not known yet, and gives them.
    fn add_all(&mut self, mut lines: Vec<Line>) -> Vec<Line> {
        lines.retain(|line| is_ours(&line.0) && self.add(line.clone()));
        lines
    }

    fn add(&mut self, line: Line) -> bool {
        // Lines come in order as a rule, and so at the end.
        let at = match self.lines.last() {
            Some(last) if *last >= line => self.lines.binary_search(&line),
            _ => Err(self.lines.len()),
        };
        at.map_err(|at| self.lines.insert(at, line)).is_err()
    }

    /// Lines under these keys can't be trusted, all others can: of a damaged one the other place may have a
    /// better.
    pub fn trust_all_but(&mut self, damaged: Vec<String>) {
        self.damaged = damaged;
    }

    /// Further lines under these keys can't be trusted.
    pub fn distrust(&mut self, damaged: Vec<String>) {
        self.damaged.extend(damaged);
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
        let all = new.iter().all(|(key, line)| match put(quick.as_mut(), key, line) {
            Put::No => false,
            Put::Now => {
                done.push(key);
                true
            }
            Put::Before => true,
        });
        if !all {
            done.iter().for_each(|key| quick.remove(key));
        }
        self.counted = quick.count();
        all
    }

    /// Gives up lines that nothing has kept.
    pub fn take_back(&mut self, refused: &[Line]) {
        self.lines.retain(|line| !refused.contains(line));
    }

    /// IndexedDB can't be read.
    pub fn not_found(&mut self) {
        self.is_read = true;
        self.told(false);
    }

    /// IndexedDB has these keys, in order, or as many as are known; and it remembers this. Gives the keys that
    /// are to be read from it, and the lines it lacks.
    pub fn found(&mut self, keys: Option<&[String]>, witness: &Value) -> (Vec<String>, Vec<Line>) {
        let copied = self.witness.copied;
        self.witness = Witness::read(witness);
        self.witness.copied = self.witness.copied.max(copied);
        let Some(keys) = keys else {
            self.all_read();
            return (Vec::new(), Vec::new());
        };
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

    /// How many lines of this key are here.
    fn texts(&self, wanted: &str) -> usize {
        let from = self.lines.partition_point(|(key, _)| key.as_str() < wanted);
        self.lines.iter().skip(from).take_while(|(key, _)| key == wanted).count()
    }

    fn has(&self, wanted: &str) -> bool {
        self.texts(wanted) > 0
    }

    /// Whether a line is here that can be trusted.
    fn has_good(&self, wanted: &str) -> bool {
        self.texts(wanted) > self.damaged.iter().filter(|key| *key == wanted).count()
    }

    /// IndexedDB took lines, or did not.
    pub fn told(&mut self, kept: bool) {
        self.sure = Some(kept);
        self.measure();
    }
}

/// Gives `localStorage` what it lacks of these lines, as far as there is room: IndexedDB has the rest.
fn fill(quick: &mut dyn Quick, lines: &[Line]) {
    let _ = lines.iter().try_for_each(|(key, line)| match put(quick, key, line) {
        Put::No => Err(()),
        _ => Ok(()),
    });
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
