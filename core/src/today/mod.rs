//! Topic `today`: what must be decided today, from the record alone.
//!
//! Every bed and every tray is gone over as its own topics see it; nothing is modelled here. First
//! stands what is due by today: what the night can take, then trays that lose worth by the day, what
//! was noted for a day to come, garlic's weeks, what is ready to pick, seed that should be up, covers
//! still on, and beds that have settled; each kind in order of its dates. Then what is due in the days
//! to come, by date.

mod find;
#[cfg(test)]
mod tests;

use chrono::NaiveDate;

use crate::{
    ask::{Asking, Topic},
    given::{Faults, Given, asked},
    order,
    telling::{Sure, Telling, count, day},
    turns::Pace,
};

/// So many are told, and how many more there are.
const MOST: u32 = 12;

asked! {
    /// What must be decided today?
    pub struct Asked {
        /// How many are listed at most; a dozen if absent.
        most: Given<u32>,
    }
}

/// What must be decided.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Most urgent first.
    pub due: Vec<Due>,
    /// How many more there are than are listed.
    pub more: u32,
}

/// One thing to decide.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Due {
    /// What to do, in a few words.
    pub what: String,
    /// The bed, by its id.
    pub bed: Option<String>,
    /// The tray, by its id.
    pub start: Option<String>,
    /// The day by which it should be done; before today where it is overdue.
    pub by: NaiveDate,
    /// By when it is due, as people say it.
    pub by_words: String,
    /// Why.
    pub why: String,
    /// The question that tells more; `today` for what was noted for a day to come.
    pub topic: Topic,
}

/// Answers the question.
pub(crate) async fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
    pace: &Pace,
) -> Option<(Telling, Answer)> {
    let most = asked.most.within(1, 500, "1 to 500", faults);
    let today = asking.need_today(faults)?;
    let mut due = find::all(asking, today, pace).await;
    order::sort(&mut due, &|(rank, due)| {
        let late = (today - due.by).num_days();
        match late >= 0 {
            true => [0, *rank, -late],
            false => [1, -late, *rank],
        }
    });
    let mut due: Vec<Due> = due.into_iter().map(|(_, due)| due).collect();
    let telling = tell(&due, asking, today);
    let most = most.unwrap_or(MOST) as usize;
    let more = due.len().saturating_sub(most) as u32;
    due.truncate(most);
    Some((telling, Answer { due, more }))
}

fn tell(due: &[Due], asking: &Asking<'_>, today: NaiveDate) -> Telling {
    let now = due.iter().filter(|due| due.by <= today).count() as u32;
    let known = !asking.garden.beds.is_empty() || !asking.garden.starts.is_empty();
    let headline = match (now, due.first()) {
        (1.., _) => format!("{} to decide today", count(now, "thing", "things")),
        (_, Some(first)) => format!("Nothing to decide before {}", day(first.by, Some(today))),
        _ if known => "Nothing to decide today".to_owned(),
        _ => "Nothing is known of your garden yet".to_owned(),
    };
    let mut telling = Telling::new(headline, Sure::Fair);
    if !known {
        telling.because.push(
            "Lay out a bed or write down a tray, and what is due stands here day by day."
                .to_owned(),
        );
    }
    telling
}
