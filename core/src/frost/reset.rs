//! When a thermometer that keeps its lowest was set back.

use crate::given::words;

words! {
    /// When a thermometer was last set back before it was read.
    pub enum Reset {
        /// Yesterday after noon.
        Afternoon = "afternoon" => "yesterday after noon",
        /// Yesterday morning: the low may be yesterday's dawn.
        Morning = "morning" => "yesterday morning",
        /// Longer ago, or not known.
        Unknown = "unknown" => "earlier, or not known",
    }
}
