//! Topic `day-length`: how long a day is, and when days are too short for growth.
//!
//! Model: NOAA's sunrise with the Astronomical Almanac's declination (see [`sun`](crate::place::sun)), good
//! to 0.02 h. That growth nearly stops below ten hours is growers' practice, not a measured constant.

use chrono::NaiveDate;
use uom::si::time::hour;

use crate::{
    asking::Asking,
    given::{Faults, Given, asked},
    place::sun::{self, Latitude},
    quantity::{Quantity, hundredths},
    source::Source,
    telling::{Sure, Telling},
    text::{day, span},
};

asked! {
    /// How long is the day?
    pub struct Asked {
        /// Latitude of the garden, north positive; the garden's own if absent.
        latitude: Given<Latitude>,
        /// The day asked about; today if absent.
        date: Given<NaiveDate>,
    }
}

/// The length of a day.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// From sunrise to sunset, hours.
    pub day_h: f64,
    /// The season of days under ten hours that holds the date or follows it; none near the equator.
    pub under_ten_hours: Option<Season>,
}

/// A season by its first and last day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Season {
    /// The first day.
    pub from: NaiveDate,
    /// The last day.
    pub to: NaiveDate,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let known = asking.garden.place.get("latitude").and_then(serde_json::Value::as_str);
    let latitude = asked.latitude.clone().or(known).need(faults);
    let date = match (asked.date.is_given(), asking.today) {
        (false, Some(today)) => Some(today),
        _ => asked.date.need(faults),
    };
    let (latitude, date) = (latitude?, date?);
    let length = sun::day_length(latitude, date);
    let season = sun::short_days(latitude, date).map(|(from, to)| Season { from, to });

    let mut telling = Telling::new(length.show(asking.system), Sure::High);
    let on = day(date, asking.today);
    telling.because.push(match season {
        None => format!("That is {on}. Here no day is under 10 hours."),
        Some(Season { from, to }) if from <= date && date <= to => {
            format!("That is {on}. Days stay under 10 hours until {}.", day(to, asking.today))
        }
        Some(Season { from, to }) => {
            format!("That is {on}. Days are under 10 hours from {}.", span(from, to, asking.today))
        }
    });
    if season.is_some() {
        telling.because.push(
            "Under 10 hours most crops stand still: what is not nearly grown by then waits for spring."
                .to_owned(),
        );
    }
    telling.source(Source::NoaaSolar);
    telling.source(Source::AlmanacSun);
    telling.source(Source::TenHourPractice);
    Some((telling, Answer { day_h: hundredths(length.get::<hour>()), under_ten_hours: season }))
}
