//! Whether to sow, as data.

use chrono::NaiveDate;

use crate::{given::words, time::Range};

words! {
    /// What to do.
    pub enum Verdict {
        /// Sow now.
        Now = "now",
        /// Sow somewhere warmer.
        Warmer = "warmer",
        /// Sow somewhere cooler.
        Cooler = "cooler",
        /// Wait until the soil or the season is right.
        Wait = "wait",
        /// Too late: sown now it would not be picked.
        TooLate = "too-late",
        /// Too hot, now or when it would be picked.
        TooHot = "too-hot",
        /// No day of the year suits it in this place.
        NotHere = "not-here",
    }
}

/// Whether to sow, and how many seeds.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Seeds that give the wanted plants nine times in ten; null where too few come up to count on.
    pub seeds: Option<u32>,
    /// When it comes up, sown now or when the soil is right; null where that can't be told.
    pub emerges: Option<Range>,
    /// The share of this seed that comes up then, 0 to 1.
    pub share_up: f64,
    /// What to do.
    pub verdict: Verdict,
    /// When it can be sown there; null where no day of the coming year is known to suit.
    pub when: Option<Range>,
    /// The first picking of what is sown now, or when it can be sown; null where the place or the crop's
    /// need of warmth is not known, or nothing is picked.
    pub picked: Option<Range>,
    /// The chance that frost spares it through its picking, 0 to 1; null as above.
    pub alive: Option<f64>,
    /// The last useful day to sow; null where that is not known, or any day of the year is one.
    pub last_day: Option<NaiveDate>,
    /// Why not now: `too-cold-to-come-up`, `too-hot-to-come-up`, `killed`, `too-hot`, `bolts` or
    /// `never-ready`; null where it can be sown, or the season is not known.
    pub reason: Option<&'static str>,
}
