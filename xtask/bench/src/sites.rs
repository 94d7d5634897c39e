//! Where a bed's emitters lie, which of them a crop may have, and which plants exclude each other.
//!
//! Whole micrometres, and squares of them, as the door promises. Two plants stand at least the mean
//! of their spacings from each other, and a plant the bed's margin from every side; each less the
//! millimetre that a tape measure forgives.

use crate::bed::{Bed, Crop};

/// What a tape measure forgives, micrometres.
const FORGIVEN: i64 = 1_000;
/// No emitter is assumed nearer than this to the bed's ends: 3 in, micrometres.
const END_STRIP: i64 = 76_200;
/// What rounding to whole micrometres can change in a distance.
const ROUNDING: i64 = 4;

/// A crop at an emitter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The crop, by its place among the bed's.
    pub crop: usize,
    /// From the left end, micrometres.
    pub along: i64,
    /// From the near side, micrometres.
    pub across: i64,
}

/// Every choice there is on a bed, and which two can't both be made.
#[derive(Clone, Debug)]
pub struct Model {
    /// The choices, by crop, then along the bed, then across.
    pub choices: Vec<Choice>,
    /// For each choice those that it excludes, in order.
    pub excludes: Vec<Vec<usize>>,
    /// How many emitters at least one crop may have.
    pub sites: usize,
    /// Whether rounding could change which plants exclude each other.
    pub doubtful: bool,
}

/// Every emitter of the bed: from the left end, from the near side.
fn emitters(bed: &Bed) -> Vec<(i64, i64)> {
    let lines: Vec<(i64, Option<i64>)> = match &bed.lines {
        Err(each) => each.iter().map(|line| (line.across, Some(line.first_emitter))).collect(),
        Ok(count) => {
            let n = i64::from(*count);
            let across = |k: i64| match (bed.line_spacing, bed.first_line) {
                (Some(gap), Some(first)) => first + k * gap,
                (Some(gap), None) => (bed.width - (n - 1) * gap) / 2 + k * gap,
                (None, first) => first.unwrap_or(bed.width * (2 * k + 1) / (2 * n)),
            };
            (0..n).map(|k| (across(k), bed.first_emitter)).collect()
        }
    };
    let mut all = Vec::new();
    for (across, measured) in lines {
        let (first, hops) = match measured {
            Some(first) => (first, (bed.length - first) / bed.pitch),
            None => {
                let hops = ((bed.length - 2 * END_STRIP) / bed.pitch).max(0);
                ((bed.length - hops * bed.pitch) / 2, hops)
            }
        };
        all.extend((0..=hops).map(|hop| (first + hop * bed.pitch, across)));
    }
    all.sort_unstable();
    all
}

/// How much nearer than allowed two plants would be, doubled and squared: positive is too near.
fn too_near(one: (i64, i64), other: (i64, i64), spacings: i64) -> (bool, bool) {
    let (along, across) = (one.0 - other.0, one.1 - other.1);
    // Doubled, since the mean of two whole numbers may end in a half.
    let distance = 4 * (along * along + across * across);
    let least = spacings - 2 * FORGIVEN;
    let near = least > 0 && distance < least * least;
    let doubtful =
        distance < (least + ROUNDING).pow(2) && distance >= (least - ROUNDING).max(0).pow(2);
    (near, doubtful)
}

/// Whether the bed's margin leaves an emitter to plants, and whether that hangs on rounding.
fn inside(bed: &Bed, (along, across): (i64, i64)) -> (bool, bool) {
    let nearest = [along, bed.length - along, across, bed.width - across]
        .into_iter()
        .fold(i64::MAX, i64::min);
    let least = (bed.margin - FORGIVEN).max(0);
    (nearest >= least, (nearest - least).abs() <= ROUNDING)
}

impl Model {
    /// All choices on a bed.
    #[must_use]
    pub fn of(bed: &Bed) -> Self {
        let mut doubtful = false;
        let mut usable = emitters(bed);
        usable.retain(|&at| {
            let (is_inside, unsure) = inside(bed, at);
            doubtful |= unsure;
            is_inside
        });
        usable.dedup();
        let mut choices = Vec::new();
        for (crop, Crop { spacing, on_hand }) in bed.crops.iter().enumerate() {
            if *on_hand == Some(0) {
                continue;
            }
            for &(along, across) in &usable {
                let kept_off = bed.standing.iter().any(|plant| {
                    let there = (plant.along, plant.across);
                    let (near, unsure) = too_near((along, across), there, spacing + plant.spacing);
                    doubtful |= unsure;
                    near
                });
                if !kept_off {
                    choices.push(Choice { crop, along, across });
                }
            }
        }
        let mut excludes = vec![Vec::new(); choices.len()];
        let spacing = |choice: &Choice| bed.crops.get(choice.crop).map_or(0, |crop| crop.spacing);
        for (at, one) in choices.iter().enumerate() {
            let mut list = Vec::new();
            for (other_at, other) in choices.iter().enumerate() {
                if at == other_at {
                    continue;
                }
                let (there, here) = ((other.along, other.across), (one.along, one.across));
                let (near, unsure) = too_near(here, there, spacing(one) + spacing(other));
                doubtful |= unsure && here != there;
                if near || here == there {
                    list.push(other_at);
                }
            }
            if let Some(place) = excludes.get_mut(at) {
                *place = list;
            }
        }
        Self { choices, excludes, sites: usable.len(), doubtful }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bed(line: &str) -> Bed {
        line.parse().unwrap()
    }

    #[test]
    fn a_bed_of_eight_by_four_feet_has_its_emitters_where_the_door_says() {
        let strips = emitters(&bed("24384 12192 4 - - 2286 - 762 in-order 4572 - = -"));
        assert_eq!(strips.len(), 44);
        assert_eq!(strips[0], (76_200, 152_400));
        assert_eq!(strips[43], (2_362_200, 1_066_800));
        let centred = emitters(&bed("24384 12192 3 2540 - 3048 - 762 in-order 4572 - = -"));
        assert_eq!(centred.len(), 24);
        assert_eq!(centred[0], (152_400, 355_600));
        let measured = emitters(&bed("24384 12192 1 - - 3048 0 762 in-order 4572 - = -"));
        assert_eq!(measured.len(), 9);
        let short = emitters(&bed("1016 3048 1 - - 2286 - 0 in-order 4572 - = -"));
        assert_eq!(short, [(50_800, 152_400)]);
    }

    #[test]
    fn an_exact_fit_is_not_too_near() {
        assert!(!too_near((0, 0), (457_200, 0), 2 * 457_200).0);
        assert!(!too_near((0, 0), (456_200, 0), 2 * 457_200).0);
        assert!(too_near((0, 0), (456_199, 0), 2 * 457_200).0);
    }

    #[test]
    fn unlike_plants_keep_the_mean_of_their_spacings() {
        let model = Model::of(&bed("9144 3048 1 - - 3048 - 0 in-order 3048x1,6096x1 - = -"));
        assert_eq!((model.sites, model.choices.len()), (3, 6));
        // The wide one in the middle excludes the narrow one on every emitter, the one at the left
        // end leaves the right end free.
        assert_eq!(model.excludes[4], [0, 1, 2, 3, 5]);
        assert_eq!(model.excludes[3], [0, 1, 4]);
    }
}
