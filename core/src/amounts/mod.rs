//! Amounts for a bed: how much to haul, buy, weigh or keep back.
//!
//! Only arithmetic. Where plants may stand is another matter: the counts here are those of plain
//! rows and grids, as a table in a handbook gives them.

mod bulk;
mod pieces;
mod stock;

pub use bulk::{Material, containers, depth, fill, spread};
pub use pieces::{Share, bulbs_to_keep, in_grid, in_row, of_area, one_of, to_obtain, weight};
pub use stock::{PieceWeight, Stock};
