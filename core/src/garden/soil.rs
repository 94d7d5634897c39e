//! The soil readings that the record holds of a bed.

use super::Bed;
use crate::{
    place::{known_soil::usual_depth, readings::Reading},
    quantity::{Length, Quantity, Temperature},
};

impl Bed {
    /// Its soil readings; what can't be read is passed over, for it was shown where it was written.
    #[must_use]
    pub fn soil_readings(&self) -> Vec<Reading> {
        let readings = self.readings.iter().filter_map(|reading| {
            let temperature =
                <Temperature as Quantity>::read(reading.what.soil.as_deref()?).ok()?;
            let depth = reading.what.depth.as_deref().map(<Length as Quantity>::read);
            Some(Reading {
                date: reading.when.date(),
                time: Some(reading.when.time()),
                depth: depth.and_then(Result::ok).unwrap_or_else(usual_depth),
                temperature,
            })
        });
        readings.collect()
    }
}
