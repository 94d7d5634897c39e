//! What is told of a tray's age.

use uom::si::time::day;

use super::{
    age::{By, Roots, Verdict, leaves_at_planting, warm_house},
    start_age::{Found, Sign, tenths},
};
use crate::{
    ask::Asking,
    catalogue::{Deeper, Facet, Family},
    journal::{About, Draft, What, details},
    quantity::{Quantity, Time, show_number},
    source::Source,
    telling::{Sure, Telling, count, day as day_told},
};

/// The verdict, and all that is said beside it.
pub(super) fn told(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let by_look = matches!(found.verdict, Some((_, By::Leaves | By::Roots)));
    let sure = if by_look || (found.known_warmth && found.ages.is_some()) {
        Sure::Fair
    } else {
        Sure::Low
    };
    let mut telling = Telling::new(headline(found), sure);
    because(found, asking, &mut telling);
    look_for(found, &mut telling);
    if let Some(start) = found.start.filter(|_| found.looks_given) {
        telling.next.push(Draft {
            about: About::start(start.id),
            what: What::CheckIn(details::CheckIn {
                leaves: found.leaves,
                roots: found.roots.map(|roots| roots.word().to_owned()),
                ..details::CheckIn::default()
            }),
        });
    }
    telling.cautions.push(
        "Plant on a dull day or in the evening, and water in; plants from indoors must get used to outdoors first."
            .to_owned(),
    );
    telling.cautions.extend(
        found
            .crop
            .cautions()
            .iter()
            .map(|&caution| caution.to_owned()),
    );
    sources(found, &mut telling);
    telling
}

fn headline(found: &Found<'_>) -> String {
    let like = format!("like {} in a warm house", weeks(found.age));
    match found.verdict {
        None => format!("It is {like}; look at its roots"),
        Some((Verdict::Young, _)) => format!("Too young to plant: {like}"),
        Some((Verdict::Ready, _)) => format!("Ready to plant: {like}"),
        Some((Verdict::PlantNow, By::Roots)) => {
            "Plant it now: the roots are running out of room".to_owned()
        }
        Some((Verdict::PlantNow, _)) => format!("Plant it now: {like}"),
        Some((Verdict::Over, By::Roots)) => {
            "Past its best: plant or pot it on today, or give it up".to_owned()
        }
        Some((Verdict::Over, _)) => {
            format!("Past its best, {like}: plant or pot it on today, or give it up")
        }
    }
}

/// "2.8 weeks", to the tenth below ten.
fn weeks(time: Time) -> String {
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
    match found.verdict {
        Some((verdict, by @ (By::Roots | By::Leaves)))
            if found.by_heat.is_some_and(|heat| heat != verdict) =>
        {
            let what = if by == By::Roots {
                "Its roots"
            } else {
                "Its leaves"
            };
            lines.push(format!("{what} tell more than its warmth, so they decide."));
        }
        Some((Verdict::Over | Verdict::PlantNow, _)) => lines.extend(loss(found)),
        _ => {
            if let Some(limit) = found.limit.and_then(|limit| limit.likely) {
                lines.push(format!(
                    "Kept as it is now, it is too old about {}.",
                    day_told(limit, asking.today)
                ));
            }
        }
    }
    if found.signs.contains(&Sign::Budding) {
        lines.push(match found.crop.family() {
            Family::Cabbage => {
                "Buds in the cell mean small heads: plant it for greens, or sow again.".to_owned()
            }
            _ => "Buds in the cell are pinched off, so that it roots first.".to_owned(),
        });
    }
}

/// What waiting costs.
fn loss(found: &Found<'_>) -> Option<String> {
    Some(match found.crop.family() {
        Family::Cabbage if found.crop.id() == "cauliflower" => {
            "Cauliflower that waits too long heads up at once, in buttons under 9 cm (3 1/2 in).".to_owned()
        }
        Family::Cabbage => "Cabbage kin that waits makes smaller heads, and bolts sooner.".to_owned(),
        Family::Tomato => {
            "Tomato kin forgives it: old plants crop earlier, young ones catch up (trials with 2 to 13 weeks).".to_owned()
        }
        Family::Squash => "Squash kin hates it: roots that circle hardly leave the plug.".to_owned(),
        _ => return None,
    })
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
        look.push(deeper(found));
    }
    if found.signs.contains(&Sign::Doubled) {
        look.push(doubled(found));
    }
    if found.signs.contains(&Sign::Yellow) {
        look.push("Yellow lower leaves mean hunger: a weak feed, and out soon.".to_owned());
    }
}

fn deeper(found: &Found<'_>) -> String {
    match found.crop.deeper() {
        Some(Deeper::Yes) => "Long and thin: set it deep, up to its first leaves.",
        Some(Deeper::ToSeedLeaves) => "Long and thin: set it as deep as its seed leaves, not deeper.",
        Some(Deeper::No) => "Long and thin, yet it must not go deeper: buried, the stem or bulb rots. Prop it up.",
        Some(Deeper::NeverBuryCrown) => {
            "Long and thin, yet its heart must stay above the soil. Firm it in and water from below."
        }
        None => "Long and thin: more light and less warmth; no deeper than it stands.",
    }
    .to_owned()
}

fn doubled(found: &Found<'_>) -> String {
    match found.crop.family() {
        Family::Squash | Family::Bean => "Two in a cell: snip off the weaker one, don't pull.",
        Family::Carrot if found.crop.id() != "celery" => "Two in a cell: snip off the weaker one, don't pull.",
        Family::Beet if found.crop.id() == "beet" => "Two in a cell: snip off the weaker one, don't pull.",
        _ => {
            "Two in a cell: soak the plug and tease them out; give them shade for two days, for splitting costs roots."
        }
    }
    .to_owned()
}

fn sources(found: &Found<'_>, telling: &mut Telling) {
    telling.source(Source::WarmHouseWeeks);
    found
        .crop
        .sources(Facet::Raise)
        .for_each(|source| telling.source(source));
    match found.crop.family() {
        Family::Tomato => telling.source(Source::PennStateAge2011),
        Family::Cabbage if found.crop.id() == "cauliflower" => {
            telling.source(Source::WurrFellows1984)
        }
        _ => {}
    }
    if found.leaves.is_some() || found.roots.is_some() {
        telling.source(Source::CommonPractice);
    }
    if found.signs.contains(&Sign::Leggy) {
        found
            .crop
            .sources(Facet::PlantOut)
            .for_each(|source| telling.source(source));
    }
}
