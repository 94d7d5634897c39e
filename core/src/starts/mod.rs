//! Topics `start-age` and `hardening-plan`: how old a tray of young plants really is, and how it
//! gets used to outdoors.
//!
//! - [`age`]: age by heat, overruled by leaves and roots;
//! - [`cold`]: weeks of cold, which make some kinds bolt or button;
//! - [`hardening`]: a day's step, and what keeps a tray in;
//! - [`course`]: the days until it is used to outdoors;
//! - [`plant_out`]: from when it can be planted;
//! - [`trays`]: the trays of the record, most urgent first.

pub mod age;
mod age_telling;
pub mod cold;
mod cold_so_far;
pub mod course;
pub mod hardening;
pub mod hardening_plan;
pub(crate) mod plan_asked;
mod plan_telling;
pub mod plant_out;
pub mod start_age;
#[cfg(test)]
mod topic_tests;
mod tray;
pub mod trays;
