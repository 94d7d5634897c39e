//! The typed numbers of the answer.

/// How warm the soil is.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The mean over day and night, °C.
    pub temperature_c: f64,
    /// One standard deviation of it, °C.
    pub sd_c: f64,
}
