//! How fast residue rots: warmth, damp and touch with the soil turned into days at 15 °C.
//!
//! One day adds (warmth) x (damp) x (touch), each 1 for damp material in the soil at 15 °C.
//! Between 10 and 20 °C the published warmth functions agree within about a fifth; below 8 °C they
//! differ several-fold, so the slow and the fast clock follow whichever of them is slowest and
//! fastest there.

use chrono::{Days, NaiveDate};
use uom::si::{
    areal_mass_density::kilogram_per_square_meter, f64::ArealMassDensity,
    temperature_interval::kelvin as kelvins, thermodynamic_temperature::degree_celsius,
};

use super::balance::RotAge;
use crate::{
    given::words,
    quantity::{Temperature, TemperatureInterval},
    time::Range,
};

/// Field rates against the sieved moist soil that the model was fitted in: the slowest and the
/// fastest usually met. Common practice.
const FIELD: (f64, f64) = (0.6, 1.6);

/// Soil below this does not count toward the fading of seedling rots. Common practice.
const MILD_C: f64 = 10.0;

/// Temperature factor of the STICS residue module: 12 / (1 + 11 exp(-0.103 (T - 15))), 0 at and
/// below freezing; 1 at 15 °C.
///
/// Parameters: STICS v9.1 general parameter file; the form is from memory.
pub fn stics(temperature: Temperature) -> f64 {
    let c = temperature.get::<degree_celsius>();
    if c <= 0.0 { 0.0 } else { 12.0 / (1.0 + 11.0 * (-0.103 * (c - 15.0)).exp()) }
}

/// Rate modifier of RothC-26.3: 47.91 / (1 + exp(106.06 / (T + 18.27))), 0 below -5 °C; 1 at 9.29 °C.
///
/// Source: K. Coleman, D. S. Jenkinson, *RothC-26.3*, 1999.
pub fn rothc(temperature: Temperature) -> f64 {
    let c = temperature.get::<degree_celsius>();
    if c < -5.0 { 0.0 } else { 47.91 / (1.0 + (106.06 / (c + 18.27)).exp()) }
}

/// Temperature factor of the CERES soil organic matter routine in DSSAT: 0 at 5 °C, 1 at 35 °C.
pub fn ceres(temperature: Temperature) -> f64 {
    ((temperature.get::<degree_celsius>() - 5.0) / 30.0).clamp(0.0, 1.0)
}

/// The rule that activity doubles with each 10 °C (University of Minnesota Extension); 1 at 15 °C.
pub fn doubling(temperature: Temperature) -> f64 {
    // Not `exp2`, whose table weighs 3 kB on the phone beside that of `exp`.
    ((temperature.get::<degree_celsius>() - 15.0) / 10.0 * std::f64::consts::LN_2).exp()
}

words! {
    /// How wet the residue is, as hand and eye find it.
    pub enum Moisture {
        /// Crackling dry.
        Dry = "dry" => "crackling dry",
        /// Dry on top, damp under.
        Part = "part" => "dry on top, damp under",
        /// Damp like a wrung sponge.
        Moist = "moist" => "damp like a wrung sponge",
        /// Soggy or sour.
        Soggy = "soggy" => "soggy or sour",
    }
}

impl Moisture {
    /// Share of the full rate. Derived, coarse, from the moisture functions of STICS, CERES and APSIM.
    pub fn factor(self) -> f64 {
        match self {
            Self::Dry => 0.1,
            Self::Part => 0.5,
            Self::Moist => 1.0,
            Self::Soggy => 0.6,
        }
    }

    /// Share of the rate in an ordinary field, for waits that were seen in fields: they hold in any
    /// soil that is at least partly damp.
    pub(crate) fn against_field(self) -> f64 {
        (self.factor() / Self::Part.factor()).min(1.0)
    }
}

/// Share of the rate that a layer on the surface keeps, for only its underside touches soil:
/// 0.2 kg of dry matter on a square metre touch whole, more touch in proportion.
///
/// Source: APSIM surface organic matter module (2000 kg/ha).
pub fn contact(dry_load: ArealMassDensity) -> f64 {
    const TOUCHES_WHOLE: f64 = 0.2;
    (TOUCHES_WHOLE / dry_load.get::<kilogram_per_square_meter>()).min(1.0)
}

/// Soil temperature of a day and its standard deviation.
pub type Soil<'a> = dyn Fn(NaiveDate) -> (Temperature, TemperatureInterval) + 'a;

/// How sure the rate is, as the factors between the likely rate and its slow and fast ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    slow: f64,
    fast: f64,
}

impl Spread {
    /// Before anyone has looked.
    pub const UNSEEN: Self = Self { slow: FIELD.0, fast: FIELD.1 };

    /// No spread beside that of the temperatures, for waits whose own range is published.
    pub const NONE: Self = Self { slow: 1.0, fast: 1.0 };

    /// With the standard deviation of the logarithm of the rate; never wider than [`Self::UNSEEN`].
    pub(crate) fn of_log_sd(sd: f64) -> Self {
        Self { slow: (-sd).exp().max(FIELD.0), fast: sd.exp().min(FIELD.1) }
    }

    /// The fast end over the slow end.
    pub fn width(self) -> f64 {
        self.fast / self.slow
    }
}

/// One of the three clocks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Speed {
    /// The fastest that is reasonable: gives the early date.
    Fast,
    /// The likely one.
    Likely,
    /// The slowest that is reasonable: gives the late date.
    Slow,
}

impl Speed {
    /// All three, in the order of the dates that they give.
    pub const ALL: [Self; 3] = [Self::Fast, Self::Likely, Self::Slow];
}

/// What has passed by the start of a day, on the three clocks.
#[derive(Clone, Copy, Debug, Default)]
struct Passed {
    /// Days at 15 °C.
    age: [f64; 3],
    /// Days whose soil was at least 10 °C.
    mild: [u32; 3],
}

/// The clocks of one residue from the day it was laid.
#[derive(Clone, Debug)]
pub struct Clock {
    laid: NaiveDate,
    passed: Vec<Passed>,
}

impl Clock {
    /// Runs the clocks for `days` days. `share` multiplies the warmth of a day: damp, touch and what
    /// check-ins have shown.
    pub fn run(
        laid: NaiveDate,
        days: u32,
        soil: &Soil<'_>,
        share: &dyn Fn(NaiveDate) -> f64,
        spread: Spread,
    ) -> Self {
        let mut passed = Vec::with_capacity(days as usize + 1);
        let mut so_far = Passed::default();
        passed.push(so_far);
        for date in laid.iter_days().take(days as usize) {
            let (temperature, sd) = soil(date);
            let sd = TemperatureInterval::new::<kelvins>(sd.get::<kelvins>().abs());
            let added = [
                fast(temperature + sd, spread),
                stics(temperature),
                slow(temperature - sd, spread),
            ];
            let share = share(date);
            for (age, warmth) in so_far.age.iter_mut().zip(added) {
                *age += warmth * share;
            }
            for (mild, soil) in
                so_far.mild.iter_mut().zip([temperature + sd, temperature, temperature - sd])
            {
                *mild += u32::from(MILD_C <= soil.get::<degree_celsius>());
            }
            passed.push(so_far);
        }
        Self { laid, passed }
    }

    /// The day on which the clocks start.
    pub fn laid(&self) -> NaiveDate {
        self.laid
    }

    /// The age by the start of a day; that of the last day run for any day after it.
    pub fn age_on(&self, date: NaiveDate, speed: Speed) -> RotAge {
        let day = usize::try_from((date - self.laid).num_days()).unwrap_or(0);
        let passed = self.passed.get(day).or(self.passed.last()).copied().unwrap_or_default();
        RotAge::days_at_15_c(pick(passed.age, speed))
    }

    /// Days at 15 °C that the day before this one added, on the likely clock; the first day's on it.
    pub(crate) fn pace_on(&self, date: NaiveDate) -> f64 {
        let (next, on) = match date.pred_opt() {
            Some(before) if self.laid < date => (date, before),
            _ => (date.succ_opt().unwrap_or(date), date),
        };
        self.age_on(next, Speed::Likely).days() - self.age_on(on, Speed::Likely).days()
    }

    /// The first day by whose start that age is reached; `None` if not within the days run.
    pub fn reaches(&self, age: RotAge, speed: Speed) -> Option<NaiveDate> {
        let day = self.passed.iter().position(|passed| age.days() <= pick(passed.age, speed))?;
        self.laid.checked_add_days(Days::new(day as u64))
    }

    /// The range of days by which the ages (early, likely, late) are reached.
    pub fn range(&self, early: RotAge, likely: RotAge, late: RotAge) -> Range {
        Range {
            early: self.reaches(early, Speed::Fast),
            likely: self.reaches(likely, Speed::Likely),
            late: self.reaches(late, Speed::Slow),
        }
    }

    /// The range of days by which so many mild days have passed.
    pub fn mild_range(&self, early: u32, likely: u32, late: u32) -> Range {
        let when = |days: u32, speed| {
            let day = self.passed.iter().position(|passed| days <= pick(passed.mild, speed))?;
            self.laid.checked_add_days(Days::new(day as u64))
        };
        Range {
            early: when(early, Speed::Fast),
            likely: when(likely, Speed::Likely),
            late: when(late, Speed::Slow),
        }
    }
}

/// The fastest reasonable warmth of a day.
fn fast(temperature: Temperature, spread: Spread) -> f64 {
    let likely = stics(temperature);
    if likely == 0.0 { 0.0 } else { (spread.fast * likely).max(doubling(temperature)) }
}

/// The slowest reasonable warmth of a day, all functions brought to 1 at 15 °C.
fn slow(temperature: Temperature, spread: Spread) -> f64 {
    let at_15 = Temperature::new::<degree_celsius>(15.0);
    (spread.slow * stics(temperature))
        .min(rothc(temperature) / rothc(at_15))
        .min(ceres(temperature) / ceres(at_15))
}

fn pick<T>([fast, likely, slow]: [T; 3], speed: Speed) -> T {
    match speed {
        Speed::Fast => fast,
        Speed::Likely => likely,
        Speed::Slow => slow,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn celsius(c: f64) -> Temperature {
        Temperature::new::<degree_celsius>(c)
    }

    fn laid() -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 5, 1).unwrap()
    }

    fn steady(c: f64, sd: f64, spread: Spread) -> Clock {
        let soil = move |_| (celsius(c), TemperatureInterval::new::<kelvins>(sd));
        Clock::run(laid(), 400, &soil, &|_| 1.0, spread)
    }

    #[test]
    fn a_week_at_15_c_is_seven_days_at_15_c() {
        let clock = steady(15.0, 0.0, Spread::UNSEEN);
        let week = laid() + Days::new(7);
        assert!((clock.age_on(week, Speed::Likely).days() - 7.0).abs() < 1e-12);
        assert_eq!(clock.reaches(RotAge::days_at_15_c(6.5), Speed::Likely), Some(week));
    }

    #[test]
    fn nothing_to_wait_for_is_the_day_it_was_laid() {
        let nothing = RotAge::default();
        let range = steady(2.0, 0.0, Spread::UNSEEN).range(nothing, nothing, nothing);
        assert_eq!(range.early, Some(laid()));
        assert_eq!(range.late, Some(laid()));
    }

    #[test]
    fn the_slow_clock_stands_in_soil_of_4_c() {
        let clock = steady(4.0, 0.0, Spread::UNSEEN);
        let age = RotAge::days_at_15_c(14.0);
        assert!(clock.reaches(age, Speed::Fast).is_some());
        assert_eq!(clock.reaches(age, Speed::Slow), None);
    }

    #[test]
    fn rot_fades_only_in_mild_soil() {
        assert_eq!(
            steady(8.0, 1.0, Spread::UNSEEN).mild_range(14, 21, 35),
            Range { early: None, likely: None, late: None }
        );
        let mild = steady(12.0, 1.0, Spread::UNSEEN).mild_range(14, 21, 35);
        assert_eq!(mild.likely, Some(laid() + Days::new(21)));
    }

    #[test]
    fn a_thin_layer_touches_the_soil_whole() {
        let load = ArealMassDensity::new::<kilogram_per_square_meter>;
        assert_eq!(contact(load(0.0)), 1.0);
        assert_eq!(contact(load(0.2)), 1.0);
    }

    proptest! {
        #[test]
        fn the_three_clocks_keep_their_order(c in -10.0..40.0, sd in 0.0..6.0, age in 0.0..100.0) {
            let clock = steady(c, sd, Spread::UNSEEN);
            let age = RotAge::days_at_15_c(age);
            let [fast, likely, slow] = Speed::ALL.map(|speed| clock.reaches(age, speed));
            let never = NaiveDate::MAX;
            prop_assert!(fast.unwrap_or(never) <= likely.unwrap_or(never));
            prop_assert!(likely.unwrap_or(never) <= slow.unwrap_or(never));
        }

        #[test]
        fn colder_is_never_faster(c in -10.0..40.0, colder in 0.0..15.0, sd in 0.0..6.0) {
            let (warm, cold) = (steady(c, sd, Spread::UNSEEN), steady(c - colder, sd, Spread::UNSEEN));
            for speed in Speed::ALL {
                let day = laid() + Days::new(60);
                prop_assert!(cold.age_on(day, speed) <= warm.age_on(day, speed));
            }
        }
    }
}
