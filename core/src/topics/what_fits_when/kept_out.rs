//! What a sickness or weedkiller that the record tells of keeps out of a bed.

use chrono::{Datelike, NaiveDate};

use crate::{
    catalogue::{Crop, Family, residue},
    garden::{Bed, Dated},
    given::Readable,
    journal::details::ResidueLaid,
    topics::residue_wait::{Flag, IllnessSaid, same_family, weedkiller_harms},
};

/// A weedkiller counts for so many years (from memory: a season or more).
const WEEDKILLER_YEARS: i32 = 1;

/// Why a crop is kept out, and until which year.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct KeptOut {
    /// "clubroot".
    pub(super) by: &'static str,
    /// The first year in which it may come back.
    pub(super) until: i32,
}

/// What keeps that crop out of the bed on a day; `None` where nothing does.
pub(super) fn kept_out(crop: &Crop, bed: &Bed, from: NaiveDate) -> Option<KeptOut> {
    let of_one = |laid: &Dated<ResidueLaid>| {
        let flagged = |flag: Flag| laid.what.flags.iter().any(|told| told == flag.word());
        let illness = laid.what.illness.as_deref();
        let illness = illness.and_then(|told| IllnessSaid::read(told).ok()).map(|said| said.0);
        let year = laid.when.year();
        if illness.is_some() || flagged(Flag::Diseased) {
            let materials = laid.what.materials.iter();
            let families =
                materials.filter_map(|material| residue(&material.residue).ok()?.family());
            if let Some(family) = same_family(crop, illness, families) {
                let years = illness.and_then(|illness| illness.years());
                let years =
                    years.map_or(i32::from(Family::gap_years(family)), |years| years.least.into());
                let by = illness.and_then(|illness| illness.name()).unwrap_or("sickness");
                return Some(KeptOut { by, until: year + years });
            }
        }
        (flagged(Flag::Herbicide) && weedkiller_harms(crop))
            .then(|| KeptOut { by: "weedkiller", until: year + WEEDKILLER_YEARS })
    };
    let out = bed.residue.iter().filter_map(of_one);
    out.filter(|out| from.year() < out.until).max_by_key(|out| out.until)
}
