//! Garlic: when to plant, whether the winter is cold enough, in which bed, and how much seed.
//!
//! When: [`window`]. Cold: [`chill`]. Where: [`which_bed`]. How much: [`seed`].

pub mod chill;
pub mod seed;
pub mod which_bed;
pub mod window;
