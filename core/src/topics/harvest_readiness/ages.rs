//! How old a crop is by its days and its heat, and how long its prime lasts.

use chrono::{NaiveDate, TimeDelta};
use uom::si::time::day;

use super::question::Dates;
use crate::{
    asking::Asking,
    catalogue::Start,
    harvest::{
        again, age::heat_between, chosen::Chosen, heat::DegreeDays, own, stage::Stage,
        verdict::Ages,
    },
    place::site::Site,
    quantity::{Temperature, Time},
    time::Range,
};

/// What is known of the crop's age, its heat against the gardener's own sums where there are any.
pub(super) fn ages(
    chosen: Chosen,
    site: &Site,
    dates: Dates,
    today: Option<NaiveDate>,
    own_sums: Option<[DegreeDays; 2]>,
) -> Ages {
    let Chosen { crop, sheet } = chosen;
    let since = |date: Option<NaiveDate>| Some(today? - date?);
    let from_sowing = crop.starts().first() == Some(&Start::Sow);
    let began = if from_sowing { dates.sown } else { dates.transplanted };
    let heat = sheet.heat().zip(site.air.as_ref()).and_then(|(sum, air)| {
        let (sown, today) = (dates.sown?, today?);
        let heat = heat_between(sum, sown, today, |date| own::usual_air(air, date));
        let sums = own_sums.unwrap_or(sum.sums());
        // Two years of days are no season; the usual air says nothing beyond one.
        (today - sown < TimeDelta::days(366)).then_some((heat, sums))
    });
    Ages {
        flower: since(dates.flowered),
        planting: since(began)
            .zip(crop.days_to_harvest())
            .map(|(age, span)| (age, [span.least, span.most])),
        heat,
    }
}

/// The heat that earlier seasons took.
pub(super) fn own_sums(
    chosen: Chosen,
    site: &Site,
    asking: &Asking<'_>,
) -> Option<[DegreeDays; 2]> {
    own::sums(asking.garden, chosen.crop, chosen.sheet.heat()?, site.air.as_ref()?)
}

pub(super) fn best_until(
    chosen: Chosen,
    stage: Option<Stage>,
    mean: Option<Temperature>,
    today: Option<NaiveDate>,
) -> Option<Range> {
    if stage != Some(Stage::Prime) {
        return None;
    }
    let today = today?;
    let [least, most] = again::holds(chosen.sheet, mean).map(|time: Time| time.get::<day>());
    #[expect(clippy::cast_possible_truncation, reason = "at most 120 days")]
    let after = |days: f64| today.checked_add_signed(TimeDelta::days(days.round() as i64));
    Some(Range {
        early: after(least),
        likely: after(f64::midpoint(least, most)),
        late: after(most),
    })
}
