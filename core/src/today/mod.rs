//! Topic `today`: what must be decided today, from the record alone.
//!
//! It goes over the garden as a gardener would and asks the topics what they have to say: the trays
//! ([`trays`]), what lies on the beds, lies over them or is kept for them ([`beds`]), what grows ([`growing`]),
//! cold and garlic ([`season`]), and what was noted for the day ([`noted`]). Each file says from which day
//! its findings count; none is told a day earlier.
//!
//! The order: first what should be done by today, that is what only tonight can save, then what can't be
//! got back (a tray over its age, a crop past its prime, a window that closes), then what waits; each
//! with the oldest first. After these comes what is to be done later, by its day. At most [`MOST`] are told
//! and the rest is counted; what the gardener noted is never among the rest. One bed or tray is told once a
//! topic: a note and what the topic itself has to say of the same become one, in the note's words.
//!
//! The days that no topic gives are common practice, and stand beside their use.

mod beds;
mod day;
mod due;
mod found;
mod growing;
mod noted;
mod season;
#[cfg(test)]
mod tests;
mod trays;

use chrono::NaiveDate;

use crate::{
    asking::Asking,
    garden::Garden,
    given::{Faults, asked},
    source::Source,
    telling::{Sure, Telling},
    text::{count, day, small_first, weekday},
    turns::Pace,
};
use day::Day;
pub use due::{Due, Tick};
use found::Found;

/// So many are told.
const MOST: usize = 12;
/// What one kind takes, in steps of a search: some milliseconds, so that each gets a turn of its own.
const A_KIND: u64 = 250_000;

asked! {
    /// What must be decided today?
    pub struct Asked {}
}

/// What is due.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// What is due, most urgent first.
    pub due: Vec<Due>,
    /// How many more are due than are told.
    pub more: usize,
    /// Where nothing is due, the first day on which something will be; null where none is foreseen.
    pub quiet_until: Option<NaiveDate>,
}

/// Answers the question.
pub(crate) async fn answer(
    _: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
    pace: &Pace,
) -> Option<(Telling, Answer)> {
    let today = asking.need_today(faults)?;
    let mut found = Vec::new();
    let day = Day::new(asking, today);
    for find in [
        noted::find as fn(&Day<'_>, &mut Vec<Found>),
        trays::find,
        beds::find,
        growing::find,
        season::find,
    ] {
        find(&day, &mut found);
        pace.did(A_KIND).await;
    }

    let coming = found.iter().filter(|it| it.from > today);
    let first = coming.min_by_key(|it| it.from);
    let first = first.map(|it| (it.from, it.due.what.clone()));
    found.retain(|it| it.from <= today);
    let mut due = found::in_order(found, today);
    let in_all = due.len();
    while due.len() > MOST
        && let Some(last) = due.iter().rposition(|it| it.note.is_none())
    {
        due.remove(last);
    }
    let answer = Answer {
        more: in_all - due.len(),
        due,
        quiet_until: first.as_ref().filter(|_| in_all == 0).map(|(on, _)| *on),
    };
    Some((tell(&answer, in_all, first, asking), answer))
}

/// That some of the record can't be read, where that is so: what it says may well be due.
#[must_use]
pub fn unread(garden: &Garden) -> Option<String> {
    let (number, on_them) = match garden.unread {
        0 => return None,
        1 => (1, "it"),
        more => (u32::try_from(more).unwrap_or(u32::MAX), "them"),
    };
    let entries = count(number, "entry", "entries");
    Some(format!("{entries} of the record can't be read, and nothing here rests on {on_them}."))
}

fn tell(
    answer: &Answer,
    in_all: usize,
    first: Option<(NaiveDate, String)>,
    asking: &Asking<'_>,
) -> Telling {
    let headline = match (u32::try_from(in_all).unwrap_or(u32::MAX), first) {
        (0, _) if asking.garden.happened.is_empty() => {
            "Nothing is known of your garden yet".to_owned()
        }
        (0, None) => "Nothing to decide today".to_owned(),
        (0, Some((on, what))) => format!(
            "Nothing to decide before {} {}: {}",
            weekday(on),
            day(on, asking.today),
            small_first(&what)
        ),
        (some, _) => format!("{} to decide today", count(some, "thing", "things")),
    };
    let mut telling = Telling::new(headline, Sure::Fair);
    telling.because.extend(unread(asking.garden));
    if asking.garden.happened.is_empty() {
        let begin = "Every question works without. Lay out a bed, or write down a tray, and what is due is told here.";
        telling.because.push(begin.to_owned());
    } else if answer.more > 0 {
        let more = answer.more;
        telling.because.push(format!("{more} more can wait longer than these."));
    }
    telling.source(Source::CommonPractice);
    telling
}
