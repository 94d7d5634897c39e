//! The words of the answer.

use chrono::{Datelike, NaiveDate};
use uom::si::{areal_mass_density::gram_per_square_meter, f64::ArealMassDensity, mass::gram};

use super::{
    answer::{Found, holds},
    asked::Chop,
    balance::Placement,
    clock::Moisture,
    limits::{Limit, Plan},
    soil::SoilKnown,
    stops,
    way_round::{Way, What},
};
use crate::{
    ask::Asking,
    catalogue::{ResidueKind, Toxins, Watch},
    journal::{About, Draft, What as Entry, details},
    quantity::{Mass, Quantity, System, number::show_number},
    source::Source,
    telling::{Sure, Telling, capital, day, list},
    time::Range,
};

/// Products named in the words; the numbers have them all.
const NAMED: [&str; 2] = ["blood-meal", "soybean-meal"];

/// C:N below which greens set nitrogen free from the first day.
const SOFT: f64 = 18.0;

/// The verdict and all that is said beside it.
pub(super) fn tell(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let mut telling = Telling::new(headline(found), sure(found));
    telling.because.extend(because(found, asking.system));
    telling.look_for = look_for(found);
    telling.next = drafts(found, asking);
    telling.cautions = cautions(found);
    sources(found, &mut telling);
    telling
}

fn headline(found: &Found<'_>) -> String {
    if let Some(first) = stops::verdict(&found.asked.flags) {
        return first.to_owned();
    }
    if found.mixture.is_none() {
        return "Nothing to wait for".to_owned();
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
    match found.answer.plant_from.likely {
        Some(likely) if likely <= found.from => format!("{} {}", capital(put_in), now(found)),
        Some(likely) => format!("{} from about {}", capital(put_in), said(found, likely)),
        None => "Waiting alone won't do this season".to_owned(),
    }
}

fn way_verdict(found: &Found<'_>, way: Way, put_in: &str) -> String {
    let from = way.from(found.from).unwrap_or(found.from);
    let when = if from == found.from {
        now(found)
    } else {
        format!("from about {}", said(found, from))
    };
    match way.what {
        What::ThroughTheTop => format!("{}, through the top", capital(&when)),
        What::RakeAStrip => format!("{}, in a raked strip", capital(&when)),
        What::Feed if through_the_top(found) => format!("Feed it, then {when}, through the top"),
        What::Feed => format!("Feed it and {put_in} {when}"),
        What::FeedAndRake => format!("Feed it, rake a strip, {put_in} {when}"),
        What::Water => format!("Keep it damp: {put_in} {when}"),
        What::Transplant => format!("Set plants, don't sow: {when}"),
        What::TransplantAndFeed => format!("Feed it and set plants {when}"),
        What::LiftToTop if found.next.plan == Plan::DirectSow => {
            format!("Rake it out on top, sow {when} in a bare strip")
        }
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

fn said(found: &Found<'_>, date: NaiveDate) -> String {
    day(date, Some(found.asked.today))
}

/// The line under the verdict, and at most three more.
fn because(found: &Found<'_>, system: System) -> Vec<String> {
    let mut because: Vec<String> = Vec::new();
    let answer = found.answer;
    if stops::verdict(&found.asked.flags).is_some() {
        because.extend(answer.stops.first().cloned());
        if found.mixture.is_some() {
            because.push(format!("For what may stay: {}.", lower(&verdict(found))));
        }
    }
    let Some(mixture) = found.mixture else {
        because.push("Compost and manure hold back no nitrogen and need no settling. Compost feeds little: 1 to 7 % of its nitrogen in 12 to 24 weeks.".to_owned());
        return because;
    };
    because.extend(the_wait(found));
    because.extend(the_way(found, system));
    because.extend(ahead(found));
    because.extend(nitrogen(found, system));
    because.extend(assumed(found, mixture.guessed, system));
    because.truncate(4);
    because
}

/// What is waited for, and for how long.
fn the_wait(found: &Found<'_>) -> Option<String> {
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
    let what = limit_words(limit);
    let range = answer.plant_from;
    let without = if found.way.is_some_and(|way| way.what != What::ThroughTheTop) {
        "By waiting alone"
    } else {
        "Waited for"
    };
    Some(match (range.likely, answer.of_about) {
        (Some(likely), Some(days)) if found.from < likely => {
            let n = if 0 < answer.day {
                format!(" This is day {} of about {days}.", answer.day)
            } else {
                String::new()
            };
            format!(
                "{without}: about {} ({}), for {what}.{n}",
                said(found, likely),
                ends(found, range)
            )
        }
        (Some(likely), _) => match range.late.filter(|late| found.from < *late) {
            Some(late) => format!(
                "Longest to fade was {what}, likely past since {}; to be quite safe wait until {}.",
                said(found, likely),
                said(found, late)
            ),
            None => format!(
                "Longest to fade was {what}, past since {}.",
                said(found, likely)
            ),
        },
        (None, _) => format!("{without} this comes to no end within two years, for {what}."),
    })
}

/// "4 May to 2 Jun", or "4 May or later".
fn ends(found: &Found<'_>, range: Range) -> String {
    let early = range
        .early
        .or(range.likely)
        .map(|early| said(found, early))
        .unwrap_or_default();
    match range.late {
        Some(late) => format!("{early} to {}", said(found, late)),
        None => format!("{early} or a good deal later"),
    }
}

fn limit_words(limit: Limit) -> &'static str {
    match limit {
        Limit::Nitrogen => "the nitrogen that it holds while it rots",
        Limit::SeedlingRot => "the rots that feed on fresh greens and take seedlings",
        Limit::Toxins => "what seeps from it and stunts seeds and roots",
        Limit::SeedMaggot => "the seed maggot fly that rotting greens draw",
        Limit::CoarseTrash => "pieces still too coarse to sow among",
        Limit::Slugs => "the slugs under it",
    }
}

/// What the way round is, and what it changes.
fn the_way(found: &Found<'_>, system: System) -> Option<String> {
    let way = found.way?;
    Some(match way.what {
        What::ThroughTheTop => "Part it with a trowel, plant, and keep it 2 in (5 cm) off the stems.".to_owned(),
        What::RakeAStrip => "Rake a strip 4 in (10 cm) wide down to bare soil and sow in that.".to_owned(),
        What::Feed | What::TransplantAndFeed => format!("{} Then what it holds is made up for.", give(found, system)?),
        What::FeedAndRake => format!("{} Rake a strip 4 in (10 cm) wide bare and sow in that.", give(found, system)?),
        What::Water => "It rots only while damp: water it from above, or cover it; drip under it never wets it.".to_owned(),
        What::Transplant => "A plant with its own root ball stands what kills a sprouting seed.".to_owned(),
        What::LiftToTop => "On top it rots slowly and away from the roots; dug in, all of that happens among them.".to_owned(),
    })
}

/// "Give 1.5 lb of blood meal or 3.1 lb of soybean meal to the bed."
fn give(found: &Found<'_>, system: System) -> Option<String> {
    let named: Vec<String> = NAMED
        .iter()
        .filter_map(|id| {
            let product = found
                .answer
                .nitrogen
                .products
                .iter()
                .find(|product| product.product == *id)?;
            let weight = |g: f64| Mass::new::<gram>(g).show(system);
            let later = if 0.0 < product.later_g {
                format!(" now and {} in three weeks", weight(product.later_g))
            } else {
                String::new()
            };
            Some(format!(
                "{} of {}{later}",
                weight(product.g),
                lower(product.name)
            ))
        })
        .collect();
    (!named.is_empty()).then(|| format!("Give {} {}.", named.join(", or "), place(found)))
}

fn place(found: &Found<'_>) -> &'static str {
    if found.asked.area_guessed {
        "for a bed of 4 x 8 ft"
    } else {
        "to the whole of it"
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
    if !holds(found) {
        return None;
    }
    let held = ArealMassDensity::new::<gram_per_square_meter>(-nitrogen.low_point_g_per_m2);
    let most = (held * found.asked.area).show(system);
    let when = nitrogen
        .low_point_on
        .map(|on| format!(", most about {}", said(found, on)))
        .unwrap_or_default();
    let back = match nitrogen.back_on {
        Some(back) => format!("; given back by about {}", said(found, back)),
        None => "; not given back this season".to_owned(),
    };
    Some(format!(
        "Rotting, it holds up to {most} of nitrogen{when}{back}."
    ))
}

/// Which of two parts is ahead.
fn ahead(found: &Found<'_>) -> Option<String> {
    let ahead = found.answer.ahead.as_ref()?;
    let days = |days: f64| show_number(days, 0);
    let chance = if ahead.could_be_chance {
        "that could be chance"
    } else {
        "hardly by chance"
    };
    Some(format!(
        "The {} is ahead by about {} days, give or take {}; {chance}.",
        ahead.part,
        days(ahead.days),
        days(ahead.sd_days)
    ))
}

/// What was taken for granted.
fn assumed(found: &Found<'_>, guessed: bool, system: System) -> Option<String> {
    let asked = found.asked;
    let mut taken: Vec<String> = Vec::new();
    if guessed {
        let each = ArealMassDensity::new::<gram_per_square_meter>(
            found.answer.dry_matter_kg_per_m2 * 1000.0,
        );
        taken.push(format!(
            "{} of dry matter in all",
            (each * asked.area).show(system)
        ));
    }
    if asked.area_guessed {
        taken.push("a bed of 4 x 8 ft".to_owned());
    }
    if matches!(asked.soil, SoilKnown::Season(_)) {
        let (soil, _) = asked.soil.on(found.from);
        taken.push(format!(
            "soil at {} today, by the season",
            soil.show(system)
        ));
    }
    if asked.crop.is_none() && found.next.plan == Plan::DirectSow {
        taken.push("fine seed that maggots eat".to_owned());
    }
    (!taken.is_empty()).then(|| format!("Taken for granted: {}.", list(&taken)))
}

fn sure(found: &Found<'_>) -> Sure {
    let Some(mixture) = found.mixture else {
        return Sure::Fair;
    };
    let unknown_soil = matches!(found.asked.soil, SoilKnown::Season(_));
    let doubtful = found.asked.materials.iter().any(|material| {
        material.residue.is_doubtful() || material.residue.kind() == ResidueKind::Wood
    });
    let through = found.way.is_some_and(|way| way.what == What::ThroughTheTop);
    if through || !(unknown_soil || mixture.guessed || doubtful) {
        Sure::Fair
    } else {
        Sure::Low
    }
}

fn look_for(found: &Found<'_>) -> Vec<String> {
    let mut look: Vec<String> = Vec::new();
    let mut watched: Vec<Watch> = found
        .asked
        .materials
        .iter()
        .flat_map(|material| material.residue.watch())
        .copied()
        .collect();
    watched.sort_unstable();
    watched.dedup();
    look.extend(
        watched
            .into_iter()
            .map(|watch| stops::look_for(watch).to_owned()),
    );
    if found.mixture.is_none() {
        return look;
    }
    look.push("Settled: dark crumbs that smell of earth, worms and casts under the mat, only stems and midribs to recognise.".to_owned());
    look.push("Not yet: slimy or hot, smelling sour, of ammonia or rotten cabbage. Fork it loose to let air in, and wait.".to_owned());
    if found.answer.limit.is_some() {
        look.push("The surest test: 20 seeds of cress, lettuce or radish in a jar of this soil come up as well as in a jar of plain mix, in 5 to 7 days.".to_owned());
    }
    let wet_mat = found.asked.placement == Placement::OnTop
        && matches!(found.asked.moisture, Moisture::Moist | Moisture::Soggy);
    if wet_mat && found.asked.slugs.is_none() {
        look.push("Slugs hide under a wet mat: bait a trap tonight; more than one or two in it, and small plants wait or the slugs go first.".to_owned());
    }
    look
}

fn cautions(found: &Found<'_>) -> Vec<String> {
    let mut cautions: Vec<String> = Vec::new();
    let asked = found.asked;
    cautions.extend(
        found
            .answer
            .stops
            .iter()
            .skip(usize::from(stops::verdict(&asked.flags).is_some()))
            .cloned(),
    );
    let kind = |kind| {
        asked
            .materials
            .iter()
            .any(|material| material.residue.kind() == kind)
    };
    if asked.chop.is_some() || asked.today <= asked.laid {
        cautions.push(match asked.chop {
            Some(Chop::Fine) => "Mowers and shredders throw things and take fingers: shoes, glasses and gloves on, nobody near, switched off and unplugged before you clear it.".to_owned(),
            _ => "Chop away from your feet and your other hand, gloves on; keep children and pets off, and lay blades down where they are seen.".to_owned(),
        });
    }
    if kind(ResidueKind::Manure) {
        cautions.push("Raw manure: 120 days before picking what touches the soil, 90 for the rest. Wash hands and tools; small children stay off.".to_owned());
    }
    if kind(ResidueKind::Wood) {
        cautions.push("Wood is taken here as the toughest straw, which errs on the long side. Keep it on top, never dug in.".to_owned());
    }
    let nitrogen = &found.answer.nitrogen;
    for product in nitrogen
        .products
        .iter()
        .filter(|product| NAMED.contains(&product.product))
    {
        cautions.extend(product.caution.map(str::to_owned));
    }
    if !nitrogen.products.is_empty() {
        cautions.push("Meals draw seed maggot flies: mix them in 2 in (5 cm) from the seed, and never give more at once than is said here.".to_owned());
    }
    let brassica = asked
        .materials
        .iter()
        .any(|material| material.residue.toxins() == Some(Toxins::Brassica));
    if brassica && found.next.brassica {
        cautions.push("Cabbages after cabbages: fresh waste of the family sets cauliflower back most, and clubroot builds up. Another family would do better.".to_owned());
    }
    if leaches(found) {
        cautions.push("Dug in at this time of year soft greens lose their nitrogen to the winter's rain: leave them on top, or plant garlic through them.".to_owned());
    }
    if asked.covered || asked.compost {
        cautions.push(
            "Lift a cover two or three nights before planting: slugs and earwigs shelter under it."
                .to_owned(),
        );
    }
    cautions
}

/// Soft greens dug in between September and November, or March and May in the south.
fn leaches(found: &Found<'_>) -> bool {
    let asked = found.asked;
    let soft = found
        .mixture
        .is_some_and(|mixture| mixture.load.ratio.likely.get() < SOFT);
    let south = matches!(
        asked.soil,
        SoilKnown::Season(super::soil::Hemisphere::South)
            | SoilKnown::Days(_, super::soil::Hemisphere::South)
    );
    let autumn = if south { 3..=5 } else { 9..=11 };
    soft && asked.placement == Placement::WorkedIn && autumn.contains(&asked.laid.month())
}

/// What was laid, for the record of a bed that is in it.
fn drafts(found: &Found<'_>, asking: &Asking<'_>) -> Vec<Draft> {
    let asked = found.asked;
    let Some(id) = asked.bed.as_ref().and_then(|meant| meant.id.as_deref()) else {
        return Vec::new();
    };
    let written = asking
        .garden
        .bed(id)
        .and_then(|bed| bed.residue.last())
        .is_some_and(|last| last.when.date() == asked.laid);
    if written || asked.today != asked.laid {
        return Vec::new();
    }
    let materials = asked.materials.iter().map(|material| details::Material {
        residue: material.residue.id().to_owned(),
        amount: material.amount.map(|amount| amount.show(asking.system)),
        state: material.state.map(|state| state.word().to_owned()),
    });
    let laid = details::ResidueLaid {
        materials: materials.collect(),
        placement: Some(asked.placement.word().to_owned()),
        moisture: Some(asked.moisture.word().to_owned()),
        chop: asked.chop.map(|chop| chop.word().to_owned()),
        cover: None,
        flags: asked
            .flags
            .iter()
            .map(|flag| flag.word().to_owned())
            .collect(),
        part: None,
    };
    vec![Draft {
        about: About::bed(id),
        what: Entry::ResidueLaid(laid),
    }]
}

fn sources(found: &Found<'_>, telling: &mut Telling) {
    for source in [
        Source::Nicolardot2001,
        Source::SticsParameters,
        Source::Justes2009,
        Source::Rothc,
        Source::Ceres,
    ] {
        telling.source(source);
    }
    if found.asked.placement == Placement::OnTop {
        telling.source(Source::ApsimSurface);
    }
    if let Some(limit) = found.answer.limit {
        telling.source(match limit {
            Limit::Nitrogen => Source::NrcsRatios,
            Limit::SeedlingRot => Source::Grunwald2000,
            Limit::Toxins => Source::MasonSedun1988,
            Limit::SeedMaggot => Source::UcIpmMaggot,
            Limit::CoarseTrash => Source::WilsonHargrove,
            Limit::Slugs => Source::AhdbSlugs,
        });
    }
    let load = found.mixture.map(|mixture| mixture.load);
    if load.is_some_and(|load| load.rye) {
        telling.source(Source::RyeWaits);
        telling.source(Source::Adhikari2018);
    }
    if !found.asked.flags.is_empty() {
        telling.source(Source::PlantDiseaseClinics);
        telling.source(Source::ClubrootPages);
    }
    if leaches(found) {
        telling.source(Source::Agneessens2014);
    }
    for material in &found.asked.materials {
        material
            .residue
            .sources()
            .iter()
            .for_each(|source| telling.source(*source));
        match material.residue.kind() {
            ResidueKind::Manure => telling.source(Source::OrganicRuleManure),
            ResidueKind::Compost => telling.source(Source::Hartz2000),
            ResidueKind::Plant | ResidueKind::Wood => {}
        }
    }
    if !found.answer.nitrogen.products.is_empty() {
        telling.source(Source::HartzJohnstone);
        telling.source(Source::EarthKindFertilizers);
    }
    telling.source(Source::CommonPractice);
}

/// The text with a small first letter.
fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
