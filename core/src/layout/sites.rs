//! The places of a bed where a crop may be set along its drip lines.
//!
//! At emitters these are given. Along a line they are not, but a fullest layout can always be pushed
//! to the left until each plant touches the left end or another plant's distance, so its places are
//! among the sums of such distances (derived; the "normal patterns" of the cutting-stock
//! literature). Where these are too many, a finer choice of even steps stands in, without proof.

use super::geometry::{Field, Kept};
use super::patterns::{at_most, root_up};
use crate::bed::{Bed, Drip, Site, Spot, TOLERANCE};
use crate::quantity::Micrometres;

/// The most places along lines that are searched.
const MOST_PLACES: usize = 1_000;

/// The emitters inside a margin, with the tolerance given once.
pub(super) fn at_emitters(bed: &Bed, margin: Micrometres) -> Vec<Site> {
    let (Some(drip), Some(field)) = (bed.drip(), Field::loosely_within(bed, margin)) else {
        return Vec::new();
    };
    let mut sites = drip.holes();
    sites.retain(|site| field.holds(&site.spot));
    sites
}

/// Places along the lines, and what is known about how many can be planted.
pub(super) struct Along {
    /// The places.
    pub(super) sites: Vec<Site>,
    /// Whether some fullest layout uses these places alone.
    pub(super) whole: bool,
    /// No layout along these lines holds more.
    pub(super) at_most: u32,
}

/// The places along the drip lines for plants of this spacing.
pub(super) fn along_lines(
    bed: &Bed,
    margin: Micrometres,
    spacing: Micrometres,
    kept: &Kept,
) -> Along {
    let none = Along { sites: Vec::new(), whole: true, at_most: 0 };
    let (Some(drip), Some(field)) = (bed.drip(), Field::loosely_within(bed, margin)) else {
        return none;
    };
    let lines = usable(drip, &field);
    let (Some(first), Some(last)) = (lines.first(), lines.last()) else {
        return none;
    };
    let at_most = most_on_lines(&lines, field.length, spacing).min(at_most(
        field.length,
        last.1 - first.1,
        spacing,
    ));
    let (places, whole) = match sums(&lines, &field, spacing, kept) {
        Some(places) => (places, true),
        None => (steps(&lines, &field, spacing, kept), false),
    };
    let sites = places
        .into_iter()
        .filter_map(|(along, at)| {
            let &(line, across) = lines.get(at)?;
            Some(Site { spot: Spot { along, across }, line: Some(line), hole: None })
        })
        .collect();
    Along { sites, whole, at_most }
}

/// The lines inside a field, each with its number and place.
fn usable(drip: &Drip, field: &Field) -> Vec<(u16, Micrometres)> {
    (1_u16..)
        .zip(drip.lines())
        .map(|(number, line)| (number, line.across))
        .filter(|&(_, across)| field.holds(&Spot { along: field.corner.along, across }))
        .collect()
}

/// Places along and their lines without repeats, the last in order first.
///
/// A plain list, since there are at most [`MOST_PLACES`] or so and a tree weighs 6 kB on the phone.
#[derive(Default)]
struct Ordered(Vec<(Micrometres, usize)>);

impl Ordered {
    fn insert(&mut self, place: (Micrometres, usize)) {
        if let Err(at) = self.0.binary_search_by(|held| place.cmp(held)) {
            self.0.insert(at, place);
        }
    }

    fn pop_first(&mut self) -> Option<(Micrometres, usize)> {
        self.0.pop()
    }
}

/// How far along a plant must move past one that lies `sideways` from it; nothing if not at all.
fn step_past(spacing: Micrometres, sideways: Micrometres) -> Option<Micrometres> {
    let square = spacing.get() * spacing.get() - sideways.get() * sideways.get();
    (square > 0).then(|| Micrometres::new(root_up(square)))
}

/// Every place that a layout pushed to the left may use, or nothing when there are too many.
fn sums(
    lines: &[(u16, Micrometres)],
    field: &Field,
    spacing: Micrometres,
    kept: &Kept,
) -> Option<Vec<(Micrometres, usize)>> {
    let end = field.corner.along + field.length;
    let mut open = Ordered::default();
    for at in 0..lines.len() {
        open.insert((field.corner.along, at));
    }
    for plant in kept.plants() {
        for (at, line) in lines.iter().enumerate() {
            // Twice everything, since the mean of two whole numbers may end in a half.
            let apart = spacing + plant.spacing - TOLERANCE * 2;
            let there = plant.site.spot;
            if let Some(past) = step_past(apart, (there.across - line.1) * 2) {
                let along = there.along + Micrometres::new((past.get() + 1).div_euclid(2));
                if field.corner.along <= along && along <= end {
                    open.insert((along, at));
                }
            }
        }
    }
    let mut places = Vec::new();
    while let Some((along, at)) = open.pop_first() {
        let &(_, across) = lines.get(at)?;
        if kept.off(&Spot { along, across }, spacing) {
            continue;
        }
        places.push((along, at));
        if places.len() + open.0.len() > MOST_PLACES {
            return None;
        }
        for (next, line) in lines.iter().enumerate() {
            if let Some(past) = step_past(spacing, line.1 - across)
                && along + past <= end
            {
                open.insert((along + past, next));
            }
        }
    }
    Some(places)
}

/// A finite choice of places: whole spacings from the left end, zig-zags with the next line, and
/// even steps of an inch or more between.
fn steps(
    lines: &[(u16, Micrometres)],
    field: &Field,
    spacing: Micrometres,
    kept: &Kept,
) -> Vec<(Micrometres, usize)> {
    let per_line = (MOST_PLACES / lines.len().max(1)).max(2) as i64;
    let inch = Micrometres::from_inches(1);
    let mut places = Ordered::default();
    let mut run = |at: usize, step: Micrometres, most: i64| {
        for k in 0..most {
            let along = field.corner.along + step * k;
            if along > field.corner.along + field.length {
                break;
            }
            places.insert((along, at));
        }
    };
    for (at, line) in lines.iter().enumerate() {
        run(at, spacing, per_line);
        let gap = lines
            .iter()
            .map(|other| (other.1 - line.1).max(line.1 - other.1))
            .filter(|&gap| gap > Micrometres::ZERO)
            .min();
        if let Some(step) = gap.and_then(|gap| step_past(spacing, gap)) {
            run(at, step.max(inch), per_line);
        }
        let fine = Micrometres::new(field.length.get().div_euclid(per_line) + 1);
        run(at, fine.max(inch), per_line);
    }
    places
        .0
        .into_iter()
        .rev()
        .filter(|&(along, at)| {
            lines.get(at).is_some_and(|line| !kept.off(&Spot { along, across: line.1 }, spacing))
        })
        .collect()
}

/// The most on lines of this length, when only single lines and neighbouring pairs are looked at.
fn most_on_lines(lines: &[(u16, Micrometres)], length: Micrometres, spacing: Micrometres) -> u32 {
    let alone = on_two(length, spacing, spacing) / 2;
    let mut before = 0;
    let mut most = alone;
    for pair in lines.windows(2) {
        if let [near, far] = pair {
            let both = on_two(length, far.1 - near.1, spacing);
            let next = (most + alone).min(before + both);
            before = most;
            most = next;
        }
    }
    most
}

/// The most plants on two lines of this length and gap, anywhere along them; exact.
///
/// Of three plants next to each other along the bed two share a line, so every second one is a
/// whole spacing farther; and any two are at least a diagonal step from each other (derived;
/// compare Z. Füredi, "The densest packing of equal circles into a parallel strip", Discrete and
/// Computational Geometry 6, 1991, from memory).
#[must_use]
pub fn on_two(length: Micrometres, gap: Micrometres, spacing: Micrometres) -> u32 {
    let (length, whole) = (length.get(), spacing.get().max(1));
    let most = match step_past(spacing, gap) {
        None => 2 * (length / whole + 1),
        Some(step) if 2 * step.get() <= whole => {
            2 * (length / whole) + 1 + i64::from(length % whole >= step.get())
        }
        Some(step) => length / step.get() + 1,
    };
    u32::try_from(most).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn inch(inches: i64) -> Micrometres {
        Micrometres::from_inches(inches)
    }

    #[test]
    fn two_lines_hold_what_a_search_over_fine_steps_finds() {
        // The search: the next plant on either line as far left as it can go, over all orders.
        fn search(length: i64, gap: i64, s: i64, last: [Option<i64>; 2]) -> u32 {
            let step = root_up(s * s - gap * gap);
            (0..2)
                .map(|line| {
                    let own = last[line].map_or(0, |x| x + s);
                    let other = last[1 - line].map_or(0, |x| if gap >= s { 0 } else { x + step });
                    let x = own.max(other);
                    if x > length {
                        return 0;
                    }
                    let mut next = last;
                    next[line] = Some(x);
                    1 + search(length, gap, s, next)
                })
                .max()
                .unwrap()
        }
        for length in [0, 7, 8, 20, 33, 40] {
            for gap in [1, 5, 9, 10, 11, 14] {
                for s in [8, 10, 12, 13] {
                    let micrometres = Micrometres::new;
                    assert_eq!(
                        on_two(micrometres(length), micrometres(gap), micrometres(s)),
                        search(length, gap, s, [None, None]),
                        "length {length}, gap {gap}, spacing {s}"
                    );
                }
            }
        }
        let _ = inch(1);
    }
}
