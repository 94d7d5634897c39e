//! Frost: how cold a bed gets at night, what that does to what grows there, and what covers change.
//!
//! - [`night`]: the two kinds of night;
//! - [`dew_point`], [`evening`], [`course`], [`afternoon`]: the night's low and its course from readings;
//! - [`low`]: the low at a bed, with the difference that its past nights teach;
//! - [`harm`]: what a low does to a crop;
//! - [`seen`]: what harm that was seen tells of the low;
//! - [`cover`]: what covers change, and where few of them go;
//! - [`last_frost`]: when frost is past, from the gardener's own years.
//!
//! What is ignored: how long the cold lasts, wet leaves, wind chill at bed level, the shelter of walls
//! (all of them shift a bed's own nights, from which its difference is learned).

pub mod afternoon;
pub mod course;
pub mod cover;
pub mod dew_point;
pub mod evening;
pub mod expected;
pub mod harm;
pub mod last_frost;
pub mod low;
pub mod midday;
pub mod night;
pub mod reset;
pub mod seen;
