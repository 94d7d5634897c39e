//! Topic `residue-wait`: when a bed covered with plant waste can be planted.
//!
//! What was laid is weighed and mixed ([`materials`]); its carbon and nitrogen run their course
//! ([`balance`]) on clocks of warmth, damp and touch ([`clock`]), moved by what was seen at the bed
//! ([`check_in`]); six limits each give a range of days ([`limits`]), and what can be done instead of
//! waiting is tried out on the same models ([`way_round`]). Each file names its sources; the
//! published figures that they are held against stand in the crate of tests.

mod advice;
mod also;
mod answer;
pub mod balance;
pub mod check_in;
pub mod clock;
pub mod course;
#[cfg(test)]
mod course_tests;
pub mod feeding;
mod fits_now;
mod flight;
mod found;
mod from_record;
pub mod halves;
mod illness;
pub mod limits;
pub mod materials;
mod question;
mod read;
pub mod soil;
mod solve;
mod stops;
#[cfg(test)]
mod tests;
mod told_numbers;
pub mod way_round;
mod words;

pub use answer::{
    Ahead, Answer, FitsIn, LimitRange, Nitrogen, Part, Point, ProductAmount, Ratio, WayRound,
};
pub use fits_now::FitsNow;
pub(crate) use from_record::{lying, parts};
pub use illness::{Illness, Years};
pub(crate) use illness::{IllnessSaid, same_family};
pub use question::{Asked, Chop, PerTrap, Smell, Worms};
pub(crate) use solve::progress;
pub(crate) use stops::weedkiller_harms;
pub use stops::{Flag, Stop};

use self::{
    course::Course,
    found::Found,
    limits::Flight,
    materials::Mixture,
    solve::{course, is_little, next_crop, nothing_rots, run},
};
use crate::{asking::Asking, given::Faults, telling::Telling};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking, faults)?;
    let next = next_crop(&question);
    let from = question.today.max(question.laid);
    let mixture = Mixture::new(&question.materials, question.area);
    let soil = |date| question.soil.on(date);
    let site = &question.site;
    let peak = |date| flight::over(site.air.as_ref()?, site.is_south(), date);
    let laid = question.materials.iter().filter_map(|material| material.residue.family());
    let stop = question
        .crop
        .and_then(|crop| stops::stop(crop, &question.flags, question.illness, &mut { laid }));
    let (also, why_not) = also::also(&question, mixture.as_ref(), from);
    let little = mixture.as_ref().is_some_and(|mixture| is_little(mixture, &question));
    let (way, mut answer) = match mixture.as_ref().filter(|_| !little && stop.is_none()) {
        None => (None, nothing_rots(&question, &also)),
        Some(mixture) => {
            let flight: Option<&Flight<'_>> = if site.air.is_some() { Some(&peak) } else { None };
            let course = Course { also: &also, ..course(&question, mixture, next, &soil, flight) };
            run(&question, &course, from)
        }
    };
    if stop.is_some() {
        (answer.plant_from, answer.limit, answer.limits, answer.of_about) =
            (None, None, Vec::new(), None);
        answer.stop = stop;
    }
    let mixture = mixture.as_ref().filter(|_| !little);
    let found =
        Found { asked: &question, next, mixture, little, why_not, from, way, answer: &answer };
    let told = words::tell(&found, asking);
    let answer = told_numbers::put_in(&found, answer.clone(), asking.system);
    Some((told, answer))
}
