//! Dew point of the air, from its humidity or from a thermometer in a wet cloth.

use uom::si::length::meter;

use crate::{
    given::{Readable, Share},
    place::air::{celsius, of_celsius},
    quantity::{Length, Temperature},
};

/// Dew point from relative humidity; the humidity lies above 0 and up to 1.
///
/// Magnus form with the constants of O. A. Alduchov and R. E. Eskridge, *J. Appl. Meteorol.* 35,
/// 1996: within 0.35 °C from -40 to 60 °C.
pub fn from_humidity(air: Temperature, humidity: Humidity) -> Temperature {
    const A: f64 = 17.625;
    const B: f64 = 243.04;
    let air_c = celsius(air);
    let gamma = humidity.fraction().ln() + A * air_c / (B + air_c);
    of_celsius(B * gamma / (A - gamma))
}

/// Dew point from a thermometer whose bulb is in a wet cloth and waved through the air.
///
/// R. G. Allen and others, FAO Irrigation and Drainage Paper 56, 1998, eqs. 7, 11 and 15, with the
/// constant of a ventilated instrument (from memory). `None` where the cloth is frozen, warmer than
/// the air, or the air would hold no water at all.
pub fn from_wet_bulb(air: Temperature, wet: Temperature, elevation: Length) -> Option<Temperature> {
    /// Kilopascals for each degree, at one kilopascal of pressure.
    const VENTILATED: f64 = 0.000_662;
    let (air_c, wet_c) = (celsius(air), celsius(wet));
    if wet_c < 0.0 || air_c < wet_c {
        return None;
    }
    let height_m = elevation.get::<meter>();
    let pressure_kpa = 101.3 * (5.26 * ((293.0 - 0.0065 * height_m) / 293.0).ln()).exp();
    let vapour_kpa = saturation_kpa(wet_c) - VENTILATED * pressure_kpa * (air_c - wet_c);
    (vapour_kpa > 0.0).then(|| {
        let log = (vapour_kpa / 0.6108).ln();
        of_celsius(237.3 * log / (17.27 - log))
    })
}

/// Saturation vapour pressure, FAO-56 eq. 11, kPa.
fn saturation_kpa(temperature_c: f64) -> f64 {
    0.6108 * (17.27 * temperature_c / (temperature_c + 237.3)).exp()
}

/// Relative humidity, above 0 and up to 1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Humidity(f64);

impl Humidity {
    /// From a fraction of saturation: 0.01 to 1.
    pub fn from_fraction(fraction: f64) -> Option<Self> {
        (0.01..=1.0).contains(&fraction).then_some(Self(fraction))
    }

    /// As a fraction of saturation.
    pub(crate) fn fraction(self) -> f64 {
        self.0
    }
}

/// As "60 %", "60" or "0.6".
impl Readable for Humidity {
    fn allowed() -> String {
        "a humidity from 1 % to 100 %, such as 60 %".to_owned()
    }

    fn read(text: &str) -> Result<Self, crate::quantity::Unreadable> {
        let unreadable = |why: &str| crate::quantity::Unreadable {
            allowed: Self::allowed(),
            why: why.to_owned(),
        };
        let share = Share::read(text).map(Share::fraction).or_else(|_| {
            // A bare number above one is meant in percent.
            Share::read(&format!("{text} %")).map(Share::fraction)
        });
        let share = share.map_err(|_| unreadable("no humidity can be read from it"))?;
        Self::from_fraction(share).ok_or_else(|| unreadable("air is never that dry"))
    }
}

/// Coldest and warmest air taken, °C.
pub(crate) const AIR_C: (f64, f64) = (-40.0, 50.0);

/// What is said of them.
pub(crate) const AIR_LIMITS: &str = "an air temperature from -40 °F to 122 °F (-40 °C to 50 °C)";

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_dew_point_is_never_above_the_air(air_c in -40.0..50.0f64, fraction in 0.01..=1.0f64) {
            let humidity = Humidity::from_fraction(fraction).unwrap();
            let dew_c = celsius(from_humidity(of_celsius(air_c), humidity));
            prop_assert!(dew_c <= air_c + 1e-9);
        }

        #[test]
        fn a_drier_cloth_means_drier_air(air_c in 1.0..40.0f64, less in 0.1..5.0f64) {
            let sea = Length::new::<meter>(0.0);
            let wet = from_wet_bulb(of_celsius(air_c), of_celsius(air_c), sea).unwrap();
            prop_assert!((celsius(wet) - air_c).abs() < 1e-9);
            if let Some(drier) = from_wet_bulb(of_celsius(air_c), of_celsius(air_c - less), sea) {
                prop_assert!(drier < wet);
            }
        }
    }

    #[test]
    fn humidity_is_read_in_percent_or_as_a_part() {
        for text in ["60 %", "60", "0.6", "60%"] {
            assert_eq!(Humidity::read(text).ok().map(Humidity::fraction), Some(0.6), "{text}");
        }
        for text in ["0", "101", "-5 %", "wet"] {
            assert!(Humidity::read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_frozen_cloth_tells_nothing() {
        let sea = Length::new::<meter>(0.0);
        assert_eq!(from_wet_bulb(of_celsius(1.0), of_celsius(-0.5), sea), None);
        assert_eq!(from_wet_bulb(of_celsius(5.0), of_celsius(6.0), sea), None);
    }
}
