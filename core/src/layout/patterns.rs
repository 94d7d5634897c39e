//! Rows without drip: square, staggered, and staggered with the slack used up; and how many there
//! can be at most.
//!
//! Stretching a staggered row over the whole length lets the rows move closer, so that the best of
//! these patterns is never worse than plain triangles, whichever way the rows run. Formulas: square
//! and triangular grids are common knowledge (J. Jeavons, *How to Grow More Vegetables*, prints 0.87
//! for the triangle's height); the stretched rows are derived here. In a row plants keep `a >= s`,
//! rows next to each other `h` with `h^2 + (a/2)^2 >= s^2`, rows two apart `2h >= s`.
//!
//! Bounds: Oler's and Groemer's inequality, `n <= 2/sqrt(3) * l w / s^2 + (l + w) / s + 1`
//! (N. Oler, "An inequality in the geometry of numbers", Acta Mathematica 105, 1961; H. Groemer,
//! 1960; from memory), and a count of cells too small for two plants (derived).

use super::geometry::Field;
use crate::bed::Spot;
use crate::quantity::Micrometres;

/// How the rows of a pattern lie against each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stagger {
    /// Plant beside plant.
    Square,
    /// Every second row has one plant fewer, set halfway between.
    OneFewer,
    /// Every second row has as many plants, moved on by half a step.
    MovedOn,
}

/// Rows of plants spread evenly over a rectangle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rows {
    /// Whether the rows run across the bed instead of along it.
    pub run_across: bool,
    /// How many rows.
    pub rows: u32,
    /// Plants in the first, third, fifth row.
    pub in_row: u32,
    /// How the rows between lie.
    pub stagger: Stagger,
}

impl Rows {
    /// Plants in the second, fourth, sixth row.
    #[must_use]
    pub fn in_between(&self) -> u32 {
        match self.stagger {
            Stagger::OneFewer => self.in_row.saturating_sub(1),
            Stagger::Square | Stagger::MovedOn => self.in_row,
        }
    }

    /// All plants.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.rows.div_ceil(2) * self.in_row + self.rows / 2 * self.in_between()
    }

    /// From plant to plant in a row of this length; the whole length where there is but one.
    #[must_use]
    pub fn step(&self, row_length: Micrometres) -> Micrometres {
        let (times, parts) = self.steps();
        Micrometres::new((row_length * times).get().div_euclid(parts))
    }

    /// From row to row over this breadth; the whole breadth where there is but one.
    #[must_use]
    pub fn gap(&self, breadth: Micrometres) -> Micrometres {
        Micrometres::new(breadth.get().div_euclid(i64::from(self.rows).saturating_sub(1).max(1)))
    }

    /// A step in a row as a fraction of the row's length.
    fn steps(&self) -> (i64, i64) {
        let n = i64::from(self.in_row);
        match self.stagger {
            Stagger::Square | Stagger::OneFewer => (1, (n - 1).max(1)),
            Stagger::MovedOn => (2, (2 * n - 1).max(1)),
        }
    }

    /// Where the plants stand in a field, row after row.
    pub(super) fn spots(&self, field: &Field) -> Vec<Spot> {
        let (length, breadth) =
            if self.run_across { (field.width, field.length) } else { (field.length, field.width) };
        let (times, parts) = self.steps();
        let mut spots = Vec::with_capacity(self.count() as usize);
        for row in 0..i64::from(self.rows) {
            let between = row % 2 == 1;
            let plants = if between { self.in_between() } else { self.in_row };
            let minor = match self.rows {
                1 => Micrometres::new(breadth.get().div_euclid(2)),
                rows => Micrometres::new((breadth * row).get().div_euclid(i64::from(rows) - 1)),
            };
            for plant in 0..i64::from(plants) {
                // Twice the place, so that half a step is a whole number.
                let halves = 2 * plant + i64::from(between && self.stagger != Stagger::Square);
                let major = match (self.stagger, self.in_row) {
                    (Stagger::Square, 1) => Micrometres::new(length.get().div_euclid(2)),
                    _ => Micrometres::new((length * (times * halves)).get().div_euclid(2 * parts)),
                };
                let (along, across) = if self.run_across { (minor, major) } else { (major, minor) };
                spots.push(Spot {
                    along: field.corner.along + along,
                    across: field.corner.across + across,
                });
            }
        }
        spots
    }

    /// The square of the least distance between its plants, for the more airy of two equal counts.
    fn least_square(&self, length: i64, breadth: i64) -> i64 {
        let (times, parts) = self.steps();
        let step = if self.in_row > 1 { length * times / parts } else { i64::MAX };
        let gap = if self.rows > 1 { breadth / (i64::from(self.rows) - 1) } else { i64::MAX };
        let half = match self.stagger {
            Stagger::Square => 0,
            Stagger::OneFewer | Stagger::MovedOn => length * times / (2 * parts),
        };
        let square = |side: i64| side.saturating_mul(side);
        let mut least = square(step).min(square(gap).saturating_add(square(half)));
        if self.rows > 2 && half > 0 {
            least = least.min(square(gap.saturating_mul(2)));
        }
        least
    }
}

/// How often a plant every `apart` fits on a length, both ends used.
fn fit(length: i64, apart: i64) -> u32 {
    u32::try_from(length.div_euclid(apart.max(1)) + 1).unwrap_or(0)
}

/// The square grid with the most plants on a rectangle.
#[must_use]
pub fn square(length: Micrometres, width: Micrometres, apart: Micrometres) -> Rows {
    Rows {
        run_across: false,
        rows: fit(width.get(), apart.get()),
        in_row: fit(length.get(), apart.get()),
        stagger: Stagger::Square,
    }
}

/// The pattern with the most plants on a rectangle, no two nearer than `apart`.
///
/// Of equal counts the square grid comes first, since a filler fits best into it; then the pattern
/// whose plants are farthest from each other; then rows along the length; then fuller rows.
#[must_use]
pub fn best(length: Micrometres, width: Micrometres, apart: Micrometres) -> Rows {
    let mut best = square(length, width, apart);
    let mut airy = i64::MAX;
    for run_across in [false, true] {
        let (row, breadth) =
            if run_across { (width.get(), length.get()) } else { (length.get(), width.get()) };
        for in_row in (1..=fit(row, apart.get())).rev() {
            for stagger in [Stagger::OneFewer, Stagger::MovedOn] {
                let Some(rows) = staggered(row, breadth, apart.get(), in_row, stagger) else {
                    continue;
                };
                let pattern = Rows { run_across, rows, in_row, stagger };
                let room = pattern.least_square(row, breadth);
                if pattern.count() > best.count() || pattern.count() == best.count() && room > airy
                {
                    best = pattern;
                    airy = room;
                }
            }
        }
    }
    best
}

/// How many staggered rows of so many plants fit, or nothing where a row would be too close-set.
fn staggered(row: i64, breadth: i64, apart: i64, in_row: u32, stagger: Stagger) -> Option<u32> {
    let n = i64::from(in_row);
    // Half a step, and the plants that share a row.
    let half = match stagger {
        Stagger::OneFewer if n >= 2 => row / (2 * (n - 1)),
        Stagger::MovedOn => row / (2 * n - 1),
        Stagger::OneFewer | Stagger::Square => return None,
    };
    let step = if stagger == Stagger::OneFewer { row / (n - 1) } else { 2 * row / (2 * n - 1) };
    if n > 1 && step < apart {
        return None;
    }
    let beside = root_up(apart * apart - half * half);
    let gap = beside.max((apart + 1).div_euclid(2)).max(1);
    Some(fit(breadth, gap))
}

/// The least whole number whose square is not below `square`.
pub(super) fn root_up(square: i64) -> i64 {
    if square <= 0 {
        return 0;
    }
    let root = square.isqrt();
    if root * root < square { root + 1 } else { root }
}

/// The most plants that any layout can have on a rectangle, no two nearer than `apart`.
#[must_use]
pub fn at_most(length: Micrometres, width: Micrometres, apart: Micrometres) -> u32 {
    let (length, width) = (length.get() as f64, width.get() as f64);
    let apart = apart.get().max(1) as f64;
    // Added before rounding down: a bound may be too high by a plant, but never too low.
    const ROUNDING: f64 = 1e-9;
    let oler = 2.0 / 3.0_f64.sqrt() * length * width / (apart * apart)
        + (length + width) / apart
        + 1.0
        + ROUNDING;
    // No cell of p times q may have a diagonal of `apart` or more.
    let mut least = oler.floor();
    for (side, other) in [(length, width), (width, length)] {
        let first = (other / apart).floor() + 1.0;
        for extra in 0..3 {
            let strips = first + f64::from(extra);
            let strip = other / strips;
            let room = apart * apart - strip * strip;
            if room > 0.0 {
                least = least.min(strips * ((side / room.sqrt() + ROUNDING).floor() + 1.0));
            }
        }
    }
    // OK because the cast saturates.
    least as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::geometry::too_near;

    const fn inch(inches: i64) -> Micrometres {
        Micrometres::from_inches(inches)
    }

    fn field(length: Micrometres, width: Micrometres) -> Field {
        Field { corner: Spot { along: inch(1), across: inch(2) }, length, width }
    }

    fn check(length: Micrometres, width: Micrometres, apart: Micrometres) {
        let field = field(length, width);
        for pattern in [square(length, width, apart), best(length, width, apart)] {
            let spots = pattern.spots(&field);
            assert_eq!(spots.len(), pattern.count() as usize, "{pattern:?}");
            assert!(spots.iter().all(|spot| field.holds(spot)), "{pattern:?}");
            for (at, spot) in spots.iter().enumerate() {
                for other in &spots[at + 1..] {
                    assert!(!too_near(spot, other, [apart; 2]), "{pattern:?} {spot:?} {other:?}");
                }
            }
            assert!(pattern.count() <= at_most(length, width, apart), "{pattern:?}");
        }
    }

    #[test]
    fn every_pattern_keeps_its_distance_inside_the_field() {
        for length in [0, 1, 5, 17, 36, 90] {
            for width in [0, 3, 10, 36, 42] {
                for apart in [2, 3, 5, 7, 12, 18, 60] {
                    check(inch(length), inch(width), inch(apart));
                    check(
                        inch(length) + Micrometres::new(317),
                        inch(width) + Micrometres::new(12_343),
                        inch(apart) - Micrometres::new(1_001),
                    );
                }
            }
        }
    }

    #[test]
    fn turning_the_rectangle_changes_no_count() {
        for (length, width, apart) in [(90, 42, 6), (84, 36, 12), (126, 30, 18), (7, 3, 4)] {
            let one = best(inch(length), inch(width), inch(apart)).count();
            let other = best(inch(width), inch(length), inch(apart)).count();
            assert_eq!(one, other);
        }
    }

    #[test]
    fn one_row_stands_in_the_middle() {
        let field = field(inch(36), inch(4));
        let spots = square(inch(36), inch(4), inch(12)).spots(&field);
        assert_eq!(spots.len(), 4);
        assert!(spots.iter().all(|spot| spot.across == inch(4)));
    }

    #[test]
    fn a_narrow_strip_is_planted_as_full_as_can_be() {
        // 60 in long, 10 in wide, 12 in between: steps of sqrt(144 - 100) in.
        let (length, width, apart) = (inch(60), inch(10), inch(12));
        assert_eq!(best(length, width, apart).count(), 10);
        assert_eq!(at_most(length, width, apart), 10);
    }

    #[test]
    fn a_root_is_rounded_up() {
        assert_eq!([root_up(-4), root_up(0), root_up(9), root_up(10)], [0, 0, 3, 4]);
    }
}
