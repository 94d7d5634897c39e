//! The typed numbers of the answer.

use crate::given::words;

words! {
    /// What to do.
    pub enum Verdict {
        /// Open wide.
        Open = "open",
        /// Open a hand's width.
        Ajar = "ajar",
        /// Leave it shut.
        Shut = "shut",
    }
}

/// Whether to open.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// What to do.
    pub verdict: Verdict,
    /// The likely high inside if it stays shut, °C.
    pub inside_high_c: f64,
    /// Standard deviation of its error, °C.
    pub inside_high_sd_c: f64,
    /// Inside minus outside in such sun, °C.
    pub warmer_c: f64,
    /// How many of its own middays that rests on.
    pub middays: u32,
    /// Outdoors at this, °C, it reaches 75 °F inside.
    pub opens_at_outside_c: f64,
    /// Whether the day is a hot spell for what stands in trays.
    pub hot: bool,
}
