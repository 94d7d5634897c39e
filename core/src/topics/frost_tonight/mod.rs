//! Topic `frost-tonight`: how cold a bed gets tonight, what that does to what grows there, and what
//! to cover.
//!
//! Models: [`frost`](crate::frost). The beds are those of the question, else of the record.

mod air_asked;
mod answer;
mod bed_words;
mod beds_asked;
mod cautions;
mod from_record;
mod question;
#[cfg(test)]
mod tests;
mod words;
mod worked;

pub use answer::{Answer, AtBed, AtCrop, Verdict};
pub use bed_words::{BedTold, runs};
pub use from_record::holds_anything;
pub(crate) use from_record::{middays, tender_out, told_of_night, trays_at};
pub use question::Asked;
pub(crate) use question::{air, needed_air};

use uom::si::{
    temperature_interval::degree_celsius as kelvin, thermodynamic_temperature::degree_celsius,
};

use self::{
    air_asked::AirRead,
    answer::{Chances, Found},
    worked::{BedWorked, CropTonight, give_covers, work_out},
};
use crate::{
    asking::Asking,
    catalogue::{self, Cover},
    frost::{
        cover::ACT,
        low::{BedLow, Usual, tonight},
        sky::{Night, Sky, Wind},
    },
    given::Faults,
    place::site::SiteAsked,
    quantity::{hundredths, thousandths},
    telling::Telling,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let air = air_asked::read(asked, &site, asking, faults);
    let covers: Vec<_> = asked.covers.iter().map(|cover| cover.read(faults)).collect();
    let beds = beds_asked::read(asked, asking, faults);
    let covers: Vec<(&'static Cover, u32)> = covers.into_iter().collect::<Option<_>>()?;
    let (air, beds) = (air?, beds?);
    if !faults.is_empty() {
        return None;
    }

    let AirRead { sky, wind, low, .. } = air;
    let night = Night::of(sky, wind);
    let nerve = asking.garden.settings.nerve;
    // Nothing is covered for a chance that can't be told from none.
    let act = nerve.map_or(ACT, |percent| f64::from(percent) / 100.0).max(0.01);
    let usual_cover = covers
        .iter()
        .map(|(cover, _)| *cover)
        .max_by(|a, b| mean(a).total_cmp(&mean(b)).then(b.id().cmp(a.id())))
        .or_else(|| catalogue::cover("fabric-light"))?;
    let mut worked: Vec<BedWorked> =
        beds.into_iter().map(|bed| work_out(bed, &low, night, wind, usual_cover, act)).collect();
    let by_bed = worked.len() > 1 || worked.iter().any(|bed| bed.name.is_some());
    let order = give_covers(&mut worked, &covers, usual_cover, by_bed, wind);
    let coldest = worked
        .iter()
        .map(|bed| bed.low)
        .min_by(|a, b| a.expected.low.value.total_cmp(&b.expected.low.value))?;
    let if_it_clears = (sky == Sky::Part && wind != Wind::Windy)
        .then(|| {
            tonight(&low, Night::ClearAndCalm, &[], &Usual::of(Night::ClearAndCalm, None, false))
        })
        .map(|low| low.expected.low);
    let found = Found {
        sky,
        wind,
        night,
        air: low,
        forecast: air.forecast,
        forecast_text: asked.forecast_low.text().map(str::to_owned),
        by_bed,
        order,
        covers_given: !covers.is_empty(),
        usual_cover,
        freezing: air.freezing(&site, asking.today),
        grass: air.grass(&site, asking.today),
        if_it_clears,
        unknown: if asked.beds.is_empty() && asked.crops.is_empty() && !asked.bed.is_given() {
            from_record::unknown(asking.garden)
        } else {
            Vec::new()
        },
        beds: worked,
    };
    let told = words::told(&found, asking);
    Some((told, numbers(&found, &coldest)))
}

fn mean(cover: &Cover) -> f64 {
    cover.gain().map_or(0.0, |gain| gain.mean.value)
}

fn numbers(found: &Found, coldest: &BedLow) -> Answer {
    let mut answer = Answer {
        bed_low_c: hundredths(coldest.expected.low.get::<degree_celsius>()),
        bed_low_sd_c: hundredths(coldest.expected.sd.get::<kelvin>()),
        harm: Chances::default(),
        with_cover: Chances::default(),
        cover: Vec::new(),
        left_bare: Vec::new(),
        beds: Vec::new(),
    };
    for crop in found.beds.iter().flat_map(|bed| &bed.crops) {
        let id = crop.crop.id();
        let (harm, covered) = (thousandths(crop.bare), thousandths(crop.covered));
        match answer.harm.0.iter().position(|(other, _)| *other == id) {
            None => {
                answer.harm.0.push((id, harm));
                answer.with_cover.0.push((id, covered));
            }
            Some(at) => {
                // Of the same crop in several beds the worst is told.
                if let (Some(known), Some(under)) =
                    (answer.harm.0.get_mut(at), answer.with_cover.0.get_mut(at))
                    && known.1 < harm
                {
                    (known.1, under.1) = (harm, covered);
                }
            }
        }
    }
    let ordered = found.order.iter();
    let ids = ordered.filter_map(|(at, index)| found.beds.get(*at)?.crops.get(*index));
    for id in ids.map(|crop| crop.crop.id()) {
        if !answer.cover.contains(&id) {
            answer.cover.push(id);
        }
    }
    for crop in found.beds.iter().flat_map(|bed| &bed.crops) {
        let id = crop.crop.id();
        if crop.in_danger() && crop.cover.is_none() && !answer.left_bare.contains(&id) {
            answer.left_bare.push(id);
        }
    }
    let mut order: Vec<usize> = Vec::new();
    for (at, _) in &found.order {
        if !order.contains(at) {
            order.push(*at);
        }
    }
    for (at, bed) in found.beds.iter().enumerate() {
        let place = order.iter().position(|one| *one == at);
        let (from, to) = bed.low.expected.range(0.9);
        answer.beds.push(AtBed {
            bed: bed.name.clone(),
            low_c: hundredths(bed.low.expected.low.get::<degree_celsius>()),
            low_sd_c: hundredths(bed.low.expected.sd.get::<kelvin>()),
            difference_c: hundredths(bed.low.difference.likely.get::<kelvin>()),
            nights: bed.low.difference.nights,
            cover_as: place.and_then(|place| u32::try_from(place + 1).ok()),
            cover: bed.crops.iter().find_map(|crop| crop.cover).map(Cover::id),
            low_from_c: hundredths(from.get::<degree_celsius>()),
            low_to_c: hundredths(to.get::<degree_celsius>()),
            crops: bed.crops.iter().map(|crop| at_crop(crop, found)).collect(),
        });
    }
    answer
}

fn at_crop(crop: &CropTonight, found: &Found) -> AtCrop {
    let verdict = match crop.cover {
        _ if !crop.in_danger() && crop.in_doubt() => Verdict::InDoubt,
        _ if !crop.in_danger() => Verdict::Safe,
        Some(_) => Verdict::Cover,
        None if crop.past_saving() => Verdict::PastSaving,
        None => Verdict::NoneLeft,
    };
    AtCrop {
        crop: crop.crop.id(),
        count: crop.count,
        harm: thousandths(crop.bare),
        with_cover: thousandths(crop.covered),
        cover: crop.cover.map(Cover::id),
        reckoned_with: found.usual_cover.id(),
        verdict,
    }
}
