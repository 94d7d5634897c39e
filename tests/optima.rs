//! Layouts against optima that a general solver proved: HiGHS (Q. Huangfu and J. A. J. Hall,
//! "Parallelizing the dual revised simplex method", Mathematical Programming Computation 10, 2018).
//!
//! `cargo xtask bench --record` draws the beds, models them anew and writes what HiGHS proves.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic)]

use pegline_bench::{Aim, Bed, Found, Gap, beds};
use pegline_core::{ask::ask, garden::Garden};

const OPTIMA: &str = include_str!("optima.txt");

/// What may be left of a layout that isn't said to be the best.
const MOST_MISSED: Gap = Gap(4);

fn found(bed: &Bed) -> Found {
    let answer = ask(&bed.question(), &Garden::default());
    let answer = answer.unwrap_or_else(|refusal| panic!("{bed}\n{refusal:?}"));
    let answer = serde_json::to_value(answer).unwrap();
    Found::checked(bed, &answer).unwrap_or_else(|wrong| panic!("{bed}\n{wrong}"))
}

/// All that is wrong with the answers on the beds with one crop, or with several.
fn wrong(several: bool, known: usize) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut beds = beds(OPTIMA).unwrap();
    beds.retain(|bed| (bed.crops.len() > 1) == several);
    assert_eq!(beds.len(), known);
    for bed in beds {
        let found = found(&bed);
        let gap = found.gap(bed.aim, &bed.best);
        let total: u32 = bed.best.iter().sum();
        // In order, the most of the first crops may leave fewer in all than would fit otherwise.
        let bound_holds = found.bound >= total || bed.aim == Aim::InOrder && found.proved;
        let as_promised =
            if found.proved { gap == Gap(0) } else { Gap(0) <= gap && gap <= MOST_MISSED };
        if !as_promised || !bound_holds {
            wrong.push(format!("{bed}: {found:?}"));
        }
    }
    wrong
}

#[test]
fn one_crop_is_laid_out_as_full_as_the_solver_proves() {
    let wrong = wrong(false, 300);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn several_crops_are_laid_out_as_full_as_the_solver_proves() {
    let wrong = wrong(true, 200);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
