//! The typed numbers of the answer.

use uom::si::length::meter;

use crate::{
    catalogue::{self, Kind},
    plan::{Laid, Placed},
    quantity::{Length, System, show_spacing},
    text::small,
};

/// How many fit, and where.
#[derive(Clone, Debug, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Each plant, by its distance from the near side, then from the left end.
    pub placed: Vec<Placed>,
    /// How many of each crop, in the order asked.
    pub counts: Vec<u32>,
    /// How many of each crop are left over; null where it was not said how many there are.
    pub left_over: Vec<Option<u32>>,
    /// Whether no layout holds more.
    pub proved: bool,
    /// No layout that serves the aim holds more plants than this in all.
    pub bound: u32,
    /// The layout in words a person can follow along the hose.
    pub arrangement: String,
    /// How many of the first crop fit at each spacing of its published range, from wide to narrow,
    /// however many there are.
    pub at_spacing: Vec<AtSpacing>,
    /// What fits into the gaps that are left.
    pub fillers: Vec<Filler>,
    /// All of the first crop at a closer spacing of its published range, where the asked one leaves some over.
    pub way_round: Option<WayRound>,
    /// The layout told: at the closer spacing where there is one.
    #[serde(skip)]
    pub laid: Laid,
}

/// A count at a spacing.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AtSpacing {
    /// The spacing, metres.
    pub spacing_m: f64,
    /// How many fit.
    pub count: u32,
}

impl AtSpacing {
    /// The spacing as it is told.
    pub fn told(&self, system: System) -> String {
        show_spacing(Length::new::<meter>(self.spacing_m), system)
    }
}

/// What fits into the gaps.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Filler {
    /// The spacing, metres.
    pub spacing_m: f64,
    /// How many fit.
    pub count: u32,
    /// Crops that suit, by catalogue id.
    pub crops: Vec<String>,
}

impl Filler {
    /// The spacing as it is told.
    pub fn told(&self, system: System) -> String {
        show_spacing(Length::new::<meter>(self.spacing_m), system)
    }

    /// The names of the crops that suit; what only looks like food says so.
    pub fn names(&self) -> Vec<String> {
        let rows = self.crops.iter().filter_map(|id| catalogue::crop(id).ok());
        rows.map(|crop| match crop.kind() == Kind::Flower && !crop.eaten() {
            true => format!("{} (not for eating)", small(crop.name())),
            false => small(crop.name()),
        })
        .collect()
    }
}

/// A closer spacing that takes all.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WayRound {
    /// The spacing, metres.
    pub spacing_m: f64,
    /// How many of each crop fit then.
    pub counts: Vec<u32>,
    /// How many of each crop are left over then.
    pub left_over: Vec<Option<u32>>,
    /// Each plant's place then.
    pub placed: Vec<Placed>,
    /// The layout in words.
    pub arrangement: String,
}

impl WayRound {
    /// What there is to tell of a layout at a closer spacing.
    pub(super) fn of(laid: &Laid, arrangement: String) -> Self {
        Self {
            spacing_m: laid.wanted.first().map_or(0.0, |first| first.want.spacing.metres()),
            counts: laid.layout.counts.clone(),
            left_over: left_over(laid),
            placed: laid.placed(),
            arrangement,
        }
    }
}

/// How many of each crop are left over; nothing where it was not said how many there are.
pub(super) fn left_over(laid: &Laid) -> Vec<Option<u32>> {
    let crops = laid.wanted.iter().zip(&laid.layout.counts);
    let left = crops.map(|(wanted, count)| Some(wanted.want.on_hand?.saturating_sub(*count)));
    left.collect()
}
