//! The place: what follows from where the garden lies.

pub mod air;
pub mod day_length;
pub mod frost_dates;
mod latitude;
pub mod readings;
pub mod soil;
pub mod sun;

pub use latitude::Latitude;
