//! The words of the answer.

use chrono::{Datelike, NaiveDate};
use uom::si::{areal_mass_density::gram_per_square_meter, f64::ArealMassDensity};

use super::{
    advice, also,
    answer::ProductAmount,
    balance::Placement,
    feeding::{can_be_fed, split},
    found::{Found, amount, holds},
    limits::{Limit, Plan},
    question::Worms,
    stops, told_numbers,
    way_round::{Way, What},
};
use crate::{
    asking::Asking,
    catalogue::{ResidueKind, Start, nitrogen_products},
    quantity::{Quantity, System, number::show_number},
    telling::{Sure, Telling},
    text::{capital, day, list, small},
    time::Range,
};

/// Products named in the words; the numbers have them all.
pub(super) const NAMED: [&str; 2] = ["blood-meal", "soybean-meal"];

/// C:N below which greens set nitrogen free from the first day.
pub(super) const SOFT: f64 = 18.0;

/// The verdict and all that is said beside it.
pub(super) fn tell(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let mut telling = Telling::new(headline(found), sure(found));
    telling.because.extend(because(found, asking.system));
    telling.look_for = advice::look_for(found);
    telling.next = advice::drafts(found, asking);
    telling.cautions = advice::cautions(found);
    advice::sources(found, &mut telling);
    telling
}

fn headline(found: &Found<'_>) -> String {
    if let (Some(stop), Some(crop)) = (&found.answer.stop, found.asked.crop) {
        let years = stop.years.map(|years| format!(", for {}", years.told()));
        return format!("No {} here{}", small(crop.name()), years.unwrap_or_default());
    }
    if let Some(first) = stops::verdict(&found.asked.flags) {
        return first.to_owned();
    }
    let past = found.answer.plant_from.and_then(|range| range.likely);
    if found.mixture.is_none() && past.is_some_and(|past| past <= found.from) {
        let what = if found.little { "Too little to matter" } else { "Nothing to wait for" };
        return what.to_owned();
    }
    verdict(found)
}

/// The verdict on the wait.
fn verdict(found: &Found<'_>) -> String {
    let put_in = match found.next.plan {
        Plan::Transplant => "plant",
        Plan::DirectSow => "sow",
    };
    if let Some(way) = found.way {
        return way_verdict(found, way, put_in);
    }
    match found.answer.plant_from.and_then(|range| range.likely) {
        Some(likely) if likely <= found.from => format!("{} {}", capital(put_in), now(found)),
        Some(likely) => format!("{} from about {}", capital(put_in), said(found, likely)),
        None => "Waiting alone won't do this season".to_owned(),
    }
}

fn way_verdict(found: &Found<'_>, way: Way, put_in: &str) -> String {
    let from = way.from(found.from).unwrap_or(found.from);
    let when =
        if from == found.from { now(found) } else { format!("from about {}", said(found, from)) };
    match way.what {
        What::ThroughTheTop => format!("Plant {when}, right through it"),
        What::RakeAStrip => format!("{}, in a raked strip", capital(&when)),
        What::Feed if through_the_top(found) => format!("Feed it, then {when}, right through it"),
        What::Feed => format!("Feed it and {put_in} {when}"),
        What::FeedAndRake => format!("Feed it, rake a strip, {put_in} {when}"),
        What::Water => format!("Keep it damp: {put_in} {when}"),
        What::Transplant => format!("Set plants, don't sow: {when}"),
        What::TransplantAndFeed => format!("Feed it and set plants {when}"),
        What::LiftToTop if found.next.plan == Plan::DirectSow => {
            format!("Rake it out on top, sow {when} in a bare strip")
        }
        What::LiftMost => format!("Fork most of it out, feed the rest, {put_in} {when}"),
        What::LiftToTop => format!("Rake it out on top, plant through it {when}"),
    }
}

fn through_the_top(found: &Found<'_>) -> bool {
    found.asked.placement == Placement::OnTop && found.next.plan == Plan::Transplant
}

/// "today" where it is, else the day it will be laid.
fn now(found: &Found<'_>) -> String {
    if found.from == found.asked.today {
        "today".to_owned()
    } else {
        format!("on {}", said(found, found.from))
    }
}

pub(super) fn said(found: &Found<'_>, date: NaiveDate) -> String {
    day(date, Some(found.asked.today))
}

/// The line under the verdict, and at most three more.
fn because(found: &Found<'_>, system: System) -> Vec<String> {
    let mut because: Vec<String> = Vec::new();
    let answer = found.answer;
    if let Some(stop) = &answer.stop {
        because.push(stop.why.clone());
        because.extend(answer.stops.first().cloned());
        return because;
    }
    if stops::verdict(&found.asked.flags).is_some() {
        because.extend(answer.stops.first().cloned());
        if found.mixture.is_some() {
            because.push(format!("For what may stay: {}.", lower(&verdict(found))));
        }
    }
    let Some(mixture) = found.mixture else {
        let waits = answer.limit.is_some();
        because.extend(the_wait(found, system).filter(|_| waits));
        because.extend(manure(found));
        if found.little {
            because.push(
                "So little, spread over the bed, holds back nothing and harms nothing.".to_owned(),
            );
        } else if !also::has_manure(found.asked) {
            because.push("Compost holds back no nitrogen and needs no settling. It feeds little: 1 to 7 % of its nitrogen in 12 to 24 weeks.".to_owned());
        }
        return because;
    };
    because.extend(the_wait(found, system));
    because.extend(manure(found));
    because.extend(pale(found));
    because.extend(the_way(found, system));
    because.extend(ahead(found));
    because.extend(worms(found));
    because.extend(nitrogen(found, system));
    because.extend(assumed(found, mixture.guessed, system));
    because.truncate(4);
    because
}

/// Until when nothing is picked after raw manure.
fn manure(found: &Found<'_>) -> Option<String> {
    let asked = found.asked;
    if !also::has_manure(asked) {
        return None;
    }
    let until = |days: i64| said(found, asked.laid + chrono::Duration::days(days));
    Some(match asked.crop {
        Some(crop) => format!(
            "Raw manure, unless it was composted hot: pick no {} before {}.",
            small(crop.name()),
            until(also::manure_days(crop))
        ),
        None => format!(
            "Raw manure, unless it was composted hot: pick nothing that touches the soil before {}, and nothing else before {}.",
            until(120),
            until(90)
        ),
    })
}

/// What lies on top and is poor in nitrogen.
fn pale(found: &Found<'_>) -> Option<String> {
    let on_top = found.asked.placement == Placement::OnTop;
    (on_top && holds(found)).then(|| {
        "On top it holds back nothing that matters: add no nitrogen; if leaves go pale, feed then."
            .to_owned()
    })
}

/// What is waited for, and for how long.
fn the_wait(found: &Found<'_>, system: System) -> Option<String> {
    let answer = found.answer;
    let Some(limit) = answer.limit else {
        return Some(match found.asked.placement {
            Placement::OnTop => {
                "Left on top it holds up nothing: it rots at its underside, away from the roots."
                    .to_owned()
            }
            Placement::WorkedIn => "Nothing in it holds up the next crop.".to_owned(),
        });
    };
    let reason = found.why_not.filter(|_| limit == Limit::Season).zip(found.asked.crop);
    let what = match reason {
        Some((reason, crop)) => {
            format!("the season (today {})", reason.told(&small(crop.name()), system))
        }
        None => limit_words(limit).to_owned(),
    };
    let range = answer.plant_from?;
    Some(match (range.likely, answer.of_about) {
        (Some(likely), Some(days)) if found.from < likely => {
            let n = if 0 < answer.day {
                format!(" This is day {} of about {days}.", answer.day)
            } else {
                String::new()
            };
            let (on, ends) = (said(found, likely), ends(found, range));
            // A season's first day has no ends.
            let ends = if range.early == range.late { String::new() } else { format!(" ({ends})") };
            format!("Just wait: about {on}{ends}, for {what}.{n}")
        }
        (Some(likely), _) => {
            let past = said(found, likely);
            match range.late.filter(|late| found.from < *late) {
                Some(late) => format!(
                    "The longest wait was for {what}: likely past since {past}; to be quite safe wait until {}.",
                    said(found, late)
                ),
                None => format!("The longest wait was for {what}: past since {past}."),
            }
        }
        (None, _) => format!("Waiting alone does not end it within two years: {what}."),
    })
}

/// Days of half a year.
const HALF_A_YEAR: i64 = 183;

/// "spring", with the year where it is not the coming one.
fn season_of(found: &Found<'_>, date: NaiveDate) -> String {
    let month = date.month0() + if found.asked.site.is_south() { 6 } else { 0 };
    let season = match month % 12 {
        2..=4 => "spring",
        5..=7 => "summer",
        8..=10 => "autumn",
        _ => "winter",
    };
    let far = (date - found.asked.today).num_days() > 300;
    if far { format!("{season} {}", date.year()) } else { season.to_owned() }
}

/// "4 May to 2 Jun", or "4 May or later".
pub(super) fn ends(found: &Found<'_>, range: Range) -> String {
    let early = range.early.or(range.likely).map(|early| said(found, early)).unwrap_or_default();
    match range.late {
        // So wide a range is a season's, not a day's.
        Some(late) if range.early.is_some_and(|early| (late - early).num_days() > HALF_A_YEAR) => {
            format!("{early}, or as late as {}", season_of(found, late))
        }
        Some(late) => format!("{early} to {}", said(found, late)),
        None => format!("{early} or a good deal later"),
    }
}

pub(super) fn limit_words(limit: Limit) -> &'static str {
    match limit {
        Limit::Nitrogen => "the nitrogen that it holds while it rots",
        Limit::SeedlingRot => "the rots that feed on fresh greens and take seedlings",
        Limit::Toxins => "what seeps from it and stunts seeds and roots",
        Limit::SeedMaggot => "the seed maggot fly that rotting greens draw",
        Limit::CoarseTrash => "pieces still too coarse to sow among",
        Limit::Slugs => "the slugs under it",
        Limit::RawManure => {
            "the raw manure, which burns, and must lie long before what is eaten is picked"
        }
        Limit::WetMat => {
            "the thick wet mat, which rots without air: thin it to an inch and turn it"
        }
        Limit::Season => "the season",
    }
}

/// What the way round is, and what it changes.
fn the_way(found: &Found<'_>, system: System) -> Option<String> {
    Some(told_numbers::changes(found, found.way?.what, system))
}

/// "Give 1.5 lb of blood meal or 3.1 lb of soybean meal to the bed."
pub(super) fn give(found: &Found<'_>, system: System) -> Option<String> {
    let named: Vec<String> = given(found)
        .iter()
        .map(|product| {
            told_numbers::amount(product, &format!(" of {}", lower(product.name)), system)
        })
        .collect();
    (!named.is_empty()).then(|| format!("Give {} {}.", named.join(", or "), place(found)))
}

/// The named products in the weights to give: for the whole, or for what stays in where most of it is
/// forked out; none where nothing is fed.
pub(super) fn given(found: &Found<'_>) -> Vec<ProductAmount> {
    let nitrogen = &found.answer.nitrogen;
    let need = ArealMassDensity::new::<gram_per_square_meter>(nitrogen.to_add_now_g_per_m2);
    let forked = !can_be_fed(need);
    if nitrogen.products.is_empty()
        && !(forked && found.way.is_some_and(|way| way.what == What::LiftMost))
    {
        return Vec::new();
    }
    let need = if forked { need / f64::from(split(need)) } else { need };
    NAMED
        .iter()
        .filter_map(|id| {
            let product = nitrogen_products().iter().find(|product| product.id() == *id)?;
            amount(product, found.asked, need)
        })
        .collect()
}

fn place(found: &Found<'_>) -> &'static str {
    let forked = found.answer.nitrogen.products.is_empty();
    if forked && found.asked.area_guessed {
        "for what stays in a bed of 4 x 8 ft"
    } else if forked {
        "for what stays in"
    } else if found.asked.area_guessed {
        "for a bed of 4 x 8 ft"
    } else {
        "for the whole of it"
    }
}

/// What it does to the soil's nitrogen.
fn nitrogen(found: &Found<'_>, system: System) -> Option<String> {
    let mixture = found.mixture?;
    let nitrogen = &found.answer.nitrogen;
    if mixture.load.ratio.likely.get() < SOFT {
        return Some(
            "Soft greens feed the bed as they rot: add no nitrogen, not even to be safe."
                .to_owned(),
        );
    }
    if !holds(found) || found.asked.placement == Placement::OnTop {
        return None;
    }
    let most = held_words(found, system);
    let when = nitrogen
        .low_point_on
        .map(|on| format!(", most about {}", said(found, on)))
        .unwrap_or_default();
    if !can_be_fed(ArealMassDensity::new::<gram_per_square_meter>(nitrogen.to_add_now_g_per_m2)) {
        // Forking most of it out is the way round, and says so.
        let forked = found.way.is_some_and(|way| way.what == What::LiftMost);
        return (!forked).then(|| {
            format!("Rotting, it holds up to {most} of nitrogen, more than can be fed for: take off or fork out what you can.")
        });
    }
    let back = match nitrogen.back_on {
        Some(back) => format!("; given back by about {}", said(found, back)),
        None => "; not given back this season".to_owned(),
    };
    Some(format!("Rotting, it holds up to {most} of nitrogen{when}{back}."))
}

/// The most nitrogen that it holds, on the whole of it.
pub(super) fn held_words(found: &Found<'_>, system: System) -> String {
    let low = found.answer.nitrogen.low_point_g_per_m2;
    (ArealMassDensity::new::<gram_per_square_meter>(-low) * found.asked.area).show(system)
}

/// Which of two parts is ahead.
pub(super) fn ahead(found: &Found<'_>) -> Option<String> {
    let ahead = found.answer.ahead.as_ref()?;
    let days = |days: f64| show_number(days, 0);
    let chance = if ahead.could_be_chance { "that could be chance" } else { "hardly by chance" };
    Some(format!(
        "The {} is ahead by about {} days, give or take {}; {chance}.",
        ahead.part,
        days(ahead.days),
        days(ahead.sd_days)
    ))
}

/// Worms say that it settles; no figure is published, so they move no date.
fn worms(found: &Found<'_>) -> Option<String> {
    let (on, worms) = found.asked.seen.worms?;
    let seen = said(found, on);
    Some(match worms {
        Worms::None => format!("No worms under it on {seen}: it has not settled yet."),
        Worms::Few => format!("A few worms under it on {seen}: it begins to settle."),
        Worms::Many => format!("Plenty of worms under it on {seen}: a good sign."),
    })
}

/// What was taken for granted.
fn assumed(found: &Found<'_>, guessed: bool, system: System) -> Option<String> {
    let asked = found.asked;
    let measures = asked.materials.iter().filter_map(|material| material.measure);
    let mut taken: Vec<String> = measures.map(|measure| measure.told(system)).collect();
    if guessed {
        let each = ArealMassDensity::new::<gram_per_square_meter>(
            found.answer.dry_matter_kg_per_m2 * 1000.0,
        );
        taken.push(format!("{} of dry matter in all", (each * asked.area).show(system)));
    }
    if asked.area_guessed {
        taken.push("a bed of 4 x 8 ft".to_owned());
    }
    if asked.soil.is_guessed() {
        let (soil, _) = asked.soil.on(found.from);
        taken.push(format!("soil at {} today, by the season", soil.show(system)));
    }
    if asked.crop.is_none() && found.next.plan == Plan::DirectSow {
        taken.push("fine seed that maggots eat".to_owned());
    }
    if let Some(crop) = asked.crop
        && found.next.plan == Plan::DirectSow
        && crop.starts().contains(&Start::Sow)
        && crop.seed_mass().is_none()
    {
        taken.push(format!(
            "seed of {} that is not fine, for its size is not known here",
            small(crop.name())
        ));
    }
    (!taken.is_empty()).then(|| format!("Taken for granted: {}.", list(&taken)))
}

fn sure(found: &Found<'_>) -> Sure {
    let Some(mixture) = found.mixture else {
        return Sure::Fair;
    };
    let unknown_soil = found.asked.soil.is_guessed();
    let doubtful = found.asked.materials.iter().any(|material| {
        material.residue.is_doubtful() || material.residue.kind() == ResidueKind::Wood
    });
    let through = found.way.is_some_and(|way| way.what == What::ThroughTheTop);
    if through || !(unknown_soil || mixture.guessed || doubtful) { Sure::Fair } else { Sure::Low }
}

/// The text with a small first letter.
fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |first| small(first.encode_utf8(&mut [0; 4])) + letters.as_str())
}
