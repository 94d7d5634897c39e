//! The copy of a record that is handed over: `{"pegline":1,"entries":[…]}`.
//!
//! Entries stand one a line in order of their ids, byte for byte as they came, with what is set
//! aside behind them in `set_aside`. So a person can read it, and half a file is half a record.

use super::{
    merge::{Journal, Stray},
    raw::{Broken, RawJson},
};
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

/// A copy that was opened. Nothing of it is in the own record yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// What it holds, the entries that cannot be read among it.
    pub journal: Journal,
    /// Whether a newer version wrote it.
    pub newer: bool,
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
    /// It breaks off, or was changed on the way.
    #[error(
        "This copy is damaged at line {line}. Entries before that, which can be taken in: {}.",
        .rescued.len()
    )]
    Damaged {
        /// The line of the damage, from 1.
        line: usize,
        /// The column of the damage, from 1.
        column: usize,
        /// Everything that stands before it, ready to be taken in.
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
    let end = found.read(&mut RawJson::new(text));
    if found.too_many {
        return Err(BadFile::TooLarge);
    }
    let Some(version) = found.version else {
        return Err(BadFile::NotOurs);
    };
    let mut journal = Journal::default();
    for text in found.entries {
        journal.add(text);
        if journal.strays().len() > MOST_STRAYS {
            return Err(BadFile::TooLarge);
        }
    }
    for text in found.set_aside {
        let loose = || Stray { key: String::new(), text: text.to_owned() };
        journal.add_stray(Stray::read(text).unwrap_or_else(loose));
        if journal.strays().len() > MOST_STRAYS {
            return Err(BadFile::TooLarge);
        }
    }
    match end {
        Ok(()) => Ok(Opened { journal, newer: version > VERSION }),
        Err(broken) => Err(BadFile::Damaged {
            line: broken.line,
            column: broken.column,
            rescued: Box::new(journal),
        }),
    }
}

/// What was found in a file up to its end, or up to the damage.
#[derive(Default)]
struct Found<'a> {
    version: Option<u64>,
    entries: Vec<&'a str>,
    set_aside: Vec<&'a str>,
    too_many: bool,
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
            _ => raw.value().map(drop),
        })?;
        raw.end()
    }
}

/// Takes in the items of a list, as they are written.
fn list_of<'a>(
    raw: &mut RawJson<'a>,
    texts: &mut Vec<&'a str>,
    too_many: &mut bool,
) -> Result<(), Broken> {
    raw.list(&mut |raw| {
        let text = raw.value()?;
        if texts.len() == MOST {
            *too_many = true;
            return Err(raw.broken());
        }
        texts.push(text);
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::samples::{any_journal, note};
    use proptest::prelude::*;

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
        let Err(BadFile::Damaged { line, rescued, .. }) = read(cut) else { panic!() };
        assert_eq!((line, rescued.len()), (4, 2));
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
        assert!(matches!(read(&file), Err(BadFile::Damaged { rescued, .. }) if rescued.len() == 1));
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
                Err(BadFile::Damaged { rescued, .. }) => prop_assert_eq!(journal.adds(&rescued).new.len(), 0),
                Err(BadFile::TooLarge) => prop_assert!(false),
                // Only the line end behind the file may be missing.
                Ok(opened) => prop_assert_eq!(opened.journal, journal),
            }
        }

        #[test]
        fn no_text_upsets_the_reader(text in ".{0,80}") {
            let _ = read(&text);
        }
    }
}
