//! Putting lists in order.
//!
//! One sort serves every list: the library's is compiled anew for each kind of item and each order,
//! 5 kB a time, and a phone has to fetch them all.

/// Up to three whole numbers to sort by, the first deciding first.
pub(crate) type Key = [i64; 3];

/// A number that is the larger the larger this one is, in the order of [`f64::total_cmp`].
pub(crate) fn rank(number: f64) -> i64 {
    let bits = number.to_bits().cast_signed();
    bits ^ (bits >> 63).cast_unsigned().wrapping_shr(1).cast_signed()
}

/// A number, or the end of the range that it lies beyond.
///
/// The library's `clamp` brings along how to print a number in full, 8 kB on the phone.
pub(crate) fn between(number: f64, least: f64, most: f64) -> f64 {
    number.max(least).min(most)
}

/// Puts items in the order of their keys; those with equal keys keep theirs.
pub(crate) fn sort<T>(items: &mut [T], key: &dyn Fn(&T) -> Key) {
    let mut ranks = ranks(&mut items.iter().map(key));
    for at in 0..items.len() {
        // Each swap brings one item to its own place for good.
        while let Some(&to) = ranks.get(at).filter(|&&to| to != at) {
            items.swap(at, to);
            ranks.swap(at, to);
        }
    }
}

/// For each key in turn, its place among all of them.
fn ranks(keys: &mut dyn Iterator<Item = Key>) -> Vec<usize> {
    let mut sorted: Vec<(Key, usize)> = keys.zip(0..).collect();
    // No two of these are equal, so that a sort which may turn equal ones round does no harm.
    sorted.sort_unstable();
    let mut ranks = vec![0; sorted.len()];
    for (rank, (_, place)) in sorted.iter().enumerate() {
        if let Some(slot) = ranks.get_mut(*place) {
            *slot = rank;
        }
    }
    ranks
}

/// Puts numbers in rising order and leaves out repeats.
pub(crate) fn distinct<T: Copy + Into<i64> + PartialEq>(items: &mut Vec<T>) {
    sort(items, &|item| [(*item).into(), 0, 0]);
    items.dedup();
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn ranks_order_numbers_as_the_library_does(a in any::<f64>(), b in any::<f64>()) {
            prop_assert_eq!(rank(a).cmp(&rank(b)), a.total_cmp(&b));
        }

        #[test]
        fn items_come_in_the_order_of_the_library_s_stable_sort(
            mut items in proptest::collection::vec(((-3..3i64, -3..3i64, -3..3i64), 0..100u8), 0..80),
        ) {
            let mut expected = items.clone();
            expected.sort_by_key(|item| item.0);
            sort(&mut items, &|((a, b, c), _)| [*a, *b, *c]);
            prop_assert_eq!(items, expected);
        }

        #[test]
        fn repeats_are_left_out(mut items in proptest::collection::vec(-9..9i64, 0..40)) {
            let expected: std::collections::BTreeSet<i64> = items.iter().copied().collect();
            distinct(&mut items);
            prop_assert_eq!(items, expected.into_iter().collect::<Vec<_>>());
        }
    }
}
