//! What was found, put in order.

use chrono::NaiveDate;

use super::due::{Due, Tick};
use crate::{
    asking::Topic,
    order,
    text::{day, weekday},
};

/// What waiting costs.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Weight {
    /// It can be done before this night only.
    Tonight,
    /// What is lost by waiting can't be got back.
    Lost,
    /// It waits.
    Waits,
}

/// Something due, today or later.
pub(super) struct Found {
    /// From which day on it counts.
    pub(super) from: NaiveDate,
    pub(super) weight: Weight,
    pub(super) due: Due,
}

impl Found {
    pub(super) fn new(topic: Topic, what: String, [from, by]: [NaiveDate; 2], why: String) -> Self {
        Self {
            from,
            weight: Weight::Waits,
            due: Due {
                what,
                bed: None,
                start: None,
                planting: None,
                by,
                by_told: String::new(),
                why,
                topic,
                tick: None,
                note: None,
            },
        }
    }

    pub(super) fn weighs(self, weight: Weight) -> Self {
        Self { weight, ..self }
    }

    pub(super) fn of_bed(mut self, bed: &str) -> Self {
        self.due.bed = Some(bed.to_owned());
        self
    }

    pub(super) fn of_start(mut self, start: String) -> Self {
        self.due.start = Some(start);
        self
    }

    pub(super) fn ticked(mut self, tick: Option<Tick>) -> Self {
        self.due.tick = tick;
        self
    }

    fn key(&self, today: NaiveDate) -> [i64; 3] {
        let by = i64::from(self.due.by.to_epoch_days());
        let weight = self.weight as i64;
        if self.due.by <= today { [weight, by, 0] } else { [Weight::Waits as i64 + 1, by, weight] }
    }

    /// Whether a note is about the very thing that a topic has to say.
    fn is_of(&self, other: &Self) -> bool {
        let (one, other) = (&self.due, &other.due);
        one.topic == other.topic
            && one.topic != Topic::Today
            && (&one.bed, &one.start) == (&other.bed, &other.start)
    }
}

/// What is due, each thing once, most urgent first.
pub(super) fn in_order(found: Vec<Found>, today: NaiveDate) -> Vec<Due> {
    let (mut due, others): (Vec<Found>, Vec<Found>) =
        found.into_iter().partition(|it| it.due.note.is_some());
    let notes = due.len();
    for other in others {
        let noted = due.iter_mut().take(notes).find(|it| it.is_of(&other));
        let Some(note) = noted else {
            due.push(other);
            continue;
        };
        note.weight = note.weight.min(other.weight);
        note.due.by = note.due.by.min(other.due.by);
        note.due.planting = note.due.planting.take().or(other.due.planting);
        note.due.why = format!("{}. {}", other.due.what, other.due.why);
    }
    order::sort(&mut due, &|it| it.key(today));
    let told = |mut it: Found| {
        it.due.by_told = by_told(it.due.by, today);
        it.due
    };
    due.into_iter().map(told).collect()
}

/// "Overdue since 20 Nov", "Today", "By Sat 28 Nov".
fn by_told(by: NaiveDate, today: NaiveDate) -> String {
    let said = day(by, Some(today));
    if by < today {
        format!("Overdue since {said}")
    } else if by == today {
        "Today".to_owned()
    } else {
        format!("By {} {said}", weekday(by))
    }
}
