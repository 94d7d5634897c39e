//! Pictures: SVG made from an answer's numbers.

mod plan;

pub use plan::{In, Plan, Stake, plan};
