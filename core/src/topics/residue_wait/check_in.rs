//! What one look at the bed says about the rate.
//!
//! The share of the residue that can still be recognised falls as exp(-kv x age). Each look is
//! weighed against what was thought before, on the logarithm of kv, by the inverse squares of
//! their standard deviations (two normal distributions combined). The rate thought likely before
//! any look is derived from litterbags: J. D. Wilson, W. L. Hargrove, *SSSAJ* 50, 1986 and the
//! C:N model of this house; its spread is common practice.

use super::balance::{CarbonToNitrogen, Placement, RotAge};
use crate::quantity::{Unreadable, number::read_number};

/// Standard deviation of ln kv before anyone has looked: a factor of 1.8. Common practice.
const UNSEEN_SD: f64 = 0.6;

/// Error of a share judged by eye. Common practice.
const EYE: f64 = 0.12;

/// Looks at more or less than this tell nothing of the rate: ln(-ln F) runs away at both ends.
const TELLING: (f64, f64) = (0.03, 0.97);

/// A check-in moves the clock at most by these factors. Common practice.
const MOST_MOVED: (f64, f64) = (0.4, 2.5);

/// The rate at which residue becomes unrecognisable, and how well it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VisibleRate {
    ln_kv: f64,
    sd: f64,
    unseen_ln_kv: f64,
    looks: u32,
}

impl VisibleRate {
    /// The rate before anyone has looked: 0.3/R on the surface, 0.45/R dug in, per day at 15 °C.
    ///
    /// Derived: half the surface decay rate 0.6/R of the C:N model, which brings it in line with
    /// litterbags; dug in 1.5 times that, between the ratios 2.0 (4 weeks) and 1.15 (16 weeks) of
    /// Wilson and Hargrove 1986.
    pub fn unseen(ratio: CarbonToNitrogen, placement: Placement) -> Self {
        let of_ratio = match placement {
            Placement::OnTop => 0.30,
            Placement::WorkedIn => 0.45,
        };
        let ln_kv = (of_ratio / ratio.get()).ln();
        Self { ln_kv, sd: UNSEEN_SD, unseen_ln_kv: ln_kv, looks: 0 }
    }

    /// The rate after a look at `age` (on the clock as it ran before any look) that found `left`.
    /// A look that tells nothing changes nothing.
    #[must_use]
    pub fn after(self, look: Look) -> Self {
        let Some((y, sy)) = look.ln_rate() else {
            return self;
        };
        let (weight, look_weight) = (self.sd.powi(-2), sy.powi(-2));
        Self {
            ln_kv: (self.ln_kv * weight + y * look_weight) / (weight + look_weight),
            sd: (weight + look_weight).sqrt().recip(),
            looks: self.looks + 1,
            ..self
        }
    }

    /// kv, per day at 15 °C.
    pub fn per_day(self) -> f64 {
        self.ln_kv.exp()
    }

    /// Standard deviation of ln kv.
    pub(crate) fn log_sd(self) -> f64 {
        self.sd
    }

    /// How many looks told something.
    pub fn looks(self) -> u32 {
        self.looks
    }

    /// How much faster than thought the clock runs, from 0.4 to 2.5.
    pub(crate) fn against_unseen(self) -> f64 {
        (self.ln_kv - self.unseen_ln_kv).exp().clamp(MOST_MOVED.0, MOST_MOVED.1)
    }

    /// How much is still recognisable at an age on the clock as it ran before any look.
    pub fn left_at(self, age: RotAge) -> Left {
        Left((-self.per_day() * age.days()).exp())
    }

    /// The age, on the clock as it ran before any look, at which so much is left.
    pub fn age_at(self, Left(left): Left) -> RotAge {
        RotAge::days_at_15_c(-left.ln() / self.per_day())
    }

    /// The age at which so much is left, on a clock that the looks have already moved.
    pub(crate) fn unseen_age_at(self, left: f64) -> RotAge {
        RotAge::days_at_15_c(-left.ln() / self.unseen_ln_kv.exp())
    }
}

/// One look: how far the clock had run, and how much could still be recognised.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// The age on the clock as it ran before any look.
    pub age: RotAge,
    /// Share of the residue that could still be recognised, 0 to 1.
    pub left: Left,
}

impl Look {
    /// ln kv as this look alone gives it, and its standard deviation; `None` where it tells nothing.
    pub fn ln_rate(self) -> Option<(f64, f64)> {
        let left = self.left.share();
        if self.age <= RotAge::default() || left <= TELLING.0 || TELLING.1 <= left {
            return None;
        }
        let decayed = -left.ln();
        Some(((decayed / self.age.days()).ln(), EYE / (left * decayed)))
    }
}

/// How much can still be recognised: a share, or one of five steps as the eye judges them.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Left(f64);

impl Left {
    /// The five steps: their word, what is seen, and the share they stand for.
    pub const STEPS: [(&'static str, &'static str, f64); 5] = [
        ("all", "green, shape intact", 1.0),
        ("most", "limp and brown, every piece still plain to see", 0.8),
        ("half", "half of it crumbles, half keeps its shape", 0.5),
        ("some", "only stems and midribs keep their shape", 0.25),
        ("traces", "dark crumbs, a few stalks", 0.08),
    ];

    /// The share if it is from 0 to 1.
    pub fn new(share: f64) -> Option<Self> {
        (0.0..=1.0).contains(&share).then_some(Self(share))
    }

    /// The word of the step nearest to it: "half".
    pub fn step(self) -> &'static str {
        let off = |step: &(&str, &str, f64)| (step.2 - self.0).abs();
        let nearest = Self::STEPS.iter().min_by(|one, other| off(one).total_cmp(&off(other)));
        nearest.map_or("", |step| step.0)
    }

    /// Share of what was laid, 0 to 1.
    pub fn share(self) -> f64 {
        self.0
    }
}

impl crate::given::Readable for Left {
    fn allowed() -> String {
        "all, most, half, some or traces, or a share from 0 to 1".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let word = text.to_ascii_lowercase();
        if let Some((_, _, share)) = Self::STEPS.iter().find(|(step, ..)| *step == word) {
            return Ok(Self(*share));
        }
        let (number, whole) = match text.strip_suffix('%') {
            Some(percent) => (percent.trim(), 100.0),
            None => (text, 1.0),
        };
        Self::new(read_number(number)? / whole).ok_or_else(|| Unreadable {
            allowed: Self::allowed(),
            why: "that is outside the whole".to_owned(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::given::Readable;
    use proptest::prelude::*;

    fn look(days: f64, left: f64) -> Look {
        Look { age: RotAge::days_at_15_c(days), left: Left::new(left).unwrap() }
    }

    fn unseen(ratio: f64) -> VisibleRate {
        VisibleRate::unseen(CarbonToNitrogen::new(ratio).unwrap(), Placement::OnTop)
    }

    #[test]
    fn a_look_on_the_first_day_or_at_the_ends_tells_nothing() {
        for nothing in [look(0.0, 0.5), look(20.0, 1.0), look(20.0, 0.0), look(20.0, 0.98)] {
            assert_eq!(unseen(20.0).after(nothing), unseen(20.0));
        }
    }

    #[test]
    fn the_order_of_looks_does_not_matter() {
        let (a, b) = (look(10.0, 0.8), look(30.0, 0.4));
        let (one, other) = (unseen(20.0).after(a).after(b), unseen(20.0).after(b).after(a));
        assert!((one.per_day() - other.per_day()).abs() < 1e-12);
        assert!((one.log_sd() - other.log_sd()).abs() < 1e-12);
    }

    #[test]
    fn the_clock_is_moved_no_more_than_is_reasonable() {
        let mut rate = unseen(20.0);
        for _ in 0..40 {
            rate = rate.after(look(60.0, 0.95));
        }
        assert_eq!(rate.against_unseen(), 0.4);
    }

    #[test]
    fn steps_and_shares_are_read() {
        assert_eq!(Left::read("Half").ok(), Left::new(0.5));
        assert_eq!(Left::read("0.3").ok(), Left::new(0.3));
        assert!(Left::read("1.4").is_err());
    }

    proptest! {
        #[test]
        fn a_look_never_raises_the_spread(
            days in 0.0..200.0, left in 0.0..=1.0, more in 0.0..200.0, then in 0.0..=1.0,
        ) {
            let once = unseen(20.0).after(look(days, left));
            prop_assert!(once.log_sd() <= unseen(20.0).log_sd());
            prop_assert!(once.after(look(more, then)).log_sd() <= once.log_sd());
        }

        #[test]
        fn the_rate_moves_toward_what_was_seen(days in 1.0..200.0, left in 0.05..0.95) {
            let before = unseen(20.0);
            let seen = -f64::ln(left) / days;
            let after = before.after(look(days, left)).per_day();
            let (low, high) = (before.per_day().min(seen), before.per_day().max(seen));
            prop_assert!(low - 1e-12 <= after && after <= high + 1e-12);
        }
    }
}
