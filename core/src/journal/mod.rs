//! The record: entries that are only ever added.
//!
//! An entry is one line of JSON about something done or seen in the garden. Undoing and
//! correcting are entries too, so nothing is ever lost, and two records merge by set union:
//! the order does not matter and merging twice changes nothing.
//!
//! - [`entry`]: one entry, its draft, and how it is read;
//! - [`what`]: the kinds of entry;
//! - [`details`]: the fields of each kind;
//! - [`sites`]: where plants stand, in a few characters;
//! - [`merge`]: the record as a set, and its union with another;
//! - [`mod@file`]: the copy that is handed over;
//! - [`mod@line`]: the form in which a phone keeps one entry;
//! - [`id`]: names of entries;
//! - [`ahead`]: notes for a day to come.

pub mod ahead;
pub mod details;
pub mod entry;
mod fields;
pub mod file;
pub mod id;
pub mod line;
pub mod merge;
mod raw;
#[cfg(test)]
pub(crate) mod samples;
pub mod sites;
pub mod what;

pub use details::About;
pub use entry::{Draft, Entry, Fault, WhyNot, read_entry};
pub use id::{Ulid, next_id};
pub use merge::{Added, Adds, Held, Journal, Kept, Stray};
pub use sites::Sites;
pub use what::What;
