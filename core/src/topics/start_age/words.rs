//! What is told of a tray's age.

use chrono::NaiveDate;
use uom::si::time::day;

use crate::{
    asking::Asking,
    catalogue::{Crop, Deeper, Facet, Family},
    garden::Start,
    journal::{About, Draft, What, details},
    quantity::{Quantity, Time, show_number, tenths},
    season::Course,
    source::Source,
    starts::{
        age::{Ages, By, Judged, Roots, Verdict, leaves_at_planting, warm_house},
        tray_asked::Sign,
    },
    telling::{Sure, Telling},
    text::{capital, count, day as day_told, small},
    time::Range,
};

/// The verdict, and all that is said beside it.
pub(super) fn told(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let by_look = found.judged.is_some_and(|judged| judged.by != By::Heat);
    let sure = if by_look || (found.known_warmth && found.ages.is_some()) {
        Sure::Fair
    } else {
        Sure::Low
    };
    let mut telling = Telling::new(headline(found, asking), sure);
    because(found, asking, &mut telling);
    look_for(found, &mut telling);
    if let (Some(start), Some(look)) = (found.start, &found.look_given) {
        telling
            .next
            .push(Draft { about: About::start(start.id), what: What::CheckIn(look.clone()) });
    }
    telling.cautions.push(
        "Plant on a dull day or in the evening, and water in; plants from indoors must get used to outdoors first."
            .to_owned(),
    );
    telling.cautions.extend(found.crop.cautions().iter().map(|&caution| caution.to_owned()));
    sources(found, &mut telling);
    telling
}

/// Where its next season is so far off it is too late, not too early (considered), days.
const TOO_LATE_DAYS: i64 = 120;

/// Why it does not go out yet, where it does not.
fn not_yet(found: &Found<'_>, asking: &Asking<'_>) -> Option<String> {
    let from = found.plant_from.filter(|from| *from > found.today)?;
    let on = day_told(from, asking.today);
    let reason = found.course.and_then(|course| course.reason);
    let why = reason.map(|reason| reason.told(&small(found.crop.name()), asking.system));
    let limit = found.limit.and_then(|limit| limit.likely);
    match (found.verdict()?, why) {
        (Verdict::Hold | Verdict::Over, Some(why))
            if (from - found.today).num_days() > TOO_LATE_DAYS =>
        {
            Some(format!("Too late to plant it out: {why}"))
        }
        (Verdict::Hold, why) => Some(match limit.filter(|limit| *limit < from) {
            Some(limit) => format!(
                "Pot it on, or sow again later: too old about {}, and out from {on} only",
                day_told(limit, asking.today)
            ),
            None => match why {
                Some(why) => format!("Keep it growing, plant from about {on}: {why}"),
                None => format!("Keep it growing, plant from about {on}: frost is not past"),
            },
        }),
        (Verdict::Over, _) => {
            Some(format!("Past its best, and out from {on} only: pot it on today, or give it up"))
        }
        _ => None,
    }
}

pub(super) fn headline(found: &Found<'_>, asking: &Asking<'_>) -> String {
    if let Some(not_yet) = not_yet(found, asking) {
        return not_yet;
    }
    let like = format!("like {} in a warm house", weeks(found.age));
    let by_roots = found.judged.is_some_and(|judged| judged.by == By::Roots);
    if let Some(seen) = overruled(found) {
        let verdict = match found.judged.map(|judged| judged.verdict) {
            Some(Verdict::Young) => "Too young to plant",
            Some(Verdict::Ready) => "Ready to plant",
            _ => "",
        };
        if !verdict.is_empty() {
            return format!("{verdict}: its {seen} say so");
        }
    }
    match found.verdict() {
        None => format!("It is {like}; look at its roots"),
        Some(Verdict::Young) => format!("Too young to plant: {like}"),
        Some(Verdict::Ready | Verdict::Hold) => format!("Ready to plant: {like}"),
        Some(Verdict::PlantNow) if by_roots => {
            "Plant it now: the roots are running out of room".to_owned()
        }
        Some(Verdict::PlantNow) => format!("Plant it now: {like}"),
        Some(Verdict::Over) if by_roots => {
            "Past its best: plant or pot it on today, or give it up".to_owned()
        }
        Some(Verdict::Over) => {
            format!("Past its best, {like}: plant or pot it on today, or give it up")
        }
    }
}

/// What was seen, where it says otherwise than the warmth.
pub(crate) fn overruled(found: &Found<'_>) -> Option<&'static str> {
    let judged = found.judged?;
    let seen = match judged.by {
        By::Heat => return None,
        By::Roots => "roots",
        By::Leaves => "leaves",
    };
    (found.by_heat? != judged.verdict).then_some(seen)
}

/// "2.8 weeks", to the tenth below ten.
pub(crate) fn weeks(time: Time) -> String {
    let weeks = tenths(time.get::<day>() / 7.0);
    let decimals = u32::from(weeks < 10.0);
    let number = show_number(weeks, decimals);
    let unit = if number == "1" { "week" } else { "weeks" };
    format!("{number} {unit}")
}

fn because(found: &Found<'_>, asking: &Asking<'_>, telling: &mut Telling) {
    let lines = &mut telling.because;
    let days = u32::try_from((found.today - found.sown).num_days()).unwrap_or(0);
    let read = match found.read_days {
        0 if found.known_warmth => "by the warmth you gave".to_owned(),
        0 => "by a guess at how warm it stands".to_owned(),
        days => format!("by {}", count(days as u32, "day read", "days read")),
    };
    lines.push(format!(
        "Sown {} ago, it has had the warmth of {} in a house at {}, {read}.",
        count(days, "day", "days"),
        weeks(found.age),
        warm_house().show(asking.system)
    ));
    if let Some(ages) = found.ages {
        let from = show_number(ages.ready.get::<day>() / 7.0, 0);
        lines.push(format!(
            "{} goes out at {from} to {} of that, and is good up to {}.",
            found.crop.name(),
            weeks(ages.best_until),
            weeks(ages.limit)
        ));
    }
    if let Some(seen) = overruled(found) {
        lines.push(match found.looked_on.filter(|on| *on < found.today) {
            Some(on) => format!(
                "Its {seen} on {} told more than its warmth; it has aged on since.",
                day_told(on, asking.today)
            ),
            None => format!("Its {seen} tell more than its warmth, so they decide."),
        });
    }
    lines.extend(waiting(found, asking));
    lines.extend(all_the_same(found, asking));
    if found.signs.contains(&Sign::Budding) {
        lines.push(match found.crop.family() {
            Family::Cabbage => {
                "Buds in the cell mean small heads: plant it for greens, or sow again.".to_owned()
            }
            _ => "Buds in the cell are pinched off, so that it roots first.".to_owned(),
        });
    }
    // Three lines of why are enough, and the crop's usual weeks are the one to spare.
    if lines.len() > MOST_LINES && found.ages.is_some() {
        lines.remove(1);
    }
    lines.truncate(MOST_LINES);
}

/// The verdict's line and three of why.
const MOST_LINES: usize = 4;

/// Why it goes out all the same, where its season is not there.
fn all_the_same(found: &Found<'_>, asking: &Asking<'_>) -> Option<String> {
    let until = day_told(found.sits_until?, asking.today);
    let course = found.course?;
    let years = show_number(course.alive * 10.0, 0);
    Some(match course.reason {
        Some(_) => {
            format!("Planted now it will sit until about {until}, but it can't wait so long.")
        }
        None => format!(
            "Planted now, frost spares it {years} years in 10: better than the compost, for it can't wait until {until}."
        ),
    })
}

/// Until when it can wait, and what waiting costs.
fn waiting(found: &Found<'_>, asking: &Asking<'_>) -> Option<String> {
    let loss = found.crop.waiting();
    let verdict = found.judged?.verdict;
    match (until(found, asking), verdict) {
        (Some(until), Verdict::Young | Verdict::Ready | Verdict::Hold) => {
            Some(format!("Kept as it is now, it is {until}. {loss}"))
        }
        (Some(until), _) => Some(format!("{}. {loss}", capital(&until))),
        (None, Verdict::PlantNow | Verdict::Over) => Some(loss.to_owned()),
        (None, _) => None,
    }
}

/// "at its best till 12 Dec and too old about 3 Jan"; nothing once it is past its best.
pub(crate) fn until(found: &Found<'_>, asking: &Asking<'_>) -> Option<String> {
    let told = |range: Option<Range>| Some(day_told(range?.likely?, asking.today));
    let (best, limit) = (told(found.best_until), told(found.limit));
    match found.judged?.verdict {
        Verdict::Young | Verdict::Ready | Verdict::Hold => Some(match (best?, limit) {
            (best, Some(limit)) => format!("at its best till {best} and too old about {limit}"),
            (best, None) => format!("at its best till {best}"),
        }),
        Verdict::PlantNow => {
            Some(format!("every week it waits costs something; too old about {}", limit?))
        }
        Verdict::Over => None,
    }
}

fn look_for(found: &Found<'_>, telling: &mut Telling) {
    let look = &mut telling.look_for;
    match found.roots {
        None => look.push(
            "Slide a plug out: falling to pieces, too young; white roots, few circling, plant; a mat, plant or pot on at once."
                .to_owned(),
        ),
        Some(Roots::Circling | Roots::Matted) => look.push(
            "Tease or score the roots that circle, soak the plug, then plant or pot on.".to_owned(),
        ),
        Some(Roots::Loose | Roots::Holding) => {}
    }
    if found.leaves.is_none() {
        let (from, to) = leaves_at_planting(found.crop);
        look.push(format!(
            "Count true leaves, not the first pair: {from} to {to} when it goes out."
        ));
    }
    if found.signs.contains(&Sign::Leggy) {
        look.push(format!("Long and thin: {}", deeper(found.crop)));
    }
    if found.signs.contains(&Sign::Doubled) {
        look.push(format!("Two in a cell: {}", doubled(found.crop)));
    }
    if found.signs.contains(&Sign::Yellow) {
        look.push("Yellow lower leaves mean hunger: a weak feed, and out soon.".to_owned());
    }
}

/// How deep it is set.
pub(crate) fn deeper(crop: &Crop) -> &'static str {
    match crop.deeper() {
        Some(Deeper::Yes) if crop.family() == Family::Tomato => {
            "set it deep, up to its first leaves."
        }
        Some(Deeper::Yes) => "set it deep: its stem may go under.",
        Some(Deeper::ToSeedLeaves) => "set it as deep as its seed leaves, not deeper.",
        Some(Deeper::No) => "it must not go deeper: buried, the stem or bulb rots. Prop it up.",
        Some(Deeper::NeverBuryCrown) => {
            "its heart must stay above the soil. Firm it in and water from below."
        }
        None => "no deeper than it grew; more light and less warmth keep it short.",
    }
}

/// What is done with two in a cell.
pub(crate) fn doubled(crop: &Crop) -> &'static str {
    if crop.is_snipped() {
        "snip off the weaker one, don't pull."
    } else {
        "soak the plug and tease them out; give them shade for two days, for splitting costs roots."
    }
}

fn sources(found: &Found<'_>, telling: &mut Telling) {
    telling.source(Source::WarmHouseWeeks);
    found.crop.sources(Facet::Raise).for_each(|source| telling.source(source));
    found.crop.waiting_sources().into_iter().for_each(|source| telling.source(source));
    if found.leaves.is_some() || found.roots.is_some() {
        telling.source(Source::CommonPractice);
    }
    if found.signs.contains(&Sign::Leggy) {
        found.crop.sources(Facet::PlantOut).for_each(|source| telling.source(source));
    }
}

/// Everything the words are made from.
pub(crate) struct Found<'a> {
    pub crop: &'static Crop,
    pub start: Option<&'a Start>,
    pub sown: NaiveDate,
    pub today: NaiveDate,
    pub age: Time,
    pub ages: Option<Ages>,
    pub judged: Option<Judged>,
    pub by_heat: Option<Verdict>,
    pub best_until: Option<Range>,
    /// From when it can be planted.
    pub plant_from: Option<NaiveDate>,
    /// Its season, where it goes out before that because it can't wait.
    pub sits_until: Option<NaiveDate>,
    /// Its course, set out today.
    pub course: Option<Course>,
    pub limit: Option<Range>,
    pub looked_on: Option<NaiveDate>,
    pub known_warmth: bool,
    pub read_days: usize,
    pub leaves: Option<u32>,
    pub roots: Option<Roots>,
    pub look_given: Option<details::CheckIn>,
    pub signs: Vec<Sign>,
}

impl Found<'_> {
    /// What its age says and, where it is old enough, whether it can go out.
    pub(crate) fn verdict(&self) -> Option<Verdict> {
        let judged = self.judged?.verdict;
        let waits = self.plant_from.is_some_and(|from| from > self.today);
        let old_enough = matches!(judged, Verdict::Ready | Verdict::PlantNow);
        Some(if waits && old_enough { Verdict::Hold } else { judged })
    }
}
