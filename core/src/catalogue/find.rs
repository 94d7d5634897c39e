//! Finding a crop by whatever it is called.

use super::crop::{Crop, crops};
use super::fold::fold;

/// A name longer than this many letters is cut, so that a lookup stays quick.
const LONGEST: usize = 60;

/// How many crops are offered in place of a name that is none.
const OFFERED: usize = 3;

/// A row of the catalogue that is found by name.
pub(crate) trait Named {
    /// Its lasting id.
    fn id(&self) -> &'static str;
    /// Its plain name.
    fn name(&self) -> &'static str;
    /// Its other common names.
    fn also(&self) -> &'static [&'static str];
}

impl Named for Crop {
    fn id(&self) -> &'static str {
        Self::id(self)
    }

    fn name(&self) -> &'static str {
        Self::name(self)
    }

    fn also(&self) -> &'static [&'static str] {
        Self::also(self)
    }
}

/// The crop of this id, name or other common name; case, accents, punctuation, plural and the order
/// of words do not count.
///
/// # Errors
/// The three nearest by name, the nearest first: those it may be short for ("lettuce"), then those
/// that differ by the fewest letters ("cabage").
///
/// ```
/// use pegline_core::catalogue::crop;
/// assert_eq!(crop("Lettuces, leaf").map(|crop| crop.id()).ok(), Some("lettuce-leaf"));
/// assert!(crop("cabage").is_err_and(|nearest| nearest[0].id() == "cabbage"));
/// ```
pub fn crop(name: &str) -> Result<&'static Crop, Vec<&'static Crop>> {
    find(name, crops())
}

/// The row of this id, name or other common name, or else the three nearest.
pub(super) fn find<T: Named>(
    name: &str,
    rows: &'static [T],
) -> Result<&'static T, Vec<&'static T>> {
    // As entries have it: nearly always, and many times for one screen.
    if let Some(row) = rows.iter().find(|row| row.id() == name) {
        return Ok(row);
    }
    let short: String = name.chars().take(LONGEST).collect();
    let wanted = fold(&short);
    let is_wanted = |name: &str| fold(name) == wanted;
    let named = |row: &&T| {
        is_wanted(row.id())
            || is_wanted(row.name())
            || row.also().iter().any(|name| is_wanted(name))
    };
    // How near the others are is not asked as long as one is meant.
    if let Some(row) = rows.iter().find(named) {
        return Ok(row);
    }
    let mut nearest: Vec<(usize, &'static T)> = Vec::new();
    for row in rows {
        let first = distance(&wanted, &fold(row.name())).min(distance(&wanted, &fold(row.id())));
        let other = row.also().iter().map(|name| distance(&wanted, &fold(name))).min();
        // "Lettuce" means leaf lettuce sooner than miner's lettuce, which is claytonia.
        let other = other.map_or(first, |other| other + 1);
        let distance = first.min(other);
        // Behind those equally near, which stay in order of their ids.
        let place = nearest.partition_point(|(nearer, _)| *nearer <= distance);
        if place < OFFERED {
            nearest.truncate(OFFERED - 1);
            nearest.insert(place, (distance, row));
        }
    }
    Err(nearest.into_iter().map(|(_, row)| row).collect())
}

/// 0 where every word wanted begins a word of the name; else the letters to change, add, drop or
/// swap.
fn distance(wanted: &str, name: &str) -> usize {
    let begins_one = |word: &str| name.split(' ').any(|of_name| of_name.starts_with(word));
    if !wanted.is_empty() && wanted.split(' ').all(begins_one) {
        return 0;
    }
    strsim::osa_distance(wanted, name)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(crop: &Crop) -> impl Iterator<Item = &'static str> {
        [crop.id(), crop.name()].into_iter().chain(crop.also().iter().copied())
    }

    fn ids(nearest: Vec<&'static Crop>) -> Vec<&'static str> {
        nearest.into_iter().map(Crop::id).collect()
    }

    fn offered(name: &str) -> Vec<&'static str> {
        ids(crop(name).err().unwrap())
    }

    #[test]
    fn every_crop_is_found_by_each_of_its_names() {
        for one in crops() {
            for name in names(one) {
                let plural = format!(" {}s, ", name.trim_end_matches('s'));
                let written = [name.to_owned(), name.to_uppercase(), plural];
                for written in written {
                    assert_eq!(crop(&written).ok().map(Crop::id), Some(one.id()), "{written}");
                }
            }
        }
    }

    #[test]
    fn the_order_of_words_plurals_and_accents_do_not_count() {
        for (written, id) in [
            ("lettuce, leaf", "lettuce-leaf"),
            ("Tomatoes", "tomato"),
            ("strawberries", "strawberry"),
            ("radishes", "radish"),
            ("lambs lettuce", "corn-salad"),
            ("Lamb\u{2019}s lettuce", "corn-salad"),
            ("mache", "corn-salad"),
            ("Bean (broad)", "bean-broad"),
            ("brussel sprout", "brussels-sprouts"),
        ] {
            assert_eq!(crop(written).ok().map(Crop::id), Some(id), "{written}");
        }
    }

    #[test]
    fn a_misspelt_name_brings_the_three_nearest() {
        for (written, id) in [
            ("cabage", "cabbage"),
            ("brocoli", "broccoli"),
            ("tomatoe plant", "tomato"),
            ("zuchini", "squash-summer"),
            ("letuce leaf", "lettuce-leaf"),
            ("galric", "garlic"),
        ] {
            let offered = offered(written);
            assert_eq!(offered.len(), OFFERED);
            assert!(offered.contains(&id), "{written}: {offered:?}");
        }
    }

    #[test]
    fn a_name_of_several_crops_brings_those() {
        assert_eq!(offered("onion"), ["onion-bulb", "onion-bunching", "onion-overwintering"]);
        assert_eq!(offered("lettuce")[..2], ["lettuce-head", "lettuce-leaf"]);
        assert_eq!(offered("broc")[..2], ["broccoli", "leaf-broccoli"]);
        assert_eq!(offered("marigold")[..2], ["marigold-african", "marigold-french"]);
    }

    #[test]
    fn nothing_and_nonsense_are_refused() {
        for written in ["", "  ,;", "'", "9", "\u{0}\u{202e}", &"x".repeat(100_000)] {
            assert_eq!(offered(written).len(), OFFERED);
        }
    }

    proptest::proptest! {
        #[test]
        fn any_text_is_a_crop_or_brings_three(text in ".*") {
            if let Err(nearest) = crop(&text) {
                proptest::prop_assert_eq!(nearest.len(), OFFERED);
            }
        }
    }
}
