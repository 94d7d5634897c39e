//! The low at the grass from the afternoon before, as it was found for Canterbury in New Zealand.

use chrono::{Datelike, NaiveDate};

use crate::{
    place::air::{celsius, of_celsius},
    quantity::Temperature,
};

/// The low at the ground from air and dew point at three in the afternoon, for the southern winter
/// months; `None` in others.
///
/// Tg = (T + Td/2)/3 − c, °C, c = 8 in May, September and October, 9 from June to August: Smith,
/// 1973, as quoted. For clear, calm nights (low and middle cloud under a quarter, wind under 5 to 7
/// knots), and at the ground, not in the air.
pub fn grass_low(air: Temperature, dew_point: Temperature, day: NaiveDate) -> Option<Temperature> {
    let below_c = match day.month() {
        5 | 9 | 10 => 8.0,
        6..=8 => 9.0,
        _ => return None,
    };
    Some(of_celsius((celsius(air) + celsius(dew_point) / 2.0) / 3.0 - below_c))
}
