//! Topic `day-length`: how long a day is, and when days are too short for growth.
//!
//! Model: NOAA's sunrise with the Astronomical Almanac's declination (see [`sun`](crate::place::sun)), good
//! to 0.02 h. That growth nearly stops below ten hours is growers' practice, not a measured constant.

mod answer;
mod question;
mod words;

pub use answer::{Answer, Season};
pub use question::Asked;

use uom::si::time::hour;

use self::question::Question;
use crate::{asking::Asking, given::Faults, place::sun, quantity::hundredths, telling::Telling};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let Question { latitude, date } = asked.read(asking, faults)?;
    let length = sun::day_length(latitude, date);
    let season = sun::short_days(latitude, date).map(|(from, to)| Season { from, to });
    let telling = words::tell(length, date, season, asking);
    Some((telling, Answer { day_h: hundredths(length.get::<hour>()), under_ten_hours: season }))
}
