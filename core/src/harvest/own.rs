//! What the gardener's own record tells of a crop: when this planting began, how often it was picked,
//! how much heat it took in earlier years.

use chrono::{NaiveDate, NaiveDateTime};
use uom::si::{
    temperature_interval::kelvin as kelvin_step, thermodynamic_temperature::kelvin, time::day,
};

use super::{
    again::{Pace, own_pace},
    age::heat_between,
    cues::{HeatSum, Sheet},
    heat::{DayAir, DegreeDays},
};
use crate::{
    catalogue::{self, Crop},
    garden::{Bed, Came, Garden, Planting},
    place::air::Air,
    quantity::{Temperature, TemperatureInterval, Time},
    season::{self, How, Year},
    time::{DayOfYear, Range},
};

/// A longer gap between two pickings is a pause or a new planting, not a rhythm.
const LONGEST_GAP: i64 = 21;
/// How many gaps make a rhythm, and how many seasons make sums of one's own.
const ENOUGH: usize = 2;

/// This crop's youngest planting in a bed.
pub(crate) fn planting<'a>(bed: &'a Bed, crop: &Crop) -> Option<&'a Planting> {
    let of_crop = |planting: &&Planting| is_crop(&planting.crop, crop);
    bed.plantings.iter().filter(of_crop).max_by_key(|planting| planting.since)
}

/// When it was sown and when it was planted out, as far as the record tells.
pub(crate) fn began(
    garden: &Garden,
    planting: &Planting,
) -> (Option<NaiveDate>, Option<NaiveDate>) {
    let since = Some(planting.since.date());
    match planting.came {
        Came::Seeded => (since, None),
        Came::Planted(start) => {
            let start = start.and_then(|id| garden.start(id));
            (start.map(|start| start.sown.date()), since)
        }
    }
}

/// When a planting is first picked by its course in the place's year, where that is known.
pub(crate) fn first_picking(year: &Year, planting: &Planting, crop: &Crop) -> Option<Range> {
    let how = match planting.came {
        Came::Seeded => How::Sown,
        Came::Planted(_) => How::SetOut,
    };
    season::first_picking(year, crop, planting.since.date(), how)
}

/// The usual air of a day at this place.
pub(crate) fn usual_air(air: &Air, date: NaiveDate) -> DayAir {
    let at = DayOfYear::of(date);
    DayAir { low: air.low(at), high: air.high(at) }
}

/// The usual mean temperature of a day at this place.
pub(crate) fn usual_mean(air: &Air, date: NaiveDate) -> Temperature {
    let DayAir { low, high } = usual_air(air, date);
    let half_range = (high.get::<kelvin>() - low.get::<kelvin>()) / 2.0;
    low + TemperatureInterval::new::<kelvin_step>(half_range)
}

/// The pace of this planting's pickings so far, if there are enough of them.
pub(crate) fn pace(
    bed: &Bed,
    planting: &Planting,
    crop: &Crop,
    sheet: &Sheet,
    air: &Air,
) -> Option<Pace> {
    let picked = pickings(bed, planting, crop);
    let gaps: Vec<(Time, Temperature)> = picked
        .windows(2)
        .filter_map(|two| {
            let [from, to] = [two.first()?.date(), two.last()?.date()];
            let days = (to - from).num_days();
            let middle = from + (to - from) / 2;
            // OK because a gap is at most three weeks.
            let days = i32::try_from(days)
                .ok()
                .filter(|days| (1..=LONGEST_GAP).contains(&i64::from(*days)))?;
            Some((Time::new::<day>(f64::from(days)), usual_mean(air, middle)))
        })
        .collect();
    if gaps.len() < ENOUGH { None } else { own_pace(sheet, &gaps) }
}

/// The least and the most heat that this crop took to its first picking in earlier seasons, if there
/// are enough of them.
pub(crate) fn sums(
    garden: &Garden,
    crop: &Crop,
    sum: &HeatSum,
    air: &Air,
) -> Option<[DegreeDays; 2]> {
    let mut found: Vec<DegreeDays> = Vec::new();
    for bed in &garden.beds {
        for planting in bed.past.iter().filter(|planting| is_crop(&planting.crop, crop)) {
            let (Some(sown), _) = began(garden, planting) else {
                continue;
            };
            if let Some(first) = pickings(bed, planting, crop).first() {
                found.push(heat_between(sum, sown, first.date(), |date| usual_air(air, date)));
            }
        }
    }
    if found.len() < ENOUGH {
        return None;
    }
    let first = *found.first()?;
    let least = found.iter().fold(first, |least, sum| if *sum < least { *sum } else { least });
    let most = found.iter().fold(first, |most, sum| if *sum > most { *sum } else { most });
    Some([least, most])
}

/// When this planting was picked, oldest first. A picking that names no crop counts where nothing
/// else grew in the bed.
pub(crate) fn pickings(bed: &Bed, planting: &Planting, crop: &Crop) -> Vec<NaiveDateTime> {
    let stood = |when: NaiveDateTime| {
        planting.since <= when && planting.ended.is_none_or(|ended| when <= ended)
    };
    let alone = bed.plantings.iter().chain(&bed.past).all(|other| is_crop(&other.crop, crop));
    let of_crop = |named: &Option<String>| match named {
        Some(named) => is_crop(named, crop),
        None => alone,
    };
    let picked = bed.harvests.iter().filter(|harvest| of_crop(&harvest.what.crop));
    picked.map(|harvest| harvest.when).filter(|when| stood(*when)).collect()
}

pub(crate) fn is_crop(named: &str, crop: &Crop) -> bool {
    catalogue::crop(named).is_ok_and(|found| found.id() == crop.id())
}
