//! Where the record is kept on the phone: one key an entry, written once, never rewritten.
//!
//! `localStorage` is asked for anew each time, since a browser may take it away between two events.
//! Where it refuses storage the record lives in memory and the page says so.

use gloo_storage::{LocalStorage, Storage as _};
use web_sys::Storage;

/// Every key of the record begins with this; keys with other prefixes are never touched.
pub const PREFIX: &str = "pegline/e/";

/// What the browser grants one origin (Storage Standard), in bytes.
const GRANTED: usize = 5 * 1024 * 1024;

/// The record's place.
#[derive(Debug)]
pub enum Store {
    /// The browser's `localStorage`.
    Phone,
    /// Memory: gone when the page closes. `most` is how many bytes it takes.
    Memory {
        /// The lines kept so far.
        lines: Vec<(String, String)>,
        /// The most bytes taken.
        most: usize,
    },
}

/// The browser's `localStorage`; nothing where it is refused.
fn phone() -> Option<Storage> {
    // gloo's handle throws where storage is refused, so the browser is asked first. Its typed calls
    // would read other programs' keys and fail whole on one bad value; the raw handle does neither.
    web_sys::window()?.local_storage().ok()??;
    Some(LocalStorage::raw())
}

/// Nothing was written: the store is full or was taken away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotWritten;

impl Store {
    /// Opens the phone's storage, or memory where it is refused; probed once by writing.
    pub fn open() -> Self {
        const PROBE: &str = "pegline/probe";
        let granted = phone().is_some_and(|storage| {
            // A full store refuses the probe too but is not refused storage: it can be read.
            let granted =
                storage.set_item(PROBE, "1").is_ok() || storage.length().is_ok_and(|keys| keys > 0);
            let _ = storage.remove_item(PROBE);
            granted
        });
        if granted { Self::Phone } else { Self::memory() }
    }

    /// A store in memory as large as the phone's.
    pub fn memory() -> Self {
        Self::Memory { lines: Vec::new(), most: GRANTED }
    }

    /// Whether the record outlives the page.
    pub fn lasts(&self) -> bool {
        matches!(self, Self::Phone)
    }

    /// Every line of the record, by key.
    pub fn lines(&self) -> Vec<(String, String)> {
        match self {
            Self::Memory { lines, .. } => lines.clone(),
            Self::Phone => {
                let Some(storage) = phone() else {
                    return Vec::new();
                };
                let keys = 0..storage.length().unwrap_or(0);
                keys.filter_map(|index| storage.key(index).ok().flatten())
                    .filter(|key| key.starts_with(PREFIX))
                    .filter_map(|key| {
                        let line = storage.get_item(&key).ok().flatten()?;
                        Some((key, line))
                    })
                    .collect()
            }
        }
    }

    /// Writes all lines, or none.
    ///
    /// # Errors
    /// When the store is full or refuses; what was written on the way is taken back.
    pub fn write(&mut self, new: &[(String, String)]) -> Result<(), NotWritten> {
        for (done, (key, line)) in new.iter().enumerate() {
            if self.write_one(key, line).is_err() {
                for (key, _) in new.iter().take(done) {
                    self.take_back(key);
                }
                return Err(NotWritten);
            }
        }
        Ok(())
    }

    /// The share of what the browser grants that the record fills, from 0 to 1; two bytes a letter.
    pub fn filled(&self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "far below 2^52 bytes")]
        let share = self.bytes() as f64 / GRANTED as f64;
        share.min(1.0)
    }

    fn bytes(&self) -> usize {
        self.lines().iter().map(|(key, line)| size(key, line)).sum()
    }

    fn write_one(&mut self, key: &str, line: &str) -> Result<(), NotWritten> {
        match self {
            Self::Phone => {
                phone().and_then(|storage| storage.set_item(key, line).ok()).ok_or(NotWritten)
            }
            Self::Memory { lines, most } => {
                let kept: usize = lines.iter().map(|(key, line)| size(key, line)).sum();
                if kept + size(key, line) > *most {
                    return Err(NotWritten);
                }
                lines.retain(|kept| kept.0 != key);
                lines.push((key.to_owned(), line.to_owned()));
                Ok(())
            }
        }
    }

    fn take_back(&mut self, key: &str) {
        match self {
            Self::Phone => {
                let _ = phone().map(|storage| storage.remove_item(key));
            }
            Self::Memory { lines, .. } => {
                lines.retain(|kept| kept.0 != key);
            }
        }
    }
}

/// Bytes a line takes: browsers count two for each UTF-16 unit.
fn size(key: &str, line: &str) -> usize {
    2 * (key.encode_utf16().count() + line.encode_utf16().count())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_store_keeps_nothing_of_what_did_not_fit_whole() {
        let mut store = Store::Memory { lines: Vec::new(), most: 100 };
        let line = |key: &str| (format!("{PREFIX}{key}"), "0123456789".to_owned());
        assert_eq!(store.write(&[line("a")]), Ok(()));
        assert_eq!(store.write(&[line("b"), line("c")]), Err(NotWritten));
        assert_eq!(store.lines(), [line("a")]);
    }
}
