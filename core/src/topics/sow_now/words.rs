//! The words of the answer.

use chrono::NaiveDate;

use super::{
    answer::Verdict,
    found::{Found, READY_DAYS, of_a_hundred},
    outdoors_words,
    question::Where,
};
use crate::{
    catalogue::{Facet, seed_age},
    journal::{About, Draft, What, details},
    place::{known_soil::KnownSoil, sun},
    quantity::{Quantity, number::show_number},
    source::Source,
    telling::{Sure, Telling},
    text::{count, day, small},
    topics::{
        emergence::{of_the_kind, sowing::Suits},
        soil_temperature::{of_readings, of_the_place, sources as soil_sources},
    },
    words::spot::Spot,
};

pub(super) fn tell(found: &Found<'_>) -> Telling {
    let sure = match found.soil {
        _ if !found.seed.own || found.usual => Sure::Low,
        KnownSoil::Bed(soil) if soil.extremes_only => Sure::Low,
        _ => Sure::Fair,
    };
    let mut telling = Telling::new(headline(found), sure);
    telling.because = because(found);
    telling.look_for.push(match found.place {
        Where::Bed => "A soil thermometer at sowing depth, about nine in the morning.".to_owned(),
        _ => "A thermometer in the soil of the tray, not in the air.".to_owned(),
    });
    telling.next = next(found);
    if found.place == Where::Mat {
        telling.cautions.push(
            "A heat mat is electric and stands in the wet: use one made for it, on a circuit that trips, and keep the plug dry."
                .to_owned(),
        );
    }
    telling.cautions.push(
        "Dressed seed is poison: wash your hands, and keep it from children, pets and hens."
            .to_owned(),
    );
    telling.source(Source::HarringtonMinges1954);
    telling.source(Source::HarringtonLimits);
    telling.source(Source::CommonPractice);
    if found.age.is_some() {
        found.seed.crop.sources(Facet::Keep).for_each(|source| telling.source(source));
        telling.source(Source::SeedAge);
    }
    if found.outdoors.is_some() {
        found.seed.crop.sources(Facet::Growth).for_each(|source| telling.source(source));
        telling.source(Source::SeasonNights);
    }
    if let KnownSoil::Bed(soil) = found.soil {
        soil_sources(&mut telling, soil);
    }
    telling
}

/// Old seed of which it takes more for each plant is bought fresh (considered).
const BUY_FRESH: u32 = 6;

fn headline(found: &Found<'_>) -> String {
    if let Some(seeds) = found.answer.seeds
        && found.answer.verdict == Verdict::Now
        && found.age.is_some_and(|years| seed_age::left(found.seed.crop, years) < 1.0)
        && seeds > BUY_FRESH.saturating_mul(found.wanted).max(60)
    {
        return format!(
            "Buy fresh seed: of this old one it takes {}",
            outdoors_words::seeds(found, seeds)
        );
    }
    let on = |date: NaiveDate| day(date, found.asking.today);
    let name = small(found.seed.crop.name());
    let soil = found.soil.at(found.depth, found.today).show(found.asking.system);
    let cold = found.suits == Suits::TooCold;
    let when = found.answer.when.and_then(|when| when.likely);
    if let Some(outdoors) = found.outdoors
        && (found.answer.verdict != Verdict::Now || found.answer.seeds.is_some())
    {
        let seeds = outdoors_words::seeds(found, found.answer.seeds.unwrap_or_default());
        return outdoors_words::headline(found, outdoors, seeds);
    }
    match (found.answer.verdict, when) {
        (Verdict::Now, _) => match found.answer.seeds {
            Some(seeds) => format!("Sow now: {}.", outdoors_words::seeds(found, seeds)),
            None => "The soil is right, but this seed is too old to count on.".to_owned(),
        },
        (Verdict::Wait, Some(when)) if found.out_of_season => {
            format!("Wait until about {}: sown now, frost would take it.", on(when))
        }
        (Verdict::Wait, Some(when)) => {
            let why = if cold { "cold" } else { "warm" };
            format!("Wait until about {}: at {soil} the soil is too {why} for {name}.", on(when))
        }
        (Verdict::Wait | Verdict::TooLate | Verdict::TooHot | Verdict::NotHere, _) => {
            "Not here: frost leaves no season long enough.".to_owned()
        }
        (Verdict::Warmer, _) => format!("Somewhere warmer: {soil} is too cold for {name}."),
        (Verdict::Cooler, _) => format!("Somewhere cooler: {soil} is too warm for {name}."),
    }
}

fn because(found: &Found<'_>) -> Vec<String> {
    let system = found.asking.system;
    let on = |date: NaiveDate| day(date, found.asking.today);
    let mut lines = Vec::new();
    let expected = found.course.expected;
    if let (Some(days), Some(early)) = (found.course.days, expected.early) {
        let until = expected.late.map_or(String::new(), |late| format!(" to {}", on(late)));
        let then = match found.answer.verdict {
            Verdict::Now => "It shows",
            Verdict::Wait | Verdict::TooLate | Verdict::TooHot => "Sown then, it shows",
            Verdict::NotHere | Verdict::Warmer | Verdict::Cooler => "Sown all the same, it shows",
        };
        let days = count(days.round() as u32, "day", "days");
        lines.push(format!("{then} in about {days}, {}{until}.", on(early)));
    }
    lines.extend(found.outdoors.and_then(|outdoors| outdoors_words::picked(found, outdoors)));
    let (from, to) = found.seed.kind.optimum_range();
    let share = of_a_hundred(found.answer.share_up);
    lines.push(match found.answer.seeds {
        Some(seeds) => {
            let (seeds, plants) =
                (count(seeds, "seed gives", "seeds give"), count(found.wanted, "plant", "plants"));
            format!(
                "Of a hundred such seeds about {share} come up: {seeds} {plants} nine times in ten."
            )
        }
        None => format!("Of a hundred such seeds about {share} come up."),
    });
    lines.extend(of_the_age(found));
    lines.extend(found.outdoors.and_then(|outdoors| outdoors_words::still(found, outdoors)));
    if found.answer.verdict != Verdict::Now || found.usual {
        lines.push(format!("It comes up best at {} to {}.", from.show(system), to.show(system)));
    }
    if found.usual {
        let taken = found.soil.at(found.depth, found.today).show(system);
        lines.push(format!("Taken as {taken}, as usual there; a thermometer would make it surer."));
    }
    lines.extend(of_short_days(found));
    if found.ready_taken {
        lines.push(format!(
            "How many days {} takes is not known here: {READY_DAYS} are taken.",
            small(found.seed.crop.name())
        ));
    }
    lines.extend(of_the_kind(found.seed));
    if let KnownSoil::Bed(soil) = found.soil {
        lines.extend(of_readings(soil, system));
        lines.extend(of_the_place(soil));
    }
    lines.truncate(4);
    lines
}

fn of_the_age(found: &Found<'_>) -> Option<String> {
    let (years, crop) = (found.age?, found.seed.crop);
    let left = seed_age::left(crop, years);
    let told = |years: u8| count(u32::from(years), "year", "years");
    (left < 1.0).then(|| {
        let keeps = match crop.seed_keeps_years() {
            Some(keeps) => format!("; it keeps about {}", told(keeps)),
            None => format!(
                "; how long seed of {} keeps is not known here, {} is taken as usual for a vegetable",
                small(crop.name()),
                told(seed_age::USUAL_YEARS)
            ),
        };
        format!(
            "At {} years about {} of a hundred that came up fresh still do{keeps}.",
            show_number(years.number(), 1),
            of_a_hundred(left)
        )
    })
}

/// Seedlings that come up into days under ten hours stand still.
fn of_short_days(found: &Found<'_>) -> Option<String> {
    let likely = found.course.expected.likely?;
    let (from, to) = sun::short_days(found.site.latitude?, likely)?;
    (found.outdoors.is_none() && found.place == Where::Bed && from <= likely && likely <= to).then(
        || {
            format!(
                "Days are under 10 hours then: it will stand still until {}.",
                day(to, found.asking.today)
            )
        },
    )
}

fn next(found: &Found<'_>) -> Vec<Draft> {
    let bed = found.bed.and_then(|bed| bed.id.as_deref());
    if found.answer.verdict != Verdict::Now {
        return Vec::new();
    }
    let crop = found.seed.crop.id().to_owned();
    let what = match (found.place, bed) {
        (Where::Bed, Some(_)) => What::Seeded(details::Seeded {
            crop,
            count: Some(found.wanted),
            seeds: found.answer.seeds,
            depth: Some(found.depth.show(found.asking.system)),
            ..details::Seeded::default()
        }),
        (Where::Bed, None) => return Vec::new(),
        (place, _) => What::StartSown(details::StartSown {
            crop,
            count: found.answer.seeds,
            spot: Some(
                match place {
                    Where::Greenhouse => Spot::Greenhouse,
                    Where::Mat => Spot::Mat,
                    Where::Sill | Where::Bed => Spot::Sill,
                }
                .word()
                .to_owned(),
            ),
            ..details::StartSown::default()
        }),
    };
    let about = match bed {
        Some(bed) if found.place == Where::Bed => About::bed(bed),
        _ => About::default(),
    };
    vec![Draft { about, what }]
}
