//! Water for a bed: how long to run the drip. Topic `drip-run-time`.
//!
//! What the plants use ([`need`]) less the rain, over what the emitters give ([`drip`]), split so
//! that no run goes past the roots ([`soil`]). Not in the model: shade, wind, mulch, what is still
//! in the soil, and water that runs off.

pub mod coefficient;
pub mod drip;
pub mod need;
mod question;
pub mod soil;
#[cfg(test)]
mod tests;
mod words;

pub(crate) use question::answer;
pub use question::{Answer, Asked, Demand};
