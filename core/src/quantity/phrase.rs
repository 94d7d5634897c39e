//! A number with its unit, taken from a text: one unit, falling units, or so much per time.

use super::number::{is_number_word, take_number, take_sign};
use super::units::{self, Hint, Unit};
use super::words::{Plain, Token, quoted, short};

/// What the reader must know of a quantity.
pub(super) struct Kind {
    pub(super) units: &'static [Unit],
    pub(super) hints: &'static [Hint],
    /// The unit that people of each system would most likely have left out.
    pub(super) usual: [&'static str; 2],
    /// For so much per time: the units of "so much".
    pub(super) per_time: Option<&'static [Unit]>,
    /// Whether 0 needs no unit.
    pub(super) bare_zero: bool,
}

impl Kind {
    pub(super) const fn new(units: &'static [Unit], usual: [&'static str; 2]) -> Self {
        Self { units, hints: &[], usual, per_time: None, bare_zero: false }
    }
}

/// The quantity in the SI unit, or in words why not.
pub(super) fn si(text: &str, kind: &Kind, what: &str) -> Result<f64, String> {
    let plain = Plain::new(text)?;
    let tokens = plain.tokens()?;
    let (sign, tokens) = take_sign(&tokens);
    let Some((first, rest)) = take_number(tokens)? else {
        return Err(format!("{} has no number that can be read", quoted(plain.text())));
    };
    if starts_second_number(rest) {
        return Err(format!("{} is two numbers; write one {what}", quoted(plain.text())));
    }
    if rest.is_empty() {
        if kind.bare_zero && first == 0.0 {
            return Ok(0.0);
        }
        let [us, metric] = kind.usual;
        let text = short(plain.text());
        return Err(format!("no unit: {text} {us} or {text} {metric}?"));
    }
    let value = if let Some(amounts) = kind.per_time {
        rate(sign * first, rest, amounts, kind, what)?
    } else {
        sum(sign, first, rest, kind, what)?
    };
    if value.is_finite() {
        Ok(value)
    } else {
        Err(format!("{} is too large", quoted(plain.text())))
    }
}

/// One amount, or several of falling units ("4 ft 6 in").
fn sum(sign: f64, first: f64, rest: &[Token<'_>], kind: &Kind, what: &str) -> Result<f64, String> {
    let (name, mut rest) = take_unit(rest);
    let mut last = name.find(kind, what)?;
    let mut total = (last.si)(sign * first);
    while !rest.is_empty() {
        let (joined, after) = match rest {
            [Token::Word("and"), after @ ..] => (true, after),
            // The hyphen of 4'-6" is no minus.
            [Token::Dash, after @ ..] => (false, after),
            _ => (false, rest),
        };
        let Some((next, after)) = take_number(after)? else {
            return Err(not_one(what));
        };
        let (name, after) = take_unit(after);
        rest = after;
        let unit = if !name.plain.is_empty() {
            name.find(kind, what)?
        } else if joined && next < 1.0 && (last.si)(0.0) == 0.0 {
            // "an hour and a half"; degrees have no such half, for their scale starts elsewhere.
            total += (last.si)(sign * next);
            continue;
        } else {
            let then = last.implied_next().and_then(|name| units::find(kind.units, name));
            then.ok_or_else(|| "the last number has no unit".to_owned())?
        };
        if !unit.may_follow(last) {
            return Err(not_one(what));
        }
        total += (unit.si)(sign * next);
        last = unit;
    }
    Ok(total)
}

/// So much per time, in one word ("gph") or in two parts ("gallons per hour").
fn rate(
    number: f64,
    rest: &[Token<'_>],
    amounts: &'static [Unit],
    kind: &Kind,
    what: &str,
) -> Result<f64, String> {
    let per = |token: &Token<'_>| {
        matches!(token, Token::Slash | Token::Word("per" | "a" | "an" | "each" | "every" | "in"))
    };
    // What comes first is the amount's own: an inch is called "in" too.
    let at = rest.iter().skip(1).position(per).map_or(rest.len(), |at| at + 1);
    let (amount, time) = rest.split_at_checked(at).unwrap_or((rest, &[]));
    let (amount, after) = take_unit(amount);
    // "14 ml in 30 s", "a litre in half a minute": caught in a jar for so long.
    let time = time.get(1..).unwrap_or_default();
    let (long, time) = take_number(time)?.unwrap_or((1.0, time));
    let (time, end) = take_unit(time);
    if !after.is_empty() || !end.is_empty() {
        return Err(not_one(what));
    }
    if time.plain.is_empty() {
        if units::find(amounts, &amount.plain).is_some() {
            let [us, metric] = kind.usual;
            return Err(format!("{} in what time? Write {us} or {metric}", quoted(&amount.shown)));
        }
        return Ok((amount.find(kind, what)?.si)(number));
    }
    let amount = units::find(amounts, &amount.plain).ok_or_else(|| amount.unknown(what))?;
    let time = units::find(units::TIMES, &time.plain).ok_or_else(|| time.unknown("time"))?;
    Ok((amount.si)(number) / (time.si)(long))
}

/// The area of "4 x 8 ft", in square metres; nothing if it is not written so.
pub(super) fn sides(text: &str, lengths: &Kind, what: &str) -> Result<Option<f64>, String> {
    let plain = Plain::new(text)?;
    let tokens = plain.tokens()?;
    let mut sides = tokens.splitn(2, |token| matches!(token, Token::Word("x" | "by")));
    let (Some(one), Some(other)) = (sides.next(), sides.next()) else {
        return Ok(None);
    };
    let (Some((one, one_unit)), Some((other, other_unit))) =
        (take_number(one)?, take_number(other)?)
    else {
        return Err(not_one(what));
    };
    if other_unit.is_empty() {
        let text = short(plain.text());
        return Err(format!("no unit: {text} ft or {text} m?"));
    }
    // The first side borrows the unit of the second.
    let one_unit =
        if one_unit.is_empty() { other_unit.get(..1).unwrap_or_default() } else { one_unit };
    let side = |number, unit| sum(1.0, number, unit, lengths, "length");
    Ok(Some(side(one, one_unit)? * side(other, other_unit)?))
}

/// A unit as it was named.
#[derive(Default)]
struct Name {
    /// In one word, for the table.
    plain: String,
    /// As words, for a sentence.
    shown: String,
}

impl Name {
    fn find(&self, kind: &Kind, what: &str) -> Result<&'static Unit, String> {
        units::find(kind.units, &self.plain).ok_or_else(|| {
            let is_meant = |(names, _): &&Hint| units::is_among(&self.plain, names);
            let hint = kind.hints.iter().find(is_meant);
            hint.map_or_else(|| self.unknown(what), |(_, why)| (*why).to_owned())
        })
    }

    fn unknown(&self, what: &str) -> String {
        if self.plain.is_empty() {
            return "the unit cannot be read".to_owned();
        }
        format!("{} is not a known unit of {what}", quoted(&self.shown))
    }
}

/// The unit named at the start, and what follows it.
fn take_unit<'a, 't>(tokens: &'t [Token<'a>]) -> (Name, &'t [Token<'a>]) {
    let mut name = Name::default();
    let mut rest = tokens;
    while let [Token::Word(word), after @ ..] = rest {
        let ends = matches!(*word, "and" | "to" | "or");
        if ends || (!name.plain.is_empty() && is_number_word(word)) {
            break;
        }
        if !name.shown.is_empty() {
            name.shown.push(' ');
        }
        name.shown.push_str(word);
        name.plain.push_str(match *word {
            "square" => "sq",
            "cubic" => "cu",
            "degrees" | "degree" | "deg" => "°",
            word => word,
        });
        rest = after;
        // A mark ends its unit: 4'6".
        if matches!(*word, "'" | "\"") {
            break;
        }
    }
    (name, rest)
}

fn not_one(what: &str) -> String {
    format!("this is more than one {what}, or has words that cannot be read")
}

/// A second number right after the first: "4-6", "4 to 6", "1 500".
fn starts_second_number(tokens: &[Token<'_>]) -> bool {
    match tokens {
        [Token::Number(_) | Token::Dash, ..] => true,
        [Token::Word("to" | "or"), Token::Number(_), ..] => true,
        [Token::Word("to" | "or"), Token::Word(word), ..] => is_number_word(word),
        _ => false,
    }
}
