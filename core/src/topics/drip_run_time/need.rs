//! What plants use: reference evapotranspiration from temperature, times the crop's coefficient.

use chrono::NaiveDate;
use uom::si::{
    length::millimeter, radiant_exposure::megajoule_per_square_meter,
    thermodynamic_temperature::degree_celsius,
};

use crate::{
    place::{
        air::Air,
        sun::{Latitude, extraterrestrial_radiation},
    },
    quantity::{Length, Temperature},
    time::DayOfYear,
};

/// Depth of water that a day's radiation above the air could evaporate (Ra as a depth).
///
/// 0.408 mm for each MJ/m² (FAO-56 eq. 20).
#[must_use]
pub fn radiation_as_water(latitude: Latitude, date: NaiveDate) -> Length {
    const MILLIMETRES_FOR_A_MEGAJOULE: f64 = 0.408;
    let radiation = extraterrestrial_radiation(latitude, date);
    Length::new::<millimeter>(
        MILLIMETRES_FOR_A_MEGAJOULE * radiation.get::<megajoule_per_square_meter>(),
    )
}

/// What short grass uses in a day with these lows and highs: never below nothing; nothing also
/// where the low is above the high.
///
/// ETo = 0.0023 (mean + 17.8) √(high − low) Ra, all in °C and mm: R. G. Allen and others, *Crop
/// evapotranspiration*, FAO Irrigation and Drainage Paper 56, 1998, eq. 52, after G. H. Hargreaves.
/// For means of five days and more; too much in damp air, too little in wind.
#[must_use]
pub fn reference(
    latitude: Latitude,
    date: NaiveDate,
    low: Temperature,
    high: Temperature,
) -> Length {
    let [low, high] = [low, high].map(|temperature| temperature.get::<degree_celsius>());
    let mean = (low + high) / 2.0;
    let swing = (high - low).max(0.0);
    radiation_as_water(latitude, date) * (0.0023 * (mean + 17.8).max(0.0) * swing.sqrt())
}

/// The usual use of grass at a place over some days from the first on.
#[must_use]
pub fn reference_over(latitude: Latitude, air: &Air, first: NaiveDate, days: u32) -> Length {
    let each = first.iter_days().take(days as usize).map(|date| {
        let day = DayOfYear::of(date);
        reference(latitude, date, air.low(day), air.high(day))
    });
    each.fold(Length::default(), |sum, one| sum + one)
}

/// What rain leaves to be given; rain beyond the need is no credit for later.
#[must_use]
pub fn still_needed(need: Length, rain: Length) -> Length {
    let lacking = need - rain;
    if lacking.value > 0.0 { lacking } else { Length::default() }
}
