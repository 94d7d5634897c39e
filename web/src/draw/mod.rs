//! Pictures: SVG made from an answer's numbers.

mod balance;
mod board;
mod columns;
mod days;
mod plan;
mod sureness;
mod year;

pub use balance::{Curve, balance};
pub use board::board;
pub use columns::{Column, columns};
pub use days::{Row, days};
pub use plan::{Plan, Scale, plan, touched};
pub use sureness::sureness;
pub use year::year;

/// A number of pixels to a tenth; how the library prints a number in full weighs 8 kB on the phone.
fn px(value: f64) -> String {
    pegline_core::quantity::number::show_number(value, 1)
}
