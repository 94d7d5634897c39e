//! Garlic: when to plant, whether the winter is cold enough, and in which bed.
//!
//! When: [`window`]. Cold: [`chill`]. Where: [`which_bed`]. The kinds: [`kind`].

pub mod chill;
pub mod kind;
pub mod which_bed;
pub mod window;
