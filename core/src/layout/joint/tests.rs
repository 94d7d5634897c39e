//! The search against trying every layout of small beds.
#![allow(clippy::indexing_slicing)]

use proptest::prelude::*;

use super::*;
use crate::turns::Turns;

/// A small bed: spots on lines a while from each other, and crops with what they may use.
#[derive(Clone, Debug)]
struct Small {
    spots: Vec<Spot>,
    crops: Vec<Crop>,
}

fn spot(along: i64, across: i64) -> Spot {
    Spot { along: Micrometres::new(along), across: Micrometres::new(across) }
}

fn small(most_spots: usize) -> impl Strategy<Value = Small> {
    let place = (0_i64..60, 0_i64..4);
    let crop = (5_i64..40, any::<u16>(), prop::option::weighted(0.7, 0_u32..5));
    (prop::collection::vec(place, 1..=most_spots), 3_i64..14, prop::collection::vec(crop, 2..=4))
        .prop_map(|(places, gap, crops)| {
            let spots: Vec<Spot> =
                places.iter().map(|&(along, line)| spot(along, line * gap)).collect();
            let crops = crops
                .into_iter()
                .map(|(apart, may, most)| Crop {
                    kind: Kind {
                        apart,
                        // Most crops may use all but a few of the spots.
                        spots: (0..spots.len())
                            .map(|at| may & 3 != 3 || may >> at & 1 == 1)
                            .collect(),
                    },
                    most: most.unwrap_or(u32::MAX),
                })
                .collect();
            Small { spots, crops }
        })
}

/// A bed of drip lines, all in phase or not.
fn drip(most_holes: i64) -> impl Strategy<Value = Small> {
    let crop = (
        prop::sample::select(vec![5_i64, 6, 8, 9, 10, 12, 15, 18]),
        0_i64..4,
        prop::option::weighted(0.7, 0_u32..6),
    );
    (
        1_i64..5,
        1..=most_holes,
        prop::sample::select(vec![5_i64, 6, 9, 12]),
        4_i64..15,
        prop::collection::vec(0_i64..9, 5),
        any::<bool>(),
        prop::collection::vec(crop, 2..=4),
    )
        .prop_map(|(lines, holes, pitch, gap, phases, phased, crops)| {
            let spots: Vec<Spot> = (0..lines)
                .zip(phases)
                .flat_map(|(line, phase)| {
                    let phase = if phased { phase } else { 0 };
                    (0..holes).map(move |hole| spot(phase + hole * pitch, line * gap))
                })
                .collect();
            let end = spots.iter().map(|spot| spot.along.get()).max().unwrap_or(0);
            let crops = crops
                .into_iter()
                .map(|(apart, margin, most)| Crop {
                    kind: Kind {
                        apart,
                        spots: spots
                            .iter()
                            .map(|spot| {
                                margin <= spot.along.get() && spot.along.get() <= end - margin
                            })
                            .collect(),
                    },
                    most: most.unwrap_or(u32::MAX),
                })
                .collect();
            Small { spots, crops }
        })
}

/// Whether these crops keep their distance at these spots.
fn clear(bed: &Small, one: (usize, usize), other: (usize, usize)) -> bool {
    let apart = bed.crops[one.1].kind.apart + bed.crops[other.1].kind.apart;
    bed.spots[one.0].square_to(&bed.spots[other.0]) * 4 >= apart * apart
}

/// The best counts by the aim, by trying everything. The rest can bring at most a plant a spot.
fn try_all(bed: &Small, aim: Aim) -> Vec<u32> {
    struct Trial<'a> {
        bed: &'a Small,
        aim: Aim,
        counts: Vec<u32>,
        planted: Vec<(usize, usize)>,
        best: Vec<u32>,
    }
    fn total(counts: &[u32]) -> u32 {
        counts.iter().sum()
    }
    fn go(trial: &mut Trial<'_>, at: usize) {
        let better = match trial.aim {
            Aim::InOrder => trial.counts > trial.best,
            Aim::Most => total(&trial.counts) > total(&trial.best),
        };
        if better {
            trial.best.clone_from(&trial.counts);
        }
        let left = (trial.bed.spots.len() - at) as u32;
        let hopeless = match trial.aim {
            Aim::InOrder => trial.counts[0] + left < trial.best[0],
            Aim::Most => total(&trial.counts) + left <= total(&trial.best),
        };
        if left == 0 || hopeless {
            return;
        }
        for crop in 0..trial.bed.crops.len() {
            let own = &trial.bed.crops[crop];
            let fits = own.kind.spots[at]
                && trial.counts[crop] < own.most
                && trial.planted.iter().all(|&other| clear(trial.bed, (at, crop), other));
            if fits {
                trial.counts[crop] += 1;
                trial.planted.push((at, crop));
                go(trial, at + 1);
                trial.planted.pop();
                trial.counts[crop] -= 1;
            }
        }
        go(trial, at + 1);
    }
    let none = vec![0; bed.crops.len()];
    let mut trial = Trial { bed, aim, counts: none.clone(), planted: Vec::new(), best: none };
    go(&mut trial, 0);
    trial.best
}

fn solve(bed: &Small, aim: Aim, steps: u64) -> (Vec<Found>, u32) {
    let mut joint = Joint::new(bed.spots.clone(), &bed.crops, aim);
    let mut search = Turns::new(async move |pace: &Pace| {
        joint.search(pace).await;
        (joint.found(), joint.together)
    });
    loop {
        if let Some(found) = search.turn(steps) {
            return found;
        }
    }
}

fn check(bed: &Small, aim: Aim) {
    let (found, together) = solve(bed, aim, u64::MAX);
    let plants: Vec<(usize, usize)> = found
        .iter()
        .enumerate()
        .flat_map(|(crop, found)| found.spots.iter().map(move |&spot| (spot, crop)))
        .collect();
    for (at, &(spot, crop)) in plants.iter().enumerate() {
        assert!(bed.crops[crop].kind.spots[spot]);
        for &other in &plants[at + 1..] {
            assert!(clear(bed, (spot, crop), other), "{plants:?}");
        }
    }
    let counts: Vec<u32> = found.iter().map(|found| found.spots.len() as u32).collect();
    for (count, crop) in counts.iter().zip(&bed.crops) {
        assert!(*count <= crop.most);
    }
    let best = try_all(bed, aim);
    match aim {
        Aim::InOrder => {
            assert_eq!(counts, best);
            assert!(found.iter().all(|found| found.bound as usize == found.spots.len()));
        }
        Aim::Most => {
            assert_eq!(counts.iter().sum::<u32>(), best.iter().sum::<u32>());
            assert_eq!(counts.iter().sum::<u32>(), together);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn small_beds_hold_what_trying_everything_finds_in_order(bed in small(8)) {
        check(&bed, Aim::InOrder);
    }

    #[test]
    fn small_beds_hold_what_trying_everything_finds_in_all(bed in small(8)) {
        check(&bed, Aim::Most);
    }

    #[test]
    fn drip_lines_hold_what_trying_everything_finds_in_order(bed in drip(3)) {
        prop_assume!(bed.spots.len() <= 10);
        check(&bed, Aim::InOrder);
    }

    #[test]
    fn drip_lines_hold_what_trying_everything_finds_in_all(bed in drip(3)) {
        prop_assume!(bed.spots.len() <= 10);
        check(&bed, Aim::Most);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn however_the_steps_are_cut_the_layout_is_the_same(
        bed in drip(14), steps in 1_u64..3_000, most in any::<bool>(),
    ) {
        let aim = if most { Aim::Most } else { Aim::InOrder };
        prop_assert_eq!(solve(&bed, aim, steps), solve(&bed, aim, u64::MAX));
    }

    #[test]
    fn more_spots_never_hold_fewer(bed in drip(14), less in any::<prop::sample::Index>()) {
        let gone = less.index(bed.spots.len());
        let mut fewer = bed.clone();
        for crop in &mut fewer.crops {
            crop.kind.spots[gone] = false;
        }
        let counts = |bed: &Small| {
            let (found, _) = solve(bed, Aim::InOrder, u64::MAX);
            let proved = found.iter().all(|found| found.bound as usize == found.spots.len());
            (found.iter().map(|found| found.spots.len()).collect::<Vec<_>>(), proved)
        };
        let ((all, one), (some, other)) = (counts(&bed), counts(&fewer));
        prop_assume!(one && other);
        prop_assert!(some <= all, "{some:?} {all:?}");
    }

    #[test]
    fn turning_the_bed_round_changes_no_count(bed in drip(10), most in any::<bool>()) {
        let aim = if most { Aim::Most } else { Aim::InOrder };
        let mut turned = bed.clone();
        for spot in &mut turned.spots {
            (spot.along, spot.across) = (spot.across, Micrometres::new(-spot.along.get()));
        }
        let counts = |bed: &Small| {
            let (found, together) = solve(bed, aim, u64::MAX);
            let counts: Vec<usize> = found.iter().map(|found| found.spots.len()).collect();
            let bounds: Vec<u32> = found.iter().map(|found| found.bound).collect();
            match aim {
                Aim::InOrder => (counts, bounds),
                Aim::Most => (vec![counts.iter().sum()], vec![together]),
            }
        };
        prop_assert_eq!(counts(&bed), counts(&turned));
    }
}
