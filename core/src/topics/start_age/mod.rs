//! Topic `start-age`: how old a tray really is, and whether to plant it now.

mod answer;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::Answer;
pub use question::Asked;
pub(crate) use words::{Found, deeper, doubled, overruled, until, weeks};

use chrono::NaiveDate;
use uom::si::time::day;

use crate::{
    asking::Asking,
    catalogue::Crop,
    given::Faults,
    journal::details,
    place::site::{Site, SiteAsked},
    quantity::{Time, tenths},
    season::{Course, How},
    starts::{
        age::Look,
        plant_out::{Nerve, frosts_of},
        season::{Season, goes_anyway, not_before},
        tray::{self, Aged, Reading, Warmth},
        tray_asked::{Sign, crop_of, mean_temperature, sown_of},
    },
    telling::Telling,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let found = find(asked, asking, faults)?;
    let told = words::told(&found, asking);
    let weeks = |time: Time| tenths(time.get::<day>() / 7.0);
    let ages = found.ages;
    Some((
        told,
        Answer {
            like_weeks_warm: weeks(found.age),
            verdict: found.verdict(),
            plant_from: found.plant_from,
            limit: found.limit,
            best_until: found.best_until,
            limit_weeks: ages.map(|ages| weeks(ages.limit)),
            best_weeks: ages.map(|ages| [weeks(ages.ready), weeks(ages.best_until)]),
        },
    ))
}

/// What the season of the place has to say of a tray.
struct Outdoors {
    course: Option<Course>,
    /// When it can go out; today, where its tray waits no longer than it would only sit outdoors.
    plant_from: Option<NaiveDate>,
    /// Until when it only sits there, where it goes out all the same.
    sits_until: Option<NaiveDate>,
}

fn outdoors(crop: &Crop, site: &Site, nerve: Nerve, aged: &Aged, today: NaiveDate) -> Outdoors {
    let season = Season::of(site, None);
    let course = season.as_ref().and_then(|season| season.course(crop, How::SetOut, today));
    let old_enough = aged.ready_on.filter(|ready| *ready > today);
    let waits = not_before(
        crop,
        season.as_ref(),
        frosts_of(crop, site),
        nerve,
        old_enough.unwrap_or(today),
    );
    let waits = waits.iter().filter_map(|(on, _)| *on).max();
    let limit = aged.limit.and_then(|limit| limit.likely);
    let anyway = waits.zip(limit).is_some_and(|(on, limit)| limit < on)
        && old_enough.is_none()
        && course.as_ref().is_some_and(goes_anyway);
    let plant_from =
        if anyway { Some(today) } else { waits.map(|on| on.max(old_enough.unwrap_or(on))) };
    Outdoors { course, plant_from, sits_until: waits.filter(|_| anyway) }
}

/// Works out what is asked.
pub(crate) fn find<'a>(
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
    let nerve = asking.garden.settings.nerve.and_then(|nerve| Nerve::from_percent(nerve.into()));
    let Outdoors { course, plant_from, sits_until } =
        outdoors(crop, &site, nerve.unwrap_or(Nerve::USUAL), &aged, today);
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
        plant_from,
        sits_until,
        course,
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
