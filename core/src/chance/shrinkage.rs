//! What a few readings teach about the next one, beside what was thought before them.
//!
//! The standard normal model with a normal prior for the mean, the scatter pooled with a prior
//! scatter worth some readings (A. Gelman and others, *Bayesian Data Analysis*, 3rd ed., 2013,
//! sections 2.5 and 2.6, from memory).

/// Mean and scatter of some readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// How many.
    pub count: u32,
    /// Their mean; 0 of none.
    pub mean: f64,
    /// Their standard deviation, with one degree of freedom less; 0 of fewer than two.
    pub sd: f64,
}

impl Sample {
    /// Of these readings.
    pub fn of(readings: &[f64]) -> Self {
        let count = readings.len() as f64;
        let mean = if readings.is_empty() { 0.0 } else { readings.iter().sum::<f64>() / count };
        let squares: f64 = readings.iter().map(|reading| (reading - mean).powi(2)).sum();
        let sd = if readings.len() < 2 { 0.0 } else { (squares / (count - 1.0)).sqrt() };
        Self { count: readings.len() as u32, mean, sd }
    }

    /// Degrees of freedom of its scatter; none of fewer than two readings.
    pub fn df(&self) -> u32 {
        self.count.saturating_sub(1)
    }

    /// Standard deviation of the error of a prediction of one more reading by the mean:
    /// s·√(1 + 1/n); t-distributed with [`Self::df`].
    pub fn sd_of_the_next(&self) -> f64 {
        self.sd * (1.0 + 1.0 / f64::from(self.count.max(1))).sqrt()
    }
}

/// What is thought before any reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// The mean.
    pub mean: f64,
    /// How sure that is, one standard deviation.
    pub mean_sd: f64,
    /// How single readings scatter, one standard deviation.
    pub scatter: f64,
    /// How many readings that is worth.
    pub worth: f64,
}

/// What is thought after the readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Learned {
    /// The mean.
    pub mean: f64,
    /// How sure that is, one standard deviation.
    pub mean_sd: f64,
    /// How single readings scatter, one standard deviation.
    pub scatter: f64,
    /// How much of the mean the readings made, 0 to 1.
    pub weight: f64,
}

impl Prior {
    /// What is thought after these readings.
    ///
    /// One reading that is as doubtful as what was thought is met half-way:
    /// ```
    /// use pegline_core::chance::shrinkage::{Prior, Sample};
    /// let thought = Prior { mean: 0.0, mean_sd: 2.0, scatter: 2.0, worth: 4.0 };
    /// let learned = thought.learn(&Sample::of(&[4.0]));
    /// assert_eq!((learned.mean, learned.weight), (2.0, 0.5));
    /// ```
    pub fn learn(&self, sample: &Sample) -> Learned {
        let n = f64::from(sample.count);
        let free = f64::from(sample.df());
        let variance = (self.worth * self.scatter.powi(2) + free * sample.sd.powi(2))
            / (self.worth + free).max(f64::MIN_POSITIVE);
        let told = n / variance.max(f64::MIN_POSITIVE);
        let thought = 1.0 / self.mean_sd.powi(2);
        let weight = told / (told + thought);
        Learned {
            mean: weight * sample.mean + (1.0 - weight) * self.mean,
            mean_sd: (told + thought).recip().sqrt(),
            scatter: variance.sqrt(),
            weight,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const PRIOR: Prior = Prior { mean: -4.0, mean_sd: 3.0, scatter: 2.0, worth: 4.0 };

    #[test]
    fn no_reading_leaves_the_prior() {
        let learned = PRIOR.learn(&Sample::of(&[]));
        assert_eq!((learned.mean, learned.scatter, learned.weight), (-4.0, 2.0, 0.0));
        assert!((learned.mean_sd - 3.0).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn the_mean_lies_between_what_was_thought_and_what_was_read(
            readings in prop::collection::vec(-20.0..20.0f64, 1..30),
        ) {
            let sample = Sample::of(&readings);
            let learned = PRIOR.learn(&sample);
            let (low, high) = (sample.mean.min(PRIOR.mean), sample.mean.max(PRIOR.mean));
            prop_assert!(low - 1e-9 <= learned.mean && learned.mean <= high + 1e-9);
            prop_assert!(learned.mean_sd < PRIOR.mean_sd);
        }

        #[test]
        fn the_order_of_readings_does_not_count(mut readings in prop::collection::vec(-20.0..20.0f64, 2..30)) {
            let first = Sample::of(&readings);
            readings.reverse();
            let second = Sample::of(&readings);
            prop_assert!((first.mean - second.mean).abs() < 1e-9 && (first.sd - second.sd).abs() < 1e-9);
        }
    }
}
