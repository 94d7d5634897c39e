//! How a word sounds.

/// The Soundex code of a word: its first letter and three digits, those of letters that sound alike
/// being the same. R. C. Russell's of 1918, by the rules of the United States National Archives (from
/// memory). Nothing where it has no letter.
pub(super) fn soundex(word: &str) -> Option<[u8; 4]> {
    let mut letters =
        word.bytes().filter(u8::is_ascii_alphabetic).map(|it| it.to_ascii_lowercase());
    let first = letters.next()?;
    let mut code = [first, b'0', b'0', b'0'];
    let mut places = code.iter_mut().skip(1);
    let mut last = digit(first);
    for letter in letters {
        let own = digit(letter);
        match (own, letter) {
            // The same sound on both sides of h or w is one; of a vowel, two.
            (None, b'h' | b'w') => {}
            (None, _) => last = None,
            (Some(_), _) if own == last => {}
            (Some(digit), _) => {
                last = own;
                let Some(place) = places.next() else { break };
                *place = digit;
            }
        }
    }
    Some(code)
}

fn digit(letter: u8) -> Option<u8> {
    match letter {
        b'b' | b'f' | b'p' | b'v' => Some(b'1'),
        b'c' | b'g' | b'j' | b'k' | b'q' | b's' | b'x' | b'z' => Some(b'2'),
        b'd' | b't' => Some(b'3'),
        b'l' => Some(b'4'),
        b'm' | b'n' => Some(b'5'),
        b'r' => Some(b'6'),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of the United States National Archives' page on Soundex (from memory).
    #[test]
    fn the_codes_of_the_national_archives() {
        for (name, code) in [
            ("Washington", b"w252"),
            ("Lee", b"l000"),
            ("Gutierrez", b"g362"),
            ("Pfister", b"p236"),
            ("Jackson", b"j250"),
            ("Tymczak", b"t522"),
            ("VanDeusen", b"v532"),
            ("Ashcraft", b"a261"),
        ] {
            assert_eq!(soundex(name), Some(*code), "{name}");
        }
        assert_eq!(soundex("9"), None);
    }
}
