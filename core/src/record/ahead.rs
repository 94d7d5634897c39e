//! What is noted for a day to come: a note that begins with its date, "2027-03-20: Cut the scapes."
//!
//! It is an ordinary note of the record, so that any copy keeps it; done, it is corrected into one of
//! the day on which it was done.

use chrono::NaiveDate;

use crate::{
    garden::{Garden, Happened},
    journal::{Draft, Ulid, What, ahead::read_ahead, details},
    order,
    text::day,
};

/// Something noted for a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ahead {
    /// The note's entry.
    pub id: Ulid,
    /// The day it is noted for.
    pub on: NaiveDate,
    /// What to do then.
    pub what: String,
}

/// A note as it is told: with its day as people say it, where it was made for one.
pub(super) fn told(text: &str) -> String {
    match read_ahead(text) {
        Some((on, what)) => format!("For {}: {what}", day(on, None)),
        None => text.to_owned(),
    }
}

/// Whether a draft is a note for a day to come, which one may take or leave.
pub fn is_ahead(draft: &Draft) -> bool {
    matches!(&draft.what, What::Note(note) if read_ahead(&note.text).is_some())
}

/// What this is noted for, if it is a note for a day to come that is not done yet.
pub(crate) fn ahead(it: &Happened) -> Option<Ahead> {
    let What::Note(note) = &it.entry.what else {
        return None;
    };
    let (on, what) = read_ahead(&note.text)?;
    Some(Ahead { id: it.entry.id, on, what: what.to_owned() })
}

/// What is noted for a bed and neither done nor undone, in order of its days; those before today are
/// overdue.
pub fn aheads(garden: &Garden, bed: &str) -> Vec<Ahead> {
    let mut aheads: Vec<Ahead> = garden.happened_in(bed).filter_map(ahead).collect();
    order::sort(&mut aheads, &|it| [it.on.to_epoch_days().into(), 0, 0]);
    aheads
}

/// The draft that makes a note for a day to come one of something done at `moment`.
pub fn done_ahead(garden: &Garden, id: Ulid, moment: chrono::NaiveDateTime) -> Option<Draft> {
    let entry = garden.happened.iter().find(|it| it.entry.id == id)?;
    let entry = &entry.entry;
    let What::Note(note) = &entry.what else {
        return None;
    };
    let (_, what) = read_ahead(&note.text)?;
    let done = Draft {
        about: entry.about.clone(),
        what: What::Note(details::Note { text: what.to_owned() }),
    };
    entry.corrected_to(moment, &done, garden.latest_corrections(id))
}
