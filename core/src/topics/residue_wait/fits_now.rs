//! What can go into a covered bed today, while it settles.
//!
//! Common practice throughout: cloves and broad beans push through a mulch, hardy young plants go
//! into holes in it, a cover crop keeps the bed if the wait is long.

use chrono::{Days, NaiveDate};
use uom::si::thermodynamic_temperature::degree_celsius;

use super::{balance::Placement, clock::Soil};
use crate::{given::words, text::day, time::Range};

words! {
    /// What can go in.
    pub enum FitsNow {
        /// Garlic.
        Garlic = "garlic",
        /// Broad beans.
        BroadBean = "broad-bean",
        /// Hardy young plants.
        HardyPlants = "hardy-plants",
        /// A cover crop.
        CoverCrop = "cover-crop",
        /// Nothing yet.
        Nothing = "nothing",
    }
}

/// Dug in, cloves and large seed wait this many days.
const DUG_IN_DAYS: i64 = 14;

/// A wait that a cover crop is worth sowing for.
const LONG_DAYS: i64 = 28;

/// The bed today.
#[derive(Clone, Copy)]
pub(super) struct Today<'a> {
    pub(super) today: NaiveDate,
    pub(super) laid: NaiveDate,
    pub(super) placement: Placement,
    pub(super) soil: &'a Soil<'a>,
    /// The season of days under ten hours, where the latitude is known.
    pub(super) short_days: Option<(NaiveDate, NaiveDate)>,
    /// When the crop asked about can go in.
    pub(super) plant_from: Range,
}

/// Everything that can go in, each with how.
pub(super) fn fits_now(at: &Today<'_>) -> Vec<(FitsNow, String)> {
    let celsius = |date| (at.soil)(date).0.get::<degree_celsius>();
    let now = celsius(at.today);
    let month = at.today.checked_add_days(Days::new(30)).map_or(now, celsius);
    let cooling = month < now - 0.5;
    let on_top = at.placement == Placement::OnTop;
    let open = on_top || DUG_IN_DAYS <= (at.today - at.laid).num_days();
    let short = at.short_days.filter(|(from, to)| *from <= at.today && at.today <= *to);
    let mut fits = Vec::new();
    if open && cooling && (2.0..=15.6).contains(&now) {
        fits.push((FitsNow::Garlic, "Garlic: push the cloves through to the soil.".to_owned()));
    }
    if open && (4.0..=13.0).contains(&now) {
        let how = if on_top { "in holes poked through the mulch" } else { "as usual" };
        fits.push((FitsNow::BroadBean, format!("Broad beans: {how}.")));
    }
    if on_top && 4.0 <= now {
        let still = short.map(|(_, to)| {
            format!(
                " Days are under 10 hours: they stand still until about {}.",
                day(to, Some(at.today))
            )
        });
        let how = "Hardy young plants: part the mulch, plant, keep it 2 in (5 cm) off the stems.";
        fits.push((FitsNow::HardyPlants, format!("{how}{}", still.unwrap_or_default())));
    }
    let long =
        at.plant_from.likely.is_none_or(|likely| LONG_DAYS <= (likely - at.today).num_days());
    if open && long && 8.0 <= now && short.is_none() {
        let how = if on_top { "rake it in where the mulch is thin" } else { "rake it in" };
        fits.push((FitsNow::CoverCrop, format!("A cover crop such as oats with peas: {how}.")));
    }
    if fits.is_empty() {
        let until = at
            .plant_from
            .likely
            .map(|likely| format!(" until about {}", day(likely, Some(at.today))));
        fits.push((
            FitsNow::Nothing,
            format!("Nothing{}: let it settle.", until.unwrap_or_default()),
        ));
    }
    fits
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::topics::residue_wait::soil::{Season, SoilKnown};

    fn on(month: u32, placement: Placement) -> Vec<FitsNow> {
        let today = NaiveDate::from_ymd_opt(2026, month, 20).unwrap();
        let season = SoilKnown::Season(Season::Guessed { south: false });
        let soil = |date| season.on(date);
        let wait = today.checked_add_days(Days::new(21));
        let at = Today {
            today,
            laid: today,
            placement,
            soil: &soil,
            short_days: None,
            plant_from: Range { early: wait, likely: wait, late: wait },
        };
        fits_now(&at).into_iter().map(|(what, _)| what).collect()
    }

    #[test]
    fn garlic_goes_through_the_mulch_in_autumn_and_not_in_spring() {
        assert!(on(10, Placement::OnTop).contains(&FitsNow::Garlic));
        assert!(!on(4, Placement::OnTop).contains(&FitsNow::Garlic));
    }

    #[test]
    fn on_the_day_it_is_dug_in_nothing_goes_in() {
        assert_eq!(on(10, Placement::WorkedIn), [FitsNow::Nothing]);
    }
}
