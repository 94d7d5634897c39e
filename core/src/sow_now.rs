//! Topic `sow-now`: whether to sow now, and how many seeds.
//!
//! Models: the published tables of emergence by soil temperature
//! ([`germination`](crate::catalogue::germination)), what age takes ([`seed_age`]), and the
//! binomial distribution for the number of seeds that gives the wanted plants nine times in ten. In a
//! bed whose place is known the crop's [course](crate::season) decides: when it is picked, and how
//! likely it lives until then.
//! The soil of the bed is asked only for a bed; indoors the thermometer there.

mod outdoors;
mod outdoors_telling;
mod telling;
#[cfg(test)]
mod tests;

use chrono::NaiveDate;
use outdoors::Outdoors;
use uom::si::{
    temperature_interval::degree_celsius as kelvin, thermodynamic_temperature::degree_fahrenheit,
    time::day,
};

use crate::{
    asking::Asking,
    bed::{BedAsked, Meant},
    catalogue::{Crop, Hardiness, KnownCrop, Start, germination::trial_depth},
    chance::binomial,
    emergence::{
        Seed,
        course::{Course, Sowing, follow},
        seed_age,
        sowing::{FrostFree, Spot, Suits, suits},
        sowing_depth,
    },
    given::{Faults, Given, Readable, asked, words},
    place::{
        known_soil::{BedSoil, KnownSoil, soil_temperature},
        readings::Reading,
        site::{Site, SiteAsked},
        soil::{Mulch, Texture},
    },
    quantity::{
        Length, Temperature, TemperatureInterval, Time, Unreadable,
        number::{read_number, show_number},
    },
    season::{self, Reason},
    telling::Telling,
    time::Range,
};

asked! {
    /// Shall I sow now?
    pub struct Asked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop>,
        /// How many plants are wanted.
        wanted: Given<u32>,
        /// Where it is sown; the bed if absent.
        r#where: Given<Where>,
        /// The soil's temperature there now.
        temperature: Given<Temperature>,
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
        /// How old the seed is, years.
        seed_age_years: Given<Years>,
        /// How deep it goes; half an inch if absent.
        depth: Given<Length>,
        /// The bed, whose readings in the record count where no temperature is given here.
        bed: Option<BedAsked>,
    }
}

words! {
    /// Where seed is sown.
    pub enum Where {
        /// Outdoors, where it will grow.
        Bed = "bed",
        /// In an unheated greenhouse.
        Greenhouse = "greenhouse",
        /// In a room, on a sill.
        Sill = "sill",
        /// On a heat mat.
        Mat = "mat",
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

words! {
    /// What to do.
    pub enum Verdict {
        /// Sow now.
        Now = "now",
        /// Sow somewhere warmer.
        Warmer = "warmer",
        /// Sow somewhere cooler.
        Cooler = "cooler",
        /// Wait until the soil or the season is right.
        Wait = "wait",
        /// Too late: sown now it would not be picked.
        TooLate = "too-late",
        /// Too hot, now or when it would be picked.
        TooHot = "too-hot",
        /// No day of the year suits it in this place.
        NotHere = "not-here",
    }
}

/// A number of years.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Years(f64);

impl Readable for Years {
    fn allowed() -> String {
        "years from 0 to 20".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let years = read_number(text)?;
        if (0.0..=20.0).contains(&years) {
            return Ok(Self(years));
        }
        Err(Unreadable {
            allowed: Self::allowed(),
            why: "no seed was sown yet, or is sown still, at that age".to_owned(),
        })
    }
}

/// Whether to sow, and how many seeds.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Seeds that give the wanted plants nine times in ten; null where too few come up to count on.
    pub seeds: Option<u32>,
    /// When it comes up, sown now or when the soil is right; null where that can't be told.
    pub emerges: Option<Range>,
    /// The share of this seed that comes up then, 0 to 1.
    pub share_up: f64,
    /// What to do.
    pub verdict: Verdict,
    /// When it can be sown there; null where no day of the coming year is known to suit.
    pub when: Option<Range>,
    /// The first picking of what is sown now, or when it can be sown; null where the place or the crop's
    /// need of warmth is not known, or nothing is picked.
    pub picked: Option<Range>,
    /// The chance that frost spares it through its picking, 0 to 1; null as above.
    pub alive: Option<f64>,
    /// The last useful day to sow; null where that is not known, or any day of the year is one.
    pub last_day: Option<NaiveDate>,
    /// Why not now: `too-cold-to-come-up`, `too-hot-to-come-up`, `killed`, `too-hot`, `bolts` or
    /// `never-ready`; null where it can be sown, or the season is not known.
    pub reason: Option<&'static str>,
}

/// The most plants asked for.
const MOST_WANTED: u32 = 5000;
/// The wanted plants must come up this often.
const NINE_IN_TEN: f64 = 0.9;
/// Below this share no number of seeds is told.
const LEAST_SHARE: f64 = 0.05;
/// How far the usual temperature of a room or a mat may be off, one standard deviation, °C
/// (considered).
const USUAL_SD_C: f64 = 2.5;
/// A chance that is too small today but large enough within so many days is waited for; later than
/// that, today is too late (considered).
const SOON_DAYS: i64 = 60;
/// Days to harvest where the catalogue has none, for a crop that frost kills (considered).
const READY_DAYS: u32 = 60;

/// Everything the words are made from.
struct Found<'a> {
    asking: &'a Asking<'a>,
    today: NaiveDate,
    seed: Seed,
    wanted: u32,
    place: Where,
    /// The temperature there was not measured but taken as usual.
    usual: bool,
    soil: &'a KnownSoil,
    depth: Length,
    age: Option<f64>,
    /// The soil suits today, but frost would take the crop.
    out_of_season: bool,
    /// The season's days to harvest are the usual, for the crop's own are not known.
    ready_taken: bool,
    outdoors: Option<&'a Outdoors>,
    suits: Suits,
    course: &'a Course,
    site: &'a Site,
    bed: Option<&'a Meant>,
    answer: &'a Answer,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let seed = Seed::read(&asked.crop, faults);
    let limits = format!("from 1 to {MOST_WANTED} plants");
    let wanted = if asked.wanted.is_given() {
        asked.wanted.within(1, MOST_WANTED, &limits, faults)
    } else {
        asked.wanted.need(faults)
    };
    let place = asked.r#where.read(faults).unwrap_or(Where::Bed);
    let age = asked.seed_age_years.read(faults).map(|Years(years)| years);
    let today = asking.need_today(faults);
    let depth = match place {
        Where::Bed => sowing_depth(&asked.depth, faults),
        _ => sowing_depth(&asked.depth, faults).map(|_| trial_depth()),
    };
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let meant = asked.bed.as_ref().and_then(|bed| bed.read(asking.garden, asking.system, faults));
    let given = soil_temperature(&asked.temperature, faults);
    let (today, depth) = (today?, depth?);
    let soil = match (place, given) {
        (Where::Bed, given) => {
            of_the_bed(&site, meant.as_ref(), given, depth, asking, today, faults)
        }
        (_, Some(given)) => Some(KnownSoil::Steady(given)),
        (_, None) => place.usual().map(KnownSoil::Steady).or_else(|| {
            let allowed = "the temperature of the soil in the trays, such as 55 F";
            asked.temperature.refuse(
                faults,
                allowed,
                "a greenhouse is as warm as its day; look there",
            );
            None
        }),
    };
    let (seed, wanted, soil) = (seed?, wanted?, soil?);
    if !faults.is_empty() {
        return None;
    }

    let usual = given.is_none() && place != Where::Bed;
    let sd = if usual { TemperatureInterval::new::<kelvin>(USUAL_SD_C) } else { soil.sd() };
    let at = |date: NaiveDate| soil.at(depth, date);
    let outdoors = match &soil {
        KnownSoil::Bed(soil) => outdoors::outdoors(seed.crop, &site, soil, today),
        _ => None,
    };
    let spot = Spot {
        kind: seed.kind,
        soil: &at,
        soil_sd: sd,
        frost_free: frost_free(seed.crop, place, &site),
    };
    let suits = suits(seed.kind, at(today));
    let out_of_season = suits == Suits::Well && !spot.in_season(today);
    let when = outdoors.as_ref().map_or_else(|| spot.when(today), |outdoors| outdoors.when);
    let now = when.is_some_and(|when| when.likely == Some(today));
    // A temperature that is only known for today says nothing of other days.
    let when = when.filter(|_| now || !matches!(soil, KnownSoil::Steady(_)));
    let verdict = match (&outdoors, suits) {
        (Some(outdoors), _) => of_the_season(outdoors, today),
        _ if now => Verdict::Now,
        _ if when.is_some() => Verdict::Wait,
        (None, Suits::TooWarm) => Verdict::Cooler,
        (None, Suits::TooCold) => Verdict::Warmer,
        (None, Suits::Well) => Verdict::Wait,
    };
    let grown = outdoors.as_ref().and_then(|outdoors| outdoors.course);
    let sown = when.and_then(|when| when.likely).unwrap_or(today);
    let course = follow(&Sowing { kind: seed.kind, sown, depth, soil: &at, soil_sd: sd });
    let share = course.share * age.map_or(1.0, |years| seed_age::left(seed.crop, years));
    let sown_in = at(sown);
    let within = seed.kind.minimum() <= sown_in && sown_in <= seed.kind.maximum();
    let counted = within && course.days.is_some() && share >= LEAST_SHARE;
    let answer = Answer {
        seeds: counted
            .then(|| binomial::tries_for(wanted, share, NINE_IN_TEN, 100 * MOST_WANTED))
            .flatten(),
        emerges: course.days.map(|_| course.expected),
        share_up: (share * 100.0).round() / 100.0,
        verdict,
        when,
        picked: grown.map(|course| course.first).filter(|first| first.likely.is_some()),
        alive: grown.map(|course| (course.alive * 100.0).round() / 100.0),
        last_day: grown.and(when).and_then(|when| when.late),
        reason: outdoors.as_ref().and_then(|outdoors| outdoors.reason).map(word),
    };
    let telling = telling::tell(&Found {
        asking,
        today,
        seed,
        wanted,
        place,
        usual,
        soil: &soil,
        depth,
        age,
        out_of_season,
        outdoors: outdoors.as_ref(),
        ready_taken: outdoors.is_none()
            && spot.frost_free.is_some()
            && seed.crop.days_to_harvest().is_none(),
        suits,
        course: &course,
        site: &site,
        bed: meant.as_ref(),
        answer: &answer,
    });
    Some((telling, answer))
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

/// The season outdoors of a crop that one light frost ends.
fn frost_free(crop: &Crop, place: Where, site: &Site) -> Option<FrostFree> {
    let killed = matches!(crop.hardiness(), Hardiness::Chilling | Hardiness::Tender);
    let dates = site.frost_dates().filter(|_| killed && place == Where::Bed)?;
    // The catalogue counts a crop that is set out from its setting out.
    let raised = match crop.starts() {
        [Start::Sow, ..] => 0.0,
        _ => crop.weeks_to_plant().map_or(0.0, |weeks| weeks.least.num_days() as f64),
    };
    let ready =
        crop.days_to_harvest().map_or(f64::from(READY_DAYS), |days| days.least.num_days() as f64);
    Some(FrostFree {
        last_frost: dates.last.half?,
        first_frost: dates.first.half?,
        ready: Time::new::<day>(ready + raised),
    })
}

/// What the season makes of a sowing today.
fn of_the_season(outdoors: &Outdoors, today: NaiveDate) -> Verdict {
    let Some(first) = outdoors.when.and_then(|when| when.likely) else {
        return Verdict::NotHere;
    };
    let is_far = (first - today).num_days() > SOON_DAYS;
    match (outdoors.today.reason, outdoors.today.verdict) {
        _ if first == today => Verdict::Now,
        (Some(reason), _) if reason.is_heat() => Verdict::TooHot,
        (_, season::Verdict::TooLate) => Verdict::TooLate,
        // Too small a chance, and no reason but that.
        (None, _) if is_far => Verdict::TooLate,
        _ => Verdict::Wait,
    }
}

/// The reason's word.
fn word(reason: Reason) -> &'static str {
    match reason {
        Reason::TooColdToComeUp { .. } => "too-cold-to-come-up",
        Reason::TooHotToComeUp { .. } => "too-hot-to-come-up",
        Reason::SoilCold { .. } => "soil-cold",
        Reason::StandsStill => "stands-still",
        Reason::Killed { .. } => "killed",
        Reason::TooHot { .. } => "too-hot",
        Reason::Bolts { .. } => "bolts",
        Reason::NeverThere => "never-ready",
    }
}

/// A share as "93 of 100".
fn of_a_hundred(share: f64) -> String {
    show_number(share * 100.0, 0)
}
