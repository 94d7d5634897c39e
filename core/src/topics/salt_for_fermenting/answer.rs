//! The typed numbers of the answer.

/// The salt.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Salt, grams.
    pub salt_g: f64,
    /// Salt in percent of vegetable and water.
    pub percent: f64,
    /// Whether that lies inside what printed recipes use.
    pub usual: bool,
}
