//! The most spots that can be planted with no two too near: exact, by a moving front.
//!
//! The spots lie on lines and are taken in order along them. What has been planted so far matters to
//! the rest only through the spots ahead that it blocks, and on each line these are the next ones up
//! to some place. So a state is, for each line, the first spot that is still free.
//!
//! Of two states the one that has planted more is kept alone when its lead covers what it blocks
//! beyond the other: whatever the other can still plant, it can plant less those spots, and on each
//! line these are at most one plant, since they all lie within one spacing; on lines near each other
//! even together. (Dynamic programming over a path decomposition, as in H. L. Bodlaender, "A tourist
//! guide through treewidth", 1993, from memory; the rule of the lead is derived here.)

use crate::bed::Spot;
use crate::order;
use crate::quantity::Micrometres;
use crate::turns::Pace;

/// States carried at most; beyond it the count is a good one with an honest bound, not a proof.
const MOST_STATES: usize = 4_000;
/// States carried once the work allowed is used up.
const FEW_STATES: usize = 48;
/// The work allowed to one search, in states made and compared.
const MOST_STEPS: u64 = 40_000_000;
/// The work allowed where an answer must come within a frame.
const FEW_STEPS: u64 = 20_000;
/// The work of a closer look at two states, in plain comparisons.
const LOOK: u64 = 8;

/// A choice of spots, and what is known about better ones.
pub(super) struct Packing {
    /// Places in the given list, in order.
    pub(super) chosen: Vec<usize>,
    /// No choice has more than this.
    pub(super) bound: u32,
    /// States made and compared: the same on every machine.
    pub(super) steps: u64,
}

/// The most of `spots` that keep `apart` from each other.
///
/// Of equal choices the first found is kept, in order along the bed and then across it.
pub(super) async fn pack(spots: &[Spot], apart: Micrometres, pace: &Pace) -> Packing {
    within(spots, apart.get(), MOST_STEPS, pace).await
}

/// The same with little work: a good choice, and an honest bound.
pub(super) async fn roughly(spots: &[Spot], apart: Micrometres, pace: &Pace) -> Packing {
    within(spots, apart.get(), FEW_STEPS, pace).await
}

async fn within(spots: &[Spot], apart: i64, most_steps: u64, pace: &Pace) -> Packing {
    let across = lines_of(spots, along_first);
    let front = match fewer_lines(spots, across_first, across.len()) {
        Some(along) => Front::new(spots, apart, across_first, along),
        None => Front::new(spots, apart, along_first, across),
    };
    let mut packing = sweep(&front, most_steps, pace).await;
    if packing.bound as usize > packing.chosen.len() {
        // Too wide a bed for one sweep: what its halves hold alone, no whole can exceed.
        let (near, far) = halves(spots);
        if !near.is_empty() && !far.is_empty() {
            let mut bound = 0;
            for half in [near, far] {
                let part = Box::pin(within(&half, apart, most_steps / 2, pace)).await;
                bound += part.bound;
                packing.steps += part.steps;
            }
            packing.bound = packing.bound.min(bound);
        }
    }
    packing
}

/// The spots of the near and of the far half, parted between two lines.
fn halves(spots: &[Spot]) -> (Vec<Spot>, Vec<Spot>) {
    let mut lines: Vec<Micrometres> = spots.iter().map(|spot| spot.across).collect();
    order::distinct(&mut lines);
    let parting = lines.get(lines.len() / 2).copied().unwrap_or_default();
    spots.iter().partition(|spot| spot.across < parting)
}

/// A spot as place on its line and the line's place: the sweep runs along the first.
type Turn = fn(&Spot) -> (i64, i64);

fn along_first(spot: &Spot) -> (i64, i64) {
    (spot.along.get(), spot.across.get())
}

fn across_first(spot: &Spot) -> (i64, i64) {
    (spot.across.get(), spot.along.get())
}

/// The places of the lines on which the spots lie, in order.
fn lines_of(spots: &[Spot], turn: Turn) -> Vec<i64> {
    fewer_lines(spots, turn, usize::MAX).unwrap_or_default()
}

/// The places of the lines, where there are fewer than `most` of them.
fn fewer_lines(spots: &[Spot], turn: Turn, most: usize) -> Option<Vec<i64>> {
    let mut lines: Vec<i64> = Vec::new();
    let mut last = None;
    for line in spots.iter().map(|spot| turn(spot).1) {
        // Spots mostly come line by line.
        if last == Some(line) {
            continue;
        }
        last = Some(line);
        if let Err(at) = lines.binary_search(&line) {
            lines.insert(at, line);
            if lines.len() >= most {
                return None;
            }
        }
    }
    Some(lines)
}

/// One spot of the sweep.
struct Stop {
    /// Its place in the caller's list.
    place: usize,
    /// Its line.
    line: usize,
    /// The next spot on its line.
    after: u16,
    /// The most that can be planted after it: squares too small for two.
    rest: u32,
}

/// The spots in the order of the sweep, and what each blocks ahead.
struct Front {
    /// The distance to keep.
    apart: i64,
    /// Where the lines lie.
    lines: Vec<i64>,
    /// Where the spots of each line lie along it.
    on_lines: Vec<Vec<i64>>,
    stops: Vec<Stop>,
    /// For each stop and line, the first spot on the line that planting at the stop leaves free.
    frees: Vec<u16>,
}

impl Front {
    fn new(spots: &[Spot], apart: i64, turn: Turn, lines: Vec<i64>) -> Self {
        let mut order: Vec<(i64, i64, usize)> = spots
            .iter()
            .enumerate()
            .map(|(place, spot)| (turn(spot).0, turn(spot).1, place))
            .collect();
        order::sort(&mut order, &|&(major, minor, _)| [major, minor, 0]);
        // Along each line, where its spots lie.
        let on_lines: Vec<Vec<i64>> = lines
            .iter()
            .map(|&at| order.iter().filter(|spot| spot.1 == at).map(|spot| spot.0).collect())
            .collect();

        let mut stops = Vec::with_capacity(order.len());
        let mut frees = Vec::with_capacity(order.len() * lines.len());
        let mut passed = vec![0_u16; lines.len()];
        // For each two lines, the first spot of the one that the last spot of the other leaves free:
        // the next spot leaves that one free or a later one.
        let mut free_from = vec![0_usize; lines.len() * lines.len()];
        let rests = cells_after(&order, apart);
        for (&(major, minor, place), rest) in order.iter().zip(rests) {
            let line = lines.partition_point(|&at| at < minor);
            let after = passed.get_mut(line).map_or(0, |count| {
                *count += 1;
                *count
            });
            stops.push(Stop { place, line, after, rest });
            let from = free_from.iter_mut().skip(line * lines.len());
            for ((at, spots), from) in lines.iter().zip(&on_lines).zip(from) {
                let room = apart * apart - (at - minor).pow(2);
                let blocked = |x: &i64| room > 0 && (*x <= major || (x - major).pow(2) < room);
                let ahead = spots.get(*from..).unwrap_or_default();
                *from += ahead.iter().take_while(|x| blocked(x)).count();
                // OK because no bed has more spots than u16 holds on one line.
                frees.push(*from as u16);
            }
        }
        Self { apart, lines, on_lines, stops, frees }
    }
}

impl Front {
    /// Whether the spots that `better` blocks beyond `worse` hold at most `lead` plants.
    ///
    /// Counted in groups too small for two: blocked spots of lines next to each other, taken
    /// together for as long as the corners of their box are too near.
    fn covered(&self, better: &[u16], worse: &[u16], lead: u32) -> bool {
        let mut groups = 0;
        // The open group: its first line, and the leftmost and rightmost of its spots.
        let mut open: Option<(i64, i64, i64)> = None;
        let lines = self.lines.iter().zip(&self.on_lines);
        for ((&theirs, &ours), (&line, spots)) in better.iter().zip(worse).zip(lines) {
            if theirs <= ours {
                continue;
            }
            let (Some(&left), Some(&right)) =
                (spots.get(usize::from(ours)), spots.get(usize::from(theirs) - 1))
            else {
                continue;
            };
            if let Some((first, leftmost, rightmost)) = open {
                let (left, right) = (leftmost.min(left), rightmost.max(right));
                if (right - left).pow(2) + (line - first).pow(2) < self.apart * self.apart {
                    open = Some((first, left, right));
                    continue;
                }
            }
            groups += 1;
            if groups > lead {
                return false;
            }
            open = Some((line, left, right));
        }
        true
    }
}

/// For each spot of the sweep, in how many squares the spots after it lie.
///
/// Two spots in one square whose diagonal is under `apart` are too near, so each holds one plant.
fn cells_after(order: &[(i64, i64, usize)], apart: i64) -> Vec<u32> {
    let side = (((apart - 2) as f64 / core::f64::consts::SQRT_2).floor() as i64).max(1);
    let mut counts = vec![0; order.len()];
    let mut seen = 0;
    // The sweep comes to one column of squares after the other, so only one is remembered.
    let mut column = i64::MIN;
    let mut in_column: Vec<i64> = Vec::new();
    for (&(major, minor, _), count) in order.iter().zip(&mut counts).rev() {
        *count = seen;
        let square = minor.div_euclid(side);
        if column != major.div_euclid(side) {
            column = major.div_euclid(side);
            in_column.clear();
        }
        if !in_column.contains(&square) {
            in_column.push(square);
            seen += 1;
        }
    }
    counts
}

/// What a state remembers besides the free spots.
#[derive(Clone, Copy)]
struct Head {
    planted: u32,
    /// The last planted spot in the trail, plus one; 0 for none.
    last: u32,
}

/// Live states, their free spots end to end.
#[derive(Default)]
struct States {
    frees: Vec<u16>,
    heads: Vec<Head>,
}

impl States {
    fn clear(&mut self) {
        self.frees.clear();
        self.heads.clear();
    }

    fn iter(&self, lines: usize) -> impl Iterator<Item = (&[u16], Head)> {
        self.frees.chunks_exact(lines).zip(self.heads.iter().copied())
    }
}

async fn sweep(front: &Front, most_steps: u64, pace: &Pace) -> Packing {
    let lines = front.lines.len().max(1);
    let mut trail: Vec<(usize, u32)> = Vec::new();
    let mut live = States { frees: vec![0; lines], heads: vec![Head { planted: 0, last: 0 }] };
    let mut next = States::default();
    let mut steps = 0_u64;
    let mut lost = 0_u32;
    let mut pruned_to = 1_usize;

    for (stop, blocks) in front.stops.iter().zip(front.frees.chunks_exact(lines)) {
        let made = pass(stop, blocks, &live, &mut next, &mut trail);
        steps += made;
        pace.did(made).await;
        if next.heads.len() > 2 * pruned_to + 16 {
            let room = if steps < most_steps { MOST_STATES } else { FEW_STATES };
            let (compared, dropped) = prune(&next, front, room, &mut live, pace).await;
            steps += compared;
            lost = lost.max(dropped.map_or(0, |planted| planted + stop.rest));
            pruned_to = live.heads.len();
        } else {
            core::mem::swap(&mut live, &mut next);
        }
    }

    let best = live.heads.iter().copied().reduce(|a, b| if b.planted > a.planted { b } else { a });
    let best = best.unwrap_or(Head { planted: 0, last: 0 });
    let mut chosen = Vec::new();
    let mut last = best.last;
    while let Some(&(place, before)) = (last as usize).checked_sub(1).and_then(|at| trail.get(at)) {
        chosen.push(place);
        last = before;
    }
    order::sort(&mut chosen, &|&place| [place as i64, 0, 0]);
    Packing { bound: best.planted.max(lost), chosen, steps }
}

/// Takes every state past one stop, planted and left empty; returns how many there were.
fn pass(
    stop: &Stop,
    blocks: &[u16],
    live: &States,
    next: &mut States,
    trail: &mut Vec<(usize, u32)>,
) -> u64 {
    next.clear();
    for (frees, head) in live.iter(blocks.len()) {
        let first_free = frees.get(stop.line).copied().unwrap_or(0);
        let free = first_free < stop.after;
        if free {
            trail.push((stop.place, head.last));
            let taken = Head { planted: head.planted + 1, last: trail.len() as u32 };
            next.frees.extend(frees.iter().zip(blocks).map(|(&own, &block)| own.max(block)));
            next.heads.push(taken);
            let newly = frees.iter().zip(blocks).filter(|&(own, block)| block > own).count();
            // Planting here costs at most a plant on each line newly blocked, its own aside:
            // with one or none, it never loses.
            if newly <= 1 {
                continue;
            }
        }
        let start = next.frees.len();
        next.frees.extend_from_slice(frees);
        if let Some(own) = next.frees.get_mut(start + stop.line) {
            *own = first_free.max(stop.after);
        }
        next.heads.push(head);
    }
    live.heads.len() as u64
}

/// Copies into `kept` at most `room` states, leaving out those that another makes needless.
///
/// Returns the comparisons made, and the most planted by a state left out for want of room.
async fn prune(
    from: &States,
    front: &Front,
    room: usize,
    kept: &mut States,
    pace: &Pace,
) -> (u64, Option<u32>) {
    let lines = front.lines.len().max(1);
    let mut states: Vec<(&[u16], Head)> = from.iter(lines).collect();
    // Of equal states the first made stays.
    order::sort(&mut states, &|&(frees, head)| {
        [-i64::from(head.planted), frees.iter().map(|&free| i64::from(free)).sum(), 0]
    });
    kept.clear();
    let mut compared = 0;
    let mut dropped = None;
    for (frees, head) in states {
        let (needless, looks) = is_needless(frees, head, kept, front);
        compared += looks;
        pace.did(looks).await;
        if needless {
            continue;
        }
        if kept.heads.len() < room {
            kept.frees.extend_from_slice(frees);
            kept.heads.push(head);
        } else {
            dropped = dropped.max(Some(head.planted));
        }
    }
    (compared, dropped)
}

/// Whether one of the states kept does at least as well, and the comparisons made.
fn is_needless(frees: &[u16], head: Head, kept: &States, front: &Front) -> (bool, u64) {
    let mut compared = 0;
    let needless = kept.iter(frees.len()).any(|(better, leader)| {
        compared += 1;
        let lead = leader.planted - head.planted;
        let lines_blocked: u16 =
            better.iter().zip(frees).map(|(theirs, ours)| u16::from(theirs > ours)).sum();
        let blocked = u32::from(lines_blocked);
        if blocked <= lead {
            return true;
        }
        // Lines rarely go together by more than four, and looking is dear.
        let looked = lead > 0 && blocked <= 4 * lead;
        compared += u64::from(looked) * LOOK;
        looked && front.covered(better, frees, lead)
    });
    (needless, compared)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::geometry::too_near;
    use super::*;
    use crate::turns::at_once;

    fn pack(spots: &[Spot], apart: Micrometres) -> Packing {
        at_once(async |pace: &Pace| super::pack(spots, apart, pace).await)
    }

    fn spot(along: i64, across: i64) -> Spot {
        Spot { along: Micrometres::new(along), across: Micrometres::new(across) }
    }

    fn grid(lines: i64, gap: i64, holes: i64, pitch: i64) -> Vec<Spot> {
        (0..lines)
            .flat_map(|line| (0..holes).map(move |hole| spot(hole * pitch, line * gap)))
            .collect()
    }

    /// The most, by trying every choice.
    fn backtrack(spots: &[Spot], apart: Micrometres) -> usize {
        let Some((first, rest)) = spots.split_first() else {
            return 0;
        };
        let clear: Vec<Spot> =
            rest.iter().copied().filter(|other| !too_near(first, other, [apart; 2])).collect();
        let with = 1 + backtrack(&clear, apart);
        if clear.len() == rest.len() { with } else { with.max(backtrack(rest, apart)) }
    }

    fn keeps_apart(spots: &[Spot], packing: &Packing, apart: Micrometres) -> bool {
        packing.chosen.iter().enumerate().all(|(at, &one)| {
            packing.chosen[at + 1..]
                .iter()
                .all(|&other| !too_near(&spots[one], &spots[other], [apart; 2]))
        })
    }

    #[test]
    fn no_spots_hold_nothing() {
        let packing = pack(&[], Micrometres::new(5));
        assert_eq!((packing.chosen.len(), packing.bound), (0, 0));
    }

    #[test]
    fn with_no_distance_to_keep_every_spot_is_planted() {
        for apart in [-3, 0, 1] {
            assert_eq!(pack(&grid(3, 5, 7, 4), Micrometres::new(apart)).chosen.len(), 21);
        }
    }

    #[test]
    fn one_spot_twice_is_planted_once() {
        assert_eq!(pack(&[spot(3, 3), spot(3, 3)], Micrometres::new(2)).chosen.len(), 1);
    }

    #[test]
    fn a_bed_too_wide_for_one_sweep_still_has_an_honest_bound() {
        // 24 lines: every second hole of every second line is the most, but far too many states.
        let spots = grid(24, 10, 40, 6);
        let packing = at_once(async |pace: &Pace| within(&spots, 12, 300_000, pace).await);
        assert!(keeps_apart(&spots, &packing, Micrometres::new(12)));
        assert!(packing.chosen.len() <= 240 && 240 <= packing.bound, "{}", packing.bound);
        assert!(packing.steps < 3_000_000, "{}", packing.steps);
    }

    proptest! {
        #[test]
        fn small_beds_hold_what_backtracking_finds(
            places in prop::collection::vec((0_i64..40, 0_i64..4), 0..17),
            gap in 1_i64..12,
            apart in 1_i64..25,
        ) {
            let spots: Vec<Spot> =
                places.iter().map(|&(along, line)| spot(along, line * gap)).collect();
            let apart = Micrometres::new(apart);
            let packing = pack(&spots, apart);
            prop_assert!(keeps_apart(&spots, &packing, apart));
            prop_assert_eq!(packing.chosen.len(), backtrack(&spots, apart));
            prop_assert_eq!(packing.bound as usize, packing.chosen.len());
        }

        #[test]
        fn lines_out_of_phase_hold_what_backtracking_finds(
            lines in 1_i64..5, holes in 1_i64..6, pitch in 4_i64..13, gap in 3_i64..15,
            phases in prop::collection::vec(0_i64..12, 5), apart in 3_i64..30,
        ) {
            let spots: Vec<Spot> = (0..lines)
                .zip(&phases)
                .flat_map(|(line, phase)| {
                    (0..holes).map(move |hole| spot(phase + hole * pitch, line * gap))
                })
                .collect();
            let apart = Micrometres::new(apart);
            prop_assert_eq!(pack(&spots, apart).chosen.len(), backtrack(&spots, apart));
        }

        #[test]
        fn one_more_spot_never_costs_a_plant_and_brings_at_most_one(
            places in prop::collection::vec((0_i64..200, 0_i64..6), 1..90),
            apart in 5_i64..60,
        ) {
            let spots: Vec<Spot> =
                places.iter().map(|&(along, line)| spot(along, line * 10)).collect();
            let apart = Micrometres::new(apart);
            let all = pack(&spots, apart).chosen.len();
            let fewer = pack(&spots[1..], apart).chosen.len();
            prop_assert!(fewer <= all && all <= fewer + 1);
        }

        #[test]
        fn a_wider_spacing_never_holds_more(
            places in prop::collection::vec((0_i64..300, 0_i64..5), 1..120),
            apart in 5_i64..80, wider in 0_i64..40,
        ) {
            let spots: Vec<Spot> =
                places.iter().map(|&(along, line)| spot(along, line * 11)).collect();
            let close = pack(&spots, Micrometres::new(apart)).chosen.len();
            let loose = pack(&spots, Micrometres::new(apart + wider)).chosen.len();
            prop_assert!(loose <= close);
        }

        #[test]
        fn turning_or_mirroring_the_spots_changes_no_count(
            places in prop::collection::vec((0_i64..60, 0_i64..60), 1..40),
            apart in 5_i64..40,
        ) {
            let spots: Vec<Spot> = places.iter().map(|&(x, y)| spot(x, y)).collect();
            let turned: Vec<Spot> = places.iter().map(|&(x, y)| spot(y, -x)).collect();
            let apart = Micrometres::new(apart);
            prop_assert_eq!(pack(&spots, apart).chosen.len(), pack(&turned, apart).chosen.len());
        }
    }
}
