//! Text as people write it, cut into numbers, words and signs.

/// Longer text than this is no quantity.
const LONGEST: usize = 200;

/// What is shown of a text in a sentence about it.
const SHOWN: usize = 40;

/// One piece of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Token<'a> {
    /// Digits with at most one decimal mark; never negative.
    Number(f64),
    /// Lower-case letters (with a 2 or 3 as in "ft2"), or one of `'`, `"`, `°`.
    Word(&'a str),
    /// A stroke: of a fraction, or for "per".
    Slash,
    /// A minus sign or hyphen that stands before a number.
    Dash,
    /// A plus sign.
    Plus,
}

/// A text made plain: one kind of space, quote, minus and stroke.
pub(crate) struct Plain {
    text: String,
    lower: String,
}

impl Plain {
    /// Makes a text plain, or says in words why it cannot be a quantity.
    pub(crate) fn new(text: &str) -> Result<Self, String> {
        if text.chars().nth(LONGEST).is_some() {
            return Err(format!("{} is too long, over {LONGEST} characters", quoted(text)));
        }
        let text = plain(text).trim().to_owned();
        if text.is_empty() {
            return Err("nothing is written here".to_owned());
        }
        let lower = text.to_ascii_lowercase();
        Ok(Self { text, lower })
    }

    /// The text as it was written, made plain.
    pub(crate) fn text(&self) -> &str {
        &self.text
    }

    /// The pieces, or in words what cannot be read.
    pub(crate) fn tokens(&self) -> Result<Vec<Token<'_>>, String> {
        let mut tokens = Vec::new();
        let mut rest = self.lower.as_str();
        while let Some(sign) = rest.chars().next() {
            let after = rest.strip_prefix(sign).unwrap_or_default();
            rest = if sign.is_ascii_digit() || (is_mark(sign) && starts_with_digit(after)) {
                let (number, after) = self.number(rest)?;
                tokens.push(Token::Number(number));
                after
            } else if sign.is_ascii_alphabetic() {
                let (word, after) = split(rest, word_length(rest));
                tokens.push(Token::Word(word));
                after
            } else {
                match sign {
                    ' ' | '.' | ',' => {}
                    '\'' => tokens.push(Token::Word("'")),
                    '"' => tokens.push(Token::Word("\"")),
                    '°' => tokens.push(Token::Word("°")),
                    '/' => tokens.push(Token::Slash),
                    '+' => tokens.push(Token::Plus),
                    '-' if starts_number(after) => tokens.push(Token::Dash),
                    // A hyphen before a word ("half-gallon", "5-gal") says nothing.
                    '-' if !tokens.is_empty() && starts_with_letter(after) => {}
                    _ if sign.is_control() => return Err("there is a hidden sign in it".to_owned()),
                    _ => return Err(format!("the sign \"{sign}\" cannot be read here")),
                }
                after
            };
        }
        Ok(tokens)
    }

    /// The number that `rest` starts with, and what follows it.
    fn number<'a>(&self, rest: &'a str) -> Result<(f64, &'a str), String> {
        let (digits, after) = split(rest, number_length(rest));
        let marks = digits.chars().filter(|sign| is_mark(*sign)).count();
        if marks > 1 {
            return Err(format!(
                "{} has more than one mark; write it with one decimal point and nothing else",
                quoted(digits)
            ));
        }
        if let Some((whole, part)) = digits.split_once(',')
            && !whole.is_empty()
            && part.len() == 3
        {
            return Err(self.two_readings(self.lower.len() - rest.len(), whole, part));
        }
        if let Some(power) = after.strip_prefix('e')
            && starts_with_digit(power.strip_prefix(['-', '+']).unwrap_or(power))
        {
            return Err(format!("write {} out in full, without an e", quoted(&self.text)));
        }
        Ok((value(digits), after))
    }

    /// What to say of the number at that place, with a comma before three digits.
    fn two_readings(&self, at: usize, whole: &str, part: &str) -> String {
        let before = self.text.get(..at).unwrap_or_default();
        let after = self.text.get(at + whole.len() + 1 + part.len()..).unwrap_or_default();
        let decimals = part.trim_end_matches('0');
        let point = if decimals.is_empty() { "" } else { "." };
        format!(
            "{} can be read as {} or {}; write one of those",
            quoted(&self.text),
            short(&format!("{before}{whole}{part}{after}")),
            short(&format!("{before}{whole}{point}{decimals}{after}"))
        )
    }
}

/// A text in quotation marks, cut where it is long.
pub(crate) fn quoted(text: &str) -> String {
    format!("\"{}\"", short(text))
}

/// A text cut where it is long.
pub(crate) fn short(text: &str) -> String {
    let mut shown: String =
        text.chars().take(SHOWN).map(|sign| if is_hidden(sign) { ' ' } else { sign }).collect();
    if text.chars().nth(SHOWN).is_some() {
        shown.push('…');
    }
    shown
}

fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    // How many digits run up to here since the last sign or group.
    let mut digits = 0;
    let mut signs = text.chars();
    while let Some(sign) = signs.next() {
        let is_digit = sign.is_ascii_digit();
        if is_group_space(sign) && (1..=3).contains(&digits) && three_digits(signs.as_str()) {
            digits = 0;
            continue;
        }
        digits = if is_digit { digits + 1 } else { 0 };
        match sign {
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{fe63}' | '\u{ff0d}' => plain.push('-'),
            '\u{2044}' | '\u{2215}' => plain.push('/'),
            '\'' | '`' | '\u{b4}' | '\u{2bc}' | '\u{2018}' | '\u{2019}' | '\u{2032}' => {
                // Two strokes make an inch mark.
                if plain.ends_with('\'') {
                    plain.pop();
                    plain.push('"');
                } else {
                    plain.push('\'');
                }
            }
            '\u{201c}'..='\u{201e}' | '\u{2033}' => plain.push('"'),
            '\u{ba}' | '\u{2da}' => plain.push('°'),
            '\u{2103}' => plain.push_str("°C"),
            '\u{2109}' => plain.push_str("°F"),
            '×' => plain.push('x'),
            // Only a unit is raised: 5² is not 52.
            '²' if ends_with_letter(&plain) => plain.push_str("2 "),
            '³' if ends_with_letter(&plain) => plain.push_str("3 "),
            '^' if ends_with_letter(&plain) => {}
            '½' => plain.push_str(" 1/2"),
            '⅓' => plain.push_str(" 1/3"),
            '⅔' => plain.push_str(" 2/3"),
            '¼' => plain.push_str(" 1/4"),
            '¾' => plain.push_str(" 3/4"),
            '⅛' => plain.push_str(" 1/8"),
            '⅜' => plain.push_str(" 3/8"),
            '⅝' => plain.push_str(" 5/8"),
            '⅞' => plain.push_str(" 7/8"),
            _ if is_hidden(sign) && !sign.is_control() => {}
            _ if sign.is_whitespace() => plain.push(' '),
            _ => plain.push(sign),
        }
    }
    plain
}

/// The thin and no-break spaces that set off thousands (SI Brochure, 9th ed., 5.4.4).
fn is_group_space(sign: char) -> bool {
    matches!(sign, '\u{a0}' | '\u{2007}' | '\u{2009}' | '\u{202f}')
}

fn three_digits(text: &str) -> bool {
    let digits = text.chars().take(4).take_while(char::is_ascii_digit).count();
    digits == 3
}

/// Signs that are not seen: controls, joiners and changes of direction.
fn is_hidden(sign: char) -> bool {
    sign.is_control()
        || matches!(sign, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

fn ends_with_letter(text: &str) -> bool {
    text.ends_with(|sign: char| sign.is_ascii_alphabetic())
}

fn is_mark(sign: char) -> bool {
    sign == '.' || sign == ','
}

fn starts_with_digit(text: &str) -> bool {
    text.starts_with(|sign: char| sign.is_ascii_digit())
}

fn starts_with_letter(text: &str) -> bool {
    text.trim_start().starts_with(|sign: char| sign.is_ascii_alphabetic())
}

fn starts_number(text: &str) -> bool {
    let text = text.trim_start();
    starts_with_digit(text) || text.strip_prefix(['.', ',']).is_some_and(starts_with_digit)
}

/// OK because every length here ends between two signs; else nothing would be cut off.
fn split(text: &str, length: usize) -> (&str, &str) {
    text.split_at_checked(length).unwrap_or((text, ""))
}

/// Length of the digits and of the marks that a digit follows.
fn number_length(text: &str) -> usize {
    let mut length = 0;
    let mut rest = text;
    while let Some(sign) = rest.chars().next() {
        let after = rest.strip_prefix(sign).unwrap_or_default();
        if !(sign.is_ascii_digit() || (is_mark(sign) && starts_with_digit(after))) {
            break;
        }
        length += 1;
        rest = after;
    }
    length
}

/// Length of the letters, and of a 2 or 3 that makes a square or a cube of them.
fn word_length(text: &str) -> usize {
    const RAISED: [&str; 10] =
        ["ft", "foot", "feet", "in", "inch", "inches", "yd", "m", "cm", "mm"];
    let length = text.find(|sign: char| !sign.is_ascii_alphabetic()).unwrap_or(text.len());
    let (word, after) = split(text, length);
    // "4ft2in" is two lengths, "4 ft2" an area.
    let raised = RAISED.contains(&word)
        && after.strip_prefix(['2', '3']).is_some_and(|next| {
            !next.starts_with(|c: char| {
                c.is_ascii_alphanumeric() || matches!(c, '\'' | '"' | '/' | '-')
            }) && !starts_number(next)
        });
    if raised { length + 1 } else { length }
}

/// The value of digits with at most one mark.
///
/// Exact to the last bit up to 15 digits, because a whole number below 2^53 and a power of ten up
/// to 10^22 are both exact; beyond 19 digits the rest only counts by its place. The parser of the
/// standard library would double the size of what goes to the phone.
fn value(digits: &str) -> f64 {
    let mut mantissa: u64 = 0;
    let mut power: i32 = 0;
    let mut fraction = false;
    for sign in digits.chars() {
        let Some(digit) = sign.to_digit(10) else {
            fraction = true;
            continue;
        };
        let wider = mantissa.checked_mul(10).and_then(|m| m.checked_add(u64::from(digit)));
        match wider {
            Some(wider) => {
                mantissa = wider;
                power -= i32::from(fraction);
            }
            None => power += i32::from(!fraction),
        }
    }
    let scale = 10_f64.powi(power.abs());
    if power < 0 { mantissa as f64 / scale } else { mantissa as f64 * scale }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn value_of(text: &str) -> f64 {
        value(text)
    }

    #[test]
    fn digits_give_the_nearest_float() {
        for text in ["0", "14", "1.5", "0.1", "4.35", "123456789.012345", "0.000001", "1,5", ".25"]
        {
            let expected: f64 = text.replace(',', ".").parse().unwrap();
            assert_eq!(value_of(text), expected, "{text}");
        }
    }

    #[test]
    fn more_digits_than_a_float_holds_stay_within_a_few_parts_in_ten_to_the_fifteenth() {
        for text in [
            "0.30000000000000004",
            "3.14159265358979323846264338327950288",
            "123456789012345678901234567890",
        ] {
            let expected: f64 = text.parse().unwrap();
            assert!((value_of(text) / expected - 1.0).abs() < 2e-15, "{text}");
        }
    }

    #[test]
    fn squares_and_cubes_are_words_but_feet_and_inches_are_two() {
        let words = |text: &str| {
            let plain = Plain::new(text).unwrap();
            let tokens = plain.tokens().unwrap();
            tokens.iter().filter(|t| matches!(t, Token::Word(_))).count()
        };
        assert_eq!(words("4 ft2"), 1);
        assert_eq!(words("4 m^3"), 1);
        assert_eq!(words("4 m³."), 1);
        assert_eq!(words("4ft2in"), 2);
        assert_eq!(words("4ft2\""), 2);
    }

    #[test]
    fn a_text_too_long_is_refused_and_shown_short() {
        let why = Plain::new(&"9".repeat(201)).err().unwrap();
        assert!(why.chars().count() < 100, "{why}");
        assert!(Plain::new(&"9".repeat(200)).is_ok());
    }
}
