//! Names of entries: 48 bits of clock and 80 of chance, written as 26 letters and digits.
//!
//! Source of the form: the ULID specification, "Canonical String Representation".

use std::{fmt, str::FromStr};

/// The name of an entry; in the order in which names were made on one device.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Ulid(pub u128);

impl Ulid {
    /// When it was made by that phone's clock, in milliseconds since 1970.
    #[must_use]
    pub fn millis(self) -> u64 {
        // OK because 48 bits are left.
        u64::try_from(self.0 >> CHANCE_BITS).unwrap_or(LAST_MS)
    }
}

/// How much of a name is chance, in bits.
const CHANCE_BITS: u32 = 80;

/// The largest clock reading a name can hold, in milliseconds since 1970 (year 10889).
const LAST_MS: u64 = (1 << 48) - 1;

/// As the 26 letters and digits of the specification.
impl fmt::Display for Ulid {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&rusty_ulid::Ulid::from(self.0).to_string())
    }
}

/// That a text names nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoName;

impl FromStr for Ulid {
    type Err = NoName;

    fn from_str(text: &str) -> Result<Self, NoName> {
        read_id(text).ok_or(NoName)
    }
}

/// The name in this text, or nothing when it is none.
///
/// Small letters are taken too. Text above `7ZZZ…` holds more than 128 bits and names nothing.
#[must_use]
pub fn read_id(text: &str) -> Option<Ulid> {
    let read: rusty_ulid::Ulid = text.parse().ok()?;
    // One spelling a name: the look-alikes that Crockford's digits allow would be a second one.
    let id = Ulid(read.into());
    id.to_string().eq_ignore_ascii_case(text).then_some(id)
}

/// A new name, always above the last one made on this device.
///
/// - `now_ms`: the clock in milliseconds since 1970; it may have been set back since `last_own`;
/// - `random`: chance from outside, of which the low 80 bits are used;
/// - `last_own`: the last name this device made, if any. Names from other devices do not count:
///   one with a clock far ahead must not drag the others along.
#[must_use]
pub fn next_id(now_ms: u64, random: u128, last_own: Option<Ulid>) -> Ulid {
    let clock = u128::from(now_ms.min(LAST_MS)) << CHANCE_BITS;
    let chance = random & ((1 << CHANCE_BITS) - 1);
    let above = last_own.map_or(0, |last| last.0.saturating_add(1));
    Ulid((clock | chance).max(above))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_example_of_the_specification_is_read() {
        // ULID specification (github.com/ulid/spec, README), "Monotonicity", both examples.
        let id = read_id("01BX5ZZKBKACTAV9WEVGEMMVRZ").unwrap();
        assert_eq!(id.to_string(), "01BX5ZZKBKACTAV9WEVGEMMVRZ");
        assert_eq!(id.0 + 1, read_id("01BX5ZZKBKACTAV9WEVGEMMVS0").unwrap().0);
        // The same page, list of properties: "Case insensitive".
        assert_eq!(read_id("01bx5zzkbkactav9wevgemmvrz"), Some(id));
    }

    #[test]
    fn the_largest_name_of_the_specification_is_read_and_the_next_text_refused() {
        // ULID specification (github.com/ulid/spec, README), "Overflow Errors when Parsing Base32 Strings".
        assert_eq!(read_id("7ZZZZZZZZZZZZZZZZZZZZZZZZZ"), Some(Ulid(u128::MAX)));
        assert_eq!(u128::MAX >> CHANCE_BITS, 281_474_976_710_655);
        assert_eq!(read_id("80000000000000000000000000"), None);
    }

    #[test]
    fn letters_outside_the_alphabet_name_nothing() {
        for text in [
            "",
            "01BX5ZZKBKACTAV9WEVGEMMVR",
            "01BX5ZZKBKACTAV9WEVGEMMVRU",
            "0é",
            "I1BX5ZZKBKACTAV9WEVGEMMVRZ",
        ] {
            assert_eq!(read_id(text), None, "{text}");
        }
    }

    #[test]
    fn a_clock_set_back_still_gives_a_later_name() {
        let last = next_id(1_000, 5, None);
        assert_eq!(next_id(10, 9, Some(last)), Ulid(last.0 + 1));
    }

    #[test]
    fn a_clock_gone_ahead_gives_the_clock_and_the_chance() {
        let last = next_id(1_000, 5, None);
        let next = next_id(2_000, 7, Some(last));
        assert_eq!(next, Ulid((2_000 << CHANCE_BITS) | 7));
        assert_eq!(next.millis(), 2_000);
    }

    proptest! {
        #[test]
        fn every_new_name_is_above_the_last(now: u64, random: u128, last in 0..u128::MAX) {
            prop_assert!(next_id(now, random, Some(Ulid(last))) > Ulid(last));
        }

        #[test]
        fn a_name_written_is_read_back(bits: u128) {
            prop_assert_eq!(read_id(&Ulid(bits).to_string()), Some(Ulid(bits)));
        }

        #[test]
        fn no_text_upsets_the_reader(text in ".{0,40}") {
            let _ = read_id(&text);
        }
    }
}
