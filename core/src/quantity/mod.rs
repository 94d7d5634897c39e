//! Quantities: typed, read as people write them, printed in either system.

pub use uom::si::f64::{
    Area, Length, Mass, TemperatureInterval, ThermodynamicTemperature as Temperature, Time,
    Velocity, Volume, VolumeRate,
};

/// The system of units an answer is printed in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum System {
    /// Inches, feet, pounds, US gallons, degrees Fahrenheit.
    #[default]
    Us,
    /// Centimetres, metres, kilograms, litres, degrees Celsius.
    Metric,
}
