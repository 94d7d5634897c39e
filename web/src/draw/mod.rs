//! Pictures: SVG made from an answer's numbers.

mod night;
mod plan;
mod year;

pub use night::{Night, night};
pub use plan::{In, Plan, Scale, Stake, plan, touched};
pub use year::year;
