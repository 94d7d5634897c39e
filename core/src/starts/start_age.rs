//! Topic `start-age`: how old a tray really is, and whether to plant it now.

use chrono::NaiveDate;
use uom::si::{thermodynamic_temperature::degree_fahrenheit, time::day};

use super::{
    age::{Ages, Judged, Look, Roots, Verdict},
    age_telling,
    tray::{self, Aged, Reading, Warmth},
};
use crate::{
    asking::Asking,
    catalogue::{Crop, KnownCrop},
    garden::Start,
    given::{Faults, Given, Text, asked, words},
    journal::details,
    place::site::SiteAsked,
    quantity::{Temperature, Time, tenths},
    telling::Telling,
    time::Range,
};

asked! {
    /// How old is this tray really?
    pub struct Asked {
        /// A tray of the record, by its id or name; it brings along what is not given here.
        tray: Given<Text> = "Tray",
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// The day it was sown.
        sown: Given<NaiveDate> = "Sown",
        /// The mean temperature where it stands.
        warmth: Given<Temperature> = "How warm it stands",
        /// Lows and highs read where it stands.
        greenhouse: Vec<ReadingAsked>,
        /// True leaves on most plants.
        leaves: Given<u32> = "True leaves",
        /// How the roots look when a plug is slid out.
        roots: Given<Roots> = "Roots, plug slid out",
        /// What else is seen.
        signs: Vec<Given<Sign>> = "What else do you see?",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
    }
}

asked! {
    /// A day's low and high.
    pub struct ReadingAsked {
        /// The day.
        date: Given<NaiveDate>,
        /// The low.
        low: Given<Temperature>,
        /// The high.
        high: Given<Temperature>,
    }
}

words! {
    /// Something seen on young plants.
    pub enum Sign {
        /// Long and thin.
        Leggy = "leggy" => "Long and thin",
        /// Two or more in a cell.
        Doubled = "doubled" => "Two or more in a cell",
        /// Buds or flowers in the cell.
        Budding = "budding" => "Buds or flowers",
        /// Lower leaves yellow.
        Yellow = "yellow" => "Lower leaves yellow",
        /// Leaves a hand wide, or stems as thick as a pencil: such plants feel weeks of cold.
        Large = "large" => "Leaves a hand wide, or stems like a pencil",
    }
}

/// A tray's true age.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Its age as weeks in a warm house (65 °F).
    pub like_weeks_warm: f64,
    /// What its roots, else its leaves, else its age say; null where nothing tells.
    pub verdict: Option<Verdict>,
    /// The day on which it becomes too old, standing as warm as now; early and late if it stands 5 °F warmer or
    /// colder. Null where no age is known for the crop.
    pub limit: Option<Range>,
    /// The day on which it is at its best no longer, likewise.
    pub best_until: Option<Range>,
    /// The same age limit as weeks in a warm house.
    pub limit_weeks: Option<f64>,
    /// From here to there, as weeks in a warm house, it is at its best for planting.
    pub best_weeks: Option<[f64; 2]>,
}

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub crop: &'static Crop,
    pub start: Option<&'a Start>,
    pub sown: NaiveDate,
    pub today: NaiveDate,
    pub age: Time,
    pub ages: Option<Ages>,
    pub judged: Option<Judged>,
    pub by_heat: Option<Verdict>,
    pub best_until: Option<Range>,
    pub limit: Option<Range>,
    pub looked_on: Option<NaiveDate>,
    pub known_warmth: bool,
    pub read_days: usize,
    pub leaves: Option<u32>,
    pub roots: Option<Roots>,
    pub look_given: Option<details::CheckIn>,
    pub signs: Vec<Sign>,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let found = find(asked, asking, faults)?;
    let told = age_telling::told(&found, asking);
    let weeks = |time: Time| tenths(time.get::<day>() / 7.0);
    let ages = found.ages;
    Some((
        told,
        Answer {
            like_weeks_warm: weeks(found.age),
            verdict: found.judged.map(|judged| judged.verdict),
            limit: found.limit,
            best_until: found.best_until,
            limit_weeks: ages.map(|ages| weeks(ages.limit)),
            best_weeks: ages.map(|ages| [weeks(ages.ready), weeks(ages.best_until)]),
        },
    ))
}

/// Works out what is asked.
pub(super) fn find<'a>(
    asked: &Asked,
    asking: &Asking<'a>,
    faults: &mut Faults,
) -> Option<Found<'a>> {
    let start = tray::find(&asked.tray, asking.garden, faults);
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let crop = crop_of(&asked.crop, start, faults);
    let today = asking.today;
    if today.is_none() {
        faults.add("today", "", "today's date", "an age is counted up to today");
    }
    let sown = sown_of(&asked.sown, start, today, faults);
    let told = mean_temperature(&asked.warmth, faults);
    let given: Vec<_> = asked.greenhouse.iter().map(|one| one.read(true, faults)).collect();
    let leaves = asked.leaves.within(0, 60, "0 to 60 leaves", faults);
    let roots = asked.roots.read(faults);
    let signs: Vec<Sign> = asked.signs.iter().filter_map(|sign| sign.read(faults)).collect();

    let given: Vec<Reading> = given.into_iter().collect::<Option<_>>()?;
    let recorded = start.map(|start| tray::readings(start, asking.garden)).unwrap_or_default();
    let readings = if given.is_empty() { recorded } else { given };
    let told_here = told.is_some() || !asked.greenhouse.is_empty();
    let warmth = match start.filter(|_| !told_here) {
        Some(start) => Warmth::of_tray(start, &readings, &site),
        None => Warmth::of(told, &readings, None, &site),
    };
    if warmth.is_none() && !asked.warmth.is_given() {
        asked.warmth.refuse(
            faults,
            "the mean temperature where it stands, such as 55 F; or its lows and highs in greenhouse",
            "a tray's age is the warmth it had",
        );
    }
    let (crop, sown, today, warmth) = (crop?, sown?, today?, warmth?);
    if !faults.is_empty() {
        return None;
    }

    let looks_given = leaves.is_some() || roots.is_some();
    let mut looks = start.map(tray::looks).unwrap_or_default();
    if looks_given {
        looks.push(Look { date: today, leaves, roots });
    }
    let signs_given = !signs.is_empty();
    let signs =
        if signs_given || looks_given { signs } else { start.map(tray::signs).unwrap_or_default() };
    let last_look = looks.last().copied();
    let potted_on = start.and_then(|start| Some(start.pricked_out?.date()));
    let aged = Aged::of(crop, &warmth, sown, &looks, potted_on, today);
    let ages = aged.ages;
    let age = aged.heat;
    Some(Found {
        crop,
        start,
        sown,
        today,
        age,
        ages,
        judged: aged.judged,
        by_heat: ages.map(|ages| ages.verdict(age)),
        best_until: aged.best_until,
        limit: aged.limit,
        looked_on: last_look.map(|look| look.date),
        known_warmth: warmth.is_known(),
        read_days: readings.len(),
        leaves: last_look.and_then(|look| look.leaves),
        roots: last_look.and_then(|look| look.roots),
        look_given: (looks_given || signs_given).then(|| details::CheckIn {
            leaves,
            roots: roots.map(|roots| roots.word().to_owned()),
            signs: signs.iter().map(|sign| sign.word().to_owned()).collect(),
            ..details::CheckIn::default()
        }),
        signs,
    })
}

/// The crop as given, else that of the tray.
pub(super) fn crop_of(
    given: &Given<KnownCrop>,
    start: Option<&Start>,
    faults: &mut Faults,
) -> Option<&'static Crop> {
    if !given.is_given()
        && let Some(crop) = start.and_then(tray::crop)
    {
        return Some(crop);
    }
    given.need(faults).map(|KnownCrop(crop)| crop)
}

/// The day of sowing as given, else that of the tray; not after today.
pub(super) fn sown_of(
    given: &Given<NaiveDate>,
    start: Option<&Start>,
    today: Option<NaiveDate>,
    faults: &mut Faults,
) -> Option<NaiveDate> {
    let date = match start {
        Some(start) if !given.is_given() => start.sown.date(),
        _ => given.need(faults)?,
    };
    let today = today?;
    let days = (today - date).num_days();
    if (0..730).contains(&days) {
        return Some(date);
    }
    let why = if days < 0 { "that day has not come yet" } else { "no tray is that old" };
    given.refuse(faults, "today or a day of the two years before", why);
    None
}

/// The mean temperature of a place where trays stand.
pub(super) fn mean_temperature(
    given: &Given<Temperature>,
    faults: &mut Faults,
) -> Option<Temperature> {
    let f = Temperature::new::<degree_fahrenheit>;
    given.within(
        f(10.0),
        f(100.0),
        "a mean temperature from 10 °F to 100 °F (-12 °C to 38 °C)",
        faults,
    )
}

impl ReadingAsked {
    /// The reading; the high is needed or may be missing.
    pub(super) fn read(&self, high_needed: bool, faults: &mut Faults) -> Option<Reading> {
        let f = Temperature::new::<degree_fahrenheit>;
        let limits = "a temperature from -40 °F to 140 °F (-40 °C to 60 °C)";
        let date = self.date.need(faults);
        if !self.low.is_given() {
            self.low.need(faults);
        }
        if high_needed && !self.high.is_given() {
            self.high.need(faults);
        }
        let low = self.low.within(f(-40.0), f(140.0), limits, faults);
        let high = self.high.within(f(-40.0), f(140.0), limits, faults);
        let (date, low) = (date?, low?);
        if high.is_some_and(|high| high < low) {
            self.high.refuse(faults, "a high that is not below the low", "it is below it");
            return None;
        }
        if (high_needed || self.high.is_given()) && high.is_none() {
            return None;
        }
        Some(Reading { date, low, high })
    }
}
