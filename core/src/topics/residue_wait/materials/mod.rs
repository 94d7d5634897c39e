//! What was laid, and how much of it.

mod amount;
mod mixture;

pub use amount::{ARMFUL, Amount, BUCKET, Measure};
pub use mixture::{Material, Mixture, Stage, State};
