//! Harvest: ready, at its prime, going over or past, and when to look again.

pub mod combine;
pub mod cues;
pub mod heat;
pub mod stage;
