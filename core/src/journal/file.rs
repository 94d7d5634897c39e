//! The copy of a record that is handed over: `{"pegline":1,"entries":[…]}`.
//!
//! Entries stand one a line in order of their ids, byte for byte as they came, with what is set
//! aside behind them in `set_aside`. So a person can read it, half a file is half a record, and a
//! wrong byte costs the line in which it stands.

use super::{
    entry::id_inside,
    merge::{Journal, Stray},
    raw::{Broken, RawJson},
};
use crate::text::count;
use serde_json::Value;

/// The version of files written here.
const VERSION: u64 = 1;
/// The largest file taken in, in bytes.
pub const LARGEST: usize = 20_000_000;
/// The most entries taken in from one file: nine years of fifteen a day, and as many as the
/// longest ones make the largest file.
const MOST: usize = 50_000;

/// The most texts taken in from one file that name no entry: more than any accident leaves.
const MOST_STRAYS: usize = 5_000;

/// So far an entry is looked for behind a damage, in bytes: longer than any that is taken apart.
const WINDOW: usize = 4_096;

/// So many lines that can't be read are passed over behind a damage, then it is given up.
const MOST_FAILED: usize = 5_000;

/// A copy that was opened. Nothing of it is in the own record yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// What it holds, the entries that cannot be read among it.
    pub journal: Journal,
    /// Whether a newer version wrote it. What of it is not known here is among the strays.
    pub newer: bool,
    /// How many entries hold the sign that stands for a lost letter (U+FFFD): the file was saved in
    /// another encoding than UTF-8, as in Latin-1, on its way.
    pub mangled: usize,
}

/// Why a copy could not be opened.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BadFile {
    /// It is larger than [`LARGEST`], or has more entries than any record.
    #[error("This is too large to be a garden\u{2019}s record.")]
    TooLarge,
    /// Some other file.
    #[error("This is not a copy of a garden\u{2019}s record.")]
    NotOurs,
    /// It ends before its end.
    #[error(
        "This copy breaks off at line {line}: what stood behind is missing. Entries that can be taken in: {}.",
        .rescued.len()
    )]
    CutOff {
        /// The line at which it ends, from 1.
        line: usize,
        /// Everything that stands before, ready to be taken in.
        rescued: Box<Journal>,
    },
    /// It was changed on the way.
    #[error(
        "This copy is damaged at line {line}. Entries that can be taken in: {}; entries that can\u{2019}t be read: {lost}.",
        .rescued.len()
    )]
    Damaged {
        /// The line of the first damage, from 1.
        line: usize,
        /// The column of the first damage, from 1.
        column: usize,
        /// How many entries can't be read.
        lost: usize,
        /// Everything else, ready to be taken in.
        rescued: Box<Journal>,
    },
}

/// Writes a copy of the whole record.
#[must_use]
pub fn write(journal: &Journal) -> String {
    let mut file = format!("{{\"pegline\":{VERSION},\"entries\":[");
    let entries = journal.held().flat_map(|(_, held)| held.texts());
    list(&mut file, entries);
    let strays = journal.strays().filter_map(|stray| serde_json::to_string(stray).ok());
    let strays = strays.collect::<Vec<_>>();
    if !strays.is_empty() {
        file.push_str(",\"set_aside\":[");
        list(&mut file, strays.iter().map(String::as_str));
    }
    file.push_str("}\n");
    file
}

fn list<'a>(file: &mut String, texts: impl Iterator<Item = &'a str>) {
    for (index, text) in texts.enumerate() {
        file.push_str(if index > 0 { ",\n" } else { "\n" });
        file.push_str(text);
    }
    file.push_str("\n]");
}

/// Opens a copy. Takes any text.
///
/// # Errors
/// [`BadFile`] when it is too large, damaged, or something else. Entries that cannot be read are
/// no error: the record lists them.
pub fn read(text: &str) -> Result<Opened, BadFile> {
    if text.len() > LARGEST {
        return Err(BadFile::TooLarge);
    }
    // Some editors put a byte order mark in front of what they save.
    let text = text.trim_start_matches('\u{feff}');
    let mut found = Found::default();
    let mut raw = RawJson::new(text);
    let mut end = found.read(&mut raw);
    if found.too_many {
        return Err(BadFile::TooLarge);
    }
    let damage = raw.at();
    let lost = if end.is_err() { found.rescue(text, damage) } else { 0 };
    let newer = found.version > Some(VERSION);
    // A name that was changed on the way hides a number or a whole list.
    if !newer && (found.read_renamed() || found.version.is_none()) {
        end = end.and(Err(Broken { line: 1, column: 1 }));
    }
    let mangled = found.entries.iter().filter(|it| it.text.contains('\u{fffd}')).count();
    let (version, is_whole) = (found.version, found.is_whole);
    let journal = found.journal()?;
    let Err(Broken { line, column }) = end else {
        return Ok(Opened { journal, newer, mangled });
    };
    if version.is_none() && journal.held().next().is_none() {
        return Err(BadFile::NotOurs);
    }
    let rescued = Box::new(journal);
    // Every line that is whole ends with a line end.
    let is_last = !text.get(damage..).is_some_and(|rest| rest.contains('\n'));
    Err(if is_last && !is_whole {
        BadFile::CutOff { line, rescued }
    } else {
        BadFile::Damaged { line, column, lost, rescued }
    })
}

impl Opened {
    /// What should be known before it is taken in, in sentences.
    #[must_use]
    pub fn warnings(&self) -> Vec<String> {
        let mut said = Vec::new();
        if self.newer {
            said.push(
                "A newer version of Pegline wrote this copy. What this one can\u{2019}t read of it is kept aside, and handed over with every copy."
                    .to_owned(),
            );
        }
        if self.mangled > 0 {
            let entries =
                count(u32::try_from(self.mangled).unwrap_or(u32::MAX), "entry", "entries");
            said.push(format!(
                "Letters such as \u{e9} or \u{bd} were lost in {entries}: this copy was saved in another encoding than UTF-8. A copy that was not opened in between has them."
            ));
        }
        said
    }
}

impl BadFile {
    /// What can be taken in all the same, if anything.
    #[must_use]
    pub fn rescued(self) -> Option<Journal> {
        match self {
            Self::CutOff { rescued, .. } | Self::Damaged { rescued, .. } => {
                Some(*rescued).filter(|rescued| !rescued.is_empty())
            }
            Self::TooLarge | Self::NotOurs => None,
        }
    }
}

/// What was found in a file up to its end, or up to the damage and behind it.
#[derive(Default)]
struct Found<'a> {
    version: Option<u64>,
    entries: Vec<Item<'a>>,
    set_aside: Vec<Item<'a>>,
    /// What stands beside them under names not known here.
    others: Vec<(String, &'a str)>,
    too_many: bool,
    /// Whether its last bracket was there.
    is_whole: bool,
}

/// An item of a list as it is written.
struct Item<'a> {
    /// Where it begins in the file, in bytes.
    at: usize,
    text: &'a str,
}

impl<'a> Found<'a> {
    fn read(&mut self, raw: &mut RawJson<'a>) -> Result<(), Broken> {
        raw.object(&mut |raw, field| match field {
            "pegline" => {
                let version = serde_json::from_str(raw.value()?).ok();
                let version = version.and_then(|version: Value| version.as_u64());
                self.version = Some(version.ok_or_else(|| raw.broken())?);
                Ok(())
            }
            "entries" => list_of(raw, &mut self.entries, &mut self.too_many),
            "set_aside" => list_of(raw, &mut self.set_aside, &mut self.too_many),
            _ => {
                self.others.push((field.to_owned(), raw.value()?));
                Ok(())
            }
        })?;
        self.is_whole = true;
        raw.end()
    }

    /// Takes an item whose list is not known, if it is one that we write.
    fn take(&mut self, at: usize, text: &'a str) -> bool {
        let list = if id_inside(text).is_some() {
            &mut self.entries
        } else if text.contains("\"key\"") && Stray::read(text).is_some() {
            &mut self.set_aside
        } else {
            return false;
        };
        if list.len() == MOST {
            self.too_many = true;
        } else {
            list.push(Item { at, text });
        }
        true
    }

    /// Goes on behind a damage, line by line, since each entry begins a line; how many are lost.
    fn rescue(&mut self, text: &'a str, damage: usize) -> usize {
        let mut at = damage;
        // A list whose bracket is gone takes in what follows it.
        let swallows = |it: &Item| it.text.contains('\n') && id_inside(it.text).is_none();
        if let Some(first) = self.entries.iter().position(swallows) {
            at = self.entries.get(first).map_or(at, |it| it.at);
            self.entries.truncate(first);
        }
        let (mut lost, mut failed) = (0, 0);
        while failed < MOST_FAILED
            && let Some(rest) = text.get(at..)
            && !rest.is_empty()
        {
            let start = rest.trim_start_matches([' ', '\t', '\r', ',']);
            let begin = at + rest.len() - start.len();
            let mut end = begin;
            if start.starts_with('{') {
                let window = start.get(..start.floor_char_boundary(WINDOW)).unwrap_or_default();
                match RawJson::new(window).value() {
                    Ok(item) if self.take(begin, item) => end += item.len(),
                    _ => {
                        failed += 1;
                        let line = start.split('\n').next().unwrap_or_default();
                        lost += usize::from(line.contains("\"id\""));
                    }
                }
            }
            let behind = text.get(end..).unwrap_or_default();
            at = behind.find('\n').map_or(text.len(), |line_end| end + line_end + 1);
        }
        lost
    }

    /// Reads lists that hold what ours do under a name that is none of ours; whether there was one.
    fn read_renamed(&mut self) -> bool {
        let mut any = false;
        for (name, value) in std::mem::take(&mut self.others) {
            let mut taken = false;
            // What is read here was found to be whole.
            let _ = RawJson::new(value).list(&mut |raw| {
                let item = raw.value()?;
                taken |= self.take(0, item);
                Ok(())
            });
            if taken {
                any = true;
            } else {
                self.others.push((name, value));
            }
        }
        any
    }

    fn journal(self) -> Result<Journal, BadFile> {
        let mut journal = Journal::default();
        let loose = |text: &str| Stray { key: String::new(), text: text.to_owned() };
        let others = self.others.iter().map(|(name, value)| {
            // OK because a text always becomes JSON.
            let name = serde_json::to_string(name).unwrap_or_default();
            loose(&format!("{{{name}:{value}}}"))
        });
        let set_aside = self.set_aside.iter().map(|it| it.text);
        let set_aside = set_aside.map(|text| Stray::read(text).unwrap_or_else(|| loose(text)));
        for entry in self.entries {
            journal.add(entry.text);
            if journal.strays().len() > MOST_STRAYS {
                return Err(BadFile::TooLarge);
            }
        }
        for stray in set_aside.chain(others) {
            journal.add_stray(stray);
            if journal.strays().len() > MOST_STRAYS {
                return Err(BadFile::TooLarge);
            }
        }
        if self.too_many { Err(BadFile::TooLarge) } else { Ok(journal) }
    }
}

/// Takes in the items of a list, as they are written.
fn list_of<'a>(
    raw: &mut RawJson<'a>,
    items: &mut Vec<Item<'a>>,
    too_many: &mut bool,
) -> Result<(), Broken> {
    raw.list(&mut |raw| {
        let at = raw.begin();
        let text = raw.value()?;
        if items.len() == MOST {
            *too_many = true;
            return Err(raw.broken());
        }
        items.push(Item { at, text });
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::samples::{any_journal, note};
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    fn journal(texts: &[&str]) -> Journal {
        let mut journal = Journal::default();
        for text in texts {
            journal.add(text);
        }
        journal
    }

    #[test]
    fn an_empty_record_is_a_file_too() {
        assert_eq!(write(&Journal::default()), "{\"pegline\":1,\"entries\":[\n]}\n");
        assert!(read(&write(&Journal::default())).unwrap().journal.is_empty());
    }

    #[test]
    fn entries_of_a_newer_version_pass_through_byte_for_byte() {
        let newer = r#"{ "what" : [1e400, "\u00e9"],  "v":2, "id":"01KAXW7Y2Q3V4S5T6R7P8N9M0K" }"#;
        let unknown = r#"{"v":1,"id":"01KAXW7Y2Q3V4S5T6R7P8N9M0M","when":"2026-11-25T08:30",
            "kind":"bees-seen", "what":{"count" : 1.50}}"#;
        let file = format!(r#"{{"entries":[{newer} , {unknown}],"pegline":1}}"#);
        let opened = read(&file).unwrap();
        assert_eq!(opened.journal.unread().count(), 2);
        let written = write(&opened.journal);
        assert!(written.contains(newer) && written.contains(unknown), "{written}");
        assert_eq!(read(&written).unwrap(), opened);
    }

    #[test]
    fn a_file_of_a_newer_version_says_so_and_gives_its_entries() {
        let file =
            format!(r#"{{"pegline":7,"season":{{"x":[]}},"entries":[{}]}}"#, note(5, "hail"));
        let opened = read(&file).unwrap();
        assert!(opened.newer);
        assert_eq!(opened.journal.entries().count(), 1);
        assert!(opened.warnings()[0].starts_with("A newer version of Pegline wrote this copy."));
        // What it tells beside the entries is handed on with every copy.
        let kept: Vec<&str> = opened.journal.strays().map(|it| it.text.as_str()).collect();
        assert_eq!(kept, [r#"{"season":{"x":[]}}"#]);
        let again = read(&write(&opened.journal)).unwrap();
        assert_eq!((again.journal, again.newer), (opened.journal, false));
    }

    #[test]
    fn one_bad_line_of_four_hundred_costs_that_line() {
        let notes: Vec<String> = (1..=400).map(|id| note(id, "hail")).collect();
        let texts: Vec<&str> = notes.iter().map(String::as_str).collect();
        let whole = write(&journal(&texts));
        let id = crate::journal::Ulid(37).to_string();
        let bad = whole.replacen(&format!("{id}\","), &format!("{id} ,"), 1);
        let Err(BadFile::Damaged { line, lost, rescued, .. }) = read(&bad) else { panic!() };
        assert_eq!((line, lost, rescued.len()), (38, 1, 399));
        let said = read(&bad).unwrap_err().to_string();
        assert!(
            said.ends_with("can be taken in: 399; entries that can\u{2019}t be read: 1."),
            "{said}"
        );
    }

    #[test]
    fn a_copy_saved_in_latin_1_says_so_and_keeps_its_entries() {
        let whole =
            write(&journal(&[&note(1, "Caf\u{e9}"), &note(2, "hail"), &note(3, "\u{bd} in")]));
        // ISO 8859-1 has each of its letters at the place that Unicode gives it; what is no UTF-8 comes to
        // us as U+FFFD (Encoding Standard, "decode").
        let latin: Vec<u8> = whole.chars().map(|letter| u8::try_from(letter).unwrap()).collect();
        let opened = read(&String::from_utf8_lossy(&latin)).unwrap();
        assert_eq!((opened.journal.len(), opened.mangled), (3, 2));
        let said = opened.warnings().join(" ");
        assert!(said.contains("were lost in 2 entries") && said.contains("UTF-8"), "{said}");
        // The good copy, taken in as well, counts.
        let mut both = opened.journal.clone();
        both.merge(&read(&whole).unwrap().journal);
        let first = both.entries().next().unwrap().text();
        assert!(first.contains("Caf\u{e9}"), "{first}");
    }

    #[test]
    fn damage_without_end_is_given_up_in_time() {
        for line in ["{\"a\":\n", "{\"id\":\"x\",\n", "{", "{\n", ",\n", "[\n"] {
            let lines = line.repeat(2_000_000 / line.len());
            let file = format!("{{\"pegline\":1,\"entries\":[\n{},\n{lines}", note(1, "one"));
            let bad = read(&file).unwrap_err();
            assert_eq!(bad.rescued().map(|rescued| rescued.len()), Some(1), "{line}");
        }
    }

    fn texts(journal: &Journal) -> BTreeSet<&str> {
        journal.held().flat_map(|(_, held)| held.texts()).collect()
    }

    /// How many entries a copy lost by this byte, and how many it has that were not there.
    fn by_one_wrong_byte(journal: &Journal, at: usize, wrong: u8) -> (usize, usize, usize) {
        let mut bytes = write(journal).into_bytes();
        bytes[at] ^= wrong;
        let found = match read(&String::from_utf8_lossy(&bytes)) {
            Ok(opened) => opened.journal,
            Err(bad) => bad.rescued().unwrap_or_default(),
        };
        let (before, after) = (texts(journal), texts(&found));
        let lost = before.difference(&after).count();
        (lost, after.difference(&before).count(), after.len())
    }

    #[test]
    fn one_wrong_byte_anywhere_costs_one_entry() {
        let mut journal =
            journal(&[&note(1, "one"), &note(2, "two"), &note(3, "\u{bd}"), "{\"id\":7}"]);
        journal.add_stray(Stray { key: "pegline/e/x".to_owned(), text: "rubbish".to_owned() });
        for at in 0..write(&journal).len() {
            for wrong in (0..8).map(|bit| 1 << bit).chain([0x5f, 0xff]) {
                let (lost, other, _) = by_one_wrong_byte(&journal, at, wrong);
                assert!(lost <= 1 && other <= lost, "byte {at}, {wrong:x}: {lost}, {other}");
            }
        }
    }

    #[test]
    fn what_is_no_entry_is_listed_and_handed_on() {
        let file = r#"{"pegline":1,"entries":[42, "x", null, {"id":7}, {"id":"short"}]}"#;
        let opened = read(file).unwrap();
        assert_eq!((opened.journal.len(), opened.journal.strays().len()), (0, 5));
        assert_eq!(read(&write(&opened.journal)).unwrap(), opened);
    }

    #[test]
    fn some_other_file_is_refused() {
        for text in
            ["", " ", "hello", "[]", "{}", "null", r#"{"entries":[]}"#, r#"{"pegline":"1"}"#]
        {
            assert_eq!(read(text), Err(BadFile::NotOurs), "{text}");
        }
    }

    #[test]
    fn a_copy_that_breaks_off_gives_what_stands_before() {
        let whole = write(&journal(&[&note(1, "one"), &note(2, "two"), &note(3, "three")]));
        let cut = &whole[..whole.find("three").unwrap()];
        let Err(BadFile::CutOff { line, rescued }) = read(cut) else { panic!() };
        assert_eq!((line, rescued.len()), (4, 2));
        let said = read(cut).unwrap_err().to_string();
        assert!(said.starts_with("This copy breaks off at line 4"), "{said}");
    }

    #[test]
    fn anything_behind_the_end_is_damage() {
        let whole = write(&journal(&[&note(1, "one")]));
        assert!(
            matches!(read(&format!("{whole}}}")), Err(BadFile::Damaged { rescued, .. }) if rescued.len() == 1)
        );
    }

    #[test]
    fn a_byte_order_mark_and_other_line_ends_do_no_harm() {
        let whole = write(&journal(&[&note(1, "one"), &note(2, "two")]));
        let foreign = format!("\u{feff}{}", whole.replace('\n', "\r\n"));
        assert_eq!(read(&foreign), read(&whole));
    }

    #[test]
    fn a_file_over_the_limit_is_refused_at_once() {
        assert_eq!(read(&" ".repeat(LARGEST + 1)), Err(BadFile::TooLarge));
    }

    #[test]
    fn a_million_empty_items_are_refused() {
        let file = format!("{{\"pegline\":1,\"entries\":[{}0]}}", "0,".repeat(1_000_000));
        assert_eq!(read(&file), Err(BadFile::TooLarge));
    }

    #[test]
    fn more_strays_than_any_accident_leaves_are_refused() {
        let numbers = (0..=MOST_STRAYS).rev().map(|n| n.to_string()).collect::<Vec<_>>().join(",");
        for list in ["entries", "set_aside"] {
            let file = |items: &str| format!("{{\"pegline\":1,\"{list}\":[{items}]}}");
            assert_eq!(read(&file(&numbers)), Err(BadFile::TooLarge));
            let fewer = numbers.split_once(',').unwrap().1;
            assert_eq!(read(&file(fewer)).unwrap().journal.strays().len(), MOST_STRAYS);
        }
    }

    #[test]
    fn a_file_nested_without_end_is_damage_and_no_crash() {
        let deep = "[".repeat(5_000_000);
        let file = format!("{{\"pegline\":1,\"entries\":[{},{deep}", note(1, "one"));
        assert!(matches!(read(&file), Err(BadFile::CutOff { rescued, .. }) if rescued.len() == 1));
        assert_eq!(read(&deep), Err(BadFile::NotOurs));
        assert_eq!(read(&r#"{"pegline":"#.repeat(1_000_000)), Err(BadFile::NotOurs));
    }

    #[test]
    fn an_entry_nested_deeply_is_kept_and_comes_out_again() {
        let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
        let entry =
            format!(r#"{{"v":1,"id":"01KAXW7Y2Q3V4S5T6R7P8N9M0K","kind":"note","what":{deep}}}"#);
        let opened = read(&format!(r#"{{"pegline":1,"entries":[{entry}]}}"#)).unwrap();
        assert_eq!(opened.journal.unread().count(), 1);
        assert!(write(&opened.journal).contains(&deep));
    }

    proptest! {
        #[test]
        fn a_record_written_is_read_back_whole(journal in any_journal()) {
            let opened = read(&write(&journal)).unwrap();
            prop_assert_eq!(&opened.journal, &journal);
            prop_assert!(!opened.newer);
        }

        #[test]
        fn a_copy_cut_anywhere_never_loses_what_stands_before(journal in any_journal(), at: prop::sample::Index) {
            let whole = write(&journal);
            let at = at.index(whole.len());
            let cut = whole.get(..at).unwrap_or_default();
            match read(cut) {
                Err(BadFile::NotOurs) => prop_assert!(cut.len() <= 12, "{}", cut),
                Err(BadFile::CutOff { rescued, .. } | BadFile::Damaged { rescued, .. }) => {
                    prop_assert_eq!(journal.adds(&rescued).new.len(), 0);
                }
                Err(BadFile::TooLarge) => prop_assert!(false),
                // Only the line end behind the file may be missing.
                Ok(opened) => prop_assert_eq!(opened.journal, journal),
            }
        }

        #[test]
        fn one_wrong_byte_costs_two_entries_at_most_and_makes_none_up(
            journal in any_journal(), at: prop::sample::Index, wrong in 1..=255u8,
        ) {
            let at = at.index(write(&journal).len());
            let (lost, other, left) = by_one_wrong_byte(&journal, at, wrong);
            prop_assert!(lost <= 2, "{} are lost", lost);
            // A letter within an entry makes it another one, which no copy can tell.
            prop_assert!(other <= 1 && other <= lost, "{} are made up", other);
            prop_assert!(left <= texts(&journal).len());
        }

        #[test]
        fn no_text_upsets_the_reader(text in ".{0,80}") {
            let _ = read(&text);
        }
    }
}
