//! What is told of a cold night.

use uom::si::time::hour;

use super::{
    answer::Found,
    bed_words::bare_and_covered,
    cautions::{cautions, sources},
    worked::{BedWorked, CropTonight},
};
use crate::{
    asking::Asking,
    frost::{
        harm::hard_freeze,
        low::{Against, AirLow},
    },
    journal::{About, Draft, What, details},
    quantity::{Quantity, System, Temperature, Time, show_number},
    telling::{Sure, Telling},
    text::{count, list, small},
    words::{
        sky::{Sky, Wind},
        spot::Spot,
    },
};

/// So many crops or beds are named in the verdict; the rest are counted.
const NAMED: usize = 3;

/// So many reasons are told.
const MOST_REASONS: usize = 4;

/// From so many of its own nights on, a bed's difference is more than a guess.
const KNOWN_NIGHTS: u32 = 3;

/// The verdict, and all that is said beside it.
pub(super) fn told(found: &Found, asking: &Asking<'_>) -> Telling {
    let system = asking.system;
    let known = found.beds.iter().all(|bed| bed.low.difference.nights >= KNOWN_NIGHTS);
    let by_evening = matches!(found.air, AirLow::Evening(_));
    let sure = if known || by_evening { Sure::Fair } else { Sure::Low };
    let mut telling = Telling::new(headline(found), sure);
    let hardly = hardly_helped(found);
    if !hardly.is_empty() {
        let names = list(&hardly.iter().map(String::as_str).collect::<Vec<_>>());
        telling
            .because
            .push(format!("One cover hardly helps {names}: pick what you can, or lay two."));
    }
    telling.because.push(how_cold(found, system));
    telling.because.push(how_far_off(found, system));
    telling.because.extend(what_it_does(found, system));
    telling.because.extend(what_else(found, system).into_iter().take(1));
    telling.because.truncate(MOST_REASONS);
    look_for(found, system, &mut telling);
    telling.next = drafts(found);
    cautions(found, &mut telling);
    sources(found, &mut telling);
    telling
}

fn headline(found: &Found) -> String {
    let covered = in_order(found);
    let short = in_danger(found, false);
    let lost = in_danger(found, true);
    let mut parts = Vec::new();
    if !covered.is_empty() {
        parts.push(format!("Cover tonight: {}", some(&covered)));
    }
    if !short.is_empty() {
        parts.push(if covered.is_empty() {
            format!("In danger tonight, and no cover for it: {}", some(&short))
        } else {
            format!("No cover is left for {}", some(&short))
        });
    }
    if !lost.is_empty() {
        parts.push(format!("No cover saves {}: pick or move what you can", some(&lost)));
    }
    if !parts.is_empty() {
        return parts.join(". ");
    }
    let mut doubtful: Vec<String> = Vec::new();
    for name in crops(found).filter(|crop| crop.in_doubt()).map(name_of) {
        if !doubtful.contains(&name) {
            doubtful.push(name);
        }
    }
    if doubtful.is_empty() {
        "Nothing needs a cover tonight".to_owned()
    } else {
        format!("No cover is needed; think about {}", some(&doubtful))
    }
}

/// The beds or crops that get a cover, in order.
fn in_order(found: &Found) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for (at, index) in &found.order {
        let Some(bed) = found.beds.get(*at) else {
            continue;
        };
        let name = bed.crops.get(*index).map(|crop| target(found, bed, crop));
        names.extend(name.filter(|name| !names.contains(name)));
    }
    names
}

/// The beds or crops in danger that get no cover: those past saving, or the others.
fn in_danger(found: &Found, past_saving: bool) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for bed in &found.beds {
        for crop in &bed.crops {
            let bare = crop.in_danger() && crop.cover.is_none();
            let name = target(found, bed, crop);
            if bare && crop.past_saving() == past_saving && !names.contains(&name) {
                names.push(name);
            }
        }
    }
    names
}

/// The crops that get a cover which hardly helps.
fn hardly_helped(found: &Found) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for crop in crops(found).filter(|crop| crop.cover.is_some() && crop.hardly_helped()) {
        let name = name_of(crop);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// What a cover goes to: the bed by its name, or the crop.
fn target(found: &Found, bed: &BedWorked, crop: &CropTonight) -> String {
    match &bed.name {
        Some(name) if found.by_bed => name.clone(),
        _ => name_of(crop),
    }
}

fn some(names: &[String]) -> String {
    match names.split_at_checked(NAMED) {
        Some((first, rest)) if !rest.is_empty() => {
            let mut named = first.to_vec();
            named.push(format!("{} more", rest.len()));
            list(&named)
        }
        _ => list(names),
    }
}

fn how_cold(found: &Found, system: System) -> String {
    let Some(bed) = coldest(found) else {
        return String::new();
    };
    let low = bed.low.expected;
    let (from, to) = low.range(0.9);
    let where_it_is = match (&bed.name, found.beds.len()) {
        (Some(name), 1) => format!("At {name}"),
        (Some(name), _) => format!("At {name}, the coldest,"),
        (None, _) => "Among the leaves".to_owned(),
    };
    format!(
        "{where_it_is} it gets down to about {}; likely between {} and {}.",
        low.low.show(system),
        from.show(system),
        to.show(system)
    )
}

fn coldest(found: &Found) -> Option<&BedWorked> {
    let low = |bed: &BedWorked| bed.low.expected.low.value;
    found.beds.iter().min_by(|a, b| low(a).total_cmp(&low(b)))
}

/// How the bed differs from the air and how that is known.
fn how_far_off(found: &Found, system: System) -> String {
    let Some(bed) = coldest(found) else {
        return String::new();
    };
    let difference = bed.low.difference;
    let by = if difference.likely.value < 0.0 {
        format!("{} colder than", (-difference.likely).show(system))
    } else {
        format!("{} warmer than", difference.likely.show(system))
    };
    let kind = if found.clear_part >= 1.0 {
        "clear, calm nights"
    } else if found.clear_part <= 0.0 {
        "nights with cloud or wind"
    } else {
        "nights between clear and cloudy, or with a little wind,"
    };
    let beside = match (difference.against, found.air) {
        (Some(Against::Reference), _) | (None, AirLow::Evening(_)) => {
            "your thermometer in the open"
        }
        _ => "the forecast",
    };
    match difference.nights {
        0 if bed.under_glass => format!(
            "What glass or plastic adds is not known here: hang a min-max thermometer there tonight, and the \
             answer learns. Taken as {by} {beside}."
        ),
        0 => format!(
            "On {kind} leaves near the ground are usually about {by} {beside}. This bed's own such nights are not known yet."
        ),
        nights => format!(
            "On {kind} it is about {by} {beside}, by {} of its own.",
            count(nights, "night", "nights")
        ),
    }
}

/// What the low does to the crop in most danger, bare and covered.
fn what_it_does(found: &Found, system: System) -> Option<String> {
    let by_harm = |a: &&CropTonight, b: &&CropTonight| a.bare.total_cmp(&b.bare);
    let first = found.order.first().and_then(|(at, index)| found.beds.get(*at)?.crops.get(*index));
    let worst = crops(found).filter(|crop| crop.in_danger() || crop.in_doubt()).max_by(by_harm);
    let Some(crop) = first.or(worst) else {
        let kept = crops(found).any(|crop| crop.comes_through && crop.bare >= crop.act);
        return kept.then(|| {
            format!(
                "What stands here comes through such frosts: growers leave it alone until the air goes below {}.",
                hard_freeze().show(system)
            )
        });
    };
    let cover = crop.cover.unwrap_or(found.usual_cover);
    Some(format!(
        "Harm to {} {}.",
        name_of(crop),
        bare_and_covered(crop.bare, crop.covered, Some(cover))
    ))
}

/// Further reasons, the weightiest first.
fn what_else(found: &Found, system: System) -> Vec<String> {
    let mut said = Vec::new();
    if let Some((after, below)) = found.freezing
        && below > Time::new::<hour>(0.0)
    {
        said.push(format!(
            "The air comes down to freezing about {} after sunset and stays there for {}.",
            hours(after),
            hours(below)
        ));
    }
    if let Some(bed) = coldest(found).filter(|_| found.sky == Sky::Part && found.clear_part > 0.0) {
        said.push(format!(
            "Should the sky clear, it may go down to about {}.",
            bed.if_clear.show(system)
        ));
    }
    if found.wind == Wind::Windy {
        said.push("In wind a cover holds about half of what it holds on a still night.".to_owned());
    }
    if coldest(found).is_some_and(|bed| bed.residue_on_top) && found.clear_part > 0.0 {
        said.push(
            "Chopped residue on top makes a bed a little colder than bare, moist soil.".to_owned(),
        );
    }
    if let (AirLow::Evening(_), Some(forecast)) = (found.air, found.forecast) {
        said.push(format!(
            "Your own evenings count here; the forecast says {}.",
            forecast.show(system)
        ));
    }
    if let Some(grass) = found.grass {
        said.push(format!(
            "By a rule from New Zealand the grass would come down to {}.",
            grass.show(system)
        ));
    }
    if !found.covers_given && !found.order.is_empty() {
        said.push(
            "Reckoned with one light fabric for each; say how many covers you have.".to_owned(),
        );
    }
    said
}

fn hours(time: Time) -> String {
    let hours = time.get::<hour>();
    let whole = show_number(hours.round().max(1.0), 0);
    let unit = if whole == "1" { "hour" } else { "hours" };
    format!("{whole} {unit}")
}

fn look_for(found: &Found, system: System, telling: &mut Telling) {
    let look = &mut telling.look_for;
    if found.sky != Sky::Cloudy {
        look.push(
            "Look up at bedtime: stars and no breeze make it colder, cloud or wind warmer."
                .to_owned(),
        );
    }
    let unread = found.beds.iter().filter(|bed| bed.low.difference.nights == 0);
    let unread: Vec<String> = unread.filter_map(|bed| bed.name.clone()).collect();
    look.push(if unread.is_empty() || found.beds.len() < 2 {
        "Lay a thermometer among the leaves tonight; its low, written down tomorrow, teaches what this bed does."
            .to_owned()
    } else {
        format!(
            "Hang a thermometer among the leaves of {} tonight: no such night is known there, and its low, written \
             down tomorrow, teaches what it does.",
            some(&unread)
        )
    });
    look.push(
        "Harm shows a day or two later: look at the plants then, and write down what you see."
            .to_owned(),
    );
    if !found.unknown.is_empty() {
        look.push(format!(
            "Judge for yourself, since how hardy it is is not known here: {}.",
            list(&found.unknown)
        ));
    }
    for crop in crops(found) {
        let Some(part) = crop.crop.part().filter(|_| crop.part_is_there) else {
            continue;
        };
        let low = crop_low(found, crop);
        if part.killed_at > crop.lost_below && low.is_some_and(|low| low < part.killed_at) {
            let words = format!(
                "The {} of {} is hurt at {} already, before the leaves.",
                part.name,
                name_of(crop),
                part.killed_at.show(system)
            );
            if !look.contains(&words) {
                look.push(words);
            }
        }
    }
}

/// The likely low in the bed of this crop.
fn crop_low(found: &Found, crop: &CropTonight) -> Option<Temperature> {
    let bed = found.beds.iter().find(|bed| bed.crops.iter().any(|one| std::ptr::eq(one, crop)))?;
    Some(bed.low.expected.low)
}

/// Entries: the beds as covered, and the forecast, from which tomorrow's low learns.
fn drafts(found: &Found) -> Vec<Draft> {
    let mut drafts = Vec::new();
    let mut told: Vec<usize> = Vec::new();
    for (at, index) in &found.order {
        let Some(bed) = found.beds.get(*at).filter(|_| !told.contains(at)) else {
            continue;
        };
        told.push(*at);
        let cover = bed.crops.get(*index).and_then(|crop| crop.cover);
        if let (Some(id), Some(cover)) = (&bed.id, cover) {
            drafts.push(Draft {
                about: About::bed(id),
                what: What::Covered(details::Covered {
                    cover: Some(cover.id().to_owned()),
                    count: Some(1),
                }),
            });
        }
    }
    if let Some(text) = &found.forecast_text {
        drafts.push(Draft {
            about: About::default(),
            what: What::Reading(details::Reading {
                spot: Some(Spot::Outdoors.word().to_owned()),
                forecast_low: Some(text.clone()),
                sky: Some(found.sky.word().to_owned()),
                wind: Some(found.wind.word().to_owned()),
                ..details::Reading::default()
            }),
        });
    }
    drafts
}

pub(super) fn crops(found: &Found) -> impl Iterator<Item = &CropTonight> {
    found.beds.iter().flat_map(|bed| &bed.crops)
}

fn name_of(crop: &CropTonight) -> String {
    small(crop.crop.name())
}
