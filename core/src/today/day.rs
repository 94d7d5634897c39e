//! The day, and what all that is asked on it has in common.

use chrono::NaiveDate;

use crate::{
    asking::Asking,
    garden::Bed,
    given::Faults,
    place::site::{Site, SiteAsked},
    season::Year,
    text::day,
};

/// The day and what all that is asked today has in common.
pub(super) struct Day<'a> {
    pub(super) asking: &'a Asking<'a>,
    pub(super) today: NaiveDate,
    pub(super) site: Site,
    /// The place's usual year, where its air is known.
    pub(super) year: Option<Year>,
}

impl<'a> Day<'a> {
    pub(super) fn new(asking: &'a Asking<'a>, today: NaiveDate) -> Self {
        // What can't be read of the place was shown where it was written.
        let site = SiteAsked::read(None, &asking.garden.place, &mut Faults::default());
        let year = Year::of(&site);
        Self { asking, today, site, year }
    }

    pub(super) fn said(&self, date: NaiveDate) -> String {
        day(date, Some(self.today))
    }

    pub(super) fn beds(&self) -> impl Iterator<Item = &'a Bed> {
        let beds = self.asking.garden.beds.iter();
        beds.filter(|bed| bed.gone.is_none())
    }
}
