//! Topic `after-frost`: what to do with a crop that was frosted, by what is seen on it.
//!
//! What the signs come to: [`judge`]. What harm tells of the low: [`low_of`](crate::frost::seen::low_of),
//! from this crop and from others of the bed that were looked at after the same night.

mod answer;
mod judge;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, Between, Verdict};
pub use question::{Asked, Sign};

use chrono::{Duration, NaiveDate};

use self::{
    judge::{Facts, harm, judge},
    question::Question,
    words::Told,
};
use crate::{
    asking::Asking,
    catalogue,
    frost::seen::{Span, low_of},
    garden::Bed,
    given::{Faults, Readable},
    place::air::celsius,
    quantity::hundredths,
    telling::Telling,
    words::harm::Harm,
};

/// What was seen in a bed so few days before tells of the same night.
const SAME_NIGHT_DAYS: i64 = 2;

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking, faults)?;
    let today = asking.today?;
    let facts = Facts::of(question.crop);
    let (verdict, days) = judge(facts, &question.signs);
    let harm = harm(verdict, &question.signs);
    let span = low_of(question.crop, harm);
    let fits = |span: &Span| question.low.is_none_or(|low| span.from <= low && low <= span.to);
    let others = question.bed.map(|bed| others(bed, &question, today)).unwrap_or_default();
    let together = others.into_iter().fold(span, |span, other| span?.and(other));
    let answer = Answer {
        verdict,
        look_again: today + Duration::days(days),
        low_between_c: together.map(|span| Between {
            from: hundredths(celsius(span.from)),
            to: hundredths(celsius(span.to)),
        }),
        low_clashes: span.is_some_and(|span| !fits(&span)),
    };
    let told = Told { question: &question, facts, answer: &answer, harm, span: together };
    Some((told.telling(asking), answer))
}

/// What other crops of the bed told of the same night.
fn others(bed: &Bed, question: &Question<'_>, today: NaiveDate) -> Vec<Span> {
    let near = bed.frosts.iter().filter(|seen| {
        let days = (today - seen.when.date()).num_days();
        (0..=SAME_NIGHT_DAYS).contains(&days)
    });
    near.filter_map(|seen| {
        let crop = catalogue::crop(seen.what.crop.as_deref()?).ok()?;
        let harm = Harm::read(seen.what.harm.as_deref()?).ok()?;
        (crop.id() != question.crop.id()).then(|| low_of(crop, harm))?
    })
    .collect()
}
