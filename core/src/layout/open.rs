//! Open ground: plants anywhere in the bed, drip or no drip.
//!
//! On empty ground the best pattern of rows is taken. Around plants that stay, several are tried:
//! the pattern over the whole field and over what is free on each side of them, and tighter grids
//! moved about, each without the places too near and with what still fits added on a fine grid.
//! The best found is good but not proved, unless it meets the bound.

use super::geometry::{Field, Kept, too_near};
use super::patterns::{self, Rows, Stagger, best};
use crate::bed::{Bed, Spot};
use crate::order;
use crate::quantity::Micrometres;

/// The most points of the fine grid on which gaps are filled.
const MOST_POINTS: i64 = 4_000;
/// In how many places each way a grid is moved about.
const MOVES: i64 = 4;

/// Plants on open ground.
pub(super) struct Open {
    /// Where they stand.
    pub(super) spots: Vec<Spot>,
    /// The rows they stand in, where there are rows and the field they fill.
    pub(super) rows: Option<(Rows, Field)>,
    /// Whether places of the rows are left out.
    pub(super) with_gaps: bool,
    /// No layout holds more.
    pub(super) at_most: u32,
}

/// As many plants as can be found inside an edge margin, or nothing where it leaves no room.
pub(super) fn lay(
    bed: &Bed,
    margin: Micrometres,
    spacing: Micrometres,
    kept: &Kept,
) -> Option<Open> {
    let loose = Field::loosely_within(bed, margin)?;
    let at_most = patterns::at_most(loose.length, loose.width, spacing);
    let wider = best(loose.length, loose.width, spacing);
    // The edges give way only where that gains a plant.
    let (rows, over) = Field::within(bed, margin)
        .map(|field| (best(field.length, field.width, spacing), field))
        .filter(|(exact, _)| exact.count() == wider.count())
        .unwrap_or((wider, loose));
    let field = &over;
    let spots = rows.spots(&over);
    let free = without(&spots, spacing, kept);
    if free.len() == spots.len() {
        return Some(Open { spots, rows: Some((rows, over)), with_gaps: false, at_most });
    }

    let fine = fine_grid(field, spacing, kept);
    let mut found =
        Open { spots: free.clone(), rows: Some((rows, over)), with_gaps: true, at_most };
    let mut consider = |start: Vec<Spot>, rows: Option<(Rows, Field)>, with_gaps| {
        let before = start.len();
        let spots = topped_up(start, &fine, spacing);
        if spots.len() > found.spots.len() {
            let rows = rows.filter(|_| spots.len() == before);
            found = Open { spots, rows, with_gaps, at_most };
        }
    };
    for side in beside(field, spacing, kept) {
        let rows = best(side.length, side.width, spacing);
        let all = rows.spots(&side);
        let start = without(&all, spacing, kept);
        let with_gaps = start.len() < all.len();
        consider(start, Some((rows, side)), with_gaps);
    }
    consider(free, None, true);
    for start in moved_grids(field, spacing) {
        consider(without(&start, spacing, kept), None, true);
    }
    Some(found)
}

/// What no layout inside an edge margin exceeds, the edges given way by the tolerance.
pub(super) fn at_most(bed: &Bed, margin: Micrometres, spacing: Micrometres) -> u32 {
    Field::loosely_within(bed, margin)
        .map_or(0, |field| patterns::at_most(field.length, field.width, spacing))
}

/// The spots that no plant that stays keeps off.
fn without(spots: &[Spot], spacing: Micrometres, kept: &Kept) -> Vec<Spot> {
    spots.iter().copied().filter(|spot| !kept.off(spot, spacing)).collect()
}

/// The parts of a field left, right, near and far of all plants that stay.
fn beside(field: &Field, spacing: Micrometres, kept: &Kept) -> Vec<Field> {
    let mut sides = Vec::new();
    let clear = |plant_spacing: Micrometres| {
        Micrometres::new((spacing + plant_spacing).get().div_euclid(2))
    };
    let plants = kept.plants();
    let end = Spot {
        along: field.corner.along + field.length,
        across: field.corner.across + field.width,
    };
    let left = plants.iter().map(|plant| plant.site.spot.along - clear(plant.spacing)).min();
    let right = plants.iter().map(|plant| plant.site.spot.along + clear(plant.spacing)).max();
    let near = plants.iter().map(|plant| plant.site.spot.across - clear(plant.spacing)).min();
    let far = plants.iter().map(|plant| plant.site.spot.across + clear(plant.spacing)).max();
    let mut add = |corner: Spot, end: Spot| {
        let (length, width) = (end.along - corner.along, end.across - corner.across);
        if length >= Micrometres::ZERO && width >= Micrometres::ZERO {
            sides.push(Field { corner, length, width });
        }
    };
    if let (Some(left), Some(right), Some(near), Some(far)) = (left, right, near, far) {
        add(field.corner, Spot { along: left.min(end.along), ..end });
        add(Spot { along: right.max(field.corner.along), ..field.corner }, end);
        add(field.corner, Spot { across: near.min(end.across), ..end });
        add(Spot { across: far.max(field.corner.across), ..field.corner }, end);
    }
    sides
}

/// Square and triangular grids at the spacing itself, each moved about by parts of a step.
fn moved_grids(field: &Field, spacing: Micrometres) -> Vec<Vec<Spot>> {
    let mut grids = Vec::new();
    let triangle = Micrometres::new((spacing.get() as f64 * 0.75_f64.sqrt()).ceil() as i64);
    for (gap, stagger) in [(spacing, Stagger::Square), (triangle, Stagger::MovedOn)] {
        for run_across in [false, true] {
            for turn in 0..MOVES * MOVES {
                let (over, up) = (turn % MOVES, turn / MOVES);
                let (length, breadth) = if run_across {
                    (field.width, field.length)
                } else {
                    (field.length, field.width)
                };
                let mut spots = Vec::new();
                let part = |step: Micrometres, part| {
                    Micrometres::new((step * part).get().div_euclid(MOVES))
                };
                let mut minor = part(gap, up);
                let mut between = false;
                while minor <= breadth {
                    let half = Micrometres::new(spacing.get().div_euclid(2));
                    let mut major = part(spacing, over);
                    if between && stagger == Stagger::MovedOn {
                        major = if major >= half { major - half } else { major + half };
                    }
                    while major <= length {
                        let (along, across) =
                            if run_across { (minor, major) } else { (major, minor) };
                        spots.push(Spot {
                            along: field.corner.along + along,
                            across: field.corner.across + across,
                        });
                        major = major + spacing;
                    }
                    minor = minor + gap;
                    between = !between;
                }
                grids.push(spots);
            }
        }
    }
    grids
}

/// Points an inch apart, or farther on a large field, that nothing keeps a plant off.
fn fine_grid(field: &Field, spacing: Micrometres, kept: &Kept) -> Vec<Spot> {
    let mut step = Micrometres::from_inches(1);
    let points = |step: Micrometres| {
        (field.length.get() / step.get() + 1) * (field.width.get() / step.get() + 1)
    };
    while points(step) > MOST_POINTS {
        step = Micrometres::new(step.get() * 5 / 4);
    }
    let mut spots = Vec::new();
    let mut along = Micrometres::ZERO;
    while along <= field.length {
        let mut across = Micrometres::ZERO;
        while across <= field.width {
            let spot =
                Spot { along: field.corner.along + along, across: field.corner.across + across };
            if !kept.off(&spot, spacing) {
                spots.push(spot);
            }
            across = across + step;
        }
        along = along + step;
    }
    spots
}

/// The plants, and every point of the grid in turn that is far enough from all so far.
fn topped_up(start: Vec<Spot>, fine: &[Spot], spacing: Micrometres) -> Vec<Spot> {
    let side = spacing.get().max(1);
    let cell =
        |spot: &Spot| (spot.along.get().div_euclid(side), spot.across.get().div_euclid(side));
    let mut spots = start;
    // The plants by cell, in the order of cells.
    let mut cells: Vec<((i64, i64), Spot)> = spots.iter().map(|spot| (cell(spot), *spot)).collect();
    order::sort(&mut cells, &|&((x, y), _)| [x, y, 0]);
    for spot in fine {
        let (x, y) = cell(spot);
        let free = (x - 1..=x + 1).all(|x| {
            let first = cells.partition_point(|&(at, _)| at < (x, y - 1));
            cells
                .iter()
                .skip(first)
                .take_while(|&&(at, _)| at <= (x, y + 1))
                .all(|(_, other)| !too_near(spot, other, [spacing; 2]))
        });
        if free {
            let place = cells.partition_point(|&(at, _)| at <= (x, y));
            cells.insert(place, ((x, y), *spot));
            spots.push(*spot);
        }
    }
    spots
}
