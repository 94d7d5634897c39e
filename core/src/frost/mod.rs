//! Topic `frost-tonight`: how cold a bed gets tonight, what that does to what grows there, and what to cover.
//!
//! - [`night`]: the two kinds of night;
//! - [`dew_point`], [`evening`], [`course`], [`afternoon`]: the night's low and its course from readings;
//! - [`low`]: the low at a bed, with the difference that its past nights teach;
//! - [`harm`]: what a low does to a crop;
//! - [`cover`]: what covers change, and where few of them go;
//! - [`opening`]: the day after, under glass (a topic of its own);
//! - [`last_frost`]: when frost is past, from the gardener's own years.
//!
//! What is ignored: how long the cold lasts, wet leaves, wind chill at bed level, the shelter of walls
//! (all of them shift a bed's own nights, from which its difference is learned).

pub mod afternoon;
mod air_asked;
mod answer;
mod asked;
mod bed_words;
mod beds_asked;
mod cautions;
pub mod course;
pub mod cover;
pub mod dew_point;
pub mod evening;
pub mod expected;
mod from_record;
pub mod harm;
pub mod last_frost;
pub mod low;
mod midday;
pub mod night;
pub mod opening;
pub mod reset;
mod telling;
mod tonight;
#[cfg(test)]
mod topic_tests;
mod worked;

pub use answer::{Answer, AtBed, AtCrop, Verdict};
pub use asked::Asked;
pub use bed_words::{BedTold, runs};
pub(crate) use expected::above;
pub use from_record::holds_anything;
pub(crate) use from_record::{tender_out, told_of_night};
pub(crate) use tonight::answer;
