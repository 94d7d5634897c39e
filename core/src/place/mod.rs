//! The place: what follows from where the garden lies.

mod latitude;
pub mod sun;
