//! Seed in the ground: whether to sow, how many, and whether it is still to come up.
//!
//! The published tables: [`germination`]. Whether the soil is right: [`sowing`]. From sowing to emergence: [`course`]. What seed's age takes: [`seed_age`].

pub mod course;
pub mod germination;
pub mod seed_age;
pub mod sowing;
