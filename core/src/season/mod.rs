//! A crop's course from a date in a place: when it is up, first picked and over, how likely it is
//! alive then, and the first reason why it should not go in that day.
//!
//! The place's usual year ([`year`]) is made once; a crop in it ([`growing`]) once for all its dates;
//! what one date comes to is a [`Course`]. Growth is heat between a base and a cap, lessened by poor
//! light ([`heat`]); what lives is the chance that no night was too cold ([`nights`](crate::place::nights)).
//!
//! Not in it: water, feeding, pests, varieties, walls, snow and covers. Mild coasts and highlands, where
//! cool crops pass nearly all year, have shorter published calendars by custom.

mod course;
mod garlic;
mod growing;
mod heat;
mod year;

pub use course::{Course, Reason, Verdict};
pub use garlic::garlic_lifted;
pub use growing::{Growing, How, NotKnown};
pub use year::Year;

use chrono::NaiveDate;

use crate::{
    catalogue::{Crop, garlic as the_garlic},
    time::Range,
};

/// The course of one crop from one date. Of many dates, ask one [`Growing`].
///
/// # Errors
/// Where the catalogue or the place does not tell enough; never a guess instead.
pub fn course(year: &Year, crop: &Crop, date: NaiveDate, how: How) -> Result<Course, NotKnown> {
    Ok(Growing::new(year, crop, how)?.course(date))
}

/// When a crop started on that day is first picked: by its course, or, of garlic, by day length and heat.
/// `None` where neither tells it, or where it never is.
pub fn first_picking(year: &Year, crop: &Crop, date: NaiveDate, how: How) -> Option<Range> {
    if the_garlic::garlic().is_some_and(|garlic| garlic.id() == crop.id()) {
        return garlic_lifted(year, date, the_garlic::Kind::Hardneck);
    }
    let first = course(year, crop, date, how).ok()?.first;
    first.likely.map(|_| first)
}

#[cfg(test)]
mod tests;
