//! What to mind about a cover. The build script reads `core/data/covers.toml` with these words.

use serde::{Deserialize, Serialize};

/// Something to mind about a cover.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CoverWatch {
    /// It works by holding the soil's warmth: down to the ground all round, before sunset.
    SealEdges,
    /// In wind it holds little, and blows off.
    NotInWind,
    /// It must come off, or be opened, the next morning.
    OffByMidMorning,
    /// On a sunny morning plants cook under it.
    CooksInSun,
    /// Leaves that touch it freeze.
    TouchingLeavesFreeze,
    /// Wet, it can be colder than no cover.
    WetIsColder,
    /// Glass breaks, and snow is heavy.
    Glass,
    /// On a clear night leaves are colder than the air inside.
    LeavesColderThanAir,
}
