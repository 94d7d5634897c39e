//! How warmth carries a crop to its first picking: the column `grow` of `core/data/crops.toml`.

use uom::si::thermodynamic_temperature::degree_celsius;

use super::class::fahrenheit;
use super::crop::Span;
use super::words::Bolts;
use crate::quantity::Temperature;

/// Heat summed over days, in degree-days over the crop's own base.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct HeatSum(f64);

impl HeatSum {
    pub(super) const fn of(celsius_days: u16) -> Self {
        Self(celsius_days as f64)
    }

    /// In Celsius degree-days.
    pub const fn celsius_days(self) -> f64 {
        self.0
    }
}

/// The row as it is packed.
#[derive(Clone, Copy)]
pub(super) struct GrowthRow {
    pub(super) base_c: u8,
    pub(super) cap_c: u8,
    pub(super) light: bool,
    pub(super) up_sum: Option<u16>,
    pub(super) sown: Option<[u16; 2]>,
    pub(super) set: Option<[u16; 2]>,
    /// Tenths of a degree.
    pub(super) hot_c: Option<u16>,
    pub(super) young_f: i8,
    pub(super) part_f: Option<i8>,
    pub(super) soil_f: Option<i8>,
    pub(super) winters: bool,
    pub(super) bolts: Option<Bolts>,
    pub(super) bulbs: bool,
}

/// How warmth carries a crop to its first picking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Growth {
    /// Below this nothing grows.
    pub base: Temperature,
    /// Above this more warmth brings no more growth.
    pub cap: Temperature,
    /// Whether it grows by light too: leaves, roots and heads; fruit, pods and curds by warmth alone.
    pub light: bool,
    /// Degree-days from planting to up, where no table of seed tells.
    pub up: Option<HeatSum>,
    /// From when sown plants are up to the first picking, of the quickest and the slowest of usual
    /// kinds.
    pub sown: Option<Span<HeatSum>>,
    /// From setting out to the first picking.
    pub set: Option<Span<HeatSum>>,
    /// The mean of day and night above which it does not crop well.
    pub too_hot: Option<Temperature>,
    /// Air that kills it while small.
    pub young_killed_at: Temperature,
    /// Air that kills what is picked, where it is not as hardy as the leaves.
    pub part_killed_at: Option<Temperature>,
    /// Soil for setting out, as planting calendars have it.
    pub soil: Option<Temperature>,
    /// Whether small plants live through winter and go on in spring.
    pub winters: bool,
    /// When it shoots up to flower.
    pub bolts: Option<Bolts>,
    /// Whether it bulbs by the length of the day.
    pub bulbs: bool,
}

impl Growth {
    pub(super) fn of(row: GrowthRow) -> Self {
        let celsius = |degrees: f64| Temperature::new::<degree_celsius>(degrees);
        let sum = HeatSum::of;
        let sums = |[least, most]: [u16; 2]| Span { least: sum(least), most: sum(most) };
        Self {
            base: celsius(row.base_c.into()),
            cap: celsius(row.cap_c.into()),
            light: row.light,
            up: row.up_sum.map(sum),
            sown: row.sown.map(sums),
            set: row.set.map(sums),
            too_hot: row.hot_c.map(|tenths| celsius(f64::from(tenths) / 10.0)),
            young_killed_at: fahrenheit(row.young_f),
            part_killed_at: row.part_f.map(fahrenheit),
            soil: row.soil_f.map(fahrenheit),
            winters: row.winters,
            bolts: row.bolts,
            bulbs: row.bulbs,
        }
    }
}
