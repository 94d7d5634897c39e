//! Topic `emergence`: whether seed in the ground is still to come up.
//!
//! The published tables: [`germination`](crate::catalogue::germination). Whether the soil is right for sowing: [`sowing`]. From
//! sowing to emergence: [`course`]. What seed's age takes: [`seed_age`].

pub mod course;
mod question;
pub mod seed_age;
pub mod sowing;
mod telling;

pub use question::{Answer, Asked, of_sowing};
pub(crate) use question::{Seed, answer, sowing_depth};
pub(crate) use telling::of_the_kind;

#[cfg(test)]
mod tests;
