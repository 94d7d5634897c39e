//! What the signs come to.
//!
//! Leaves killed by frost look soaked when they thaw, turn brown or black, then dry and brittle; look twice,
//! once after the sun has warmed them and once well after the thaw, when what was hurt within shows (B.
//! Phillips, Michigan State University Extension, 2016, after Purdue HO-203). Tender crops that went black
//! are lost; hardy ones, of which only leaves were hurt, go on from the heart (common practice). Produce that
//! was frosted is picked at once, before rot gets in (Colorado State University Extension, Jefferson County,
//! 2020).

use super::{answer::Verdict, question::Sign};
use crate::{
    catalogue::{Crop, Hardiness, Start},
    harvest::cues::sheets_of,
    words::harm::Harm,
};

/// What kind of crop it is, as far as frost asks.
#[derive(Clone, Copy)]
pub(super) struct Facts {
    /// One light frost ends it.
    pub(super) is_tender: bool,
    /// It bears fruit, pods or heads that are eaten.
    pub(super) bears: bool,
}

impl Facts {
    pub(super) fn of(crop: &Crop) -> Self {
        let is_tender = matches!(crop.hardiness(), Hardiness::Chilling | Hardiness::Tender);
        // A tuber is safe in the ground.
        let bears = crop.eaten()
            && !crop.starts().contains(&Start::Tuber)
            && sheets_of(crop).first().is_some_and(|it| !it.is_whole_plant() && !it.is_leaves());
        Self { is_tender, bears }
    }
}

/// The verdict, and in how many days to look again.
pub(super) fn judge(facts: Facts, signs: &[Sign]) -> (Verdict, i64) {
    let has = |sign: Sign| signs.contains(&sign);
    let Facts { is_tender, bears } = facts;
    // Still frozen, or just thawed, nothing can be told yet.
    let dead = has(Sign::Black) || has(Sign::SplitStem);
    if has(Sign::SoftCrown) {
        return (Verdict::Gone, 0);
    }
    if has(Sign::FruitSoft) || has(Sign::SplitStem) && !is_tender {
        return (Verdict::PickNow, 1);
    }
    if has(Sign::NewGrowth) {
        return (Verdict::CutBack, 14);
    }
    if is_tender && dead {
        return match (bears, has(Sign::SplitStem)) {
            // What hangs under dead leaves does not ripen there any more.
            (true, _) => (Verdict::PickNow, 1),
            (false, true) => (Verdict::Gone, 0),
            // Some shoot again from below.
            (false, false) => (Verdict::Wait, 5),
        };
    }
    let days = if has(Sign::Glassy) || has(Sign::Limp) {
        2
    } else if dead {
        5
    } else {
        7
    };
    (Verdict::Wait, days)
}

/// How much of it was hurt, as the record keeps it.
pub(super) fn harm(verdict: Verdict, signs: &[Sign]) -> Harm {
    let has = |sign: Sign| signs.contains(&sign);
    if verdict == Verdict::Gone {
        Harm::All
    } else if has(Sign::Black) || has(Sign::SplitStem) || has(Sign::FruitSoft) {
        Harm::Most
    } else if signs.iter().all(|sign| *sign == Sign::Firm) {
        Harm::None
    } else {
        Harm::Some
    }
}
