//! The latitude of the garden.

use crate::given::Readable;
use crate::quantity::Unreadable;
use crate::quantity::number::{take_number, take_sign};
use crate::quantity::words::{Plain, Token, quoted};

/// A latitude from 90° south to 90° north.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Latitude(f64);

impl Latitude {
    /// Degrees, south negative; nothing outside -90 to 90.
    #[must_use]
    pub fn from_degrees(degrees: f64) -> Option<Self> {
        (-90.0..=90.0).contains(&degrees).then_some(Self(degrees))
    }

    /// Reads "45", "45.5 N", "33 S", "-33" or "45° 30' N"; north unless south is said.
    ///
    /// # Errors
    /// In plain words, for anything else and for what lies beyond the poles.
    ///
    /// South may be said by a letter or a sign:
    /// ```
    /// use pegline_core::place::Latitude;
    /// assert_eq!(Latitude::read("45.5 N").unwrap().degrees(), 45.5);
    /// assert_eq!(Latitude::read("33 S").unwrap(), Latitude::read("-33").unwrap());
    /// assert!(Latitude::read("91").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Unreadable> {
        degrees(text)
            .and_then(|degrees| {
                Self::from_degrees(degrees)
                    .ok_or_else(|| format!("{} lies beyond the pole", quoted(text)))
            })
            .map_err(|why| Unreadable {
                allowed: "a latitude from 90 S to 90 N, such as 45.5 N or 33 S".to_owned(),
                why,
            })
    }

    /// Degrees from -90 to 90, south negative.
    #[must_use]
    pub fn degrees(self) -> f64 {
        self.0
    }

    /// Whether it lies south of the equator, where the seasons are turned round.
    #[must_use]
    pub fn is_southern(self) -> bool {
        self.0 < 0.0
    }

    /// In radians.
    pub(crate) fn radians(self) -> f64 {
        self.0.to_radians()
    }
}

fn degrees(text: &str) -> Result<f64, String> {
    let plain = Plain::new(text)?;
    let tokens = plain.tokens()?;
    let unread = || format!("{} is not a latitude", quoted(plain.text()));
    let (before, tokens) = match &*tokens {
        [Token::Word(word), rest @ ..] if is_south(word).is_some() => (is_south(word), rest),
        tokens => (None, tokens),
    };
    let (tokens, after) = match tokens {
        [rest @ .., Token::Word(word)] if is_south(word).is_some() => (rest, is_south(word)),
        tokens => (tokens, None),
    };
    let signed = matches!(tokens, [Token::Dash | Token::Plus | Token::Word("minus"), ..]);
    let named = before.or(after);
    if (before.is_some() && after.is_some()) || (signed && named.is_some()) {
        return Err(format!("{} says north or south twice", quoted(plain.text())));
    }
    let (sign, mut rest) = take_sign(tokens);
    let mut total = 0.0;
    let mut is_first = true;
    // Degrees, minutes and seconds, each after the other; degrees alone need no mark.
    for (mark, size) in [("°", 1.0), ("'", 60.0), ("\"", 3600.0)] {
        let Some((number, after)) = take_number(rest)? else {
            break;
        };
        if !is_first && number >= 60.0 {
            return Err(unread());
        }
        total += number / size;
        rest = match after {
            [] if is_first => after,
            [Token::Word(word), after @ ..] if is_mark(word, mark) => after,
            _ => return Err(unread()),
        };
        is_first = false;
    }
    if is_first || !rest.is_empty() {
        return Err(unread());
    }
    Ok(if named == Some(true) { -total } else { sign * total })
}

fn is_south(word: &str) -> Option<bool> {
    match word {
        "n" | "north" => Some(false),
        "s" | "south" => Some(true),
        _ => None,
    }
}

fn is_mark(word: &str, mark: &str) -> bool {
    word == mark || (mark == "°" && matches!(word, "deg" | "degree" | "degrees"))
}

impl Readable for Latitude {
    fn allowed() -> String {
        "a latitude such as 45.5 N or 33 S, from 90 S to 90 N".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        Self::read(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn latitudes_are_read_as_people_write_them() {
        let rows = [
            ("45", 45.0),
            ("45.5 N", 45.5),
            ("45,5 N", 45.5),
            ("45.5N", 45.5),
            ("45.5° N", 45.5),
            ("45 degrees north", 45.0),
            ("N 45.5", 45.5),
            ("45°30'N", 45.5),
            ("45° 30′ N", 45.5),
            ("45°30'36\"N", 45.51),
            ("45 1/2 N", 45.5),
            ("33 S", -33.0),
            ("33 s", -33.0),
            ("S 33° 30'", -33.5),
            ("33 south", -33.0),
            ("-33", -33.0),
            ("−33.5", -33.5),
            ("0", 0.0),
            ("90", 90.0),
            ("90 S", -90.0),
        ];
        for (text, degrees) in rows {
            let read = Latitude::read(text).unwrap().degrees();
            assert!((read - degrees).abs() < 1e-12, "{text}: {read}");
        }
        assert!(Latitude::read("33 S").unwrap().is_southern());
        assert!(!Latitude::read("33 N").unwrap().is_southern());
    }

    #[test]
    fn what_is_no_latitude_is_refused() {
        for text in [
            "",
            "N",
            "91",
            "-90.1",
            "90°1'",
            "-33 S",
            "+33 S",
            "N 33 S",
            "45 30 N",
            "45°60'",
            "45.52, -122.68",
            "45 E",
            "45 ft",
            "NaN",
            "1e1",
            "45'",
            "45,123",
            "45° N 3'",
            "forty",
        ] {
            let read = Latitude::read(text);
            assert!(read.is_err(), "{text}: {read:?}");
        }
        assert_eq!(Latitude::from_degrees(f64::NAN), None);
        assert_eq!(Latitude::from_degrees(90.001), None);
    }

    proptest! {
        #[test]
        fn any_text_is_a_latitude_or_refused(text in "[NS]?[0-9.,°'\" -]{0,12}[ns]?|.{0,40}") {
            if let Ok(latitude) = Latitude::read(&text) {
                prop_assert!(latitude.degrees().abs() <= 90.0);
            }
        }
    }
}
