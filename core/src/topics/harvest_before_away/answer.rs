//! The typed numbers of the answer.

use crate::given::words;

words! {
    /// What to do before going.
    pub enum Doing {
        /// Everything usable goes: a frost comes that the crop does not bear.
        TakeAll = "take-all",
        /// All of size, and the small ones too.
        SmallOnesToo = "small-ones-too",
        /// Old ones off, so that others come.
        OldOnesOff = "old-ones-off",
        /// A look: what is ready or nearly ready is taken.
        Look = "look",
    }
}

/// What to pick before going, and what can wait.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// What must be seen to, that which waits least first.
    pub take: Vec<Take>,
    /// What can wait.
    pub wait: Vec<Waits>,
}

/// Something to see to before going.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Take {
    /// The crop's catalogue id.
    pub crop: &'static str,
    /// The bed's id in the record; null where the crop came with the question.
    pub bed: Option<String>,
    /// The planting's id in the record; null where the crop came with the question.
    pub planting: Option<String>,
    /// The crop, and the bed where the record knows it: "Bush bean in Fence bed".
    pub name: String,
    /// What to do.
    pub doing: Doing,
    /// What to do, in a sentence.
    pub words: String,
    /// How many days it holds at its prime, the fewest and the most.
    pub holds_days: [u16; 2],
}

/// Something that can wait.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Waits {
    /// The crop's catalogue id.
    pub crop: &'static str,
    /// The bed's id in the record; null where the crop came with the question.
    pub bed: Option<String>,
    /// The planting's id in the record; null where the crop came with the question.
    pub planting: Option<String>,
    /// The crop, and the bed where the record knows it.
    pub name: String,
}
