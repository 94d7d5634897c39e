//! Numbers and counts: read as people write them, and the one printer of decimals.

use super::Unreadable;
use super::words::{Plain, Token, quoted};

/// The largest count that is read.
const MOST: f64 = 1_000_000.0;

const NAMED: [(&str, f64); 14] = [
    ("a", 1.0),
    ("an", 1.0),
    ("one", 1.0),
    ("two", 2.0),
    ("three", 3.0),
    ("four", 4.0),
    ("five", 5.0),
    ("six", 6.0),
    ("seven", 7.0),
    ("eight", 8.0),
    ("nine", 9.0),
    ("ten", 10.0),
    ("eleven", 11.0),
    ("twelve", 12.0),
];

const PARTS: [(&str, f64); 5] = [
    ("half", 0.5),
    ("third", 1.0 / 3.0),
    ("thirds", 1.0 / 3.0),
    ("quarter", 0.25),
    ("quarters", 0.25),
];

/// Reads a number without a unit: "14", "1.5", "1,5", "4 1/2", "4½", "half", "twelve".
///
/// # Errors
/// In plain words, for anything else: not finite, with an exponent, or with a comma before
/// exactly three digits, which has two readings.
pub(crate) fn read_number(text: &str) -> Result<f64, Unreadable> {
    signed(text)
        .map_err(|why| Unreadable { allowed: "a number, such as 14, 1.5 or 4 1/2".to_owned(), why })
}

/// Reads a whole number from 0 to 1 000 000: 14, "14", "14.0", "a dozen".
///
/// # Errors
/// In plain words, for anything else.
///
/// A dozen is a dozen however it is written, and half a plant is none:
/// ```
/// use pegline_core::quantity::number::read_count;
/// for text in ["12", "12.0", "twelve"] {
///     assert_eq!(read_count(text), Ok(12));
/// }
/// assert!(read_count("12.5").is_err());
/// ```
pub fn read_count(text: &str) -> Result<u32, Unreadable> {
    let count = signed(text).and_then(|number| {
        if number.fract() != 0.0 {
            Err(format!("{} is not a whole number", quoted(text)))
        } else if !(0.0..=MOST).contains(&number) {
            Err(format!("{} is not between 0 and {MOST_SHOWN}", quoted(text)))
        } else {
            Ok(number as u32)
        }
    });
    count.map_err(|why| Unreadable {
        allowed: format!("a whole number from 0 to {MOST_SHOWN}, such as 14"),
        why,
    })
}

const MOST_SHOWN: &str = "1000000";

/// To the tenth, for what is not known more closely.
pub(crate) fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// To the hundredth.
pub(crate) fn hundredths(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

/// To the thousandth.
pub(crate) fn thousandths(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// Prints a number with at most `decimals` digits (up to 6) after the point, trailing zeros left
/// out, halves away from zero; "unknown" if it is not finite.
///
/// Every decimal that is shown goes through here: the standard printer of floats would add ten
/// kilobytes to what goes to the phone.
#[must_use]
pub fn show_number(value: f64, decimals: u32) -> String {
    if !value.is_finite() {
        return "unknown".to_owned();
    }
    let decimals = decimals.min(6);
    let scale = 10_u64.pow(decimals);
    let scaled = (value.abs() * scale as f64).round() as u64;
    let mut shown = (scaled / scale).to_string();
    if value < 0.0 && scaled > 0 {
        shown.insert(0, '-');
    }
    let mut part = scaled % scale;
    let mut place = scale;
    if part > 0 {
        shown.push('.');
    }
    while part > 0 {
        place /= 10;
        shown.push(char::from(b'0' + (part / place) as u8));
        part %= place;
    }
    shown
}

/// Whether a sign stands before the number, and the tokens after it.
pub(crate) fn take_sign<'a, 't>(tokens: &'t [Token<'a>]) -> (f64, &'t [Token<'a>]) {
    match tokens {
        [Token::Dash | Token::Word("minus"), rest @ ..] => (-1.0, rest),
        [Token::Plus | Token::Word("plus"), rest @ ..] => (1.0, rest),
        _ => (1.0, tokens),
    }
}

/// The number without sign that the tokens start with, and the tokens after it; nothing if they
/// do not start with a number.
pub(crate) fn take_number<'a, 't>(
    tokens: &'t [Token<'a>],
) -> Result<Option<(f64, &'t [Token<'a>])>, String> {
    use Token::{Dash, Number, Slash, Word};
    Ok(match tokens {
        [Number(whole), Number(top), Slash, Number(bottom), rest @ ..]
        | [Number(whole), Dash | Word("and"), Number(top), Slash, Number(bottom), rest @ ..] => {
            let part = fraction(*top, *bottom)?;
            if whole.fract() != 0.0 || part >= 1.0 {
                return Err(
                    "a whole number and a part below one were expected, such as 4 1/2".to_owned()
                );
            }
            Some((whole + part, rest))
        }
        [Number(top), Slash, Number(bottom), rest @ ..] => Some((fraction(*top, *bottom)?, rest)),
        [Number(number), rest @ ..] => Some(more(*number, rest)),
        _ => match take_part(tokens) {
            Some((part, rest)) => Some(more(part, skip_of_a(rest))),
            None => take_named(tokens).map(|(number, rest)| more(number, rest)),
        },
    })
}

fn signed(text: &str) -> Result<f64, String> {
    let plain = Plain::new(text)?;
    let tokens = plain.tokens()?;
    let (sign, rest) = take_sign(&tokens);
    match take_number(rest)? {
        Some((number, [])) if number.is_finite() => Ok(sign * number),
        _ => Err(format!("{} is not a number", quoted(plain.text()))),
    }
}

fn fraction(top: f64, bottom: f64) -> Result<f64, String> {
    if bottom == 0.0 || top.fract() != 0.0 || bottom.fract() != 0.0 {
        return Err("the fraction cannot be read; write it such as 1/2".to_owned());
    }
    Ok(top / bottom)
}

/// "and a half", "dozen" after a number.
fn more<'a, 't>(number: f64, rest: &'t [Token<'a>]) -> (f64, &'t [Token<'a>]) {
    if let [Token::Word("dozen"), rest @ ..] = rest {
        return (number * 12.0, rest);
    }
    if let [Token::Word("and"), after @ ..] = rest
        && let Some((part, after)) = take_part(after)
    {
        return (number + part, after);
    }
    (number, rest)
}

/// "half", "a quarter", "three quarters".
fn take_part<'a, 't>(tokens: &'t [Token<'a>]) -> Option<(f64, &'t [Token<'a>])> {
    if let [Token::Word(part), rest @ ..] = tokens
        && let Some(part) = lookup(&PARTS, part)
    {
        return Some((part, rest));
    }
    let (number, rest) = take_named(tokens)?;
    match rest {
        [Token::Word(part), rest @ ..] => Some((number * lookup(&PARTS, part)?, rest)),
        _ => None,
    }
}

fn take_named<'a, 't>(tokens: &'t [Token<'a>]) -> Option<(f64, &'t [Token<'a>])> {
    match tokens {
        [Token::Word(word), rest @ ..] => Some((lookup(&NAMED, word)?, rest)),
        _ => None,
    }
}

/// "half a", "a quarter of an".
fn skip_of_a<'a, 't>(tokens: &'t [Token<'a>]) -> &'t [Token<'a>] {
    let tokens = match tokens {
        [Token::Word("of"), rest @ ..] => rest,
        _ => tokens,
    };
    match tokens {
        [Token::Word("a" | "an"), rest @ ..] => rest,
        _ => tokens,
    }
}

/// Whether a number may start with this word.
pub(crate) fn is_number_word(word: &str) -> bool {
    lookup(&NAMED, word).is_some() || lookup(&PARTS, word).is_some()
}

fn lookup(table: &[(&str, f64)], word: &str) -> Option<f64> {
    table.iter().find(|(name, _)| *name == word).map(|(_, value)| *value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_are_read_as_people_write_them() {
        let rows = [
            ("14", 14.0),
            (" 14. ", 14.0),
            ("1.5", 1.5),
            ("1,5", 1.5),
            ("1,50", 1.5),
            ("12,3456", 12.3456),
            (".5", 0.5),
            (",5", 0.5),
            ("1.500", 1.5),
            ("4 1/2", 4.5),
            ("4\u{a0}1/2", 4.5),
            ("4-1/2", 4.5),
            ("4 and 1/2", 4.5),
            ("4½", 4.5),
            ("4 ½", 4.5),
            ("½", 0.5),
            ("2⅜", 2.375),
            ("1/2", 0.5),
            ("1⁄2", 0.5),
            ("3/4", 0.75),
            ("half", 0.5),
            ("Half a", 0.5),
            ("a half", 0.5),
            ("a", 1.0),
            ("an", 1.0),
            ("quarter", 0.25),
            ("a quarter", 0.25),
            ("three quarters", 0.75),
            ("three-quarters", 0.75),
            ("one", 1.0),
            ("Seven", 7.0),
            ("twelve", 12.0),
            ("one and a half", 1.5),
            ("two and three quarters", 2.75),
            ("2 and a half", 2.5),
            ("a dozen", 12.0),
            ("half a dozen", 6.0),
            ("2 dozen", 24.0),
            ("-3", -3.0),
            ("−3", -3.0),
            ("–3", -3.0),
            ("minus 3", -3.0),
            ("+3", 3.0),
            ("1\u{202f}500", 1500.0),
            ("1\u{2009}234\u{2009}567", 1_234_567.0),
        ];
        for (text, number) in rows {
            assert_eq!(read_number(text).as_ref(), Ok(&number), "{text}");
        }
    }

    #[test]
    fn every_named_number_counts_up() {
        let names = [
            "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
            "eleven", "twelve",
        ];
        for (index, name) in names.iter().enumerate() {
            assert_eq!(read_count(name), Ok(index as u32 + 1));
        }
    }

    #[test]
    fn what_is_no_number_is_refused() {
        let refused = [
            "",
            "  ",
            "NaN",
            "inf",
            "infinity",
            "1e999",
            "2.5e3",
            "2.5E+3",
            "abc",
            "14 in",
            "1 500",
            "1/0",
            "0/0",
            "1/2/3",
            "4 5/2",
            "4.5 1/2",
            "1.5/2",
            "1.2.3",
            "1,234,567",
            "1,234.5",
            "1.234,5",
            "-",
            "--3",
            "4-6",
            "one two",
            "0x10",
            "٣",
            "1_000",
            "½½",
        ];
        for text in refused {
            assert!(read_number(text).is_err(), "{text}: {:?}", read_number(text));
        }
        let text = "9".repeat(201);
        assert!(read_number(&text).is_err());
    }

    #[test]
    fn a_comma_before_exactly_three_digits_has_two_readings() {
        let why = |text| read_number(text).unwrap_err().why;
        assert_eq!(why("1,500"), "\"1,500\" can be read as 1500 or 1.5; write one of those");
        assert_eq!(why("2,125"), "\"2,125\" can be read as 2125 or 2.125; write one of those");
        assert_eq!(why("3,000"), "\"3,000\" can be read as 3000 or 3; write one of those");
        assert!(why("0,125").contains("0.125"));
        assert!(why("2.5e3").contains("without an e"));
    }

    #[test]
    fn counts_are_whole_and_at_most_a_million() {
        for (text, count) in [
            ("14", 14),
            ("14.0", 14),
            ("0", 0),
            ("1000000", 1_000_000),
            ("a dozen", 12),
            ("six", 6),
        ] {
            assert_eq!(read_count(text), Ok(count), "{text}");
        }
        for text in ["14.5", "-1", "1000001", "1,000", "half", "1e3", "many"] {
            assert!(read_count(text).is_err(), "{text}");
        }
    }

    #[test]
    fn printing_rounds_halves_away_from_zero_and_trims() {
        let rows = [
            (0.0, 1, "0"),
            (2.0, 2, "2"),
            (2.5, 0, "3"),
            (-2.5, 0, "-3"),
            (0.25, 1, "0.3"),
            (1.05, 2, "1.05"),
            (0.007, 3, "0.007"),
            (10.10, 2, "10.1"),
            (-0.04, 1, "0"),
            (99.96, 1, "100"),
            (1234567.891, 2, "1234567.89"),
            (1.0, 99, "1"),
            (f64::NAN, 1, "unknown"),
            (f64::NEG_INFINITY, 1, "unknown"),
        ];
        for (value, decimals, shown) in rows {
            assert_eq!(show_number(value, decimals), shown);
        }
    }

    proptest! {
        #[test]
        fn printing_agrees_with_the_standard_printer(thousandths in -10_000_000_i64..10_000_000) {
            let value = thousandths as f64 / 1000.0;
            let standard = format!("{value:.3}");
            let standard = standard.trim_end_matches('0').trim_end_matches('.');
            prop_assert_eq!(show_number(value, 3), standard);
        }

        #[test]
        fn printed_numbers_read_the_same(value in -1e6..1e6_f64) {
            let read = read_number(&show_number(value, 6)).unwrap();
            prop_assert!((read - value).abs() <= 0.5e-6 + 1e-9);
        }

        #[test]
        fn whole_numbers_and_their_words_of_digits_read_exactly(count in 0..=1_000_000_u32) {
            prop_assert_eq!(read_count(&count.to_string()), Ok(count));
        }

        #[test]
        fn decimals_read_as_the_standard_parser_reads_them(text in "[0-9]{1,9}\\.[0-9]{1,6}") {
            prop_assert_eq!(read_number(&text), Ok(text.parse::<f64>().unwrap()));
        }

        #[test]
        fn any_text_is_read_or_refused(text in ".{0,220}") {
            let _ = read_count(&text);
            if let Ok(number) = read_number(&text) {
                prop_assert!(number.is_finite());
            }
        }
    }
}
