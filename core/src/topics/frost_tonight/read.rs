//! The question read, fit to be worked out.

use super::{
    air_asked::{self, AirRead},
    beds_asked, from_record,
    question::{Asked, BedTonight},
};
use crate::{
    asking::Asking,
    catalogue::Cover,
    given::Faults,
    place::site::{Site, SiteAsked},
};

/// A cold night as it was told.
pub(super) struct Question {
    pub site: Site,
    pub air: AirRead,
    /// The covers there are, and how many of each; empty where it was not said.
    pub covers: Vec<(&'static Cover, u32)>,
    /// Those of the question, else of the record.
    pub beds: Vec<BedTonight>,
    /// What stands out by the record that the catalogue does not know.
    pub unknown: Vec<String>,
    /// The forecast as it was written.
    pub forecast_text: Option<String>,
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let air = air_asked::read(self, &site, asking, faults);
        let covers: Vec<_> = self.covers.iter().map(|cover| cover.read(faults)).collect();
        let beds = beds_asked::read(self, &site, asking, faults);
        let covers = covers.into_iter().collect::<Option<_>>()?;
        let (air, beds) = (air?, beds?);
        if !faults.is_empty() {
            return None;
        }
        let by_record = self.beds.is_empty() && self.crops.is_empty() && !self.bed.is_given();
        let unknown = if by_record { from_record::unknown(asking.garden) } else { Vec::new() };
        let forecast_text = self.forecast_low.text().map(str::to_owned);
        Some(Question { site, air, covers, beds, unknown, forecast_text })
    }
}
