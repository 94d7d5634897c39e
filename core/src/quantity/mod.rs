//! Quantities: typed, read as people write them, printed in either system.
//!
//! Text is cut into words and numbers (`words`), a number is taken from them (`number`), its unit
//! is looked up (`phrase`, `units`), and [`Quantity`] gives the typed value or a polite refusal.
//! Conversion factors are those of the `uom` library, which follow NIST Special Publication 811
//! (2008), Appendix B.

mod micrometres;
pub mod number;
mod phrase;
mod read;
mod show;
mod units;
mod unreadable;
pub(crate) mod words;

pub use micrometres::Micrometres;
pub use number::show_number;
pub(crate) use number::{hundredths, tenths, thousandths};
pub use read::Quantity;
pub use show::{show_bulk, show_spacing};
pub use units::WHEELBARROW;
pub use unreadable::Unreadable;
/// The units by name, for bringing a bare SI number in or out: `unit::length::inch`.
pub use uom::si as unit;
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

impl System {
    /// The step of a short length that is measured with a tape: an inch, or a centimetre.
    pub(crate) fn whole_step(self) -> Micrometres {
        match self {
            Self::Us => Micrometres::from_inches(1),
            Self::Metric => Micrometres::new(10_000),
        }
    }
}
