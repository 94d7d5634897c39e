//! Topic `garlic-window`: when to plant garlic, whether the winter is cold enough, in which bed,
//! and how much seed.
//!
//! When: [`window`]. Cold: [`chill`]. The kinds: [`kind`]. Where: [`which_bed`]. What comes after:
//! [`steps`].

pub mod chill;
mod filler;
mod question;
mod record;
pub mod steps;
pub mod which_bed;
pub mod window;
mod words;

pub(crate) use filler::filler;
pub(crate) use question::answer;
pub use question::{Answer, Asked, BedChoice};
pub(crate) use record::{has_garlic, is_garlic};

#[cfg(test)]
mod tests;
