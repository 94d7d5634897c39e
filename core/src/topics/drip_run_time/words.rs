//! What is told of a run of the drip.

use uom::si::length::{inch, millimeter};

use super::{
    drip::{Runs, home_tap, in_an_hour},
    question::{Need, OfPlace},
    soil::{strip_joins, usual_root_depth},
};
use crate::{
    asking::Asking,
    bed::{Drip, Meant},
    journal::{About, Draft, What, details},
    place::{air::KnownBy, soil::Texture},
    quantity::{
        Length, Quantity, System, Time, Velocity, Volume, VolumeRate, show_number, show_spacing,
    },
    source::Source,
    telling::{Sure, Telling},
    text::{capital, count, day as told_day, small},
};

/// The words for a run.
pub(super) fn told(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let system = asking.system;
    let sure = match &found.need.of_place {
        Some(of) if of.known_by == KnownBy::Extremes => Sure::Low,
        _ => Sure::Fair,
    };
    let mut telling = Telling::new(headline(found), sure);
    telling.because.push(qualifier(found, asking));
    if found.runs.count > 0 {
        telling.because.push(format!(
            "From {} at {} the bed gets {} of water an hour, a tenth of which misses the roots: {} in all.",
            count(holes(found), "hole", "holes"),
            found.each.show(system),
            depth(in_an_hour(found.rate), system),
            found.water.show(system),
        ));
        telling.because.push(longest(found, system));
        telling.source(Source::DripMakers);
        telling.source(Source::ColoradoDrip);
        telling.source(Source::EmitterManual);
    }
    if let Some(of) = &found.need.of_place {
        telling.because.push(of_place(of, found, system));
        telling.source(Source::Fao56);
    }
    look_for(found, system, &mut telling);
    cautions(found, system, &mut telling);
    telling.source(Source::CommonPractice);
    telling.next.extend(draft(found));
    telling
}

/// "Run the drip 40 min, twice".
fn headline(found: &Found<'_>) -> String {
    let each = found.runs.each.show(System::Us);
    match found.runs.count {
        0 if found.rests => "Nothing to run: the ground hardly dries in this season".to_owned(),
        0 if found.need.depth.value > 0.0 => "No need to water: the rain is enough".to_owned(),
        0 => "No need to water".to_owned(),
        1 => format!("Run the drip {each}"),
        2 => format!("Run the drip {each}, twice"),
        many => format!("Run the drip {each}, {many} times"),
    }
}

fn qualifier(found: &Found<'_>, asking: &Asking<'_>) -> String {
    let system = asking.system;
    let need = depth(found.need.depth, system);
    let needed = if found.rain.value > 0.0 {
        format!("{need} needed, less {} of rain", depth(found.rain, system))
    } else {
        format!("{need} needed")
    };
    match found.need.days {
        Some((from, 1)) => format!("For {}: {needed}.", told_day(from, asking.today)),
        Some((from, days)) => {
            format!("For {days} days from {}: {needed}.", told_day(from, asking.today))
        }
        None => format!("{}.", capital(&needed)),
    }
}

fn longest(found: &Found<'_>, system: System) -> String {
    let soil = match found.soil {
        Texture::Sand => "sand",
        Texture::Loam => "loam",
        Texture::Clay => "clay",
        Texture::Peat => "peat",
        Texture::Mix => "a compost-rich mix",
    };
    let root = show_spacing(usual_root_depth(), system);
    let most = found.longest.show(system);
    if found.runs.count < 2 {
        return format!("Up to {most} at once stays in the top {root} of {soil}, with the roots.");
    }
    let between = found.need.days.map(|(_, days)| days / found.runs.count);
    let apart = match between {
        Some(days) if days > 0 => format!("leave {} between", count(days, "day", "days")),
        _ => "let it sink in between".to_owned(),
    };
    format!(
        "More than {most} at once runs past the top {root} of {soil}, where the roots are: {apart}."
    )
}

fn of_place(of: &OfPlace, found: &Found<'_>, system: System) -> String {
    let days = found.need.days.map_or(1, |(_, days)| days);
    let a_day = depth(of.reference / f64::from(days), system);
    let crop = of.crop.map_or_else(|| "vegetables".to_owned(), |crop| small(crop.name()));
    let times = show_number(of.coefficient, 2);
    let own = of.crop.is_none_or(|crop| crop.water_in_mid_season().is_some());
    let uses = if own {
        format!("{crop} in full leaf {times} times that")
    } else {
        format!(
            "what {crop} uses is not known here, so {times} times that is taken, as for most vegetables in full leaf"
        )
    };
    format!("Grass uses {a_day} a day here at this time of year; {uses}.")
}

fn look_for(found: &Found<'_>, system: System, telling: &mut Telling) {
    let shower = Length::new::<millimeter>(2.5);
    if found.runs.count > 0 {
        telling.look_for.push(format!(
            "An hour after, dig beside a hole: it should be damp {} down, and meet the next hole's water.",
            show_spacing(usual_root_depth(), system)
        ));
        if !found.soil_known {
            telling.look_for.push(
                "If the soil holds together when squeezed, say loam or clay: runs may be longer."
                    .to_owned(),
            );
        }
        telling.look_for.push(
            "Young plants that leave the ground bare use about two thirds; mulched ones less too."
                .to_owned(),
        );
    }
    if found.rests {
        telling.look_for.push(
            "Dry all the same, as under a roof or in a dry winter? Dig a hand deep: where it is dry there, say that no \
             rain fell (0)."
                .to_owned(),
        );
    }
    if found.rain.value > 0.0 {
        telling.look_for.push(format!(
            "Rain is counted whole: leave out showers under {}, which wet only leaves and mulch.",
            depth(shower, system)
        ));
    }
}

fn cautions(found: &Found<'_>, system: System, telling: &mut Telling) {
    if found.flow > home_tap() {
        telling.cautions.push(format!(
            "The bed draws {}, more than the {} of a usual tap: run its lines in turns, each as long.",
            found.flow.show(system),
            home_tap().show(system)
        ));
        telling.source(Source::HomeTap);
    }
    if let Some(drip) = found.meant.bed.drip()
        && !strip_joins(found.soil, drip.emitter_spacing().to_length())
    {
        telling.cautions.push(format!(
            "Holes {} from each other may leave dry ground between in this soil: plant at the holes.",
            show_spacing(drip.emitter_spacing().to_length(), system)
        ));
        telling.source(Source::NrcsDrip);
    }
    telling.cautions.push(
        "Between a tap that people drink from and the hose belongs a backflow preventer."
            .to_owned(),
    );
}

/// One run, for a bed that is in the record.
fn draft(found: &Found<'_>) -> Option<Draft> {
    let bed = found.meant.id.as_deref()?;
    let minutes = found.runs.each.get::<uom::si::time::minute>().round();
    (found.runs.count > 0).then(|| Draft {
        about: About::bed(bed),
        what: What::Watered(details::Watered { minutes: Some(minutes), amount: None }),
    })
}

fn holes(found: &Found<'_>) -> u32 {
    found.meant.bed.drip().map_or(0, Drip::emitter_count)
}

/// A depth of water: "0.83 in" or "21 mm".
fn depth(depth: Length, system: System) -> String {
    match system {
        System::Us => format!("{} in", show_number(depth.get::<inch>(), 2)),
        System::Metric => {
            let millimetres = depth.get::<millimeter>();
            let decimals = u32::from(millimetres < 10.0);
            format!("{} mm", show_number(millimetres, decimals))
        }
    }
}

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub meant: &'a Meant,
    pub soil: Texture,
    pub soil_known: bool,
    /// What one hole gives.
    pub each: VolumeRate,
    /// What the bed draws.
    pub flow: VolumeRate,
    pub rate: Velocity,
    pub need: Need,
    pub rain: Length,
    pub runs: Runs,
    /// The season is too damp for anything to be given.
    pub rests: bool,
    pub longest: Time,
    pub water: Volume,
}
