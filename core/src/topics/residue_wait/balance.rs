//! Where the carbon and nitrogen of plant residue go while it rots.
//!
//! Model: B. Nicolardot, S. Recous, B. Mary, "Simulation of C and N mineralisation during crop
//! residue decomposition: A simple dynamic model based on the C:N ratio of the residues",
//! *Plant and Soil* 228, 2001, 83-103, as refitted by E. Justes, B. Mary, B. Nicolardot,
//! *Plant and Soil* 325, 2009, 171-185 (stated error on net nitrogen 3.3 mg per g of carbon added).
//! Parameters: STICS v9.1 general parameter file. The form of the equations is from memory; it
//! agrees with that file's parameter names and with the measurements in the published checks.
//!
//! Valid for fresh plant residue of C:N 8 to 100 in small pieces with soil nitrogen to draw on; not
//! for compost, manure or wood. It ignores how a pile keeps itself warm.

use crate::given::words;

/// C:N of the residues that the model was made for; ratios outside are drawn to the nearer end.
const FITTED: (f64, f64) = (8.0, 100.0);

/// Carbon to nitrogen ratio of the humus formed. Source: STICS v9.1 parameter file.
const HUMUS_RATIO: f64 = 9.52;

/// Most nitrogen that a lush residue sets free, g per g of carbon added: the model runs past the
/// measured maximum of 0.038 (Justes et al. 2009) below C:N 12.
const MOST_SET_FREE: f64 = 0.040;

/// Below this C:N the cap [`MOST_SET_FREE`] holds.
const LUSH: f64 = 12.0;

/// Longest rotting looked at, in days at 15 °C, unless a shorter one is set: about two warm years.
const LONGEST: f64 = 1000.0;

words! {
    /// Where the residue lies.
    pub enum Placement {
        /// Left on the surface.
        OnTop = "on-top" => "on top",
        /// Dug into the soil.
        WorkedIn = "worked-in" => "dug in",
    }
}

/// Carbon to nitrogen ratio by mass, above zero.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct CarbonToNitrogen(f64);

impl CarbonToNitrogen {
    /// The ratio if it is a finite number above zero.
    pub fn new(ratio: f64) -> Option<Self> {
        (ratio.is_finite() && 0.0 < ratio).then_some(Self(ratio))
    }

    /// The ratio of two amounts; `None` without nitrogen.
    pub fn of(carbon: f64, nitrogen: f64) -> Option<Self> {
        Self::new(carbon / nitrogen)
    }

    /// Grams of carbon to one of nitrogen.
    pub fn get(self) -> f64 {
        self.0
    }
}

/// How far something has rotted, counted in days at 15 °C in damp soil; never below zero.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct RotAge(f64);

impl RotAge {
    /// The age of that many days at 15 °C; below zero and not a number count as nothing.
    pub fn days_at_15_c(days: f64) -> Self {
        Self(if days > 0.0 { days } else { 0.0 })
    }

    /// Days at 15 °C.
    pub fn days(self) -> f64 {
        self.0
    }
}

/// Parameters of one placement, named as in the STICS v9.1 parameter file's description.
struct Parameters {
    /// Decay rate where nitrogen is no matter, per day at 15 °C.
    a: f64,
    /// Gain of the decay rate with nitrogen content, C:N per day at 15 °C.
    b: f64,
    /// C:N of the microbes on a residue without nitrogen.
    wa: f64,
    /// Change of the microbes' C:N with nitrogen content.
    wb: f64,
    /// Least C:N of the microbes.
    wc: f64,
    /// Most that is lost to the air of dying microbes, share.
    ha: f64,
    /// C:N at which half of that is lost.
    hb: f64,
    /// Death rate of the microbes, per day at 15 °C.
    l: f64,
    /// Share of decayed carbon built into microbes.
    y: f64,
}

const WORKED_IN: Parameters = Parameters {
    a: 0.10,
    b: 0.76,
    wa: 15.35,
    wb: -76.0,
    wc: 7.8,
    ha: 0.73,
    hb: 10.2,
    l: 0.010,
    y: 0.62,
};

const ON_TOP: Parameters = Parameters {
    a: 0.0,
    b: 0.60,
    wa: 30.1,
    wb: -275.0,
    wc: 6.0,
    ha: 0.91,
    hb: 16.2,
    l: 0.012,
    y: 0.62,
};

/// One residue in one place: all that decides its course.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    ratio: f64,
    capped: bool,
    /// Decay rate of the residue, per day at 15 °C.
    pub decay: f64,
    /// C:N of the microbes that grow on it.
    pub microbe_ratio: f64,
    /// Share of dying microbes that becomes humus.
    pub humus_share: f64,
    death: f64,
    yield_: f64,
    longest: f64,
}

/// Where one gram of residue carbon is, and what it has done to the soil's nitrogen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fate {
    /// Share of the carbon still in the residue.
    pub residue: f64,
    /// Share in living microbes.
    pub microbes: f64,
    /// Share in humus.
    pub humus: f64,
    /// Share breathed out as carbon dioxide.
    pub respired: f64,
    /// Nitrogen set free, g per g of carbon laid; below zero it is held.
    pub nitrogen: f64,
}

impl Balance {
    /// The course of a residue of that C:N in that place.
    pub fn new(ratio: CarbonToNitrogen, placement: Placement) -> Self {
        let p = match placement {
            Placement::WorkedIn => &WORKED_IN,
            Placement::OnTop => &ON_TOP,
        };
        let ratio = ratio.get().clamp(FITTED.0, FITTED.1);
        Self {
            ratio,
            capped: ratio < LUSH,
            decay: p.a + p.b / ratio,
            microbe_ratio: (p.wa + p.wb / ratio).max(p.wc),
            humus_share: 1.0 - p.ha * ratio / (p.hb + ratio),
            death: p.l,
            yield_: p.y,
            longest: LONGEST,
        }
    }

    /// The same course followed no further than an age: what comes later is no concern of the crop.
    #[must_use]
    pub fn followed_to(self, age: RotAge) -> Self {
        Self { longest: age.days().min(LONGEST), ..self }
    }

    /// The state at an age.
    pub fn at(&self, age: RotAge) -> Fate {
        let t = age.days();
        let residue = (-self.decay * t).exp();
        // Y k (exp(-l t) - exp(-k t)) / (k - l), written so that k = l is no special case.
        let microbes = self.yield_
            * self.decay
            * t
            * (-self.death * t).exp()
            * mean_decay((self.decay - self.death) * t);
        let humus = self.humus_share * (self.yield_ * (1.0 - residue) - microbes);
        let nitrogen =
            (1.0 - residue) / self.ratio - microbes / self.microbe_ratio - humus / HUMUS_RATIO;
        Fate {
            residue,
            microbes,
            humus,
            respired: 1.0 - residue - microbes - humus,
            nitrogen: if self.capped { nitrogen.min(MOST_SET_FREE) } else { nitrogen },
        }
    }

    /// The age at which most nitrogen is held, and how much then: g per g of carbon, zero or below.
    pub fn low_point(&self) -> (RotAge, f64) {
        // The net nitrogen is a constant and two exponentials, so it turns at most once: it either
        // falls to one low point or starts by rising.
        let (mut from, mut to) = (0.0, self.longest);
        for _ in 0..100 {
            let third = (to - from) / 3.0;
            if self.nitrogen(from + third) <= self.nitrogen(to - third) {
                to -= third;
            } else {
                from += third;
            }
        }
        let lowest = self.nitrogen(from);
        if lowest < 0.0 { (RotAge(from), lowest) } else { (RotAge(0.0), 0.0) }
    }

    /// The age at which as much has been given back as was held; zero if nothing ever is held,
    /// `None` if that takes longer than it is followed.
    pub fn back_at(&self) -> Option<RotAge> {
        self.owes_less_than(0.0)
    }

    /// Nitrogen still to be held by the worst moment to come, g per g of carbon laid, zero or above.
    pub(crate) fn debt_from(&self, age: RotAge) -> f64 {
        let (low, lowest) = self.low_point();
        if age <= low { -lowest } else { (-self.nitrogen(age.days())).max(0.0) }
    }

    /// The first age from which the debt stays at or below `debt` (g per g of carbon laid).
    pub(crate) fn owes_less_than(&self, debt: f64) -> Option<RotAge> {
        let (low, lowest) = self.low_point();
        if -lowest <= debt {
            return Some(RotAge(0.0));
        }
        if self.nitrogen(self.longest) < -debt {
            return None;
        }
        // After its low point the net nitrogen only rises.
        let (mut from, mut to) = (low.days(), self.longest);
        for _ in 0..60 {
            let middle = f64::midpoint(from, to);
            if self.nitrogen(middle) < -debt { from = middle } else { to = middle }
        }
        Some(RotAge(to))
    }

    fn nitrogen(&self, days_at_15_c: f64) -> f64 {
        self.at(RotAge(days_at_15_c)).nitrogen
    }
}

/// The C:N at which residue of a placement neither holds nor frees nitrogen when it starts to rot.
///
/// Derived: the start of the net nitrogen is zero where the C:N of the residue is that of its
/// microbes divided by the share of carbon built into them.
pub fn starting_thresholds(placement: Placement) -> [Option<CarbonToNitrogen>; 2] {
    let p = match placement {
        Placement::WorkedIn => &WORKED_IN,
        Placement::OnTop => &ON_TOP,
    };
    // Y R^2 - wa R - wb = 0
    let under_root = p.wa * p.wa + 4.0 * p.y * p.wb;
    if under_root < 0.0 {
        return [None, None];
    }
    [-1.0, 1.0].map(|side| {
        CarbonToNitrogen::new((p.wa + side * under_root.sqrt()) / (2.0 * p.y))
            .filter(|ratio| p.wc <= p.wa + p.wb / ratio.get())
    })
}

/// (1 - exp(-x)) / x, the mean of exp over 0 to -x; 1 at 0.
fn mean_decay(x: f64) -> f64 {
    // Divided by what the exponential was rounded to: good to the last digits however small x is
    // (N. J. Higham, *Accuracy and Stability of Numerical Algorithms*, 2002, 1.14.1).
    let left = (-x).exp();
    match left.ln() {
        0.0 => 1.0,
        f64::NEG_INFINITY => x.recip(),
        rounded => (left - 1.0) / rounded,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn balance(ratio: f64, placement: Placement) -> Balance {
        Balance::new(CarbonToNitrogen::new(ratio).unwrap(), placement)
    }

    fn placements() -> impl Strategy<Value = Placement> {
        prop_oneof![Just(Placement::OnTop), Just(Placement::WorkedIn)]
    }

    #[test]
    fn equal_rates_of_decay_and_death_are_no_hole() {
        // On the surface C:N 50 decays at 0.012 a day, as fast as its microbes die.
        let at = balance(50.0, Placement::OnTop).at(RotAge::days_at_15_c(60.0));
        let beside = balance(50.001, Placement::OnTop).at(RotAge::days_at_15_c(60.0));
        assert!((at.nitrogen - beside.nitrogen).abs() < 1e-6);
        assert!((at.microbes - beside.microbes).abs() < 1e-4);
    }

    #[test]
    fn a_ratio_is_above_zero() {
        assert!(CarbonToNitrogen::of(1.0, 0.0).is_none());
        assert!(CarbonToNitrogen::new(f64::NAN).is_none());
        assert!(CarbonToNitrogen::new(-3.0).is_none());
    }

    #[test]
    fn the_debt_stays_at_its_full_until_the_low_point() {
        let straw = balance(80.0, Placement::WorkedIn);
        let (low, lowest) = straw.low_point();
        assert!((straw.debt_from(RotAge::days_at_15_c(1.0)) + lowest).abs() < 1e-9);
        assert!(straw.debt_from(RotAge::days_at_15_c(low.days() + 60.0)) < -lowest);
    }

    #[test]
    fn soft_greens_owe_nothing_from_the_first_day() {
        assert_eq!(balance(11.0, Placement::WorkedIn).low_point(), (RotAge(0.0), 0.0));
        assert_eq!(balance(11.0, Placement::WorkedIn).back_at(), Some(RotAge(0.0)));
    }

    proptest! {
        #[test]
        fn carbon_adds_up_and_no_part_is_negative(
            ratio in 1.0..600.0, days in 0.0..2000.0, placement in placements(),
        ) {
            let fate = balance(ratio, placement).at(RotAge::days_at_15_c(days));
            let sum = fate.residue + fate.microbes + fate.humus + fate.respired;
            prop_assert!((sum - 1.0).abs() < 1e-12);
            for part in [fate.residue, fate.microbes, fate.humus, fate.respired] {
                prop_assert!((-1e-12..=1.0 + 1e-12).contains(&part), "{part}");
            }
        }

        #[test]
        fn the_residue_and_the_whole_mass_never_grow(
            ratio in 1.0..600.0, days in 0.0..1000.0, more in 0.0..200.0, placement in placements(),
        ) {
            let balance = balance(ratio, placement);
            let (now, later) =
                (balance.at(RotAge::days_at_15_c(days)), balance.at(RotAge::days_at_15_c(days + more)));
            prop_assert!(later.residue <= now.residue);
            prop_assert!(now.respired <= later.respired + 1e-12);
        }

        #[test]
        fn nothing_lies_below_the_low_point(
            ratio in 8.0..100.0, days in 0.0..1000.0, placement in placements(),
        ) {
            let balance = balance(ratio, placement);
            let (_, lowest) = balance.low_point();
            prop_assert!(lowest <= balance.at(RotAge::days_at_15_c(days)).nitrogen + 1e-9);
        }

        #[test]
        fn the_debt_never_rises(
            ratio in 8.0..100.0, days in 0.0..800.0, more in 0.0..200.0, placement in placements(),
        ) {
            let balance = balance(ratio, placement);
            let later = balance.debt_from(RotAge::days_at_15_c(days + more));
            prop_assert!(later <= balance.debt_from(RotAge::days_at_15_c(days)) + 1e-9);
        }

        #[test]
        fn the_debt_is_small_from_the_age_given(
            ratio in 8.0..100.0, debt in 0.0..0.03, placement in placements(),
        ) {
            let balance = balance(ratio, placement);
            if let Some(age) = balance.owes_less_than(debt) {
                prop_assert!(balance.debt_from(age) <= debt + 1e-9);
            }
        }
    }
}
