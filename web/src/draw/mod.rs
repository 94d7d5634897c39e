//! Pictures: SVG made from an answer's numbers.

mod balance;
mod days;
mod night;
mod plan;
mod year;

pub use balance::{Curve, balance};
pub use days::{Row, days};
pub use night::{Night, night};
pub use plan::{In, Plan, Scale, Stake, plan, touched};
pub use year::year;
