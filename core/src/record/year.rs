//! The year of the place, for a picture of it.

use chrono::NaiveDate;
use uom::si::length::inch;

use crate::{
    garden::Garden,
    given::Faults,
    place::{
        frost_dates::{FrostDates, Spread},
        site::SiteAsked,
        soil::{SoilYear, Texture},
        sun,
    },
    quantity::{Length, Temperature},
    text::{day, span},
    time::DayOfYear,
};

/// The year as it usually goes.
#[derive(Clone, Debug)]
pub struct Year {
    /// Every fifth day, from the first of January.
    pub days: Vec<UsualDay>,
    /// The usual last and first frost as days of the year, where there is frost.
    pub frosts: [Option<DayOfYear>; 2],
    /// The first and the last day under ten hours, as days of the year.
    pub short: Option<[DayOfYear; 2]>,
    /// What the picture shows, in sentences.
    pub words: Vec<String>,
}

/// One day as it usually is.
#[derive(Clone, Copy, Debug)]
pub struct UsualDay {
    /// The day.
    pub day: DayOfYear,
    /// The usual low of the air.
    pub low: Temperature,
    /// The usual high of the air.
    pub high: Temperature,
    /// The soil four inches down, over day and night.
    pub soil: Temperature,
}

/// The usual year of the place, where its air is known.
pub fn year(garden: &Garden, today: NaiveDate) -> Option<Year> {
    use chrono::Datelike;
    let site = SiteAsked::read(None, &garden.place, &mut Faults::default());
    let air = site.air.as_ref()?;
    let soil = SoilYear::from_air(air, site.soil.unwrap_or(Texture::Loam));
    let depth = Length::new::<inch>(4.0);
    let days = (0..=73u8)
        .map(|fifth| DayOfYear::new(f64::from(fifth) * 5.0 + 1.0))
        .map(|day| UsualDay {
            day,
            low: air.low(day),
            high: air.high(day),
            soil: soil.at(depth, day),
        })
        .collect();
    let frosts = site.frost_dates();
    let short = site.latitude.and_then(|latitude| sun::short_days(latitude, today));

    // What is usual has no year.
    let said = |day_of_year: Option<DayOfYear>| {
        let date = day_of_year?.in_year(today.year());
        Some(day(date, Some(date)))
    };
    let mut words = Vec::new();
    if let Some(FrostDates { last, first }) = frosts {
        for (name, usual) in [("Last frost", last), ("First frost", first)] {
            let Spread { tenth, half, nine_tenths } = usual;
            if let Some(half) = said(half) {
                let spread = match (said(tenth), said(nine_tenths)) {
                    (Some(early), Some(late)) => {
                        format!("; one year in ten by {early}, nine in ten by {late}")
                    }
                    _ => String::new(),
                };
                words.push(format!("{name} usually about {half}{spread}."));
            } else {
                words.push(format!("{name}: not in most years."));
            }
        }
    }
    if let Some((from, to)) = short {
        words.push(format!("Days under 10 hours: {}.", span(from, to, Some(today))));
    }
    Some(Year {
        days,
        frosts: frosts.map_or([None; 2], |frosts| [frosts.last.half, frosts.first.half]),
        short: short.map(|(from, to)| [DayOfYear::of(from), DayOfYear::of(to)]),
        words,
    })
}
