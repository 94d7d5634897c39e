//! The words that stand beside the answer's numbers: each way, each limit, each weight, both pictures.

use uom::si::{areal_mass_density::gram_per_square_meter, f64::ArealMassDensity, mass::gram};

use super::{
    answer::{Answer, ProductAmount},
    feeding::split,
    found::Found,
    limits::{Limit, Plan},
    way_round::What,
    words::{ahead, ends, give, held_words, limit_words, said},
};
use crate::{
    quantity::{Mass, Quantity, System},
    text::capital,
    time::Range,
};

/// Puts the words into an answer.
pub(super) fn put_in(found: &Found<'_>, mut answer: Answer, system: System) -> Answer {
    for way in answer.ways.iter_mut().chain(&mut answer.way_round) {
        way.does = does(found, way.what).to_owned();
        way.changes = changes(found, way.what, system);
    }
    for limit in &mut answer.limits {
        limit.told = limit_told(found, limit.limit, limit.range);
    }
    for product in &mut answer.nitrogen.products {
        product.told = amount(product, "", system);
    }
    for part in &mut answer.parts {
        let waits = part.plant_from.likely.is_none_or(|likely| found.from < likely);
        let wait = part.limit.filter(|_| waits);
        let wait = wait.map(|limit| format!(", for {}", limit_words(limit)));
        let half = found.asked.halves.iter().find(|half| half.name == part.name);
        let look = half.and_then(|half| half.seen.looks.last());
        let look = look.map(|(on, left)| {
            format!("{} could still be recognised on {}; ", left.step(), said(found, *on))
        });
        part.told = format!(
            "{}: {}{} {}{}",
            capital(&part.name),
            look.unwrap_or_default(),
            if found.next.plan == Plan::DirectSow { "sow" } else { "plant" },
            from_then(found, part.plant_from),
            wait.unwrap_or_default()
        );
    }
    answer.ahead_told = ahead(found);
    answer.days_told = days(found);
    answer.curve_told = curve(found, system);
    answer
}

/// What is done.
pub(super) fn does(found: &Found<'_>, what: What) -> &'static str {
    match what {
        What::ThroughTheTop => "Plant through it",
        What::RakeAStrip => "Rake a strip bare",
        What::Feed => "Feed it",
        What::FeedAndRake => "Feed it and rake a strip bare",
        What::Water => "Keep it damp",
        What::Transplant => "Set young plants",
        What::TransplantAndFeed => "Set young plants and feed",
        What::LiftToTop if found.next.plan == Plan::DirectSow => {
            "Rake it out on top, sow in a bare strip"
        }
        What::LiftToTop => "Rake it out on top",
        What::LiftMost => "Fork most of it out, feed the rest",
    }
}

/// What it changes.
pub(super) fn changes(found: &Found<'_>, what: What, system: System) -> String {
    let give = || give(found, system).unwrap_or_default();
    match what {
        What::ThroughTheTop => "Part it with a trowel, plant, and keep it 2 in (5 cm) off the stems.".to_owned(),
        What::RakeAStrip => "Rake a strip 4 in (10 cm) wide down to bare soil and sow in that.".to_owned(),
        What::Feed | What::TransplantAndFeed => format!("{} Then what it holds is made up for.", give()),
        What::FeedAndRake => format!("{} Rake a strip 4 in (10 cm) wide bare and sow in that.", give()),
        What::Water => "It rots only while damp: water it from above, or cover it; drip under it never wets it.".to_owned(),
        What::Transplant => "A plant with its own root ball stands what kills a sprouting seed.".to_owned(),
        What::LiftMost => {
            let need = ArealMassDensity::new::<gram_per_square_meter>(found.answer.nitrogen.to_add_now_g_per_m2);
            format!(
                "Dug in, all of it holds up to {} of nitrogen, more than can be fed for: fork out {} of it and lay it on top as a mulch, 2 in (5 cm) off stems and rows. {}",
                held_words(found, system), share(split(need)), give()
            )
        }
        What::LiftToTop => "On top it rots slowly and away from the roots; dug in, all of that happens among them.".to_owned(),
    }
}

/// All but one of so many equal parts.
fn share(parts: u32) -> &'static str {
    match parts {
        0..=2 => "half",
        3 => "two thirds",
        4 => "three quarters",
        5..=6 => "five sixths",
        7..=10 => "nine tenths",
        _ => "nearly all",
    }
}

/// "8.5 oz of blood meal now and 2.8 lb in three weeks".
pub(super) fn amount(product: &ProductAmount, of: &str, system: System) -> String {
    let weight = |g: f64| Mass::new::<gram>(g).show(system);
    let later = if 0.0 < product.later_g {
        format!(" now and {} in three weeks", weight(product.later_g))
    } else {
        String::new()
    };
    format!("{}{of}{later}", weight(product.g))
}

/// "Seed maggot fly: past about 9 Dec (2 Dec to 23 Dec)".
fn limit_told(found: &Found<'_>, limit: Limit, range: Option<Range>) -> String {
    let name = match limit {
        Limit::Nitrogen => "Nitrogen it holds",
        Limit::SeedlingRot => "Rots that take seedlings",
        Limit::Toxins => "What seeps from it",
        Limit::SeedMaggot => "Seed maggot fly",
        Limit::CoarseTrash => "Coarse pieces",
        Limit::Slugs => "Slugs",
    };
    let laid = Some(found.asked.laid);
    let when = match range {
        None => "not counted".to_owned(),
        Some(range) if range.likely == laid && range.late == laid => {
            "nothing to wait for".to_owned()
        }
        Some(range) => by_then(found, range),
    };
    format!("{name}: {when}")
}

/// "from about 9 Dec (2 Dec to 23 Dec)".
fn by_then(found: &Found<'_>, range: Range) -> String {
    match range.likely {
        None => "not within two years".to_owned(),
        Some(likely) if likely <= found.from => {
            match range.late.filter(|late| found.from < *late) {
                Some(late) => format!("likely past; for certain by {}", said(found, late)),
                None => "past".to_owned(),
            }
        }
        Some(likely) => format!("about {} ({})", said(found, likely), ends(found, range)),
    }
}

/// What the row of days shows.
fn days(found: &Found<'_>) -> String {
    let waiting = from_then(found, found.answer.plant_from);
    let alone = format!("Just wait: {waiting}.");
    match found.way {
        Some(way) => {
            format!("{}: {}. {alone}", does(found, way.what), from_then(found, way.plant_from))
        }
        None => alone,
    }
}

fn from_then(found: &Found<'_>, range: Range) -> String {
    match range.likely {
        None => "not within two years".to_owned(),
        Some(likely) if likely <= found.from => "from today".to_owned(),
        Some(likely) => format!("from about {}, {}", said(found, likely), ends(found, range)),
    }
}

/// What the curve shows.
fn curve(found: &Found<'_>, system: System) -> String {
    let nitrogen = &found.answer.nitrogen;
    let on_all = |g_per_m2: f64| {
        (ArealMassDensity::new::<gram_per_square_meter>(g_per_m2) * found.asked.area).show(system)
    };
    let Some(last) = found.answer.curve.last() else {
        return String::new();
    };
    let end = said(found, last.date);
    let mut words = match nitrogen.low_point_on {
        Some(on) if 0.01 <= -nitrogen.low_point_g_per_m2 => format!(
            "The rotting holds nitrogen, most about {}: {}.",
            said(found, on),
            on_all(-nitrogen.low_point_g_per_m2)
        ),
        _ => "No nitrogen is held that matters.".to_owned(),
    };
    if 0.0 < last.mineral_n_g_per_m2 {
        words += &format!(
            " By {end} {} more is in the soil than before.",
            on_all(last.mineral_n_g_per_m2)
        );
    } else if let Some(back) = nitrogen.back_on {
        words += &format!(" It is given back by about {}.", said(found, back));
    } else if nitrogen.low_point_g_per_m2 < 0.0 {
        words += " It is not given back this season.";
    }
    words
}
