//! Random beds, the same for the same seed.

use std::ops::RangeInclusive;

use fastrand::Rng;

use crate::bed::{Aim, Bed, Crop, Line, Standing};
use crate::sites::Model;

/// One inch, micrometres.
const INCH: i64 = 25_400;
/// One centimetre, micrometres.
const CENTIMETRE: i64 = 10_000;

/// The most crops that are drawn for one bed.
const MOST_CROPS: usize = 3;
/// How many emitters a bed with one crop has, and one with several: enough to choose from, and few
/// enough for the solver.
const SITES: [RangeInclusive<usize>; 2] = [20..=600, 40..=100];

/// A bed drawn at random, with one crop or several; nothing where what was drawn is of no use.
///
/// Of no use is a bed with too few or too many emitters for its crops, or one on which a rounding
/// of micrometres would decide what fits.
#[must_use]
pub fn draw(seed: u64, several: bool) -> Option<(Bed, Model)> {
    let mut rng = Rng::with_seed(seed);
    // Half of the gardeners measure in inches, half in centimetres.
    let inches = rng.bool();
    let step = if inches { INCH } else { CENTIMETRE };
    // All lengths are drawn in inches, and 5 cm stand for two of them.
    let mut length = |from: i64, to: i64| {
        let drawn = rng.i64(from..=to);
        if inches { drawn } else { drawn * 5 / 2 }
    };
    let (long, wide) =
        if several { (length(48, 192), length(30, 60)) } else { (length(36, 480), length(18, 60)) };
    let pitch = length(5, if several { 10 } else { 16 });
    let margin = length(0, 6);
    let (gap, first_line) = (length(5, 16), length(2, 8));
    let mut spacings: Vec<i64> = (0..MOST_CROPS).map(|_| length(6, 28)).collect();
    let first_emitter = length(0, 8);

    let count = rng.u32(if several { 3 } else { 1 }..=6);
    let n = i64::from(count);
    let spread = (n - 1) * gap;
    let mut bed = Bed {
        length: long * step,
        width: wide * step,
        lines: Ok(count),
        line_spacing: None,
        first_line: None,
        pitch: pitch * step,
        first_emitter: None,
        margin: margin * step,
        aim: Aim::InOrder,
        crops: Vec::new(),
        standing: Vec::new(),
        best: Vec::new(),
    };
    match rng.u8(0..4) {
        0 if spread <= wide => bed.line_spacing = Some(gap * step),
        1 if spread + first_line <= wide => {
            bed.line_spacing = Some(gap * step);
            bed.first_line = Some(first_line * step);
        }
        2 => {
            bed.lines = Err((0..n)
                .map(|k| Line {
                    across: (wide * (2 * k + 1) / (2 * n)) * step,
                    first_emitter: rng.i64(0..pitch) * step,
                })
                .collect());
        }
        _ => {}
    }
    if bed.lines.is_ok() && rng.u8(0..3) == 0 {
        bed.first_emitter = Some(first_emitter.min(long) * step);
    }

    let crops = if several { rng.usize(2..=MOST_CROPS) } else { 1 };
    spacings.truncate(crops);
    if rng.u8(0..4) > 0 {
        // Most gardeners think of the large ones first and tuck the small ones in.
        spacings.sort_unstable_by_key(|&spacing| -spacing);
    }
    for (at, spacing) in spacings.into_iter().enumerate() {
        // About half as many as would fill the bed alone, or fewer.
        let half = (long * wide / (2 * spacing * spacing)).clamp(1, 60);
        let some = u32::try_from(rng.i64(1..=half)).ok()?;
        let all = at + 1 == crops || rng.u8(0..8) == 0;
        bed.crops
            .push(Crop { spacing: spacing * step, on_hand: (several && !all).then_some(some) });
    }
    let limited = bed.crops.iter().filter(|crop| crop.on_hand.is_some());
    if several && limited.count() + 1 >= crops && rng.u8(0..3) == 0 {
        bed.aim = Aim::Most;
    }
    if rng.u8(0..4) == 0 {
        bed.standing = (0..rng.usize(1..=3))
            .map(|_| Standing {
                along: rng.i64(0..=long) * step,
                across: rng.i64(0..=wide) * step,
                spacing: rng.i64(6..=24) * step,
            })
            .collect();
    }

    let model = Model::of(&bed);
    let [few, many] = SITES;
    let sites = if several { many } else { few };
    (sites.contains(&model.sites) && !model.doubtful).then_some((bed, model))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_draws_the_same_bed_each_time_and_its_line_says_all_of_it() {
        let mut drawn = 0;
        for seed in 0..60 {
            for several in [false, true] {
                let Some((bed, _)) = draw(seed, several) else {
                    continue;
                };
                assert_eq!(draw(seed, several).unwrap().0, bed);
                assert_eq!(bed.to_string().parse::<Bed>().unwrap(), bed);
                assert_eq!(bed.crops.len() > 1, several);
                drawn += 1;
            }
        }
        assert!(drawn > 40, "{drawn}");
    }
}
