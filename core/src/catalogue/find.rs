//! Finding a crop by whatever it is called.

use std::sync::OnceLock;

use super::crop::{Crop, crops};
use super::fold::fold;
use super::resolve::OFFERED;

/// A name longer than this many letters is cut, so that a lookup stays quick.
const LONGEST: usize = 60;

/// All names of a table, folded, in the order of its rows. Made once: a record of ten years asks some thousand
/// times for one screen, and a name of the gardener's own is looked for among all of them.
pub(crate) type Folded<T> = OnceLock<Vec<(String, &'static T)>>;

/// A row of the catalogue that is found by name.
pub(crate) trait Named: Sized + 'static {
    /// Its lasting id.
    fn id(&self) -> &'static str;
    /// Its plain name.
    fn name(&self) -> &'static str;
    /// Its other common names.
    fn also(&self) -> &'static [&'static str];
    /// Where the folded names of the table are kept.
    fn folded() -> &'static Folded<Self>;
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

    fn folded() -> &'static Folded<Self> {
        static FOLDED: Folded<Crop> = Folded::new();
        &FOLDED
    }
}

/// The name is none of a crop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoCrop;

/// The crop of this id, name or other common name; case, accents, punctuation, plural and the order
/// of words do not count. What a gardener asks is read by [`resolve`](super::resolve), which sees
/// through slips besides.
///
/// # Errors
/// [`NoCrop`] where the name is none.
///
/// ```
/// use pegline_core::catalogue::crop;
/// assert_eq!(crop("Lettuces, leaf").map(|crop| crop.id()), Ok("lettuce-leaf"));
/// assert!(crop("cabage").is_err());
/// ```
pub fn crop(name: &str) -> Result<&'static Crop, NoCrop> {
    exact(name, crops()).ok_or(NoCrop)
}

/// The row of this id, name or other common name, if there is one; `rows` is its whole table.
pub(super) fn exact<T: Named>(name: &str, rows: &'static [T]) -> Option<&'static T> {
    // As entries have it: nearly always, and many times for one screen.
    if let Some(row) = rows.iter().find(|row| row.id() == name) {
        return Some(row);
    }
    let names = |row: &'static T| {
        let names = [row.id(), row.name()].into_iter().chain(row.also().iter().copied());
        names.map(move |name| (fold(name), row))
    };
    let folded = T::folded().get_or_init(|| rows.iter().flat_map(names).collect());
    let wanted = fold(&short(name));
    folded.iter().find(|(name, _)| *name == wanted).map(|(_, row)| *row)
}

/// The name, cut where it is too long to be one.
pub(super) fn short(name: &str) -> String {
    name.chars().take(LONGEST).collect()
}

/// The row of this id, name or other common name, or else the three nearest by their letters.
pub(super) fn find<T: Named>(
    name: &str,
    rows: &'static [T],
) -> Result<&'static T, Vec<&'static T>> {
    // How near the others are is not asked as long as one is meant.
    if let Some(row) = exact(name, rows) {
        return Ok(row);
    }
    let wanted = fold(&short(name));
    let mut nearest: Vec<(usize, &'static T)> = Vec::new();
    for row in rows {
        let first = distance(&wanted, &fold(row.name())).min(distance(&wanted, &fold(row.id())));
        let other = row.also().iter().map(|name| distance(&wanted, &fold(name))).min();
        let distance = first.min(other.map_or(first, |other| other + 1));
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
pub(super) fn distance(wanted: &str, name: &str) -> usize {
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

    #[test]
    fn every_crop_is_found_by_each_of_its_names() {
        for one in crops() {
            for name in names(one) {
                let plural = format!(" {}s, ", name.trim_end_matches('s'));
                let written = [name.to_owned(), name.to_uppercase(), plural];
                for written in written {
                    assert_eq!(crop(&written).map(Crop::id), Ok(one.id()), "{written}");
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
            assert_eq!(crop(written).map(Crop::id), Ok(id), "{written}");
        }
    }
}
