//! Topic `salt-for-fermenting`: how much salt, by weight.
//!
//! Model: [`salt`](salt). Whole vegetables lie in brine, so their water must be weighed too.

mod answer;
mod question;
pub mod salt;
mod words;

pub use answer::Answer;
pub use question::Asked;

use uom::si::mass::gram;

use self::{question::Question, salt::salt};
use crate::{asking::Asking, given::Faults, quantity::tenths, telling::Telling};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let question = asked.read(faults)?;
    let Question { weight, water, percent, .. } = question;
    let salt = salt(weight, water, percent);
    let answer = Answer {
        salt_g: tenths(salt.get::<gram>()),
        percent: percent.number(),
        usual: question.is_usual(),
    };
    Some((words::tell(&question, salt, asking.system), answer))
}
