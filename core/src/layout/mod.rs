//! How many plants fit in a bed, and where each goes: geometry alone.
//!
//! | file | what it knows |
//! |---|---|
//! | `request` | what is asked, and its limits |
//! | `geometry` | a plant, when two are too near, the room at the sides, what plants that stay keep free |
//! | `sites` | emitters inside the margin; places along the lines |
//! | `pack` | the most sites with no two too near, proved |
//! | `joint` | the same for several crops together |
//! | `patterns`, `open` | rows without drip, and around what stays |
//! | `tidy`, `arrangement` | the tidiest of the fullest layouts, and its words |
//! | `one`, `fill`, `widest_spacing` | one crop; several, and what bounds a close one beside wide ones; the widest spacing |
//!
//! At emitters a count is the true maximum, with proof for every bed of up to six lines ever tried
//! and for nearly all of up to twelve; for several crops together on up to 200 emitters in 19 of 20
//! beds or more; the answer says when it is not. On open ground it is the best
//! of many patterns, next to a bound.

mod arrangement;
mod fill;
#[cfg(test)]
pub(crate) mod fixture;
mod geometry;
mod joint;
mod one;
mod open;
mod pack;
pub mod patterns;
#[cfg(test)]
mod properties;
mod request;
mod sites;
mod tidy;
mod widest_spacing;

pub use arrangement::{AlongLine, Arrangement, Comb, Form, OnLine, Shift};
pub use fill::{Judge, Layout, fill, fill_by};
pub(crate) use geometry::Field;
pub use geometry::Plant;
pub(crate) use one::roughly;
pub use request::{
    Aim, EdgeMargin, Fault, LEAST_SPACING, MOST_PLANTS, MOST_SPACING, MOST_STANDING, MOST_WANTS,
    Request, SiteChoice, Want,
};
pub use sites::on_two;
pub use widest_spacing::{WidestSpacing, at_spacings, widest_spacing};
pub(crate) use widest_spacing::{counts, search_widest};
