//! Topic `hardening-plan`: day by day from the greenhouse to the bed, and from when it can be planted.

mod answer;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, PlanDay};
pub use question::{Asked, HoursOut};

use chrono::NaiveDate;
use uom::si::{temperature_interval::degree_fahrenheit as degrees_f, time::hour};

use self::{
    answer::numbers,
    question::{Question, by_date},
    words::{Found, SoilFound},
};
use crate::{
    asking::Asking,
    catalogue::Crop,
    frost::harm::lost_below,
    garden::Start,
    given::Faults,
    order,
    place::{frost_dates::FrostDates, known_soil::usual_depth, site::Site, sun::day_length},
    quantity::{Temperature, TemperatureInterval, Time},
    starts::{
        cold,
        cold_so_far::{Lived, cold_nights},
        course::{Air, Done, Plan, Raised, Tray, usual_daylight},
        hardening::{Limits, Night, Out, limits_of},
        plant_out::{Frosts, Window, soil_from, waits_for_frost, window},
        tray::{self, Aged, Warmth},
    },
    telling::Telling,
    time::DayOfYear,
};

/// How tough a tray is follows the lows of its last two weeks (common practice).
const RECENT_DAYS: i64 = 14;

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let mut question = asked.read(asking, faults)?;
    let limits = limits_of(question.crop);
    let before = lows_before(&mut question, &limits);
    let Question { start, ref site, crop, raised, begins, today, way, sown, .. } = question;
    let (readings, nights) = (&question.readings, &question.nights);
    let tray = Tray {
        limits,
        raised,
        under_lamps: question.under_lamps,
        lows_before: &before,
        way,
        start: begins,
        done: &question.done,
        today,
    };
    let air = |date: NaiveDate| {
        let given = nights.iter().rev().find(|(day, _)| *day == date);
        given.map_or_else(|| usual_air(site, date), |(_, air)| *air)
    };
    let daylight = |date: NaiveDate| {
        site.latitude.map_or_else(usual_daylight, |latitude| day_length(latitude, date))
    };
    let plan = tray.plan(&air, &daylight);

    let warmth = match start.filter(|_| question.warmth.is_none() && !question.raised_given) {
        Some(start) => Warmth::of_tray(start, readings, site),
        None => Warmth::of(question.warmth, readings, Some(raised), site),
    };
    let looks = start.map(tray::looks).unwrap_or_default();
    let potted_on = start.and_then(|start| Some(start.pricked_out?.date()));
    let age_limit = sown.zip(warmth.as_ref()).and_then(|(sown, warmth)| {
        let aged = Aged::of(crop, warmth, sown, &looks, potted_on, today);
        aged.limit?.likely
    });
    let (window, soil_found, frost_known) = when_to_plant(&question, &plan, age_limit);

    let cold = cold::of(crop);
    let (cold_nights, cold_level) = cold_nights(
        &cold,
        &Lived {
            readings,
            nights,
            warmth: warmth.as_ref(),
            sown,
            large_since: start.and_then(tray::large_since),
            of_record: start.is_some(),
            today,
        },
    );
    let found = Found {
        crop,
        start,
        raised,
        way,
        limits,
        window,
        today,
        nerve: question.nerve,
        frost_known,
        soil: soil_found,
        age_limit,
        cold,
        cold_level,
        cold_nights,
        weather_known: plan.days.iter().any(|day| nights.iter().any(|(date, _)| *date == day.date)),
        daylight: daylight(today),
        by_frost_class: crop.hardening().is_none(),
        begun: !question.done.is_empty(),
        plan,
    };
    let told = words::told(&found, asking);
    Some((told, numbers(found, &daylight)))
}

/// The lows of its last weeks, the oldest first; of days that were done it is noted which were cold.
fn lows_before(question: &mut Question<'_>, limits: &Limits) -> Vec<Temperature> {
    let Question { start, raised, begins, today, cold_before, .. } = *question;
    let Question { readings, nights, done, .. } = question;
    let warm_until = start.map(|start| tray::cold_since(start, today));
    let is_recent = |date: NaiveDate| {
        (0..=RECENT_DAYS).contains(&(begins.max(today) - date).num_days())
            && warm_until.is_none_or(|until| date >= until)
    };
    let mut before: Vec<(NaiveDate, Temperature)> = readings
        .iter()
        .map(|reading| (reading.date, reading.low))
        .filter(|(date, _)| is_recent(*date))
        .collect();
    let past = nights.iter().filter(|(date, _)| *date < today);
    for (date, air) in past {
        if raised == Raised::HeatedHouse {
            let done = done.iter_mut().find(|done| done.date == *date);
            if let Some(done) = done {
                done.cold = was_cold(done, air, limits, start);
            }
        } else if is_recent(*date) && before.iter().all(|(read, _)| read != date) {
            // Without heat the greenhouse follows the night outside.
            before.extend(air.low.map(|low| (*date, low)));
        }
    }
    order::sort(&mut before, &|(date, _)| by_date(*date));
    let mut before: Vec<Temperature> = before.into_iter().map(|(_, low)| low).collect();
    if before.is_empty() {
        let nights = cold_before as usize;
        before = vec![limits.lowest_air; nights];
    }
    before
}

/// When it can be planted, and what the soil says to that; and whether the frosts are known.
fn when_to_plant(
    question: &Question<'_>,
    plan: &Plan,
    age_limit: Option<NaiveDate>,
) -> (Option<Window>, Option<SoilFound>, bool) {
    let crop = question.crop;
    let frosts = question.own_frosts.or_else(|| frosts_of(crop, &question.site));
    let ready = plan.ready;
    let frost_past = ready.and_then(|ready| {
        let frosts = frosts.filter(|_| waits_for_frost(crop))?;
        Some(frosts.safe_from(question.nerve, ready))
    });
    let soil_at = |date: NaiveDate| question.soil.as_ref().map(|soil| soil.at(usual_depth(), date));
    let stop = crop.soil_stop().or_else(|| crop.soil_to_plant().filter(|_| waits_for_frost(crop)));
    let soil_warm = ready.and_then(|ready| {
        let from = frost_past.unwrap_or(ready);
        let (stop, _) = (stop?, question.soil.as_ref()?);
        soil_from(from, stop, &|date| soil_at(date).unwrap_or(stop))
    });
    let to_go = u32::try_from(plan.days.len()).unwrap_or(0);
    let window = ready.map(|ready| window(ready, to_go, frost_past, soil_warm, age_limit));
    let soil_found = window.and_then(|window| soil_at(window.range.early?)).map(|then| SoilFound {
        then,
        stop,
        advised: crop.soil_to_plant(),
        never: stop.is_some() && soil_warm.is_none(),
    });
    (window, soil_found, frosts.is_some())
}

/// The last frosts of the place for this crop: the gardener's own usual dates as they are, or else the day
/// of the last air low that means harm at a bed, beds on clear nights being some 4 °F colder (derived).
fn frosts_of(crop: &Crop, site: &Site) -> Option<Frosts> {
    const BED_COLDER_F: f64 = 4.0;
    if let (Some(air), None) = (&site.air, site.last_frost) {
        let harm =
            lost_below(crop, true, None) + TemperatureInterval::new::<degrees_f>(BED_COLDER_F);
        return Some(Frosts::Place(FrostDates::from_air(air, harm, site.is_south())));
    }
    site.frost_dates().map(Frosts::Place)
}

/// The usual air of a day where the place is known.
fn usual_air(site: &Site, date: NaiveDate) -> Air {
    let day = DayOfYear::of(date);
    let usual = site.air.as_ref();
    Air {
        high: usual.map(|air| air.high(day)),
        low: usual.map(|air| air.low(day)),
        ..Air::default()
    }
}

/// Whether a day was cold enough to toughen: six hours of it, or a night that the record says was spent out.
fn was_cold(done: &Done, air: &Air, limits: &Limits, start: Option<&Start>) -> bool {
    const HOURS: f64 = 6.0;
    let long = done.out >= Time::new::<hour>(HOURS);
    let by_day = air.while_out(Out::Daylight).filter(|_| long);
    let told = start.into_iter().flat_map(|start| &start.hardening);
    let night_out = told.into_iter().any(|day| {
        day.when.date() == done.date
            && day.what.night.as_deref().is_some_and(|night| night != Night::In.word())
    });
    let by_night = air.low.filter(|_| night_out);
    by_day.is_some_and(|air| limits.toughens(air))
        || by_night.is_some_and(|low| limits.toughens(low))
}
