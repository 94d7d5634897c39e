//! The day of the year as models of the seasons count it.

use chrono::{Datelike, Duration, NaiveDate};

/// Days in a year, on average.
pub(crate) const DAYS_A_YEAR: f64 = 365.25;

/// The number as it stands on a round of that length, from 0 up to it. Not `rem_euclid`, which is exact
/// for numbers beyond all measure and weighs 1 kB on the phone.
pub(crate) fn wrapped(number: f64, round: f64) -> f64 {
    number - round * (number / round).floor()
}

/// A day of the year: 1 is 1 January, fractions are parts of a day. Numbers above 365 go on into
/// the next year and numbers below 1 back into the one before, so that a winter is one stretch.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct DayOfYear(f64);

impl DayOfYear {
    /// The day with that number.
    pub const fn new(number: f64) -> Self {
        Self(number)
    }

    /// The day of the year of a date.
    pub fn of(date: NaiveDate) -> Self {
        Self(f64::from(date.ordinal()))
    }

    /// Its number.
    pub const fn number(self) -> f64 {
        self.0
    }

    /// So many days later, or earlier if negative.
    #[must_use]
    pub(crate) const fn plus(self, days: f64) -> Self {
        Self(self.0 + days)
    }

    /// The same day counted so that it lies in the year that begins with `start`.
    ///
    /// In the winter that begins on 1 December (day 335) 10 January lies behind 31 December:
    /// ```
    /// use pegline_core::time::DayOfYear;
    /// let january = DayOfYear::new(10.0).from_start(DayOfYear::new(335.0));
    /// assert_eq!(january.number(), 375.25);
    /// ```
    #[must_use]
    pub fn from_start(self, start: Self) -> Self {
        Self(start.0 + wrapped(self.0 - start.0, DAYS_A_YEAR))
    }

    /// The nearest date, counting from 1 January of `year`; 1 January itself for a year or a
    /// number that no calendar has.
    ///
    /// The hundredth day comes a day sooner in a leap year (calendar):
    /// ```
    /// use pegline_core::time::{DayOfYear, iso::show_date};
    /// assert_eq!(show_date(DayOfYear::new(100.0).in_year(2026)), "2026-04-10");
    /// assert_eq!(show_date(DayOfYear::new(100.0).in_year(2028)), "2028-04-09");
    /// ```
    pub fn in_year(self, year: i32) -> NaiveDate {
        let first = NaiveDate::from_yo_opt(year, 1).unwrap_or_default();
        Duration::try_days((self.0 - 1.0).round() as i64)
            .and_then(|days| first.checked_add_signed(days))
            .unwrap_or(first)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_winter_is_one_stretch() {
        let january = DayOfYear::new(374.0).in_year(2026);
        assert_eq!(january, NaiveDate::from_ymd_opt(2027, 1, 9).unwrap());
        assert_eq!(DayOfYear::of(january).from_start(DayOfYear::new(200.0)).number(), 374.25);
    }

    #[test]
    fn numbers_no_calendar_has_do_no_harm() {
        for number in [f64::NAN, f64::INFINITY, -1e300] {
            DayOfYear::new(number).in_year(2026);
        }
    }
}
