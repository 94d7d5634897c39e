//! Local dates and times as text: `2026-11-25T08:30` (ISO 8601, extended form, no zone).
//!
//! Read by hand: the form is fixed, and a general parser weighs 8 kB on the phone.

use chrono::{Datelike, NaiveDate, NaiveDateTime, NaiveTime, Timelike};

/// The number that so many digits, and nothing else, stand for.
fn digits(text: &str, count: usize) -> Option<u32> {
    let fits = text.len() == count && text.bytes().all(|byte| byte.is_ascii_digit());
    if fits { text.parse().ok() } else { None }
}

/// The date in this text: `2026-11-25`.
///
/// A date is read as ISO 8601 writes it, and no other way:
/// ```
/// use pegline_core::time::iso::{read_date, show_date};
/// assert_eq!(show_date(read_date("2026-11-25").unwrap()), "2026-11-25");
/// assert_eq!(read_date("25.11.2026"), None);
/// assert_eq!(read_date("2026-02-29"), None);
/// ```
#[must_use]
pub fn read_date(text: &str) -> Option<NaiveDate> {
    let (year, rest) = text.split_once('-')?;
    let (month, day) = rest.split_once('-')?;
    let year = digits(year, 4)?.try_into().ok()?;
    NaiveDate::from_ymd_opt(year, digits(month, 2)?, digits(day, 2)?)
}

/// The time of day in this text: `08:30`.
#[must_use]
pub fn read_time(text: &str) -> Option<NaiveTime> {
    let (hour, minute) = text.split_once(':')?;
    NaiveTime::from_hms_opt(digits(hour, 2)?, digits(minute, 2)?, 0)
}

/// The text of a date.
#[must_use]
pub fn show_date(date: NaiveDate) -> String {
    format!("{:04}-{:02}-{:02}", date.year(), date.month(), date.day())
}

/// The date and time in this text: `2026-11-25T08:30`, with seconds and thousandths if wished.
///
/// A zone is refused, since the garden runs on the clock on its wall; so is a leap second.
#[must_use]
pub fn read_when(text: &str) -> Option<NaiveDateTime> {
    let (date, time) = text.split_once('T')?;
    let (hour, rest) = time.split_once(':')?;
    let (minute, rest) = rest.split_once(':').unwrap_or((rest, "00"));
    let (second, thousandths) = rest.split_once('.').unwrap_or((rest, "000"));
    let time = NaiveTime::from_hms_milli_opt(
        digits(hour, 2)?,
        digits(minute, 2)?,
        digits(second, 2)?,
        digits(thousandths, 3)?,
    )?;
    Some(read_date(date)?.and_time(time))
}

/// The text of a date and time; seconds and thousandths only when there are any.
#[must_use]
pub fn show_when(when: NaiveDateTime) -> String {
    let date = show_date(when.date());
    let mut text = format!("{date}T{:02}:{:02}", when.hour(), when.minute());
    let (second, thousandths) = (when.second(), when.nanosecond() / 1_000_000);
    if second != 0 || thousandths != 0 {
        text.push_str(&format!(":{second:02}"));
    }
    if thousandths != 0 {
        text.push_str(&format!(".{thousandths:03}"));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn minutes_are_enough() {
        let when = read_when("2026-11-25T08:30").unwrap();
        assert_eq!(when.to_string(), "2026-11-25 08:30:00");
        assert_eq!(show_when(when), "2026-11-25T08:30");
    }

    #[test]
    fn seconds_and_thousandths_are_kept() {
        for text in ["2026-11-25T08:30:05", "2026-11-25T08:30:00.001", "0001-01-01T23:59:59.999"] {
            assert_eq!(show_when(read_when(text).unwrap()), text);
        }
    }

    #[test]
    fn what_is_no_local_date_and_time_is_refused() {
        for text in [
            "",
            "2026-11-25",
            "2026-11-25 08:30",
            "2026-11-25T08:30Z",
            "2026-11-25T08:30+01:00",
            "2026-13-01T00:00",
            "2026-02-29T00:00",
            "2026-11-25T24:00",
            "2026-11-25T8:3",
            "20266-11-25T08:30",
            "+2026-11-2T08:30",
            "2026-11-25T23:59:60",
            "2026-11-25T08:30:00.5",
            "2026-11-25T08:30.500",
            "2026-11-25T",
            "2026-11-25T08",
        ] {
            assert_eq!(read_when(text), None, "{text}");
        }
    }

    proptest! {
        #[test]
        fn a_moment_shown_is_read_back(
            day in -719_162..2_932_896i32, second in 0..86_400u32, thousandths in 0..1_000u32,
        ) {
            // Days from 0001-01-01 to 9999-12-31, counted from 1970.
            let date = NaiveDate::from_epoch_days(day).unwrap();
            let nanos = thousandths * 1_000_000;
            let time = NaiveTime::from_num_seconds_from_midnight_opt(second, nanos).unwrap();
            let when = date.and_time(time);
            prop_assert_eq!(read_when(&show_when(when)), Some(when));
            prop_assert_eq!(show_date(date).parse(), Ok(date));
        }

        #[test]
        fn no_text_upsets_the_reader(text in ".{0,40}") {
            let _ = read_when(&text);
        }

        #[test]
        fn dates_are_read_as_the_library_reads_them(text in "[0-9]{4}-[0-9]{2}-[0-9]{2}") {
            prop_assert_eq!(read_date(&text), text.parse().ok());
        }
    }
}
