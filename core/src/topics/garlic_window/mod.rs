//! Topic `garlic-window`: when to plant garlic, whether the winter is cold enough, in which bed,
//! and how much seed.
//!
//! When: [`window`]. Cold: [`chill`]. The kinds: [`garlic`](crate::catalogue::garlic). Where:
//! [`which_bed`]. What comes after: [`steps`].

mod answer;
pub mod chill;
mod choice;
mod filler;
mod question;
mod record;
pub mod steps;
#[cfg(test)]
mod tests;
pub mod which_bed;
pub mod window;
mod words;

pub use answer::{Answer, BedChoice, OfKind, WindowDates};
pub(crate) use filler::filler;
pub use question::{Asked, ClovesPerKg};
pub(crate) use record::{has_garlic, is_garlic};

use chrono::{Duration, NaiveDate};
use uom::si::{
    f64::Mass,
    mass::{kilogram, pound},
};

use self::{
    chill::{Cold, Verdict},
    choice::Choice,
    question::Question,
    steps::{Season, Step},
    which_bed::{Candidate, Out},
    window::{Inputs, Now, Planting},
    words::Found,
};
use crate::{
    asking::Asking,
    catalogue::{
        Crop,
        garlic::{Kind, garlic},
    },
    garden,
    given::Faults,
    layout::Layout,
    place::{air::of_celsius, known_soil::BedSoil, readings, soil::Texture},
    quantity::System,
    season::{Year, garlic_lifted},
    telling::Telling,
    time::{DAYS_A_YEAR, Range},
    topics::bed_quantities::{self, clove::lay_cloves},
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking, faults)?;
    let Question { ref site, today, depth, ref meant, spacing, .. } = question;
    let texture = site.soil.unwrap_or(Texture::Loam);
    let (soil, usual) = (question.soil(&question.readings), question.soil(&[]));
    let stays_cool = readings::stays_below(&question.readings, of_celsius(10.0), today);
    let planting = planting(&question, soil.as_ref().zip(usual.as_ref()), stays_cool)?;
    let kind = question.kind.unwrap_or(Kind::Hardneck);
    let cold = usual.as_ref().map(|usual| Cold::of(&usual.year));
    let chill = cold.map_or(Verdict::Unsure, |cold| cold.verdict(kind));
    let best = planting.window.and_then(|window| window.best.likely);
    let closes = planting.window.and_then(|window| window.closes.likely);
    let chilled = plant_chilled(&question, &planting, usual.as_ref());
    let kinds = kinds(&question, &planting, cold, chilled);
    let is_mild = cold.is_some() && chill != Verdict::Enough;
    let side_by_side = question.kind.is_none() && is_mild && best.is_some();

    let laid = meant.as_ref().and_then(|meant| lay_cloves(meant, spacing));
    let count = |laid: &Layout| laid.counts.first().copied().unwrap_or(0);
    let cloves = meant.as_ref().map(|_| laid.as_ref().map_or(0, count));
    let (seed_kg, seed_between_kg) = seed(cloves, question.cloves_per_kg);
    let opens = planting.window.and_then(|window| window.opens.likely).unwrap_or(today);
    let choice = Choice { opens, best: best.unwrap_or(today), closes: closes.unwrap_or(today) };
    let known = record::candidates(asking.garden, site.air.as_ref(), texture, today);
    let beds = choice.beds(&known, asking.today);
    let place = place(&question, &beds, &known);
    let growing_since = meant.as_ref().and(place).and_then(|(bed, _)| record::growing_since(bed));
    // Told side by side, the kind that is planted without more ado is the one that is planned.
    let planned = if side_by_side { Kind::Softneck } else { kind };
    let plant_chilled = chilled.filter(|_| chill == Verdict::Short && !side_by_side);
    let dates = Dates { planting: &planting, growing_since, plant_chilled, kind: planned };
    let (steps, lift) = dates.steps(&question, soil.as_ref(), asking.system);
    let answer = Answer {
        window: planting.window.map(|window| WindowDates {
            opens: window.opens,
            best: window.best,
            closes: window.closes,
        }),
        winter: planting.window.map(|window| window.winter),
        freeze_up: planting.freeze_up,
        chill_weeks: cold.map(|cold| (f64::from(cold.days_at_10_c) / 0.7).round() / 10.0),
        chill,
        prechill_from: kinds.last().and_then(|hardneck| hardneck.prechill_from),
        kinds,
        lift,
        now: planting.now,
        cloves,
        seed_kg,
        seed_between_kg,
        bulbs_to_keep: cloves
            .map(|cloves| bed_quantities::bulbs_to_keep(cloves, planned.cloves_to_plant())),
        beds,
        steps,
    };
    let mut out = meant
        .as_ref()
        .filter(|_| growing_since.is_none())
        .and_then(|meant| choice.out(meant, place));
    if question.white_rot {
        out = Some(Out::WhiteRot);
    }
    let telling = words::tell(&Found {
        asking,
        today,
        kind,
        kind_given: question.kind.is_some(),
        depth,
        bed: meant.as_ref(),
        place,
        growing_since,
        out,
        white_rot: question.white_rot,
        soil: soil.as_ref(),
        cold,
        planting: &planting,
        stays_cool,
        spacing,
        laid: laid.as_ref(),
        plant_chilled,
        side_by_side,
        answer: &answer,
    });
    Some((telling, answer))
}

/// The window for planting at this place, and how today stands to it; `soil` by the readings and without.
fn planting(
    question: &Question,
    soil: Option<(&BedSoil, &BedSoil)>,
    stays_cool: bool,
) -> Option<Planting> {
    let Question { site, today, depth, .. } = question;
    let (today, depth) = (*today, *depth);
    let first_frost = site.frost_dates().and_then(|dates| dates.first.half).or(site.first_frost);
    let mut planting = match (soil, first_frost) {
        (Some((soil, usual)), first_frost) => window::planting(&Inputs {
            soil: &soil.year,
            usual: &usual.year,
            soil_sd: soil.sd,
            depth,
            first_frost,
            south: site.is_south(),
            today,
        }),
        (None, Some(first_frost)) => window::from_first_frost(first_frost, site.is_south(), today),
        // OK because without the air and without a first frost the question was refused above.
        (None, None) => return None,
    };
    if planting.now == Some(Now::Early) && stays_cool {
        // The gardener's own thermometer overrules the usual year.
        planting.now = Some(Now::In);
    }
    Some(planting)
}

/// The day to plant seed that was chilled first, where there is one.
fn plant_chilled(
    question: &Question,
    planting: &Planting,
    usual: Option<&BedSoil>,
) -> Option<NaiveDate> {
    let Question { site, today, depth, .. } = question;
    if let Some(window) = planting.window {
        return window::plant_chilled(window.best.likely?, window.closes.likely?, *today);
    }
    let year = &usual?.year;
    window::never_cools(year, *depth)
        .then(|| window::where_it_never_cools(year, *depth, site.is_south(), *today))?
}

/// What the kind asked about, or each kind, wants here.
fn kinds(
    question: &Question,
    planting: &Planting,
    cold: Option<Cold>,
    chilled: Option<NaiveDate>,
) -> Vec<OfKind> {
    let today = question.today;
    let best = planting.window.and_then(|window| window.best.likely);
    let of = |kind: &Kind| {
        let chill = cold.map_or(Verdict::Unsure, |cold| cold.verdict(*kind));
        let chilled = chilled.filter(|_| chill == Verdict::Short || best.is_none());
        let plant = match planting.now {
            _ if chill == Verdict::Short => chilled,
            Some(Now::GroundFrozen) => planting.thaw,
            _ => chilled.or(best),
        };
        OfKind {
            kind: *kind,
            chill,
            prechill_from: chilled.map(|plant| window::prechill_from(plant).max(today)),
            plant: plant.map(|plant| plant.max(today)),
        }
    };
    let both = [Kind::Softneck, Kind::Hardneck];
    question.kind.as_ref().map_or(both.as_slice(), core::slice::from_ref).iter().map(of).collect()
}

/// What so many cloves weigh, kg; and where they are large and where they are small.
fn seed(cloves: Option<u32>, cloves_per_kg: Option<f64>) -> (Option<f64>, Option<[f64; 2]>) {
    let weight =
        |each: Mass| cloves.map(|cloves| bed_quantities::weight(cloves, each).get::<kilogram>());
    let usual = garlic().and_then(Crop::piece_mass);
    let each = cloves_per_kg
        .map(|cloves| Mass::new::<kilogram>(1.0 / cloves))
        .or(usual.map(|usual| usual.usual))
        .unwrap_or_else(|| Mass::new::<pound>(0.02));
    let between = usual.filter(|_| cloves_per_kg.is_none());
    let rounded = |kg: f64| (kg * 1000.0).round() / 1000.0;
    let between = between.and_then(|between| {
        let (least, most) = (weight(between.least)?, weight(between.most)?);
        Some([rounded(least), rounded(most)])
    });
    (weight(each).map(rounded), between)
}

/// The bed of the record that is meant: the one asked about, else the best for garlic.
fn place<'a>(
    question: &Question,
    beds: &[BedChoice],
    known: &[(&'a garden::Bed, Candidate<'a>)],
) -> Option<(&'a garden::Bed, Candidate<'a>)> {
    let today = question.today;
    let of_the_record = |id: &str| known.iter().find(|(bed, _)| bed.id == id).copied();
    match &question.meant {
        Some(meant) => meant.id.as_deref().and_then(of_the_record),
        None => {
            // What is kept for garlic already, else the best.
            let mut fit = beds.iter().filter(|bed| bed.out.is_none());
            let mut fit_too = fit.clone().filter_map(|bed| of_the_record(&bed.bed));
            let kept = fit_too.find(|(bed, _)| record::kept_from(bed, today).is_some());
            kept.or_else(|| of_the_record(&fit.next()?.bed))
        }
    }
}

/// From what the dates of the steps follow.
struct Dates<'a> {
    planting: &'a Planting,
    /// Since when it grows in the bed asked about.
    growing_since: Option<NaiveDate>,
    /// The day to plant chilled seed, where it is chilled.
    plant_chilled: Option<NaiveDate>,
    kind: Kind,
}

impl Dates<'_> {
    /// What comes after planting, of what is in the ground, after today; and when it is lifted.
    fn steps(
        &self,
        question: &Question,
        soil: Option<&BedSoil>,
        system: System,
    ) -> (Vec<Step>, Option<Range>) {
        let Question { site, today, depth, .. } = question;
        let (today, depth) = (*today, *depth);
        let Self { planting, growing_since, plant_chilled, kind } = *self;
        let best = planting.window.and_then(|window| window.best.likely);
        let to_plant = match (planting.now, best) {
            (Some(Now::GroundFrozen), Some(best)) => Some(planting.thaw.unwrap_or(best).max(today)),
            (_, Some(best)) => Some(plant_chilled.unwrap_or(best).max(today)),
            (_, None) => plant_chilled,
        };
        let Some(planted) = growing_since.or(to_plant) else {
            return (Vec::new(), None);
        };
        let spring = window::planting_year(planted, site.is_south());
        let grows = soil.and_then(|soil| soil.year.rises_through(of_celsius(4.4), depth));
        let lifted = match Year::of(site) {
            Some(year) => garlic_lifted(&year, planted, kind),
            None => best.map(|best| {
                // The window may be that of another autumn than the one it was planted in.
                let years = spring - window::planting_year(today, site.is_south());
                let shift = Duration::days((f64::from(years) * DAYS_A_YEAR).round() as i64);
                steps::lifted_by_rule(planted, best + shift)
            }),
        };
        let growth_resumes = grows.map(|warms| warms.day.in_year(spring));
        let season = Season { planted, growth_resumes, lifted };
        let steps = steps::after_planting(kind, &season, system);
        // What is in the ground is planted.
        let done = usize::from(growing_since.is_some());
        (steps.into_iter().skip(done).collect(), lifted)
    }
}
