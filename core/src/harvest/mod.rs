//! Harvest: ready, at its prime, going over or past, and when to look again.

pub mod again;
pub mod age;
pub mod combine;
pub mod cues;
pub mod grades;
pub mod heat;
pub mod measures;
pub mod salt;
pub mod stage;
pub mod verdict;
