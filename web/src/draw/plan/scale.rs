//! From the bed's measures to the drawing's units, and back. A long bed is drawn in parts, the left end
//! above; one unit is one CSS pixel on a phone.

use pegline_core::{
    bed::{Bed, Spot},
    plan::by_hand::Touch,
};

/// The drawing's width.
pub(super) const WIDE: f64 = 324.0;
/// Where the soil begins: room for line numbers, then the board.
pub(super) const LEFT: f64 = 34.0;
/// How thick a board is drawn.
pub(super) const PLANK: f64 = 7.0;
/// The soil's width on a phone.
const SOIL: f64 = 281.0;
/// The soil is drawn no higher than this.
const HIGHEST: f64 = 260.0;
/// Under each part: the board, and the numbers of its holes.
const BELOW: f64 = PLANK + 27.0;
/// What is longer is drawn in parts, in metres (12 ft and a hand).
const PART: f64 = 3.8;
/// A touch farther than this from every place means none of them.
const TOUCH: f64 = 40.0;

/// Where what lies in the bed is on the drawing.
#[derive(Clone, Copy, Debug)]
pub struct Scale {
    length: f64,
    width: f64,
    rows: usize,
    /// Units a metre.
    along: f64,
}

impl Scale {
    /// The scale of this bed's drawing.
    pub fn of(bed: &Bed) -> Self {
        let (length, width) = (bed.length().metres(), bed.width().metres());
        let mut rows = 1_u8;
        while length > PART * f64::from(rows) && rows < 12 {
            rows += 1;
        }
        let along = (SOIL * f64::from(rows) / length).min(HIGHEST / width.max(1e-6));
        Self { length, width, rows: rows.into(), along }
    }

    pub(super) fn rows(&self) -> usize {
        self.rows
    }

    /// So many metres in the drawing's units.
    pub(super) fn pixels(&self, metres: f64) -> f64 {
        metres * self.along
    }

    /// The length of one part, in metres.
    fn part_length(&self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "twelve at most")]
        let rows = self.rows as f64;
        self.length / rows
    }

    /// How long one part is.
    pub(super) fn long(&self) -> f64 {
        self.pixels(self.part_length())
    }

    /// How high one part is.
    pub(super) fn high(&self) -> f64 {
        self.pixels(self.width).max(24.0)
    }

    /// Where the soil of a part begins, from above.
    pub(super) fn top(&self, row: usize) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "twelve at most")]
        let row = row as f64;
        2.0 * PLANK + row * (self.high() + BELOW + PLANK + 2.0)
    }

    /// Where the last part ends, numbers and all.
    pub(super) fn bottom(&self) -> f64 {
        self.top(self.rows - 1) + self.high() + BELOW
    }

    /// How far right a place along the bed is, if it is in this part.
    pub(super) fn x(&self, row: usize, along: f64) -> Option<f64> {
        Some(self.tick(along)?).filter(|at| at.0 == row).map(|at| at.1)
    }

    /// The part in which a place along the bed is, and how far right; nothing beyond the bed.
    pub(super) fn tick(&self, along: f64) -> Option<(usize, f64)> {
        let part = self.part_length();
        let mut rest = along;
        for row in 0..self.rows {
            if rest <= part + 1e-9 {
                return Some((row, LEFT + self.pixels(rest)));
            }
            rest -= part;
        }
        None
    }

    /// How far down a place across the bed is in this part.
    pub(super) fn level(&self, row: usize, across: f64) -> f64 {
        self.top(row) + self.high() - across / self.width.max(1e-6) * self.high()
    }

    /// The place of a plant.
    pub(super) fn place(&self, spot: Spot) -> (f64, f64) {
        let (row, x) = self.tick(spot.along.metres()).unwrap_or((0, LEFT));
        (x, self.level(row, spot.across.metres()))
    }

    /// What of a part lies between two shares of the bed's length: where it begins, and how wide it is.
    pub(super) fn part(&self, row: usize, from: f64, to: f64) -> Option<(f64, f64)> {
        #[expect(clippy::cast_precision_loss, reason = "twelve at most")]
        let (rows, row) = (self.rows as f64, row as f64);
        let share = |at: f64| (at * rows - row).clamp(0.0, 1.0);
        let (from, to) = (share(from), share(to));
        (from < to).then(|| (LEFT + from * self.long(), (to - from) * self.long()))
    }

    /// What a touch at (x, y) of the drawing touches in the bed.
    pub fn touch(&self, x: f64, y: f64) -> Touch {
        let row = (0..self.rows).rev().find(|row| y >= self.top(*row) - PLANK - 2.0).unwrap_or(0);
        #[expect(clippy::cast_precision_loss, reason = "twelve at most")]
        let before = self.part_length() * row as f64;
        Touch {
            along_m: before + (x - LEFT) / self.along,
            across_m: (self.top(row) + self.high() - y) / self.high() * self.width,
            reach_m: TOUCH / self.along,
        }
    }
}
