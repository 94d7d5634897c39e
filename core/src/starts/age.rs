//! How old a tray is, by the heat it had, by its leaves and by its roots.
//!
//! Published weeks from sowing to planting assume a heated house. A tray that stands cooler is
//! younger than its calendar age: each day counts by how far its mean is above 40 °F, 25 °F making a
//! day in a warm house of 65 °F (derived from growers' practice). Leaves and roots overrule heat, for
//! they are the plant itself.

use chrono::NaiveDate;
use uom::si::{
    temperature_interval::degree_fahrenheit as degrees_f,
    thermodynamic_temperature::degree_fahrenheit, time::day,
};

use crate::{
    catalogue::Crop,
    given::words,
    quantity::{Temperature, TemperatureInterval, Time},
    time::Range,
};

/// Below this mean nothing grows, °F.
const BASE_F: f64 = 40.0;
/// The mean of a warm house, °F.
const WARM_HOUSE_F: f64 = 65.0;

/// The mean of the warm house that published weeks assume.
pub fn warm_house() -> Temperature {
    Temperature::new::<degree_fahrenheit>(WARM_HOUSE_F)
}

/// What so long at this mean temperature comes to, as time in a warm house.
pub fn like_warm(mean: Temperature, time: Time) -> Time {
    time * rate(mean)
}

/// Days in a warm house for each day at this mean.
fn rate(mean: Temperature) -> f64 {
    ((mean.get::<degree_fahrenheit>() - BASE_F) / (WARM_HOUSE_F - BASE_F)).max(0.0)
}

words! {
    /// How the roots look when the plug is slid out.
    pub enum Roots {
        /// The plug falls to pieces.
        Loose = "loose" => "plug crumbles",
        /// It holds, roots white, few of them circling.
        Holding = "holding" => "holds together",
        /// Roots circle round it.
        Circling = "circling" => "circling",
        /// A mat of roots holds it.
        Matted = "matted" => "a mat",
    }
}

words! {
    /// What a tray's age says.
    pub enum Verdict {
        /// Too young to plant.
        Young = "young",
        /// At its best.
        Ready = "ready",
        /// At its best no longer, but good.
        PlantNow = "plant-now",
        /// Past its age.
        Over = "over",
    }
}

/// What the verdict rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// The heat it had.
    Heat,
    /// Its leaves.
    Leaves,
    /// Its roots.
    Roots,
}

/// A crop's ages, as time in a warm house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ages {
    /// From here on it can be planted.
    pub ready: Time,
    /// Up to here it is at its best.
    pub best_until: Time,
    /// Up to here it is good.
    pub limit: Time,
}

/// Weeks beyond the published range after which a tray is too old.
fn grace_weeks(crop: &Crop) -> f64 {
    f64::from(crop.tray().grace_weeks)
}

impl Ages {
    /// Of a crop; `None` where no weeks to planting are known.
    pub fn of(crop: &Crop) -> Option<Self> {
        let weeks = crop.weeks_to_plant()?;
        let days = |span: chrono::TimeDelta| Time::new::<day>(span.num_days() as f64);
        let best_until = days(weeks.most);
        Some(Self {
            ready: days(weeks.least),
            best_until,
            limit: best_until + Time::new::<day>(7.0 * grace_weeks(crop)),
        })
    }

    /// What an age says.
    pub fn verdict(&self, age: Time) -> Verdict {
        // Sums of days are not exact to the last bit; an hour is finer than any age that is told.
        let hour = Time::new::<day>(1.0 / 24.0);
        if age + hour < self.ready {
            Verdict::Young
        } else if age <= self.best_until + hour {
            Verdict::Ready
        } else if age <= self.limit + hour {
            Verdict::PlantNow
        } else {
            Verdict::Over
        }
    }
}

/// True leaves at planting, from and to, by family (common practice).
pub fn leaves_at_planting(crop: &Crop) -> (u32, u32) {
    let [from, to] = crop.tray().leaves;
    (from.into(), to.into())
}

/// What the number of true leaves says (common practice).
pub fn by_leaves(crop: &Crop, leaves: u32) -> Verdict {
    let (from, to) = leaves_at_planting(crop);
    // A leaf comes about twice a week at best.
    let grace = (grace_weeks(crop) * 1.5).ceil() as u32;
    if leaves < from {
        Verdict::Young
    } else if leaves <= to {
        Verdict::Ready
    } else if leaves <= to + grace {
        Verdict::PlantNow
    } else {
        Verdict::Over
    }
}

/// What the roots say (common practice); a mat of them is past its age only in kinds that suffer soon.
pub fn by_roots(crop: &Crop, roots: Roots) -> Verdict {
    match roots {
        Roots::Loose => Verdict::Young,
        Roots::Holding => Verdict::Ready,
        Roots::Circling => Verdict::PlantNow,
        Roots::Matted if grace_weeks(crop) > 2.0 => Verdict::PlantNow,
        Roots::Matted => Verdict::Over,
    }
}

/// One look at a tray.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// When.
    pub date: NaiveDate,
    /// True leaves.
    pub leaves: Option<u32>,
    /// Roots.
    pub roots: Option<Roots>,
}

/// What a tray's age comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// The verdict.
    pub verdict: Verdict,
    /// What it rests on.
    pub by: By,
    /// The age that tells, as time in a warm house: that by heat, put right by looks.
    pub age: Time,
}

/// What larger room gives a tray that was ready for it (considered): two weeks in a warm house.
const POTTING_ON_DAYS: f64 = 14.0;
/// A look says a verdict, not an age: it is taken to lie this far inside of it, in days.
const INSIDE_DAYS: f64 = 0.5;
/// For how long a look tells where no weeks are known for the crop, days.
const LOOK_TELLS_DAYS: i64 = 14;

/// The verdict on a tray: by its roots, else its leaves, else the heat it had; `None` where none of them
/// tells.
///
/// A look overrules the heat up to its day, and from there on the tray ages by heat again. `heat` is the
/// age by heat on a day; `looks` are in order; `potted_on` is when it was last given larger room.
pub fn judged(
    crop: &Crop,
    heat: &dyn Fn(NaiveDate) -> Time,
    looks: &[Look],
    potted_on: Option<NaiveDate>,
    today: NaiveDate,
) -> Option<Judged> {
    let days = Time::new::<day>;
    let Some(ages) = Ages::of(crop) else {
        let last = looks.last().filter(|look| (today - look.date).num_days() <= LOOK_TELLS_DAYS)?;
        let by_roots = last.roots.map(|roots| (by_roots(crop, roots), By::Roots));
        let by_leaves = last.leaves.map(|leaves| (by_leaves(crop, leaves), By::Leaves));
        let (verdict, by) = by_roots.or(by_leaves)?;
        let age = heat(today);
        return Some(Judged { verdict, by, age });
    };
    let (mut ahead, mut by) = (days(0.0), By::Heat);
    let larger_room = |ahead: Time, on: NaiveDate| {
        let past_ready = heat(on) + ahead - ages.ready;
        ahead - past_ready.max(days(0.0)).min(days(POTTING_ON_DAYS))
    };
    let mut potted_on = potted_on.filter(|on| *on <= today);
    for look in looks.iter().filter(|look| look.date <= today) {
        if let Some(on) = potted_on.filter(|on| *on <= look.date) {
            ahead = larger_room(ahead, on);
            potted_on = None;
        }
        let leaves = look.leaves.map(|leaves| (by_leaves(crop, leaves), By::Leaves));
        let roots = look.roots.map(|roots| (by_roots(crop, roots), By::Roots));
        for (verdict, seen) in [leaves, roots].into_iter().flatten() {
            let by_heat = heat(look.date);
            let (from, to) = ages.of_verdict(verdict);
            let mut age = by_heat + ahead;
            age = from.map_or(age, |from| age.max(from));
            age = to.map_or(age, |to| age.min(to));
            (ahead, by) = (age - by_heat, seen);
        }
    }
    if let Some(on) = potted_on {
        ahead = larger_room(ahead, on);
    }
    let age = heat(today) + ahead;
    Some(Judged { verdict: ages.verdict(age), by, age })
}

impl Ages {
    /// From when and up to when a verdict holds.
    fn of_verdict(&self, verdict: Verdict) -> (Option<Time>, Option<Time>) {
        let inside = Time::new::<day>(INSIDE_DAYS);
        match verdict {
            Verdict::Young => (None, Some(self.ready - inside)),
            Verdict::Ready => (Some(self.ready), Some(self.best_until)),
            Verdict::PlantNow => (Some(self.best_until + inside), Some(self.limit)),
            Verdict::Over => (Some(self.limit + inside), None),
        }
    }
}

/// The farthest day that an age is followed to.
const FOLLOWED_DAYS: usize = 1000;

/// The day on which a tray reaches `limit`, or did, by the mean temperature of each day; early and late if
/// the days turn out 5 °F warmer or colder. `None` for a day it never comes.
pub fn reaches(
    limit: Time,
    age: Time,
    today: NaiveDate,
    mean: &dyn Fn(NaiveDate) -> Temperature,
) -> Range {
    let to_go = (limit - age).get::<day>();
    let on = |warmer_f: f64| {
        let rate = |date| rate(mean(date) + TemperatureInterval::new::<degrees_f>(warmer_f));
        let (mut so_far, mut date) = (0.0, today);
        for _ in 0..FOLLOWED_DAYS {
            let back = to_go < 0.0;
            let step = if back { date.pred_opt()? } else { date };
            let grown = rate(step);
            // To the nearest day.
            if to_go.abs() - so_far <= grown / 2.0 {
                return Some(date);
            }
            so_far += grown;
            date = if back { step } else { date.succ_opt()? };
        }
        None
    };
    let (mut early, mut late) = (on(5.0), on(-5.0));
    // For a day that is past, warmer days mean that it is longer ago than colder ones do.
    if early > late && late.is_some() {
        core::mem::swap(&mut early, &mut late);
    }
    Range { early, likely: on(0.0), late }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{crop, crops};
    use proptest::prelude::*;

    fn known(id: &str) -> &'static Crop {
        crop(id).ok().unwrap()
    }

    fn f(degrees: f64) -> Temperature {
        Temperature::new::<degree_fahrenheit>(degrees)
    }

    fn date(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn days(days: f64) -> Time {
        Time::new::<day>(days)
    }

    #[test]
    fn a_week_in_a_warm_house_is_a_week() {
        assert!((like_warm(warm_house(), days(7.0)).get::<day>() - 7.0).abs() < 1e-9);
        assert_eq!(like_warm(f(40.0), days(50.0)).get::<day>(), 0.0);
        assert_eq!(like_warm(f(20.0), days(50.0)).get::<day>(), 0.0);
        // At 50 °F seven weeks are not three.
        let cool = like_warm(f(50.0), days(49.0)).get::<day>() / 7.0;
        assert!((cool - 2.8).abs() < 1e-9);
    }

    #[test]
    fn cabbage_kin_is_too_old_sooner_than_tomato() {
        let over = |id: &str| {
            let ages = Ages::of(known(id)).unwrap();
            (ages.limit - ages.best_until).get::<day>()
        };
        assert_eq!((over("cauliflower"), over("lettuce-leaf"), over("tomato")), (7.0, 14.0, 28.0));
    }

    #[test]
    fn roots_overrule_leaves_and_leaves_overrule_heat() {
        let cabbage = known("cabbage");
        let today = date("2026-04-01");
        let judge = |leaves, roots| {
            let look = Look { date: today, leaves, roots };
            let judged =
                judged(cabbage, &|_| Time::new::<day>(10.0), &[look], None, today).unwrap();
            (judged.verdict, judged.by)
        };
        assert_eq!(judge(None, None), (Verdict::Young, By::Heat));
        assert_eq!(judge(Some(5), None), (Verdict::Ready, By::Leaves));
        assert_eq!(judge(Some(5), Some(Roots::Matted)), (Verdict::Over, By::Roots));
        assert_eq!(by_roots(known("tomato"), Roots::Matted), Verdict::PlantNow);
    }

    #[test]
    fn after_a_look_a_tray_ages_on() {
        let cabbage = known("cabbage");
        let (looked, later) = (date("2026-04-01"), date("2026-05-06"));
        // By heat it is young throughout: a day for every two.
        let heat = |on: NaiveDate| Time::new::<day>(5.0 + (on - looked).num_days() as f64 / 2.0);
        let holding = Look { date: looked, leaves: None, roots: Some(Roots::Holding) };
        let verdict = |today, potted_on| {
            judged(cabbage, &heat, &[holding], potted_on, today).unwrap().verdict
        };
        assert_eq!(verdict(looked, None), Verdict::Ready);
        assert_eq!(verdict(later, None), Verdict::Ready);
        // Four weeks when looked at; 25 warm days more make it pass seven weeks.
        let last = date("2026-05-21");
        assert_eq!(verdict(last, None), Verdict::PlantNow);
        // Larger room on the way gives two weeks back, and larger room for what is young nothing.
        assert_eq!(verdict(last, Some(later)), Verdict::Ready);
        assert_eq!(verdict(last, Some(looked)), Verdict::PlantNow);
    }

    #[test]
    fn a_past_day_lies_between_its_early_and_late() {
        let today = date("2026-04-01");
        let weeks = |weeks: f64| Time::new::<day>(7.0 * weeks);
        let past = reaches(weeks(6.0), weeks(9.0), today, &|_| f(60.0));
        assert!(past.early <= past.likely && past.likely <= past.late && past.late < Some(today));
        let never = reaches(weeks(6.0), weeks(2.0), today, &|_| f(38.0));
        assert_eq!((never.likely, never.late), (None, None));
    }

    proptest! {
        #[test]
        fn a_warmer_tray_is_never_younger(mean in 20.0..90.0f64, more in 0.0..20.0f64, long in 0.0..200.0f64) {
            prop_assert!(like_warm(f(mean + more), days(long)) >= like_warm(f(mean), days(long)));
        }

        #[test]
        fn verdicts_only_rise_with_age_and_leaves(days in 0.0..150.0f64, more in 0.0..50.0f64, leaves in 0..20u32) {
            for crop in crops() {
                prop_assert!(by_leaves(crop, leaves) <= by_leaves(crop, leaves + 1));
                if let Some(ages) = Ages::of(crop) {
                    let (now, later) = (Time::new::<day>(days), Time::new::<day>(days + more));
                    prop_assert!(ages.verdict(now) <= ages.verdict(later));
                }
            }
        }

        #[test]
        fn the_limit_comes_sooner_in_the_warm(weeks in 0.0..5.0f64, mean in 50.0..75.0f64) {
            let today = NaiveDate::from_ymd_opt(2026, 4, 1).unwrap();
            let range = reaches(Time::new::<day>(56.0), Time::new::<day>(7.0 * weeks), today, &|_| f(mean));
            prop_assert!(range.early <= range.likely && range.likely <= range.late);
        }
    }
}
