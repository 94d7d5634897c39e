//! Harvest: ready, at its prime, going over or past, and when to look again.
//!
//! Signs by eye, hand and size ([`cues`]) are combined ([`combine`], [`verdict`]) with the crop's age in
//! support ([`age`], [`heat`]); from the stage follow the next look ([`again`]), the uses and the cautions.

pub mod again;
pub mod age;
mod asked;
mod asking_order;
pub mod at_bed;
pub mod before_away;
mod chosen;
pub mod combine;
pub mod cues;
pub mod grades;
mod headline;
pub mod heat;
pub mod measures;
mod next_look;
mod own;
pub mod picked;
pub mod questions;
pub mod readiness;
mod recorded;
mod rests_on;
pub mod salt;
pub mod salting;
pub mod sizes;
pub mod stage;
mod support;
mod telling;
pub mod verdict;

pub(crate) use next_look::{NextLook, next_look};

#[cfg(test)]
mod topic_tests;
