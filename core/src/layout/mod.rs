//! How many plants fit in a bed, and where each goes.
//!
//! | file | what it knows |
//! |---|---|
//! | `request` | what is asked, and its limits |
//! | `spot` | distances, the one tolerance, what plants that stay keep free |
//! | `sites` | emitters inside the margin; places along the lines |
//! | `pack` | the most sites with no two too near, proved |
//! | `joint` | the same for several crops together |
//! | `patterns`, `open` | rows without drip, and around what stays |
//! | `tidy`, `arrangement` | the tidiest of the fullest layouts, and its words |
//! | `one`, `fill`, `loosest` | one crop; several, and what bounds a close one beside wide ones; the widest spacing |
//! | `by_hand` | a proposed layout changed plant by plant, and what follows |
//! | `sense`, `fillers`, `rest` | of equal layouts the better one; what fits in between; rotation |
//!
//! At emitters a count is the true maximum, with proof for every bed of up to six lines ever tried
//! and for nearly all of up to twelve; for several crops together on up to 200 emitters in 19 of 20
//! beds or more; the answer says when it is not. On open ground it is the best
//! of many patterns, next to a bound.

mod arrangement;
pub mod by_hand;
mod fill;
mod fillers;
#[cfg(test)]
mod fixture;
pub mod how_far;
pub mod how_many;
mod joint;
mod loosest;
mod one;
mod open;
mod pack;
pub mod patterns;
#[cfg(test)]
mod properties;
mod request;
mod rest;
mod sense;
mod sites;
mod spot;
mod telling;
mod tidy;
#[cfg(test)]
mod topic_tests;
mod wanted;

pub use arrangement::{AlongLine, Arrangement, Comb, Form, OnLine, Shift};
pub use fill::{Judge, Layout, Placed, fill, fill_by};
pub use loosest::{Loosest, at_spacings, loosest};
pub use request::{
    Aim, EdgeMargin, Fault, LEAST_SPACING, MOST_PLANTS, MOST_SPACING, MOST_STANDING, MOST_WANTS,
    Request, SiteChoice, Standing, Want,
};
pub use sites::on_two;
pub use wanted::spots;
pub(crate) use wanted::{crop_and_spacing, edge_margin};
