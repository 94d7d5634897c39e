//! A tray of the record, as the questions about starts fill themselves in from it.

use chrono::NaiveDate;
use uom::si::{
    temperature_interval::degree_fahrenheit as degrees_f,
    thermodynamic_temperature::degree_fahrenheit,
    time::{day as a_day, hour},
};

use super::{
    age::{Ages, Judged, Look, Roots, judged, like_warm, reaches, warm_house},
    course::{Done, Raised, Way},
    hardening::Night,
    tray_asked::Sign,
};
use crate::{
    catalogue::{self, Crop},
    frost::expected::above,
    garden::{Garden, Start},
    given::{Faults, Given, Readable, Text},
    place::{air::Air, site::Site},
    quantity::{Quantity, Temperature, TemperatureInterval, Time},
    text::small,
    time::{DayOfYear, Range},
    words::spot::Spot,
};

/// The tray of that id or name; a fault where the record has none.
pub(crate) fn find<'a>(
    given: &Given<Text>,
    garden: &'a Garden,
    faults: &mut Faults,
) -> Option<&'a Start> {
    let Text(wanted) = given.read(faults)?;
    let lower = small(&wanted);
    let named = |start: &&Start| {
        start.id.to_string() == wanted || start.name.as_deref().map(small).as_ref() == Some(&lower)
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
pub(crate) fn crop(start: &Start) -> Option<&'static Crop> {
    catalogue::crop(&start.crop).ok()
}

/// What kind of house a spot is, in the words of the record.
pub(crate) fn house(spot: &str) -> Option<Raised> {
    Some(match Spot::read(spot).ok()? {
        Spot::Sill | Spot::Mat | Spot::Lamps | Spot::HeatedHouse => Raised::HeatedHouse,
        Spot::Greenhouse | Spot::ColdFrame => Raised::UnheatedGreenhouse,
        Spot::Outdoors => Raised::Outdoors,
    })
}

/// Each stay of a tray, newest first: since when, until when, and where.
fn stays(start: &Start, today: NaiveDate) -> impl Iterator<Item = (NaiveDate, NaiveDate, &str)> {
    let mut until = today;
    start.spots.iter().rev().map(move |(since, spot)| {
        let stay = (since.date(), until, spot.as_str());
        until = stay.0;
        stay
    })
}

/// So many days in a place make it the one a tray is used to (considered); outdoors it takes longer.
const USED_TO_DAYS: i64 = 7;
const USED_TO_OUTDOORS_DAYS: i64 = 14;
/// A stay this long in the warm undoes what cold had taught, days.
const WARM_STAY_DAYS: i64 = 1;

/// Where it was raised: the last place it stood in long enough, else the first.
pub(crate) fn raised(start: &Start, today: NaiveDate) -> Option<Raised> {
    let mut raised = None;
    for (since, until, spot) in stays(start, today) {
        let Some(here) = house(spot) else { continue };
        let wanted = if here == Raised::Outdoors { USED_TO_OUTDOORS_DAYS } else { USED_TO_DAYS };
        raised = Some(here);
        if (until - since).num_days() >= wanted {
            break;
        }
    }
    raised
}

/// Whether lamps were all the light it knew there.
pub(crate) fn under_lamps(start: &Start) -> bool {
    let last = start.spots.iter().rev().find(|(_, spot)| spot != Spot::Outdoors.word());
    last.is_some_and(|(_, spot)| spot == Spot::Lamps.word())
}

/// The day on which it last left a warm house; cold before that no longer counts.
pub(crate) fn cold_since(start: &Start, today: NaiveDate) -> NaiveDate {
    stays(start, today)
        .find(|(since, until, spot)| {
            house(spot) == Some(Raised::HeatedHouse)
                && (*until - *since).num_days() >= WARM_STAY_DAYS
        })
        .map_or(start.sown.date(), |(_, until, _)| until)
}

/// How it is being done: a first day spent out day and night, and covered, is the one-move way.
pub(crate) fn way(start: &Start) -> Option<Way> {
    let first = &start.hardening.first()?.what;
    let one_move = first.hours.is_some_and(|hours| hours >= 20.0)
        && first.night.as_deref() == Some(Night::Covered.word());
    Some(if one_move { Way::OneMove } else { Way::DayByDay })
}

/// Its days outdoors.
pub(crate) fn done(start: &Start) -> Vec<Done> {
    let days = start.hardening.iter().map(|day| Done {
        date: day.when.date(),
        // A day told without its hours was done as asked.
        out: Time::new::<hour>(day.what.hours.unwrap_or(24.0)),
        hurt: day.what.damage,
        cold: false,
    });
    days.collect()
}

/// The looks at its leaves and roots, oldest first.
pub(crate) fn looks(start: &Start) -> Vec<Look> {
    let looks = start.check_ins.iter().map(|look| Look {
        date: look.when.date(),
        leaves: look.what.leaves,
        roots: look.what.roots.as_deref().and_then(|roots| Roots::read(roots).ok()),
    });
    looks.filter(|look| look.leaves.is_some() || look.roots.is_some()).collect()
}

/// Since when it is large enough to feel weeks of cold, where that was seen.
pub(crate) fn large_since(start: &Start) -> Option<NaiveDate> {
    let large = Sign::Large.word();
    let seen = start.check_ins.iter().find(|look| look.what.signs.iter().any(|sign| sign == large));
    seen.map(|look| look.when.date())
}

/// What else was seen at the last look.
pub(crate) fn signs(start: &Start) -> Vec<Sign> {
    let last = start.check_ins.last().map(|look| look.what.signs.as_slice());
    let seen = last.unwrap_or_default().iter();
    seen.filter_map(|sign| Sign::read(sign).ok()).collect()
}

/// A day's low and high where a tray stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Reading {
    pub date: NaiveDate,
    pub low: Temperature,
    pub high: Option<Temperature>,
}

/// What was read at the spots where the tray stood, in order of time.
pub(crate) fn readings(start: &Start, garden: &Garden) -> Vec<Reading> {
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
pub(crate) struct Warmth<'a> {
    /// What was read, day by day.
    read: Vec<(NaiveDate, Temperature)>,
    /// The days between.
    other: Other<'a>,
    /// Whether it is told or read rather than guessed.
    known: bool,
    /// What it was until a day, for a tray that was carried elsewhere then.
    before: Option<(NaiveDate, Box<Warmth<'a>>)>,
}

/// The warmth of days on which nothing was read.
#[derive(Clone, Debug, PartialEq)]
enum Other<'a> {
    /// The same throughout.
    Steady(Temperature),
    /// The usual air of the place, warmer by so much.
    Usual(&'a Air, TemperatureInterval),
}

/// Where nothing tells how warm an unheated house is, °F (considered).
const UNHEATED_F: f64 = 55.0;
/// What glass adds to the day's mean where no thermometer hangs, °F (considered).
const GLASS_ADDS_F: f64 = 5.0;

fn usual_mean(air: &Air, date: NaiveDate) -> Temperature {
    let day = DayOfYear::of(date);
    let (low, high) = (air.low(day), air.high(day));
    low + above(high, low) / 2.0
}

impl<'a> Warmth<'a> {
    /// As told, else as read, else by where it stands. Where the place is known, days between readings
    /// differ from its usual air as the days read did.
    pub(crate) fn of(
        told: Option<Temperature>,
        read: &[Reading],
        raised: Option<Raised>,
        site: &'a Site,
    ) -> Option<Self> {
        let known = |other, read| Self { read, other, known: true, before: None };
        if let Some(mean) = told {
            return Some(known(Other::Steady(mean), Vec::new()));
        }
        let air = site.air.as_ref();
        let means: Vec<(NaiveDate, Temperature)> = read
            .iter()
            .filter_map(|one| {
                let high = one.high?;
                Some((one.date, one.low + above(high, one.low) / 2.0))
            })
            .collect();
        if let Some((_, first)) = means.first() {
            // Degrees over the usual air of each day, or over the first mean where none is known.
            let usual = |date| air.map_or(*first, |air| usual_mean(air, date));
            let over: f64 = means
                .iter()
                .map(|(date, mean)| above(*mean, usual(*date)).get::<degrees_f>())
                .sum::<f64>()
                / means.len() as f64;
            let over = TemperatureInterval::new::<degrees_f>(over);
            let other = match air {
                Some(air) => Other::Usual(air, over),
                None => Other::Steady(*first + over),
            };
            return Some(known(other, means));
        }
        let f = Temperature::new::<degree_fahrenheit>;
        let warmer = TemperatureInterval::new::<degrees_f>;
        let other = match (raised?, air) {
            (Raised::HeatedHouse, _) => Other::Steady(warm_house()),
            (Raised::UnheatedGreenhouse, Some(air)) => Other::Usual(air, warmer(GLASS_ADDS_F)),
            (Raised::Outdoors, Some(air)) => Other::Usual(air, warmer(0.0)),
            (Raised::UnheatedGreenhouse | Raised::Outdoors, None) => Other::Steady(f(UNHEATED_F)),
        };
        Some(Self { read: Vec::new(), other, known: false, before: None })
    }

    /// Of a tray of the record: each place where it stood in turn, with what was read there. The warmth it
    /// was said to be kept at is that of its first place.
    pub(crate) fn of_tray(start: &Start, read: &[Reading], site: &'a Site) -> Option<Self> {
        let mut told =
            start.warmth.as_deref().and_then(|text| <Temperature as Quantity>::read(text).ok());
        if start.spots.is_empty() {
            return Self::of(told, read, None, site);
        }
        let mut warmth: Option<Self> = None;
        for (at, (since, spot)) in start.spots.iter().enumerate() {
            let since = since.date();
            let until = start.spots.get(at + 1).map(|(next, _)| next.date());
            let here: Vec<Reading> = read
                .iter()
                .filter(|one| since <= one.date && until.is_none_or(|until| one.date < until))
                .copied()
                .collect();
            let stay = Self::of(told.take(), &here, house(spot), site);
            warmth = match (warmth, stay) {
                (Some(before), Some(stay)) => {
                    Some(Self { before: Some((since, Box::new(before))), ..stay })
                }
                (before, stay) => stay.or(before),
            };
        }
        warmth
    }

    /// The mean of a day.
    pub(crate) fn on(&self, date: NaiveDate) -> Temperature {
        if let Some((_, before)) = self.before.as_ref().filter(|(since, _)| date < *since) {
            return before.on(date);
        }
        let read = self.read.iter().find(|(day, _)| *day == date);
        match (&self.other, read) {
            (_, Some((_, read))) => *read,
            (Other::Steady(mean), None) => *mean,
            (Other::Usual(air, warmer), None) => usual_mean(air, date) + *warmer,
        }
    }

    /// Whether it is told or read rather than guessed.
    pub(crate) fn is_known(&self) -> bool {
        self.known
    }

    /// Age of a tray sown on a day, as time in a warm house; days before the sowing count nothing.
    pub(crate) fn age(&self, sown: NaiveDate, today: NaiveDate) -> Time {
        let days = sown.iter_days().take_while(|day| *day < today);
        // OK because nobody keeps a tray for two years.
        days.take(730)
            .map(|day| like_warm(self.on(day), Time::new::<a_day>(1.0)))
            .fold(Time::new::<hour>(0.0), |age, day| age + day)
    }

    /// The day on which a tray reached an age, up to today; `None` if it has not.
    pub(crate) fn reached(
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
            so_far += like_warm(self.on(day), Time::new::<a_day>(1.0));
        }
        None
    }
}

/// A tray's age, what it says, and until when it is good.
pub(crate) struct Aged {
    /// By the heat it had.
    pub heat: Time,
    /// With what was seen on it.
    pub judged: Option<Judged>,
    /// The crop's ages.
    pub ages: Option<Ages>,
    /// From when it can be planted, if it stands on as it does.
    pub ready_on: Option<NaiveDate>,
    /// From when it is at its best no longer, if it stands on as it does.
    pub best_until: Option<Range>,
    /// When it is too old, if it stands on as it does.
    pub limit: Option<Range>,
}

impl Aged {
    /// Of a tray that stands as warm as this.
    pub(crate) fn of(
        crop: &Crop,
        warmth: &Warmth<'_>,
        sown: NaiveDate,
        looks: &[Look],
        potted_on: Option<NaiveDate>,
        today: NaiveDate,
    ) -> Self {
        let heat = |on: NaiveDate| warmth.age(sown, on);
        let judged = judged(crop, &heat, looks, potted_on, today);
        let ages = Ages::of(crop);
        let comes = |limit: Time| {
            let age = judged?.age;
            Some(reaches(limit, age, today, &|date| warmth.on(date)))
        };
        Self {
            heat: heat(today),
            judged,
            ages,
            ready_on: ages.and_then(|ages| comes(ages.ready)?.likely),
            best_until: ages.and_then(|ages| comes(ages.best_until)),
            limit: ages.and_then(|ages| comes(ages.limit)),
        }
    }
}
