//! The question, read and answered.

use chrono::{Duration, NaiveDate};
use uom::si::{
    f64::Mass,
    mass::{kilogram, pound},
};

use super::{
    chill::{Cold, Verdict},
    record,
    steps::{self, Season, Step},
    which_bed::{self, Candidate, Out},
    window::{self, Inputs, Now, Planting, Winter},
    words,
};
use crate::{
    asking::Asking,
    bed::{BedAsked, Meant},
    catalogue::{
        Crop,
        garlic::{Kind, garlic},
    },
    garden,
    given::{Faults, Given, Readable, asked},
    journal::Sites,
    layout::Layout,
    place::{
        air::of_celsius,
        known_soil::{BedSoil, ReadingAsked, depth},
        readings::{self, Reading},
        site::SiteAsked,
        soil::{Mulch, Texture},
    },
    quantity::{Length, Unreadable, number::read_number},
    telling::Telling,
    time::{DAYS_A_YEAR, Range},
    topics::bed_quantities::{self, clove::lay_cloves},
};

asked! {
    /// When is garlic planted?
    pub struct Asked {
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
        /// The kind of garlic; hardneck if absent.
        kind: Given<Kind>,
        /// Where the soil's temperature counts; 4 in if absent.
        depth: Given<Length>,
        /// What lies on the soil.
        mulch: Given<Mulch>,
        /// Soil readings of the bed.
        readings: Vec<ReadingAsked>,
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked>,
        /// The space between cloves; the usual one if absent.
        spacing: Given<Length>,
        /// How many cloves weigh a kilogram; 110 if absent.
        cloves_per_kg: Given<ClovesPerKg>,
        /// Whether white rot was ever seen in this bed.
        white_rot: Given<bool>,
    }
}

/// How many cloves weigh a kilogram.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClovesPerKg(f64);

impl Readable for ClovesPerKg {
    fn allowed() -> String {
        "how many cloves weigh a kilogram, from 20 to 500".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let cloves = read_number(text)?;
        if (20.0..=500.0).contains(&cloves) {
            return Ok(Self(cloves));
        }
        Err(Unreadable {
            allowed: Self::allowed(),
            why: "garlic is not so small or so large".to_owned(),
        })
    }
}

/// When, where and how much.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The window for planting; null where the soil's year has no place for one.
    pub window: Option<WindowDates>,
    /// The kind of winter it is drawn for.
    pub winter: Option<Winter>,
    /// When the soil usually freezes; null where it doesn't, or where it isn't known.
    pub freeze_up: Option<NaiveDate>,
    /// Weeks of the usual year with soil at 2 in at or below 50 °F; null where it isn't known.
    pub chill_weeks: Option<f64>,
    /// Whether the winter's cold will split the bulb into cloves.
    pub chill: Verdict,
    /// When to begin chilling the seed; null where it isn't needed.
    pub prechill_from: Option<NaiveDate>,
    /// How today stands to the window.
    pub now: Option<Now>,
    /// How many cloves the bed takes; null without a bed.
    pub cloves: Option<u32>,
    /// What they weigh, kg.
    pub seed_kg: Option<f64>,
    /// What they weigh where cloves are large and where they are small, kg; null where it was said
    /// how many weigh a kilogram.
    pub seed_between_kg: Option<[f64; 2]>,
    /// How many of the best bulbs to keep back at harvest for as many cloves.
    pub bulbs_to_keep: Option<u32>,
    /// The beds of the record, the best for garlic first, those that are out last.
    pub beds: Vec<BedChoice>,
    /// What comes after planting, with the usual dates.
    pub steps: Vec<Step>,
}

/// The window's three dates.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WindowDates {
    /// When it opens.
    pub opens: Range,
    /// The best time.
    pub best: Range,
    /// When it closes, softly.
    pub closes: Range,
}

/// A bed of the record as a place for garlic.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BedChoice {
    /// Its id.
    pub bed: String,
    /// Its name.
    pub name: String,
    /// Why it is out; null where it isn't.
    pub out: Option<String>,
}

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub(super) asking: &'a Asking<'a>,
    pub(super) today: NaiveDate,
    pub(super) kind: Kind,
    /// Whether the kind was said.
    pub(super) kind_given: bool,
    pub(super) depth: Length,
    pub(super) bed: Option<&'a Meant>,
    /// The bed of the record that is meant: the one asked about, else the best for garlic.
    pub(super) place: Option<(&'a garden::Bed, Candidate<'a>)>,
    /// Since when garlic grows in the bed asked about.
    pub(super) growing_since: Option<NaiveDate>,
    /// Why that bed is out.
    pub(super) out: Option<Out>,
    /// White rot was told of in this question.
    pub(super) white_rot: bool,
    pub(super) soil: Option<&'a BedSoil>,
    pub(super) cold: Option<Cold>,
    pub(super) planting: &'a Planting,
    /// The readings show that the soil has come down to 50 °F and stays.
    pub(super) stays_cool: bool,
    pub(super) spacing: Length,
    /// Where the cloves go in an empty bed.
    pub(super) laid: Option<&'a Layout>,
    /// The day to plant chilled seed, where it is chilled.
    pub(super) plant_chilled: Option<NaiveDate>,
    pub(super) answer: &'a Answer,
}

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

/// Cloves closer than 2 in or wider than 18 in are a slip of the pen.
fn spacing(given: &Given<Length>, faults: &mut Faults) -> Option<Length> {
    let inches = Length::new::<uom::si::length::inch>;
    if given.is_given() {
        return given.within(
            inches(2.0),
            inches(18.0),
            "a spacing from 2 in to 18 in (5 cm to 46 cm)",
            faults,
        );
    }
    let usual = garlic().and_then(Crop::spacing).map(|spacing| spacing.usual);
    Some(usual.unwrap_or_else(|| inches(6.0)))
}

/// The places of the cloves, as the record keeps them.
pub(super) fn places(laid: &Layout) -> Option<Sites> {
    let cloves = laid.plants.iter().flatten();
    Sites::of_places(&cloves.map(|clove| clove.site.spot).collect::<Vec<_>>()).ok()
}

/// The dates a bed is chosen for.
struct Choice {
    opens: NaiveDate,
    best: NaiveDate,
    closes: NaiveDate,
}

impl Choice {
    /// The beds of the record in order, those that are out last.
    fn beds(
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
    fn out(&self, meant: &Meant, recorded: Option<(&garden::Bed, Candidate<'_>)>) -> Option<Out> {
        let alliums = meant.history.iter().filter(|past| record::is_allium(&past.what));
        let last_allium = alliums.filter_map(|past| i32::try_from(past.year).ok()).max();
        let described = Candidate { last_allium, drained: meant.drains, ..Candidate::default() };
        let candidate = recorded.map_or(described, |(_, candidate)| candidate);
        which_bed::out(&candidate, self.best, self.closes)
    }
}
