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

/// Placeholder until the reading helper lands.
pub struct Unreadable {
    /// x
    pub allowed: String,
    /// x
    pub why: String,
}
/// x
pub trait Quantity: Sized + Copy {
    /// x
    const WHAT: &'static str;
    /// x
    const EXAMPLES: &'static str;
    /// x
    fn read(text: &str) -> Result<Self, Unreadable>;
}
/// x
pub fn read_count(text: &str) -> Result<u32, Unreadable> {
    text.parse().map_err(|_| Unreadable {
        allowed: String::new(),
        why: String::new(),
    })
}
/// x
pub fn read_number(text: &str) -> Result<f64, Unreadable> {
    text.parse().map_err(|_| Unreadable {
        allowed: String::new(),
        why: String::new(),
    })
}
