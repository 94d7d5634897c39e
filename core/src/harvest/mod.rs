//! Harvest: ready, at its prime, going over or past, and when to look again.
//!
//! Signs by eye, hand and size ([`cues`]) are combined ([`combine`], [`verdict`]) with the crop's age in
//! support ([`age`], [`heat`]); from the stage follow the next look ([`again`]), the uses and the cautions.

pub mod again;
pub mod age;
mod asking_order;
pub mod at_bed;
pub(crate) mod cautions;
pub(crate) mod chosen;
pub mod combine;
pub mod cues;
pub mod grades;
pub mod heat;
pub mod measures;
pub(crate) mod own;
pub mod picked;
pub mod sizes;
pub mod stage;
pub mod verdict;
