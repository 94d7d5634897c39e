//! An invented garden to look round in, shown in place of an empty record and never stored.

use chrono::{NaiveDate, TimeDelta};
use pegline_core::journal::{
    Entry, Journal, What,
    ahead::{read_ahead, show_ahead},
    file,
};

const RECORD: &str = include_str!("../demo/garden.json");

/// The day on which the bundled record ends.
const LAST_DAY: NaiveDate = match NaiveDate::from_ymd_opt(2026, 11, 25) {
    Some(day) => day,
    None => NaiveDate::MIN,
};

/// The record, moved in time so that it ends today.
pub fn journal(today: NaiveDate) -> Journal {
    let mut moved = Journal::default();
    let Ok(opened) = file::read(RECORD) else {
        return moved;
    };
    let by = TimeDelta::days((today - LAST_DAY).num_days());
    for entry in opened.journal.entries() {
        let when = entry.when.checked_add_signed(by).unwrap_or(entry.when);
        let later = |date: NaiveDate| date.checked_add_signed(by).unwrap_or(date);
        let mut what = entry.what.clone();
        match &mut what {
            What::Reserved(kept) => {
                kept.from = kept.from.map(later);
                kept.until = kept.until.map(later);
            }
            What::Note(note) => {
                let ahead = read_ahead(&note.text);
                if let Some(text) = ahead.map(|(on, what)| show_ahead(later(on), what)) {
                    note.text = text;
                }
            }
            _ => {}
        }
        moved.add_entry(&Entry { when, what, ..entry.clone() });
    }
    moved
}

#[cfg(test)]
mod tests {
    use super::*;
    use pegline_core::garden::Garden;

    #[test]
    fn every_entry_of_the_invented_garden_is_read_and_finds_its_place() {
        let journal = journal(LAST_DAY);
        assert_eq!(journal.unread().count() + journal.strays().count(), 0);
        let garden = Garden::fold(&journal);
        assert!(garden.unplaced.is_empty(), "{:?}", garden.unplaced);
        assert_eq!(garden.beds.len(), 8);
    }

    #[test]
    fn the_record_ends_on_the_day_it_is_looked_at() {
        let today = NaiveDate::from_ymd_opt(2027, 6, 1).unwrap();
        let last = journal(today).entries().map(|entry| entry.when.date()).max().unwrap();
        assert!((today - last).num_days() < 7);
    }
}
