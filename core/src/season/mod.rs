//! A crop's course from a date in a place: when it is up, first picked and over, how likely it is
//! alive then, and the first reason why it should not go in that day.
//!
//! The place's usual year ([`year`]) is made once; a crop in it ([`growing`]) once for all its dates;
//! what one date comes to is a [`Course`]. Growth is heat between a base and a cap, lessened by poor
//! light ([`heat`]); what lives is the chance that no night was too cold ([`nights`]).
//!
//! Not in it: water, feeding, pests, varieties, walls, snow and covers. Mild coasts and highlands, where
//! cool crops pass nearly all year, have shorter published calendars by custom.

mod course;
mod growing;
mod heat;
mod nights;
mod words;
mod year;

pub use course::{Course, Reason, Verdict};
pub use growing::{Growing, How, NotKnown};
pub use year::Year;

use chrono::NaiveDate;

use crate::catalogue::Crop;

/// The course of one crop from one date. Of many dates, ask one [`Growing`].
///
/// # Errors
/// Where the catalogue or the place does not tell enough; never a guess instead.
pub fn course(year: &Year, crop: &Crop, date: NaiveDate, how: How) -> Result<Course, NotKnown> {
    Ok(Growing::new(year, crop, how)?.course(date))
}

#[cfg(test)]
mod tests;
