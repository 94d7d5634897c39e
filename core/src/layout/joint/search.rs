//! A way through the graph that plants enough, or the certainty that there is none.
//!
//! Stop by stop, all ways that may still plant enough are kept: a way is dropped when one of the
//! known sums of worths says that too little can follow it, or when another at the same node has at
//! least as many of each kind. Where more ways are left than may be carried on, the most promising
//! go on; if they fail, the search begins again with more. Without such a choice, failing is proof.
#![expect(
    clippy::indexing_slicing,
    reason = "every index was made by this folder from the lengths of the same lists"
)]

use super::graph::{Graph, NONE};
use super::prices::ONE;

/// The most kinds searched together.
pub(super) const MOST_KINDS: usize = 6;
/// The most plants of one kind that are counted: ten bits each, the highest kept free.
pub(super) const MOST_COUNTED: u32 = 511;
/// The most bounds looked at.
const MOST_BOUNDS: usize = 8;
/// The ways carried on at first.
const FIRST_WIDTH: usize = 64;

/// Worths of each kind's places, and the sums of worths that can follow each node.
pub(super) struct Priced {
    pub(super) worth: Vec<i32>,
    pub(super) values: Vec<i32>,
}

impl Priced {
    /// By how much the best that can follow the empty bed exceeds what so many plants need.
    pub(super) fn slack(&self, caps: &[u32], plants: u32) -> i64 {
        i64::from(self.values.first().copied().unwrap_or(0)) - self.need(caps, plants)
    }

    fn need(&self, caps: &[u32], plants: u32) -> i64 {
        let spare = self
            .worth
            .iter()
            .zip(caps)
            .map(|(worth, cap)| i64::from(ONE - worth) * i64::from(*cap));
        i64::from(plants) * i64::from(ONE) - spare.sum::<i64>()
    }
}

/// How a search stands.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum State {
    /// The steps are used up.
    Open,
    /// For each stop what is planted there, 0 for nothing.
    Found(Vec<u8>),
    /// There is no such layout.
    None,
}

/// The search for a layout with so many plants, of each kind at most its cap.
pub(super) struct Search {
    caps: Vec<u32>,
    /// The bounds looked at, by their places.
    bounds: Vec<usize>,
    /// By how much each exceeds, for the empty bed, what is needed.
    slack: [i32; MOST_BOUNDS],
    /// How many ways are carried on at most.
    width: usize,
    /// Whether some were left behind.
    narrowed: bool,
    ways: Vec<Way>,
    /// For each stop passed and each way kept behind it: the way before it, and what was planted.
    trail: Vec<Vec<(u32, u8)>>,
}

/// A way to some node.
#[derive(Clone, Copy)]
struct Way {
    node: u32,
    /// Plants of each kind so far, ten bits each.
    counts: u64,
    /// For each bound, by how much it exceeds what is needed.
    slack: [i32; MOST_BOUNDS],
    /// The way it came from, and what was planted last.
    before: u32,
    turn: u8,
}

impl Way {
    /// Whether it has at least as many of each kind.
    fn has_all_of(&self, other: &Self) -> bool {
        const HIGH: u64 = {
            let mut bits = 0;
            let mut kind = 0;
            while kind < MOST_KINDS {
                bits |= 1 << (10 * kind + 9);
                kind += 1;
            }
            bits
        };
        ((self.counts | HIGH) - other.counts) & HIGH == HIGH
    }

    fn promise(&self, bounds: usize) -> i32 {
        self.slack[..bounds].iter().copied().min().unwrap_or(0)
    }
}

impl Search {
    pub(super) fn new(pool: &[Priced], caps: &[u32], plants: u32) -> Self {
        let mut bounds: Vec<(usize, i64)> =
            pool.iter().map(|priced| priced.slack(caps, plants)).enumerate().collect();
        crate::order::sort(&mut bounds, &|&(at, slack)| [slack, at as i64, 0]);
        bounds.truncate(MOST_BOUNDS);
        let mut slack = [0; MOST_BOUNDS];
        for (own, bound) in slack.iter_mut().zip(&bounds) {
            *own = i32::try_from(bound.1).unwrap_or(i32::MAX / 2);
        }
        let mut search = Self {
            caps: caps.to_vec(),
            bounds: bounds.iter().map(|bound| bound.0).collect(),
            slack,
            width: FIRST_WIDTH,
            narrowed: false,
            ways: Vec::new(),
            trail: Vec::new(),
        };
        search.begin();
        search
    }

    fn begin(&mut self) {
        self.narrowed = false;
        self.trail.clear();
        self.ways = vec![Way { node: 0, counts: 0, slack: self.slack, before: 0, turn: 0 }];
    }

    /// Searches on until `steps` are used up or the end is reached; takes from `steps` what it used.
    pub(super) fn run(&mut self, graph: &Graph, pool: &[Priced], steps: &mut u64) -> State {
        loop {
            let stop = self.trail.len();
            if self.ways.is_empty() {
                if !self.narrowed {
                    return State::None;
                }
                self.width *= 8;
                self.begin();
                continue;
            }
            if stop == graph.stops.len() {
                return State::Found(self.turns());
            }
            if *steps == 0 {
                return State::Open;
            }
            *steps = steps.saturating_sub(self.ways.len() as u64);
            self.pass(graph, pool, stop);
        }
    }

    /// What the first way left has planted.
    fn turns(&self) -> Vec<u8> {
        let mut at = 0;
        let mut turns: Vec<u8> = self
            .trail
            .iter()
            .rev()
            .map(|ways| {
                let (before, turn) = ways[at];
                at = before as usize;
                turn
            })
            .collect();
        turns.reverse();
        turns
    }

    /// Takes every way past one stop.
    fn pass(&mut self, graph: &Graph, pool: &[Priced], stop: usize) {
        let (here, there) = (graph.first(stop), graph.first(stop + 1));
        let mut next: Vec<Way> = Vec::with_capacity(self.ways.len() * 2);
        for (before, way) in (0_u32..).zip(&self.ways) {
            for (turn, &to) in graph.edges(stop, way.node as usize).iter().enumerate().rev() {
                let kind = turn.checked_sub(1);
                let full = kind.is_some_and(|kind| {
                    (way.counts >> (10 * kind) & 511) as u32 >= self.caps[kind]
                });
                if to == NONE || full {
                    continue;
                }
                let mut slack = way.slack;
                let mut enough = true;
                for (&bound, slack) in self.bounds.iter().zip(&mut slack) {
                    let priced = &pool[bound];
                    let worth = kind.map_or(0, |kind| priced.worth[kind]);
                    let values = &priced.values;
                    *slack -=
                        values[here + way.node as usize] - worth - values[there + to as usize];
                    enough &= *slack >= 0;
                }
                if enough {
                    next.push(Way {
                        node: to,
                        counts: way.counts + kind.map_or(0, |kind| 1 << (10 * kind)),
                        slack,
                        before,
                        turn: turn as u8,
                    });
                }
            }
        }
        self.ways.clear();
        let bounds = self.bounds.len();
        // Node by node, those with most plants first: only these can have all of another.
        crate::order::sort(&mut next, &|way| {
            let plants = (0..MOST_KINDS).map(|kind| (way.counts >> (10 * kind) & 511) as i64);
            [i64::from(way.node), -plants.sum::<i64>(), 0]
        });
        let mut first = 0;
        for way in next {
            if self.ways.get(first).is_none_or(|other| other.node != way.node) {
                first = self.ways.len();
            }
            if !self.ways[first..].iter().any(|other| other.has_all_of(&way)) {
                self.ways.push(way);
            }
        }
        if self.ways.len() > self.width {
            self.narrowed = true;
            crate::order::sort(&mut self.ways, &|way| [-i64::from(way.promise(bounds)), 0, 0]);
            self.ways.truncate(self.width);
        }
        self.trail.push(self.ways.iter().map(|way| (way.before, way.turn)).collect());
    }
}
