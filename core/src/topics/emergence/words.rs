//! The words of the answer.

use chrono::NaiveDate;
use uom::si::frequency::cycle_per_day;

use super::{
    course::{Course, Verdict},
    question::Seed,
    sowing::{Suits, suits},
};
use crate::{
    asking::Asking,
    bed::Meant,
    journal::{About, Draft, What, details},
    place::known_soil::KnownSoil,
    quantity::{Length, Quantity, number::show_number},
    source::Source,
    telling::{Sure, Telling},
    text::{count, day, small},
    topics::soil_temperature::{of_readings, of_the_place, sources as soil_sources},
};

pub(super) fn tell(found: &Found<'_>) -> Telling {
    let sure = match found.soil {
        _ if !found.seed.own => Sure::Low,
        KnownSoil::Bed(soil) if soil.extremes_only => Sure::Low,
        _ => Sure::Fair,
    };
    let mut telling = Telling::new(headline(found), sure);
    telling.because = because(found);
    telling.look_for = look_for(found);
    telling.next = next(found);
    if found.verdict == Verdict::Resow {
        telling.cautions.push(
            "Dressed seed is poison: wash your hands, and keep it from children, pets and hens."
                .to_owned(),
        );
    }
    telling.source(Source::HarringtonMinges1954);
    telling.source(Source::HarringtonLimits);
    telling.source(Source::CommonPractice);
    if let KnownSoil::Bed(soil) = found.soil {
        soil_sources(&mut telling, soil);
    }
    telling
}

fn name(seed: Seed) -> String {
    small(seed.crop.name())
}

fn headline(found: &Found<'_>) -> String {
    let on = |date: NaiveDate| day(date, found.asking.today);
    let percent = found.up.map(|up| show_number(up * 100.0, 0));
    let seen = found.up.filter(|up| *up > 0.0).and(percent);
    match found.verdict {
        Verdict::Up => match seen {
            Some(percent) if found.up < Some(0.8 * found.course.worth) => {
                format!("{percent} % up, and no more will come: fill the gaps.")
            }
            _ => "It is up.".to_owned(),
        },
        Verdict::Resow => {
            let again = match suits(found.seed.kind, found.soil.at(found.depth, found.today)) {
                Suits::TooWarm => "sow again when the soil is cooler",
                Suits::TooCold => "sow again when the soil is warmer",
                Suits::Well => "sow again",
            };
            match seen {
                Some(percent) => format!("{percent} % up, and no more will come: {again}."),
                None => format!("It should have come by now: {again}."),
            }
        }
        Verdict::Wait => {
            let expected = found.course.expected;
            let Some(likely) = expected.likely else {
                return hopeless(found);
            };
            let kind = found.seed.kind;
            let now = found.soil.at(found.depth, found.today);
            if seen.is_none() && suits(kind, now) == Suits::TooWarm {
                return format!(
                    "At {} seed of {} sleeps: cool the bed with shade and water, or sow again when it is cooler.",
                    now.show(found.asking.system),
                    name(found.seed)
                );
            }
            let end = expected.late.or(found.course.resow_after).unwrap_or(likely);
            let left = (end - found.today).num_days();
            match (seen, expected.early) {
                (Some(percent), _) if left > 0 => {
                    let left = count(left as u32, "day", "days");
                    format!("{percent} % up, {left} in the window left: wait.")
                }
                (Some(percent), _) => {
                    format!("{percent} % up: give it until {}.", on(last(found, end)))
                }
                (None, Some(early)) if found.today < early => {
                    format!("Wait: first seedlings from about {}.", on(early))
                }
                (None, _) if left > 0 => format!("Still to come: give it until {}.", on(end)),
                (None, _) => format!("It is late: give it until {}.", on(last(found, end))),
            }
        }
    }
}

/// The last day that it is waited for.
fn last(found: &Found<'_>, end: NaiveDate) -> NaiveDate {
    found.course.resow_after.unwrap_or(end)
}

/// Soil that brings nothing up.
fn hopeless(found: &Found<'_>) -> String {
    let now = found.soil.at(found.depth, found.today);
    let name = name(found.seed);
    match suits(found.seed.kind, now) {
        Suits::TooWarm => {
            format!("This soil is too warm for {name} to come up; cool it with shade and water.")
        }
        _ => format!("This soil is too cold for {name} to come up; it waits, or rots."),
    }
}

fn because(found: &Found<'_>) -> Vec<String> {
    let system = found.asking.system;
    let on = |date: NaiveDate| day(date, found.asking.today);
    let mut lines = Vec::new();
    let expected = found.course.expected;
    if let (Some(days), Some(likely)) = (found.course.days, expected.likely) {
        let spread = match (expected.early, expected.late) {
            (Some(early), Some(late)) => format!(", {} to {}", on(early), on(late)),
            (Some(early), None) => format!(", from {}", on(early)),
            (None, _) => String::new(),
        };
        let days = count(days.round() as u32, "day", "days");
        lines.push(format!("In this soil it takes about {days}: {}{spread}.", on(likely)));
    }
    let soil = |date: NaiveDate| found.soil.at(found.depth, date).show(system);
    let (first, now) = (soil(found.sown), soil(found.today));
    lines.push(if first == now {
        format!("The soil is at about {now}.")
    } else {
        format!("The soil was at about {first} when it was sown and is at {now} now.")
    });
    lines.push(if found.course.share < 0.01 {
        "Hardly any seed comes up at that.".to_owned()
    } else {
        let share = show_number(found.course.share * 100.0, 0);
        format!("Of a hundred good fresh seeds about {share} come up at that.")
    });
    lines.extend(of_the_kind(found.seed));
    lines.extend(warmer(found));
    if let KnownSoil::Bed(soil) = found.soil {
        lines.extend(of_readings(soil, system));
        lines.extend(of_the_place(soil));
    }
    lines.truncate(4);
    lines
}

/// What warming it would bring, where it comes up half as slowly again as it could.
fn warmer(found: &Found<'_>) -> Option<String> {
    let kind = found.seed.kind;
    let now = found.soil.at(found.depth, found.today);
    let days = |soil| 1.0 / kind.rate(soil).get::<cycle_per_day>();
    let best = kind.optimum();
    let slow = days(now) > SLOW * days(best);
    (found.verdict != Verdict::Up && now < best && slow).then(|| {
        format!(
            "At {} it would be up in about {}: a tray can stand on a mat, a bed under a cloche.",
            best.show(found.asking.system),
            count(days(best).round() as u32, "day", "days")
        )
    })
}

/// So many times the days of its best soil are slow.
const SLOW: f64 = 1.5;

/// Where another crop's figures stand in.
pub(crate) fn of_the_kind(seed: Seed) -> Option<String> {
    (!seed.own).then(|| {
        let kind = seed.kind;
        let other = kind.days_of().unwrap_or(kind.name);
        format!("Told by {other}, whose seed is most like it among what is published.")
    })
}

fn look_for(found: &Found<'_>) -> Vec<String> {
    let mut look_for = vec![
        "Scratch out a few: firm and swollen, or with a root, means wait; soft, mouldy or gone means sow again."
            .to_owned(),
        "Bitten stems or slime mean that it came up and was eaten.".to_owned(),
    ];
    if found.verdict == Verdict::Wait {
        look_for.push("A crust on the soil, which water and a light rake break.".to_owned());
    }
    look_for
}

fn next(found: &Found<'_>) -> Vec<Draft> {
    let Some(bed) = found.bed.and_then(|bed| bed.id.as_deref()) else {
        return Vec::new();
    };
    let mut drafts = Vec::new();
    if let Some(up) = found.up {
        drafts.push(Draft {
            about: About::bed(bed),
            what: What::CheckIn(details::CheckIn { up: Some(up), ..details::CheckIn::default() }),
        });
    }
    if found.verdict == Verdict::Resow {
        drafts.push(Draft {
            about: About::bed(bed),
            what: What::Seeded(details::Seeded {
                crop: found.seed.crop.id().to_owned(),
                ..details::Seeded::default()
            }),
        });
    }
    drafts
}

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub(super) asking: &'a Asking<'a>,
    pub(super) today: NaiveDate,
    pub(super) seed: Seed,
    pub(super) sown: NaiveDate,
    pub(super) depth: Length,
    pub(super) up: Option<f64>,
    pub(super) bed: Option<&'a Meant>,
    pub(super) soil: &'a KnownSoil,
    pub(super) course: &'a Course,
    pub(super) verdict: Verdict,
}
