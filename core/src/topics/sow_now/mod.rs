//! Topic `sow-now`: whether to sow now, and how many seeds.
//!
//! Models: the published tables of emergence by soil temperature
//! ([`germination`](crate::catalogue::germination)), what age takes ([`seed_age`]), and the
//! binomial distribution for the number of seeds that gives the wanted plants nine times in ten. In a
//! bed whose place is known the crop's [course](crate::season) decides: when it is picked, and how
//! likely it lives until then.
//! The soil of the bed is asked only for a bed; indoors the thermometer there.

mod answer;
mod found;
mod outdoors;
mod outdoors_words;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, Verdict};
pub use question::{Asked, Where};

use found::{Found, READY_DAYS};
use question::{MOST_WANTED, Question};

use chrono::NaiveDate;
use uom::si::{temperature_interval::degree_celsius as kelvin, time::day};

use crate::{
    asking::Asking,
    catalogue::{Crop, Hardiness, Start, seed_age},
    chance::binomial,
    given::Faults,
    place::{known_soil::KnownSoil, site::Site},
    quantity::{TemperatureInterval, Time},
    season::Reason,
    telling::Telling,
    topics::emergence::{
        course::{Sowing, follow},
        sowing::{FrostFree, Spot, Suits, suits},
    },
};

/// The wanted plants must come up this often.
const NINE_IN_TEN: f64 = 0.9;
/// Below this share no number of seeds is told.
const LEAST_SHARE: f64 = 0.05;
/// How far the usual temperature of a room or a mat may be off, one standard deviation, °C
/// (considered).
const USUAL_SD_C: f64 = 2.5;

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking, faults).filter(|_| faults.is_empty())?;
    let Question { seed, wanted, place, age, today, depth, site, bed, soil, usual } = question;
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
        (Some(outdoors), _) => outdoors.verdict,
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
    let telling = words::tell(&Found {
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
        bed: bed.as_ref(),
        answer: &answer,
    });
    Some((telling, answer))
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
