//! What the questions about a tray ask alike, and how it is read.

use chrono::NaiveDate;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use super::tray::{self, Reading};
use crate::{
    catalogue::{Crop, KnownCrop},
    garden::Start,
    given::{Faults, Given, asked, words},
    quantity::Temperature,
};

asked! {
    /// A day's low and high.
    pub struct ReadingAsked {
        /// The day.
        date: Given<NaiveDate>,
        /// The low.
        low: Given<Temperature>,
        /// The high.
        high: Given<Temperature>,
    }
}

words! {
    /// Something seen on young plants.
    pub enum Sign {
        /// Long and thin.
        Leggy = "leggy" => "Long and thin",
        /// Two or more in a cell.
        Doubled = "doubled" => "Two or more in a cell",
        /// Buds or flowers in the cell.
        Budding = "budding" => "Buds or flowers",
        /// Lower leaves yellow.
        Yellow = "yellow" => "Lower leaves yellow",
        /// Leaves a hand wide, or stems as thick as a pencil: such plants feel weeks of cold.
        Large = "large" => "Leaves a hand wide, or stems like a pencil",
    }
}

/// The crop as given, else that of the tray.
pub(crate) fn crop_of(
    given: &Given<KnownCrop>,
    start: Option<&Start>,
    faults: &mut Faults,
) -> Option<&'static Crop> {
    if !given.is_given()
        && let Some(crop) = start.and_then(tray::crop)
    {
        return Some(crop);
    }
    given.need(faults).map(|KnownCrop(crop)| crop)
}

/// The day of sowing as given, else that of the tray; not after today.
pub(crate) fn sown_of(
    given: &Given<NaiveDate>,
    start: Option<&Start>,
    today: Option<NaiveDate>,
    faults: &mut Faults,
) -> Option<NaiveDate> {
    let date = match start {
        Some(start) if !given.is_given() => start.sown.date(),
        _ => given.need(faults)?,
    };
    let today = today?;
    let days = (today - date).num_days();
    if (0..730).contains(&days) {
        return Some(date);
    }
    let why = if days < 0 { "that day has not come yet" } else { "no tray is that old" };
    given.refuse(faults, "today or a day of the two years before", why);
    None
}

/// The mean temperature of a place where trays stand.
pub(crate) fn mean_temperature(
    given: &Given<Temperature>,
    faults: &mut Faults,
) -> Option<Temperature> {
    let f = Temperature::new::<degree_fahrenheit>;
    given.within(
        f(10.0),
        f(100.0),
        "a mean temperature from 10 °F to 100 °F (-12 °C to 38 °C)",
        faults,
    )
}

impl ReadingAsked {
    /// The reading; the high is needed or may be missing.
    pub(crate) fn read(&self, high_needed: bool, faults: &mut Faults) -> Option<Reading> {
        let f = Temperature::new::<degree_fahrenheit>;
        let limits = "a temperature from -40 °F to 140 °F (-40 °C to 60 °C)";
        let date = self.date.need(faults);
        if !self.low.is_given() {
            self.low.need(faults);
        }
        if high_needed && !self.high.is_given() {
            self.high.need(faults);
        }
        let low = self.low.within(f(-40.0), f(140.0), limits, faults);
        let high = self.high.within(f(-40.0), f(140.0), limits, faults);
        let (date, low) = (date?, low?);
        if high.is_some_and(|high| high < low) {
            self.high.refuse(faults, "a high that is not below the low", "it is below it");
            return None;
        }
        if (high_needed || self.high.is_given()) && high.is_none() {
            return None;
        }
        Some(Reading { date, low, high })
    }
}
