//! Topic `hardening-plan`: day by day from the greenhouse to the bed, and from when it can be planted.

mod answer;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, PlanDay};
pub use question::{Asked, HoursOut};

use chrono::{Duration, NaiveDate};
use uom::si::time::hour;

use self::{
    answer::numbers,
    question::{Question, by_date},
    words::{Found, SoilFound},
};
use crate::{
    asking::Asking,
    catalogue::Crop,
    garden::Start,
    given::Faults,
    order,
    place::{
        known_soil::{BedSoil, KnownSoil, usual_depth},
        readings::Reading,
        site::Site,
        soil::{Mulch, Texture},
        sun::day_length,
    },
    quantity::{Temperature, Time},
    season::How,
    starts::{
        cold,
        cold_so_far::{Lived, cold_nights},
        course::{Air, Done, Plan, Raised, Tray, usual_daylight},
        hardening::{Limits, Night, Out, limits_of},
        plant_out::{Decides, Frosts, Window, frosts_of, soil_from, waits_for_frost, window},
        season::{Season, goes_anyway, not_before},
        tray::{self, Aged, Warmth},
    },
    telling::Telling,
    time::DayOfYear,
    words::sky::Sky,
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
    let season = season_of(&question);
    let site = question.site.clone();
    let (age_limit, ready_on, warmth) = age_of(&question, &site);
    let frosts = question.own_frosts.or_else(|| frosts_of(question.crop, &site));
    let waits = Waits { season: season.as_ref(), frosts, age_limit };
    if !question.begun && question.raised != Raised::Outdoors {
        let days = tray_of(&question, limits, &[]).days_in_all();
        question.begins = waits.begins(&question, ready_on, days);
    }
    let before = lows_before(&mut question, &limits);
    let Question { start, crop, raised, today, way, sown, .. } = question;
    let (readings, nights) = (&question.readings, &question.nights);
    let air = |date: NaiveDate| {
        let given = nights.iter().rev().find(|(day, _)| *day == date);
        given.map_or_else(|| usual_air(&site, date), |(_, air)| *air)
    };
    let daylight = |date: NaiveDate| {
        site.latitude.map_or_else(usual_daylight, |latitude| day_length(latitude, date))
    };
    let mut plan = tray_of(&question, limits, &before).plan(&air, &daylight);
    // Where cold nights draw the way out, it begins so much later.
    let begins = question.begins;
    let drawn_out = plan.ready.map(|ready| ready - begins - Duration::days(plan.of.into()));
    if let Some(longer) = drawn_out.filter(|_| begins > today && !question.begun) {
        question.begins = begins + longer.max(Duration::zero());
        plan = tray_of(&question, limits, &before).plan(&air, &daylight);
    }
    if waits.at_once(&question, &air(today)) {
        (plan.days, plan.ready) = (Vec::new(), Some(today));
    }
    let (window, soil_found) = when_to_plant(&question, &plan, &waits);

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
        frost_known: frosts.is_some(),
        why_not: season.as_ref().and_then(|season| season.course(crop, How::SetOut, today)?.reason),
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

/// The tray and its way.
fn tray_of<'a>(
    question: &'a Question<'_>,
    limits: Limits,
    lows_before: &'a [Temperature],
) -> Tray<'a> {
    Tray {
        limits,
        raised: question.raised,
        under_lamps: question.under_lamps,
        lows_before,
        way: question.way,
        start: question.begins,
        done: &question.done,
        today: question.today,
    }
}

/// When it is too old and from when it is old enough, with the warmth that tells so; each where known.
fn age_of<'a>(
    question: &Question<'_>,
    site: &'a Site,
) -> (Option<NaiveDate>, Option<NaiveDate>, Option<Warmth<'a>>) {
    let Question { start, crop, raised, today, sown, .. } = *question;
    let readings = &question.readings;
    let warmth = match start.filter(|_| question.warmth.is_none() && !question.raised_given) {
        Some(start) => Warmth::of_tray(start, readings, site),
        None => Warmth::of(question.warmth, readings, Some(raised), site),
    };
    let looks = start.map(tray::looks).unwrap_or_default();
    let potted_on = start.and_then(|start| Some(start.pricked_out?.date()));
    let aged = sown
        .zip(warmth.as_ref())
        .map(|(sown, warmth)| Aged::of(crop, warmth, sown, &looks, potted_on, today));
    let limit = aged.as_ref().and_then(|aged| aged.limit?.likely);
    (limit, aged.and_then(|aged| aged.ready_on), warmth)
}

/// The season of the place, in the soil as it was told.
fn season_of(question: &Question<'_>) -> Option<Season> {
    let soil = match question.soil.as_ref()? {
        KnownSoil::Bed(soil) => soil.year,
        KnownSoil::Steady(temperature) => {
            let reading = Reading {
                date: question.today,
                time: None,
                depth: usual_depth(),
                temperature: *temperature,
            };
            let texture = question.site.soil.unwrap_or(Texture::Loam);
            let air = question.site.air.as_ref()?;
            BedSoil::new(air, texture, Mulch::Bare, &[reading], question.today).year
        }
        KnownSoil::Days(_) => return Season::of(&question.site, None),
    };
    Season::of(&question.site, Some(&soil))
}

/// What its planting waits for.
struct Waits<'a> {
    season: Option<&'a Season>,
    frosts: Option<Frosts>,
    age_limit: Option<NaiveDate>,
}

impl Waits<'_> {
    fn not_before(
        &self,
        question: &Question<'_>,
        from: NaiveDate,
    ) -> Vec<(Option<NaiveDate>, Decides)> {
        let crop = question.crop;
        let waits = not_before(crop, self.season, self.frosts, question.nerve, from);
        let latest = waits.iter().filter_map(|(day, _)| *day).max();
        let anyway = || {
            let course = self.season.and_then(|season| season.course(crop, How::SetOut, from));
            course.is_some_and(|course| goes_anyway(&course))
        };
        let too_old = latest.zip(self.age_limit).is_some_and(|(day, limit)| limit < day);
        if too_old && anyway() { Vec::new() } else { waits.to_vec() }
    }

    /// The first day of its way, so that it ends on the day it can be planted.
    fn begins(&self, question: &Question<'_>, ready_on: Option<NaiveDate>, days: u32) -> NaiveDate {
        let today = question.today;
        let waits = self.not_before(question, today);
        let days_known = waits.into_iter().filter_map(|(day, _)| day).chain(ready_on);
        let plant = days_known.fold(today, NaiveDate::max);
        let soil = soil_warm(question, plant).flatten().unwrap_or(plant);
        (soil - Duration::days(days.into())).max(today)
    }

    /// Whether what is too old goes out without a way to it: a hardy plant on a dull day that may.
    fn at_once(&self, question: &Question<'_>, air: &Air) -> bool {
        let too_old = self.age_limit.is_some_and(|limit| limit <= question.today);
        let may = self.not_before(question, question.today);
        let may = may.iter().all(|(day, _)| day.is_none_or(|day| day <= question.today));
        too_old && may && !waits_for_frost(question.crop) && air.sky == Some(Sky::Cloudy)
    }
}

/// From when the soil is warm enough for it; the outer `None` where nothing tells, the inner where it
/// never is.
fn soil_warm(question: &Question<'_>, from: NaiveDate) -> Option<Option<NaiveDate>> {
    let (stop, soil) = (soil_stop(question.crop)?, question.soil.as_ref()?);
    Some(soil_from(from, stop, &|date| soil.at(usual_depth(), date)))
}

/// Too cold below.
fn soil_stop(crop: &Crop) -> Option<Temperature> {
    crop.soil_stop().or_else(|| crop.soil_to_plant().filter(|_| waits_for_frost(crop)))
}

/// When it can be planted, and what the soil says to that.
fn when_to_plant(
    question: &Question<'_>,
    plan: &Plan,
    waits: &Waits<'_>,
) -> (Option<Window>, Option<SoilFound>) {
    let crop = question.crop;
    let Some(ready) = plan.ready else { return (None, None) };
    let mut days = waits.not_before(question, ready);
    let latest = days.iter().filter_map(|(day, _)| *day).fold(ready, NaiveDate::max);
    let soil_warm = soil_warm(question, latest);
    days.push((soil_warm.flatten(), Decides::Soil));
    let to_go = u32::try_from(plan.days.len()).unwrap_or(0);
    let window = window(ready, to_go, &days, waits.age_limit);
    let soil_found =
        question.soil.as_ref().zip(window.range.early).map(|(soil, early)| SoilFound {
            then: soil.at(usual_depth(), early),
            stop: soil_stop(crop),
            advised: crop.soil_to_plant(),
            never: soil_warm == Some(None),
        });
    (Some(window), soil_found)
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
