//! A night worked out: each bed's low, what it does to each crop, and who gets a cover.

use super::question::BedTonight;
use crate::{
    catalogue::{Cover, Crop, Gain},
    frost::{
        cover::{Choice, WORTH_IT, assigned, covered},
        harm::{comes_through, lost_below},
        low::{AirLow, BedLow, Usual, tonight},
        night::Night,
    },
    quantity::Temperature,
    words::sky::Wind,
};

/// A crop tonight.
pub(super) struct CropTonight {
    pub crop: &'static Crop,
    pub hardened: bool,
    pub count: Option<u32>,
    pub lost_below: Temperature,
    /// Chance of harm, uncovered.
    pub bare: f64,
    /// Chance of harm under a cover.
    pub covered: f64,
    /// From this chance on it is covered.
    pub act: f64,
    /// Frosts like tonight's are left to it.
    pub comes_through: bool,
    /// The cover it gets.
    pub cover: Option<&'static Cover>,
}

impl CropTonight {
    /// Whether a cover is worth its while.
    pub(super) fn in_danger(&self) -> bool {
        !self.comes_through && self.bare >= self.act
    }

    /// Whether no cover there is would change much.
    pub(super) fn past_saving(&self) -> bool {
        self.bare - self.covered < WORTH_IT
    }

    /// Whether it is worth a thought.
    pub(super) fn in_doubt(&self) -> bool {
        !self.comes_through && (self.act / 2.0..self.act).contains(&self.bare)
    }
}

/// A bed tonight, worked out.
pub(super) struct BedWorked {
    pub id: Option<String>,
    pub name: Option<String>,
    pub low: BedLow,
    pub residue_on_top: bool,
    pub under_glass: bool,
    pub crops: Vec<CropTonight>,
}

pub(super) fn work_out(
    bed: BedTonight,
    air: &AirLow,
    night: Night,
    wind: Wind,
    usual_cover: &'static Cover,
    act: f64,
) -> BedWorked {
    let usual = if bed.under_glass {
        Usual::under_glass()
    } else {
        Usual::of(night, bed.height, bed.residue_on_top)
    };
    let low = tonight(air, night, &bed.nights, &usual);
    let crops = bed.crops.iter().map(|standing| {
        let lost_below = lost_below(standing.crop, standing.hardened);
        CropTonight {
            crop: standing.crop,
            hardened: standing.hardened,
            count: standing.count,
            lost_below,
            bare: low.expected.chance_below(lost_below),
            covered: under(&low, usual_cover.gain(), wind, lost_below),
            act,
            comes_through: comes_through(
                standing.crop,
                standing.hardened,
                &low.expected,
                usual.difference,
            ),
            cover: None,
        }
    });
    BedWorked {
        crops: crops.collect(),
        id: bed.id,
        name: bed.name,
        low,
        residue_on_top: bed.residue_on_top,
        under_glass: bed.under_glass,
    }
}

/// Chance of harm under a cover; none is put on to do harm.
fn under(low: &BedLow, gain: Option<Gain>, wind: Wind, lost_below: Temperature) -> f64 {
    let bare = low.expected.chance_below(lost_below);
    let Some(gain) = gain else { return bare };
    covered(&low.expected, &gain, wind).chance_below(lost_below).min(bare)
}

/// Gives covers to beds, or to the crops of the one bed; the order in which they go.
pub(super) fn give_covers(
    beds: &mut [BedWorked],
    covers: &[(&'static Cover, u32)],
    usual_cover: &'static Cover,
    by_bed: bool,
    wind: Wind,
) -> Vec<(usize, usize)> {
    // Plants count one by one where every count is known, else crop by crop.
    let counted = beds.iter().flat_map(|bed| &bed.crops).all(|crop| crop.count.is_some());
    let worth = |crop: &CropTonight| match crop.count {
        Some(count) if counted => f64::from(count),
        _ => 1.0,
    };
    let mut targets: Vec<(usize, Vec<usize>)> = Vec::new();
    for (at, bed) in beds.iter().enumerate() {
        let in_danger = bed.crops.iter().enumerate();
        let in_danger: Vec<usize> =
            in_danger.filter(|(_, crop)| crop.in_danger()).map(|(index, _)| index).collect();
        if by_bed && !in_danger.is_empty() {
            targets.push((at, in_danger));
        } else {
            targets.extend(in_danger.into_iter().map(|index| (at, vec![index])));
        }
    }
    let choices: Vec<Choice> = targets
        .iter()
        .filter_map(|(at, crops)| {
            let bed = beds.get(*at)?;
            let plants = crops.iter().filter_map(|index| bed.crops.get(*index));
            Some(Choice {
                bare: bed.low.expected,
                plants: plants.map(|crop| (crop.lost_below, worth(crop))).collect(),
            })
        })
        .collect();
    let mut single: Vec<&'static Cover> = Vec::new();
    if covers.is_empty() {
        single = vec![usual_cover; choices.len()];
    }
    for (cover, count) in covers {
        let count = (*count as usize).min(choices.len());
        single.extend(std::iter::repeat_n(*cover, count));
    }
    let gains: Vec<Gain> = single.iter().filter_map(|cover| cover.gain()).collect();
    let mut order = Vec::new();
    for (choice, cover) in assigned(&choices, &gains, wind) {
        let (Some((at, crops)), Some(cover)) = (targets.get(choice), single.get(cover)) else {
            continue;
        };
        let Some(bed) = beds.get_mut(*at) else {
            continue;
        };
        let low = bed.low;
        for (index, crop) in bed.crops.iter_mut().enumerate() {
            let same_sheet = by_bed || crops.contains(&index);
            if same_sheet {
                crop.cover = Some(cover);
                crop.covered = under(&low, cover.gain(), wind, crop.lost_below);
            }
        }
        order.extend(crops.iter().map(|index| (*at, *index)));
    }
    order
}
