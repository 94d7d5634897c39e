//! What is asked, and how it is read.

use chrono::{Duration, NaiveDate};

use crate::{
    asking::Asking,
    bed::{BedAsked, Meant},
    given::{Faults, Given, asked, words},
    place::{
        known_soil::BedSoil,
        site::{Site, SiteAsked},
        soil::{Mulch, Texture},
    },
};

asked! {
    /// What can still go in here, and be picked?
    pub struct Asked {
        /// The bed; any bed of the place if absent. One of the record brings along its soil readings, what
        /// stood in it and what it is kept for.
        bed: Option<BedAsked> = "Bed",
        /// The day from which it is free; today if absent.
        from: Given<NaiveDate> = "Free from",
        /// Seed or plants alone; both if absent.
        r#as: Given<Goes> = "As seed or plants",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
    }
}

words! {
    /// What there is to go in.
    pub enum Goes {
        /// Seed, tubers, sets.
        Seed = "seed" => "seed only",
        /// Plants raised elsewhere.
        Plants = "plants" => "plants only",
    }
}

/// A bed is planned for at most so many days ahead.
const AHEAD_DAYS: i64 = 366;

/// The question read.
pub(super) struct Question {
    pub(super) bed: Option<Meant>,
    pub(super) from: NaiveDate,
    pub(super) goes: Option<Goes>,
    pub(super) site: Site,
    pub(super) soil: BedSoil,
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let today = asking.need_today(faults);
        let goes = self.r#as.read(faults);
        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let bed = self.bed.as_ref().and_then(|bed| bed.read(asking.garden, asking.system, faults));
        let from = self.from.read(faults);
        if let Some((from, today)) = from.zip(today)
            && !(today..=today + Duration::days(AHEAD_DAYS)).contains(&from)
        {
            let allowed = "today or a day of the year to come";
            self.from.refuse(faults, allowed, "nothing can be planned for then");
        }
        let today = today?;
        let air = site.need_air(faults)?;
        let recorded = bed.as_ref().and_then(|bed| asking.garden.bed(bed.id.as_deref()?));
        let readings = recorded.map(crate::garden::Bed::soil_readings).unwrap_or_default();
        let texture = site.soil.unwrap_or(Texture::Loam);
        let soil = BedSoil::new(air, texture, Mulch::Bare, &readings, today);
        Some(Question { bed, from: from.unwrap_or(today), goes, site, soil })
    }
}
