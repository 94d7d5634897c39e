//! What is asked, and how it is read.

use crate::{
    asking::Asking,
    bed::{BedAsked, Meant},
    catalogue::{Crop, KnownCrop},
    garden::needed_bed,
    given::{Faults, Given, asked},
    layout::{
        Aim, EdgeMargin, Fault, MOST_PLANTS, MOST_SPACING, MOST_STANDING, Plant, Request,
        SiteChoice, Want,
    },
    plan::{edge_margin, recorded, sites_for},
};

asked! {
    /// So many plants must all go in: how far from each other can they stand?
    pub struct Asked {
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked> = "Bed",
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// How many must go in.
        count: Given<u32> = "How many have you",
        /// Where its plants may go.
        sites: Given<SiteChoice>,
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question {
    pub(super) meant: Meant,
    /// The crop's row of the catalogue, if it has one.
    pub(super) row: Option<&'static Crop>,
    /// What the gardener called it.
    pub(super) called: String,
    /// How many must go in.
    pub(super) count: u32,
    /// Where they may go, if that was said.
    pub(super) sites: Option<SiteChoice>,
    pub(super) edge_margin: EdgeMargin,
    /// What stays in the bed.
    pub(super) standing: Vec<Plant>,
    /// How many plants of the record have no place in it any longer.
    pub(super) outside: u32,
}

impl Question {
    /// The question for the solver, with the plants at such sites.
    pub(super) fn request(&self, sites: SiteChoice) -> Result<Request<'_>, Vec<Fault>> {
        // Its spacing is what is sought; at the widest no bed is too large to be asked about.
        let want = Want {
            spacing: MOST_SPACING,
            on_hand: Some(self.count),
            sites,
            edge_margin: self.edge_margin,
        };
        Request::new(&self.meant.bed, &[want], &self.standing, Aim::InOrder)
    }
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, asking: &Asking<'_>, faults: &mut Faults) -> Option<Question> {
        let meant = needed_bed(self.bed.as_ref(), asking.garden, asking.system, faults);
        // What is no crop of the catalogue has no spacing there to be compared with the one found.
        let row = match self.crop.is_own_word() {
            true => Some(None),
            false => self.crop.need(faults).map(|KnownCrop(row)| Some(row)),
        };
        if !self.count.is_given() {
            self.count.need(faults);
        }
        let limits = format!("1 to {MOST_PLANTS}");
        let count = self.count.within(1, MOST_PLANTS, &limits, faults);
        let bed = meant.as_ref().map(|meant| &meant.bed);
        let sites = sites_for(&self.sites, bed, faults);
        let (meant, row, count) = (meant?, row?, count?);
        let recorded = recorded(asking.garden, meant.id.as_deref(), &meant.bed);
        if recorded.plants.len() > MOST_STANDING {
            let allowed = format!("at most {MOST_STANDING} plants");
            faults.add("bed", "", allowed, "that is more than one bed holds");
            return None;
        }
        Some(Question {
            row,
            called: self.crop.text().unwrap_or_default().to_owned(),
            count,
            sites,
            edge_margin: edge_margin(&meant.bed, row),
            standing: recorded.plants,
            outside: recorded.outside,
            meant,
        })
    }
}
