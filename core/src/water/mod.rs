//! Water for a bed: how long to run the drip. Topic `drip-run-time`.
//!
//! What the plants use ([`need`]) less the rain, over what the emitters give ([`drip`]), split so
//! that no run goes past the roots ([`soil`]). Not in the model: shade, wind, mulch, what is still
//! in the soil, and water that runs off.

mod asked;
pub mod coefficient;
pub mod drip;
pub mod need;
pub mod soil;
mod telling;
#[cfg(test)]
mod tests;

pub(crate) use asked::answer;
pub use asked::{Answer, Asked, Demand};
