//! What is told of the way to the bed.

use chrono::NaiveDate;
use uom::si::{thermodynamic_temperature::degree_fahrenheit, time::hour};

use crate::{
    asking::Asking,
    catalogue::{Crop, Facet, Family},
    garden::Start,
    journal::{About, Draft, What, details},
    quantity::{Quantity, System, Temperature, Time, show_number},
    season::Reason,
    source::Source,
    starts::cold_so_far::ColdNights,
    starts::{
        cold::{Cold, Level},
        course::{Day, Plan, Raised, Way},
        hardening::{Limits, Night, Out, Sun, Why},
        plant_out::{Decides, Nerve, Window, waits_for_frost},
    },
    telling::{Sure, Telling},
    text::{capital, count, day as day_told},
};

/// The verdict, and all that is said beside it.
pub(super) fn told(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let sure = if found.weather_known && !found.by_frost_class { Sure::Fair } else { Sure::Low };
    let mut telling = Telling::new(headline(found, asking), sure);
    let lines = [
        planting(found, asking),
        conditions(found, asking),
        missed(found),
        found_so_far(found),
        about_cold(found),
    ];
    telling.because = lines.into_iter().flatten().take(4).collect();
    look_for(found, asking, &mut telling);
    telling.next = drafts(found);
    cautions(found, asking.system, &mut telling);
    sources(found, &mut telling);
    telling
}

/// Where its next season is so far off it is too late, not too early (considered), days.
const TOO_LATE_DAYS: i64 = 120;

fn headline(found: &Found<'_>, asking: &Asking<'_>) -> String {
    let too_late = |window: &Window| window.clashes && window.range.early > Some(found.today);
    if let Some(window) = found.window.filter(too_late) {
        if let (Some(reason), Some(early)) = (found.why_not, window.range.early)
            && (early - found.today).num_days() > TOO_LATE_DAYS
        {
            let name = crate::text::small(found.crop.name());
            return format!("Too late to plant it out: {}", reason.told(&name, asking.system));
        }
        let early = window.range.early.map(|early| day_told(early, asking.today));
        return format!(
            "Pot it on: it is too old before it can go out, from {}",
            early.unwrap_or_default()
        );
    }
    match found.plan.days.first() {
        Some(first) if first.date > found.today && found.begun => {
            format!(
                "Done for today. Next, {}: {}",
                day_told(first.date, asking.today),
                day_words(first, found.way)
            )
        }
        Some(first) if first.date > found.today => {
            let plant = found.window.and_then(|window| window.range.early);
            format!(
                "Keep it growing: begin on {}{}",
                day_told(first.date, asking.today),
                plant
                    .map(|plant| format!(", plant from about {}", day_told(plant, asking.today)))
                    .unwrap_or_default()
            )
        }
        Some(first) => format!("Today: {}", day_words(first, found.way)),
        None => match found.window.and_then(|window| window.range.early) {
            Some(early) if early <= found.today => "Used to outdoors: plant it today".to_owned(),
            Some(early) => {
                format!("Used to outdoors: plant it from {}", day_told(early, asking.today))
            }
            None => "Used to outdoors".to_owned(),
        },
    }
}

/// "5 h out, shade with 1 hour of early sun, in at night".
pub(super) fn day_words(day: &Day, way: Way) -> String {
    let Some(step) = day.step else {
        return match day.why {
            Some(why) => format!("stay in. {}", capital(self::why(why))),
            None => "stay in".to_owned(),
        };
    };
    let out = match step.out {
        Out::Hours(hours) => format!("{hours} h out"),
        Out::Daylight => "out from morning till evening".to_owned(),
        Out::DayAndNight => "out day and night".to_owned(),
    };
    let night = match (step.out, day.night) {
        (Out::DayAndNight, Night::Out) => String::new(),
        (_, Night::Out) => ", and the night too".to_owned(),
        (_, Night::Covered) => ", covered on the ground at night".to_owned(),
        (_, Night::In) => ", in at night".to_owned(),
    };
    format!("{out}, {}{night}", light(day, way))
}

/// How much light, in words.
pub(super) fn light(day: &Day, way: Way) -> &'static str {
    let Some(step) = day.step else {
        return "indoors, as bright and cool as can be";
    };
    match (step.sun, way, day.why) {
        (_, _, Some(Why::Overcast)) => "any light, for clouds shade it",
        (Sun::Dappled, Way::OneMove, _) => "in shelter, under a sheet or shade cloth",
        (Sun::Full, Way::OneMove, _) => "sheet off by day",
        (Sun::Shade, ..) => "full shade, no wind",
        (Sun::Dappled, ..) => "dappled shade",
        (Sun::Early(1), ..) => "shade, with 1 hour of early sun",
        (Sun::Early(_), ..) => "shade, with 2 hours of early sun",
        (Sun::MidMorning, ..) => "sun till mid-morning, then shade",
        (Sun::HalfDay, ..) => "sun for half the day",
        (Sun::EarlyAfternoon, ..) => "sun till early afternoon",
        (Sun::Full, ..) => "full sun",
    }
}

/// How to water, in words.
pub(super) fn water(found: &Found<'_>, day: &Day, is_last: bool) -> &'static str {
    let third_done = day.progress.light * 3 > found.plan.of;
    match day.why {
        Some(Why::Heat) => "look twice, and water in the morning",
        _ if is_last => "soak it the evening before it is planted",
        _ if found.crop.not_by_cold().is_some() => "hold water back: the top dries well in between",
        _ if third_done => "less often, when the top is dry; never to wilting",
        _ => "as before; never to wilting",
    }
}

/// Why a day is not as the schedule has it, in words.
pub(super) fn why(why: Why) -> &'static str {
    match why {
        Why::Freezing => "it freezes",
        Why::Cold => "the air is colder than it takes yet",
        Why::Wind => "too windy: behind a wind-break, and not for long",
        Why::Rain => "hail or hard rain",
        Why::Heat => "hot: shade, half the hours, and water",
        Why::Overcast => "overcast: no sun to burn it",
        Why::ColdNight => "the night is colder than it takes yet",
    }
}

fn planting(found: &Found<'_>, asking: &Asking<'_>) -> Option<String> {
    let told = |date| day_told(date, asking.today);
    let Some(window) = found.window else {
        return Some("In the weather known here it never gets out: wait for warmer days, or plant under a cover.".to_owned());
    };
    let (early, likely) = (window.range.early?, window.range.likely?);
    if window.clashes {
        let limit = found.age_limit;
        if limit.is_some_and(|limit| limit < found.today) {
            return Some(
                "It is past its age already. Out now under a cover, or sow again; a larger pot helps tomato kin and leafy kinds."
                    .to_owned(),
            );
        }
        let limit = limit.map(told).unwrap_or_default();
        return Some(format!(
            "It is too old about {limit}. Ways round: a larger pot, a cooler spot, or out now under a cover."
        ));
    }
    let mut words = if early == likely {
        format!("It can be planted from {}", told(early))
    } else {
        format!(
            "It can be planted from {} if all goes well, more likely {}",
            told(early),
            told(likely)
        )
    };
    if let Some(limit) = found.age_limit {
        words.push_str(&format!("; too old about {}", told(limit)));
    }
    words.push('.');
    Some(words)
}

fn conditions(found: &Found<'_>, asking: &Asking<'_>) -> Option<String> {
    let window = found.window?;
    let percent = show_number(found.nerve.chance() * 100.0, 0);
    let soil = found.soil.and_then(|soil| {
        let stop = soil.stop?;
        let now = soil.then.show(asking.system);
        if soil.never {
            return Some(format!(
                "The soil stays under {} here: plant all the same, and expect it to stand still longer.",
                stop.show(asking.system)
            ));
        }
        let advised = soil.advised.filter(|advised| *advised > soil.then);
        Some(match advised {
            Some(advised) => format!(
                "The soil is then about {now}, above the {} below which it stands still; {} would be better.",
                stop.show(asking.system),
                advised.show(asking.system)
            ),
            None => format!("The soil is then about {now}, warm enough."),
        })
    });
    match window.decides {
        Decides::Frost => Some(format!(
            "Frost decides: before that day the risk of another one at the bed is over {percent} in 100."
        )),
        Decides::Soil => soil,
        Decides::Season => Some(season(found, asking)),
        Decides::Hardening if !found.frost_known && waits_for_frost(found.crop) => Some(
            "When frost is past here is not known: tell the place, or the usual date of your last frost.".to_owned(),
        ),
        Decides::Hardening => soil,
    }
}

/// Why the season is not there yet.
fn season(found: &Found<'_>, asking: &Asking<'_>) -> String {
    let name = crate::text::small(found.crop.name());
    match found.why_not {
        Some(reason) => format!("The season decides: today {}.", reason.told(&name, asking.system)),
        None => "The season decides: sooner, frost takes it too often.".to_owned(),
    }
}

fn missed(found: &Found<'_>) -> Option<String> {
    (found.plan.missed >= 2).then(|| {
        format!(
            "{} in a row missed: it starts again {} back, and nothing is done double.",
            count(found.plan.missed, "day", "days"),
            count(found.plan.missed / 2, "step", "steps")
        )
    })
}

fn found_so_far(found: &Found<'_>) -> Option<String> {
    let plan = &found.plan;
    match found.raised {
        Raised::Outdoors => Some("Raised outdoors, it knows sun and wind; how much cold it takes follows its last two weeks.".to_owned()),
        Raised::UnheatedGreenhouse if plan.now.cold >= 3 => Some(
            "Its cold nights have made it cold-tough already; only sun and wind are left to learn.".to_owned(),
        ),
        _ if plan.nights_too_cold => Some(
            "The nights stay too cold to leave it out first: plant it under a cover, and leave that on at night.".to_owned(),
        ),
        _ if found.by_frost_class => Some(format!(
            "{} is usually sown where it grows; its class of frost is what this goes by.",
            found.crop.name()
        )),
        _ => None,
    }
}

fn about_cold(found: &Found<'_>) -> Option<String> {
    (found.cold_level? >= Level::Note).then(|| found.cold_nights.note.clone())
}

fn look_for(found: &Found<'_>, asking: &Asking<'_>, telling: &mut Telling) {
    let look = &mut telling.look_for;
    if found.plan.days.is_empty() {
        look.push(
            "Slide a plug out: white roots that hold it together mean it is ready.".to_owned(),
        );
        return;
    }
    look.push(
        "Look after the first 15 minutes: wilting, bleached or papery patches mean in again; such a day does not count."
            .to_owned(),
    );
    look.push(format!(
        "Out only in air above {}, in on nights colder than that, and not in a wind that shakes the plants.",
        found
            .limits
            .coldest(found.plan.now.cold)
            .show(asking.system)
    ));
    look.push(
        "Trays stand with their roots in the open: on cold nights on the ground, and covered."
            .to_owned(),
    );
    if found.raised == Raised::HeatedHouse {
        look.push("In a cold snap carry it to a cool, bright place: one day in the warm house undoes the cold it has learned.".to_owned());
    }
}

/// Today's step as done, where the tray is one of the record.
fn drafts(found: &Found<'_>) -> Vec<Draft> {
    let Some(start) = found.start else {
        return Vec::new();
    };
    let today = found.plan.days.first().filter(|day| day.date == found.today);
    let Some((day, step)) = today.and_then(|day| Some((day, day.step?))) else {
        return Vec::new();
    };
    vec![Draft {
        about: About::start(start.id),
        what: What::HardeningDone(details::HardeningDone {
            hours: Some((step.out.time(found.daylight).get::<hour>() * 2.0).round() / 2.0),
            night: Some(day.night.word().to_owned()),
            damage: false,
        }),
    }]
}

fn cautions(found: &Found<'_>, system: System, telling: &mut Telling) {
    let mut say = |words: &str| telling.cautions.push(words.to_owned());
    say("Don't overdo it: plants kept short and cold until they stand still never catch up.");
    if found.crop.not_by_cold().is_some() {
        say(&format!(
            "{} is not hardened by cold, which makes it bolt: by light, wind and less water only.",
            found.crop.name()
        ));
    }
    if found.crop.family() == Family::Squash {
        say("Squash kin stops growing for good when it is hardened too long: a week is enough.");
    }
    let f = |degrees: f64| Temperature::new::<degree_fahrenheit>(degrees).show(system);
    say(&format!(
        "Open frames and greenhouses by mid-morning, at {} to {} inside: in the sun plants cook under glass.",
        f(75.0),
        f(80.0)
    ));
    if found.raised != Raised::Outdoors {
        say(
            "No flame or stove under a cover or in a closed greenhouse; heaters and cords only if made for wet places.",
        );
    }
    say("Forecasts err: on a doubtful night take it in or cover it.");
}

fn sources(found: &Found<'_>, telling: &mut Telling) {
    telling.source(Source::HardeningSchedule);
    telling.source(Source::HardeningMissedDays);
    found.crop.sources(Facet::Harden).for_each(|source| telling.source(source));
    telling.source(Source::Sasaki1996);
    if found.limits.class == crate::catalogue::Hardening::Hardy {
        telling.source(Source::KohnLevitt1965);
    }
    if found.age_limit.is_some() {
        telling.source(Source::WarmHouseWeeks);
    }
    if found.frost_known && waits_for_frost(found.crop) {
        telling.source(Source::NoaaFrostProbability);
    }
    if found.soil.is_some() {
        found.crop.sources(Facet::PlantOut).for_each(|source| telling.source(source));
    }
    if let Cold::Takes(_) = found.cold {
        found.crop.sources(Facet::Cold).for_each(|source| telling.source(source));
        telling.source(Source::ColdWeeks);
    }
}

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub crop: &'static Crop,
    pub start: Option<&'a Start>,
    pub raised: Raised,
    pub way: Way,
    pub limits: Limits,
    pub plan: Plan,
    /// Days were done already.
    pub begun: bool,
    pub window: Option<Window>,
    pub today: NaiveDate,
    pub nerve: Nerve,
    pub frost_known: bool,
    /// Why it can't be set out today.
    pub why_not: Option<Reason>,
    pub soil: Option<SoilFound>,
    pub age_limit: Option<NaiveDate>,
    pub cold: Cold,
    pub cold_level: Option<Level>,
    pub cold_nights: ColdNights,
    pub weather_known: bool,
    pub daylight: Time,
    /// No class of its own: usually sown where it grows.
    pub by_frost_class: bool,
}

/// What the soil says.
#[derive(Clone, Copy)]
pub(super) struct SoilFound {
    /// On the early day.
    pub then: Temperature,
    /// Too cold below.
    pub stop: Option<Temperature>,
    /// Warm enough.
    pub advised: Option<Temperature>,
    /// It never gets as warm as the stop within half a year.
    pub never: bool,
}
