//! The words of what the season says.

use chrono::NaiveDate;

use super::{answer::Verdict, found::Found, outdoors::Outdoors};
use crate::{
    quantity::number::show_number,
    season::{self, Reason},
    text::{count, day, small},
};

/// So likely spared, frost is not spoken of.
const SURE: f64 = 0.95;
/// A last day that far off is no news.
const FAR_DAYS: i64 = 183;

/// The verdict in one sentence.
pub(super) fn headline(found: &Found<'_>, outdoors: &Outdoors, seeds: String) -> String {
    let from = outdoors.when.and_then(|when| when.likely);
    let from = from.map(|from| day(from, found.asking.today)).unwrap_or_default();
    let gamble = outdoors.course.is_some_and(|course| course.verdict == season::Verdict::Gamble);
    let why = || why(found, outdoors.reason);
    match found.answer.verdict {
        Verdict::Now if gamble => format!("A gamble now: {seeds}."),
        Verdict::Now => format!("Sow now: {seeds}."),
        Verdict::TooLate => format!("Too late: {}. Sow about {from}.", why()),
        Verdict::TooHot => format!("Too hot: {}. Sow about {from}.", why()),
        Verdict::NotHere => format!("Not here: {}.", why()),
        _ => format!("Wait until about {from}: {}.", why()),
    }
}

/// Why not today.
fn why(found: &Found<'_>, reason: Option<Reason>) -> String {
    let name = small(found.seed.crop.name());
    reason.unwrap_or(Reason::NeverThere).told(&name, found.asking.system)
}

/// When it is picked, how likely, and the last useful day.
pub(super) fn picked(found: &Found<'_>, outdoors: &Outdoors) -> Option<String> {
    let on = |date: NaiveDate| day(date, found.asking.today);
    let course = outdoors.course?;
    let (early, likely) = (course.first.early?, course.first.likely?);
    let late = course.first.late;
    let late = late
        .map_or("at best, slow kinds not in time".to_owned(), |late| format!("to {}", on(late)));
    let mut line = format!("First picked about {} ({} {late})", on(likely), on(early));
    if course.alive < SURE {
        let years = show_number(course.alive * 10.0, 0);
        line.push_str(&format!("; frost spares it {years} years in 10"));
    }
    line.push('.');
    let last = outdoors.when.and_then(|when| when.late);
    if let Some(last) = last.filter(|last| (*last - found.today).num_days() <= FAR_DAYS) {
        line.push_str(&format!(" Last useful day to sow: {}.", on(last)));
    }
    Some(line)
}

/// When it stands still.
pub(super) fn still(found: &Found<'_>, outdoors: &Outdoors) -> Option<String> {
    let (from, to) = outdoors.course?.still?;
    let on = |date: NaiveDate| day(date, found.asking.today);
    ((to - from).num_days() >= 14)
        .then(|| format!("It stands still from about {} to {}.", on(from), on(to)))
}

/// "120 seeds for 30 plants".
pub(super) fn seeds(found: &Found<'_>, seeds: u32) -> String {
    let (seeds, plants) = (count(seeds, "seed", "seeds"), count(found.wanted, "plant", "plants"));
    format!("{seeds} for {plants}")
}
