//! A crop as it is asked for in a bed: looked up, with its spacing, margin and sites.

use core::fmt;

use crate::{
    bed::{Bed, Need, micrometres},
    catalogue::{Crop, Habit, KnownCrop},
    given::{Faults, Given},
    layout::{EdgeMargin, LEAST_SPACING, MOST_SPACING, SiteChoice, Want},
    order,
    quantity::{Length, Micrometres, Quantity, System, show_spacing},
    text::small,
};

/// In micrometres.
const HALF_A_CENTIMETRE: i64 = 5_000;

/// A crop that is to go into a bed.
#[derive(Clone)]
pub struct Wanted {
    /// Its row of the catalogue, if it has one.
    pub row: Option<&'static Crop>,
    /// What the gardener called it.
    pub called: String,
    /// Its spacing, how many there are and where they may go, as the solver takes them.
    pub want: Want,
    /// Whether the gardener said where they may go.
    pub sites_given: bool,
}

/// Where plants may go, if the gardener said so; a fault where the bed has no such places.
pub(crate) fn sites_for(
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

impl fmt::Debug for Wanted {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}: {:?}", self.id(), self.want)
    }
}

impl Wanted {
    /// The same at another spacing; the usual sites follow the spacing unless they were given.
    pub(crate) fn at(&self, spacing: Micrometres, bed: &Bed) -> Self {
        let sites = match self.sites_given {
            true => self.want.sites,
            false => SiteChoice::usual(bed, spacing),
        };
        Self { want: Want { spacing, sites, ..self.want }, ..self.clone() }
    }

    /// The crop's id, or the gardener's own word.
    pub(crate) fn id(&self) -> &str {
        self.row.map_or(&self.called, |row| row.id())
    }

    /// The crop's name as a sentence goes on with it.
    pub(crate) fn name(&self) -> String {
        self.row.map_or_else(|| self.called.clone(), |row| small(row.name()))
    }

    /// The spacing as it is told.
    pub(crate) fn spacing_told(&self, system: System) -> String {
        show_spacing(self.want.spacing.to_length(), system)
    }

    /// The crop's published range of spacing, whole inches or centimetres, from wide to narrow.
    pub(crate) fn steps(&self, system: System) -> Vec<Micrometres> {
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

/// Reads a crop and its spacing. A crop that is in no row is taken where its spacing is given.
pub(crate) fn crop_and_spacing(
    crop: &Given<KnownCrop>,
    spacing: &Given<Length>,
    system: System,
    faults: &mut Faults,
) -> Option<(Option<&'static Crop>, Micrometres)> {
    let row = match crop.is_own_word() && spacing.is_given() {
        true => Some(None),
        false => crop.need(faults).map(|KnownCrop(row)| Some(row)),
    };
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
    if crop.is_own_word() && !spacing.is_given() {
        spacing.refuse(faults, Length::EXAMPLES, "with its spacing any crop is taken");
    }
    match (row?, given) {
        (row, Some(given)) => Some((row, given?)),
        (row, None) => {
            let usual = row.and_then(Crop::spacing).map(|range| range.usual);
            let usual = usual.and_then(Micrometres::from_length);
            if usual.is_none() {
                spacing.refuse(
                    faults,
                    Length::EXAMPLES,
                    "no spacing is published for this crop here",
                );
            }
            Some((row, usual?))
        }
    }
}

/// The bed's own margin, else the habit's with drip, else half the spacing.
pub(crate) fn edge_margin(bed: &Bed, row: Option<&'static Crop>) -> EdgeMargin {
    // What is in no row is taken as neither upright nor sprawling.
    let habit = row.map_or(Habit::Usual, Crop::habit).edge_margin();
    match (bed.edge_margin(), bed.drip(), Micrometres::from_length(habit)) {
        (Some(margin), ..) => EdgeMargin::Of(margin),
        (None, Some(_), Some(margin)) => EdgeMargin::Of(margin),
        _ => EdgeMargin::HalfSpacing,
    }
}

/// "15 to 18 in" for a crop's published range.
pub(crate) fn range_words(row: &Crop, system: System) -> Option<String> {
    let range = row.spacing()?;
    let most = show_spacing(range.most, system);
    if range.least == range.most {
        return Some(most);
    }
    let least = show_spacing(range.least, system);
    let number = least.rsplit_once(' ').map_or(least.as_str(), |(number, _)| number);
    Some(format!("{number} to {most}"))
}
