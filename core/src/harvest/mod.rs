//! Harvest: ready, at its prime, going over or past, and when to look again.
//!
//! Signs by eye, hand and size ([`cues`]) are combined ([`combine`], [`verdict`]) with the crop's age in
//! support ([`age`], [`heat`]); from the stage follow the next look ([`again`]), the uses and the cautions.

pub mod again;
pub mod age;
pub mod before_away;
mod chosen;
pub mod combine;
pub mod cues;
pub mod grades;
pub mod heat;
pub mod measures;
mod own;
pub mod questions;
pub mod readiness;
pub mod salt;
pub mod salting;
pub mod stage;
mod telling;
pub mod verdict;

#[cfg(test)]
mod topic_tests;
