//! The typed numbers of the answer.

use crate::plan::{Laid, Placed};

/// The widest spacing.
#[derive(Clone, Debug, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The widest spacing found at which all fit, metres; null if they do not fit at all.
    pub spacing_m: Option<f64>,
    /// Whether no wider one takes them all.
    pub proved: bool,
    /// They fit at no wider spacing than this, metres; null if they do not fit at all.
    pub bound_m: Option<f64>,
    /// Each plant, by its distance from the near side, then from the left end.
    pub placed: Vec<Placed>,
    /// The layout in words.
    pub arrangement: String,
    /// Whether the spacing lies below the crop's published range; null where none is published.
    pub too_tight: Option<bool>,
    /// The layout told, if they fit at all.
    #[serde(skip)]
    pub laid: Option<Laid>,
}
