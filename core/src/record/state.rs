//! What state a bed is in, in one line.

use chrono::NaiveDate;

use super::says::crop_name;
use crate::{
    garden::Bed,
    telling::{day, list},
};

/// "14 cabbage since 12 Oct" or "Empty since 3 Nov".
pub fn state(bed: &Bed, today: NaiveDate) -> String {
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
