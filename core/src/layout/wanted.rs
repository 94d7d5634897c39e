//! A crop as it is asked for in a bed: looked up, with its spacing, margin and sites.

use super::{EdgeMargin, LEAST_SPACING, MOST_SPACING, SiteChoice, Standing, Want};
use crate::{
    bed::{Bed, Need, micrometres},
    catalogue::{self, Crop},
    garden::Garden,
    given::{Control, Faults, Given, Text, asked},
    journal::Sites,
    order,
    quantity::{Length, Micrometres, Quantity, System, show_spacing},
    text::small,
};

asked! {
    /// One crop that is to go into the bed.
    pub struct PlantAsked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<Text> = "Crop" as Control::Crop,
        /// The space between its plants; the usual one of the crop if absent.
        spacing: Given<Length> = "Space between",
        /// How many there are; as many as fit if absent.
        on_hand: Given<u32> = "How many have you",
        /// Where its plants may go.
        sites: Given<SiteChoice> = "Where the plants may go",
    }
}

asked! {
    /// One plant that is in the bed already.
    pub struct StandingAsked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<Text>,
        /// The space it needs; the usual one of the crop if absent.
        spacing: Given<Length>,
        /// From the left end.
        along: Given<Length>,
        /// From the near side.
        across: Given<Length>,
    }
}

/// In micrometres.
const HALF_A_CENTIMETRE: i64 = 5_000;

/// A crop that is to go into a bed.
#[derive(Clone, Copy)]
pub(super) struct Wanted<'a> {
    /// Its row of the catalogue, if it has one.
    pub row: Option<&'static Crop>,
    /// What the gardener called it.
    pub given: &'a str,
    /// The space between its plants.
    pub spacing: Micrometres,
    /// How many there are.
    pub on_hand: Option<u32>,
    /// Where its plants may go.
    pub sites: SiteChoice,
    /// Whether the gardener said where.
    pub sites_given: bool,
    /// The room kept at the sides.
    pub edge_margin: EdgeMargin,
}

impl PlantAsked {
    /// Reads one wanted crop for this bed.
    pub(super) fn read(
        &self,
        bed: Option<&Bed>,
        system: System,
        faults: &mut Faults,
    ) -> Option<Wanted<'_>> {
        let on_hand = self.on_hand.read(faults);
        let sites = sites_for(&self.sites, bed, faults);
        let (row, spacing) = crop_and_spacing(&self.crop, &self.spacing, system, faults)?;
        let bed = bed?;
        Some(Wanted {
            row,
            given: self.crop.text().unwrap_or_default(),
            spacing,
            on_hand,
            sites: sites.unwrap_or(SiteChoice::usual(bed, spacing)),
            sites_given: sites.is_some(),
            edge_margin: edge_margin(bed, row),
        })
    }
}

/// Where plants may go, if the gardener said so; a fault where the bed has no such places.
pub(super) fn sites_for(
    given: &Given<SiteChoice>,
    bed: Option<&Bed>,
    faults: &mut Faults,
) -> Option<SiteChoice> {
    let sites = given.read(faults)?;
    if sites != SiteChoice::Anywhere && bed.is_some_and(|bed| bed.drip().is_none()) {
        given.refuse(faults, "anywhere", "the bed has no drip lines");
    }
    Some(sites)
}

impl<'a> Wanted<'a> {
    /// The same at another spacing; the usual sites follow the spacing unless they were given.
    pub(super) fn at(&self, spacing: Micrometres, bed: &Bed) -> Self {
        let sites = if self.sites_given { self.sites } else { SiteChoice::usual(bed, spacing) };
        Self { spacing, sites, ..*self }
    }

    /// As the solver takes it.
    pub(super) fn want(&self) -> Want {
        Want {
            spacing: self.spacing,
            on_hand: self.on_hand,
            sites: self.sites,
            edge_margin: self.edge_margin,
        }
    }

    /// The crop's id, or the gardener's own word.
    pub(super) fn id(&self) -> &'a str {
        self.row.map_or(self.given, |row| row.id())
    }

    /// The crop's name as a sentence goes on with it.
    pub(super) fn name(&self) -> String {
        self.row.map_or_else(|| self.given.to_owned(), |row| small(row.name()))
    }

    /// The crop's published range of spacing, whole inches or centimetres, from wide to narrow.
    pub(super) fn steps(&self, system: System) -> Vec<Micrometres> {
        let Some(range) = self.row.and_then(Crop::spacing) else {
            return Vec::new();
        };
        let ends = (Micrometres::from_length(range.least), Micrometres::from_length(range.most));
        let (Some(least), Some(most)) = ends else {
            return Vec::new();
        };
        let step = system.whole_step();
        let first = (least.get() + step.get() - 1).div_euclid(step.get());
        let last = most.get().div_euclid(step.get());
        let whole = (first..=last).map(|count| step * count);
        let mut steps: Vec<Micrometres> = [least, most].into_iter().chain(whole).collect();
        order::sort(&mut steps, &|step| [-step.get(), 0, 0]);
        // Published inches told in centimetres: an end beside a whole step is the same to a gardener.
        steps.dedup_by(|one, other| (*other - *one).get() < HALF_A_CENTIMETRE);
        steps
    }
}

impl StandingAsked {
    /// Reads one plant that is in the bed already.
    pub(super) fn read(&self, system: System, faults: &mut Faults) -> Option<Standing> {
        let along = micrometres(&self.along, Need::Yes, faults);
        let across = micrometres(&self.across, Need::Yes, faults);
        let (_, spacing) = crop_and_spacing(&self.crop, &self.spacing, system, faults)?;
        Some(Standing { along: along?, across: across?, spacing })
    }
}

/// Reads a crop and its spacing. A crop that is in no row is taken where its spacing is given.
pub(crate) fn crop_and_spacing(
    crop: &Given<Text>,
    spacing: &Given<Length>,
    system: System,
    faults: &mut Faults,
) -> Option<(Option<&'static Crop>, Micrometres)> {
    let named = crop.need(faults).map(|Text(name)| catalogue::crop(&name));
    let given = spacing.is_given().then(|| {
        let spacing_read = micrometres(spacing, Need::Yes, faults)?;
        if (LEAST_SPACING..=MOST_SPACING).contains(&spacing_read) {
            return Some(spacing_read);
        }
        let show = |limit: Micrometres| limit.to_length().show(system);
        let allowed = format!("{} to {}", show(LEAST_SPACING), show(MOST_SPACING));
        let why = if spacing_read < LEAST_SPACING {
            "closer than plants are set"
        } else {
            "wider than any bed"
        };
        spacing.refuse(faults, allowed, why);
        None
    });
    match (named?, given) {
        (Ok(row), Some(given)) => Some((Some(row), given?)),
        (Ok(row), None) => {
            match row.spacing().and_then(|range| Micrometres::from_length(range.usual)) {
                Some(usual) => Some((Some(row), usual)),
                None => {
                    spacing.refuse(
                        faults,
                        Length::EXAMPLES,
                        "no spacing is published for this crop here",
                    );
                    None
                }
            }
        }
        (Err(_), Some(given)) => Some((None, given?)),
        (Err(nearest), None) => {
            let names: Vec<String> = nearest.iter().map(|row| small(row.name())).collect();
            let allowed =
                format!("a crop such as {}, or any crop with its spacing", names.join(", "));
            crop.refuse(faults, allowed, "no crop of that name is known");
            None
        }
    }
}

/// The bed's own margin, else the habit's with drip, else half the spacing.
pub(crate) fn edge_margin(bed: &Bed, row: Option<&'static Crop>) -> EdgeMargin {
    // What is in no row is taken as neither upright nor sprawling.
    let habit = row.map_or(catalogue::Habit::Usual, Crop::habit).edge_margin();
    match (bed.edge_margin(), bed.drip(), Micrometres::from_length(habit)) {
        (Some(margin), ..) => EdgeMargin::Of(margin),
        (None, Some(_), Some(margin)) => EdgeMargin::Of(margin),
        _ => EdgeMargin::HalfSpacing,
    }
}

/// What the record says stands in the bed, place by place.
pub(super) fn in_the_record(garden: &Garden, id: &str, bed: &Bed) -> Vec<Standing> {
    let plantings = garden.bed(id).map(|known| known.plantings.as_slice()).unwrap_or_default();
    plantings
        .iter()
        .filter_map(|planting| {
            let row = catalogue::crop(&planting.crop).ok();
            let given = planting.spacing.as_deref().and_then(|text| Length::read(text).ok());
            let spacing = given.or(row.and_then(Crop::spacing).map(|range| range.usual))?;
            let spacing = Micrometres::from_length(spacing)?;
            let spots = spots(bed, planting.at.as_ref()?);
            Some(spots.into_iter().map(move |(along, across)| Standing { along, across, spacing }))
        })
        .flatten()
        .collect()
}

/// Where the plants of a planting stand, from the left end and from the near side.
pub fn spots(bed: &Bed, sites: &Sites) -> Vec<(Micrometres, Micrometres)> {
    let holes = sites.holes().into_iter().filter_map(|hole| {
        let drip = bed.drip()?;
        let line = drip.lines().get(usize::from(hole.line).checked_sub(1)?)?;
        let hops = i64::from(hole.hole).checked_sub(1)?;
        Some((line.first_emitter + drip.emitter_spacing() * hops, line.across))
    });
    let places = sites
        .places()
        .into_iter()
        .map(|place| (Micrometres::new(place.along_um), Micrometres::new(place.across_um)));
    holes.chain(places).collect()
}

/// "15 to 18 in" for a crop's published range.
pub(super) fn range_words(row: &Crop, system: System) -> Option<String> {
    let range = row.spacing()?;
    let most = show_spacing(range.most, system);
    if range.least == range.most {
        return Some(most);
    }
    let least = show_spacing(range.least, system);
    let number = least.rsplit_once(' ').map_or(least.as_str(), |(number, _)| number);
    Some(format!("{number} to {most}"))
}
