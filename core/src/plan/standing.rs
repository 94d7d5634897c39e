//! Where the plants of the record stand.
//!
//! A plant stays where it was set, whatever is done to the bed afterwards: its hole is one of the
//! drip that lay there then. What lies outside the bed as it is now has no place in it.

use serde_json::Value;

use crate::{
    bed::{Bed, Described, Drip, Site, Spot, TOLERANCE},
    catalogue::{self, Crop, Seen},
    garden::{self, Garden, Planting},
    given::{Faults, FromGiven},
    journal::{details::Object, sites::Hole},
    layout::{MOST_SPACING, Plant},
    quantity::{Length, Micrometres, Quantity, System},
    text::small,
};

/// Where the plants of a planting stand.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stands {
    /// Those that stand in the bed as it is now.
    pub spots: Vec<Spot>,
    /// How many more there are, outside of it or at holes that nobody knows of.
    pub outside: u32,
}

/// A crop as the drawing of a bed shows it.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// Its name.
    pub name: String,
    /// How its plants look from above.
    pub seen: Seen,
    /// The space each takes.
    pub spacing: Micrometres,
    /// Where its plants stand.
    pub spots: Vec<Spot>,
    /// How many more stand somewhere in the bed; nothing where neither place nor number was told.
    pub elsewhere: Option<u32>,
    /// How many have a place no longer, since the bed was changed.
    pub outside: u32,
}

impl Drawn {
    /// A crop, by its row if it has one, with the space its plants were given.
    pub(super) fn of(
        row: Option<&'static Crop>,
        called: &str,
        spacing: Option<Micrometres>,
    ) -> Self {
        let usual = row.and_then(Crop::spacing).map(|range| range.usual);
        Self {
            name: row.map_or_else(|| small(called), |row| small(row.name())),
            seen: row.map_or(Seen::Leafy, Crop::seen),
            spacing: spacing
                .or(usual.and_then(Micrometres::from_length))
                .unwrap_or(Micrometres::ZERO)
                .min(MOST_SPACING),
            spots: Vec::new(),
            elsewhere: Some(0),
            outside: 0,
        }
    }
}

/// What stands in a bed, as the drawing of it as it is now shows it.
#[must_use]
pub fn drawn(known: &garden::Bed, now: &Bed) -> Vec<Drawn> {
    let of = |planting: &Planting| {
        let row = catalogue::crop(&planting.crop).ok();
        let spacing = planting.spacing.as_deref().and_then(|text| Length::read(text).ok());
        let spacing = spacing.and_then(Micrometres::from_length);
        let Stands { spots, outside } = stands(known, planting, now);
        let told = planting.left.or(planting.count);
        let elsewhere = if planting.at.is_some() { Some(0) } else { told };
        Drawn { spots, outside, elsewhere, ..Drawn::of(row, &planting.crop, spacing) }
    };
    known.plantings.iter().map(of).collect()
}

/// What the record says stands in a bed.
#[derive(Clone, Debug, Default)]
pub(crate) struct Recorded {
    /// The plants whose places are known.
    pub(crate) plants: Vec<Plant>,
    /// How many have a place no longer.
    pub(crate) outside: u32,
}

/// What stands in the bed with this id.
pub(crate) fn recorded(garden: &Garden, id: Option<&str>, now: &Bed) -> Recorded {
    let mut recorded = Recorded::default();
    let Some(known) = id.and_then(|id| garden.bed(id)) else {
        return recorded;
    };
    for planting in &known.plantings {
        let row = catalogue::crop(&planting.crop).ok();
        let given = planting.spacing.as_deref().and_then(|text| Length::read(text).ok());
        let spacing = given.or(row.and_then(Crop::spacing).map(|range| range.usual));
        let Some(spacing) = spacing.and_then(Micrometres::from_length) else {
            continue;
        };
        // What the record holds may never have been on a form.
        let spacing = spacing.max(Micrometres::ZERO).min(MOST_SPACING);
        let stands = stands(known, planting, now);
        recorded.outside += stands.outside;
        recorded.plants.extend(stands.spots.iter().map(|&spot| Plant::open(spot, spacing)));
    }
    recorded
}

/// Where the plants of a planting stand in its bed as it is now; nothing where it was not told.
#[must_use]
pub fn stands(known: &garden::Bed, planting: &Planting, now: &Bed) -> Stands {
    let mut stands = Stands::default();
    let Some(sites) = &planting.at else {
        return stands;
    };
    let mut spots: Vec<Option<Spot>> = sites.places().into_iter().map(Some).collect();
    let holes = sites.holes();
    if !holes.is_empty() {
        let then = shape(known.shape_at(planting.since));
        let sites = then.as_ref().and_then(Bed::drip).map(Drip::holes).unwrap_or_default();
        let place = |hole: &Hole| {
            let meant = |site: &&Site| (site.line, site.hole) == (Some(hole.line), Some(hole.hole));
            Some(sites.iter().find(meant)?.spot)
        };
        spots.extend(holes.iter().map(place));
    }
    for spot in spots {
        match spot.and_then(|spot| within(now, spot)) {
            Some(spot) => stands.spots.push(spot),
            None => stands.outside += 1,
        }
    }
    stands
}

/// The spot in the bed; outside of it by no more than a tape measure may be off, the one beside it.
fn within(bed: &Bed, spot: Spot) -> Option<Spot> {
    let side = |at: Micrometres, side: Micrometres| at.max(Micrometres::ZERO).min(side);
    let near =
        Spot { along: side(spot.along, bed.length()), across: side(spot.across, bed.width()) };
    let off = TOLERANCE.get();
    (spot.square_to(&near) <= off * off).then_some(near)
}

/// The bed of a shape as the record keeps it, if it can be read.
pub(crate) fn shape(shape: &Object) -> Option<Bed> {
    let shape = Value::Object(shape.clone());
    let mut faults = Faults::default();
    let described = Described::from_given(Some(&shape), "bed", &mut faults);
    // Faults, in whatever system they are told, are for the form that wrote it.
    Some(described.read(System::default(), &mut faults)?.bed)
}
