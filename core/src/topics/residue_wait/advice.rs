//! What is said beside the verdict: what to look for, cautions, the entry to write, sources.

use chrono::Datelike;

use super::{
    balance::Placement,
    clock::Moisture,
    found::Found,
    limits::Limit,
    materials::Stage,
    question::Chop,
    stops,
    words::{SOFT, given},
};
use crate::{
    asking::Asking,
    catalogue::{ResidueKind, Toxins, Watch},
    journal::{About, Draft, What as Entry, details},
    order,
    quantity::Quantity,
    source::Source,
    telling::Telling,
};

pub(super) fn look_for(found: &Found<'_>) -> Vec<String> {
    let mut look: Vec<String> = Vec::new();
    let mut watched: Vec<Watch> = found
        .asked
        .materials
        .iter()
        .flat_map(|material| material.residue.watch())
        .copied()
        .collect();
    order::sort(&mut watched, &|watch| [*watch as i64, 0, 0]);
    watched.dedup();
    look.extend(watched.into_iter().map(|watch| stops::look_for(watch).to_owned()));
    if found.mixture.is_none() {
        return look;
    }
    look.push("Settled: dark crumbs that smell of earth, worms and casts under the mat, only stems and midribs to recognise.".to_owned());
    look.push("Not yet: slimy or hot, smelling sour, of ammonia or rotten cabbage. Fork it loose to let air in, and wait.".to_owned());
    if found.answer.limit.is_some() {
        look.push("The surest test: 20 seeds of cress, lettuce or radish in a jar of this soil come up as well as in a jar of plain mix, in 5 to 7 days.".to_owned());
    }
    let wet_mat = found.asked.placement == Placement::OnTop
        && matches!(found.asked.moisture, Moisture::Moist | Moisture::Soggy);
    if wet_mat && found.asked.seen.slugs.is_none() {
        look.push("Slugs hide under a wet mat: bait a trap tonight; more than one or two in it, and small plants wait or the slugs go first.".to_owned());
    }
    look
}

pub(super) fn cautions(found: &Found<'_>) -> Vec<String> {
    let mut cautions: Vec<String> = Vec::new();
    let asked = found.asked;
    cautions.extend(
        found
            .answer
            .stops
            .iter()
            .skip(usize::from(stops::verdict(&asked.flags).is_some()))
            .cloned(),
    );
    let kind = |kind| asked.materials.iter().any(|material| material.residue.kind() == kind);
    if asked.chops {
        cautions.push(match asked.chop {
            Some(Chop::Fine) => "Mowers and shredders throw things and take fingers: shoes, glasses and gloves on, nobody near, switched off and unplugged before you clear it.".to_owned(),
            _ => "Chop away from your feet and your other hand, gloves on; keep children and pets off, and lay blades down where they are seen.".to_owned(),
        });
    }
    if kind(ResidueKind::Manure) {
        cautions.push("Raw manure: where a local rule asks for more than 120 days before picking, that holds. Wash hands and tools; small children stay off.".to_owned());
    }
    if kind(ResidueKind::Wood) {
        cautions.push("Wood is taken here as the toughest straw, which errs on the long side. Keep it on top, never dug in.".to_owned());
    }
    let fed = given(found);
    for product in &fed {
        cautions.extend(product.caution.map(str::to_owned));
    }
    if !fed.is_empty() {
        cautions.push("Meals draw seed maggot flies: mix them in 2 in (5 cm) from the seed, and never give more at once than is said here.".to_owned());
    }
    let brassica =
        asked.materials.iter().any(|material| material.residue.toxins() == Some(Toxins::Brassica));
    if brassica && found.next.brassica {
        cautions.push("Cabbages after cabbages: fresh waste of the family sets cauliflower back most, and clubroot builds up. Another family would do better.".to_owned());
    }
    if leaches(found) {
        cautions.push("Dug in at this time of year soft greens lose their nitrogen to the winter's rain: leave them on top, or plant garlic through them.".to_owned());
    }
    if asked.is_covered() {
        cautions.push(
            "Lift a cover two or three nights before planting: slugs and earwigs shelter under it."
                .to_owned(),
        );
    }
    cautions
}

/// Soft greens dug in between September and November, or March and May in the south.
fn leaches(found: &Found<'_>) -> bool {
    let asked = found.asked;
    let soft = found.mixture.is_some_and(|mixture| mixture.load.ratio.likely.get() < SOFT);
    let south = asked.site.is_south();
    let autumn = if south { 3..=5 } else { 9..=11 };
    soft && asked.placement == Placement::WorkedIn && autumn.contains(&asked.laid.month())
}

/// What was laid, for the record of a bed that is in it.
pub(super) fn drafts(found: &Found<'_>, asking: &Asking<'_>) -> Vec<Draft> {
    let asked = found.asked;
    let Some(id) = asked.bed.as_ref().and_then(|meant| meant.id.as_deref()) else {
        return Vec::new();
    };
    let written = asking.garden.bed(id).is_some_and(|bed| {
        bed.residue.iter().any(|laid| {
            laid.when.date() == asked.laid
                && (laid.what.part.is_none() || laid.what.part == asked.part)
        })
    });
    // What was laid earlier is written too: whoever writes it knows the day as `laid`.
    if written || asked.today < asked.laid || !asked.halves.is_empty() {
        return Vec::new();
    }
    let materials = asked.materials.iter().map(|material| details::Material {
        residue: material.residue.id().to_owned(),
        amount: material.amount.map(|amount| amount.show(asking.system)),
        state: material.state.map(|state| state.word().to_owned()),
        stage: (material.stage != Stage::Mixed).then(|| material.stage.word().to_owned()),
    });
    let laid = details::ResidueLaid {
        materials: materials.collect(),
        placement: Some(asked.placement.word().to_owned()),
        moisture: Some(asked.moisture.word().to_owned()),
        chop: asked.chop.map(|chop| chop.word().to_owned()),
        cover: asked.cover.clone(),
        compost: asked.compost.map(|depth| depth.show(asking.system)),
        illness: asked.illness.map(|illness| illness.word().to_owned()),
        flags: asked.flags.iter().map(|flag| flag.word().to_owned()).collect(),
        part: asked.part.clone(),
    };
    vec![Draft { about: About::bed(id), what: Entry::ResidueLaid(laid) }]
}

pub(super) fn sources(found: &Found<'_>, telling: &mut Telling) {
    for source in [
        Source::Nicolardot2001,
        Source::SticsParameters,
        Source::Justes2009,
        Source::Rothc,
        Source::Ceres,
    ] {
        telling.source(source);
    }
    if found.asked.placement == Placement::OnTop {
        telling.source(Source::ApsimSurface);
    }
    if found.asked.site.air.is_some() {
        telling.source(Source::SoilFromAir);
        telling.source(Source::Hillel1982);
    }
    if let Some(limit) = found.answer.limit {
        telling.source(match limit {
            Limit::Nitrogen => Source::NrcsRatios,
            Limit::SeedlingRot => Source::Grunwald2000,
            Limit::Toxins => Source::MasonSedun1988,
            Limit::SeedMaggot => Source::UcIpmMaggot,
            Limit::CoarseTrash => Source::WilsonHargrove,
            Limit::Slugs => Source::AhdbSlugs,
            Limit::RawManure => Source::OrganicRuleManure,
            Limit::WetMat => Source::CommonPractice,
            Limit::Season => Source::SeasonNights,
        });
    }
    let load = found.mixture.map(|mixture| mixture.load);
    if load.is_some_and(|load| load.rye) {
        telling.source(Source::RyeWaits);
        telling.source(Source::Adhikari2018);
    }
    if !found.asked.flags.is_empty() {
        telling.source(Source::PlantDiseaseClinics);
        telling.source(Source::ClubrootPages);
        telling.source(Source::IllnessYears);
    }
    if leaches(found) {
        telling.source(Source::Agneessens2014);
    }
    for material in &found.asked.materials {
        material.residue.sources().iter().for_each(|source| telling.source(*source));
        match material.residue.kind() {
            ResidueKind::Manure => telling.source(Source::OrganicRuleManure),
            ResidueKind::Compost => telling.source(Source::Hartz2000),
            ResidueKind::Plant | ResidueKind::Wood => {}
        }
    }
    if !given(found).is_empty() {
        telling.source(Source::HartzJohnstone);
        telling.source(Source::EarthKindFertilizers);
    }
    telling.source(Source::CommonPractice);
}
