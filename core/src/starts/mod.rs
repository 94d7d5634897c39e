//! Young plants in trays: how old they really are, and how they get used to outdoors.
//!
//! - [`age`]: age by heat, overruled by leaves and roots;
//! - [`cold`]: weeks of cold, which make some kinds bolt or button;
//! - [`hardening`]: a day's step, and what keeps a tray in;
//! - [`course`]: the days until it is used to outdoors;
//! - [`season`]: from when the season lets it be set out;
//! - [`plant_out`]: from when it can be planted.

pub mod age;
pub mod cold;
pub mod cold_so_far;
pub mod course;
pub mod hardening;
pub mod plant_out;
pub(crate) mod season;
pub(crate) mod tray;
pub mod tray_asked;
