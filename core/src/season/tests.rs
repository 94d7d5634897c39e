use chrono::NaiveDate;
use proptest::prelude::*;
use uom::si::temperature_interval::degree_celsius as kelvin;

use super::{Course, Growing, How, NotKnown, Reason, Verdict, Year, course};
use crate::catalogue::{self, Crop};
use crate::place::{
    Latitude,
    air::{Air, of_celsius},
    soil::{SoilYear, Texture},
};
use crate::quantity::TemperatureInterval;

/// Mean lows and highs of Des Moines, Iowa, 1974 to 2013, °C, rounded (A. Srivastava and others,
/// *J. Soil Water Cons.* 74:334, 2019).
const LOWS: [f64; 12] = [-12.0, -9.0, -3.0, 4.0, 10.0, 16.0, 18.0, 17.0, 12.0, 5.0, -2.0, -9.0];
const HIGHS: [f64; 12] = [-2.0, 1.0, 8.0, 16.0, 22.0, 28.0, 30.0, 29.0, 24.0, 18.0, 8.0, 0.0];

fn warmer_by(degrees: f64) -> Year {
    let shifted = |months: [f64; 12]| months.map(|month| of_celsius(month + degrees));
    let sds = [TemperatureInterval::new::<kelvin>(4.0); 12];
    let air = Air::from_months(&shifted(LOWS), &shifted(HIGHS), Some(&sds));
    let soil = SoilYear::from_air(&air, Texture::Loam);
    Year::new(&air, &soil, Latitude::from_degrees(41.5))
}

fn crop(name: &str) -> &'static Crop {
    catalogue::crop(name).ok().unwrap()
}

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn at(name: &str, day: &str, how: How) -> Course {
    course(&warmer_by(0.0), crop(name), date(day), how).unwrap()
}

#[test]
fn radish_in_april_is_pulled_within_two_months() {
    let radish = at("radish", "2026-04-15", How::Sown);
    assert_eq!((radish.verdict, radish.reason), (Verdict::Yes, None));
    let first = radish.first.likely.unwrap();
    assert!(date("2026-05-10") < first && first < date("2026-06-15"), "{first}");
    assert!(radish.up.likely.unwrap() < first && radish.alive > 0.9);
}

#[test]
fn peas_in_late_october_are_killed_by_the_winter() {
    let pea = at("pea", "2026-10-20", How::Sown);
    assert_eq!(pea.verdict, Verdict::TooLate);
    assert!(matches!(
        pea.reason,
        Some(Reason::Killed { .. } | Reason::NeverThere | Reason::TooColdToComeUp { .. })
    ));
}

#[test]
fn tomatoes_are_set_out_in_may_and_neither_in_march_nor_in_september() {
    assert_eq!(at("tomato", "2026-05-20", How::SetOut).verdict, Verdict::Yes);
    let march = at("tomato", "2026-03-20", How::SetOut);
    assert_eq!(march.verdict, Verdict::TooEarly);
    assert!(matches!(march.reason, Some(Reason::SoilCold { .. })));
    assert_eq!(at("tomato", "2026-09-20", How::SetOut).verdict, Verdict::TooLate);
}

#[test]
fn spinach_in_late_may_bolts() {
    let spinach = at("spinach", "2026-05-25", How::Sown);
    assert!(matches!(spinach.reason, Some(Reason::Bolts { .. })), "{spinach:?}");
    assert_eq!(spinach.verdict, Verdict::TooLate);
}

#[test]
fn lettuce_in_a_hot_july_waits_for_cooler_soil() {
    let day = date("2026-08-01");
    let lettuce = course(&warmer_by(5.0), crop("lettuce-leaf"), day, How::Sown).unwrap();
    assert!(matches!(lettuce.reason, Some(Reason::TooHotToComeUp { .. })), "{lettuce:?}");
    assert_eq!(lettuce.verdict, Verdict::TooEarly);
}

/// Where winters are cold, one week moves spinach from autumn to spring, so it is told as a range.
#[test]
fn spinach_of_late_september_stands_still_until_spring() {
    let august = at("spinach", "2026-08-25", How::Sown).first;
    let late = at("spinach", "2026-10-01", How::Sown);
    assert!(august.likely.unwrap() < date("2026-11-15"));
    assert!(late.first.likely.unwrap() > date("2027-02-15"));
    let (from, to) = late.still.unwrap();
    assert!(from < date("2026-12-15") && to > date("2027-01-15"));
}

#[test]
fn what_is_not_known_is_said() {
    let year = warmer_by(0.0);
    let told = |name: &str, how| Growing::new(&year, crop(name), how).map(|_| ());
    assert_eq!(told("mint", How::SetOut), Err(NotKnown::Growth));
    assert_eq!(told("radish", How::SetOut), Err(NotKnown::Growth));
    assert_eq!(told("zinnia", How::Sown), Err(NotKnown::Emergence));
    assert_eq!(told("zinnia", How::SetOut), Ok(()));
}

#[test]
fn an_onion_bulbs_when_days_are_long_enough() {
    let onion = at("onion-bulb", "2026-04-10", How::SetOut);
    let first = onion.first.likely.unwrap();
    assert!(date("2026-07-01") < first && first < date("2026-09-15"), "{first}");
}

/// Crops with figures, and the way each is started.
fn told() -> Vec<(&'static Crop, How)> {
    let year = warmer_by(0.0);
    let ways = |crop| [How::Sown, How::SetOut].map(|how| (crop, how));
    let all = catalogue::crops().iter().flat_map(ways);
    all.filter(|(crop, how)| Growing::new(&year, crop, *how).is_ok()).collect()
}

#[test]
fn most_vegetables_are_told() {
    assert!(told().len() > 60, "{}", told().len());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn later_starts_are_never_picked_earlier(which in 0usize..60, start in 0i64..365) {
        let (year, told) = (warmer_by(0.0), told());
        let (crop, how) = told[which];
        let growing = Growing::new(&year, crop, how).unwrap();
        let first = |day: i64| growing.course(date("2026-01-01") + chrono::Duration::days(day)).first;
        let (one, other) = (first(start), first(start + 1));
        if let (Some(one), Some(other)) = (one.likely, other.likely) {
            prop_assert!(one <= other, "{} {one} {other}", crop.id());
        }
        prop_assert!(one.early <= one.likely && one.late.is_none_or(|late| Some(late) >= one.likely));
    }

    #[test]
    fn a_warmer_place_is_never_newly_too_cold(which in 0usize..60, start in 0i64..365, more in 0.5..6.0f64) {
        let (year, warmer, told) = (warmer_by(0.0), warmer_by(more), told());
        let (crop, how) = told[which];
        let day = date("2026-01-01") + chrono::Duration::days(start);
        let at = |year: &Year| course(year, crop, day, how).unwrap();
        let cold = |course: &Course| matches!(
            course.reason,
            Some(Reason::TooColdToComeUp { .. } | Reason::SoilCold { .. })
        );
        let (here, there) = (at(&year), at(&warmer));
        prop_assert!(cold(&here) || !cold(&there), "{}: {:?} {:?}", crop.id(), here.reason, there.reason);
    }

    #[test]
    fn chances_are_chances_and_fall_with_time(which in 0usize..60, start in 0i64..365) {
        let (year, told) = (warmer_by(0.0), told());
        let (crop, how) = told[which];
        let course = course(&year, crop, date("2026-01-01") + chrono::Duration::days(start), how).unwrap();
        prop_assert!((0.0..=1.0).contains(&course.alive) && (0.0..=1.0).contains(&course.alive_at_first));
        let killed = matches!(course.reason, Some(Reason::Killed { .. }));
        prop_assert!(!killed || course.alive < 0.4);
    }
}
