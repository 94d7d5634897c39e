//! What is asked, and how it is read.

use chrono::NaiveDate;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use crate::{
    asking::Asking,
    bed::{BedAsked, Meant},
    catalogue::{KnownCrop, germination::trial_depth, seed_age::Years},
    given::{Faults, Given, asked, words},
    place::{
        known_soil::{BedSoil, KnownSoil, soil_temperature},
        readings::Reading,
        site::{Site, SiteAsked},
        soil::{Mulch, Texture},
    },
    quantity::{Length, Temperature},
    topics::emergence::{Seed, sowing_depth},
};

asked! {
    /// Shall I sow now?
    pub struct Asked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// How many plants are wanted.
        wanted: Given<u32> = "How many plants",
        /// Where it is sown; the bed if absent.
        r#where: Given<Where> = "Where it will stand",
        /// The soil's temperature there now.
        temperature: Given<Temperature> = "Soil there, if measured",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// How old the seed is, years.
        seed_age_years: Given<Years> = "Age of the seed, years",
        /// How deep it goes; half an inch if absent.
        depth: Given<Length>,
        /// The bed, whose readings in the record count where no temperature is given here.
        bed: Option<BedAsked> = "Bed",
    }
}

words! {
    /// Where seed is sown.
    pub enum Where {
        /// Outdoors, where it will grow.
        Bed = "bed" => "the bed",
        /// In an unheated greenhouse.
        Greenhouse = "greenhouse" => "greenhouse",
        /// In a room, on a sill.
        Sill = "sill" => "a sill",
        /// On a heat mat.
        Mat = "mat" => "a heat mat",
    }
}

impl Where {
    /// The soil's temperature where no thermometer tells: a room and a mat are much the same
    /// everywhere (common practice).
    fn usual(self) -> Option<Temperature> {
        match self {
            Self::Bed | Self::Greenhouse => None,
            Self::Sill => Some(Temperature::new::<degree_fahrenheit>(65.0)),
            Self::Mat => Some(Temperature::new::<degree_fahrenheit>(75.0)),
        }
    }
}

/// The most plants asked for.
pub(super) const MOST_WANTED: u32 = 5000;

/// A sowing that is asked about.
pub(super) struct Question {
    pub(super) seed: Seed,
    pub(super) wanted: u32,
    pub(super) place: Where,
    pub(super) age: Option<Years>,
    pub(super) today: NaiveDate,
    pub(super) depth: Length,
    pub(super) site: Site,
    pub(super) bed: Option<Meant>,
    pub(super) soil: KnownSoil,
    /// The temperature there was not measured but taken as usual.
    pub(super) usual: bool,
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let seed = Seed::read(&self.crop, faults);
        let limits = format!("from 1 to {MOST_WANTED} plants");
        let wanted = if self.wanted.is_given() {
            self.wanted.within(1, MOST_WANTED, &limits, faults)
        } else {
            self.wanted.need(faults)
        };
        let place = self.r#where.read(faults).unwrap_or(Where::Bed);
        let age = self.seed_age_years.read(faults);
        let today = asking.need_today(faults);
        let depth = match place {
            Where::Bed => sowing_depth(&self.depth, faults),
            _ => sowing_depth(&self.depth, faults).map(|_| trial_depth()),
        };
        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let bed = self.bed.as_ref().and_then(|bed| bed.read(asking.garden, asking.system, faults));
        let given = soil_temperature(&self.temperature, faults);
        let (today, depth) = (today?, depth?);
        let soil = match (place, given) {
            (Where::Bed, given) => {
                of_the_bed(&site, bed.as_ref(), given, depth, asking, today, faults)
            }
            (_, Some(given)) => Some(KnownSoil::Steady(given)),
            (_, None) => place.usual().map(KnownSoil::Steady).or_else(|| {
                let allowed = "the temperature of the soil in the trays, such as 55 F";
                let why = "a greenhouse is as warm as its day; look there";
                self.temperature.refuse(faults, allowed, why);
                None
            }),
        };
        let usual = given.is_none() && place != Where::Bed;
        let (seed, wanted, soil) = (seed?, wanted?, soil?);
        Some(Question { seed, wanted, place, age, today, depth, site, bed, soil, usual })
    }
}

/// The soil of a bed: by the place, corrected by today's thermometer or by the record; where the
/// place is not known, as the thermometer has it.
fn of_the_bed(
    site: &Site,
    bed: Option<&Meant>,
    given: Option<Temperature>,
    depth: Length,
    asking: &Asking<'_>,
    today: NaiveDate,
    faults: &mut Faults,
) -> Option<KnownSoil> {
    let air = match (&site.air, given) {
        (None, Some(given)) => return Some(KnownSoil::Steady(given)),
        _ => site.need_air(faults)?,
    };
    let recorded = bed.and_then(|bed| asking.garden.bed(bed.id.as_deref()?));
    let readings = match given {
        Some(temperature) => vec![Reading { date: today, time: None, depth, temperature }],
        None => recorded.map(crate::garden::Bed::soil_readings).unwrap_or_default(),
    };
    let texture = site.soil.unwrap_or(Texture::Loam);
    Some(KnownSoil::Bed(BedSoil::new(air, texture, Mulch::Bare, &readings, today)))
}
