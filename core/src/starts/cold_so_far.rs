//! The cold a tray has had so far, and what that means for it.

use chrono::NaiveDate;
use uom::si::{thermodynamic_temperature::degree_fahrenheit, time::day as a_day};

use super::{
    cold::{Cold, ColdDay, Counts, Level, Takes},
    course::Air,
    tray::{Reading, Warmth},
};
use crate::{
    catalogue::ColdHarm,
    quantity::{Temperature, show_number, tenths},
};

/// The cold that a tray had.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ColdNights {
    /// Weeks of cold that counted.
    pub weeks: f64,
    /// Weeks from which harm was seen; null where none is known for the crop.
    pub trigger_weeks: Option<f64>,
    /// What that means, in words.
    pub note: String,
}

impl ColdNights {
    /// The note with its weeks before it.
    pub(crate) fn told(&self) -> String {
        if self.weeks == 0.0 {
            return format!("None that count yet. {}", self.note);
        }
        let weeks = show_number(self.weeks, 1);
        let unit = if weeks == "1" { "week" } else { "weeks" };
        format!("About {weeks} {unit} of nights that count. {}", self.note)
    }
}

/// What a tray lived through, as far as it is known.
pub(crate) struct Lived<'a> {
    /// Lows where it was raised.
    pub readings: &'a [Reading],
    /// Nights as given; the past ones count.
    pub nights: &'a [(NaiveDate, Air)],
    /// How warm it stood.
    pub warmth: Option<&'a Warmth<'a>>,
    /// When it was sown.
    pub sown: Option<NaiveDate>,
    /// Since when it was seen to be large.
    pub large_since: Option<NaiveDate>,
    /// Whether it is a tray of the record, of which only nights read are known.
    pub of_record: bool,
    /// Today.
    pub today: NaiveDate,
}

/// The cold that counted: lows where the tray was raised, and nights past, from the age at which a
/// plant feels it on, where that is known.
pub(crate) fn cold_nights(cold: &Cold, lived: &Lived<'_>) -> (ColdNights, Option<Level>) {
    let today = lived.today;
    let past = lived.nights.iter().filter(|(date, _)| *date < today);
    let past = past.filter_map(|(date, air)| Some((*date, air.low?, air.high)));
    let read = lived.readings.iter().map(|reading| (reading.date, reading.low, reading.high));
    let mut lows: Vec<(NaiveDate, ColdDay)> = Vec::new();
    for (date, low, high) in read.chain(past) {
        // One low a night counts, however often it was written down.
        if lows.iter().all(|(other, _)| *other != date) {
            lows.push((date, ColdDay { low, high }));
        }
    }
    match cold {
        Cold::Takes(takes) => {
            let by_age = lived.sown.zip(lived.warmth).and_then(|(sown, warmth)| {
                warmth.reached(takes.counts_from, sown, today).or(Some(today))
            });
            let feels_from = match (by_age, lived.large_since) {
                (Some(by_age), Some(seen)) => Some(by_age.min(seen)),
                (by_age, seen) => by_age.or(seen),
            };
            let counted: Vec<ColdDay> = lows
                .iter()
                .filter(|(date, _)| feels_from.is_none_or(|from| *date >= from))
                .map(|(_, day)| *day)
                .collect();
            let sum = takes.counted(&counted);
            let level = takes.level(sum);
            let mut note = note(takes, level, feels_from.is_some());
            if let Some(from) = feels_from.filter(|_| lived.of_record) {
                note.push_str(&read_of(counted.len(), (today - from).num_days()));
            }
            (
                ColdNights {
                    weeks: tenths(sum.get::<a_day>() / 7.0),
                    trigger_weeks: Some(tenths(takes.from.get::<a_day>() / 7.0)),
                    note,
                },
                Some(level),
            )
        }
        Cold::Unknown | Cold::None => {
            let f = Temperature::new::<degree_fahrenheit>;
            let below = lows.iter().filter(|(_, day)| day.low < f(45.0)).count();
            let note = if *cold == Cold::None {
                "No trouble from cold weeks is known for it."
            } else {
                "Cold weeks can make it bolt; after how many was not found."
            };
            (
                ColdNights {
                    weeks: tenths(below as f64 / 7.0),
                    trigger_weeks: None,
                    note: note.to_owned(),
                },
                None,
            )
        }
    }
}

/// How many of the nights that count were read; those not read were not counted.
fn read_of(read: usize, nights: i64) -> String {
    if nights <= 0 || read as i64 >= nights {
        String::new()
    } else if read == 0 {
        " No night was read where it stands, so none is counted: hang a thermometer there."
            .to_owned()
    } else {
        format!(" Only {read} of {nights} nights were read and counted.")
    }
}

/// What weeks of cold mean, in words.
fn note(takes: &Takes, level: Level, age_known: bool) -> String {
    let what = match takes.outcome {
        ColdHarm::Bolts => "bolting is",
        ColdHarm::Buttons => "tiny heads are",
    };
    let weeks = |time: crate::quantity::Time| {
        let weeks = time.get::<a_day>() / 7.0;
        show_number(weeks, u32::from(weeks < 3.0))
    };
    let size = match takes.counts {
        Counts::NightsBelow(_) if takes.counts_from.value == 0.0 => "",
        Counts::NightsBelow(_) if !age_known => {
            " Only plants with leaves a hand wide or stems like a pencil feel it."
        }
        Counts::NightsBelow(_) | Counts::CarrotDays => " Small plants don't feel it.",
    };
    let from = weeks(takes.from);
    match level {
        Level::Little => format!(
            "Cold nights so far are few; {what} seen from about {from} weeks of them.{size}"
        ),
        Level::Note => format!(
            "Cold nights add up: {what} seen from about {from} weeks of them, though it differs by variety.{size}"
        ),
        Level::Much => format!(
            "It has had the cold after which {what} usual ({} weeks): plant it anyway, and sow a few more.{size}",
            weeks(takes.to)
        ),
    }
}
