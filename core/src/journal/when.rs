//! Local date and time as text: `2026-11-25T08:30` (ISO 8601, extended form, no zone).

use chrono::{Datelike, NaiveDate, NaiveDateTime, NaiveTime, Timelike};

/// Characters in a date with a year of four digits.
const DATE: usize = "2026-11-25".len();

/// The date and time in this text: `2026-11-25T08:30`, with seconds and their parts if wished.
///
/// A zone is refused, since the garden runs on the clock on its wall; so is a leap second.
#[must_use]
pub fn read_when(text: &str) -> Option<NaiveDateTime> {
    let (date, time) = text.split_once('T')?;
    let shaped = date.len() == DATE
        && date
            .bytes()
            .all(|byte| byte.is_ascii_digit() || byte == b'-')
        && time.len() >= "08:30".len()
        && time
            .bytes()
            .all(|byte| byte.is_ascii_digit() || byte == b':' || byte == b'.');
    if !shaped {
        return None;
    }
    let date: NaiveDate = date.parse().ok()?;
    let time: NaiveTime = time.parse().ok()?;
    (time.nanosecond() < 1_000_000_000).then(|| date.and_time(time))
}

/// The text of a date and time; seconds only when there are any.
#[must_use]
pub fn show_when(when: NaiveDateTime) -> String {
    let (year, month, day) = (when.year(), when.month(), when.day());
    let (hour, minute, second) = (when.hour(), when.minute(), when.second());
    let mut text = format!("{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}");
    let part = when.nanosecond();
    if second != 0 || part != 0 {
        text.push_str(&format!(":{second:02}"));
    }
    if part != 0 {
        text.push_str(&format!(".{part:09}"));
    }
    text
}

/// A date and time inside other JSON, absent when nothing.
pub(super) mod text {
    use super::{NaiveDateTime, read_when, show_when};
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    pub(crate) fn serialize<S: Serializer>(
        when: &Option<NaiveDateTime>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        match when {
            Some(when) => serializer.serialize_str(&show_when(*when)),
            None => serializer.serialize_none(),
        }
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Option<NaiveDateTime>, D::Error> {
        let Some(text) = Option::<String>::deserialize(from)? else {
            return Ok(None);
        };
        let read = read_when(&text).ok_or_else(|| D::Error::custom("not a local date and time"))?;
        Ok(Some(read))
    }
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
    fn seconds_and_their_parts_are_kept() {
        for text in ["2026-11-25T08:30:05", "2026-11-25T08:30:00.000000001"] {
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
            "2026-11-25T",
        ] {
            assert_eq!(read_when(text), None, "{text}");
        }
    }

    proptest! {
        #[test]
        fn a_moment_shown_is_read_back(
            day in -719_162..2_932_896i32, second in 0..86_400u32, part in 0..1_000_000_000u32,
        ) {
            // Days from 0001-01-01 to 9999-12-31, counted from 1970.
            let date = NaiveDate::from_epoch_days(day).unwrap();
            let time = NaiveTime::from_num_seconds_from_midnight_opt(second, part).unwrap();
            let when = date.and_time(time);
            prop_assert_eq!(read_when(&show_when(when)), Some(when));
        }

        #[test]
        fn no_text_upsets_the_reader(text in ".{0,40}") {
            let _ = read_when(&text);
        }
    }
}
