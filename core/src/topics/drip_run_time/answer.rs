//! The typed numbers of the answer.

use uom::si::{length::millimeter, time::minute, volume::liter};

use super::{drip::in_an_hour, words::Found};
use crate::quantity::{hundredths, tenths};

/// How long the drip is to run.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Length of each run, minutes.
    pub run_min: f64,
    /// How many runs.
    pub runs: u32,
    /// The longest run that does not go past the roots, minutes.
    pub longest_run_min: f64,
    /// What the drip gives over the whole bed, millimetres an hour.
    pub rate_mm_per_h: f64,
    /// What the bed needs over the days asked about, rain not yet taken off, millimetres.
    pub demand_mm: f64,
    /// What the tap gives in all runs, litres.
    pub water_l: f64,
}

impl Found<'_> {
    pub(super) fn answer(&self) -> Answer {
        Answer {
            run_min: tenths(self.runs.each.get::<minute>()),
            runs: self.runs.count,
            longest_run_min: tenths(self.longest.get::<minute>()),
            rate_mm_per_h: hundredths(in_an_hour(self.rate).get::<millimeter>()),
            demand_mm: hundredths(self.need.depth.get::<millimeter>()),
            water_l: tenths(self.water.get::<liter>()),
        }
    }
}
