//! Soil temperature at a depth through the year: the damped wave.
//!
//! T(z, n) = mean + Σ over harmonics h of (a_h cos(hωn) + b_h sin(hωn)) damped by e^(−z/D_h) and
//! late by z/D_h, with D_h = √(2κ/(hω)): H. S. Carslaw and J. C. Jaeger, *Conduction of Heat in
//! Solids*, 2nd ed., 1959, section 2.6; D. Hillel, *Introduction to Soil Physics*, 1982; with the
//! yearly wave of the ground's surface: T. Kusuda and P. R. Achenbach, *ASHRAE Transactions*
//! 71(1):61, 1965. The surface is taken as the air of the place, 1 °C warmer (the rule of United
//! States soil survey for the yearly mean; *Soil Sci. Soc. Am. J.* 69:2033, 2005), with the same
//! swing.
//!
//! Not in the model: snow, frozen or water-logged soil, plastic and glass, the sides of a raised
//! bed.

use uom::si::{
    diffusion_coefficient::square_meter_per_second,
    f64::DiffusionCoefficient,
    length::meter,
    temperature_interval::degree_celsius as kelvin,
    time::{day as a_day, second},
};

use super::air::{Air, HALF_A_YEAR, KnownBy, MID_MONTHS, YEARLY, celsius, of_celsius};
use crate::{
    given::{Control, words},
    quantity::{Length, Temperature, TemperatureInterval, Time},
    time::{DAYS_A_YEAR, DayOfYear, wrapped},
};

/// How much warmer the soil is than the air over the year, °C: the rule of the United States soil
/// survey, quoted in *Soil Sci. Soc. Am. J.* 69:2033, 2005.
const WARMER_THAN_AIR_C: f64 = 1.0;

words! {
    /// What the soil is.
    pub enum Texture {
        /// Sandy soil.
        Sand = "sand",
        /// Loam, the usual garden soil.
        Loam = "loam",
        /// Clay.
        Clay = "clay",
        /// Compost-rich mix, as raised beds are filled with.
        Mix = "raised-bed-mix",
        /// Peat.
        Peat = "peat",
    }
}

/// The soils in the order in which one is likely to have them.
pub(crate) const SOILS: Control = Control::Choice(&[
    ("raised-bed-mix", "compost-rich mix"),
    ("loam", "loam"),
    ("sand", "sandy"),
    ("clay", "clay"),
    ("peat", "peat"),
]);

impl Texture {
    /// How fast warmth travels in it when moist.
    ///
    /// Sand and loam: 5 and 4 × 10⁻⁷ m²/s, between the values for moist clay and sand of D. A. de
    /// Vries (1963) and the measured 3.2 to 3.6 × 10⁻⁷ of Jacobs, Heusinkveld and Holtslag (*Agric.
    /// For. Meteorol.*, 2011). Clay and peat: de Vries (1963), moist, in A. F. Moene and J. C. van
    /// Dam, *Transport in the Atmosphere-Vegetation-Soil Continuum*, 2014, table 2.2. Raised-bed
    /// mix: our estimate between peat and loam.
    pub fn diffusivity(self) -> DiffusionCoefficient {
        DiffusionCoefficient::new::<square_meter_per_second>(match self {
            Self::Sand => 5e-7,
            Self::Loam | Self::Clay => 4e-7,
            Self::Mix => 2e-7,
            Self::Peat => 1.3e-7,
        })
    }
}

words! {
    /// What lies on the soil.
    pub enum Mulch {
        /// Nothing.
        Bare = "none",
        /// Straw or leaves, some inches thick.
        Straw = "straw" => "straw",
        /// Leaves, some inches thick.
        Leaves = "leaves" => "leaves",
        /// Chopped plants left on top.
        Residue = "residue" => "chopped plants",
    }
}

impl Mulch {
    /// How much cooler the soil is at 4 in under it in late spring, °C, over day and night.
    ///
    /// Straw: 2 to 4 °C by day and next to nothing at the 5 a.m. minimum (T. M. McCalla and F. L.
    /// Duley, *J. Am. Soc. Agron.* 38:75, 1946), so about 1.5 °C over the day. Residue: 0 to 1.9 °C
    /// in weekly means (Shen and others, *Scientific Reports* 8, 2018). Leaves as straw (common
    /// practice).
    fn cooler_in_spring_c(self) -> f64 {
        match self {
            Self::Bare => 0.0,
            Self::Straw | Self::Leaves => 1.5,
            Self::Residue => 0.95,
        }
    }

    /// What it adds to the doubt about the soil's temperature. No figures for autumn and winter
    /// were found, when less sun comes in but less warmth goes out too (derived).
    pub fn doubt(self) -> TemperatureInterval {
        TemperatureInterval::new::<kelvin>(if self == Self::Bare { 0.0 } else { 1.0 })
    }
}

/// How many harmonics a year is drawn with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Harmonics {
    /// The yearly wave alone.
    One,
    /// The yearly and the half-yearly wave: for twelve known months.
    Two,
}

/// A yearly course of temperature: its mean and one or two harmonics.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wave {
    mean_c: f64,
    /// Cosine and sine of the yearly, then of the half-yearly wave, °C.
    parts_c: [(f64, f64); 2],
}

impl Wave {
    /// From the mean, half the yearly swing, and the hottest day: one harmonic.
    pub fn simple(mean: Temperature, swing: TemperatureInterval, hottest: DayOfYear) -> Self {
        let (swing, at) = (swing.get::<kelvin>(), YEARLY * hottest.number());
        Self { mean_c: celsius(mean), parts_c: [(swing * at.cos(), swing * at.sin()), (0.0, 0.0)] }
    }

    /// The wave nearest to the points by least squares; `None` if the points don't determine it.
    pub fn nearest(points: &[(DayOfYear, Temperature)], harmonics: Harmonics) -> Option<Self> {
        let columns = match harmonics {
            Harmonics::One => 3,
            Harmonics::Two => 5,
        };
        // The normal equations, with the right side as a sixth column.
        let mut rows = [[0.0; 6]; 5];
        for (day, temperature) in points {
            let at = YEARLY * day.number();
            let (sin, cos) = at.sin_cos();
            let (sin_2, cos_2) = (2.0 * at).sin_cos();
            let terms = [1.0, cos, sin, cos_2, sin_2, celsius(*temperature)];
            for (row, left) in rows.iter_mut().zip(terms) {
                for (sum, right) in row.iter_mut().zip(terms) {
                    *sum += left * right;
                }
            }
        }
        let solved = solve(rows, columns)?;
        let [mean_c, a, b, a_2, b_2] = solved;
        Some(Self { mean_c, parts_c: [(a, b), (a_2, b_2)] })
    }

    /// A monthly mean flattens a wave; this undoes it: each harmonic h is divided by
    /// sin(hπ/12)/(hπ/12), which is 0.98862 and 0.95493.
    #[must_use]
    pub fn unflattened(mut self) -> Self {
        for ((a, b), harmonic) in self.parts_c.iter_mut().zip([1.0, 2.0]) {
            let half_month = harmonic * std::f64::consts::PI / 12.0;
            let flattened = half_month.sin() / half_month;
            *a /= flattened;
            *b /= flattened;
        }
        self
    }

    /// The mean over the year.
    pub fn mean(&self) -> Temperature {
        of_celsius(self.mean_c)
    }

    /// Cosine and sine coefficients of the yearly and of the half-yearly wave.
    pub fn coefficients(&self) -> [(TemperatureInterval, TemperatureInterval); 2] {
        let interval = TemperatureInterval::new::<kelvin>;
        self.parts_c.map(|(a, b)| (interval(a), interval(b)))
    }

    /// Half the swing of the yearly wave.
    pub fn swing(&self) -> TemperatureInterval {
        let [(a, b), _] = self.parts_c;
        TemperatureInterval::new::<kelvin>(a.hypot(b))
    }

    /// The hottest day of the yearly wave, 0 to 365.25.
    pub fn hottest(&self) -> DayOfYear {
        let [(a, b), _] = self.parts_c;
        DayOfYear::new(wrapped(b.atan2(a), std::f64::consts::TAU) / YEARLY)
    }

    /// The value on a day.
    pub fn at(&self, day: DayOfYear) -> Temperature {
        of_celsius(self.mean_c + self.swung_c(0.0, day.number(), f64::INFINITY))
    }

    /// Departure from the mean at `depth_m`, where the yearly wave's damping depth is `damping_m`.
    fn swung_c(&self, depth_m: f64, day: f64, damping_m: f64) -> f64 {
        let mut sum = 0.0;
        for ((a, b), harmonic) in self.parts_c.iter().zip([1.0, 2.0f64]) {
            let x = depth_m * harmonic.sqrt() / damping_m;
            let (sin, cos) = (harmonic * YEARLY * day - x).sin_cos();
            sum += (-x).exp() * (a * cos + b * sin);
        }
        sum
    }
}

/// Solves the first `size` of the equations by elimination; the rest of the answer is 0.
fn solve(mut rows: [[f64; 6]; 5], size: usize) -> Option<[f64; 5]> {
    for pivot in 0..size {
        let line = *rows.get(pivot)?;
        let by = *line.get(pivot)?;
        // The sums are at least of the size of one point, so this small means undetermined.
        if by.abs() < 1e-9 {
            return None;
        }
        for (number, row) in rows.iter_mut().enumerate().take(size) {
            let factor = if number == pivot { 1.0 - 1.0 / by } else { *row.get(pivot)? / by };
            for (value, part) in row.iter_mut().zip(line) {
                *value -= factor * part;
            }
        }
    }
    let mut answer = [0.0; 5];
    for (value, row) in answer.iter_mut().zip(rows).take(size) {
        *value = row[5];
    }
    answer.iter().all(|value| value.is_finite()).then_some(answer)
}

/// The depth at which a wave's swing has fallen to 1/e: D = √(2κ/ω), ω = 2π/period.
///
/// In soil of 5 × 10⁻⁷ m²/s a day's swing is all but gone at a foot (H. S. Carslaw and J. C. Jaeger,
/// *Conduction of Heat in Solids*, 1959, section 2.6: D = 0.117 m):
/// ```
/// use pegline_core::{place::soil::damping_depth, quantity::{Time, unit}};
/// use uom::si::f64::DiffusionCoefficient;
/// let soil = DiffusionCoefficient::new::<unit::diffusion_coefficient::square_meter_per_second>(5e-7);
/// let depth = damping_depth(soil, Time::new::<unit::time::day>(1.0)).get::<unit::length::meter>();
/// assert!((depth - 0.117).abs() < 5e-4);
/// ```
pub fn damping_depth(diffusivity: DiffusionCoefficient, period: Time) -> Length {
    let omega = std::f64::consts::TAU / period.get::<second>();
    let kappa = diffusivity.get::<square_meter_per_second>();
    Length::new::<meter>((2.0 * kappa / omega).sqrt())
}

/// The soil's usual year at any depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SoilYear {
    surface: Wave,
    damping_m: f64,
    /// Added all year: what readings of the bed have taught.
    shift_c: f64,
    mulch: Mulch,
}

/// The day on which the soil passes a temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// The day.
    pub day: DayOfYear,
    /// How fast the soil cools (negative) or warms there, °C a day.
    pub slope_c_per_day: f64,
}

impl Crossing {
    /// How far an error of the temperature moves the crossing.
    pub fn moved_by(&self, error: TemperatureInterval) -> Time {
        Time::new::<a_day>(error.get::<kelvin>() / self.slope_c_per_day.abs())
    }
}

impl SoilYear {
    /// Under bare ground of that surface course.
    pub fn new(surface: Wave, diffusivity: DiffusionCoefficient) -> Self {
        let year = Time::new::<second>(DAYS_A_YEAR * 86_400.0);
        Self {
            surface,
            damping_m: damping_depth(diffusivity, year).get::<meter>(),
            shift_c: 0.0,
            mulch: Mulch::Bare,
        }
    }

    /// From the air of the place: two harmonics where twelve months are known, one where only the
    /// coldest and the hottest are.
    pub fn from_air(air: &Air, texture: Texture) -> Self {
        let means = air.monthly_means();
        let points: [(DayOfYear, Temperature); 12] = std::array::from_fn(|month| {
            let day = MID_MONTHS.get(month).copied().unwrap_or_default();
            let mean = means.get(month).copied().unwrap_or_default();
            (DayOfYear::new(day), mean)
        });
        let harmonics = match air.known_by() {
            KnownBy::Months => Harmonics::Two,
            KnownBy::Extremes => Harmonics::One,
        };
        // OK because twelve different days determine five coefficients; the mean alone stands in.
        let mut wave = Wave::nearest(&points, harmonics)
            .unwrap_or(Wave {
                mean_c: means.iter().map(|mean| celsius(*mean)).sum::<f64>() / 12.0,
                parts_c: [(0.0, 0.0); 2],
            })
            .unflattened();
        wave.mean_c += WARMER_THAN_AIR_C;
        Self::new(wave, texture.diffusivity())
    }

    /// The same soil under a mulch.
    #[must_use]
    pub fn under(self, mulch: Mulch) -> Self {
        Self { mulch, ..self }
    }

    /// The same soil, warmer by that much all year.
    #[must_use]
    pub fn shifted(self, by: TemperatureInterval) -> Self {
        Self { shift_c: self.shift_c + by.get::<kelvin>(), ..self }
    }

    /// The depth at which the daily wave has fallen to 1/e: a wave so many times shorter is damped
    /// in a depth less by the root of that.
    pub fn daily_damping(&self) -> Length {
        Length::new::<meter>(self.damping_m / DAYS_A_YEAR.sqrt())
    }

    /// The temperature at a depth on a day: the mean over day and night.
    pub fn at(&self, depth: Length, day: DayOfYear) -> Temperature {
        of_celsius(self.at_c(depth.get::<meter>(), day.number()))
    }

    fn at_c(&self, depth_m: f64, day: f64) -> f64 {
        // Mulch cools the warming soil: most at the end of May in the north, not at all from
        // September to February. The half wave between the published seasons is derived.
        const MOST_BEFORE_HOTTEST: f64 = 55.0;
        let spring = self.surface.hottest().number() - MOST_BEFORE_HOTTEST;
        let cooling = (YEARLY * (day - spring)).cos().max(0.0) * self.mulch.cooler_in_spring_c();
        self.surface.mean_c + self.shift_c + self.surface.swung_c(depth_m, day, self.damping_m)
            - cooling
    }

    /// The last time that the soil cools through `temperature` between its hottest day and half a
    /// year and some weeks after; `None` where it doesn't.
    pub fn falls_through(&self, temperature: Temperature, depth: Length) -> Option<Crossing> {
        self.crosses(temperature, depth, self.surface.hottest().number(), true)
    }

    /// The last time that the soil warms through `temperature` in the half year and some weeks
    /// after its coldest day, counted from there; `None` where it doesn't.
    pub fn rises_through(&self, temperature: Temperature, depth: Length) -> Option<Crossing> {
        let coldest = self.surface.hottest().number() + HALF_A_YEAR;
        self.crosses(temperature, depth, coldest, false)
    }

    fn crosses(
        &self,
        temperature: Temperature,
        depth: Length,
        from: f64,
        falling: bool,
    ) -> Option<Crossing> {
        // Half a year, and what the damped wave and a lopsided year are late by.
        const DAYS: u32 = 200;
        let (through, depth_m) = (celsius(temperature), depth.get::<meter>());
        let above = |day: f64| (self.at_c(depth_m, day) > through) == falling;
        let last = (0..DAYS)
            .rev()
            .map(|day| from + f64::from(day))
            .find(|day| above(*day) && !above(day + 1.0))?;
        let (mut before, mut after) = (last, last + 1.0);
        for _ in 0..20 {
            let middle = 0.5 * (before + after);
            if above(middle) {
                before = middle;
            } else {
                after = middle;
            }
        }
        let slope = self.at_c(depth_m, after + 0.5) - self.at_c(depth_m, after - 0.5);
        Some(Crossing { day: DayOfYear::new(after), slope_c_per_day: slope })
    }

    /// How many days of the usual year the soil is at `temperature` or below.
    pub fn days_at_or_below(&self, temperature: Temperature, depth: Length) -> u32 {
        let (limit, depth_m) = (celsius(temperature), depth.get::<meter>());
        (1..=365u32).filter(|day| self.at_c(depth_m, f64::from(*day)) <= limit).count() as u32
    }

    /// The coldest day of the usual year and its temperature.
    pub fn coldest(&self, depth: Length) -> (DayOfYear, Temperature) {
        let (day, degrees) = self.extreme(depth, 1.0);
        (day, of_celsius(degrees))
    }

    /// The warmest day of the usual year and its temperature.
    pub fn warmest(&self, depth: Length) -> (DayOfYear, Temperature) {
        let (day, degrees) = self.extreme(depth, -1.0);
        (day, of_celsius(-degrees))
    }

    fn extreme(&self, depth: Length, sign: f64) -> (DayOfYear, f64) {
        let depth_m = depth.get::<meter>();
        let mut least = (1.0, f64::INFINITY);
        for day in (1..=365u32).map(f64::from) {
            let degrees = sign * self.at_c(depth_m, day);
            if degrees < least.1 {
                least = (day, degrees);
            }
        }
        (DayOfYear::new(least.0), least.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use uom::si::length::centimeter;

    fn depth(cm: f64) -> Length {
        Length::new::<centimeter>(cm)
    }

    fn year(mean: f64, swing: f64, hottest: f64) -> SoilYear {
        let wave = Wave::simple(
            of_celsius(mean),
            TemperatureInterval::new::<kelvin>(swing),
            DayOfYear::new(hottest),
        );
        SoilYear::new(wave, Texture::Loam.diffusivity())
    }

    #[test]
    fn surface_on_the_hottest_day_is_mean_plus_swing() {
        let year = year(11.0, 9.0, 205.0);
        let top = celsius(year.at(depth(0.0), DayOfYear::new(205.0)));
        assert!((top - 20.0).abs() < 1e-9);
    }

    #[test]
    fn mulch_cools_in_spring_and_leaves_autumn_alone() {
        let bare = year(11.0, 9.0, 205.0);
        let mulched = bare.under(Mulch::Straw);
        let cooler = |day| {
            let day = DayOfYear::new(day);
            celsius(bare.at(depth(10.0), day)) - celsius(mulched.at(depth(10.0), day))
        };
        assert!((cooler(150.0) - 1.5).abs() < 1e-9);
        assert_eq!(cooler(290.0), 0.0);
        assert_eq!(
            bare.falls_through(of_celsius(10.0), depth(10.0)),
            mulched.falls_through(of_celsius(10.0), depth(10.0))
        );
    }

    #[test]
    fn what_is_never_reached_has_no_day() {
        let year = year(11.0, 9.0, 205.0);
        assert_eq!(year.falls_through(of_celsius(25.0), depth(10.0)), None);
        assert_eq!(year.rises_through(of_celsius(1.0), depth(10.0)), None);
    }

    proptest! {
        #[test]
        fn deeper_never_swings_more(
            shallow in 0.0..100.0f64, deeper in 0.0..200.0f64, hottest in 0.0..365.0f64,
        ) {
            let year = year(11.0, 9.0, hottest);
            let swing = |cm| celsius(year.warmest(depth(cm)).1) - celsius(year.coldest(depth(cm)).1);
            prop_assert!(swing(shallow + deeper) <= swing(shallow) + 1e-3);
        }

        #[test]
        fn at_the_crossing_the_soil_has_that_temperature(
            through in 5.0..17.0f64, cm in 0.0..60.0f64, hottest in 0.0..365.0f64,
        ) {
            let year = year(11.0, 9.0, hottest);
            let fall = year.falls_through(of_celsius(through), depth(cm)).unwrap();
            let rise = year.rises_through(of_celsius(through), depth(cm)).unwrap();
            prop_assert!((celsius(year.at(depth(cm), fall.day)) - through).abs() < 1e-3);
            prop_assert!((celsius(year.at(depth(cm), rise.day)) - through).abs() < 1e-3);
            prop_assert!(fall.slope_c_per_day < 0.0 && rise.slope_c_per_day > 0.0);
            prop_assert!(fall.day < rise.day && rise.day.number() - fall.day.number() < 366.0);
        }

        #[test]
        fn a_warmer_bed_cools_later(by in 0.1..3.0f64) {
            let year = year(11.0, 9.0, 205.0);
            let warmer = year.shifted(TemperatureInterval::new::<kelvin>(by));
            let day = |year: SoilYear| year.falls_through(of_celsius(10.0), depth(10.0)).unwrap().day;
            prop_assert!(day(warmer) > day(year));
        }

        #[test]
        fn least_squares_finds_the_wave_that_made_the_points(
            mean in -5.0..25.0f64, swing in 0.5..20.0f64, hottest in 1.0..365.0f64,
        ) {
            let made = Wave::simple(
                of_celsius(mean), TemperatureInterval::new::<kelvin>(swing), DayOfYear::new(hottest),
            );
            let points = MID_MONTHS.map(|day| {
                let day = DayOfYear::new(day);
                (day, made.at(day))
            });
            let found = Wave::nearest(&points, Harmonics::Two).unwrap();
            prop_assert!((celsius(found.mean()) - mean).abs() < 1e-9);
            prop_assert!((found.swing().get::<kelvin>() - swing).abs() < 1e-9);
        }
    }

    #[test]
    fn too_few_points_determine_nothing() {
        let points = [(DayOfYear::new(10.0), of_celsius(3.0)); 6];
        assert_eq!(Wave::nearest(&points, Harmonics::One), None);
    }
}
