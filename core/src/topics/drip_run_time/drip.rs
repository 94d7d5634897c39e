//! What drip lines give, and for how long they run.

use uom::si::{
    ratio::ratio,
    time::{hour, minute},
    volume::gallon,
};

use crate::{
    bed::Bed,
    quantity::{Area, Length, Time, Velocity, Volume, VolumeRate},
};

/// The share of the water that the roots get: 0.90 for drip (Colorado State University Extension,
/// 4.702 and 5.623).
pub const REACHES_ROOTS: f64 = 0.90;

/// The depth of water that a flow spreads over an area in a time.
///
/// On a bed: all its emitters over its area. On an endless field: one emitter over its spacing
/// times the gap between lines; for a short bed the two differ by some percent.
#[must_use]
pub fn application_rate(flow: VolumeRate, area: Area) -> Velocity {
    flow / area
}

/// What all emitters of a bed give together, at so much each; nothing where it has no drip.
#[must_use]
pub fn flow_of_bed(bed: &Bed, each: VolumeRate) -> VolumeRate {
    let emitters = bed.drip().map_or(0, |drip| drip.emitter_count());
    each * f64::from(emitters)
}

/// How long it takes to give the roots a depth of water, of which the given share reaches them
/// (above 0, up to 1); no time for no depth, or for a rate that is not above zero.
#[must_use]
pub fn run_time(depth: Length, rate: Velocity, reaches: f64) -> Time {
    if depth.value > 0.0 && rate.value > 0.0 && reaches > 0.0 {
        depth / (rate * reaches)
    } else {
        Time::default()
    }
}

/// Runs, all of one length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Runs {
    /// How many; none where nothing is lacking.
    pub count: u32,
    /// How long each takes.
    pub each: Time,
}

/// Splits a time of watering so that no run is longer than the longest.
///
/// As many runs as `dry` would take, the time without any rain: rain then shortens the runs and
/// not the rhythm, so that more rain never makes a run longer.
#[must_use]
pub fn split(total: Time, dry: Time, longest: Time) -> Runs {
    /// A rounding error must not add a run.
    const OVER: f64 = 1e-9;
    if total.value <= 0.0 {
        return Runs { count: 0, each: Time::default() };
    }
    let runs = if longest.value > 0.0 { (dry / longest).get::<ratio>() - OVER } else { 1.0 };
    let count = runs.ceil().max(1.0) as u32;
    Runs { count, each: total / f64::from(count) }
}

/// What a home tap gives: about 5 US gallons a minute (read in a trade article).
#[must_use]
pub fn home_tap() -> VolumeRate {
    Volume::new::<gallon>(5.0) / Time::new::<minute>(1.0)
}

/// The depth that a rate gives in an hour.
#[must_use]
pub fn in_an_hour(rate: Velocity) -> Length {
    rate * Time::new::<hour>(1.0)
}
