//! First and last frost from the months' usual lows.
//!
//! Single nights' lows scatter normally around the usual low, which runs in straight lines between
//! the middles of months; the chance that no night was that cold is that of [`nights`](super::nights),
//! for spring and autumn alike. Against the dates that NOAA printed for 1981 to 2010, at 694 stations
//! drawn by lot, the middle last frost is right in the mean and within 5 days (root mean square), the
//! middle first one 1 day early and within 5 (derived). Where frost is rare, at a mild coast, it is
//! less sure.

use uom::si::temperature_interval::degree_celsius as kelvin;

use super::{
    air::{Air, HALF_A_YEAR, KnownBy, celsius},
    nights::{Alive, Nights},
};
use crate::{quantity::Temperature, time::DayOfYear};

/// The first autumn night looked at in the north: 1 August.
const AUTUMN_FROM: f64 = 213.0;
/// The last spring night looked at in the north: 15 July.
const SPRING_UNTIL: f64 = 196.0;

/// A frost date in one year of ten, in the middle one, and in nine of ten.
///
/// `None` where frost comes in fewer years than that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// In one year of ten it is this early.
    pub tenth: Option<DayOfYear>,
    /// As often earlier as later.
    pub half: Option<DayOfYear>,
    /// In nine years of ten it has come by then.
    pub nine_tenths: Option<DayOfYear>,
}

/// When frost usually ends and begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrostDates {
    /// The last night of spring at or below the threshold. Numbers below 1 are the year before.
    pub last: Spread,
    /// The first night of autumn at or below the threshold. Numbers above 365 are the year after.
    pub first: Spread,
}

impl FrostDates {
    /// From the air of the place; `threshold` is 0 °C for an air frost.
    pub fn from_air(air: &Air, threshold: Temperature, south: bool) -> Self {
        let south = if south { HALF_A_YEAR.floor() } else { 0.0 };
        let year = 0..365u16;
        let autumn = year.clone().map(|later| AUTUMN_FROM - south + f64::from(later));
        let spring = year.map(|earlier| SPRING_UNTIL - south - f64::from(earlier));
        let [first, half_first, last_first] = passes(autumn, air, threshold);
        let [late, half_last, early] = passes(spring, air, threshold);
        let dates = Self {
            last: Spread { tenth: early, half: half_last, nine_tenths: late },
            first: Spread { tenth: first, half: half_first, nine_tenths: last_first },
        };
        match air.known_by() {
            KnownBy::Months => dates,
            KnownBy::Extremes => Self {
                last: dates.last.widened(EXTREMES_DAYS),
                first: dates.first.widened(EXTREMES_DAYS),
            },
        }
    }

    /// From the gardener's own usual dates, spread as far as the record of eight daily series is in
    /// the mean: 18 days either way for the first frost and 19 for the last, nine years of ten
    /// (derived).
    ///
    /// Where 8 May is the usual last frost, one year in ten has a later one than 27 May:
    /// ```
    /// use pegline_core::{place::frost_dates::FrostDates, time::DayOfYear};
    /// let (last, first) = (DayOfYear::new(128.0), DayOfYear::new(280.0));
    /// let dates = FrostDates::from_usual(last, first);
    /// assert_eq!(dates.last.nine_tenths, Some(DayOfYear::new(147.0)));
    /// ```
    pub fn from_usual(last: DayOfYear, first: DayOfYear) -> Self {
        Self {
            last: Spread::around(last, LAST_SPREAD_DAYS),
            first: Spread::around(first, FIRST_SPREAD_DAYS),
        }
    }

    /// The same spread moved so that its middle is the gardener's own usual date, where one is
    /// given.
    #[must_use]
    pub fn with_usual(self, last: Option<DayOfYear>, first: Option<DayOfYear>) -> Self {
        Self {
            last: self.last.moved_to(last, LAST_SPREAD_DAYS),
            first: self.first.moved_to(first, FIRST_SPREAD_DAYS),
        }
    }
}

/// How far the middle date moves where only the coldest and the hottest month are known, days: root
/// mean square over nine places (derived). The spread is widened by as much.
const EXTREMES_DAYS: f64 = 9.0;

const FIRST_SPREAD_DAYS: f64 = 18.0;
const LAST_SPREAD_DAYS: f64 = 19.0;

impl Spread {
    fn around(middle: DayOfYear, days: f64) -> Self {
        Self {
            tenth: Some(middle.plus(-days)),
            half: Some(middle),
            nine_tenths: Some(middle.plus(days)),
        }
    }

    /// The same with a further error of that many days, independent of the years' own.
    fn widened(self, days: f64) -> Self {
        let from_half = |day: Option<DayOfYear>, sign: f64| {
            let (day, half) = (day?, self.half?);
            let width = (day.number() - half.number()).hypot(days);
            Some(half.plus(sign * width))
        };
        Self {
            tenth: from_half(self.tenth, -1.0).or(self.tenth),
            half: self.half,
            nine_tenths: from_half(self.nine_tenths, 1.0),
        }
    }

    fn moved_to(self, usual: Option<DayOfYear>, days: f64) -> Self {
        let Some(usual) = usual else { return self };
        let (Some(tenth), Some(half), Some(nine_tenths)) =
            (self.tenth, self.half, self.nine_tenths)
        else {
            return Self::around(usual, days);
        };
        let to = |day: DayOfYear| Some(usual.plus(day.number() - half.number()));
        Self { tenth: to(tenth), half: Some(usual), nine_tenths: to(nine_tenths) }
    }
}

/// The days on which the chance of no frost so far has come down to 0.9, 0.5 and 0.1.
fn passes(
    days: impl Iterator<Item = f64>,
    air: &Air,
    threshold: Temperature,
) -> [Option<DayOfYear>; 3] {
    let nights = Nights::new();
    let mut none_so_far = Alive::default();
    let mut passed = [None; 3];
    for day in days.map(DayOfYear::new) {
        let sd = air.low_sd(day).get::<kelvin>();
        none_so_far.night(&nights, celsius(threshold), celsius(air.low(day)), sd);
        let chance = none_so_far.chance();
        for (passed, level) in passed.iter_mut().zip([0.9, 0.5, 0.1]) {
            if chance <= level && passed.is_none() {
                *passed = Some(day);
            }
        }
    }
    passed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::air::{LowAndHigh, of_celsius};
    use proptest::prelude::*;

    fn air(coldest_low: f64, hottest_low: f64, south: bool) -> Air {
        let month = |low: f64| LowAndHigh { low: of_celsius(low), high: of_celsius(low + 10.0) };
        Air::from_extremes(month(coldest_low), month(hottest_low), south)
    }

    #[test]
    fn the_tropics_have_no_frost() {
        let dates = FrostDates::from_air(&air(20.0, 24.0, false), of_celsius(0.0), false);
        let none = Spread { tenth: None, half: None, nine_tenths: None };
        assert_eq!((dates.first, dates.last), (none, none));
    }

    #[test]
    fn the_south_has_the_same_dates_half_a_year_away() {
        let north = FrostDates::from_air(&air(-4.0, 13.0, false), of_celsius(0.0), false);
        let south = FrostDates::from_air(&air(-4.0, 13.0, true), of_celsius(0.0), true);
        let apart =
            |a: Option<DayOfYear>, b: Option<DayOfYear>| a.unwrap().number() - b.unwrap().number();
        assert!((apart(north.first.half, south.first.half) - HALF_A_YEAR).abs() < 2.0);
        assert!((apart(north.last.half, south.last.half) - HALF_A_YEAR).abs() < 2.0);
    }

    #[test]
    fn the_gardener_s_own_date_is_the_middle() {
        let dates = FrostDates::from_air(&air(-4.0, 13.0, false), of_celsius(0.0), false);
        let own = DayOfYear::new(270.0);
        let moved = dates.with_usual(None, Some(own));
        assert_eq!(moved.first.half, Some(own));
        assert_eq!(moved.last, dates.last);
        let width =
            |spread: Spread| spread.nine_tenths.unwrap().number() - spread.tenth.unwrap().number();
        assert!((width(moved.first) - width(dates.first)).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn the_days_are_in_order_and_a_harder_frost_comes_later(
            low in -15.0..2.0f64, more in 5.0..20.0f64, south: bool,
        ) {
            let air = air(low, low + more, south);
            let frost = FrostDates::from_air(&air, of_celsius(0.0), south);
            let harder = FrostDates::from_air(&air, of_celsius(-3.0), south);
            let days = |spread: Spread| {
                [spread.tenth, spread.half, spread.nine_tenths]
                    .map(|day| day.map(DayOfYear::number))
            };
            for spread in [frost.first, frost.last] {
                let [tenth, half, nine] = days(spread);
                if let (Some(tenth), Some(half)) = (tenth, half) { prop_assert!(tenth <= half); }
                if let (Some(half), Some(nine)) = (half, nine) { prop_assert!(half <= nine); }
            }
            if let (Some(soft), Some(hard)) = (days(frost.first)[1], days(harder.first)[1]) {
                prop_assert!(soft <= hard);
            }
            if let (Some(soft), Some(hard)) = (days(frost.last)[1], days(harder.last)[1]) {
                prop_assert!(soft >= hard);
            }
        }
    }
}
