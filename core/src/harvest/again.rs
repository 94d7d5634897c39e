//! When to look again, and how long what is at its prime stays there.
//!
//! What is published are intervals in warm weather ("every other day"). They stretch as it cools: a
//! crop takes a budget of heat above its base between two looks, so
//! interval = budget / (mean temperature - base), with budget = warm interval x (25 C - base). A
//! day at the least, a fortnight at the most. Derived, and untested in print; a gardener's own gaps
//! between pickings replace the budget. Under ten hours of daylight leaves stand still rather than
//! stop (D. Drost and others, HortScience 52(9):1251, 2017: growth of tunnel spinach fell with the
//! light whether or not it was warmed), so they are looked at every two weeks, and no date is promised.

use chrono::{NaiveDate, TimeDelta};
use uom::si::{
    temperature_interval::kelvin as kelvin_step, thermodynamic_temperature::kelvin, time::day,
};

use super::{combine::Lean, cues::Sheet, heat::DegreeDays, stage::Stage};
use crate::order::{self, between};
use crate::quantity::{Temperature, TemperatureInterval, Time};

/// The mean temperature that published intervals are for, kelvin (25 C).
const WARM_K: f64 = 298.15;
/// The most days between two looks.
const FORTNIGHT: f64 = 14.0;
/// How many times longer than in warm weather anything is said to stay at its prime.
const LONGEST_HOLD: f64 = 3.0;

/// How fast a crop moves: the heat it takes between two looks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    budget: DegreeDays,
    base: Temperature,
}

impl Pace {
    /// From an interval that holds in warm weather.
    pub fn warm(interval: Time, base: Temperature) -> Self {
        let above = (WARM_K - base.get::<kelvin>()).max(0.0);
        Self { budget: degree_days(interval.get::<day>() * above), base }
    }

    /// From a gardener's own gaps between pickings and the mean temperature of each: the middle
    /// budget of them. `None` without gaps.
    pub fn own(gaps: &[(Time, Temperature)], base: Temperature) -> Option<Self> {
        let above = |mean: Temperature| (mean.get::<kelvin>() - base.get::<kelvin>()).max(0.0);
        let mut budgets: Vec<f64> =
            gaps.iter().map(|(gap, mean)| gap.get::<day>() * above(*mean)).collect();
        order::sort(&mut budgets, &|budget| [order::rank(*budget), 0, 0]);
        let middle = budgets.get(budgets.len() / 2)?;
        Some(Self { budget: degree_days(*middle), base })
    }

    /// The interval at this mean temperature: a day to a fortnight; a fortnight where nothing moves.
    pub fn at(self, mean: Temperature) -> Time {
        self.days_at(mean, 1.0, FORTNIGHT)
    }

    fn days_at(self, mean: Temperature, least: f64, most: f64) -> Time {
        let above = mean.get::<kelvin>() - self.base.get::<kelvin>();
        let days = if above > 0.0 { self.budget.celsius_days() / above } else { most };
        Time::new::<day>(between(days, least, most))
    }
}

fn degree_days(kelvin_days: f64) -> DegreeDays {
    DegreeDays::of_one_day(TemperatureInterval::new::<kelvin_step>(kelvin_days))
}

/// What bears on when to look again.
#[derive(Clone, Copy)]
pub struct Looking<'a> {
    /// The crop's sheet.
    pub sheet: &'a Sheet,
    /// The day of this look.
    pub today: NaiveDate,
    /// The verdict, if there is one.
    pub stage: Option<Stage>,
    /// Whether any looked at was going over: then the next look is the soonest usual one.
    pub any_going: bool,
    /// Mean temperature of the days to come, if known.
    pub mean: Option<Temperature>,
    /// The day of the flower, the silk or the fruit's set, if known.
    pub flowered: Option<NaiveDate>,
    /// The season of days under ten hours that holds today or follows it.
    pub short_days: Option<(NaiveDate, NaiveDate)>,
    /// A frost to come, where the crop does not bear one.
    pub frost: Option<NaiveDate>,
    /// The gardener's own pace, if the record tells it.
    pub own: Option<Pace>,
}

/// When to look again. A date that can't be promised is `None`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// The first day worth a look.
    pub early: NaiveDate,
    /// The likely day.
    pub likely: Option<NaiveDate>,
    /// The day by which to have looked.
    pub late: Option<NaiveDate>,
    /// What decided.
    pub why: Why,
}

/// What decided when to look again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The usual interval, for warm weather: the weather to come is not known.
    WarmInterval,
    /// The interval at the temperature to come.
    Interval,
    /// The gardener's own pace.
    Own,
    /// The days from the flower.
    Flower,
    /// Days are under ten hours.
    ShortDays,
    /// A frost comes before.
    Frost,
}

/// When to look again; `None` where nothing is left to look at.
pub fn look_again(looking: &Looking<'_>) -> Option<Look> {
    let sheet = looking.sheet;
    if looking.stage == Some(Stage::Past) && !sheet.sets_on() {
        return None;
    }
    let look =
        by_short_days(looking).or_else(|| by_flower(looking)).or_else(|| by_interval(looking))?;
    let Some(frost) = looking.frost.filter(|frost| *frost >= looking.today) else {
        return Some(look);
    };
    // Never past a frost that the crop does not bear.
    if look.late.is_some_and(|late| late <= frost) {
        return Some(look);
    }
    let before = |date: NaiveDate| date.min(frost);
    Some(Look {
        early: before(look.early),
        likely: Some(look.likely.map_or(frost, before)),
        late: Some(frost),
        why: Why::Frost,
    })
}

fn by_short_days(looking: &Looking<'_>) -> Option<Look> {
    let (from, to) = looking.short_days?;
    let within = from <= looking.today && looking.today <= to;
    if !(within && looking.sheet.is_leaves()) {
        return None;
    }
    let early = later(looking.today, FORTNIGHT)?;
    Some(Look { early, likely: None, late: None, why: Why::ShortDays })
}

fn by_flower(looking: &Looking<'_>) -> Option<Look> {
    let flower = looking.sheet.flower.as_ref()?;
    let flowered = looking.flowered?;
    if !matches!(looking.stage, None | Some(Stage::NotYet)) {
        return None;
    }
    let [least, most] = flower.days;
    let after = |days: u8| later(flowered, f64::from(days));
    let late = after(most)?;
    // Later than that the flower's date no longer tells anything.
    if late <= looking.today {
        return None;
    }
    let tomorrow = later(looking.today, 1.0)?;
    Some(Look {
        early: after(flower.look_from.unwrap_or(least))?.max(tomorrow),
        likely: Some(after(least)?.max(tomorrow)),
        late: Some(late),
        why: Why::Flower,
    })
}

fn by_interval(looking: &Looking<'_>) -> Option<Look> {
    let wait = &looking.sheet.wait;
    let (soon, far, why) = match (looking.own, looking.mean) {
        (Some(own), Some(mean)) => (own.at(mean), own.at(mean), Why::Own),
        (_, Some(mean)) => {
            let [soon, far] = wait.look_days.map(|days| wait.pace(days).at(mean));
            (soon, far, Why::Interval)
        }
        (_, None) => {
            let [soon, far] = wait.look_days.map(|days| Time::new::<day>(f64::from(days)));
            (soon, far, Why::WarmInterval)
        }
    };
    let far = if looking.any_going || looking.stage == Some(Stage::Going) { soon } else { far };
    let [soon, far] = [soon, far].map(|time| time.get::<day>());
    Some(Look {
        early: later(looking.today, soon)?,
        likely: Some(later(looking.today, f64::midpoint(soon, far))?),
        late: Some(later(looking.today, far)?),
        why,
    })
}

impl super::cues::Wait {
    fn base(&self) -> Temperature {
        use uom::si::thermodynamic_temperature::degree_fahrenheit;
        Temperature::new::<degree_fahrenheit>(self.base_f)
    }

    fn pace(&self, days: u8) -> Pace {
        Pace::warm(Time::new::<day>(f64::from(days)), self.base())
    }
}

/// How long what is at its prime today stays there: the least and the most that is usual, at this
/// mean temperature, or in warm weather where it is not known.
pub fn holds(sheet: &Sheet, mean: Option<Temperature>) -> [Time; 2] {
    let wait = &sheet.wait;
    wait.holds_days.map(|days| match mean {
        Some(mean) => wait.pace(days).days_at(mean, 1.0, LONGEST_HOLD * f64::from(days)),
        None => Time::new::<day>(f64::from(days)),
    })
}

/// The pace that a gardener's own gaps between pickings of this crop tell.
pub fn own_pace(sheet: &Sheet, gaps: &[(Time, Temperature)]) -> Option<Pace> {
    Pace::own(gaps, sheet.wait.base())
}

/// Whether, of what is at this stage today, some will be past its prime on the day of the next visit.
pub fn too_late_by(
    sheet: &Sheet,
    stage: Stage,
    today: NaiveDate,
    visit: NaiveDate,
    mean: Option<Temperature>,
) -> bool {
    let [least, most] = holds(sheet, mean).map(|time| time.get::<day>());
    let lasts = match (stage, sheet.lean()) {
        (Stage::Past, _) => return false,
        (Stage::Going, _) => 1.0,
        (Stage::Prime, _) => least,
        // What is not ready today may be ready tomorrow, if it is a crop that hurries.
        (Stage::NotYet, Lean::Late) => most,
        (Stage::NotYet, Lean::Early) => most * 2.0,
    };
    later(today, lasts).is_some_and(|last| visit > last)
}

/// The date so many days later, to the nearest day.
#[expect(clippy::cast_possible_truncation, reason = "a span of days far below the limits of i64")]
fn later(from: NaiveDate, days: f64) -> Option<NaiveDate> {
    from.checked_add_signed(TimeDelta::days(days.round() as i64))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use uom::si::thermodynamic_temperature::degree_celsius;

    use super::super::cues::{sheet_named, sheets};
    use super::*;

    fn date(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn celsius(degrees: f64) -> Temperature {
        Temperature::new::<degree_celsius>(degrees)
    }

    fn looking(sheet: &'static str, today: &str) -> Looking<'static> {
        Looking {
            sheet: sheet_named(sheet).unwrap(),
            today: date(today),
            stage: None,
            any_going: false,
            mean: None,
            flowered: None,
            short_days: None,
            frost: None,
            own: None,
        }
    }

    #[test]
    fn one_going_over_shortens_the_wait() {
        let prime = Looking { stage: Some(Stage::Prime), ..looking("snap-bean", "2026-07-10") };
        assert_eq!(look_again(&prime).unwrap().late, Some(date("2026-07-13")));
        let going = Looking { any_going: true, ..prime };
        assert_eq!(look_again(&going).unwrap().late, Some(date("2026-07-12")));
    }

    #[test]
    fn no_look_is_planned_past_a_frost() {
        let squash = Looking {
            stage: Some(Stage::NotYet),
            frost: Some(date("2026-10-03")),
            ..looking("winter-squash", "2026-10-01")
        };
        let look = look_again(&squash).unwrap();
        assert_eq!((look.late, look.why), (Some(date("2026-10-03")), Why::Frost));
        let bean =
            Looking { frost: Some(date("2026-10-30")), ..looking("snap-bean", "2026-10-01") };
        assert_eq!(look_again(&bean).unwrap().why, Why::WarmInterval);
    }

    #[test]
    fn in_short_days_leaves_get_a_fortnight_and_no_promise() {
        let season = (date("2026-11-16"), date("2027-01-28"));
        let kale = Looking { short_days: Some(season), ..looking("kale", "2026-12-01") };
        let look = look_again(&kale).unwrap();
        assert_eq!((look.early, look.likely, look.late), (date("2026-12-15"), None, None));
        let before = Looking { today: date("2026-11-01"), ..kale };
        assert_ne!(look_again(&before).unwrap().why, Why::ShortDays);
        let leek = Looking { short_days: Some(season), ..looking("leek", "2026-12-01") };
        assert_ne!(look_again(&leek).unwrap().why, Why::ShortDays);
    }

    #[test]
    fn a_head_past_its_prime_needs_no_other_look() {
        let past = |sheet| {
            look_again(&Looking { stage: Some(Stage::Past), ..looking(sheet, "2026-07-10") })
        };
        assert!(past("broccoli").is_none());
        assert!(past("okra").is_some());
    }

    #[test]
    fn own_gaps_replace_the_published_interval() {
        let bean = sheet_named("snap-bean").unwrap();
        let gap = |days: f64, mean| (Time::new::<day>(days), celsius(mean));
        let own = own_pace(bean, &[gap(4.0, 20.0), gap(3.0, 20.0), gap(8.0, 20.0)]);
        let look = Looking { own, mean: Some(celsius(20.0)), ..looking("snap-bean", "2026-07-10") };
        let look = look_again(&look).unwrap();
        assert_eq!((look.likely, look.why), (Some(date("2026-07-14")), Why::Own));
        assert!(own_pace(bean, &[]).is_none());
    }

    #[test]
    fn a_visit_after_the_window_is_too_late() {
        let bean = sheet_named("snap-bean").unwrap();
        let late = |stage, visit| too_late_by(bean, stage, date("2026-07-10"), date(visit), None);
        assert!(!late(Stage::Prime, "2026-07-12"));
        assert!(late(Stage::Prime, "2026-07-13"));
        assert!(late(Stage::NotYet, "2026-07-20"));
        assert!(!late(Stage::Past, "2026-08-20"));
    }

    proptest! {
        #[test]
        fn the_cooler_the_longer_between_looks(
            which in 0..1000_usize, warm in 5.0..35.0f64, cooler in 0.0..20.0f64,
        ) {
            let sheet = &sheets()[which % sheets().len()];
            let at = |mean: f64| {
                let look = Looking { sheet, mean: Some(celsius(mean)), ..looking("kale", "2026-07-10") };
                look_again(&look).unwrap()
            };
            let (sooner, later) = (at(warm), at(warm - cooler));
            prop_assert!(sooner.early <= later.early && sooner.late <= later.late);
            for look in [sooner, later] {
                let wait = (look.late.unwrap() - date("2026-07-10")).num_days();
                prop_assert!((1..=14).contains(&wait), "{wait}");
                prop_assert!(look.early <= look.likely.unwrap() && look.likely <= look.late);
            }
            let [least, most] = holds(sheet, Some(celsius(warm)));
            prop_assert!(least <= most);
        }
    }
}
