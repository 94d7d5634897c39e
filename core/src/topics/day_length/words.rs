//! What is told of the length of a day.

use chrono::NaiveDate;

use super::Season;
use crate::{
    asking::Asking,
    quantity::{Quantity, Time},
    source::Source,
    telling::{Sure, Telling},
    text::{day, span},
};

/// The length, and how the day lies to the season of short days.
pub(super) fn tell(
    length: Time,
    date: NaiveDate,
    season: Option<Season>,
    asking: &Asking<'_>,
) -> Telling {
    let headline = if length == Time::default() {
        "No day: the sun stays down".to_owned()
    } else {
        length.show(asking.system)
    };
    let mut telling = Telling::new(headline, Sure::High);
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
    telling
}
