//! The words of the answer.

use chrono::{Duration, NaiveDate};
use uom::si::{
    f64::Mass, mass::kilogram, temperature_interval::degree_celsius as kelvin,
    thermodynamic_temperature::degree_fahrenheit,
};

use super::{
    answer::{Answer, OfKind},
    chill::{Cold, Verdict},
    filler,
    record::{WHITE_ROT, kept_from},
    which_bed::{Candidate, Out},
    window::{Now, Planting, Window, Winter},
};
use crate::{
    asking::Asking,
    bed::Meant,
    catalogue::garlic::Kind,
    garden,
    journal::{About, Draft, Sites, What, ahead::show_ahead, details},
    layout::Layout,
    place::{
        air::{celsius, of_celsius},
        known_soil::BedSoil,
    },
    quantity::{Length, Quantity, Temperature},
    source::Source,
    telling::{Sure, Telling},
    text::{count, day, list, small_first},
    time::Range,
    topics::soil_temperature::{of_readings, of_the_place, sources as soil_sources},
};

/// Why a bed is out, as the end of a sentence.
pub(super) fn out(out: Out, today: Option<NaiveDate>) -> String {
    match out {
        Out::WhiteRot => "white rot was seen there; it lives in soil for 20 to 30 years".to_owned(),
        Out::Allium(year) => format!("the onion family grew there in {year}"),
        Out::NotFree(free) => format!("it is free only about {}", day(free, today)),
        Out::Wet => "it stays wet".to_owned(),
    }
}

pub(super) fn tell(found: &Found<'_>) -> Telling {
    let sure = match found.soil {
        Some(soil) if !soil.extremes_only => Sure::Fair,
        _ => Sure::Low,
    };
    let mut telling = Telling::new(headline(found), sure);
    telling.because = because(found);
    telling.look_for = look_for(found);
    telling.next = next(found);
    telling.cautions = cautions(found);
    sources(&mut telling, found);
    telling
}

fn headline(found: &Found<'_>) -> String {
    let today = found.asking.today;
    let on = |date: NaiveDate| day(date, today);
    if let Some(reason) = found.out {
        return match reason {
            Out::WhiteRot => {
                "Not in this bed: white rot lives in its soil for 20 to 30 years.".to_owned()
            }
            Out::Allium(year) => format!("In another bed: the onion family grew here in {year}."),
            Out::NotFree(free) => {
                format!("In another bed: this one is free only about {}.", on(free))
            }
            Out::Wet => "In another bed: this one stays wet.".to_owned(),
        };
    }
    if let Some(since) = found.growing_since {
        return in_the_ground(since, found);
    }
    let Some((window, now)) = found.planting.window.zip(found.answer.now) else {
        return no_window(found);
    };
    match found.answer.kinds.as_slice() {
        [softneck, hardneck] if found.side_by_side => {
            let softneck = small_first(&to_plant(softneck, &window, now, found));
            let hardneck = match hardneck.chill {
                Verdict::Short => small_first(&to_plant(hardneck, &window, now, found)),
                _ => "may not split into cloves here.".to_owned(),
            };
            format!("Softneck: {softneck} Hardneck: {hardneck}")
        }
        [.., kind] => to_plant(kind, &window, now, found),
        [] => String::new(),
    }
}

/// When what grows is lifted.
fn in_the_ground(since: NaiveDate, found: &Found<'_>) -> String {
    let on = |date: NaiveDate| day(date, found.asking.today);
    let since = on(since);
    match found.answer.lift.and_then(|lift| lift.early.zip(lift.late)) {
        Some((look, _)) if found.today < look => {
            format!("In since {since}: look from {}, lift at about 5 green leaves.", on(look))
        }
        Some((_, late)) if found.today <= late => {
            format!("In since {since}: look now, lift at about 5 green leaves.")
        }
        _ => format!("In since {since}: its leaves say when to lift it."),
    }
}

/// What to do to plant one kind.
fn to_plant(kind: &OfKind, window: &Window, now: Now, found: &Found<'_>) -> String {
    let on = |date: NaiveDate| day(date, found.asking.today);
    if kind.chill == Verdict::Short {
        return chill_first(kind, found);
    }
    let (opens, best) = (likely(window.opens, found), likely(window.best, found));
    match now {
        Now::Early => format!("Not yet: plant from {}, best about {}.", on(opens), on(best)),
        Now::In if found.stays_cool => {
            format!(
                "Plant now: your soil has come down to {}.",
                of_celsius(10.0).show(found.asking.system)
            )
        }
        Now::In if found.today + Duration::days(3) < best => {
            format!("You can plant now; best is about {}.", on(best))
        }
        Now::In => "Plant now.".to_owned(),
        Now::Late if in_spring(window, found.today) => {
            "Planted now it makes small bulbs; for full ones wait until autumn.".to_owned()
        }
        Now::Late => "Late, and still worth it: plant while the ground opens.".to_owned(),
        Now::GroundFrozen => match found.planting.thaw {
            Some(thaw) => format!("The ground is frozen: plant when it opens, about {}.", on(thaw)),
            None => "The ground is frozen: plant when it opens.".to_owned(),
        },
    }
}

/// Seed that is chilled before it is planted.
fn chill_first(kind: &OfKind, found: &Found<'_>) -> String {
    let on = |date: NaiveDate| day(date, found.asking.today);
    match (kind.prechill_from, kind.plant) {
        (Some(from), Some(plant)) if from > found.today => {
            format!("Chill the seed from {}, plant it about {}.", on(from), on(plant))
        }
        (_, Some(plant)) => format!("Chill the seed now, plant it about {}.", on(plant)),
        (_, None) if found.side_by_side => "too late to chill for this winter.".to_owned(),
        (_, None) => "Too late to chill hardneck for this winter: plant softneck.".to_owned(),
    }
}

/// Three months after the close it is spring.
fn in_spring(window: &Window, today: NaiveDate) -> bool {
    window.closes.likely.is_some_and(|closes| today - closes > Duration::days(90))
}

fn no_window(found: &Found<'_>) -> String {
    let system = found.asking.system;
    let (warm, cool) = (of_celsius(10.0).show(system), of_celsius(21.0).show(system));
    let never_warm =
        found.soil.is_some_and(|soil| celsius(soil.year.warmest(found.depth).1) < 15.0);
    if never_warm {
        return format!(
            "Too cold here: the soil does not warm past {warm} for long enough to make bulbs."
        );
    }
    match found.answer.kinds.last().filter(|kind| kind.plant.is_some()) {
        Some(kind) => {
            let way_round = chill_first(kind, found);
            let way_round = way_round.trim_end_matches('.');
            format!("{way_round}, a kind for short days: the soil here never cools to {cool}.")
        }
        None => format!("Too warm here: the soil never cools to {cool}."),
    }
}

/// A range's likely date; OK because a window's dates are all known.
fn likely(range: Range, found: &Found<'_>) -> NaiveDate {
    range.likely.unwrap_or(found.today)
}

fn because(found: &Found<'_>) -> Vec<String> {
    let mut lines = Vec::new();
    if found.growing_since.is_some() {
        lines.extend(of_the_next_step(found));
        return lines;
    }
    lines.extend(of_the_window(found));
    let chill = of_the_cold(found);
    let (first, last) = match found.answer.chill {
        Verdict::Enough => (None, chill),
        Verdict::Unsure | Verdict::Short => (chill, None),
    };
    lines.extend(first);
    lines.extend(of_the_seed(found));
    lines.extend(of_the_beds(found));
    lines.extend(of_the_filler(found));
    if let Some(soil) = found.soil {
        lines.extend(of_readings(soil, found.asking.system));
    }
    lines.extend(last);
    lines.extend(found.soil.and_then(of_the_place));
    if found.soil.is_none() {
        lines.push(
            "Drawn from your usual first frost alone; the usual low and high of the coldest and the hottest \
             month would make it surer."
                .to_owned(),
        );
    }
    if !found.kind_given && !found.side_by_side && found.planting.window.is_some() {
        lines.truncate(3);
        lines.push("For hardneck; say softneck if that is what you plant.".to_owned());
    }
    lines.truncate(4);
    lines
}

fn of_the_window(found: &Found<'_>) -> Option<String> {
    let window = found.planting.window?;
    let on = |date: NaiveDate| day(date, found.asking.today);
    let (opens, closes) = (likely(window.opens, found), likely(window.closes, found));
    let spread = window.best.late? - window.best.likely?;
    let mut line = format!(
        "The window is {} to {}, give or take {} with the year and the bed.",
        on(opens),
        on(closes),
        count(spread.num_days().unsigned_abs() as u32, "day", "days")
    );
    if let Some(freeze_up) = found.planting.freeze_up {
        line.push_str(&format!(" The ground usually freezes about {}.", on(freeze_up)));
    }
    Some(line)
}

fn of_the_cold(found: &Found<'_>) -> Option<String> {
    if found.planting.window.is_none() {
        let hot = found.answer.chill == Verdict::Short;
        return hot.then(|| {
            "Seed chilled for eight weeks and planted before the coolest weeks may still make small bulbs; ask \
             neighbours which kinds do.".to_owned()
        });
    }
    let weeks = found.cold?.days_at_10_c / 7;
    let warm = of_celsius(10.0).show(found.asking.system);
    let cold = match weeks {
        0 => format!("In a usual winter the soil is hardly ever at or below {warm}"),
        weeks => {
            let weeks = count(weeks, "week", "weeks");
            format!("A usual winter here has {weeks} of soil at or below {warm}")
        }
    };
    Some(match (found.answer.chill, found.kind) {
        (Verdict::Enough, _) => format!("{cold}: enough to split bulbs into cloves."),
        (Verdict::Unsure, Kind::Hardneck) => {
            format!("{cold}, hardly any of it colder: hardneck may not split; softneck will do.")
        }
        (Verdict::Unsure, Kind::Softneck) => {
            format!("{cold}: choose a softneck that does well in mild winters.")
        }
        (Verdict::Short, _) => {
            let from = found.planting.window.map(|window| likely(window.opens, found));
            let from = from.map_or(String::new(), |from| {
                format!(" from {}", day(from.max(found.today), found.asking.today))
            });
            format!(
                "{cold}: too little for hardneck. Six to eight weeks in the refrigerator make up for it; or plant \
                 softneck or a low-chill kind{from} without."
            )
        }
    })
}

fn of_the_seed(found: &Found<'_>) -> Option<String> {
    let system = found.asking.system;
    let cloves = found.answer.cloves.filter(|_| found.out.is_none())?;
    let mass = |kg: f64| Mass::new::<kilogram>(kg).show(system);
    let spacing = found.spacing.show(system);
    let seed = mass(found.answer.seed_kg?);
    Some(match found.answer.seed_between_kg {
        None => format!("The bed takes {cloves} cloves at {spacing}: {seed} of seed garlic."),
        Some([least, most]) => format!(
            "The bed takes {cloves} cloves at {spacing}: about {seed} of seed garlic. Cloves differ fourfold, {} \
             to {}; weigh a few of yours.",
            mass(least),
            mass(most)
        ),
    })
}

/// What comes next for garlic that is in the ground.
fn of_the_next_step(found: &Found<'_>) -> Option<String> {
    let step = found.answer.steps.iter().find(|step| step.on >= found.today)?;
    Some(format!("Next, about {}: {}", day(step.on, found.asking.today), step.what))
}

/// Which bed, where none was asked about or that one is out.
fn of_the_beds(found: &Found<'_>) -> Option<String> {
    let today = found.asking.today;
    let kept = found.asking.garden.beds.iter().find_map(|bed| {
        let from = kept_from(bed, found.today).filter(|_| bed.gone.is_none())?;
        Some(format!("{} is kept for garlic from {}.", bed.name, day(from, today)))
    });
    if found.bed.is_some() && found.out.is_none() {
        return None;
    }
    if found.bed.is_none() && kept.is_some() {
        return kept;
    }
    let fit = found.answer.beds.iter().find(|bed| bed.out.is_none())?;
    let why = match found.place.filter(|(bed, _)| bed.id == fit.bed) {
        Some((_, it)) => good_for_garlic(&it, found),
        None => String::new(),
    };
    Some(format!("Of your beds {} comes first{why}.", fit.name))
}

/// What speaks for a bed, as the end of a sentence; what is not known of it stands there too.
fn good_for_garlic(bed: &Candidate<'_>, found: &Found<'_>) -> String {
    let (mut known, mut unknown) = (Vec::new(), Vec::new());
    for (told, words) in [(bed.drained, "it drains"), (bed.spring_sun, "it has sun in spring")] {
        match told {
            Some(true) => known.push(words.to_owned()),
            Some(false) => {}
            None => unknown.push(words),
        }
    }
    let colder = bed.colder_by.filter(|by| by.get::<kelvin>() > 0.5);
    known
        .extend(colder.map(|by| {
            format!("its soil reads {} colder than usual", by.show(found.asking.system))
        }));
    let known = if known.is_empty() { String::new() } else { format!(": {}", list(&known)) };
    let unknown =
        if unknown.is_empty() { String::new() } else { format!(", if {}", list(&unknown)) };
    format!("{known}{unknown}")
}

fn of_the_filler(found: &Found<'_>) -> Option<String> {
    let plant = found.plant_chilled.or(found.planting.window?.opens.likely)?;
    let (bed, candidate) = found.place?;
    let fits = found.out.is_none() && candidate.free_on.is_none_or(|free| free <= found.today);
    let quick = filler(found.today, plant).filter(|_| fits)?;
    let days = (plant - found.today).num_days();
    Some(format!("{} is free for {days} days until then: {quick} fits first.", bed.name))
}

fn look_for(found: &Found<'_>) -> Vec<String> {
    if found.growing_since.is_some() {
        return vec![
            "About 5 green leaves, as many lower ones dead: it is ready. Each green leaf left is one skin round the \
             bulb; lifted late, bulbs split. It may come within about two weeks of the day told."
                .to_owned(),
        ];
    }
    let system = found.asking.system;
    let warm_winter = found.answer.winter == Some(Winter::Warm);
    let cool = of_celsius(if warm_winter { 21.0 } else { 10.0 }).show(system);
    let deep = found.depth.show(system);
    vec![
        format!("A soil thermometer at {deep}, about nine in the morning, at or under {cool} on five days of ten."),
        "A bed where no puddle stands an hour after rain, with sun from early spring; of those the coldest.".to_owned(),
    ]
}

fn next(found: &Found<'_>) -> Vec<Draft> {
    let mut drafts = Vec::new();
    let note =
        |about: About, text: String| Draft { about, what: What::Note(details::Note { text }) };
    let about = found.place.map(|(bed, _)| About::bed(&bed.id));
    if found.white_rot {
        drafts.extend(about.map(|about| {
            note(
                about,
                format!("{WHITE_ROT} seen: no garlic, onion or leek here for 20 years or more."),
            )
        }));
        return drafts;
    }
    if found.out.is_some() {
        return drafts;
    }
    if found.growing_since.is_none() {
        let Some((window, now)) = found.planting.window.zip(found.answer.now) else {
            return drafts;
        };
        drafts.extend(about.clone().and_then(|about| the_bed(found, about, &window, now)));
        let chilled = found.answer.kinds.last().and_then(|kind| kind.plant);
        let plant = chilled.unwrap_or_else(|| likely(window.best, found));
        if let Some(from) = found.answer.prechill_from {
            let fridge = [36.0, 45.0]
                .map(|f| Temperature::new::<degree_fahrenheit>(f).show(found.asking.system));
            let text = format!(
                "Garlic: chill the seed at {}, plant it about {}, the day it comes out.",
                fridge.join(" to "),
                day(plant, None)
            );
            drafts.push(note(about.clone().unwrap_or_default(), show_ahead(from, &text)));
        }
    }
    if let Some((bed, _)) = found.place {
        let noted = |text: &str| {
            found
                .asking
                .garden
                .happened_in(&bed.id)
                .any(|it| matches!(&it.entry.what, What::Note(note) if note.text == text))
        };
        let planted = drafts.iter().any(|draft| matches!(draft.what, What::Planted(_)));
        let steps = found.answer.steps.iter().skip(usize::from(planted));
        let steps = steps.filter(|step| step.on > found.today);
        let texts = steps.map(|step| show_ahead(step.on, &format!("Garlic: {}", step.what)));
        let texts = texts.filter(|text| !noted(text));
        drafts.extend(texts.map(|text| note(About::bed(&bed.id), text)));
    }
    drafts
}

/// What is done with the bed: planted, or kept free until then.
fn the_bed(found: &Found<'_>, about: About, window: &Window, now: Now) -> Option<Draft> {
    let (bed, _) = found.place?;
    let waits = found.plant_chilled.is_some_and(|day| day > found.today);
    let planting_now = matches!(now, Now::In | Now::Late) && !waits;
    if planting_now && found.bed.is_some() {
        return Some(Draft {
            about,
            what: What::Planted(details::Planted {
                crop: "garlic".to_owned(),
                count: found.answer.cloves,
                spacing: Some(found.spacing.show(found.asking.system)),
                at: found.laid.filter(|_| bed.plantings.is_empty()).and_then(places),
                ..details::Planted::default()
            }),
        });
    }
    if kept_from(bed, found.today).is_some() {
        return None;
    }
    let from = likely(window.opens, found).max(found.today);
    // Past the window it is kept for as long again as the ground may take to open.
    let until = [
        Some(likely(window.closes, found)),
        found.plant_chilled,
        found.planting.thaw.filter(|_| now == Now::GroundFrozen),
        (now == Now::Late).then(|| found.today + Duration::days(21)),
    ];
    Some(Draft {
        about,
        what: What::Reserved(details::Reserved {
            crop: Some("garlic".to_owned()),
            from: Some(from),
            until: until.into_iter().flatten().max(),
        }),
    })
}

fn cautions(found: &Found<'_>) -> Vec<String> {
    let mut cautions = Vec::new();
    if found.out == Some(Out::WhiteRot) {
        cautions.push(
            "White rot spreads with soil: clean tools and boots, and don't chop or move plants or soil from this bed."
                .to_owned(),
        );
    }
    if found.answer.prechill_from.is_some() {
        cautions.push("Don't freeze seed garlic, and don't chill a low-chill kind: it may make a bulb of one or two cloves.".to_owned());
    }
    cautions.push(
        "Garlic from a shop may bring disease, and some regions forbid bringing in planting garlic: ask before buying."
            .to_owned(),
    );
    cautions.push("Garlic and onions are poisonous to dogs and cats.".to_owned());
    cautions
}

fn sources(telling: &mut Telling, found: &Found<'_>) {
    telling.source(Source::GarlicWindow);
    telling.source(Source::Dawling2016);
    telling.source(Source::Berlin2016);
    telling.source(Source::CornellGarlic);
    telling.source(Source::Bandara2000);
    if found.answer.chill == Verdict::Short {
        telling.source(Source::DelPozo2005);
    }
    if found.answer.seed_between_kg.is_some() {
        telling.source(Source::RosenGarlic);
    }
    if found.out == Some(Out::WhiteRot) {
        telling.source(Source::PnwWhiteRot);
    }
    if let Some(soil) = found.soil {
        soil_sources(telling, soil);
        if found.answer.winter == Some(Winter::Freeze) {
            telling.source(Source::FrostFromLows);
        }
    }
    if !found.answer.steps.is_empty() {
        telling.source(Source::MinnesotaGarlic);
        telling.source(Source::KansasGarlic);
        telling.source(Source::GarlicLifting);
    }
}

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub(super) asking: &'a Asking<'a>,
    pub(super) today: NaiveDate,
    pub(super) kind: Kind,
    /// Whether the kind was said.
    pub(super) kind_given: bool,
    pub(super) depth: Length,
    pub(super) bed: Option<&'a Meant>,
    /// The bed of the record that is meant: the one asked about, else the best for garlic.
    pub(super) place: Option<(&'a garden::Bed, Candidate<'a>)>,
    /// Since when garlic grows in the bed asked about.
    pub(super) growing_since: Option<NaiveDate>,
    /// Why that bed is out.
    pub(super) out: Option<Out>,
    /// White rot was told of in this question.
    pub(super) white_rot: bool,
    pub(super) soil: Option<&'a BedSoil>,
    pub(super) cold: Option<Cold>,
    pub(super) planting: &'a Planting,
    /// The readings show that the soil has come down to 50 °F and stays.
    pub(super) stays_cool: bool,
    pub(super) spacing: Length,
    /// Where the cloves go in an empty bed.
    pub(super) laid: Option<&'a Layout>,
    /// The day to plant chilled seed, where it is chilled.
    pub(super) plant_chilled: Option<NaiveDate>,
    /// Both kinds are told, since a winter is mild and the kind was not said.
    pub(super) side_by_side: bool,
    pub(super) answer: &'a Answer,
}

/// The places of the cloves, as the record keeps them.
pub(super) fn places(laid: &Layout) -> Option<Sites> {
    let cloves = laid.plants.iter().flatten();
    Sites::of_places(&cloves.map(|clove| clove.site.spot).collect::<Vec<_>>()).ok()
}
