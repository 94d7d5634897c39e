//! How many plants fit in a bed, and where each goes.

mod arrangement;
mod fill;
#[cfg(test)]
mod fixture;
pub mod how_far;
pub mod how_many;
mod loosest;
mod open;
mod pack;
pub mod patterns;
#[cfg(test)]
mod properties;
mod request;
mod sites;
mod spot;
mod telling;
mod tidy;
mod wanted;

pub use arrangement::{AlongLine, Arrangement, Comb, Form, OnLine, Shift};
pub use fill::{Layout, Placed, fill};
pub use loosest::{Loosest, at_spacings, loosest};
pub use request::{
    Aim, EdgeMargin, Fault, LEAST_SPACING, MOST_PLANTS, MOST_SPACING, MOST_STANDING, MOST_WANTS,
    Request, SiteChoice, Standing, Want,
};
pub use sites::on_two;
pub(crate) use wanted::edge_margin;
pub use wanted::spots;
