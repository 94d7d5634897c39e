//! Every way of planting a bed with several kinds, as the paths through one graph.
//!
//! The spots lie on lines and are taken in order along them. What has been planted so far matters
//! to the rest only through the spots ahead that it blocks, and for each kind these are the next
//! ones on each line up to some place. So a node is, for each kind and line, how many spots ahead
//! are blocked, and nodes that agree in all of these are one. From each node one edge leaves the
//! spot empty and one for each kind plants it there (dynamic programming over a path decomposition,
//! as in H. L. Bodlaender, "A tourist guide through treewidth", 1993, from memory).
//!
//! Drip lines repeat themselves hole after hole, and so does the graph: a stretch that was made
//! before is used again.
#![expect(
    clippy::indexing_slicing,
    reason = "every index was made by this file from the lengths of the same lists"
)]

use super::Kind;
use crate::order;
use crate::turns::Pace;

/// No edge.
pub(super) const NONE: u32 = u32::MAX;

/// What making a node takes, in steps.
const MADE: u64 = 8;

/// The graph.
pub(super) struct Graph {
    kinds: usize,
    /// The spots that some kind may use, in the order of the sweep.
    pub(super) stops: Vec<usize>,
    /// For each stop the stretch of edges that pass it, and how many nodes there are before it.
    at: Vec<(usize, usize)>,
    stretches: Vec<Stretch>,
    nodes: usize,
}

/// The edges that pass one stop.
struct Stretch {
    stop: Stop,
    /// The states before it, by their numbers, in order.
    from: Vec<u32>,
    to: Vec<u32>,
    /// For each state before it, the places among the states after it: past the empty spot, then
    /// one for each kind.
    edges: Vec<u32>,
}

/// What passing a stop does to a state; alike for stops that lie alike.
#[derive(PartialEq, Eq)]
struct Stop {
    line: usize,
    /// For each kind, whether it may stand there.
    may: Vec<bool>,
    /// For each kind that may, and each kind and line, how many spots ahead it blocks.
    blocks: Vec<Vec<u16>>,
}

/// The lines and the spots of each kind on them.
struct Lines {
    /// Where the lines lie.
    at: Vec<i64>,
    /// For each kind and line, where along it the kind may stand.
    on: Vec<Vec<i64>>,
    /// How many of these are passed.
    passed: Vec<usize>,
}

impl Lines {
    /// Passes a spot.
    fn pass(&mut self, kinds: &[Kind], spot: usize, [along, across]: [i64; 2]) -> Stop {
        let line = self.at.partition_point(|&line| line < across);
        let may: Vec<bool> = kinds.iter().map(|kind| kind.spots[spot]).collect();
        for (passed, may) in self.passed.chunks_exact_mut(self.at.len()).zip(&may) {
            passed[line] += usize::from(*may);
        }
        let allowed = kinds.iter().zip(&may).filter(|(_, may)| **may);
        let blocks = allowed.map(|(kind, _)| self.blocks(kinds, kind, [along, across])).collect();
        Stop { line, may, blocks }
    }

    /// For a plant of this kind and each kind and line, how many spots ahead it blocks.
    fn blocks(&self, kinds: &[Kind], kind: &Kind, [along, across]: [i64; 2]) -> Vec<u16> {
        let mut blocks = Vec::with_capacity(self.on.len());
        for (at, (spots, passed)) in self.on.iter().zip(&self.passed).enumerate() {
            // Twice everything, since the mean of two whole numbers may end in a half.
            let apart = kind.apart + kinds[at / self.at.len()].apart;
            let sideways = (self.at[at % self.at.len()] - across) * 2;
            let room = apart * apart - sideways * sideways;
            let near = |&&x: &&i64| (x - along).pow(2) * 4 < room;
            // OK because no line has more spots than u16 holds.
            blocks.push(spots[*passed..].iter().take_while(near).count() as u16);
        }
        blocks
    }
}

impl Graph {
    /// The graph of these spots, or nothing where it would have more than `most` nodes.
    pub(super) async fn new(
        spots: &[[i64; 2]],
        kinds: &[Kind],
        most: usize,
        pace: &Pace,
    ) -> Option<Self> {
        let usable = |at: &usize| kinds.iter().any(|kind| kind.spots[*at]);
        let mut stops: Vec<usize> = (0..spots.len()).filter(usable).collect();
        let lines = |side: usize| {
            let mut lines: Vec<i64> = stops.iter().map(|&at| spots[at][side]).collect();
            order::distinct(&mut lines);
            lines
        };
        let (along, across) = (lines(0), lines(1));
        let turned = along.len() < across.len();
        let place = |at: usize| {
            let [x, y] = spots[at];
            if turned { [y, x] } else { [x, y] }
        };
        order::sort(&mut stops, &|&at| {
            let [x, y] = place(at);
            [x, y, 0]
        });
        let mut lines =
            Lines { at: if turned { along } else { across }, on: Vec::new(), passed: Vec::new() };
        for kind in kinds {
            for line in &lines.at {
                let own = stops.iter().filter(|&&at| kind.spots[at]);
                let own = own.map(|&at| place(at)).filter(|[_, y]| y == line);
                lines.on.push(own.map(|[x, _]| x).collect());
            }
        }
        lines.passed = vec![0; lines.on.len()];

        let mut states = States::of(lines.on.len());
        let mut live = vec![states.number(&vec![0; lines.on.len()])];
        let mut graph = Self {
            kinds: kinds.len(),
            stops: Vec::new(),
            at: Vec::new(),
            stretches: Vec::new(),
            nodes: 0,
        };
        for &spot in &stops {
            let stop = lines.pass(kinds, spot, place(spot));
            let alike = |other: &Stretch| other.stop == stop && other.from == live;
            let stretch = graph.stretches.iter().position(alike).unwrap_or_else(|| {
                let stretch = Stretch::new(stop, live.clone(), lines.at.len(), &mut states);
                graph.stretches.push(stretch);
                graph.stretches.len() - 1
            });
            graph.at.push((stretch, graph.nodes));
            graph.nodes += live.len();
            pace.did(live.len() as u64 * MADE).await;
            live.clone_from(&graph.stretches[stretch].to);
            if graph.nodes + live.len() > most {
                return None;
            }
        }
        graph.nodes += live.len();
        graph.stops = stops;
        Some(graph)
    }

    /// How many nodes there are.
    pub(super) fn nodes(&self) -> usize {
        self.nodes
    }

    /// The first node before this stop. Nodes are numbered stop by stop.
    pub(super) fn first(&self, stop: usize) -> usize {
        self.at.get(stop).map_or(self.nodes - 1, |&(_, first)| first)
    }

    /// From a node before a stop, counted from the first there, to those before the next, counted
    /// alike: past the empty spot, then one for each kind. Nothing behind the last stop.
    pub(super) fn edges(&self, stop: usize, node: usize) -> &[u32] {
        self.at.get(stop).map_or(&[], |&(stretch, _)| {
            &self.stretches[stretch].edges[node * (self.kinds + 1)..][..self.kinds + 1]
        })
    }

    /// For each node, what the plants after it can be worth at most, kind by kind.
    pub(super) async fn values(&self, worth: &[i32], pace: &Pace) -> Vec<i32> {
        let mut values = vec![0_i32; self.nodes];
        for (stop, &(stretch, first)) in self.at.iter().enumerate().rev() {
            let (before, after) = values.split_at_mut(self.first(stop + 1));
            pace.did((before.len() - first) as u64).await;
            let edges = self.stretches[stretch].edges.chunks_exact(self.kinds + 1);
            for (value, edges) in before[first..].iter_mut().zip(edges) {
                let mut best = after[edges[0] as usize];
                for (&to, worth) in edges[1..].iter().zip(worth) {
                    if to != NONE {
                        best = best.max(worth + after[to as usize]);
                    }
                }
                *value = best;
            }
        }
        values
    }

    /// A choice worth the most from here on: for each stop what is planted there, 0 for nothing.
    ///
    /// It begins with the turns already taken.
    pub(super) fn best(&self, taken: &[u8], worth: &[i32], values: &[i32]) -> Vec<u8> {
        let mut node = 0;
        let mut turns = taken.to_vec();
        for (stop, &turn) in taken.iter().enumerate() {
            node = self.edges(stop, node)[usize::from(turn)] as usize;
        }
        for stop in taken.len()..self.stops.len() {
            let edges = self.edges(stop, node);
            let value = values[self.first(stop) + node];
            let after = &values[self.first(stop + 1)..];
            let fits = |turn: &usize| {
                edges[*turn] != NONE
                    && worth[turn - 1] > 0
                    && worth[turn - 1] + after[edges[*turn] as usize] == value
            };
            let turn = (1..=self.kinds).find(fits).unwrap_or(0);
            node = edges[turn] as usize;
            // OK because there are few kinds.
            turns.push(turn as u8);
        }
        turns
    }
}

impl Stretch {
    fn new(stop: Stop, from: Vec<u32>, lines: usize, states: &mut States) -> Self {
        let kinds = stop.may.len();
        let mut numbers = vec![NONE; from.len() * (kinds + 1)];
        let mut passed = vec![0_u16; states.width];
        let mut planted = passed.clone();
        for (&state, numbers) in from.iter().zip(numbers.chunks_exact_mut(kinds + 1)) {
            let before = states.get(state);
            passed.copy_from_slice(before);
            let mut may = stop.may.clone();
            for (kind, may) in may.iter_mut().enumerate() {
                let blocked = &mut passed[kind * lines + stop.line];
                let free = *blocked == 0;
                *blocked -= u16::from(*may && !free);
                *may &= free;
            }
            numbers[0] = states.number(&passed);
            let mut blocks = stop.blocks.iter();
            for (kind, number) in numbers[1..].iter_mut().enumerate() {
                if !stop.may[kind] {
                    continue;
                }
                let Some(blocks) = blocks.next() else { break };
                if may[kind] {
                    for ((own, passed), block) in planted.iter_mut().zip(&passed).zip(blocks) {
                        *own = (*passed).max(*block);
                    }
                    *number = states.number(&planted);
                }
            }
        }
        // The states after it in the order of their numbers, so that the same set is the same list.
        let mut places = vec![NONE; states.count];
        for &number in numbers.iter().filter(|number| **number != NONE) {
            places[number as usize] = 0;
        }
        let mut to = Vec::new();
        for (number, place) in (0_u32..).zip(&mut places) {
            if *place == 0 {
                // OK because there are fewer states than u32 holds.
                *place = to.len() as u32;
                to.push(number);
            }
        }
        for number in numbers.iter_mut().filter(|number| **number != NONE) {
            *number = places[*number as usize];
        }
        Self { stop, from, to, edges: numbers }
    }
}

/// The states met so far, by number.
struct States {
    width: usize,
    count: usize,
    /// End to end.
    all: Vec<u16>,
    /// Numbers by the hash of the state; a taken place leads on to the next.
    table: Vec<u32>,
}

impl States {
    fn of(width: usize) -> Self {
        Self { width, count: 0, all: Vec::new(), table: vec![NONE; 1 << 10] }
    }

    fn get(&self, number: u32) -> &[u16] {
        &self.all[number as usize * self.width..][..self.width]
    }

    /// The place in the table where this state is or belongs.
    fn slot(&self, state: &[u16]) -> usize {
        let mut hash = 0_u64;
        for &blocked in state {
            hash = (hash.rotate_left(5) ^ u64::from(blocked)).wrapping_mul(0x517c_c1b7_2722_0a95);
        }
        let mut slot = (hash >> 32) as usize;
        loop {
            slot &= self.table.len() - 1;
            match self.table[slot] {
                NONE => return slot,
                number if self.get(number) == state => return slot,
                _ => slot += 1,
            }
        }
    }

    /// The number of this state, given if it has none.
    fn number(&mut self, state: &[u16]) -> u32 {
        let slot = self.slot(state);
        if self.table[slot] != NONE {
            return self.table[slot];
        }
        // OK because there are fewer states than u32 holds.
        let number = self.count as u32;
        self.table[slot] = number;
        self.all.extend_from_slice(state);
        self.count += 1;
        if self.count * 2 > self.table.len() {
            self.table = vec![NONE; self.table.len() * 4];
            for number in 0..=number {
                let slot = self.slot(self.get(number));
                self.table[slot] = number;
            }
        }
        number
    }
}
