//! A day that comes back every year.

use chrono::{Datelike, NaiveDate};

use crate::{given::Readable, quantity::Unreadable, time::DayOfYear};

/// A month and a day, such as the usual date of the last frost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MonthDay(NaiveDate);

/// A leap year, so that 29 February can be said.
const ANY_YEAR: i32 = 2000;

impl MonthDay {
    /// Its day of the year.
    pub fn day_of_year(self) -> DayOfYear {
        // The day after 28 February counts as 1 March, as in three years of four.
        let late = i32::from(self.0.month() > 2);
        DayOfYear::new(f64::from(self.0.ordinal() as i32 - late))
    }
}

impl Readable for MonthDay {
    fn allowed() -> String {
        "a month and a day such as 05-08 for 8 May".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let unreadable = |why: &str| Unreadable { allowed: Self::allowed(), why: why.to_owned() };
        // A whole date is taken for its month and day, as a date field of a form gives it.
        let short = match text.split('-').count() {
            3 => text.split_once('-').map(|(_, short)| short),
            2 => Some(text),
            _ => None,
        };
        let shaped = short.filter(|short| {
            short.len() == 5 && short.bytes().all(|byte| byte.is_ascii_digit() || byte == b'-')
        });
        let (month, day) = shaped
            .and_then(|short| short.split_once('-'))
            .ok_or_else(|| unreadable("no month and day can be read from it"))?;
        let date = month.parse().ok().zip(day.parse().ok());
        date.and_then(|(month, day)| NaiveDate::from_ymd_opt(ANY_YEAR, month, day))
            .map(Self)
            .ok_or_else(|| unreadable("there is no such day"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_of_each_year_is_read_with_or_without_a_year() {
        let number = |text| MonthDay::read(text).unwrap().day_of_year().number();
        assert_eq!(number("01-01"), 1.0);
        assert_eq!(number("03-01"), 60.0);
        assert_eq!(number("2026-05-08"), 128.0);
        assert_eq!(number("12-31"), 365.0);
    }

    #[test]
    fn what_is_no_day_is_refused() {
        for text in ["13-01", "02-30", "5-8", "May 8", "05-08-", "--05-08", "+5-08", ""] {
            assert!(MonthDay::read(text).is_err(), "{text}");
        }
    }
}
