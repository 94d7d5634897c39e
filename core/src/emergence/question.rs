//! The question, read and answered.

use chrono::NaiveDate;
use uom::si::length::meter;

use super::{
    course::{Course, Sowing, Verdict, follow},
    telling,
};
use crate::{
    asking::Asking,
    bed::{BedAsked, Meant},
    catalogue::{
        self, Crop, KnownCrop,
        germination::{Germination, of_crop, trial_depth},
    },
    garden::{Garden, Planting},
    given::{Faults, Given, Share, asked},
    journal::What,
    place::{
        known_soil::{KnownSoil, SoilAsked, past},
        readings::Reading,
        site::SiteAsked,
    },
    quantity::Length,
    telling::Telling,
    text::small,
    time::Range,
    time::iso::show_date,
};

asked! {
    /// Is it still coming up?
    pub struct Asked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop>,
        /// The day it was sown.
        sown: Given<NaiveDate>,
        /// The soil's temperature since: one for all days, or readings by date.
        soil_temperature: SoilAsked,
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
        /// How deep it was sown; half an inch if absent.
        depth: Given<Length>,
        /// The share of the seeds that can be seen up.
        up: Given<Share>,
        /// The bed, whose readings in the record count where no temperature is given here.
        bed: Option<BedAsked>,
    }
}

/// When it comes up, and what to do.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// When it comes up; null where this soil brings it up in no foreseeable time.
    pub expected: Option<Range>,
    /// The share of good fresh seed that comes up.
    pub share_expected: f64,
    /// What to do.
    pub verdict: Verdict,
    /// After this, sowing again is wiser than waiting; null where it can't be told.
    pub resow_after: Option<NaiveDate>,
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

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub(super) asking: &'a Asking<'a>,
    pub(super) today: NaiveDate,
    pub(super) seed: Seed,
    pub(super) sown: NaiveDate,
    pub(super) depth: Length,
    pub(super) up: Option<f64>,
    pub(super) bed: Option<&'a Meant>,
    pub(super) soil: &'a KnownSoil,
    pub(super) course: &'a Course,
    pub(super) verdict: Verdict,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let seed = Seed::read(&asked.crop, faults);
    let today = asking.need_today(faults);
    let sown = past(&asked.sown, today, faults);
    let depth = sowing_depth(&asked.depth, faults);
    let up = asked.up.read(faults).map(Share::fraction);
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let meant = asked.bed.as_ref().and_then(|bed| bed.read(asking.garden, asking.system, faults));
    let (today, depth) = (today?, depth?);
    let recorded = meant.as_ref().and_then(|meant| asking.garden.bed(meant.id.as_deref()?));
    let recorded: Vec<Reading> =
        recorded.map(crate::garden::Bed::soil_readings).unwrap_or_default();
    let soil = asked.soil_temperature.read(&site, depth, &recorded, today, faults);
    let (seed, sown, soil) = (seed?, sown?, soil?);

    let course = follow(&Sowing {
        kind: seed.kind,
        sown,
        depth,
        soil: &|date| soil.at(depth, date),
        soil_sd: soil.sd(),
    });
    let verdict = course.verdict(up, today);
    let telling = telling::tell(&Found {
        asking,
        today,
        seed,
        sown,
        depth,
        up,
        bed: meant.as_ref(),
        soil: &soil,
        course: &course,
        verdict,
    });
    let Range { early, likely, late } = course.expected;
    let known = early.or(likely).or(late).is_some();
    Some((
        telling,
        Answer {
            expected: known.then_some(course.expected),
            share_expected: (course.share * 100.0).round() / 100.0,
            verdict,
            resow_after: course.resow_after,
        },
    ))
}

/// Reads how deep seed lies; half an inch, as in the published trials, if absent.
pub(crate) fn sowing_depth(given: &Given<Length>, faults: &mut Faults) -> Option<Length> {
    if !given.is_given() {
        return Some(trial_depth());
    }
    let (surface, deepest) = (Length::new::<meter>(0.0), Length::new::<meter>(0.15));
    given.within(surface, deepest, "a depth from the surface to 6 in (15 cm)", faults)
}
