//! What is asked, and how it is read.

use chrono::NaiveDate;
use uom::si::length::meter;

use crate::{
    bed::BedAsked,
    catalogue::{
        self, Crop, KnownCrop,
        germination::{Germination, of_crop, trial_depth},
    },
    garden::{Garden, Planting},
    given::{Faults, Given, Share, asked},
    journal::What,
    place::{known_soil::SoilAsked, site::SiteAsked},
    quantity::Length,
    text::small,
    time::iso::show_date,
};

asked! {
    /// Is it still coming up?
    pub struct Asked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// The day it was sown.
        sown: Given<NaiveDate> = "Sown",
        /// The soil's temperature since: one for all days, or readings by date.
        soil_temperature: SoilAsked = "Soil since then, if measured",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// How deep it was sown; half an inch if absent.
        depth: Given<Length> = "How deep",
        /// The share of the seeds that can be seen up.
        up: Given<Share> = "How much is up" [
            "0 %" => "nothing",
            "10 %" => "a few",
            "30 %" => "a third",
            "60 %" => "over half",
            "90 %" => "nearly all",
        ],
        /// The bed, whose readings in the record count where no temperature is given here.
        bed: Option<BedAsked> = "Bed",
    }
}

/// A crop with what is published of its seed.
#[derive(Clone, Copy)]
pub(crate) struct Seed {
    /// Its row of the catalogue.
    pub(crate) crop: &'static Crop,
    /// How it comes up.
    pub(crate) kind: &'static Germination,
    /// Whether the tables mean this very crop.
    pub(crate) own: bool,
}

impl Seed {
    /// Reads a crop that is raised from seed.
    pub(crate) fn read(given: &Given<KnownCrop>, faults: &mut Faults) -> Option<Self> {
        let KnownCrop(crop) = given.need(faults)?;
        let Some((kind, own)) = of_crop(crop.id()) else {
            given.refuse(
                faults,
                "a vegetable raised from seed, such as pea or carrot",
                format!(
                    "how {} comes up by soil temperature is not published here",
                    small(crop.name())
                ),
            );
            return None;
        };
        Some(Self { crop, kind, own })
    }
}

/// What the record tells of a sowing, by the names of the question's fields.
pub fn of_sowing(garden: &Garden, planting: &Planting) -> Vec<(&'static str, String)> {
    let crop = catalogue::crop(&planting.crop).map_or(planting.crop.as_str(), |crop| crop.name());
    let mut fields = vec![("crop", crop.to_owned()), ("sown", show_date(planting.since.date()))];
    let written = garden.happened.iter().rev().find(|it| it.entry.id == planting.id);
    if let Some(What::Seeded(seeded)) = written.map(|it| &it.entry.what) {
        fields.extend(seeded.depth.clone().map(|depth| ("depth", depth)));
    }
    fields
}

/// Reads how deep seed lies; half an inch, as in the published trials, if absent.
pub(crate) fn sowing_depth(given: &Given<Length>, faults: &mut Faults) -> Option<Length> {
    if !given.is_given() {
        return Some(trial_depth());
    }
    let (surface, deepest) = (Length::new::<meter>(0.0), Length::new::<meter>(0.15));
    given.within(surface, deepest, "a depth from the surface to 6 in (15 cm)", faults)
}
