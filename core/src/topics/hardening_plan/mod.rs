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
    question::{by_date, own_frosts},
    words::{Found, SoilFound},
};
use crate::{
    asking::Asking,
    catalogue::Crop,
    frost::harm::lost_below,
    garden::Start,
    given::Faults,
    order,
    place::{
        frost_dates::FrostDates,
        known_soil::usual_depth,
        site::{Site, SiteAsked},
        sun::day_length,
    },
    quantity::{Temperature, TemperatureInterval, Time},
    starts::{
        cold,
        cold_so_far::{Lived, cold_nights},
        course::{Air, Done, Raised, Tray, Way, usual_daylight},
        hardening::{Limits, Night, Out, limits_of},
        plant_out::{Frosts, Nerve, soil_from, waits_for_frost, window},
        tray::{self, Aged, Reading, Warmth},
        tray_asked::{crop_of, mean_temperature, sown_of},
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
    let start = tray::find(&asked.tray, asking.garden, faults);
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let crop = crop_of(&asked.crop, start, faults);
    let given_raised = asked.raised.read(faults);
    let recorded = start.and_then(|start| tray::raised(start, asking.today?));
    let raised = match given_raised.or(recorded) {
        None if !asked.raised.is_given() => asked.raised.need(faults),
        raised => raised,
    };
    let under_lamps = asked
        .under_lamps
        .read(faults)
        .unwrap_or_else(|| given_raised.is_none() && start.is_some_and(tray::under_lamps));
    let lows: Vec<_> = asked.greenhouse_lows.iter().map(|one| one.read(false, faults)).collect();
    let begins = match (asked.start.is_given(), asking.today) {
        (false, Some(today)) => Some(today),
        _ => asked.start.need(faults),
    };
    let today = asking.today.or(begins);
    let way = asked.way.read(faults).or(start.and_then(tray::way));
    let way = way.unwrap_or(Way::DayByDay);
    let mut day = today;
    let nights: Vec<_> = asked
        .nights
        .iter()
        .map(|night| {
            let read = night.read(day, faults);
            let meant = read.map_or(day, |(date, _)| Some(date));
            day = meant.and_then(|date| date.succ_opt());
            read
        })
        .collect();
    let done: Vec<_> = asked.done.iter().map(|done| done.read(today, faults)).collect();
    let days_done = asked.days_done.within(0, 30, "0 to 30 days", faults);
    let cold_before = asked.cold_nights_before.within(0, 14, "0 to 14 nights", faults);
    let sown_given = asked.sown.is_given() || start.is_some();
    let sown = if sown_given { sown_of(&asked.sown, start, today, faults) } else { None };
    let told = mean_temperature(&asked.warmth, faults);
    let nerve = asked.nerve.read(faults);
    let own_frosts = own_frosts(asked, faults);
    let soil_wanted = asked.soil_temperature.is_given() || site.air.is_some();
    let bed = asked.bed.as_ref();
    let bed = bed.and_then(|bed| bed.read(asking.garden, asking.system, faults)?.id);
    let in_bed = bed.and_then(|id| asking.garden.bed(&id)).map(crate::garden::Bed::soil_readings);
    let soil = today.filter(|_| soil_wanted).and_then(|today| {
        let readings = in_bed.unwrap_or_default();
        asked.soil_temperature.read(&site, usual_depth(), &readings, today, faults)
    });
    let lows: Vec<Reading> = lows.into_iter().collect::<Option<_>>()?;
    let nights: Vec<(NaiveDate, Air)> = nights.into_iter().collect::<Option<_>>()?;
    let done: Vec<Done> = done.into_iter().collect::<Option<_>>()?;
    let (crop, raised, begins, today) = (crop?, raised?, begins?, today?);
    if (begins - today).num_days().abs() > 366 {
        asked.start.refuse(faults, "a day within a year of today", "that is too far from today");
    }
    if !faults.is_empty() {
        return None;
    }

    let readings = if lows.is_empty() {
        start.map(|start| tray::readings(start, asking.garden)).unwrap_or_default()
    } else {
        let mut lows = lows;
        order::sort(&mut lows, &|reading| by_date(reading.date));
        lows
    };
    let mut done = if done.is_empty() { start.map(tray::done).unwrap_or_default() } else { done };
    if done.is_empty() {
        done = days_before(begins.max(today), days_done.unwrap_or(0));
    }
    order::sort(&mut done, &|done| by_date(done.date));
    let begins = if asked.start.is_given() {
        begins
    } else {
        done.first().map_or(begins, |first| first.date)
    };

    let limits = limits_of(crop);
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
                done.cold = was_cold(done, air, &limits, start);
            }
        } else if is_recent(*date) && before.iter().all(|(read, _)| read != date) {
            // Without heat the greenhouse follows the night outside.
            before.extend(air.low.map(|low| (*date, low)));
        }
    }
    order::sort(&mut before, &|(date, _)| by_date(*date));
    let mut before: Vec<Temperature> = before.into_iter().map(|(_, low)| low).collect();
    if before.is_empty() {
        let nights = cold_before.unwrap_or(0) as usize;
        before = vec![limits.lowest_air; nights];
    }
    let tray = Tray {
        limits,
        raised,
        under_lamps,
        lows_before: &before,
        way,
        start: begins,
        done: &done,
        today,
    };
    let air = |date: NaiveDate| {
        let given = nights.iter().rev().find(|(day, _)| *day == date);
        given.map_or_else(|| usual_air(&site, date), |(_, air)| *air)
    };
    let daylight = |date: NaiveDate| {
        site.latitude.map_or_else(usual_daylight, |latitude| day_length(latitude, date))
    };
    let plan = tray.plan(&air, &daylight);

    let warmth = match start.filter(|_| told.is_none() && given_raised.is_none()) {
        Some(start) => Warmth::of_tray(start, &readings, &site),
        None => Warmth::of(told, &readings, Some(raised), &site),
    };
    let looks = start.map(tray::looks).unwrap_or_default();
    let potted_on = start.and_then(|start| Some(start.pricked_out?.date()));
    let age_limit = sown.zip(warmth.as_ref()).and_then(|(sown, warmth)| {
        let aged = Aged::of(crop, warmth, sown, &looks, potted_on, today);
        aged.limit?.likely
    });
    let nerve = nerve
        .or_else(|| Nerve::from_percent(f64::from(asking.garden.settings.nerve?)))
        .or_else(|| Nerve::from_percent(10.0))?;
    let frosts = own_frosts.or_else(|| frosts_of(crop, &site));
    let ready = plan.ready;
    let frost_past = ready.and_then(|ready| {
        let frosts = frosts.filter(|_| waits_for_frost(crop))?;
        Some(frosts.safe_from(nerve, ready))
    });
    let soil_at = |date: NaiveDate| soil.as_ref().map(|soil| soil.at(usual_depth(), date));
    let stop = crop.soil_stop().or_else(|| crop.soil_to_plant().filter(|_| waits_for_frost(crop)));
    let soil_warm = ready.and_then(|ready| {
        let from = frost_past.unwrap_or(ready);
        let (stop, _) = (stop?, soil.as_ref()?);
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

    let cold = cold::of(crop);
    let (cold_nights, cold_level) = cold_nights(
        &cold,
        &Lived {
            readings: &readings,
            nights: &nights,
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
        nerve,
        frost_known: frosts.is_some(),
        soil: soil_found,
        age_limit,
        cold,
        cold_level,
        cold_nights,
        weather_known: plan.days.iter().any(|day| nights.iter().any(|(date, _)| *date == day.date)),
        daylight: daylight(today),
        by_frost_class: crop.hardening().is_none(),
        begun: !done.is_empty(),
        plan,
    };
    let told = words::told(&found, asking);
    Some((told, numbers(found, &daylight)))
}

/// The last frosts of the place for this crop: the gardener's own usual dates as they are, or else the day
/// of the last air low that means harm at a bed, beds on clear nights being some 4 °F colder (derived).
fn frosts_of(crop: &Crop, site: &Site) -> Option<Frosts> {
    const BED_COLDER_F: f64 = 4.0;
    if let (Some(air), None) = (&site.air, site.last_frost) {
        let harm = lost_below(crop, true) + TemperatureInterval::new::<degrees_f>(BED_COLDER_F);
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

/// The days before `today` that were done as asked, for one who only tells how many.
fn days_before(today: NaiveDate, days: u32) -> Vec<Done> {
    let before = today.pred_opt();
    let dates = core::iter::successors(before, NaiveDate::pred_opt);
    let done = dates.take(days as usize).map(|date| Done {
        date,
        out: Time::new::<hour>(24.0),
        hurt: false,
        cold: false,
    });
    done.collect()
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
