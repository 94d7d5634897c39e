//! Topic `harvest-cues`: what to look for, in the order that settles it soonest.
//!
//! The table is `core/data/cues.toml`; the order is worked out by [`Sheet::ask_next`] from the signs
//! already seen. To answer "can't tell" is to leave a question out: it narrows nothing.

mod answer;
mod question;
mod words;

pub use answer::{Answer, Asks, Cue, CueRow, Measurable, rows};
pub use question::Asked;

use self::{
    answer::{asks, cues, measurable},
    question::Question,
};
use crate::{
    asking::Asking,
    given::Faults,
    harvest::cues::{Sheet, sheets_of},
    telling::Telling,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    _: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let Question { crop, sheet, seen } = asked.read(faults)?;
    let order = sheet.ask_next(&seen);
    let answer = Answer {
        crop: crop.id(),
        purpose: sheet.used_as(),
        purposes: sheets_of(crop).into_iter().filter_map(Sheet::used_as).collect(),
        questions: order.iter().map(|question| asks(question)).collect(),
        cues: cues(sheet, &order),
        measures: sheet.sizes().iter().map(measurable).collect(),
    };
    Some((words::tell(crop, sheet, &order), answer))
}
