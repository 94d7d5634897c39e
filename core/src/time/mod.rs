//! Dates: ranges of them, and the day of the year that models of the seasons run on.

mod day_of_year;
pub mod iso;
mod range;
pub(crate) mod said;

pub use day_of_year::DayOfYear;
pub(crate) use day_of_year::{DAYS_A_YEAR, wrapped};
pub use range::Range;
