//! What else stands between a bed and its next crop: raw manure, a thick wet mat, and the season.
//!
//! Raw manure: what touches the soil is picked 120 days after it was spread or later, the rest 90 (US
//! National Organic Program, 7 CFR 205.203). Its ammonia and salts burn roots and seed for some weeks
//! (common practice).

use chrono::{Duration, NaiveDate};
use uom::si::areal_mass_density::kilogram_per_square_meter;

use super::{
    clock::Moisture,
    limits::{Limit, Plan},
    materials::Mixture,
    question::Question,
    soil::{Season as SoilSeason, SoilKnown},
};
use crate::{
    catalogue::{Crop, Family, Height, ResidueKind, Start},
    season::{How, Reason},
    starts::season::Season,
    time::Range,
};

/// Days from spreading raw manure to picking: what touches the soil, and the rest.
const MANURE_DAYS: [i64; 2] = [120, 90];
/// So long fresh manure burns: soonest, likely, for certain (common practice).
const BURNS_DAYS: [i64; 3] = [14, 21, 28];
/// Greens so thick and soggy rot without air, kg of dry matter a square metre: an inch of grass as it
/// is mown (derived from its weight).
const THICK: f64 = 2.0;
/// So long that takes, thinned and turned or not: as a foul smell (common practice).
const AIRLESS_DAYS: [i64; 3] = [7, 14, 28];

/// Whether any of it is manure.
pub(super) fn has_manure(question: &Question) -> bool {
    question.materials.iter().any(|material| material.residue.kind() == ResidueKind::Manure)
}

/// Days from spreading raw manure to picking that crop.
pub(super) fn manure_days(crop: &Crop) -> i64 {
    let [touches, off_the_ground] = MANURE_DAYS;
    let fruit = crop.family() == Family::Tomato && !crop.starts().contains(&Start::Tuber);
    let climbs = crop.family() == Family::Bean && crop.height() == Height::VeryTall;
    if fruit || climbs || crop.family() == Family::Grass { off_the_ground } else { touches }
}

/// Whether it lies so thick and wet that it rots without air.
pub(super) fn is_airless(question: &Question, mixture: &Mixture) -> bool {
    let thick = THICK <= mixture.dry.get::<kilogram_per_square_meter>();
    question.moisture == Moisture::Soggy && mixture.load.green && thick
}

/// Each with its range, and why the season is not there on the first day.
pub(super) fn also(
    question: &Question,
    mixture: Option<&Mixture>,
    from: NaiveDate,
) -> (Vec<(Limit, Range)>, Option<Reason>) {
    let mut also = Vec::new();
    let after = |date: NaiveDate, [early, likely, late]: [i64; 3]| {
        let on = |days| Some(date + Duration::days(days));
        Range { early: on(early), likely: on(likely), late: on(late) }
    };
    if has_manure(question) {
        let mut days = BURNS_DAYS;
        if let Some((crop, span)) =
            question.crop.and_then(|crop| Some((crop, crop.days_to_harvest()?)))
        {
            let raise = match (question.plan, crop.starts()) {
                (Plan::DirectSow, [Start::Transplant, ..]) => crop.weeks_to_plant(),
                _ => None,
            };
            let raise = raise.map_or(0, |weeks| weeks.least.num_days());
            let wait = manure_days(crop) - raise;
            let [early, likely, late] = BURNS_DAYS;
            let soonest = wait - span.least.num_days();
            days = [early.max(wait - span.most.num_days()), likely.max(soonest), late.max(soonest)];
        }
        also.push((Limit::RawManure, after(question.laid, days)));
    }
    if mixture.is_some_and(|mixture| is_airless(question, mixture)) {
        also.push((Limit::WetMat, after(from, AIRLESS_DAYS)));
    }
    let Some((crop, season)) = question.crop.zip(season(question)) else { return (also, None) };
    let how = match question.plan {
        Plan::Transplant => How::SetOut,
        Plan::DirectSow => How::Sown,
    };
    let reason = season.course(crop, how, from).and_then(|course| course.reason);
    match season.first(crop, how, from) {
        Some(first) if first != Some(from) => {
            also.push((Limit::Season, Range { early: first, likely: first, late: first }));
        }
        _ => return (also, None),
    }
    (also, reason)
}

/// The place's season, in the bed's soil where its readings tell.
fn season(question: &Question) -> Option<Season> {
    let soil = match &question.soil {
        SoilKnown::Season(SoilSeason::Place(soil, _))
        | SoilKnown::Days(_, SoilSeason::Place(soil, _)) => Some(soil.year),
        _ => None,
    };
    // A mulch keeps soil cold; what goes in parts it, so its own shift is left to the limits.
    Season::of(&question.site, soil.as_ref())
}
