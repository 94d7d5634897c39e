//! What is asked of a layout, checked.

use super::{geometry::Plant, open};
use crate::bed::Bed;
use crate::given::words;
use crate::quantity::Micrometres;

/// The closest plants that are laid out one by one; closer ones are sown, not set.
pub const LEAST_SPACING: Micrometres = Micrometres::from_inches(1);
/// The widest spacing that is worked out: 20 ft, wider than any crop of a bed needs.
pub const MOST_SPACING: Micrometres = Micrometres::from_inches(240);
/// The most plants placed one by one in one bed.
pub const MOST_PLANTS: u32 = 12_000;
/// The most crops in one layout.
pub const MOST_WANTS: usize = 24;
/// The most plants already in a bed.
pub const MOST_STANDING: usize = 2_500;

words! {
    /// Where a crop may be set.
    pub enum SiteChoice {
        /// At emitters only.
        Emitters = "emitters" => "at the holes",
        /// Anywhere along the drip lines.
        AlongLine = "along-line" => "along the lines",
        /// Anywhere in the bed.
        Anywhere = "anywhere" => "anywhere",
    }
}

impl SiteChoice {
    /// The usual place: at emitters, unless there are none or the crop stands closer than they do.
    ///
    /// Garlic, carrots, onions or leaf lettuce stand closer than emitters and get their water from
    /// the wet strip, so an emitter is no place for each (common practice).
    #[must_use]
    pub fn usual(bed: &Bed, spacing: Micrometres) -> Self {
        match bed.drip() {
            Some(drip) if spacing >= drip.emitter_spacing() => Self::Emitters,
            _ => Self::Anywhere,
        }
    }
}

/// The room kept between a plant's middle and every side of the bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EdgeMargin {
    /// So much.
    Of(Micrometres),
    /// Half the spacing, so that each plant has its own square inside the bed.
    HalfSpacing,
}

impl EdgeMargin {
    /// The margin of a crop with this spacing.
    #[must_use]
    pub fn at(self, spacing: Micrometres) -> Micrometres {
        match self {
            Self::Of(margin) => margin,
            Self::HalfSpacing => Micrometres::new(spacing.get().div_euclid(2)),
        }
    }
}

/// One crop to be set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Want {
    /// The least distance between two of its plants, middle to middle.
    pub spacing: Micrometres,
    /// How many there are, or as many as fit.
    pub on_hand: Option<u32>,
    /// Where they may be set.
    pub sites: SiteChoice,
    /// The room kept at the sides.
    pub edge_margin: EdgeMargin,
}

words! {
    /// What is wished for when several crops share a bed.
    #[derive(Default)]
    pub enum Aim {
        /// As many of the first as possible, then of the second given those, and so on.
        #[default]
        InOrder = "in-order" => "the first crop goes first",
        /// As many plants as possible in all.
        Most = "most" => "as many as possible in all",
    }
}

/// Why a request cannot be worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Nothing is asked for.
    NothingWanted,
    /// More crops than [`MOST_WANTS`].
    TooManyWants,
    /// The spacing of this want lies outside [`LEAST_SPACING`] to [`MOST_SPACING`].
    Spacing(usize),
    /// The edge margin of this want is negative.
    EdgeMargin(usize),
    /// This want asks for emitters or drip lines, and the bed has none.
    NoDrip(usize),
    /// This want would be more than [`MOST_PLANTS`] plants.
    TooManyPlants(usize),
    /// More plants in the bed already than [`MOST_STANDING`].
    TooManyStanding,
    /// This plant stands outside the bed.
    StandingOutside(usize),
    /// The spacing of this plant in the bed lies outside 0 to [`MOST_SPACING`].
    StandingSpacing(usize),
}

/// A bed, what is to go into it and what is in it, fit to be worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Request<'a> {
    bed: &'a Bed,
    wants: Vec<Want>,
    standing: Vec<Plant>,
    aim: Aim,
}

impl<'a> Request<'a> {
    /// The request, if it can be worked out.
    ///
    /// # Errors
    /// All that is wrong with it, at once.
    pub fn new(
        bed: &'a Bed,
        wants: &[Want],
        standing: &[Plant],
        aim: Aim,
    ) -> Result<Self, Vec<Fault>> {
        let mut faults = Vec::new();
        if wants.is_empty() {
            faults.push(Fault::NothingWanted);
        }
        if wants.len() > MOST_WANTS {
            faults.push(Fault::TooManyWants);
        }
        for (at, want) in wants.iter().enumerate() {
            faults.extend(fault_of(bed, want).map(|fault| fault(at)));
        }
        if standing.len() > MOST_STANDING {
            faults.push(Fault::TooManyStanding);
        }
        for (at, plant) in standing.iter().enumerate() {
            if !bed.holds(&plant.site.spot) {
                faults.push(Fault::StandingOutside(at));
            }
            if plant.spacing < Micrometres::ZERO || MOST_SPACING < plant.spacing {
                faults.push(Fault::StandingSpacing(at));
            }
        }
        if faults.is_empty() {
            Ok(Self { bed, wants: wants.to_vec(), standing: standing.to_vec(), aim })
        } else {
            Err(faults)
        }
    }

    /// The same bed with this alone to go in; fit to be worked out when it is a want of the request
    /// with another spacing and no more plants than [`MOST_PLANTS`].
    pub(super) fn with(&self, want: Want) -> Self {
        Self { wants: vec![want], ..self.clone() }
    }

    /// The bed.
    #[must_use]
    pub fn bed(&self) -> &'a Bed {
        self.bed
    }

    /// The crops, in order of wanting.
    #[must_use]
    pub fn wants(&self) -> &[Want] {
        &self.wants
    }

    /// The plants that stay.
    #[must_use]
    pub fn standing(&self) -> &[Plant] {
        &self.standing
    }

    /// What is wished for.
    #[must_use]
    pub fn aim(&self) -> Aim {
        self.aim
    }
}

/// What is wrong with one want, still without its place.
fn fault_of(bed: &Bed, want: &Want) -> Option<fn(usize) -> Fault> {
    if want.spacing < LEAST_SPACING || want.spacing > MOST_SPACING {
        return Some(Fault::Spacing);
    }
    if want.edge_margin.at(want.spacing) < Micrometres::ZERO {
        return Some(Fault::EdgeMargin);
    }
    if want.sites != SiteChoice::Anywhere && bed.drip().is_none() {
        return Some(Fault::NoDrip);
    }
    let margin = want.edge_margin.at(want.spacing);
    let too_many = want.sites == SiteChoice::Anywhere
        && open::at_most(bed, margin, want.spacing) > MOST_PLANTS;
    too_many.then_some(Fault::TooManyPlants)
}
