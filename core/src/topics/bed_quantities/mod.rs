//! Amounts for a bed: how much to haul, buy, weigh or keep back. Topic `bed-quantities`.
//!
//! Only arithmetic. Where plants may stand is another matter: the counts here are those of plain
//! rows and grids, as a table in a handbook gives them; of garlic it is told how many more the best
//! layout takes.

mod bulk;
pub mod clove;
mod pieces;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use bulk::{Material, containers, depth, fill, spread};
pub use clove::clove;
pub use pieces::{Share, bulbs_to_keep, in_grid, in_row, of_area, one_of, to_obtain, weight};
pub(crate) use question::answer;
pub use question::{Answer, Asked, Item, MassRange};
