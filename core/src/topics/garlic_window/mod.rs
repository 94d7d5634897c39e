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
    question::spacing,
    steps::Season,
    which_bed::Out,
    window::{Inputs, Now, Winter},
    words::Found,
};
use crate::{
    asking::Asking,
    catalogue::{
        Crop,
        garlic::{Kind, garlic},
    },
    given::Faults,
    layout::Layout,
    place::{
        air::of_celsius,
        known_soil::{BedSoil, depth},
        readings::{self, Reading},
        site::SiteAsked,
        soil::{Mulch, Texture},
    },
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
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let today = asking.need_today(faults);
    let kind = asked.kind.read(faults);
    let depth = depth(&asked.depth, faults);
    let mulch = asked.mulch.read(faults).unwrap_or(Mulch::Bare);
    let given = asked.readings.iter();
    let readings: Vec<Reading> =
        given.filter_map(|reading| reading.read(asking.today, faults)).collect();
    let meant = asked.bed.as_ref().and_then(|bed| bed.read(asking.garden, asking.system, faults));
    let spacing = spacing(&asked.spacing, faults);
    let cloves_per_kg = asked.cloves_per_kg.read(faults).map(|ClovesPerKg(cloves)| cloves);
    let white_rot = asked.white_rot.read(faults) == Some(true);
    // In a winter that freezes the usual first frost alone says something.
    if site.first_frost.is_none() || site.air.is_some() {
        site.need_air(faults)?;
    }
    let (today, depth, spacing) = (today?, depth?, spacing?);
    if !faults.is_empty() {
        return None;
    }

    let garden = asking.garden;
    let recorded = meant.as_ref().and_then(|meant| garden.bed(meant.id.as_deref()?));
    let readings = match recorded {
        Some(bed) if readings.is_empty() => bed.soil_readings(),
        _ => readings,
    };
    let texture = site.soil.unwrap_or(Texture::Loam);
    let soil = site.air.as_ref().map(|air| BedSoil::new(air, texture, mulch, &readings, today));
    let first_frost = site.frost_dates().and_then(|dates| dates.first.half).or(site.first_frost);
    let stays_cool = readings::stays_below(&readings, of_celsius(10.0), today);
    let mut planting = match (&soil, first_frost) {
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
    let kind_given = kind.is_some();
    let kind = kind.unwrap_or(Kind::Hardneck);
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
    let weight =
        |each: Mass| cloves.map(|cloves| bed_quantities::weight(cloves, each).get::<kilogram>());
    let usual = garlic().and_then(Crop::piece_mass);
    let each = cloves_per_kg
        .map(|cloves| Mass::new::<kilogram>(1.0 / cloves))
        .or(usual.map(|usual| usual.usual))
        .unwrap_or_else(|| Mass::new::<pound>(0.02));
    let between = usual.filter(|_| cloves_per_kg.is_none());
    let rounded = |kg: f64| (kg * 1000.0).round() / 1000.0;
    let opens = planting.window.and_then(|window| window.opens.likely).unwrap_or(today);
    let choice = Choice { opens, best: best.unwrap_or(today), closes: closes.unwrap_or(today) };
    let known = record::candidates(garden, site.air.as_ref(), texture, today);
    let beds = choice.beds(&known, asking.today);
    let of_the_record = |id: &str| known.iter().find(|(bed, _)| bed.id == id).copied();
    let place = match &meant {
        Some(meant) => meant.id.as_deref().and_then(of_the_record),
        None => {
            // What is kept for garlic already, else the best.
            let mut fit = beds.iter().filter(|bed| bed.out.is_none());
            let mut fit_too = fit.clone().filter_map(|bed| of_the_record(&bed.bed));
            let kept = fit_too.find(|(bed, _)| record::kept_from(bed, today).is_some());
            kept.or_else(|| of_the_record(&fit.next()?.bed))
        }
    };
    let growing_since = meant.as_ref().and(place).and_then(|(bed, _)| record::growing_since(bed));
    let season = |planted: NaiveDate| {
        let year = window::planting_year(planted, site.is_south());
        let grows = soil.as_ref().and_then(|soil| soil.year.rises_through(of_celsius(4.4), depth));
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
    let steps = growing_since.or(to_plant).map_or_else(Vec::new, |planted| {
        let steps = steps::after_planting(kind, &season(planted), asking.system);
        // What is in the ground is planted.
        let done = usize::from(growing_since.is_some());
        steps.into_iter().skip(done).collect()
    });
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
        seed_kg: weight(each).map(rounded),
        seed_between_kg: between.and_then(|between| {
            let (least, most) = (weight(between.least)?, weight(between.most)?);
            Some([rounded(least), rounded(most)])
        }),
        bulbs_to_keep: cloves
            .map(|cloves| bed_quantities::bulbs_to_keep(cloves, kind.cloves_to_plant())),
        beds,
        steps,
    };
    let mut out = meant
        .as_ref()
        .filter(|_| growing_since.is_none())
        .and_then(|meant| choice.out(meant, place));
    if white_rot {
        out = Some(Out::WhiteRot);
    }
    let telling = words::tell(&Found {
        asking,
        today,
        kind,
        kind_given,
        depth,
        bed: meant.as_ref(),
        place,
        growing_since,
        out,
        white_rot,
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
