//! What state a bed is in, in one line.

use chrono::NaiveDate;

use super::says::{crop_name, kept_for};
use crate::{
    garden::Bed,
    garlic,
    telling::{capital, day, list},
};

/// "14 cabbage since 12 Oct" or "Empty since 3 Nov. Kept for garlic from 20 Oct".
pub fn state(bed: &Bed, today: NaiveDate) -> String {
    let kept = bed.kept(today).map(|it| {
        let from = it.from.filter(|from| *from > today);
        let from = from.map(|from| format!(" from {}", day(from, Some(today))));
        format!(". {}{}", capital(&kept_for(it)), from.unwrap_or_default())
    });
    let kept: String = kept.collect();
    format!("{}{kept}", grows(bed, today))
}

/// What fits into an empty bed until it is needed, in a sentence.
pub fn until_needed(bed: &Bed, today: NaiveDate) -> Option<String> {
    let from = bed.kept(today).filter_map(|it| it.from).min()?;
    let quick = garlic::filler(today, from).filter(|_| bed.plantings.is_empty())?;
    let days = (from - today).num_days();
    Some(format!(
        "Free for {days} days until then: {quick} fits first."
    ))
}

/// What grows there, or since when nothing does.
fn grows(bed: &Bed, today: NaiveDate) -> String {
    let said = |when: chrono::NaiveDateTime| day(when.date(), Some(today));
    if bed.plantings.is_empty() {
        let residue = bed
            .residue
            .last()
            .map(|laid| format!("Chopped plants on it since {}", said(laid.when)));
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
            format!(
                "{count}{} since {}",
                crop_name(&planting.crop),
                said(planting.since)
            )
        })
        .collect();
    list(&each)
}
