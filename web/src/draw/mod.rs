//! Pictures: SVG made from an answer's numbers.

mod plan;
mod year;

pub use plan::{In, Plan, Stake, plan};
pub use year::year;
