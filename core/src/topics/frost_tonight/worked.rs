//! A night worked out: each bed's low, what it does to each crop, and who gets a cover.

use super::question::{BedTonight, Standing};
use crate::{
    catalogue::{Cover, Crop, Gain},
    frost::{
        cover::{Choice, WORTH_IT, assigned, covered},
        expected::Expected,
        harm::{comes_through, lost_below},
        low::{AirLow, BedLow, Usual, between, tonight},
        night::Night,
    },
    quantity::{Temperature, TemperatureInterval},
    words::sky::Wind,
};

/// A cover that leaves more of the chance of harm than this hardly helps (considered).
const HARDLY: f64 = 0.75;

/// A crop tonight.
pub(super) struct CropTonight {
    pub crop: &'static Crop,
    pub hardened: bool,
    pub count: Option<u32>,
    pub lost_below: Temperature,
    /// Whether the part that frost takes sooner is on it: a flower, a curd.
    pub part_is_there: bool,
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

    /// Whether the cover it gets, or would get, leaves it more likely lost than not, and helps hardly.
    pub(super) fn hardly_helped(&self) -> bool {
        self.in_danger() && self.covered >= 0.5 && self.covered > HARDLY * self.bare
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
    /// The likely low should the sky clear and the air come to rest.
    pub if_clear: Temperature,
    pub residue_on_top: bool,
    pub under_glass: bool,
    pub crops: Vec<CropTonight>,
}

/// What all beds have in common tonight.
pub(super) struct Tonight<'a> {
    pub air: &'a AirLow,
    /// How far the night is like a clear and calm one, 0 to 1.
    pub clear_part: f64,
    pub wind: Wind,
    /// The cover that is reckoned with where it is not said which.
    pub usual_cover: &'static Cover,
    /// From this chance of harm on a crop is covered.
    pub act: f64,
}

impl Tonight<'_> {
    pub(super) fn work_out(&self, bed: BedTonight) -> BedWorked {
        let usual = |night: Night| {
            if bed.under_glass {
                Usual::under_glass()
            } else {
                Usual::of(night, bed.height, bed.residue_on_top)
            }
        };
        let of = |night: Night| tonight(self.air, night, &bed.nights, &usual(night));
        let low = between(self.clear_part, &of);
        let [clear, other] =
            [Night::ClearAndCalm, Night::Other].map(|night| usual(night).difference);
        let usual = clear * self.clear_part + other * (1.0 - self.clear_part);
        let crops = bed.crops.iter().map(|standing| {
            let Standing { crop, hardened, .. } = *standing;
            let lost_below = lost_below(crop, hardened, standing.at_its_stage);
            CropTonight {
                crop,
                hardened,
                count: standing.count,
                lost_below,
                part_is_there: standing.part_is_there,
                bare: low.expected.chance_below(lost_below),
                covered: under(&low, self.usual_cover.gain(), self.wind, lost_below),
                act: self.act,
                comes_through: comes_through(crop, hardened, &low.expected, usual)
                    && !standing.part_in_danger(&low.expected, self.act),
                cover: None,
            }
        });
        BedWorked {
            crops: crops.collect(),
            id: bed.id,
            name: bed.name,
            low,
            if_clear: of(Night::ClearAndCalm).expected.low,
            residue_on_top: bed.residue_on_top,
            under_glass: bed.under_glass,
        }
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
    // What is less known is not colder for that: beds are ranked by their likely lows, with the doubt of the
    // best known one.
    let sds = beds.iter().map(|bed| bed.low.expected.sd);
    let alike = sds.fold(None, |least: Option<TemperatureInterval>, sd| {
        Some(least.map_or(sd, |least| if sd < least { sd } else { least }))
    });
    let choices: Vec<Choice> = targets
        .iter()
        .filter_map(|(at, crops)| {
            let bed = beds.get(*at)?;
            let plants = crops.iter().filter_map(|index| bed.crops.get(*index));
            Some(Choice {
                bare: bed.low.expected,
                ranked: Expected { sd: alike?, df: None, ..bed.low.expected },
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
