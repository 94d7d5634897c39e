//! Topic `frost-tonight`: how cold a bed gets tonight, what that does to what grows there, and what
//! to cover.
//!
//! Models: [`frost`](crate::frost). The beds are those of the question, else of the record.

mod air_asked;
mod answer;
mod bed_words;
mod beds_asked;
mod cautions;
mod from_record;
mod question;
mod read;
#[cfg(test)]
mod tests;
mod words;
mod worked;

pub use answer::{Answer, AtBed, AtCrop, Verdict};
pub use bed_words::{BedTold, runs};
pub use from_record::holds_anything;
pub(crate) use from_record::{middays, tender_out, told_of_night, trays_at};
pub use question::Asked;
pub(crate) use question::{air, needed_air};

use self::{
    air_asked::AirRead,
    answer::{Found, numbers},
    read::Question,
    worked::{BedWorked, Tonight, give_covers},
};
use crate::{
    asking::Asking,
    catalogue::{self, Cover},
    frost::{cover::ACT, night::clear_part},
    given::Faults,
    telling::Telling,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let Question { site, air, covers, beds, unknown, forecast_text } =
        asked.read(asking, faults)?;
    let AirRead { sky, wind, low, .. } = air;
    let clear_part = clear_part(sky, wind);
    let nerve = asking.garden.settings.nerve;
    // Nothing is covered for a chance that can't be told from none.
    let act = nerve.map_or(ACT, |percent| f64::from(percent) / 100.0).max(0.01);
    let usual_cover = covers
        .iter()
        .map(|(cover, _)| *cover)
        .max_by(|a, b| mean(a).total_cmp(&mean(b)).then(b.id().cmp(a.id())))
        .or_else(|| catalogue::cover("fabric-light"))?;
    let tonight = Tonight { air: &low, clear_part, wind, usual_cover, act };
    let mut worked: Vec<BedWorked> = beds.into_iter().map(|bed| tonight.work_out(bed)).collect();
    let by_bed = worked.len() > 1 || worked.iter().any(|bed| bed.name.is_some());
    let order = give_covers(&mut worked, &covers, usual_cover, by_bed, wind);
    let coldest = worked
        .iter()
        .map(|bed| bed.low)
        .min_by(|a, b| a.expected.low.value.total_cmp(&b.expected.low.value))?;
    let found = Found {
        sky,
        wind,
        clear_part,
        air: low,
        forecast: air.forecast,
        forecast_text,
        by_bed,
        order,
        covers_given: !covers.is_empty(),
        usual_cover,
        freezing: air.freezing(&site, asking.today),
        grass: air.grass(&site, asking.today),
        unknown,
        beds: worked,
    };
    let told = words::told(&found, asking);
    Some((told, numbers(&found, &coldest)))
}

fn mean(cover: &Cover) -> f64 {
    cover.gain().map_or(0.0, |gain| gain.mean.value)
}
