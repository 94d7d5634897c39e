//! What can hurt on a cold night, and where the figures come from.

use super::{answer::Found, words::crops, worked::CropTonight};
use crate::{
    catalogue::{Cover, CoverWatch, Facet, Hardiness},
    frost::low::AirLow,
    source::Source,
    telling::Telling,
    words::sky::Wind,
};

pub(super) fn cautions(found: &Found, telling: &mut Telling) {
    let say = |telling: &mut Telling, words: &str| telling.cautions.push(words.to_owned());
    say(telling, "Forecasts err, and so does this: where a cover is little work, lay it.");
    let mut covers: Vec<&'static Cover> = Vec::new();
    for cover in crops(found).filter_map(|crop| crop.cover) {
        if !covers.iter().any(|other| other.id() == cover.id()) {
            covers.push(cover);
        }
    }
    let mut minded: Vec<CoverWatch> = Vec::new();
    for watch in covers.iter().flat_map(|cover| cover.watch()) {
        if !minded.contains(watch) {
            minded.push(*watch);
        }
    }
    if found.beds.iter().any(|bed| bed.under_glass) {
        for watch in [CoverWatch::Glass, CoverWatch::CooksInSun] {
            if !minded.contains(&watch) {
                minded.push(watch);
            }
        }
    }
    let cooks = minded.contains(&CoverWatch::CooksInSun);
    minded.retain(|watch| match watch {
        CoverWatch::NotInWind => found.wind != Wind::Still,
        // The other says it too.
        CoverWatch::OffByMidMorning => !cooks,
        _ => true,
    });
    for watch in minded {
        say(telling, mind(watch));
    }
    if crops(found).any(CropTonight::in_danger) {
        say(
            telling,
            "No flame, stove or charcoal under a cover or in a closed greenhouse: fire and fumes kill. Lamps, \
             heaters and cords only if made for wet places, on a ground-fault circuit, clear of the cover.",
        );
        say(telling, "Leave frozen plants alone until they have thawed.");
    }
    for before in
        crops(found).filter(|crop| crop.in_danger()).filter_map(|it| it.crop.before_frost())
    {
        say(telling, before);
    }
    if crops(found).any(|crop| !crop.hardened) {
        say(
            telling,
            "Young plants not used to outdoors are hurt sooner than the figures for their kind.",
        );
    }
}

fn mind(watch: CoverWatch) -> &'static str {
    match watch {
        CoverWatch::SealEdges => {
            "Cover before sunset, down to the soil all round: it keeps the ground's warmth in."
        }
        CoverWatch::NotInWind => "Weigh the edges down: wind takes covers away.",
        CoverWatch::OffByMidMorning => {
            "Take it off by mid-morning: in the sun it gets too hot under it."
        }
        CoverWatch::CooksInSun => {
            "Open or take off covers, plastic and glass by mid-morning: in the sun plants cook under them."
        }
        CoverWatch::TouchingLeavesFreeze => {
            "Leaves that touch the plastic freeze: hold it off with hoops."
        }
        CoverWatch::WetIsColder => "Keep it dry: wet cloth can be colder than none.",
        CoverWatch::Glass => {
            "Glass cuts and snow is heavy: clear snow off from outside, never from below."
        }
        CoverWatch::LeavesColderThanAir => {
            "On a clear night leaves under glass are colder than the air beside them."
        }
    }
}

pub(super) fn sources(found: &Found, telling: &mut Telling) {
    let chilling_only = |crop: &CropTonight| crop.crop.hardiness() == Hardiness::Chilling;
    match found.air {
        AirLow::Evening(_) => telling.source(Source::FaoFrost2005),
        AirLow::Forecast(..) => telling.source(Source::ForecastError2006),
    }
    telling.source(Source::BedBelowScreen);
    if found.wind != Wind::Still {
        telling.source(Source::WindAndFrost);
    }
    telling.source(Source::NormalShrinkage);
    if found.freezing.is_some() {
        telling.source(Source::FaoFrost2005);
    }
    if found.grass.is_some() {
        telling.source(Source::Smith1973);
    }
    if found.beds.iter().any(|bed| bed.residue_on_top) {
        telling.source(Source::ResidueColder1999);
    }
    for crop in crops(found) {
        crop.crop.sources(Facet::Frost).for_each(|source| telling.source(source));
    }
    if crops(found).any(|crop| crop.crop.kill_temperature().is_none() || chilling_only(crop)) {
        telling.source(Source::FrostClasses);
    }
    if crops(found).any(|crop| crop.comes_through) {
        telling.source(Source::HardFreeze);
    }
    for cover in crops(found).filter_map(|crop| crop.cover) {
        cover.sources().iter().for_each(|source| telling.source(*source));
    }
    if !found.order.is_empty() {
        telling.source(Source::CostLoss);
    }
}
