//! What is asked, and how it is read.

use chrono::NaiveDate;
use uom::si::{length::millimeter, time::hour, volume::liter};

use super::{coefficient, need};
use crate::{
    asking::Asking,
    bed::{BedAsked, Meant},
    catalogue::{Crop, KnownCrop},
    garden::needed_bed,
    given::{Control, Faults, Given, Readable, asked},
    place::{
        air::KnownBy,
        site::{Site, SiteAsked},
        soil::{SOILS, Texture},
    },
    quantity::{Length, Quantity, Time, Unreadable, Volume, VolumeRate},
};

asked! {
    /// How long is the drip to run?
    pub struct Asked {
        /// The bed, by its name in the record or described, with its drip lines.
        bed: Option<BedAsked> = "Bed",
        /// What one hole gives; what the bed's own drip lines say if absent.
        flow: Given<VolumeRate>,
        /// The crop; most vegetables if absent. Counts where the need follows from the place.
        crop: Given<KnownCrop> = "Crop",
        /// The depth of water the bed needs, in all, a day or a week; from the place if absent.
        demand: Given<Demand> = "What it needs in a week, if you know",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// The first day to water for; today if absent.
        date: Given<NaiveDate>,
        /// For how many days; 7 if absent.
        days: Given<u32>,
        /// The rain of those days, fallen or foretold; none if absent.
        rain: Given<Demand> = "Rain this week",
        /// What the soil is; as at the place, or a raised-bed mix, if absent.
        soil: Given<Texture> = "Soil" as SOILS,
    }
}

/// A depth of water, in all or for a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Demand {
    /// For all the time asked about.
    InAll(Length),
    /// In each day.
    ADay(Length),
    /// In each week.
    AWeek(Length),
}

impl Readable for Demand {
    const CONTROL: Control = Control::RAIN;

    fn allowed() -> String {
        "a depth of water such as 1 in, 25 mm, 0.2 in a day or 1.25 in a week".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        const A_DAY: [&str; 6] = ["/day", "/d", "per day", "a day", "each day", "daily"];
        const A_WEEK: [&str; 7] =
            ["/week", "/wk", "per week", "a week", "this week", "each week", "weekly"];
        let lower = text.to_ascii_lowercase();
        let parts: Vec<&str> = lower.split('/').map(str::trim_start).collect();
        let lower = parts.join("/");
        let before = |words: &[&str]| {
            let depth = words.iter().find_map(|word| lower.strip_suffix(word));
            depth.map(|depth| <Length as Quantity>::read(depth.trim()))
        };
        let read = match (before(&A_DAY), before(&A_WEEK)) {
            (Some(depth), _) => depth.map(Self::ADay),
            (None, Some(depth)) => depth.map(Self::AWeek),
            (None, None) => <Length as Quantity>::read(text).map(Self::InAll),
        };
        read.map_err(|unreadable| Unreadable { allowed: Self::allowed(), ..unreadable })
    }
}

impl Demand {
    /// In all, over so many days.
    fn over(self, days: u32) -> Length {
        match self {
            Self::InAll(depth) => depth,
            Self::ADay(depth) => depth * f64::from(days),
            Self::AWeek(depth) => depth * (f64::from(days) / 7.0),
        }
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question {
    pub(super) meant: Meant,
    /// What one hole gives.
    pub(super) each: VolumeRate,
    pub(super) need: Need,
    pub(super) rain: Length,
    /// What the soil is, where it was said or is known of the place.
    pub(super) texture: Option<Texture>,
}

/// What the bed needs.
pub(super) struct Need {
    pub depth: Length,
    /// The days it is for, where they count.
    pub days: Option<(NaiveDate, u32)>,
    /// How it follows from the place, if it does.
    pub of_place: Option<OfPlace>,
}

/// Where grass uses less than this a day, mm, the ground hardly dries: a root's depth of loam holds a month
/// of it (considered).
const DAMP_MM: f64 = 1.0;

impl Need {
    /// Whether the place's air takes so little then that rain, even a little, is enough.
    pub(super) fn is_of_a_damp_season(&self) -> bool {
        self.of_place.as_ref().zip(self.days).is_some_and(|(of, (_, days))| {
            of.reference.get::<millimeter>() < DAMP_MM * f64::from(days)
        })
    }
}

/// How the need follows from the place.
pub(super) struct OfPlace {
    /// What grass uses over the days.
    pub reference: Length,
    pub coefficient: f64,
    pub crop: Option<&'static Crop>,
    pub known_by: KnownBy,
}

const USUAL_DAYS: u32 = 7;

const MOST_DAYS: u32 = 31;

/// The most rain or need that is worked out: 500 mm.
const MOST_MM: f64 = 500.0;

const DEPTHS: &str = "from nothing to 20 in (500 mm)";

const MOST_FLOW_L_PER_H: f64 = 100.0;

const FLOWS: &str = "what one hole gives, such as 0.5 gal/h or 2 L/h: it is printed on the hose; or catch one hole \
                     for half a minute, and each 10 ml are 1.2 L/h";

/// What one hole gives, as asked or as the bed has it; a fault where the bed has no drip or nobody
/// knows.
fn each_hole(asked: &Asked, meant: Option<&Meant>, faults: &mut Faults) -> Option<VolumeRate> {
    let given = asked.flow.read(faults);
    let described = match &asked.bed {
        Some(BedAsked::Described(described, _)) => Some(described),
        _ => None,
    };
    let meant = meant?;
    let drip = meant.bed.drip().filter(|drip| drip.emitter_count() > 0);
    let Some(drip) = drip else {
        let field = if described.is_some() { "bed.drip" } else { "bed" };
        let allowed =
            "a bed with its drip lines: how many, from hole to hole, and what one hole gives";
        faults.add(field, "", allowed, "it has no drip line with a hole inside it");
        return None;
    };
    if asked.flow.is_given() && given.is_none() {
        return None;
    }
    let own = described.and_then(|described| described.drip.as_ref()).map(|drip| &drip.flow);
    let field = match own {
        Some(own) if !asked.flow.is_given() => own,
        _ => &asked.flow,
    };
    let Some(each) = given.or(drip.flow()) else {
        // One that can't be read was told with the bed.
        if !field.is_given() {
            field.refuse(faults, FLOWS, "without it nobody can tell how long to run it");
        }
        return None;
    };
    let most = Volume::new::<liter>(MOST_FLOW_L_PER_H) / Time::new::<hour>(1.0);
    if each.value <= 0.0 || each > most {
        let why = if each > most {
            "no hole of a drip line gives so much"
        } else {
            "a hole gives something"
        };
        field.refuse(faults, FLOWS, why);
        return None;
    }
    Some(each)
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let meant = needed_bed(self.bed.as_ref(), asking.garden, asking.system, faults);
        let each = each_hole(self, meant.as_ref(), faults);
        let crop = self.crop.read(faults).map(|KnownCrop(crop)| crop);
        let need = self.need(crop, asking, faults);
        let days = self.read_days(&mut Faults::default()).or(Some(USUAL_DAYS));
        let rain = self.depth(&self.rain, days, faults).unwrap_or_default();
        let texture = self.soil.read(faults);
        let (meant, each, (need, site_soil)) = (meant?, each?, need?);
        Some(Question { meant, each, need, rain, texture: texture.or(site_soil) })
    }

    /// What the bed needs, as told or from the place; and the soil of the place.
    fn need(
        &self,
        crop: Option<&'static Crop>,
        asking: &Asking<'_>,
        faults: &mut Faults,
    ) -> Option<(Need, Option<Texture>)> {
        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let days = self.read_days(faults);
        let date = self.date.read(faults).or(asking.today);
        let need = if self.demand.is_given() {
            self.need_told(days, date, faults)
        } else {
            self.need_of_place(&site, crop, days, date, faults)
        };
        Some((need?, site.soil))
    }

    /// For how many days.
    fn read_days(&self, faults: &mut Faults) -> Option<u32> {
        let days = self.days.within(1, MOST_DAYS, "1 to 31 days", faults);
        if self.days.is_given() { days } else { Some(USUAL_DAYS) }
    }

    /// Water needed or rained over so many days: "1 in", "1 in a week".
    fn depth(
        &self,
        given: &Given<Demand>,
        days: Option<u32>,
        faults: &mut Faults,
    ) -> Option<Length> {
        let depth = given.read(faults)?.over(days?);
        if depth.value < 0.0 || depth > Length::new::<millimeter>(MOST_MM) {
            let why = if depth.value < 0.0 { "that is too little" } else { "that is too much" };
            given.refuse(faults, DEPTHS, why);
            return None;
        }
        Some(depth)
    }

    fn need_told(
        &self,
        days: Option<u32>,
        date: Option<NaiveDate>,
        faults: &mut Faults,
    ) -> Option<Need> {
        let demand = self.demand.read(faults)?;
        let depth = self.depth(&self.demand, days, faults)?;
        let days = days?;
        let counts = !matches!(demand, Demand::InAll(_)) || self.days.is_given();
        Some(Need { depth, days: date.filter(|_| counts).map(|date| (date, days)), of_place: None })
    }

    fn need_of_place(
        &self,
        site: &Site,
        crop: Option<&'static Crop>,
        days: Option<u32>,
        date: Option<NaiveDate>,
        faults: &mut Faults,
    ) -> Option<Need> {
        let attempted = self.site.as_ref().is_some_and(|site| {
            site.coldest.is_some()
                || site.hottest.is_some()
                || !site.monthly_low.is_empty()
                || !site.monthly_high.is_empty()
        });
        let Some(air) = &site.air else {
            if !attempted {
                let allowed = "how much water the bed needs, such as 0.2 in a day, or 1.2 in a week; or the latitude and \
                               the usual low and high of the coldest and the hottest month";
                let why = "what the bed needs, or how warm it is at this place, is not known yet";
                faults.add("demand", "", allowed, why);
            }
            return None;
        };
        let latitude = site.latitude;
        if latitude.is_none() {
            let allowed = crate::place::Latitude::allowed();
            faults.add("site.latitude", "", allowed, "the strength of the sun follows from it");
        }
        if date.is_none() {
            self.date.need(faults);
        }
        let (latitude, date, days) = (latitude?, date?, days?);
        let reference = need::reference_over(latitude, air, date, days);
        let coefficient = coefficient::mid_season(crop);
        Some(Need {
            depth: reference * coefficient,
            days: Some((date, days)),
            of_place: Some(OfPlace { reference, coefficient, crop, known_by: air.known_by() }),
        })
    }
}
