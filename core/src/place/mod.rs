//! The place: what follows from where the garden lies.

pub mod day_length;
mod latitude;
pub mod sun;

pub use latitude::Latitude;
