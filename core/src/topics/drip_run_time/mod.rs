//! Topic `drip-run-time`: water for a bed, and how long to run the drip.
//!
//! What the plants use ([`need`]) less the rain, over what the emitters give ([`drip`]), split so
//! that no run goes past the roots ([`soil`]). Not in the model: shade, wind, mulch, what is still
//! in the soil, and water that runs off.

mod answer;
pub mod coefficient;
pub mod drip;
pub mod need;
mod question;
pub mod soil;
#[cfg(test)]
mod tests;
mod words;

pub use answer::Answer;
pub use question::{Asked, Demand};

use self::{
    drip::{REACHES_ROOTS, application_rate, flow_of_bed, run_time, split},
    question::Question,
    words::Found,
};
use crate::{
    asking::Asking, given::Faults, place::soil::Texture, quantity::Length, telling::Telling,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let Question { meant, each, need, rain, texture } = asked.read(asking, faults)?;
    let soil = texture.unwrap_or(Texture::Mix);
    let area = meant.bed.length().to_length() * meant.bed.width().to_length();
    let flow = flow_of_bed(&meant.bed, each);
    let rate = application_rate(flow, area);
    // Where no rain was told of, ground that hardly dries is left to it.
    let rests = !asked.rain.is_given() && need.is_of_a_damp_season();
    let lacking = if rests { Length::default() } else { need::still_needed(need.depth, rain) };
    let total = run_time(lacking, rate, REACHES_ROOTS);
    let dry = run_time(need.depth, rate, REACHES_ROOTS);
    let longest = soil::usual_longest_run(soil, rate);
    let found = Found {
        meant: &meant,
        soil,
        soil_known: texture.is_some(),
        each,
        flow,
        rate,
        need,
        rain,
        runs: split(total, dry, longest),
        rests,
        longest,
        water: flow * total,
    };
    Some((words::told(&found, asking), found.answer()))
}
