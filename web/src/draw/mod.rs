//! Pictures: SVG made from an answer's numbers.

mod plan;
mod year;

pub use plan::{In, Plan, Scale, Stake, plan, touched};
pub use year::year;
