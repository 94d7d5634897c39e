//! Entries told in sentences: in the record, on the button that writes them, once they are written.

use super::trays;
use crate::{
    catalogue,
    garden::Garden,
    harvest::stage::Stage,
    journal::{About, Draft, Sites, What, details},
    text::{capital, count, day, list, small},
    topics::residue_wait::check_in::Left,
    words::spot::spot_words,
};

/// A crop's name as a sentence goes on with it.
pub(crate) fn crop_name(crop: &str) -> String {
    catalogue::crop(crop).map_or_else(|_| crop.to_owned(), |row| small(row.name()))
}

/// What an entry says: "14 cabbage planted in Fence bed, 15 in between".
#[expect(clippy::too_many_lines, reason = "a table of kinds")]
pub fn says(about: &About, what: &What, garden: &Garden) -> String {
    let place = place(about, garden);
    let in_place = if place.is_empty() { String::new() } else { format!(" in {place}") };
    let at_place = if place.is_empty() { String::new() } else { format!(" at {place}") };
    match what {
        What::Bed(bed) => {
            let name = bed.name.clone().unwrap_or(place);
            if bed.gone { format!("{name} taken away") } else { format!("{name} laid out") }
        }
        What::Place(_) => "Something told about the place".to_owned(),
        What::Settings(_) => "Settings kept".to_owned(),
        What::StartSown(it) => capital(&format!(
            "{} sown{}",
            plants(it.count, &it.crop, it.variety.as_deref()),
            spot(it.spot.as_deref())
        )),
        What::StartPrickedOut(it) => format!(
            "{}: moved into {}",
            tray(&place),
            it.container.as_deref().unwrap_or("larger room")
        ),
        What::StartMoved(it) => format!("{}: carried to {}", tray(&place), spot_words(&it.spot)),
        What::StartLost(it) => format!(
            "{}: {} gone{}",
            tray(&place),
            it.count.map_or("all".to_owned(), |count| count.to_string()),
            it.why.as_deref().map(|why| format!(", {why}")).unwrap_or_default()
        ),
        What::Planted(it) => capital(&format!(
            "{} planted{in_place}{}",
            plants(it.count, &it.crop, it.variety.as_deref()),
            between(it.spacing.as_deref())
        )),
        What::Seeded(it) => capital(&format!(
            "{} sown{in_place}{}",
            plants(it.count, &it.crop, it.variety.as_deref()),
            between(it.spacing.as_deref())
        )),
        What::ResidueLaid(it) => {
            let lies = capital(&super::state::lies(it));
            if lies.ends_with("dug in") && !place.is_empty() {
                format!("{lies}to {place}")
            } else {
                format!("{lies}{in_place}")
            }
        }
        What::CheckIn(it) => looked(it, about, &at_place, garden),
        What::Reading(it) => read(it, at_place),
        What::Covered(_) => format!("{} covered", named(&place)),
        What::Uncovered(_) => format!("Cover taken off {place}"),
        What::FrostSeen(it) => format!(
            "Frost{at_place}{}",
            it.harm.as_deref().map(|harm| format!(", harm: {harm}")).unwrap_or_default()
        ),
        What::HardeningDone(it) => {
            format!(
                "{}: outdoors{}",
                tray(&place),
                it.hours
                    .map(|hours| format!(" {} h", crate::quantity::number::show_number(hours, 1)))
                    .unwrap_or_default()
            )
        }
        What::Harvest(it) => picked(it, about, &in_place, garden),
        What::Cleared(it) => {
            let crop = it.crop.as_deref().map(crop_name).or_else(|| planting_crop(about, garden));
            match crop {
                Some(crop) => capital(&format!("{crop} taken out{}", out_of(&place))),
                None => format!("{} cleared", named(&place)),
            }
        }
        What::Watered(it) => {
            format!(
                "Watered{at_place}{}",
                it.minutes
                    .map(|minutes| format!(
                        ", {} min",
                        crate::quantity::number::show_number(minutes, 0)
                    ))
                    .unwrap_or_default()
            )
        }
        What::Fed(it) => format!(
            "Fed{at_place}{}",
            it.product.as_deref().map(|product| format!(" with {product}")).unwrap_or_default()
        ),
        What::Reserved(it) => {
            let from = it.from.map(|from| format!(" from {}", day(from, None)));
            format!("{} {}{}", named(&place), kept_for(it), from.unwrap_or_default())
        }
        What::Note(details::Note { text, .. }) => super::ahead::told(text),
        What::StruckOut(_) => "An entry undone".to_owned(),
        What::Corrected(_) => "An entry corrected".to_owned(),
    }
}

/// "Looked at Fence bed: 4 leaves, roots holding".
fn looked(it: &details::CheckIn, about: &About, at_place: &str, garden: &Garden) -> String {
    let parts = [
        it.part.clone(),
        it.left.and_then(Left::new).map(|left| format!("{} can still be recognised", left.step())),
        it.leaves.map(|leaves| count(leaves, "leaf", "leaves")),
        it.roots.as_deref().map(|roots| format!("roots {roots}")),
        (!it.signs.is_empty()).then(|| it.signs.join(", ")),
        it.stage.as_deref().map(|stage| {
            let crop = planting_crop(about, garden).map(|crop| format!("{crop} "));
            let known = Stage::ALL.iter().find(|known| known.word() == stage);
            let said = known.map_or(stage, |known| known.said());
            crop.unwrap_or_default() + said
        }),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    let seen = if parts.is_empty() { "" } else { ": " };
    format!("Looked{at_place}{seen}{}", parts.join(", "))
}

/// "Read at Fence bed: low 34 F".
fn read(it: &details::Reading, at_place: String) -> String {
    let parts: Vec<String> = [
        ("forecast low", it.forecast_low.as_deref()),
        ("low", it.low.as_deref()),
        ("high", it.high.as_deref()),
        ("air", it.air.as_deref()),
        ("soil", it.soil.as_deref()),
        ("rain", it.rain.as_deref()),
    ]
    .iter()
    .filter_map(|(name, value)| Some(format!("{name} {}", (*value)?)))
    .collect();
    let at = if at_place.is_empty() { spot(it.spot.as_deref()) } else { at_place };
    format!("Read{at}: {}", parts.join(", "))
}

/// "2 lb of bush bean picked in Fence bed, prime".
fn picked(it: &details::Harvest, about: &About, in_place: &str, garden: &Garden) -> String {
    let crop = it.crop.as_deref().map(crop_name).or_else(|| planting_crop(about, garden));
    let amount = it.amount.as_deref().map(|amount| format!("{amount} of ")).unwrap_or_default();
    let all = if it.all { ", all of it" } else { "" };
    let stage = it.stage.as_deref().unwrap_or_default();
    let stage = match stage {
        "" => String::new(),
        told => format!(", {}", told.replace('-', " ")),
    };
    capital(&format!(
        "{amount}{} picked{in_place}{all}{stage}",
        crop.unwrap_or_else(|| "something".to_owned())
    ))
}

/// What a button says that writes these: "Write 14 cabbage plants into Fence bed".
pub fn offer(drafts: &[Draft], garden: &Garden) -> String {
    let bed = drafts.iter().find_map(|draft| match &draft.what {
        What::Bed(bed) => bed.name.clone(),
        _ => None,
    });
    let planted: Vec<String> = drafts
        .iter()
        .filter_map(|draft| match &draft.what {
            What::Planted(it) => Some(format!("{} plants", plants(it.count, &it.crop, None))),
            _ => None,
        })
        .collect();
    if let Some(words) = super::nights::offer(drafts, garden) {
        return words;
    }
    if planted.is_empty() {
        let each: Vec<String> =
            drafts.iter().map(|draft| says(&draft.about, &draft.what, garden)).collect();
        return format!("Write: {}", list(&each));
    }
    let into = match &bed {
        Some(name) => format!("{name}, and the bed"),
        None => drafts.first().map(|draft| place(&draft.about, garden)).unwrap_or_default(),
    };
    format!("Write {} into {into}", list(&planted))
}

/// What is said once they are written.
pub fn done(drafts: &[Draft], garden: &Garden) -> String {
    let undone = drafts.iter().any(|draft| matches!(draft.what, What::StruckOut(_)));
    if undone {
        return "Undone. It stays in every copy, and no longer counts. The Book brings it back."
            .to_owned();
    }
    let each: Vec<String> =
        drafts.iter().map(|draft| says(&draft.about, &draft.what, garden)).collect();
    format!("Written: {}", list(&each))
}

/// Where plants stand along the lines, for reading out: "Line 1: holes 1, 3, 5."
pub fn places(sites: &Sites) -> String {
    let mut lines: Vec<(u16, Vec<String>)> = Vec::new();
    for hole in sites.holes() {
        match lines.iter_mut().find(|(line, _)| *line == hole.line) {
            Some((_, holes)) => holes.push(hole.hole.to_string()),
            None => lines.push((hole.line, vec![hole.hole.to_string()])),
        }
    }
    let each: Vec<String> = lines
        .iter()
        .map(|(line, holes)| format!("Line {line}: holes {}.", holes.join(", ")))
        .collect();
    each.join(" ")
}

/// "14 cabbage (Blue Moon)".
fn plants(count: Option<u32>, crop: &str, variety: Option<&str>) -> String {
    let count = count.map(|count| format!("{count} ")).unwrap_or_default();
    let variety = variety.map(|variety| format!(" ({variety})")).unwrap_or_default();
    format!("{count}{}{variety}", crop_name(crop))
}

fn between(spacing: Option<&str>) -> String {
    spacing.map(|spacing| format!(", {spacing} between")).unwrap_or_default()
}

fn spot(spot: Option<&str>) -> String {
    spot.map(|spot| format!(", {}", spot_words(spot))).unwrap_or_default()
}

fn tray(place: &str) -> &str {
    if place.is_empty() { "A tray" } else { place }
}

fn named(place: &str) -> String {
    if place.is_empty() { "A bed".to_owned() } else { place.to_owned() }
}

fn out_of(place: &str) -> String {
    if place.is_empty() { String::new() } else { format!(" of {place}") }
}

/// "kept for garlic".
pub(crate) fn kept_for(it: &details::Reserved) -> String {
    let crop = it.crop.as_deref().map(crop_name);
    format!("kept for {}", crop.as_deref().unwrap_or("something"))
}

/// The name of the bed or tray an entry is about.
pub(super) fn place(about: &About, garden: &Garden) -> String {
    let named = about.bed.as_deref();
    let by_planting = || {
        let id = about.planting.as_deref()?.parse().ok()?;
        garden.planting(id).map(|(bed, _)| bed.name.clone())
    };
    let by_start = || {
        let id = about.start.as_deref()?.parse().ok()?;
        garden.start(id).map(trays::name)
    };
    match named {
        Some(id) => garden.bed(id).map_or_else(|| id.to_owned(), |bed| bed.name.clone()),
        None => by_planting().or_else(by_start).unwrap_or_default(),
    }
}

fn planting_crop(about: &About, garden: &Garden) -> Option<String> {
    let id = about.planting.as_deref()?.parse().ok()?;
    garden.planting(id).map(|(_, planting)| crop_name(&planting.crop))
}
