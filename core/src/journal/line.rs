//! The form in which a phone keeps one entry: a key with the id, and a value with a checksum.
//!
//! ```text
//! pegline/e/01KAXW7Y2Q3V4S5T6R7P8N9M0K        a1b2c3d4 {"v":1,…}
//! pegline/e/01KAXW7Y2Q3V4S5T6R7P8N9M0K/<crc>  another text of the same id
//! pegline/x/<crc>                             a stray that came with a copy
//! ```
//!
//! A line is written once and never again. Lines under other keys belong to somebody else.

use super::{
    entry::id_inside,
    id::{Ulid, read_id},
    merge::{Added, Journal, Stray},
};
use crc::{CRC_32_ISO_HDLC, Crc};

/// Keys of entries start with this.
pub const ENTRY_KEYS: &str = "pegline/e/";
/// Keys of strays taken in with a copy start with this.
pub const STRAY_KEYS: &str = "pegline/x/";

/// CRC-32 as in ISO/IEC 8802-3 (Ethernet), reflected: the one of zip and PNG.
const CHECKSUM: Crc<u32> = Crc::<u32>::new(&CRC_32_ISO_HDLC);

/// Why a line is set aside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BadLine {
    /// There are no eight hexadecimal digits and a space in front.
    #[error("its checksum is missing")]
    NoChecksum,
    /// The text is not the one that was written.
    #[error("it was damaged in storage")]
    Damaged,
    /// No entry with an id.
    #[error("it is no entry")]
    NotAnEntry,
    /// The key names another entry.
    #[error("it lies under another entry\u{2019}s name")]
    OtherKey,
}

fn checksum(text: &str) -> String {
    format!("{:08x}", CHECKSUM.checksum(text.as_bytes()))
}

/// The keys under which the text of an entry may be kept: the first, or the second where
/// another text of that id already lies under the first.
#[must_use]
pub fn keys(id: Ulid, text: &str) -> [String; 2] {
    let first = format!("{ENTRY_KEYS}{id}");
    let second = format!("{first}/{}", checksum(text));
    [first, second]
}

/// The value that keeps a text.
#[must_use]
pub fn encode(text: &str) -> String {
    format!("{} {text}", checksum(text))
}

/// Key and value that keep a stray which came with a copy.
#[must_use]
pub fn stray_line(stray: &Stray) -> (String, String) {
    // OK because two strings always become JSON.
    let text = serde_json::to_string(stray).unwrap_or_default();
    (format!("{STRAY_KEYS}{}", checksum(&text)), encode(&text))
}

fn checked(value: &str) -> Result<&str, BadLine> {
    let (sum, text) = value.split_once(' ').ok_or(BadLine::NoChecksum)?;
    if sum.len() != 8 || !sum.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        return Err(BadLine::NoChecksum);
    }
    if sum.eq_ignore_ascii_case(&checksum(text)) { Ok(text) } else { Err(BadLine::Damaged) }
}

/// The text of the entry in a line, if key, id inside and checksum agree.
///
/// # Errors
/// [`BadLine`] says which of them does not.
pub fn decode<'a>(key: &str, value: &'a str) -> Result<&'a str, BadLine> {
    Ok(decode_named(key, value)?.1)
}

fn decode_named<'a>(key: &str, value: &'a str) -> Result<(Ulid, &'a str), BadLine> {
    let text = checked(value)?;
    let named = key.strip_prefix(ENTRY_KEYS).unwrap_or_default();
    let (named, second) = named.split_once('/').map_or((named, None), |(id, sum)| (id, Some(sum)));
    let inside = id_inside(text).ok_or(BadLine::NotAnEntry)?;
    let agrees =
        read_id(named) == Some(inside) && second.is_none_or(|second| second == checksum(text));
    if agrees { Ok((inside, text)) } else { Err(BadLine::OtherKey) }
}

impl Journal {
    /// Adds what a phone's storage keeps under a key; nothing when the key is somebody else's.
    /// A line that cannot be trusted becomes a stray.
    pub fn add_line(&mut self, key: &str, value: &str) -> Option<Added> {
        let stray = || Stray { key: key.to_owned(), text: value.to_owned() };
        if key.starts_with(ENTRY_KEYS) {
            return Some(match decode_named(key, value) {
                Ok((id, text)) => self.add_named(id, text),
                Err(_) => self.add_stray(stray()),
            });
        }
        if key.starts_with(STRAY_KEYS) {
            let kept = checked(value).ok().and_then(Stray::read);
            return Some(self.add_stray(kept.unwrap_or_else(stray)));
        }
        None
    }
}

impl Stray {
    /// Why this text was set aside.
    #[must_use]
    pub fn why(&self) -> BadLine {
        if self.key.is_empty() {
            return BadLine::NotAnEntry;
        }
        // Nothing but a bad line becomes a stray, unless a copy was tampered with.
        decode(&self.key, &self.text).err().unwrap_or(BadLine::NotAnEntry)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const ID: &str = "01KAXW7Y2Q3V4S5T6R7P8N9M0K";
    const NOTE: &str = r#"{"v":1,"id":"01KAXW7Y2Q3V4S5T6R7P8N9M0K","when":"2026-11-25T08:30","kind":"note","what":{"text":"First frost"}}"#;

    fn key() -> String {
        format!("{ENTRY_KEYS}{ID}")
    }

    fn id() -> Ulid {
        read_id(ID).unwrap()
    }

    #[test]
    fn the_checksum_is_the_published_one() {
        // Catalogue of parametrised CRC algorithms (RevEng), CRC-32/ISO-HDLC: check value for the
        // text 123456789 (from memory).
        assert_eq!(checksum("123456789"), "cbf43926");
    }

    #[test]
    fn a_line_written_is_read_back() {
        let [first, second] = keys(id(), NOTE);
        assert_eq!(first, key());
        for key in [first, second] {
            assert_eq!(decode(&key, &encode(NOTE)), Ok(NOTE));
        }
    }

    #[test]
    fn a_line_that_cannot_be_trusted_is_set_aside_with_the_reason() {
        let line = encode(NOTE);
        let other = "pegline/e/01KAXW7Y2Q3V4S5T6R7P8N9M0M";
        for (key, value, why) in [
            (key().as_str(), NOTE, BadLine::NoChecksum),
            (&key(), &line.replacen("First", "Worst", 1), BadLine::Damaged),
            (&key(), &line[..line.len() - 1], BadLine::Damaged),
            (&key(), "", BadLine::NoChecksum),
            (&key(), &encode("[]"), BadLine::NotAnEntry),
            (other, &line, BadLine::OtherKey),
            (&format!("{}/00000000", key()), &line, BadLine::OtherKey),
            ("pegline/e/", &line, BadLine::OtherKey),
        ] {
            let mut journal = Journal::default();
            assert_eq!(journal.add_line(key, value), Some(Added::Stray), "{value}");
            let stray = journal.strays().next().unwrap();
            assert_eq!((stray.key.as_str(), stray.text.as_str()), (key, value));
            assert_eq!(stray.why(), why, "{value}");
        }
    }

    #[test]
    fn keys_of_somebody_else_are_not_touched() {
        let mut journal = Journal::default();
        for key in ["", "theme", "pegline", "pegline/settings", "other/e/x"] {
            assert_eq!(journal.add_line(key, &encode(NOTE)), None);
        }
        assert!(journal.is_empty());
    }

    #[test]
    fn a_stray_from_a_copy_is_the_same_stray_after_storage() {
        let stray = Stray { key: key(), text: "\u{fffd} half a li".to_owned() };
        let (key, value) = stray_line(&stray);
        let mut journal = Journal::default();
        assert_eq!(journal.add_line(&key, &value), Some(Added::Stray));
        assert_eq!(journal.strays().as_slice(), [stray]);
    }

    #[test]
    fn a_damaged_stray_is_still_kept() {
        let mut journal = Journal::default();
        assert_eq!(journal.add_line("pegline/x/00000000", "rubbish"), Some(Added::Stray));
        assert_eq!(journal.strays().next().unwrap().text, "rubbish");
    }

    proptest! {
        #[test]
        fn any_single_changed_byte_is_noticed(at in 0..NOTE.len(), to in b' '..b'~') {
            let mut bytes = encode(NOTE).into_bytes();
            let at = at + 9;
            prop_assume!(bytes[at] != to);
            bytes[at] = to;
            let value = String::from_utf8(bytes).unwrap();
            prop_assert_eq!(decode(&key(), &value), Err(BadLine::Damaged));
        }

        #[test]
        fn no_line_upsets_the_reader(key in "(pegline/[ex]/)?.{0,30}", value in ".{0,60}") {
            let mut journal = Journal::default();
            let _ = journal.add_line(&key, &value);
        }
    }
}
