//! What is asked, and how it is read.

use chrono::NaiveDate;

use crate::{
    asking::Asking,
    bed::BedAsked,
    given::{Faults, Given, asked},
    place::{
        air::Air,
        known_soil::{ReadingAsked, depth},
        readings::Reading,
        site::SiteAsked,
        soil::{Mulch, Texture},
    },
    quantity::Length,
};

asked! {
    /// How warm is the soil?
    pub struct Asked {
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// The day asked about; today if absent.
        date: Given<NaiveDate> = "Day",
        /// How deep; 4 in if absent.
        depth: Given<Length> = "At what depth",
        /// What the soil is; loam if absent.
        soil: Given<Texture>,
        /// What lies on it.
        mulch: Given<Mulch> = "What lies on it",
        /// Readings of the bed.
        readings: Vec<ReadingAsked>,
        /// The bed, whose readings in the record count where none are given here.
        bed: Option<BedAsked> = "Bed",
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question {
    pub(super) air: Air,
    pub(super) date: NaiveDate,
    pub(super) depth: Length,
    pub(super) soil: Texture,
    pub(super) mulch: Mulch,
    /// Readings of the bed, those of the question before those of the record.
    pub(super) readings: Vec<Reading>,
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let date = match (self.date.is_given(), asking.today) {
            (false, Some(today)) => Some(today),
            _ => self.date.need(faults),
        };
        let depth = depth(&self.depth, faults);
        let soil = self.soil.read(faults).or(site.soil).unwrap_or(Texture::Loam);
        let mulch = self.mulch.read(faults).unwrap_or(Mulch::Bare);
        let given = self.readings.iter();
        let mut readings: Vec<_> =
            given.filter_map(|reading| reading.read(asking.today, faults)).collect();
        if let Some(bed) = &self.bed
            && let Some(meant) = bed.read(asking.garden, asking.system, faults)
            && self.readings.is_empty()
        {
            let recorded = meant.id.as_deref().and_then(|id| asking.garden.bed(id));
            readings = recorded.map(crate::garden::Bed::soil_readings).unwrap_or_default();
        }
        let air = site.need_air(faults)?.clone();
        Some(Question { air, date: date?, depth: depth?, soil, mulch, readings })
    }
}
