//! How old a tray is, by the heat it had, by its leaves and by its roots.
//!
//! Published weeks from sowing to planting assume a heated house. A tray that stands cooler is
//! younger than its calendar age: each day counts by how far its mean is above 40 °F, 25 °F making a
//! day in a warm house of 65 °F (derived from growers' practice). Leaves and roots overrule heat, for
//! they are the plant itself.

use chrono::{Days, NaiveDate};
use uom::si::{
    temperature_interval::degree_fahrenheit as degrees_f,
    thermodynamic_temperature::degree_fahrenheit, time::day,
};

use crate::{
    catalogue::{Crop, Family},
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

/// What so many days at this mean temperature come to, as time in a warm house.
pub fn like_warm(mean: Temperature, days: f64) -> Time {
    Time::new::<day>(days * rate(mean))
}

/// Days in a warm house for each day at this mean.
fn rate(mean: Temperature) -> f64 {
    ((mean.get::<degree_fahrenheit>() - BASE_F) / (WARM_HOUSE_F - BASE_F)).max(0.0)
}

words! {
    /// How the roots look when the plug is slid out.
    pub enum Roots {
        /// The plug falls to pieces.
        Loose = "loose",
        /// It holds, roots white, few of them circling.
        Holding = "holding",
        /// Roots circle round it.
        Circling = "circling",
        /// A mat of roots holds it.
        Matted = "matted",
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

/// Weeks beyond the published range after which a tray is too old (derived): cabbage kin and squash kin
/// suffer soon, tomato and pepper hardly (Penn State Extension, 2011).
fn grace_weeks(crop: &Crop) -> f64 {
    match crop.family() {
        Family::Squash | Family::Cabbage => 1.0,
        Family::Tomato => 4.0,
        _ => 2.0,
    }
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
    match crop.family() {
        Family::Squash => (2, 3),
        Family::Tomato => (5, 9),
        Family::Onion => (3, 5),
        Family::Beet => (3, 5),
        _ => (4, 6),
    }
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

/// The verdict on a tray: by its roots, else its leaves, else the heat it had; `None` where none of
/// them tells.
pub fn judged(
    crop: &Crop,
    age: Time,
    leaves: Option<u32>,
    roots: Option<Roots>,
) -> Option<(Verdict, By)> {
    let by_roots = roots.map(|roots| (by_roots(crop, roots), By::Roots));
    let by_leaves = leaves.map(|leaves| (by_leaves(crop, leaves), By::Leaves));
    let by_heat = Ages::of(crop).map(|ages| (ages.verdict(age), By::Heat));
    by_roots.or(by_leaves).or(by_heat)
}

/// The day on which a tray reaches `limit`, standing at this mean from `today` on; early and late if
/// the days turn out 5 °F warmer or colder. `None` for a day it never comes.
pub fn reaches(limit: Time, age: Time, today: NaiveDate, mean: Temperature) -> Range {
    let on = |warmer_f: f64| {
        let rate = rate(mean + TemperatureInterval::new::<degrees_f>(warmer_f));
        let days = ((limit - age).get::<day>() / rate).round();
        let is_near = rate > 0.0 && days.abs() < 1000.0;
        let days = is_near.then_some(days as i64)?;
        let away = Days::new(days.unsigned_abs());
        if days < 0 {
            today.checked_sub_days(away)
        } else {
            today.checked_add_days(away)
        }
    };
    let (mut early, mut late) = (on(5.0), on(-5.0));
    // For a day that is past, warmer days mean that it is longer ago than colder ones do.
    if early > late && late.is_some() {
        core::mem::swap(&mut early, &mut late);
    }
    Range {
        early,
        likely: on(0.0),
        late,
    }
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

    #[test]
    fn a_week_in_a_warm_house_is_a_week() {
        assert!((like_warm(warm_house(), 7.0).get::<day>() - 7.0).abs() < 1e-9);
        assert_eq!(like_warm(f(40.0), 50.0).get::<day>(), 0.0);
        assert_eq!(like_warm(f(20.0), 50.0).get::<day>(), 0.0);
        // At 50 °F seven weeks are not three.
        let cool = like_warm(f(50.0), 49.0).get::<day>() / 7.0;
        assert!((cool - 2.8).abs() < 1e-9);
    }

    #[test]
    fn cabbage_kin_is_too_old_sooner_than_tomato() {
        let over = |id: &str| {
            let ages = Ages::of(known(id)).unwrap();
            (ages.limit - ages.best_until).get::<day>()
        };
        assert_eq!(
            (over("cauliflower"), over("lettuce-leaf"), over("tomato")),
            (7.0, 14.0, 28.0)
        );
    }

    #[test]
    fn roots_overrule_leaves_and_leaves_overrule_heat() {
        let cabbage = known("cabbage");
        let young = Time::new::<day>(10.0);
        let judge = |leaves, roots| judged(cabbage, young, leaves, roots).unwrap();
        assert_eq!(judge(None, None), (Verdict::Young, By::Heat));
        assert_eq!(judge(Some(5), None), (Verdict::Ready, By::Leaves));
        assert_eq!(
            judge(Some(5), Some(Roots::Matted)),
            (Verdict::Over, By::Roots)
        );
        assert_eq!(by_roots(known("tomato"), Roots::Matted), Verdict::PlantNow);
    }

    #[test]
    fn a_past_day_lies_between_its_early_and_late() {
        let today = NaiveDate::from_ymd_opt(2026, 4, 1).unwrap();
        let weeks = |weeks: f64| Time::new::<day>(7.0 * weeks);
        let past = reaches(weeks(6.0), weeks(9.0), today, f(60.0));
        assert!(past.early <= past.likely && past.likely <= past.late && past.late < Some(today));
        let never = reaches(weeks(6.0), weeks(2.0), today, f(38.0));
        assert_eq!((never.likely, never.late), (None, None));
    }

    proptest! {
        #[test]
        fn a_warmer_tray_is_never_younger(mean in 20.0..90.0f64, more in 0.0..20.0f64, days in 0.0..200.0f64) {
            prop_assert!(like_warm(f(mean + more), days) >= like_warm(f(mean), days));
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
            let range = reaches(Time::new::<day>(56.0), Time::new::<day>(7.0 * weeks), today, f(mean));
            prop_assert!(range.early <= range.likely && range.likely <= range.late);
        }
    }
}
