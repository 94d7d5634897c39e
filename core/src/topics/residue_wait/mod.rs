//! Topic `residue-wait`: when a bed covered with plant waste can be planted.
//!
//! What was laid is weighed and mixed ([`materials`]); its carbon and nitrogen run their course
//! ([`balance`]) on clocks of warmth, damp and touch ([`clock`]), moved by what was seen at the bed
//! ([`check_in`]); six limits each give a range of days ([`limits`]), and what can be done instead of
//! waiting is tried out on the same models ([`way_round`]). Each file names its sources; the
//! published figures that they are held against stand in the crate of tests.

mod advice;
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
pub use question::{Asked, Chop, PerTrap, Smell, Worms};
pub(crate) use solve::progress;
pub use stops::{Flag, Illness};

use self::{
    found::Found,
    limits::Flight,
    materials::Mixture,
    solve::{course, next_crop, nothing_rots, run},
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
    let (way, answer) = match &mixture {
        None => (None, nothing_rots(&question)),
        Some(mixture) => {
            let flight: Option<&Flight<'_>> = if site.air.is_some() { Some(&peak) } else { None };
            let course = course(&question, mixture, next, &soil, flight);
            run(&question, &course, from)
        }
    };
    let found =
        Found { asked: &question, next, mixture: mixture.as_ref(), from, way, answer: &answer };
    let told = words::tell(&found, asking);
    let answer = told_numbers::put_in(&found, answer.clone(), asking.system);
    Some((told, answer))
}
