//! Several crops at the emitters of one bed, as many as any layout holds.
//!
//! [`graph`] holds every layout, [`prices`] bounds how many plants any of them has, and [`search`]
//! finds one that meets the bound or shows that there is none. One target after another, from the
//! bound downwards, is met or refuted; a target that stays open when the steps allowed are used up
//! makes the answer a good one with an honest bound.

mod graph;
mod prices;
mod search;
#[cfg(test)]
mod tests;

use self::graph::Graph;
use self::search::{MOST_COUNTED, MOST_KINDS, Priced, Search, State};
use super::geometry::too_near;
use super::pack::{Packing, pack};
use super::request::Aim;
use crate::bed::Spot;
use crate::order;
use crate::quantity::Micrometres;
use crate::turns::Pace;

/// The most nodes of a graph: some hundredths of a second.
const MOST_NODES: usize = 1_200_000;
/// The most search steps of one bed.
const MOST_STEPS: u64 = 300_000;
/// The most sums of worths worked out for one crop.
const MOST_PRICED: usize = 24;
/// Nodes gone through for a sum of worths, or made for the graph, in the time of one search step.
const NODES_A_STEP: usize = 16;
/// Search steps done in one piece.
const STEPS_AT_ONCE: u64 = 500;

/// A kind of plant: crops that keep the same distance and may use the same spots.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Kind {
    /// What two of them keep from each other, in micrometres; two kinds keep the mean of both.
    pub(super) apart: i64,
    /// For each spot, whether it may stand there.
    pub(super) spots: Vec<bool>,
}

/// One crop of the search.
#[derive(Clone, Debug)]
pub(super) struct Crop {
    /// The distance it keeps and the spots it may use.
    pub(super) kind: Kind,
    /// How many there are at most.
    pub(super) most: u32,
}

/// What was found for a crop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Found {
    /// Its spots, in the order of the sweep.
    pub(super) spots: Vec<usize>,
    /// No layout that serves the aim as well for the crops before it has more of it.
    pub(super) bound: u32,
}

/// A plant of a layout: its spot and its kind.
type Planted = (usize, usize);

/// The search.
pub(super) struct Joint {
    spots: Vec<Spot>,
    /// The kinds in the order in which the crops bring them in.
    kinds: Vec<Kind>,
    /// The kind of each crop, and how many there are.
    crops: Vec<(usize, u32)>,
    aim: Aim,
    /// How many of each crop, and at most how many, as far as it is settled.
    settled: Vec<(u32, u32)>,
    /// The layout with the crops settled so far.
    planted: Vec<Planted>,
    /// Search steps still allowed.
    left: u64,
    /// Work done: the same on every machine.
    pub(super) steps: u64,
    /// At most so many in all, known for [`Aim::Most`].
    pub(super) together: u32,
}

/// What is being made as large as can be: one crop beside those settled, or all together.
struct Level {
    graph: Graph,
    pool: Vec<Priced>,
    /// The layouts found with these worths, as counts of each kind.
    mixed: Vec<Vec<u32>>,
    /// Plants of each kind: those settled, or for [`Aim::Most`] all there are.
    caps: Vec<u32>,
    /// The kind of which more are wanted beyond its cap; nothing for [`Aim::Most`].
    grows: Option<usize>,
    /// The best layout so far, and how many more of its kind, or plants in all, it has.
    best: Vec<Planted>,
    reached: u32,
    /// The number being sought: everything above is refuted or left open.
    target: u32,
    /// The greatest number left open.
    open: u32,
}

impl Joint {
    pub(super) fn new(spots: Vec<Spot>, crops: &[Crop], aim: Aim) -> Self {
        let mut kinds: Vec<Kind> = Vec::new();
        let crops = crops
            .iter()
            .map(|crop| {
                let kind = kinds.iter().position(|kind| *kind == crop.kind);
                let kind = kind.unwrap_or_else(|| {
                    kinds.push(crop.kind.clone());
                    kinds.len() - 1
                });
                (kind, crop.most.min(crop.kind.room()))
            })
            .collect();
        Self {
            spots,
            kinds,
            crops,
            aim,
            settled: Vec::new(),
            planted: Vec::new(),
            left: MOST_STEPS,
            steps: 0,
            together: u32::MAX,
        }
    }

    /// Searches to the end.
    pub(super) async fn search(&mut self, pace: &Pace) {
        while self.settled.len() < self.crops.len() {
            if let Some(level) = self.begin(pace).await {
                self.work_on(level, pace).await;
            }
        }
    }

    /// What was found for each crop.
    pub(super) fn found(&self) -> Vec<Found> {
        let mut of_kinds = vec![Vec::new(); self.kinds.len()];
        for &(spot, kind) in &self.planted {
            if let Some(spots) = of_kinds.get_mut(kind) {
                spots.push(spot);
            }
        }
        for spots in &mut of_kinds {
            self.in_order(spots);
            // Taken from the end.
            spots.reverse();
        }
        let settled = self.crops.iter().zip(&self.settled);
        settled
            .map(|(&(kind, _), &(count, bound))| {
                let own = of_kinds.get_mut(kind);
                let spots = own.map_or_else(Vec::new, |spots| {
                    let keep = spots.len().saturating_sub(count as usize);
                    let mut own = spots.split_off(keep);
                    own.reverse();
                    own
                });
                Found { spots, bound }
            })
            .collect()
    }

    fn in_order(&self, spots: &mut [usize]) {
        order::sort(spots, &|&at| self.spots.get(at).map_or([0; 3], Spot::key));
    }

    // ---- Levels ----

    /// Begins with the next crop, or settles it at once where that is simple.
    async fn begin(&mut self, pace: &Pace) -> Option<Level> {
        let &(kind, most) = self.crops.get(self.settled.len())?;
        match self.aim {
            Aim::InOrder => {
                let first_kind = self.settled.len();
                let known = self.crops.iter().take(first_kind + 1).map(|crop| crop.0);
                let kinds = known.max().unwrap_or(0) + 1;
                let mut caps = vec![0; kinds];
                for (&(kind, _), &(count, _)) in self.crops.iter().zip(&self.settled) {
                    if let Some(cap) = caps.get_mut(kind) {
                        *cap += count;
                    }
                }
                if kinds == 1 {
                    self.alone(most, pace).await;
                    return None;
                }
                let mut best = self.planted.clone();
                let more = self.beside(&best, kind, pace).await;
                let reached = more.len().min(most as usize);
                best.extend(more.into_iter().take(reached).map(|spot| (spot, kind)));
                // OK because no bed has more spots than u32 holds.
                let reached = reached as u32;
                self.open_level(caps, Some(kind), best, reached, most, pace).await
            }
            Aim::Most => {
                let mut caps = vec![0_u32; self.kinds.len()];
                for &(kind, most) in &self.crops {
                    if let Some(cap) = caps.get_mut(kind) {
                        *cap = cap.saturating_add(most);
                    }
                }
                for (cap, kind) in caps.iter_mut().zip(&self.kinds) {
                    *cap = (*cap).min(kind.room());
                }
                let best = self.one_after_the_other(&caps, pace).await;
                let reached = best.len() as u32;
                let most = caps.iter().fold(0_u32, |sum, cap| sum.saturating_add(*cap));
                self.open_level(caps, None, best, reached, most, pace).await
            }
        }
    }

    /// The only kind so far needs no graph.
    async fn alone(&mut self, most: u32, pace: &Pace) {
        let before: u32 = self.settled.iter().map(|(count, _)| count).sum();
        let Some(kind) = self.kinds.first() else {
            return;
        };
        let Packing { mut chosen, bound, steps } = kind.pack(&self.spots, &|_| true, pace).await;
        self.steps += steps / 100;
        self.in_order(&mut chosen);
        let count = (chosen.len() as u32 - before.min(chosen.len() as u32)).min(most);
        chosen.truncate((before + count) as usize);
        self.planted = chosen.into_iter().map(|spot| (spot, 0)).collect();
        self.settled.push((count, bound.saturating_sub(before).min(most)));
    }

    /// The most of a kind that fits beside what is planted.
    async fn beside(&self, planted: &[Planted], kind: usize, pace: &Pace) -> Vec<usize> {
        let Some(own) = self.kinds.get(kind) else {
            return Vec::new();
        };
        let free = |at: usize| {
            planted.iter().all(|&(spot, kind)| {
                let pair = self.spots.get(at).zip(self.spots.get(spot));
                let other = self.kinds.get(kind);
                pair.zip(other).is_some_and(|((one, two), other)| own.clear_of(other, one, two))
            })
        };
        let mut chosen = own.pack(&self.spots, &free, pace).await.chosen;
        self.in_order(&mut chosen);
        chosen
    }

    /// The kinds one after the other, each as full as can be: the best of a few orders.
    async fn one_after_the_other(&self, caps: &[u32], pace: &Pace) -> Vec<Planted> {
        let mut best = Vec::new();
        let mut kinds: Vec<usize> = (0..self.kinds.len()).collect();
        order::sort(&mut kinds, &|&kind| [self.kinds.get(kind).map_or(0, |kind| kind.apart), 0, 0]);
        for turn in 0..3 {
            let mut planted: Vec<Planted> = Vec::new();
            for &kind in &kinds {
                let cap = caps.get(kind).copied().unwrap_or(0) as usize;
                let more = self.beside(&planted, kind, pace).await;
                planted.extend(more.into_iter().take(cap).map(|spot| (spot, kind)));
            }
            if planted.len() > best.len() {
                best = planted;
            }
            match turn {
                0 => kinds.reverse(),
                _ => kinds.rotate_left(1),
            }
        }
        best
    }

    async fn open_level(
        &mut self,
        caps: Vec<u32>,
        grows: Option<usize>,
        best: Vec<Planted>,
        reached: u32,
        most: u32,
        pace: &Pace,
    ) -> Option<Level> {
        let kinds = self.kinds.get(..caps.len()).unwrap_or_default();
        // What the kind alone, or the most lenient of all kinds, could reach.
        let most = match grows.and_then(|kind| kinds.get(kind)) {
            Some(kind) => {
                let own = grows.and_then(|kind| caps.get(kind)).copied();
                let alone = kind.pack(&self.spots, &|_| true, pace).await.bound;
                most.min(alone.saturating_sub(own.unwrap_or(0)))
            }
            None => most.min(self.all_as_one(pace).await),
        };
        let may = caps.len() <= MOST_KINDS
            && caps.iter().all(|cap| *cap <= MOST_COUNTED - most.min(MOST_COUNTED));
        let points: Vec<[i64; 2]> =
            self.spots.iter().map(|spot| [spot.along.get(), spot.across.get()]).collect();
        let graph = match may && reached < most {
            true => Graph::new(&points, kinds, MOST_NODES, pace).await,
            false => None,
        };
        let Some(graph) = graph else {
            self.close(grows, best, reached, most.max(reached));
            return None;
        };
        self.steps += (graph.nodes() / NODES_A_STEP) as u64;
        Some(Level {
            graph,
            pool: Vec::new(),
            mixed: Vec::new(),
            caps,
            grows,
            best,
            reached,
            target: most,
            open: 0,
        })
    }

    /// No layout has more plants than one kind would, that keeps the least distance and may stand
    /// wherever one of the kinds may.
    async fn all_as_one(&self, pace: &Pace) -> u32 {
        let apart = self.kinds.iter().map(|kind| kind.apart).min().unwrap_or(0);
        let spots = (0..self.spots.len())
            .map(|at| {
                let may = |kind: &Kind| kind.spots.get(at).copied().unwrap_or(false);
                self.kinds.iter().any(may)
            })
            .collect();
        let all = Kind { apart, spots };
        all.pack(&self.spots, &|_| true, pace).await.bound
    }

    /// Meets or refutes one target after the other, and takes over what was reached.
    async fn work_on(&mut self, mut level: Level, pace: &Pace) {
        while level.target > level.reached {
            let (work, search) = level.bound(pace).await;
            self.steps += work;
            if let Some(search) = search {
                self.seek(&mut level, search, pace).await;
            }
        }
        let bound = level.open.max(level.reached);
        self.close(level.grows, level.best, level.reached, bound);
    }

    /// Searches for the target, for half the steps that are left at most.
    async fn seek(&mut self, level: &mut Level, mut search: Search, pace: &Pace) {
        let mut allowed = (self.left / 2).max(1);
        loop {
            let most = allowed.min(STEPS_AT_ONCE);
            let mut left = most;
            let state = search.run(&level.graph, &level.pool, &mut left);
            let used = most - left;
            self.steps += used;
            self.left = self.left.saturating_sub(used);
            allowed = allowed.saturating_sub(used);
            pace.did(used * NODES_A_STEP as u64).await;
            match state {
                State::Found(turns) => {
                    level.best = planted(&level.graph, &turns);
                    level.reached = level.target;
                    return;
                }
                State::Open if allowed > 0 => continue,
                State::Open => level.open = level.open.max(level.target),
                State::None => {}
            }
            level.target -= 1;
            return;
        }
    }

    /// Takes over what was reached for one crop, or for all.
    fn close(&mut self, grows: Option<usize>, planted: Vec<Planted>, reached: u32, bound: u32) {
        self.planted = planted;
        if grows.is_some() {
            self.settled.push((reached, bound));
            return;
        }
        self.together = bound;
        let mut left = vec![0_u32; self.kinds.len()];
        for &(_, kind) in &self.planted {
            if let Some(left) = left.get_mut(kind) {
                *left += 1;
            }
        }
        // What is over stays with the crops that have no limit; they take what the others leave.
        let mut counts: Vec<u32> = vec![0; self.crops.len()];
        for (count, &(kind, most)) in counts.iter_mut().zip(&self.crops) {
            if let Some(left) = left.get_mut(kind) {
                *count = most.min(*left);
                *left -= *count;
            }
        }
        self.settled =
            counts.iter().zip(&self.crops).map(|(&count, &(_, most))| (count, most)).collect();
    }
}

impl Kind {
    /// On how many spots it may stand.
    fn room(&self) -> u32 {
        self.spots.iter().filter(|may| **may).count() as u32
    }

    /// The most of it alone, on the spots of its own that this leaves.
    async fn pack(&self, spots: &[Spot], free: &dyn Fn(usize) -> bool, pace: &Pace) -> Packing {
        let own: Vec<usize> = (0..spots.len())
            .filter(|&at| self.spots.get(at).copied().unwrap_or(false) && free(at))
            .collect();
        let there: Vec<Spot> = own.iter().filter_map(|&at| spots.get(at).copied()).collect();
        let mut packing = pack(&there, Micrometres::new(self.apart), pace).await;
        for chosen in &mut packing.chosen {
            *chosen = own.get(*chosen).copied().unwrap_or(0);
        }
        packing
    }

    /// Whether a plant of this kind may stand so near to one of the other.
    pub(super) fn clear_of(&self, other: &Self, one: &Spot, two: &Spot) -> bool {
        !too_near(one, two, [Micrometres::new(self.apart), Micrometres::new(other.apart)])
    }
}

impl Level {
    /// The most of each kind, and all plants, when the target is met.
    fn needs(&self) -> (Vec<u32>, u32) {
        let mut caps = self.caps.clone();
        let Some(kind) = self.grows else {
            return (caps, self.target);
        };
        if let Some(cap) = caps.get_mut(kind) {
            *cap += self.target;
        }
        let plants = caps.iter().sum();
        (caps, plants)
    }

    /// Refutes the target, learns something about it, or begins to search for it. Returns the work
    /// done, and the search.
    async fn bound(&mut self, pace: &Pace) -> (u64, Option<Search>) {
        let (caps, plants) = self.needs();
        if self.pool.iter().any(|priced| priced.slack(&caps, plants) < 0) {
            self.target -= 1;
            return (1, None);
        }
        let (worth, mixture) = prices::of_mixture(&self.mixed, &caps);
        let short = mixture + 1e-6 < f64::from(plants);
        if short && self.pool.len() < MOST_PRICED {
            let values = self.graph.values(&worth, pace).await;
            let turns = self.graph.best(&[], &worth, &values);
            let counts = counts(&turns, caps.len());
            let new = !self.mixed.contains(&counts);
            self.take(&turns, &counts);
            self.mixed.push(counts);
            self.pool.push(Priced { worth, values });
            if new {
                return ((self.graph.nodes() / NODES_A_STEP) as u64, None);
            }
            if self.pool.last().is_some_and(|priced| priced.slack(&caps, plants) < 0) {
                return (1, None);
            }
        }
        (1, Some(Search::new(&self.pool, &caps, plants)))
    }

    /// Keeps a layout that does better than the best so far.
    fn take(&mut self, turns: &[u8], counts: &[u32]) {
        let reached = match self.grows {
            Some(kind) => {
                let enough = |(at, (count, cap)): (usize, (&u32, &u32))| at == kind || count >= cap;
                if !counts.iter().zip(&self.caps).enumerate().all(enough) {
                    return;
                }
                let own = counts.get(kind).zip(self.caps.get(kind));
                own.map_or(0, |(count, cap)| count.saturating_sub(*cap))
            }
            None => counts.iter().zip(&self.caps).map(|(count, cap)| count.min(cap)).sum(),
        };
        let reached = reached.min(self.target);
        if reached <= self.reached {
            return;
        }
        let mut room = self.caps.clone();
        if let Some(room) = self.grows.and_then(|kind| room.get_mut(kind)) {
            *room += reached;
        }
        self.best = planted(&self.graph, turns);
        self.best.retain(|&(_, kind)| {
            room.get_mut(kind).is_some_and(|room| {
                let fits = *room > 0;
                *room -= u32::from(fits);
                fits
            })
        });
        self.reached = reached;
    }
}

/// The plants of a way through the graph.
fn planted(graph: &Graph, turns: &[u8]) -> Vec<Planted> {
    let stops = graph.stops.iter().zip(turns);
    stops.filter_map(|(&spot, &turn)| Some((spot, usize::from(turn).checked_sub(1)?))).collect()
}

/// How many of each kind are planted.
fn counts(turns: &[u8], kinds: usize) -> Vec<u32> {
    let mut counts = vec![0; kinds];
    for kind in turns.iter().filter_map(|turn| usize::from(*turn).checked_sub(1)) {
        if let Some(count) = counts.get_mut(kind) {
            *count += 1;
        }
    }
    counts
}
