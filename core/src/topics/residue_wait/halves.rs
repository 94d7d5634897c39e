//! Two halves of a bed treated differently: which is ahead, by how much, and whether that is chance.

use super::{balance::RotAge, check_in::Look};

/// A difference this many standard deviations wide comes about by chance one time in ten.
const COULD_BE_CHANCE: f64 = 1.645;

/// Which of two halves is ahead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lead {
    /// Days by which the first half is ahead of the second; below zero it lags.
    pub days: f64,
    /// Standard deviation of the days.
    pub sd_days: f64,
    /// Whether a difference this small comes about by chance in more than one case in ten.
    pub could_be_chance: bool,
}

/// Compares the looks at two halves, whose ages are counted on one clock: that of the bed's warmth,
/// so that what damp and cover do shows as a difference in rate. `pace` is how many days at 15 °C a
/// day adds now. `None` unless both halves have a look that tells something.
///
/// Derived: the difference of two weighted means of ln kv is normal; the half ahead stood where the
/// other stands at the age of the last look when it was exp(difference) times younger.
pub fn lead(first: &[Look], second: &[Look], pace: f64) -> Option<Lead> {
    let (one, other) = (mean(first)?, mean(second)?);
    let difference = one.ln_kv - other.ln_kv;
    let sd = (one.sd.powi(2) + other.sd.powi(2)).sqrt();
    let age = one.last.days().max(other.last.days());
    let days_of_age = |age: f64| {
        if pace > 0.0 { age / pace } else { f64::INFINITY }
    };
    let days = days_of_age(age * (1.0 - (-difference.abs()).exp())).copysign(difference);
    // As many days for each unit of the difference as the lead itself has, so that the lead is as
    // many standard deviations wide as the difference is.
    let days_a_unit = if difference.abs() < 1e-9 { days_of_age(age) } else { days / difference };
    let sd_days = days_a_unit * sd;
    (days.is_finite() && sd_days.is_finite()).then_some(Lead {
        days,
        sd_days,
        could_be_chance: difference.abs() < COULD_BE_CHANCE * sd,
    })
}

/// What the looks at one half say together.
struct Mean {
    ln_kv: f64,
    sd: f64,
    last: RotAge,
}

fn mean(looks: &[Look]) -> Option<Mean> {
    let (mut sum, mut weights, mut last) = (0.0, 0.0, RotAge::default());
    for look in looks {
        let Some((y, sy)) = look.ln_rate() else {
            continue;
        };
        let weight = sy.powi(-2);
        sum += weight * y;
        weights += weight;
        if last < look.age {
            last = look.age;
        }
    }
    (0.0 < weights).then(|| Mean { ln_kv: sum / weights, sd: weights.sqrt().recip(), last })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::topics::residue_wait::check_in::Left;
    use proptest::prelude::*;

    fn look(days: f64, left: f64) -> Look {
        Look { age: RotAge::days_at_15_c(days), left: Left::new(left).unwrap() }
    }

    #[test]
    fn equal_halves_are_level_and_that_could_be_chance() {
        let looks = [look(14.0, 0.7), look(28.0, 0.5)];
        let lead = lead(&looks, &looks, 1.0).unwrap();
        assert_eq!(lead.days, 0.0);
        assert!(lead.could_be_chance);
    }

    #[test]
    fn one_close_look_each_could_be_chance_and_a_wide_gap_seen_often_is_not() {
        assert!(lead(&[look(21.0, 0.55)], &[look(21.0, 0.6)], 1.0).unwrap().could_be_chance);
        let fast = [look(14.0, 0.5), look(21.0, 0.35), look(28.0, 0.25)];
        let slow = [look(14.0, 0.9), look(21.0, 0.8), look(28.0, 0.75)];
        let lead = lead(&fast, &slow, 1.0).unwrap();
        assert!(!lead.could_be_chance);
        assert!(lead.days > 0.0);
    }

    #[test]
    fn a_half_nobody_looked_at_is_not_compared() {
        assert_eq!(lead(&[look(21.0, 0.5)], &[], 1.0), None);
        assert_eq!(lead(&[look(21.0, 0.5)], &[look(21.0, 1.0)], 1.0), None);
    }

    #[test]
    fn in_frozen_soil_days_ahead_mean_nothing() {
        assert_eq!(lead(&[look(21.0, 0.5)], &[look(21.0, 0.6)], 0.0), None);
    }

    proptest! {
        #[test]
        fn swapping_the_halves_turns_the_sign(
            a in 0.05..0.95, b in 0.05..0.95, days in 1.0..100.0, pace in 0.1..3.0,
        ) {
            let (one, other) = ([look(days, a)], [look(days, b)]);
            let (there, back) = (lead(&one, &other, pace).unwrap(), lead(&other, &one, pace).unwrap());
            prop_assert!((there.days + back.days).abs() < 1e-9 * there.days.abs().max(1.0));
            prop_assert_eq!(there.could_be_chance, back.could_be_chance);
        }
    }
}
