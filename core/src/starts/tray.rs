//! A tray of the record, as the questions about starts fill themselves in from it.

use chrono::NaiveDate;
use uom::si::time::hour;

use super::{
    age::{Roots, like_warm, warm_house},
    course::{Done, Raised},
};
use crate::{
    catalogue::{self, Crop},
    frost::expected::above,
    garden::{Garden, Start},
    given::{Faults, Given, Readable, Text},
    place::{air::Air, site::Site},
    quantity::{Quantity, Temperature, TemperatureInterval, Time},
    time::DayOfYear,
};
use uom::si::temperature_interval::degree_fahrenheit as degrees_f;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

/// The tray of that id or name; a fault where the record has none.
pub(super) fn find<'a>(
    given: &Given<Text>,
    garden: &'a Garden,
    faults: &mut Faults,
) -> Option<&'a Start> {
    let Text(wanted) = given.read(faults)?;
    let lower = wanted.to_lowercase();
    let named = |start: &&Start| {
        start.id.to_string() == wanted
            || start.name.as_deref().map(str::to_lowercase) == Some(lower.clone())
    };
    let found = garden.starts.iter().rev().find(named);
    if found.is_none() {
        let names: Vec<&str> = garden
            .starts
            .iter()
            .filter(|start| start.is_growing())
            .filter_map(|start| start.name.as_deref())
            .take(5)
            .collect();
        let allowed = if names.is_empty() {
            "nothing, for the record has no tray with a name".to_owned()
        } else {
            format!("a tray of the record, such as {}", names.join(", "))
        };
        given.refuse(faults, allowed, "the record has no such tray");
    }
    found
}

/// The crop of a tray, where the catalogue knows it.
pub(super) fn crop(start: &Start) -> Option<&'static Crop> {
    catalogue::crop(&start.crop).ok()
}

/// Where it was raised, by the first spot told.
pub(super) fn raised(start: &Start) -> Option<Raised> {
    let (_, spot) = start.spots.first()?;
    Some(match spot.as_str() {
        "sill" | "mat" | "heated-house" => Raised::HeatedHouse,
        "unheated-greenhouse" | "cold-frame" => Raised::UnheatedGreenhouse,
        "outdoors" => Raised::Outdoors,
        _ => return None,
    })
}

/// Its days outdoors.
pub(super) fn done(start: &Start) -> Vec<Done> {
    let days = start.hardening.iter().map(|day| Done {
        date: day.when.date(),
        // A day told without its hours was done as asked.
        out: Time::new::<hour>(day.what.hours.unwrap_or(24.0)),
        hurt: day.what.damage,
    });
    days.collect()
}

/// Leaves and roots at the last look that told them.
pub(super) fn looks(start: &Start) -> (Option<u32>, Option<Roots>) {
    let newest_first = || start.check_ins.iter().rev();
    let leaves = newest_first().find_map(|look| look.what.leaves);
    let roots = newest_first().find_map(|look| Roots::read(look.what.roots.as_deref()?).ok());
    (leaves, roots)
}

/// A day's low and high where a tray stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reading {
    pub date: NaiveDate,
    pub low: Temperature,
    pub high: Option<Temperature>,
}

/// What was read at the spots where the tray stood, in order of time.
pub(super) fn readings(start: &Start, garden: &Garden) -> Vec<Reading> {
    let spot_at = |moment| {
        let before = start.spots.iter().rev().find(|(since, _)| *since <= moment);
        before.map(|(_, spot)| spot.as_str())
    };
    let temperature =
        |text: &Option<String>| <Temperature as Quantity>::read(text.as_deref()?).ok();
    let here = garden
        .readings
        .iter()
        .filter(|reading| {
            reading.when >= start.sown && reading.what.spot.as_deref() == spot_at(reading.when)
        })
        .filter_map(|reading| {
            Some(Reading {
                date: reading.when.date(),
                low: temperature(&reading.what.low)?,
                high: temperature(&reading.what.high),
            })
        });
    // The garden's readings are in order of time.
    here.collect()
}

/// How warm a tray stands.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Warmth<'a> {
    /// The same throughout, as told or as usual for where it stands.
    Steady(Temperature, bool),
    /// As read on some days; the mean of those stands for the others.
    Read(Vec<(NaiveDate, Temperature)>, Temperature),
    /// By the usual air of the place, warmer by so much.
    Usual(&'a Air, TemperatureInterval),
}

/// Where nothing tells how warm an unheated house is, °F (considered).
const UNHEATED_F: f64 = 55.0;
/// What glass adds to the day's mean, °F (considered).
const GLASS_ADDS_F: f64 = 5.0;

impl<'a> Warmth<'a> {
    /// As told, else as read, else by where it stands.
    pub(super) fn of(
        told: Option<Temperature>,
        read: &[Reading],
        raised: Option<Raised>,
        site: &'a Site,
    ) -> Option<Self> {
        if let Some(mean) = told {
            return Some(Self::Steady(mean, true));
        }
        let means: Vec<(NaiveDate, Temperature)> = read
            .iter()
            .filter_map(|one| {
                let high = one.high?;
                Some((one.date, one.low + above(high, one.low) / 2.0))
            })
            .collect();
        if let Some((_, first)) = means.first() {
            let over: f64 = means
                .iter()
                .map(|(_, mean)| above(*mean, *first).get::<degrees_f>())
                .sum::<f64>()
                / means.len() as f64;
            let mean = *first + TemperatureInterval::new::<degrees_f>(over);
            return Some(Self::Read(means, mean));
        }
        match (raised?, &site.air) {
            (Raised::HeatedHouse, _) => Some(Self::Steady(warm_house(), false)),
            (Raised::UnheatedGreenhouse, Some(air)) => Some(Self::Usual(
                air,
                TemperatureInterval::new::<degrees_f>(GLASS_ADDS_F),
            )),
            (Raised::Outdoors, Some(air)) => {
                Some(Self::Usual(air, TemperatureInterval::new::<degrees_f>(0.0)))
            }
            (Raised::UnheatedGreenhouse | Raised::Outdoors, None) => Some(Self::Steady(
                Temperature::new::<degree_fahrenheit>(UNHEATED_F),
                false,
            )),
        }
    }

    /// The mean of a day.
    pub(super) fn on(&self, date: NaiveDate) -> Temperature {
        match self {
            Self::Steady(mean, _) => *mean,
            Self::Read(means, mean) => means
                .iter()
                .find(|(day, _)| *day == date)
                .map_or(*mean, |(_, read)| *read),
            Self::Usual(air, warmer) => {
                let day = DayOfYear::of(date);
                let (low, high) = (air.low(day), air.high(day));
                low + above(high, low) / 2.0 + *warmer
            }
        }
    }

    /// Whether it is told or read rather than guessed.
    pub(super) fn is_known(&self) -> bool {
        match self {
            Self::Steady(_, told) => *told,
            Self::Read(..) => true,
            Self::Usual(..) => false,
        }
    }

    /// Age of a tray sown on a day, as time in a warm house; days before the sowing count nothing.
    pub(super) fn age(&self, sown: NaiveDate, today: NaiveDate) -> Time {
        let days = sown.iter_days().take_while(|day| *day < today);
        // OK because nobody keeps a tray for two years.
        days.take(730)
            .map(|day| like_warm(self.on(day), 1.0))
            .fold(Time::new::<hour>(0.0), |age, day| age + day)
    }

    /// The day on which a tray reached an age, up to today; `None` if it has not.
    pub(super) fn reached(
        &self,
        age: Time,
        sown: NaiveDate,
        today: NaiveDate,
    ) -> Option<NaiveDate> {
        let mut so_far = Time::new::<hour>(0.0);
        for day in sown.iter_days().take(730) {
            if so_far >= age {
                return Some(day);
            }
            if day >= today {
                return None;
            }
            so_far += like_warm(self.on(day), 1.0);
        }
        None
    }
}
