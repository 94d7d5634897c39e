//! Everything the words are made from.

use chrono::NaiveDate;

use super::{answer::Answer, outdoors::Outdoors, question::Where};
use crate::{
    asking::Asking,
    bed::Meant,
    catalogue::seed_age::Years,
    place::{known_soil::KnownSoil, site::Site},
    quantity::{Length, show_number},
    topics::emergence::{Seed, course::Course, sowing::Suits},
};

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub(super) asking: &'a Asking<'a>,
    pub(super) today: NaiveDate,
    pub(super) seed: Seed,
    pub(super) wanted: u32,
    pub(super) place: Where,
    /// The temperature there was not measured but taken as usual.
    pub(super) usual: bool,
    pub(super) soil: &'a KnownSoil,
    pub(super) depth: Length,
    pub(super) age: Option<Years>,
    /// The soil suits today, but frost would take the crop.
    pub(super) out_of_season: bool,
    /// The season's days to harvest are the usual, for the crop's own are not known.
    pub(super) ready_taken: bool,
    pub(super) outdoors: Option<&'a Outdoors>,
    pub(super) suits: Suits,
    pub(super) course: &'a Course,
    pub(super) site: &'a Site,
    pub(super) bed: Option<&'a Meant>,
    pub(super) answer: &'a Answer,
}

/// Days to harvest where the catalogue has none, for a crop that frost kills (considered).
pub(super) const READY_DAYS: u32 = 60;

/// A share as "93 of 100".
pub(super) fn of_a_hundred(share: f64) -> String {
    show_number(share * 100.0, 0)
}
