//! Trays: their day outdoors, when to begin with it, when they can be planted, and when they grow too old.
//!
//! - On its way outdoors, a tray has a step every day until it is used to it.
//! - Used to outdoors, it is told three days before it can be planted, so that its bed is made ready.
//! - Ready by its age and still in, it is told a week before the last day on which the way outdoors can begin
//!   so that it ends within its best age, or when frost is past where that is later.
//! - At the end of its best age, or seen to be root-bound, it is told from that day on.

use chrono::{NaiveDate, TimeDelta};

use super::{
    day::Day,
    due::Tick,
    found::{Found, Weight},
};
use crate::{
    asking::Topic,
    garden::Start,
    given::{Faults, Given},
    record::trays,
    starts::age::Verdict,
    telling::Telling,
    text::small,
    topics::{hardening_plan, start_age},
};

/// A planting day or a beginning is told so many days before.
const PLANTING_AHEAD: TimeDelta = TimeDelta::days(3);
const BEGINNING_AHEAD: TimeDelta = TimeDelta::days(7);
/// What is ready and has no known limit is to be planted within so many days.
const PLANTED_WITHIN: TimeDelta = TimeDelta::days(14);
/// The longest way outdoors there is, with days lost to weather.
const LONGEST_WAY: TimeDelta = TimeDelta::days(21);

pub(super) fn find(day: &Day<'_>, found: &mut Vec<Found>) {
    let starts = day.asking.garden.starts.iter();
    for start in starts.filter(|start| start.is_growing()) {
        for it in of_tray(start, day).into_iter().flatten() {
            found.push(it.of_start(start.id.to_string()));
        }
    }
}

/// "Tray 3", or "the tray of cabbage".
fn called(start: &Start) -> String {
    let name = || format!("the tray of {}", small(&trays::name(start)));
    start.name.clone().unwrap_or_else(name)
}

/// What there is of its way outdoors, and of its age.
fn of_tray(start: &Start, day: &Day<'_>) -> [Option<Found>; 2] {
    let id = start.id.to_string();
    let asked =
        start_age::Asked { tray: Given::default().or(Some(&id)), ..start_age::Asked::default() };
    let age = start_age::answer(&asked, day.asking, &mut Faults::default());
    let verdict = age.as_ref().and_then(|(_, age)| age.verdict);
    let begun = !start.hardening.is_empty();
    if !begun && matches!(verdict, None | Some(Verdict::Young)) {
        // It can't be due before it is at its best less the longest way outdoors.
        let best = age.and_then(|(_, age)| age.best_until?.likely);
        let tomorrow = day.today + TimeDelta::days(1);
        let coming = best.map(|best| {
            let from = (best - LONGEST_WAY - BEGINNING_AHEAD).max(tomorrow);
            begins(start, [from, best], String::new())
        });
        return [coming, None];
    }
    let asked = hardening_plan::Asked {
        tray: Given::default().or(Some(&id)),
        ..hardening_plan::Asked::default()
    };
    let plan = hardening_plan::answer(&asked, day.asking, &mut Faults::default());
    let way = plan.and_then(|plan| on_its_way(start, &plan, age.as_ref(), day));
    let plants = way.as_ref().is_some_and(|way| way.weight == Weight::Lost);
    let told = plants || begun && verdict != Some(Verdict::Over);
    let too_old = age.filter(|_| !told).and_then(|age| too_old(start, &age, day));
    [way, too_old]
}

type Plan = (Telling, hardening_plan::Answer);
type Age = (Telling, start_age::Answer);

fn begins(start: &Start, when: [NaiveDate; 2], why: String) -> Found {
    let what = format!("Begin to get {} used to outdoors", called(start));
    Found::new(Topic::HardeningPlan, what, when, why)
}

/// Its next step outdoors, or into its bed.
fn on_its_way(
    start: &Start,
    (telling, plan): &Plan,
    age: Option<&Age>,
    day: &Day<'_>,
) -> Option<Found> {
    let today = day.today;
    let why = telling.because.first().cloned().unwrap_or_default();
    let early = plan.plant_out.and_then(|range| range.early);
    let Some(next) = plan.days.first() else {
        let by = plan.age_limit.unwrap_or(early? + PLANTED_WITHIN);
        let what = format!("Plant out {}", called(start));
        let plant = Found::new(Topic::HardeningPlan, what, [early? - PLANTING_AHEAD, by], why);
        return Some(plant.weighs(Weight::Lost));
    };
    if start.hardening.is_empty() {
        let best = age.and_then(|(_, age)| age.best_until?.likely)?;
        let days = TimeDelta::days(i64::try_from(plan.days.len()).ok()?);
        let by = best.max(early?) - days;
        let ready = age.is_some_and(|(_, age)| age.verdict == Some(Verdict::Ready));
        return ready.then(|| begins(start, [by - BEGINNING_AHEAD, by], why));
    }
    let what = if next.hours_out > 0.0 {
        format!("Carry {} outdoors", called(start))
    } else {
        format!("Keep {} in", called(start))
    };
    let why = format!("{}. {why}", next.told);
    let step = Found::new(Topic::HardeningPlan, what, [next.date; 2], why);
    let tick = (next.date == today && !telling.next.is_empty()).then_some(Tick::Outdoors);
    Some(step.ticked(tick))
}

/// It stands at the end of its time.
fn too_old(start: &Start, (telling, age): &Age, day: &Day<'_>) -> Option<Found> {
    let limit = age.limit.and_then(|limit| limit.likely);
    let called = called(start);
    let (what, by) = match age.verdict? {
        Verdict::Over => {
            let by = limit.map_or(day.today, |limit| limit.min(day.today));
            (format!("Plant, repot or give away {called}"), by)
        }
        Verdict::PlantNow => {
            let best = age.best_until.and_then(|best| best.likely);
            let by = best.map_or(day.today, |best| best.min(day.today));
            (format!("Plant out {called}"), by)
        }
        Verdict::Ready | Verdict::Young => {
            let best = age.best_until?.likely?;
            let from = best.max(day.today + TimeDelta::days(1));
            let coming = Found::new(
                Topic::StartAge,
                format!("Plant out {called}"),
                [from, best],
                String::new(),
            );
            return Some(coming);
        }
    };
    let mut why = format!("{}.", telling.headline);
    if let Some(limit) = limit.filter(|limit| *limit > day.today) {
        why += &format!(" Too old about {}.", day.said(limit));
    }
    let found = Found::new(Topic::StartAge, what, [day.today, by], why);
    Some(found.weighs(Weight::Lost))
}
