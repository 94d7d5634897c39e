//! Dates: ranges of them, and the day of the year that models of the seasons run on.

mod day_of_year;
pub mod iso;
mod month_day;
mod range;

pub use day_of_year::DayOfYear;
pub(crate) use day_of_year::{DAYS_A_YEAR, wrapped};
pub use month_day::MonthDay;
pub use range::Range;
