//! The place: what follows from where the garden lies.

pub mod air;
mod day_wave;
pub mod frost_dates;
pub mod known_soil;
mod latitude;
mod month_day;
pub(crate) mod nights;
pub mod readings;
pub mod site;
pub mod soil;
pub mod sun;

pub(crate) use day_wave::DayWave;
pub use latitude::Latitude;
pub use month_day::MonthDay;

#[cfg(test)]
mod site_tests;
