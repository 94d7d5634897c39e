//! Sets of plants of which at most one can be there.
//!
//! One row a set says far more to a solver by linear programming than one row a pair: a plant on
//! every site at one half satisfies all pairs. The sets are grown greedily until each pair that
//! exclude each other is in one.

use crate::sites::Model;

/// A set of small numbers.
#[derive(Clone)]
struct Bits(Vec<u64>);

impl Bits {
    fn none(size: usize) -> Self {
        Self(vec![0; size.div_ceil(64)])
    }

    fn set(&mut self, at: usize) {
        if let Some(word) = self.0.get_mut(at / 64) {
            *word |= 1 << (at % 64);
        }
    }

    fn clear(&mut self, at: usize) {
        if let Some(word) = self.0.get_mut(at / 64) {
            *word &= !(1 << (at % 64));
        }
    }

    fn keep(&mut self, other: &Self) {
        for (word, other) in self.0.iter_mut().zip(&other.0) {
            *word &= other;
        }
    }

    fn shared(&self, other: &Self) -> u32 {
        self.0.iter().zip(&other.0).map(|(one, other)| (one & other).count_ones()).sum()
    }

    fn members(&self) -> impl Iterator<Item = usize> + '_ {
        self.0.iter().enumerate().flat_map(|(at, &word)| {
            (0..64).filter(move |bit| word >> bit & 1 == 1).map(move |bit| at * 64 + bit)
        })
    }
}

/// Sets of choices of which at most one can be made; together they hold each excluded pair.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cliques(pub Vec<Vec<usize>>);

impl Cliques {
    /// Covers every excluded pair among the first `size` choices of a model.
    #[must_use]
    pub fn cover(model: &Model, size: usize) -> Self {
        let mut cliques = Vec::new();
        // Which pairs are still to be covered, kept at the earlier choice of each.
        let mut open: Vec<Bits> = Vec::new();
        for (at, list) in model.excludes.iter().take(size).enumerate() {
            let mut later = Bits::none(size);
            list.iter()
                .filter(|&&other| other > at && other < size)
                .for_each(|&other| later.set(other));
            open.push(later);
        }
        for first in 0..size {
            // Only what the first one excludes can be with it, so that is all one has to look at.
            let Some(around) = model.excludes.get(first) else {
                continue;
            };
            let around: Vec<usize> = around.iter().copied().filter(|&at| at < size).collect();
            let near: Vec<Bits> = around
                .iter()
                .map(|&at| {
                    let mut bits = Bits::none(around.len());
                    let list = model.excludes.get(at).map_or(&[][..], Vec::as_slice);
                    for other in list {
                        if let Ok(place) = around.binary_search(other) {
                            bits.set(place);
                        }
                    }
                    bits
                })
                .collect();
            while let Some(second) = open.get(first).and_then(|bits| bits.members().next()) {
                let clique = grow(first, second, &around, &near);
                for (place, &one) in clique.iter().enumerate() {
                    if let Some(bits) = open.get_mut(one) {
                        clique.iter().skip(place + 1).for_each(|&other| bits.clear(other));
                    }
                }
                cliques.push(clique);
            }
        }
        Self(cliques)
    }
}

/// The set of both, with as many more of the first one's surroundings as can be had greedily.
fn grow(first: usize, second: usize, around: &[usize], near: &[Bits]) -> Vec<usize> {
    let mut clique = vec![first, second];
    let mut left = around.binary_search(&second).ok().and_then(|place| near.get(place).cloned());
    while let Some(candidates) = &mut left {
        let best = candidates
            .members()
            .filter_map(|at| Some((near.get(at)?.shared(candidates), std::cmp::Reverse(at))))
            .max();
        let Some((_, std::cmp::Reverse(at))) = best else {
            break;
        };
        if let (Some(choice), Some(bits)) = (around.get(at), near.get(at)) {
            clique.push(*choice);
            candidates.keep(bits);
        }
    }
    clique.sort_unstable();
    clique
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_excluded_pair_is_in_a_set_and_every_set_excludes_itself() {
        for line in [
            "24384 12192 4 - - 2286 - 762 in-order 4572 - = -",
            "12192 9144 3 - - 1524 - 762 in-order 4572x9,2540x9,1524 - = -",
        ] {
            let model = Model::of(&line.parse().unwrap());
            let size = model.choices.len();
            let Cliques(sets) = Cliques::cover(&model, size);
            let excluded = |one: usize, other: usize| model.excludes[one].contains(&other);
            for set in &sets {
                for (place, &one) in set.iter().enumerate() {
                    assert!(set[place + 1..].iter().all(|&other| excluded(one, other)));
                }
            }
            for one in 0..size {
                for &other in &model.excludes[one] {
                    assert!(sets.iter().any(|set| set.contains(&one) && set.contains(&other)));
                }
            }
        }
    }
}
