//! Topic `bed-quantities`: how much to haul, buy, weigh or keep back for a bed.
//!
//! Only arithmetic. Where plants may stand is another matter: the counts here are those of plain
//! rows and grids, as a table in a handbook gives them; of garlic it is told how many more the best
//! layout takes.

mod amount;
mod answer;
mod bulk;
pub mod clove;
mod pieces;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, MassRange};
pub use bulk::{Material, containers, depth, fill, spread};
pub use clove::clove;
pub use pieces::{Share, bulbs_to_keep, in_grid, in_row, of_area, one_of, to_obtain, weight};
pub use question::{Asked, Item};

use crate::{asking::Asking, given::Faults, telling::Telling};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let amount = asked.read(asking, faults)?.amount();
    Some((words::told(&amount, asking.system), amount.answer()))
}
