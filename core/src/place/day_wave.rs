//! A day's temperature as one sine wave through its lowest and its highest: the single sine of
//! G. L. Baskerville and P. Emin, *Ecology* 50:514-517, 1969 (from memory).
//!
//! It is written through the heat above one threshold, which gives the same as the usual six cases
//! (derived; the tests of what a crop's heat is made of compare it with a numerical integration).

use core::f64::consts::{FRAC_PI_2, PI};

/// The wave, from `low` to `high`, both in the same degrees as each threshold asked about.
pub(crate) struct DayWave {
    pub(crate) low: f64,
    pub(crate) high: f64,
}

impl DayWave {
    pub(crate) fn mean(&self) -> f64 {
        0.5 * (self.low + self.high)
    }

    fn half_range(&self) -> f64 {
        0.5 * (self.high - self.low)
    }

    /// Mean over the day of what the wave exceeds `threshold` by.
    pub(crate) fn heat_above(&self, threshold: f64) -> f64 {
        let over = self.mean() - threshold;
        if self.low >= threshold {
            return over;
        }
        if self.high <= threshold {
            return 0.0;
        }
        // OK to divide: low < threshold < high, so the half range is not nothing.
        let angle = (-over / self.half_range()).asin();
        (over * (FRAC_PI_2 - angle) + self.half_range() * angle.cos()) / PI
    }

    /// Share of the day that the wave spends above `threshold`.
    pub(crate) fn share_above(&self, threshold: f64) -> f64 {
        if self.low >= threshold {
            return 1.0;
        }
        if self.high <= threshold {
            return 0.0;
        }
        (FRAC_PI_2 - ((threshold - self.mean()) / self.half_range()).asin()) / PI
    }
}
