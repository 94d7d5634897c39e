//! What fits into a bed before garlic: crops whose usual days to harvest are over by then.

use chrono::NaiveDate;

use crate::{
    catalogue::{self, Crop, Family, Hardiness, Kind, Start},
    order,
    text::{list, small},
};

/// A bed that is free for fewer days is left alone (common practice: the quickest crops take about
/// a month).
const LEAST_DAYS: i64 = 30;
/// So many crops are named.
const NAMED: usize = 3;

/// The usual days of a crop from sowing to harvest: the middle of what is published.
fn usual_days(crop: &Crop) -> Option<i64> {
    let ready = crop.days_to_harvest()?;
    Some((ready.least + ready.most).num_days() / 2)
}

/// The crops sown in place that are usually ready within so many days, the quickest first.
///
/// Of the onion family none, since garlic follows; none that frost kills, since garlic's window
/// opens with the frost.
fn quick(days: i64) -> Vec<(&'static Crop, i64)> {
    let mut quick: Vec<(&Crop, i64)> = catalogue::crops()
        .iter()
        .filter(|crop| {
            crop.kind() == Kind::Vegetable
                && crop.starts().contains(&Start::Sow)
                && crop.family() != Family::Onion
                && !matches!(crop.hardiness(), Hardiness::Chilling | Hardiness::Tender)
        })
        .filter_map(|crop| Some((crop, usual_days(crop)?)))
        .filter(|(_, usual)| *usual <= days)
        .collect();
    order::sort(&mut quick, &|(_, usual)| [*usual, 0, 0]);
    quick
}

/// "radish (about 30 days)" and the like, for a bed that is free from today until another day;
/// `None` where nothing is quick enough.
pub(crate) fn filler(today: NaiveDate, until: NaiveDate) -> Option<String> {
    let free = (until - today).num_days();
    if free < LEAST_DAYS {
        return None;
    }
    let names: Vec<String> = quick(free)
        .iter()
        .take(NAMED)
        .map(|(crop, usual)| format!("{} (about {usual} days)", small(crop.name())))
        .collect();
    (!names.is_empty()).then(|| list(&names))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_ready_by_then_is_named() {
        let ids = |days| -> Vec<&str> { quick(days).iter().map(|(crop, _)| crop.id()).collect() };
        assert_eq!(ids(14), [] as [&str; 0]);
        assert_eq!(ids(29), ["cress"]);
        assert_eq!(ids(30), ["cress", "radish"]);
        let more = ids(60);
        assert_eq!(more.first(), Some(&"cress"));
        assert!(more.contains(&"arugula") && more.contains(&"spinach"));
        assert!(!more.contains(&"bean-snap-bush"), "frost kills it");
        assert!(!more.contains(&"garlic"));
    }

    #[test]
    fn a_bed_free_for_less_than_a_month_is_left_alone() {
        let today = NaiveDate::from_ymd_opt(2026, 9, 20).unwrap();
        let on = |days| today + chrono::Duration::days(days);
        assert_eq!(filler(today, on(29)), None);
        assert_eq!(
            filler(today, on(40)).as_deref(),
            Some(
                "garden cress (about 15 days), radish (about 30 days) and komatsuna (about 35 days)"
            )
        );
    }
}
