//! What is asked, and how it is read.

use crate::{
    asking::Asking,
    bed::{Bed, BedAsked, Meant, Need, Spot, micrometres},
    catalogue::KnownCrop,
    garden::needed_bed,
    given::{Faults, Given, asked},
    layout::{
        Aim, Fault, MOST_PLANTS, MOST_SPACING, MOST_STANDING, MOST_WANTS, Plant, Request,
        SiteChoice, Want,
    },
    plan::{Wanted, crop_and_spacing, edge_margin, recorded, sites_for},
    quantity::{Length, System, show_spacing},
};

asked! {
    /// How many plants fit in a bed?
    pub struct Asked {
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked> = "Bed",
        /// The crops that are to go in, in order of wanting.
        plants: Vec<PlantAsked> = "",
        /// Which crop goes first when not all fit.
        aim: Given<Aim> = "When not all fit",
        /// What is in the bed already, beside what the record tells.
        standing: Vec<StandingAsked>,
    }
}

asked! {
    /// One crop that is to go into the bed.
    pub struct PlantAsked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
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
        crop: Given<KnownCrop>,
        /// The space it needs; the usual one of the crop if absent.
        spacing: Given<Length>,
        /// From the left end.
        along: Given<Length>,
        /// From the near side.
        across: Given<Length>,
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question {
    pub(super) meant: Meant,
    /// The crops, in order of wanting; at least one.
    pub(super) wanted: Vec<Wanted>,
    /// What stays in the bed.
    pub(super) standing: Vec<Plant>,
    /// How many plants of the record have no place in it any longer.
    pub(super) outside: u32,
    pub(super) aim: Aim,
}

impl Question {
    /// The same with these crops, for the solver.
    pub(super) fn request(&self, wanted: &[Wanted]) -> Result<Request<'_>, Vec<Fault>> {
        let wants: Vec<Want> = wanted.iter().map(|wanted| wanted.want).collect();
        Request::new(&self.meant.bed, &wants, &self.standing, self.aim)
    }
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let system = asking.system;
        let meant = needed_bed(self.bed.as_ref(), asking.garden, system, faults);
        let aim = self.aim.read(faults).unwrap_or_default();
        if self.plants.is_empty() {
            let why = "what is to go in is needed for an answer";
            faults.add("plants", "", "at least one crop", why);
        }
        // Without the bed the crops are still read, so that their faults show too.
        let bed = meant.as_ref().map(|meant| &meant.bed);
        let wanted: Vec<Wanted> =
            self.plants.iter().filter_map(|plant| plant.read(bed, system, faults)).collect();
        let mut standing: Vec<Plant> =
            self.standing.iter().filter_map(|plant| plant.read(system, faults)).collect();
        let meant = meant?;
        if wanted.len() != self.plants.len() || standing.len() != self.standing.len() {
            return None;
        }
        // Behind those of the question, so that a fault's place is one in the question's list.
        let recorded = recorded(asking.garden, meant.id.as_deref(), &meant.bed);
        standing.extend(recorded.plants);
        let question = Question { meant, wanted, standing, outside: recorded.outside, aim };
        if let Err(wrong) = question.request(&question.wanted) {
            self.refuse(&wrong, system, faults);
            return None;
        }
        Some(question)
    }

    /// Notes what the solver can't take, beside the field it came from.
    fn refuse(&self, wrong: &[Fault], system: System, faults: &mut Faults) {
        for fault in wrong {
            let (field, allowed, why) = match *fault {
                // Told where the crops were read, with or without a bed.
                Fault::NothingWanted
                | Fault::NoDrip(_)
                | Fault::Spacing(_)
                | Fault::EdgeMargin(_) => continue,
                Fault::TooManyWants => (
                    "plants".to_owned(),
                    format!("at most {MOST_WANTS} crops"),
                    "that is more than one bed is laid out for",
                ),
                Fault::TooManyPlants(at) => (
                    format!("plants.{at}.spacing"),
                    format!("a spacing at which at most {MOST_PLANTS} fit"),
                    "so many are sown in rows, not set one by one",
                ),
                Fault::TooManyStanding => (
                    if self.standing.is_empty() { "bed" } else { "standing" }.to_owned(),
                    format!("at most {MOST_STANDING} plants"),
                    "that is more than one bed holds",
                ),
                Fault::StandingOutside(at) => (
                    format!("standing.{at}.along"),
                    "a place inside the bed".to_owned(),
                    "that lies outside the bed",
                ),
                Fault::StandingSpacing(at) => (
                    format!("standing.{at}.spacing"),
                    format!("at most {}", show_spacing(MOST_SPACING.to_length(), system)),
                    "no plant needs so much",
                ),
            };
            faults.add(&field, "", allowed, why);
        }
    }
}

impl PlantAsked {
    /// Reads one wanted crop for this bed.
    fn read(&self, bed: Option<&Bed>, system: System, faults: &mut Faults) -> Option<Wanted> {
        let on_hand = self.on_hand.read(faults);
        let sites = sites_for(&self.sites, bed, faults);
        let (row, spacing) = crop_and_spacing(&self.crop, &self.spacing, system, faults)?;
        let bed = bed?;
        let want = Want {
            spacing,
            on_hand,
            sites: sites.unwrap_or(SiteChoice::usual(bed, spacing)),
            edge_margin: edge_margin(bed, row),
        };
        let called = self.crop.text().unwrap_or_default().to_owned();
        Some(Wanted { row, called, want, sites_given: sites.is_some() })
    }
}

impl StandingAsked {
    /// Reads one plant that is in the bed already.
    fn read(&self, system: System, faults: &mut Faults) -> Option<Plant> {
        let along = micrometres(&self.along, Need::Yes, faults);
        let across = micrometres(&self.across, Need::Yes, faults);
        let (_, spacing) = crop_and_spacing(&self.crop, &self.spacing, system, faults)?;
        Some(Plant::open(Spot { along: along?, across: across? }, spacing))
    }
}
