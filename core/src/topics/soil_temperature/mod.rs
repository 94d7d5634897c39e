//! Topic `soil-temperature`: how warm the soil is at a depth on a day.
//!
//! Model: the damped yearly wave of the place's air ([`soil`](crate::place::soil)), corrected by the bed's
//! own readings ([`readings`](crate::place::readings)).

mod answer;
mod question;
mod words;

pub use answer::Answer;
pub use question::Asked;
pub(crate) use words::{of_readings, of_the_place, sources};

use uom::si::{
    temperature_interval::degree_celsius as kelvin, thermodynamic_temperature::degree_celsius,
};

use self::{question::Question, words::Found};
use crate::{
    asking::Asking, given::Faults, place::known_soil::BedSoil, quantity::hundredths,
    telling::Telling, time::DayOfYear,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let Question { air, date, depth, soil, mulch, readings } = asked.read(asking, faults)?;
    // A reading tells of the days after it; for a day past, the readings up to then count.
    let as_of = asking.today.map_or(date, |today| today.min(date));
    let bed = BedSoil::new(&air, soil, mulch, &readings, as_of);
    let temperature = bed.year.at(depth, DayOfYear::of(date));
    let telling = words::tell(&Found { temperature, depth, date, mulch, bed: &bed }, asking);
    Some((
        telling,
        Answer {
            temperature_c: hundredths(temperature.get::<degree_celsius>()),
            sd_c: hundredths(bed.sd.get::<kelvin>()),
        },
    ))
}
