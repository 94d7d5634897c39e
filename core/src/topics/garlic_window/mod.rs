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

pub use answer::{Answer, BedChoice, WindowDates};
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
    window::{Inputs, Now, Planting, Winter},
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
    telling::Telling,
    time::DAYS_A_YEAR,
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
    let soil = site
        .air
        .as_ref()
        .map(|air| BedSoil::new(air, texture, question.mulch, &question.readings, today));
    let stays_cool = readings::stays_below(&question.readings, of_celsius(10.0), today);
    let planting = planting(&question, soil.as_ref(), stays_cool)?;
    let kind = question.kind.unwrap_or(Kind::Hardneck);
    let cold = soil.as_ref().map(|soil| Cold::of(&soil.year));
    let chill = cold.map_or(Verdict::Unsure, |cold| cold.verdict(kind));
    let best = planting.window.and_then(|window| window.best.likely);
    let closes = planting.window.and_then(|window| window.closes.likely);
    let plant_chilled = best.zip(closes).filter(|_| chill == Verdict::Short);
    let plant_chilled =
        plant_chilled.and_then(|(best, closes)| window::plant_chilled(best, closes, today));

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
    let dates = Dates { planting: &planting, growing_since, plant_chilled };
    let steps = dates.steps(&question, soil.as_ref(), kind, asking.system);
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
        prechill_from: plant_chilled.map(|plant| window::prechill_from(plant).max(today)),
        now: planting.now,
        cloves,
        seed_kg,
        seed_between_kg,
        bulbs_to_keep: cloves
            .map(|cloves| bed_quantities::bulbs_to_keep(cloves, kind.cloves_to_plant())),
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
        answer: &answer,
    });
    Some((telling, answer))
}

/// The window for planting at this place, and how today stands to it.
fn planting(question: &Question, soil: Option<&BedSoil>, stays_cool: bool) -> Option<Planting> {
    let Question { site, today, depth, .. } = question;
    let (today, depth) = (*today, *depth);
    let first_frost = site.frost_dates().and_then(|dates| dates.first.half).or(site.first_frost);
    let mut planting = match (soil, first_frost) {
        (Some(soil), first_frost) => window::planting(&Inputs {
            soil: &soil.year,
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
}

impl Dates<'_> {
    /// What comes after planting; of what is in the ground, after today.
    fn steps(
        &self,
        question: &Question,
        soil: Option<&BedSoil>,
        kind: Kind,
        system: System,
    ) -> Vec<Step> {
        let Question { site, today, depth, .. } = question;
        let (today, depth) = (*today, *depth);
        let Self { planting, growing_since, plant_chilled } = *self;
        let best = planting.window.and_then(|window| window.best.likely);
        let season = |planted: NaiveDate| {
            let year = window::planting_year(planted, site.is_south());
            let grows = soil.and_then(|soil| soil.year.rises_through(of_celsius(4.4), depth));
            // The window may be that of another autumn than the one it was planted in.
            let years = year - window::planting_year(today, site.is_south());
            let shift = Duration::days((f64::from(years) * DAYS_A_YEAR).round() as i64);
            Season {
                planted,
                best: best.map_or(planted, |best| best + shift),
                growth_resumes: grows.map(|warms| warms.day.in_year(year)),
                freezes: planting.window.is_some_and(|window| window.winter == Winter::Freeze),
            }
        };
        let to_plant = planting.now.map(|now| {
            best.map_or(today, |best| match now {
                Now::GroundFrozen => planting.thaw.unwrap_or(best),
                _ => plant_chilled.unwrap_or(best).max(today),
            })
        });
        growing_since.or(to_plant).map_or_else(Vec::new, |planted| {
            let steps = steps::after_planting(kind, &season(planted), system);
            // What is in the ground is planted.
            let done = usize::from(growing_since.is_some());
            steps.into_iter().skip(done).collect()
        })
    }
}
