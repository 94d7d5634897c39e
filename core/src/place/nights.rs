//! The chance that no night from one day to another fell below what kills.
//!
//! ln P(alive | z) = 0.55 Σ ln(1 − Φ((u − 0.3 z)/√(1 − 0.09))), u = (limit − the night's usual low)
//! over its standard deviation, and P = ⅙ P(−√3) + ⅔ P(0) + ⅙ P(√3): a year is warm or cold as a whole
//! (correlation 0.3), and cold nights come in spells (power 0.55). Both figures were chosen on ten
//! daily series and 250 stations (derived); on 694 stations the middle date of the last 32 °F night is
//! then right in the mean and within 5 days (root mean square).

use crate::chance::normal::chance_below;

/// How much one night counts beside its neighbours.
const SPELLS: f64 = 0.55;
/// Correlation of a year's nights.
const YEAR: f64 = 0.3;

/// Steps of the table: from −4.5, below which no night counts, to 8, where none is lived through.
const FROM: f64 = -4.5;
const STEP: f64 = 0.125;
const STEPS: u16 = 101;

/// ln(1 − Φ(v)), read off on straight lines: a course asks for it a thousand times.
pub(crate) struct Nights {
    table: Vec<f64>,
}

impl Nights {
    pub(crate) fn new() -> Self {
        let at = |step: u16| chance_below(-(FROM + STEP * f64::from(step))).ln();
        Self { table: (0..STEPS).map(at).collect() }
    }

    fn ln_alive(&self, v: f64) -> f64 {
        let steps = ((v - FROM) / STEP).min(f64::from(STEPS - 2));
        if steps <= 0.0 {
            return 0.0;
        }
        let at = |step: usize| self.table.get(step).copied().unwrap_or_default();
        let step = steps as usize;
        at(step) + (steps - step as f64) * (at(step + 1) - at(step))
    }
}

/// The nights so far.
#[derive(Clone, Copy, Default)]
pub(crate) struct Alive {
    /// Logarithms of the chance in a cold, a usual and a warm year.
    ln: [f64; 3],
}

impl Alive {
    /// One more night, with its usual low and standard deviation, °C.
    pub(crate) fn night(&mut self, nights: &Nights, limit: f64, low: f64, sd: f64) {
        let u = (limit - low) / sd;
        // The coldest year's own edge of the table.
        if u < FROM - 0.5 {
            return;
        }
        let within = (1.0 - YEAR * YEAR).sqrt();
        for (ln, z) in self.ln.iter_mut().zip([-3f64.sqrt(), 0.0, 3f64.sqrt()]) {
            *ln += SPELLS * nights.ln_alive((u - YEAR * z) / within);
        }
    }

    /// The chance that all were lived through, 0 to 1.
    pub(crate) fn chance(&self) -> f64 {
        let [cold, usual, warm] = self.ln.map(f64::exp);
        (cold + 4.0 * usual + warm) / 6.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_near_the_distribution_it_was_made_from() {
        let nights = Nights::new();
        for tenth in -40..60 {
            let v = f64::from(tenth) / 10.0;
            let (read, exact) = (nights.ln_alive(v), chance_below(-v).ln());
            assert!((read - exact).abs() < 0.003, "{v}: {read} {exact}");
        }
    }

    #[test]
    fn nights_only_ever_take() {
        let nights = Nights::new();
        let mut alive = Alive::default();
        let mut before = alive.chance();
        assert_eq!(before, 1.0);
        for low in [10.0, 4.0, 1.0, -1.0, -5.0, 3.0] {
            alive.night(&nights, 0.0, low, 3.0);
            assert!(alive.chance() <= before);
            before = alive.chance();
        }
        assert!(before < 0.2);
    }
}
