//! The trays of the record as their list shows them, most urgent first, and what to decide of one.

use chrono::NaiveDate;

use crate::{
    asking::Asking,
    catalogue::Family,
    garden::{Garden, Start},
    given::{Faults, Given},
    journal::{Draft, Ulid},
    order,
    starts::{
        age::{Roots, Verdict},
        tray,
    },
    telling::Telling,
    text::{capital, count, day as day_told, small, weekday},
    topics::{
        hardening_plan,
        start_age::{self, Found, deeper, doubled, overruled, until, weeks},
    },
    words::spot::spot_words,
};

/// A tray as it is today.
#[derive(Debug)]
pub struct TrayNow<'a> {
    /// The tray.
    pub start: &'a Start,
    /// What it is called.
    pub name: String,
    /// What stands in it, how many, in what and where.
    pub holds: String,
    /// Its age against its limit, in one line.
    pub line: String,
    /// Until when it can wait, and what waiting costs where it does; empty where nothing tells.
    pub waiting: String,
    /// Whether it wants a decision now.
    pub urgent: bool,
    /// How far it is used to outdoors; `None` before the first day out.
    pub outdoors: Option<Outdoors>,
}

/// A tray on its way outdoors.
#[derive(Debug)]
pub struct Outdoors {
    /// "Day 4 of 7 outdoors", and what today asks.
    pub words: String,
    /// What is written when today was done as asked; `None` once it is, and on a day in.
    pub done_today: Option<Draft>,
}

/// The trays with plants left, most urgent first.
pub fn trays<'a>(asking: &Asking<'a>) -> Vec<TrayNow<'a>> {
    let mut trays: Vec<([i64; 3], TrayNow<'a>)> = asking
        .garden
        .starts
        .iter()
        .filter(|start| start.is_growing())
        .map(|start| now(start, asking))
        .collect();
    order::sort(&mut trays, &|(urgency, _)| *urgency);
    trays.into_iter().map(|(_, tray)| tray).collect()
}

/// One tray.
pub fn tray<'a>(id: Ulid, asking: &Asking<'a>) -> Option<TrayNow<'a>> {
    Some(now(asking.garden.start(id)?, asking).1)
}

/// What a tray is called: its own name, else its crop's.
pub fn name(start: &Start) -> String {
    start.name.clone().unwrap_or_else(|| {
        tray::crop(start).map_or_else(|| start.crop.clone(), |crop| crop.name().to_owned())
    })
}

fn by_id<T>(start: &Start) -> Given<T> {
    Given::default().or(Some(&start.id.to_string()))
}

fn found<'a>(start: &Start, asking: &Asking<'a>) -> Option<Found<'a>> {
    let asked = start_age::Asked { tray: by_id(start), ..start_age::Asked::default() };
    start_age::find(&asked, asking, &mut Faults::default())
}

fn plan(start: &Start, asking: &Asking<'_>) -> Option<(Telling, hardening_plan::Answer)> {
    let asked = hardening_plan::Asked { tray: by_id(start), ..hardening_plan::Asked::default() };
    hardening_plan::answer(&asked, asking, &mut Faults::default())
}

/// The tray, and by what it is put in order: the verdict, then the day it is too old.
fn now<'a>(start: &'a Start, asking: &Asking<'a>) -> ([i64; 3], TrayNow<'a>) {
    let found = found(start, asking);
    let verdict = found.as_ref().and_then(Found::verdict);
    let limit = found.as_ref().and_then(|found| found.limit?.likely);
    let urgency = match verdict {
        Some(Verdict::Over) => 0,
        Some(Verdict::PlantNow) => 1,
        Some(Verdict::Ready) => 2,
        Some(Verdict::Young | Verdict::Hold) => 3,
        None => 4,
    };
    let until = found.as_ref().and_then(|found| until(found, asking));
    let loss = found.as_ref().filter(|_| urgency < 2).map(|found| found.crop.waiting());
    let mut waiting = until.map_or_else(String::new, |until| format!("{}.", capital(&until)));
    if let Some(loss) = loss {
        if !waiting.is_empty() {
            waiting.push(' ');
        }
        waiting.push_str(loss);
    }
    let days = limit.map_or(i64::MAX, |limit| {
        let today = asking.today.unwrap_or(limit);
        (limit - today).num_days()
    });
    let tray = TrayNow {
        start,
        name: name(start),
        holds: holds(start),
        line: found.as_ref().map_or_else(|| not_known(start), line),
        waiting,
        urgent: urgency < 2,
        outdoors: outdoors(start, asking),
    };
    ([urgency, days, 0], tray)
}

/// "18 cabbage (Blue Moon), 2 in cells, unheated greenhouse".
fn holds(start: &Start) -> String {
    let crop = tray::crop(start).map_or_else(|| start.crop.clone(), |crop| small(crop.name()));
    let number = start.left.or(start.count);
    let mut words = number.map_or_else(|| capital(&crop), |number| format!("{number} {crop}"));
    if let Some(variety) = &start.variety {
        words.push_str(&format!(" ({variety})"));
    }
    let parts = [start.container.as_deref(), start.spot().map(spot_words)];
    for part in parts.into_iter().flatten() {
        words.push_str(", ");
        words.push_str(part);
    }
    words
}

/// Why nothing is told of its age.
fn not_known(start: &Start) -> String {
    if tray::crop(start).is_none() {
        "No figures are known for this crop: go by leaves and roots".to_owned()
    } else {
        "Say where it stands, and its age can be told".to_owned()
    }
}

/// "Plant now: like 6.2 weeks in a warm house, good up to 8".
fn line(found: &Found<'_>) -> String {
    let verdict = match found.verdict() {
        Some(Verdict::Hold) => "Keep it growing",
        Some(Verdict::Young) => "Too young",
        Some(Verdict::Ready) => "Ready to plant",
        Some(Verdict::PlantNow) => "Plant it now",
        Some(Verdict::Over) => "Past its best",
        None => "Look at its roots",
    };
    let good =
        found.ages.map(|ages| format!(", good up to {}", weeks(ages.limit))).unwrap_or_default();
    let like = format!("like {} in a warm house{good}", weeks(found.age));
    match overruled(found) {
        Some(seen) => format!("{verdict}, say its {seen}; by its warmth {like}"),
        None => format!("{verdict}: {like}"),
    }
}

fn outdoors(start: &Start, asking: &Asking<'_>) -> Option<Outdoors> {
    if start.hardening.is_empty() {
        return None;
    }
    let (telling, answer) = plan(start, asking)?;
    let words = match answer.days.first() {
        None => telling.headline,
        Some(_) => format!(
            "{} of {} outdoors done. {}",
            answer.days_behind,
            count(answer.days_in_all, "day", "days"),
            telling.headline
        ),
    };
    Some(Outdoors { words, done_today: telling.next.into_iter().next() })
}

/// What to decide of a tray, each as a title and a sentence or two; and what waits beside it.
pub fn advice(start: &Start, asking: &Asking<'_>) -> Vec<(&'static str, String)> {
    let mut advice = Vec::new();
    let Some(crop) = tray::crop(start) else {
        return advice;
    };
    let found = found(start, asking);
    let plan = plan(start, asking);
    let over = found
        .as_ref()
        .and_then(|found| found.judged)
        .is_some_and(|judged| judged.verdict == Verdict::Over);
    if let Some((telling, answer)) = &plan {
        advice.push(("Plant it", plant(telling, answer, over, asking)));
    }
    if let (Some(found), Some(today)) = (&found, asking.today) {
        let goes_out = plan.as_ref().and_then(|(_, plan)| plan.plant_out?.early);
        let clash = plan.as_ref().is_some_and(|(_, plan)| plan.clash);
        advice.push(("Pot it on", pot_on(found, goes_out, clash, today, asking)));
        advice.push(("Give it away or compost it", part_with(found, asking)));
    }
    advice.push(("How deep to set it", capital(deeper(crop))));
    advice.push(("Two in a cell", capital(doubled(crop))));
    if let Some((_, plan)) = &plan {
        advice.push(("Cold nights so far", plan.cold_nights.told()));
    }
    advice
}

/// When it is planted.
fn plant(
    telling: &Telling,
    answer: &hardening_plan::Answer,
    over: bool,
    asking: &Asking<'_>,
) -> String {
    let early = answer.plant_out.and_then(|range| range.early);
    let early = early.map(|day| day_told(day, asking.today));
    if over && !answer.days.is_empty() {
        let used_to = early
            .map(|early| format!("; it is used to outdoors by {early} at the soonest"))
            .unwrap_or_default();
        return format!("Today under a cover, or not at all{used_to}.");
    }
    let when = telling.because.first().cloned().unwrap_or_default();
    if telling.headline.starts_with("Used to") {
        format!("{}. {when}", telling.headline)
    } else {
        when
    }
}

/// A tray that must wait longer than this for its bed is potted on, days (common practice).
const LONG_WAIT_DAYS: i64 = 7;

/// When it is given larger room.
fn pot_on(
    found: &Found<'_>,
    goes_out: Option<NaiveDate>,
    clash: bool,
    today: NaiveDate,
    asking: &Asking<'_>,
) -> String {
    let from =
        goes_out.map(|day| format!(" before {}", day_told(day, asking.today))).unwrap_or_default();
    let must_wait = goes_out.is_none_or(|day| (day - today).num_days() > LONG_WAIT_DAYS);
    let full = matches!(found.roots, Some(Roots::Circling | Roots::Matted));
    let verdict = found.judged.map(|judged| judged.verdict);
    let past_help = verdict == Some(Verdict::Over)
        && matches!(found.crop.family(), Family::Cabbage | Family::Squash);
    if past_help {
        "No: its age, not only its cell, is what stunts it.".to_owned()
    } else if clash {
        "Now: it is too old before it can go out, and larger room gives it about two weeks."
            .to_owned()
    } else if must_wait && (full || matches!(verdict, Some(Verdict::PlantNow | Verdict::Over))) {
        format!("Now, if it can't go out{from}: larger room gives it about two weeks.")
    } else if verdict == Some(Verdict::Young) {
        "Not yet. Once white roots hold the plug, and its bed is more than a week away.".to_owned()
    } else if must_wait {
        format!("When roots begin to circle, for it can't go out{from}.")
    } else {
        "No: plant it instead.".to_owned()
    }
}

/// When to give it up.
fn part_with(found: &Found<'_>, asking: &Asking<'_>) -> String {
    let told = |day: NaiveDate| day_told(day, asking.today);
    let best = found.best_until.and_then(|range| range.likely);
    match found.judged.map(|judged| judged.verdict) {
        Some(Verdict::Over) => format!(
            "Plant or pot on what still looks good, compost the rest; a fresh sowing often overtakes it. {}",
            found.crop.waiting()
        ),
        Some(Verdict::PlantNow) => {
            "What has no bed within the week: give it away now, while someone still wants it."
                .to_owned()
        }
        _ => best.map_or_else(
            || "What has no bed when it is ready.".to_owned(),
            |best| {
                format!("What has no bed by {}: after that it is worth less to anyone.", told(best))
            },
        ),
    }
}

/// What the garden's trays are asked with on a day.
pub fn asking(garden: &Garden, today: NaiveDate) -> Asking<'_> {
    Asking { garden, today: Some(today), system: garden.units() }
}

/// The words of a day of the plan: which day, and what is done.
pub fn day_title(date: NaiveDate, today: NaiveDate) -> String {
    let told = day_told(date, Some(today));
    match (date - today).num_days() {
        0 => format!("Today, {told}"),
        1 => format!("Tomorrow, {told}"),
        _ => format!("{} {told}", weekday(date)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::{Journal, samples::entry_text};

    const DAY: u32 = 1440;

    fn garden(trays: &[(&str, u32)], more: &[(u32, String)]) -> Garden {
        let sown = trays.iter().map(|(crop, day)| {
            (
                day * DAY,
                format!(r#""kind":"start-sown","what":{{"crop":"{crop}","count":12,"spot":"heated-house"}}"#),
            )
        });
        let mut journal = Journal::default();
        for (id, (minute, rest)) in sown.chain(more.iter().cloned()).enumerate() {
            journal.add(&entry_text(id as u128 + 1, minute, &rest));
        }
        Garden::fold(&journal)
    }

    fn about(id: u128, rest: &str) -> String {
        format!(r#""about":{{"start":"{}"}},{rest}"#, Ulid(id))
    }

    fn on(garden: &Garden, day: i64) -> Asking<'_> {
        let first = garden.starts[0].sown.date();
        asking(garden, first + chrono::TimeDelta::days(day))
    }

    #[test]
    fn the_oldest_for_its_kind_stands_first() {
        // Seven weeks: tomato is at its best, broccoli just so, cucumber past saving, leek not long ready.
        let garden = garden(
            &[("leek", 0), ("tomato", 0), ("cucumber", 0), ("broccoli", 0), ("celery", 0)],
            &[],
        );
        let asking = on(&garden, 51);
        let trays = trays(&asking);
        let names: Vec<&str> = trays.iter().map(|tray| tray.name.as_str()).collect();
        assert_eq!(names, ["Cucumber", "Broccoli", "Leek", "Tomato", "Celery"]);
        assert_eq!(
            trays[0].line,
            "Past its best: like 7.3 weeks in a warm house, good up to 5 weeks"
        );
        assert!(trays[0].urgent && trays[1].urgent && !trays[2].urgent);
        assert!(trays[1].waiting.contains("Every week it waits"), "{}", trays[1].waiting);
    }

    #[test]
    fn a_tray_that_is_empty_is_no_longer_listed() {
        let lost = about(1, r#""kind":"start-lost","what":{"why":"given away"}"#);
        let garden = garden(&[("kale", 0), ("leek", 0)], &[(DAY, lost)]);
        assert_eq!(trays(&on(&garden, 30)).len(), 1);
    }

    #[test]
    fn a_day_outdoors_is_done_once() {
        let day = |minute| (minute, about(1, r#""kind":"hardening-done","what":{"hours":4}"#));
        let garden = garden(&[("kale", 0)], &[day(20 * DAY + 600), day(21 * DAY + 600)]);
        let id = garden.starts[0].id;
        let today = on(&garden, 21);
        let done = tray(id, &today).unwrap().outdoors.unwrap();
        assert_eq!(done.done_today, None);
        assert!(
            done.words.starts_with("2 of 7 days outdoors done. Done for today"),
            "{}",
            done.words
        );
        let tomorrow = on(&garden, 22);
        let next = tray(id, &tomorrow).unwrap().outdoors.unwrap();
        assert!(next.words.contains("Today: "), "{}", next.words);
        assert_eq!(next.done_today.unwrap().what.kind(), "hardening-done");
    }

    #[test]
    fn a_cold_winter_under_glass_follows_a_warm_sowing() {
        let moved = about(1, r#""kind":"start-moved","what":{"spot":"unheated-greenhouse"}"#);
        let stayed = garden(&[("kale", 0)], &[]);
        let carried = garden(&[("kale", 0)], &[(14 * DAY, moved)]);
        let weeks = |garden: &Garden| {
            let asking = on(garden, 42);
            found(&garden.starts[0], &asking).unwrap().age
        };
        assert!(weeks(&carried) < weeks(&stayed));
        let asking = on(&carried, 42);
        assert!(
            advice(&carried.starts[0], &asking)
                .iter()
                .any(|(title, _)| *title == "Cold nights so far")
        );
    }

    #[test]
    fn what_is_not_known_is_asked_for() {
        let garden = garden(&[("moon-melon", 0)], &[]);
        let asking = on(&garden, 20);
        let trays = trays(&asking);
        assert!(trays[0].line.starts_with("No figures are known"));
        assert!(advice(&garden.starts[0], &asking).is_empty());
    }
}
