//! Lists, counts and dates as a person says them.

use chrono::{Datelike, NaiveDate, Weekday};

/// "a", "a and b", "a, b and c".
///
/// Two and three things:
/// ```
/// use pegline_core::text::list;
/// assert_eq!(list(&["kale", "leek"]), "kale and leek");
/// assert_eq!(list(&["kale", "leek", "chard"]), "kale, leek and chard");
/// ```
pub fn list<S: AsRef<str>>(items: &[S]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", first.join(", "), last.as_ref())
        }
    }
}

/// "1 plant", "12 plants".
pub fn count(number: u32, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// The text with a full stop, unless it asks.
pub(crate) fn sentence(text: &str) -> String {
    if text.ends_with('?') { text.to_owned() } else { format!("{text}.") }
}

/// The text with its first letter made a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|first| match first {
        'à'..='ö' | 'ø'..='þ' => moved(first, -32),
        _ => first.to_ascii_uppercase(),
    });
    first.into_iter().chain(letters).collect()
}

/// The text in small letters: those of English and of its neighbours, in which gardens are kept.
/// (The library's tables of every script weigh 6 kB on the phone.)
pub fn small(text: &str) -> String {
    let letters = text.chars().map(|letter| match letter {
        'À'..='Ö' | 'Ø'..='Þ' => moved(letter, 32),
        _ => letter.to_ascii_lowercase(),
    });
    letters.collect()
}

/// What stands before and behind the first place where `by` stands in the text.
/// (The library's search, which is quick in texts far longer than these, weighs 5 kB on the phone.)
pub fn parted<'a>(text: &'a str, by: &str) -> Option<(&'a str, &'a str)> {
    text.char_indices().find_map(|(at, _)| {
        let (before, from) = text.split_at_checked(at)?;
        Some((before, from.strip_prefix(by)?))
    })
}

/// The letter so many places on: in Latin-1 small letters lie 32 places behind the capitals.
fn moved(letter: char, by: i32) -> char {
    u32::from(letter).checked_add_signed(by).and_then(char::from_u32).unwrap_or(letter)
}

/// The months of the year.
pub(crate) const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// "19 Nov", with the year where it is not the one meant by `today`.
///
/// The year is said only where it could be mistaken:
/// ```
/// use pegline_core::{text::day, time::iso::read_date};
/// let on = |text| read_date(text).unwrap();
/// let today = Some(on("2026-11-19"));
/// assert_eq!(day(on("2027-03-01"), today), "1 Mar");
/// assert_eq!(day(on("2029-03-01"), today), "1 Mar 2029");
/// ```
pub fn day(date: NaiveDate, today: Option<NaiveDate>) -> String {
    let month = MONTHS.get(date.month0() as usize).and_then(|month| month.get(..3));
    let month = month.unwrap_or_default();
    match today {
        // Within ten months either way nobody mistakes the year.
        Some(today) if (date - today).num_days().abs() < 300 => format!("{} {month}", date.day()),
        _ => format!("{} {month} {}", date.day(), date.year()),
    }
}

/// "Wed".
pub fn weekday(date: NaiveDate) -> &'static str {
    match date.weekday() {
        Weekday::Mon => "Mon",
        Weekday::Tue => "Tue",
        Weekday::Wed => "Wed",
        Weekday::Thu => "Thu",
        Weekday::Fri => "Fri",
        Weekday::Sat => "Sat",
        Weekday::Sun => "Sun",
    }
}

/// "12 Dec to 4 Jan".
pub fn span(from: NaiveDate, to: NaiveDate, today: Option<NaiveDate>) -> String {
    format!("{} to {}", day(from, today), day(to, today))
}

/// The sentence with a small first letter, as it goes on after a colon.
pub(crate) fn small_first(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |first| small(first.encode_utf8(&mut [0; 4])) + letters.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_are_joined_as_spoken() {
        assert_eq!(list::<&str>(&[]), "");
        assert_eq!(list(&["rye"]), "rye");
        assert_eq!(list(&["rye", "vetch", "clover"]), "rye, vetch and clover");
    }

    #[test]
    fn small_letters_and_capitals_are_those_of_the_library() {
        for letter in ' '..='ÿ' {
            let text = letter.to_string();
            assert_eq!(small(&text), text.to_lowercase());
            if !"µßÿ".contains(letter) {
                assert_eq!(capital(&text), text.to_uppercase());
            }
        }
        assert_eq!(capital(""), "");
        assert_eq!(capital("élan vital"), "Élan vital");
    }

    #[test]
    fn a_text_is_parted_where_the_library_parts_it() {
        for text in ["", "a", "née, née", ", ", "a,, b", "a,é, b, c"] {
            assert_eq!(parted(text, ", "), text.split_once(", "), "{text}");
        }
    }

    #[test]
    fn one_is_singular() {
        assert_eq!(count(1, "plant", "plants"), "1 plant");
        assert_eq!(count(0, "plant", "plants"), "0 plants");
    }

    #[test]
    fn the_year_is_said_only_where_it_could_be_mistaken() {
        let today = NaiveDate::from_ymd_opt(2026, 11, 25);
        let date = NaiveDate::from_ymd_opt(2027, 1, 4).unwrap();
        assert_eq!(day(date, today), "4 Jan");
        assert_eq!(day(date, None), "4 Jan 2027");
        assert_eq!(day(NaiveDate::from_ymd_opt(2028, 1, 4).unwrap(), today), "4 Jan 2028");
    }
}
