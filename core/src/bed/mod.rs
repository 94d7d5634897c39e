//! A raised bed as it lies in the garden: its sides, its drip lines, the ways to reach it.
//!
//! `along` runs from the left end as one stands at the near long side, `across` from the near side.
//! Everything is in whole micrometres, so that 96 in hold exactly eight times 12 in, and a bed typed
//! in centimetres answers as the same bed typed in inches.

mod asked;
mod drip;
mod fault;
mod shape;
mod site;

pub use asked::{BedAsked, Described, Meant, Past, Side, sides_apart};
pub(crate) use asked::{Need, micrometres};
pub use drip::{
    Drip, DripMeasures, END_STRIP, LEAST_EMITTER_SPACING, Line, LineCount, LineMeasures,
    LinesMeasured, MOST_EMITTERS, MOST_LINES,
};
pub use fault::{Fault, Part, Reason};
pub use shape::{Bearing, Bed, LEAST_SIDE, LONGEST_SIDE, Measures, Reach, WIDEST_SIDE};
pub use site::{Site, Spot};

use crate::quantity::Micrometres;

/// What a tape measure in the garden may be off: within it two lengths count as equal.
///
/// One millimetre (common practice). Distances are compared with it once, never twice over.
pub const TOLERANCE: Micrometres = Micrometres::new(1_000);
