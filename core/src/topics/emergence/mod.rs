//! Topic `emergence`: whether seed in the ground is still to come up.
//!
//! The published tables: [`germination`](crate::catalogue::germination). Whether the soil is right for
//! sowing: [`sowing`]. From sowing to emergence: [`course`].

mod answer;
pub mod course;
mod question;
pub mod sowing;
#[cfg(test)]
mod tests;
mod words;

pub use answer::Answer;
pub use question::{Asked, of_sowing};
pub(crate) use question::{Seed, sowing_depth};
pub(crate) use words::of_the_kind;

use self::{
    course::{Sowing, follow},
    words::Found,
};
use crate::{
    asking::Asking,
    given::{Faults, Share},
    place::{known_soil::past, readings::Reading, site::SiteAsked},
    telling::Telling,
    time::Range,
};

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
    let telling = words::tell(&Found {
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
