//! What state a bed is in, in one line; and how far what lies on it has settled.

use chrono::NaiveDate;
use serde_json::{Map, Value};

use super::names::{crop_name, kept_for};
use crate::{
    catalogue,
    garden::{Bed, Dated, Garden},
    journal::details::ResidueLaid,
    text::{capital, count, day, list, small},
    time::iso::show_date,
    topics::{
        garlic_window,
        residue_wait::{self, balance::Placement},
    },
};

/// The same, and of a bed that settles how far it has come: "Pea vines dug in since 19 Nov: day 6 of
/// about 21"; of a bed that is planted through it what lies there: "14 cabbage since 12 Oct. Straw on
/// top since 1 Oct".
pub fn state_today(garden: &Garden, bed: &Bed, today: NaiveDate) -> String {
    let mut told = grows(bed, today);
    if bed.plantings.is_empty() {
        if let Some(settling) = settling(garden, bed, today) {
            told += &format!(": {settling}");
        }
    } else if let Some(last) = residue_wait::lying(bed, Some(today))
        && residue_wait::progress(&bed.id, garden, today)
            .is_some_and(|far| far.settles.likely.is_none_or(|crumbs| today < crumbs))
    {
        told += &format!(". {}", said_lying(bed, last, today));
    }
    told + &kept(bed, today)
}

/// What lies on a bed as the record has it, in words; nothing where nothing does.
pub fn lies_told(bed: &str, garden: &Garden, today: NaiveDate) -> Option<String> {
    let bed = garden.bed(bed)?;
    let last = residue_wait::lying(bed, Some(today))?;
    let mut told = said_lying(bed, last, today);
    let looks = bed
        .check_ins
        .iter()
        .filter(|look| last.when <= look.when && look.what.left.is_some())
        .count();
    if let Ok(looks @ 1..) = u32::try_from(looks) {
        told += &format!(", {} since", count(looks, "look", "looks"));
    }
    Some(told)
}

/// The question about what lies on a bed, with nothing but the bed given; nothing where nothing lies.
pub fn about_lying(bed: &str, garden: &Garden, today: NaiveDate) -> Option<Value> {
    residue_wait::lying(garden.bed(bed)?, Some(today))?;
    let mut question = Map::new();
    question.insert("topic".to_owned(), "residue-wait".into());
    question.insert("today".to_owned(), show_date(today).into());
    question.insert("bed".to_owned(), bed.into());
    Some(Value::Object(question))
}

/// "Left half: pea vines dug in; right half: pea vines on top since 19 Nov".
fn said_lying(bed: &Bed, last: &Dated<ResidueLaid>, today: NaiveDate) -> String {
    let parts = residue_wait::parts(bed, last);
    let each: Vec<String> = match parts.as_slice() {
        [] => vec![lies(&last.what)],
        parts => parts.iter().map(|laid| lies(&laid.what)).collect(),
    };
    format!("{} since {}", capital(&each.join("; ")), day(last.when.date(), Some(today)))
}

/// "day 6 of about 21".
fn settling(garden: &Garden, bed: &Bed, today: NaiveDate) -> Option<String> {
    residue_wait::lying(bed, Some(today))?;
    let far = residue_wait::progress(&bed.id, garden, today)?;
    let laid = today - chrono::TimeDelta::days(far.day);
    let of_about =
        |date: NaiveDate| format!("day {} of about {}", far.day, (date - laid).num_days());
    let waits = far.plant_from.likely.is_none_or(|likely| today < likely);
    Some(match (far.placement, far.plant_from.likely, far.settles.likely) {
        (Placement::WorkedIn, Some(likely), _) if waits => of_about(likely),
        (_, None, _) => format!("day {}; waiting alone won't do", far.day),
        (Placement::WorkedIn, _, _) => "young plants can go in".to_owned(),
        (Placement::OnTop, Some(likely), _) if waits => of_about(likely),
        (Placement::OnTop, _, Some(crumbs)) if today < crumbs => {
            format!("plant through it; {} until it crumbles", of_about(crumbs))
        }
        (Placement::OnTop, _, Some(_)) => "plant through it; it has settled".to_owned(),
        (Placement::OnTop, _, None) => format!(
            "plant through it; day {}, too thick or too dry to crumble within two years",
            far.day
        ),
    })
}

/// "pea vines and lettuce leaves dug in", as it lies there.
pub(super) fn lies(laid: &ResidueLaid) -> String {
    let mut each: Vec<String> = Vec::new();
    for material in &laid.materials {
        let name = catalogue::known_residue(&material.residue).map_or_else(
            || material.residue.replace('-', " "),
            |row| small(row.name().split(',').next().unwrap_or_default()),
        );
        if !each.contains(&name) {
            each.push(name);
        }
    }
    let how = if laid.placement.as_deref() == Some(Placement::WorkedIn.word()) {
        "dug in"
    } else {
        "on top"
    };
    let what = list(&each);
    match &laid.part {
        Some(part) => format!("{part}: {what} {how}"),
        None => format!("{what} {how}"),
    }
}

/// "14 cabbage since 12 Oct" or "Empty since 3 Nov. Kept for garlic from 20 Oct".
pub fn state(bed: &Bed, today: NaiveDate) -> String {
    grows(bed, today) + &kept(bed, today)
}

/// ". Kept for garlic from 20 Oct", or nothing.
fn kept(bed: &Bed, today: NaiveDate) -> String {
    let kept = bed.kept(today).map(|it| {
        let from = it.from.filter(|from| *from > today);
        let from = from.map(|from| format!(" from {}", day(from, Some(today))));
        format!(". {}{}", capital(&kept_for(it)), from.unwrap_or_default())
    });
    kept.collect()
}

/// What fits into an empty bed until it is needed, in a sentence.
pub fn until_needed(bed: &Bed, today: NaiveDate) -> Option<String> {
    let from = bed.kept(today).filter_map(|it| it.from).min()?;
    let quick = garlic_window::filler(today, from).filter(|_| bed.plantings.is_empty())?;
    let days = (from - today).num_days();
    Some(format!("Free for {days} days until then: {quick} fits first."))
}

/// What grows there, or since when nothing does.
fn grows(bed: &Bed, today: NaiveDate) -> String {
    let said = |when: chrono::NaiveDateTime| day(when.date(), Some(today));
    if bed.plantings.is_empty() {
        let residue =
            residue_wait::lying(bed, Some(today)).map(|last| said_lying(bed, last, today));
        return residue.unwrap_or_else(|| match (bed.past.is_empty(), bed.empty_since()) {
            (false, Some(since)) => format!("Empty since {}", said(since)),
            _ => "Nothing in it yet".to_owned(),
        });
    }
    let each: Vec<String> = bed
        .plantings
        .iter()
        .map(|planting| {
            let count = planting.left.or(planting.count);
            let count = count.map(|count| format!("{count} ")).unwrap_or_default();
            format!("{count}{} since {}", crop_name(&planting.crop), said(planting.since))
        })
        .collect();
    list(&each)
}
