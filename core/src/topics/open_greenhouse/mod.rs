//! Topic `open-greenhouse`: how warm it gets under glass or plastic by day, and whether to open it.
//!
//! Inside is outside and a difference that grows with the sun; what a house adds is learned from its own
//! middays and shrunk toward what is usual ([`shrinkage`](crate::chance::shrinkage)). No tested figure for
//! small unheated houses was found, so what is usual is a wide guess, and said to be one.
//! Vents open at 75 to 80 °F inside (common practice).

mod answer;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, Verdict};
pub use question::{Asked, MiddayAsked, Place};

use uom::si::{
    temperature_interval::{degree_celsius as kelvin, degree_fahrenheit},
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit as fahrenheit},
};

use self::{
    question::Question,
    words::{Told, drafts},
};
use crate::{
    asking::Asking,
    chance::shrinkage::{Prior, Sample},
    frost::expected::{Expected, above},
    given::Faults,
    quantity::{Temperature, TemperatureInterval, hundredths},
    telling::Telling,
    topics::frost_tonight,
    words::sky::Sky,
};

/// Vents open from here on, °F inside; at the upper end all of them (common practice).
const VENT_F: (f64, f64) = (75.0, 80.0);

/// From this high outdoors on trays want shade and water, °F (common practice).
const HOT_F: f64 = 85.0;

/// Standard deviation of a day's forecast high, °F: within 3 °F in 68 of 100 cases in the United States in 2005.
const FORECAST_SD_F: f64 = 3.0;

/// Scatter of a house's difference from midday to midday in like sun, °F, and what it is worth (considered).
const SCATTER_F: f64 = 5.0;

const WORTH_MIDDAYS: f64 = 4.0;

/// How much warmer a shut house is at midday, and how far houses differ, °F (considered: no tested figure found).
const fn usual_f(sky: Sky) -> (f64, f64) {
    match sky {
        Sky::Clear => (30.0, 12.0),
        Sky::Part => (18.0, 10.0),
        Sky::Cloudy => (7.0, 5.0),
    }
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking.garden, faults)?;
    let Question { place, sky, outdoors, foretold, inside, middays } = question;
    let differences = middays.iter().filter(|midday| midday.sky == sky);
    let differences: Vec<f64> = differences
        .map(|midday| above(midday.inside, midday.outside).get::<degree_fahrenheit>())
        .collect();
    let sample = Sample::of(&differences);
    let (mean, mean_sd) = usual_f(sky);
    let learned = Prior { mean, mean_sd, scatter: SCATTER_F, worth: WORTH_MIDDAYS }.learn(&sample);
    let interval = TemperatureInterval::new::<degree_fahrenheit>;
    let air = Expected {
        low: outdoors,
        sd: interval(if foretold { FORECAST_SD_F } else { 0.0 }),
        df: None,
    };
    let high = air.moved(interval(learned.mean), interval(learned.scatter.hypot(learned.mean_sd)));
    let at = Temperature::new::<fahrenheit>;
    let in_f = |temperature: Temperature| temperature.get::<fahrenheit>();
    let too_warm = 1.0 - high.chance_below(at(VENT_F.1));
    let warm_now = inside.map_or(f64::MIN, in_f);
    let hot = in_f(outdoors) >= HOT_F;
    let verdict = if warm_now >= VENT_F.0 || hot || in_f(high.low) >= VENT_F.0 || too_warm >= 0.3 {
        Verdict::Open
    } else if too_warm >= 0.05 {
        Verdict::Ajar
    } else {
        Verdict::Shut
    };
    let found = Answer {
        verdict,
        inside_high_c: hundredths(high.low.get::<degree_celsius>()),
        inside_high_sd_c: hundredths(high.sd.get::<kelvin>()),
        warmer_c: hundredths(interval(learned.mean).get::<kelvin>()),
        middays: sample.count,
        opens_at_outside_c: hundredths(at(VENT_F.0 - learned.mean).get::<degree_celsius>()),
        hot,
    };
    let told = Told {
        found: &found,
        place,
        sky,
        high: &high,
        is_warm_now: warm_now >= VENT_F.0,
        warmer: interval(learned.mean),
        trays: frost_tonight::trays_at(asking.garden, place.spot()),
    };
    let mut telling = told.telling(asking);
    telling.next = drafts(asked, place.spot(), sky);
    Some((telling, found))
}
