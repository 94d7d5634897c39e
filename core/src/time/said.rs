//! Dates as a person says them: "Feb 20", "20 February 2027", "2/20".

use chrono::{Datelike, NaiveDate};

use crate::text::MONTHS;

/// The date in this text. Without a year it is the nearest to `today`. Of two numbers the month comes
/// first where `month_first`, as in the United States; elsewhere two that both may be months have two
/// readings.
///
/// # Errors
/// In plain words: nothing that is a date, two readings, or no telling which year.
pub(crate) fn read_said(
    text: &str,
    today: Option<NaiveDate>,
    month_first: bool,
) -> Result<NaiveDate, String> {
    let parts: Vec<&str> =
        text.split([' ', ',', '/', '-', '.']).filter(|part| !part.is_empty()).collect();
    let no_date = || "no such date can be read, year first".to_owned();
    let (first, second, year) = match parts.as_slice() {
        [first, second] => (*first, *second, None),
        [first, second, year] => {
            let year = (year.len() == 4).then(|| year.parse().ok()).flatten();
            (*first, *second, Some(year.ok_or_else(no_date)?))
        }
        _ => return Err(no_date()),
    };
    let (month, day) = match (month(first), month(second), number(first), number(second)) {
        (Some(month), _, _, Some(day)) | (_, Some(month), Some(day), _) => (month, day),
        (_, _, Some(one), Some(other)) if one > 12 => (other, one),
        (_, _, Some(one), Some(other)) if month_first || other > 12 || one == other => (one, other),
        (_, _, Some(one), Some(other)) => {
            return Err(format!(
                "that is {} or {}; write one of those",
                said(one, other),
                said(other, one)
            ));
        }
        _ => return Err(no_date()),
    };
    if let Some(year) = year {
        return NaiveDate::from_ymd_opt(year, month, day).ok_or_else(no_date);
    }
    let today = today.ok_or_else(|| "which year? Write it such as 2026-11-25".to_owned())?;
    let years = [today.year() - 1, today.year(), today.year() + 1];
    let dates = years.iter().filter_map(|year| NaiveDate::from_ymd_opt(*year, month, day));
    dates.min_by_key(|date| (*date - today).num_days().abs()).ok_or_else(no_date)
}

/// A month by its name, from three letters on.
fn month(word: &str) -> Option<u32> {
    let named = |month: &&str| {
        let start = month.get(..word.len());
        word.len() >= 3 && start.is_some_and(|start| start.eq_ignore_ascii_case(word))
    };
    let at = MONTHS.iter().position(named);
    // The custom of four letters.
    let at = at.or_else(|| word.eq_ignore_ascii_case("sept").then_some(8));
    at.and_then(|at| u32::try_from(at + 1).ok())
}

/// A day of the month, or a month by its number: "20", "20th".
fn number(word: &str) -> Option<u32> {
    let end = word.trim_start_matches(|it: char| it.is_ascii_digit());
    let is_end = matches!(end, "" | "st" | "nd" | "rd" | "th");
    let digits = word.get(..word.len() - end.len()).filter(|_| is_end)?;
    digits.parse().ok().filter(|number| (1..=31).contains(number))
}

/// "3 February".
fn said(day: u32, month: u32) -> String {
    let name = MONTHS.get((month as usize).wrapping_sub(1)).copied().unwrap_or_default();
    format!("{day} {name}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::time::iso::{read_date, show_date};

    fn read(text: &str, month_first: bool) -> Result<String, String> {
        read_said(text, read_date("2026-11-30"), month_first).map(show_date)
    }

    #[test]
    fn dates_are_read_as_people_write_them() {
        for (text, date) in [
            ("Feb 20", "2027-02-20"),
            ("20 Feb", "2027-02-20"),
            ("February 20th", "2027-02-20"),
            ("20 february 2026", "2026-02-20"),
            ("Sept 3, 2026", "2026-09-03"),
            ("20-Feb-2027", "2027-02-20"),
            ("Oct 20", "2026-10-20"),
            ("2/20", "2027-02-20"),
            ("20/2", "2027-02-20"),
            ("2/20/2026", "2026-02-20"),
            ("11/11", "2026-11-11"),
        ] {
            for month_first in [false, true] {
                assert_eq!(read(text, month_first).as_deref(), Ok(date), "{text}");
            }
        }
    }

    #[test]
    fn two_numbers_that_may_both_be_months_are_read_in_one_country_only() {
        assert_eq!(read("2/3", true).as_deref(), Ok("2027-02-03"));
        let both = "that is 2 March or 3 February; write one of those";
        assert_eq!(read("2/3", false).unwrap_err(), both);
        assert_eq!(read("2/3/2027", false).unwrap_err(), both);
    }

    #[test]
    fn what_is_no_date_is_refused() {
        for text in
            ["", "20", "Feb", "Feb 30", "0/20", "13/13", "2/20/27", "fe 3", "Feb Mar", "é 3"]
        {
            assert!(read(text, true).is_err(), "{text}: {:?}", read(text, true));
        }
        assert!(read_said("Feb 20", None, true).unwrap_err().contains("which year"));
    }

    proptest::proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in ".{0,30}", month_first: bool) {
            let _ = read(&text, month_first);
        }
    }
}
