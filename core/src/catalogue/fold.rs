//! Names brought to one form, so that they can be compared however they were written.

/// Folds a name: case, accents, punctuation, the plural and the order of words no longer count.
/// "Brussels Sprouts" and "sprout, brussel" fold to the same. Only Latin letters and digits are
/// kept: the catalogue's names have no others, and the tables that know the rest are large.
pub(crate) fn fold(name: &str) -> String {
    let mut words: Vec<String> = Vec::new();
    let mut word = String::new();
    for letter in name.chars().chain([' ']) {
        match letter {
            // An apostrophe stands inside a word: "lamb's".
            '\'' | '\u{2019}' => {}
            'À'..='Å' | 'à'..='å' => word.push('a'),
            'È'..='Ë' | 'è'..='ë' => word.push('e'),
            'Ì'..='Ï' | 'ì'..='ï' => word.push('i'),
            'Ñ' | 'ñ' => word.push('n'),
            'Ò'..='Ö' | 'ò'..='ö' => word.push('o'),
            'Ù'..='Ü' | 'ù'..='ü' => word.push('u'),
            'Ç' | 'ç' => word.push('c'),
            letter if letter.is_ascii_alphanumeric() => word.push(letter.to_ascii_lowercase()),
            _ if word.is_empty() => {}
            _ => {
                let singular = singular(&word);
                let place = words.partition_point(|other| *other < singular);
                words.insert(place, singular);
                word.clear();
            }
        }
    }
    words.join(" ")
}

/// One form for singular and plural. Not grammar, and not a word any more: "tomato" and "tomatoes",
/// "radish" and "radishes" meet, and "asparagus" and "mache" lose their ends wherever they stand.
fn singular(word: &str) -> String {
    if let Some(stem) = word.strip_suffix("ies") {
        return format!("{stem}y");
    }
    match word.trim_end_matches('s').trim_end_matches('e') {
        "" => word.to_owned(),
        stem => stem.to_owned(),
    }
}
