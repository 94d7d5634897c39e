//! From when a tray can be planted: used to outdoors, frost past at the chosen risk, soil not too cold,
//! and before it is too old.

use chrono::{Days, NaiveDate};

use uom::si::temperature_interval::degree_fahrenheit as degrees_f;

use crate::{
    catalogue::{Crop, Hardiness},
    frost::{harm::lost_below, last_frost::LastFrost},
    place::{frost_dates::FrostDates, site::Site},
    quantity::{Temperature, TemperatureInterval},
    time::{DayOfYear, Range},
};

/// The chance of a later frost that a gardener is ready to take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nerve(f64);

impl Nerve {
    /// One year in ten, where nothing else is chosen.
    pub(crate) const USUAL: Self = Self(0.1);

    /// In percent: above 0 and below 100.
    pub fn from_percent(percent: f64) -> Option<Self> {
        (1.0..=99.0).contains(&percent).then_some(Self(percent / 100.0))
    }

    /// As a chance.
    pub fn chance(self) -> f64 {
        self.0
    }
}

/// What is known of the last frosts of spring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Frosts {
    /// From the place.
    Place(FrostDates),
    /// From the gardener's own years.
    Own(LastFrost),
}

/// The last frosts of the place for this crop: the gardener's own usual dates as they are, or else the day
/// of the last air low that means harm at a bed, beds on clear nights being some 4 °F colder (derived).
/// A last frost that is told alone is followed by as much summer as is usual.
pub(crate) fn frosts_of(crop: &Crop, site: &Site) -> Option<Frosts> {
    const BED_COLDER_F: f64 = 4.0;
    if let (Some(air), None) = (&site.air, site.last_frost) {
        let harm =
            lost_below(crop, true, None) + TemperatureInterval::new::<degrees_f>(BED_COLDER_F);
        return Some(Frosts::Place(FrostDates::from_air(air, harm, site.is_south())));
    }
    let alone = || {
        let last = site.last_frost?;
        Some(FrostDates::from_usual(last, last.plus(SUMMER_DAYS as f64)))
    };
    site.frost_dates().or_else(alone).map(Frosts::Place)
}

/// Days from the last frost to the first, where only the last is known (common practice).
const SUMMER_DAYS: u64 = 150;

/// Whether frost would end it, so that planting waits until frost is past.
pub fn waits_for_frost(crop: &Crop) -> bool {
    matches!(crop.hardiness(), Hardiness::Chilling | Hardiness::Tender)
}

impl Frosts {
    /// The first day from `from` on after which the risk of another frost that spring is no larger; `from` itself
    /// in the frost-free season or where there is no such risk.
    pub fn safe_from(&self, nerve: Nerve, from: NaiveDate) -> NaiveDate {
        use chrono::Datelike;
        let (last, first) = match self {
            Self::Own(own) => (own.day_at(nerve.chance()), None),
            Self::Place(dates) => (
                spread_at(
                    dates.last.half,
                    dates.last.tenth,
                    dates.last.nine_tenths,
                    1.0 - nerve.chance(),
                ),
                spread_at(
                    dates.first.half,
                    dates.first.tenth,
                    dates.first.nine_tenths,
                    nerve.chance(),
                ),
            ),
        };
        let Some(last) = last else { return from };
        // Between the last frost of spring and the first of autumn nothing has to wait.
        // A last frost before New Year belongs to the spring that follows.
        for year in [from.year() - 1, from.year(), from.year() + 1] {
            let spring = last.in_year(year);
            let autumn = first.map(|first| {
                let first = first.from_start(last);
                first.in_year(year)
            });
            let ends = autumn.unwrap_or_else(|| {
                spring.checked_add_days(Days::new(SUMMER_DAYS)).unwrap_or(spring)
            });
            if from <= spring {
                return spring;
            }
            if from < ends {
                return from;
            }
        }
        last.in_year(from.year() + 2)
    }
}

/// The day by which it has happened in this share of years, from the days of a tenth, the half and nine
/// tenths: normal on either side of the half (derived).
fn spread_at(
    half: Option<DayOfYear>,
    tenth: Option<DayOfYear>,
    nine_tenths: Option<DayOfYear>,
    share: f64,
) -> Option<DayOfYear> {
    use crate::chance::normal::value_at;
    let half = half?;
    let (side, sds) = if share >= 0.5 {
        (nine_tenths, value_at(share) / value_at(0.9))
    } else {
        (tenth, value_at(share) / value_at(0.1))
    };
    let width = side.map_or(0.0, |side| side.number() - half.number());
    Some(half.plus(sds * width))
}

/// The first day from `from` on with soil at least that warm, within half a year; `None` where it never is.
pub fn soil_from(
    from: NaiveDate,
    warm_enough: Temperature,
    soil: &dyn Fn(NaiveDate) -> Temperature,
) -> Option<NaiveDate> {
    from.iter_days().take(183).find(|day| soil(*day) >= warm_enough)
}

/// Days that weather takes off a way to come, of so many: one in four (considered).
const LOST: f64 = 0.25;

/// What decides from when it can be planted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decides {
    /// Getting used to outdoors.
    Hardening,
    /// Frost.
    Frost,
    /// The soil.
    Soil,
    /// The crop's course: set out sooner, it would not crop.
    Season,
}

/// When it can be planted, and whether that is too late for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Early: if every day goes well; likely: with the days that weather takes; late: its age limit.
    pub range: Range,
    /// What decides the early day.
    pub decides: Decides,
    /// Whether its age limit comes first.
    pub clashes: bool,
}

/// From the day it is used to outdoors, with so many days to go, the days that it waits for, each where
/// known, and its age limit.
pub fn window(
    ready: NaiveDate,
    days_to_go: u32,
    waits_for: &[(Option<NaiveDate>, Decides)],
    age_limit: Option<NaiveDate>,
) -> Window {
    let slack = Days::new((f64::from(days_to_go) * LOST).ceil() as u64);
    let (mut early, mut decides) = (ready, Decides::Hardening);
    for (day, what) in waits_for {
        if let Some(day) = *day
            && day > early
        {
            (early, decides) = (day, *what);
        }
    }
    let likely = ready.checked_add_days(slack).unwrap_or(ready).max(early);
    Window {
        range: Range {
            early: Some(early),
            likely: Some(likely),
            late: age_limit.filter(|limit| *limit >= likely),
        },
        decides,
        clashes: age_limit.is_some_and(|limit| limit < early),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn date(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn usual(last: f64, first: f64) -> Frosts {
        Frosts::Place(FrostDates::from_usual(DayOfYear::new(last), DayOfYear::new(first)))
    }

    fn waits(
        frost: Option<NaiveDate>,
        soil: Option<NaiveDate>,
    ) -> [(Option<NaiveDate>, Decides); 2] {
        [(frost, Decides::Frost), (soil, Decides::Soil)]
    }

    fn nerve(percent: f64) -> Nerve {
        Nerve::from_percent(percent).unwrap()
    }

    #[test]
    fn in_the_season_without_frost_nothing_waits() {
        let frosts = usual(120.0, 290.0);
        let safe = |day: &str| frosts.safe_from(nerve(50.0), date(day));
        assert_eq!(safe("2026-03-01"), date("2026-04-30"));
        assert_eq!(safe("2026-06-01"), date("2026-06-01"));
        assert_eq!(safe("2026-12-01"), date("2027-04-30"));
    }

    #[test]
    fn in_the_south_summer_spans_new_year() {
        let frosts = usual(275.0, 120.0);
        let safe = |day: &str| frosts.safe_from(nerve(50.0), date(day));
        assert_eq!(safe("2026-09-01"), date("2026-10-02"));
        assert_eq!(safe("2027-01-15"), date("2027-01-15"));
        assert_eq!(safe("2026-06-15"), date("2026-10-02"));
    }

    #[test]
    fn a_bolder_gardener_plants_sooner() {
        let frosts = usual(120.0, 290.0);
        let safe = |percent| frosts.safe_from(nerve(percent), date("2026-02-01"));
        assert!(safe(50.0) < safe(25.0) && safe(25.0) < safe(10.0));
        // Nineteen days either way hold nine years in ten to one.
        assert_eq!((safe(10.0) - safe(50.0)).num_days(), 19);
        assert_eq!((safe(25.0) - safe(50.0)).num_days(), 10);
    }

    #[test]
    fn the_latest_of_the_conditions_decides() {
        let day = |day: u32| NaiveDate::from_yo_opt(2026, day);
        let found = window(day(100).unwrap(), 8, &waits(day(120), day(110)), day(130));
        assert_eq!(
            (found.range.early, found.decides, found.clashes),
            (day(120), Decides::Frost, false)
        );
        assert_eq!(found.range.late, day(130));
        let clash = window(day(100).unwrap(), 8, &waits(day(120), None), day(110));
        assert!(clash.clashes);
        assert_eq!(clash.range.late, None);
        let alone = window(day(100).unwrap(), 8, &[], None);
        assert_eq!((alone.range.early, alone.range.likely), (day(100), day(102)));
    }

    proptest! {
        #[test]
        fn the_safe_day_is_never_before_the_day_asked(
            last in 1.0..200.0f64, more in 60.0..200.0f64, percent in 1.0..99.0f64, on in 0..2000i64,
        ) {
            let from = date("2024-01-01") + chrono::TimeDelta::days(on);
            let safe = usual(last, last + more).safe_from(nerve(percent), from);
            prop_assert!(safe >= from && (safe - from).num_days() < 400);
        }

        #[test]
        fn early_likely_and_late_are_in_order(
            ready in 0..300i64, to_go in 0..30u32, frost in 0..400i64, soil in 0..400i64, limit in 0..400i64,
        ) {
            let day = |days| date("2026-01-01") + chrono::TimeDelta::days(days);
            let found = window(day(ready), to_go, &waits(Some(day(frost)), Some(day(soil))), Some(day(limit)));
            prop_assert!(found.range.early <= found.range.likely);
            prop_assert!(found.range.late.is_none_or(|late| Some(late) >= found.range.likely));
            prop_assert!(found.range.early >= Some(day(ready)));
        }
    }
}
