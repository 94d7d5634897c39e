//! The bed for it: those of the record in order, and why others are out.

use chrono::NaiveDate;

use super::{
    answer::BedChoice,
    record,
    which_bed::{self, Candidate, Out},
    words,
};
use crate::{bed::Meant, garden};

/// The dates a bed is chosen for.
pub(super) struct Choice {
    pub(super) opens: NaiveDate,
    pub(super) best: NaiveDate,
    pub(super) closes: NaiveDate,
}

impl Choice {
    /// The beds of the record in order, those that are out last.
    pub(super) fn beds(
        &self,
        known: &[(&garden::Bed, Candidate<'_>)],
        today: Option<NaiveDate>,
    ) -> Vec<BedChoice> {
        let candidates: Vec<_> = known.iter().map(|(_, candidate)| *candidate).collect();
        let order = which_bed::in_order(&candidates, self.opens, self.best, self.closes);
        let fit =
            order.into_iter().filter_map(|index| known.get(index)).map(|(bed, _)| (bed, None));
        let unfit = known.iter().filter_map(|(bed, candidate)| {
            let out = which_bed::out(candidate, self.best, self.closes)?;
            Some((bed, Some(words::out(out, today))))
        });
        fit.chain(unfit)
            .map(|(bed, out)| BedChoice { bed: bed.id.clone(), name: bed.name.clone(), out })
            .collect()
    }

    /// Why the bed asked about is out, by the record or by what was told of it.
    pub(super) fn out(
        &self,
        meant: &Meant,
        recorded: Option<(&garden::Bed, Candidate<'_>)>,
    ) -> Option<Out> {
        let alliums = meant.history.iter().filter(|past| record::is_allium(&past.what));
        let last_allium = alliums.filter_map(|past| i32::try_from(past.year).ok()).max();
        let described = Candidate { last_allium, drained: meant.drains, ..Candidate::default() };
        let candidate = recorded.map_or(described, |(_, candidate)| candidate);
        which_bed::out(&candidate, self.best, self.closes)
    }
}
