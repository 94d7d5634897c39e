//! Many signs, one verdict.
//!
//! Each sign allows an interval of stages and has a weight ([`Reading`]). Decisive signs bound what
//! is possible, strong ones narrow it, weak ones choose within what is left and never overrule
//! either. A sign that lies wholly outside what heavier signs allow is read as the nearest stage they
//! do allow. Where signs of one weight exclude each other there is no verdict but a range, and the two
//! that disagree are named: an average of them would be true of no fruit on the plant.
//!
//! Derived; it rests on no published method. What it promises: without signs no verdict, and a sign
//! exchanged for a worse one never makes the verdict better (see the tests).

use super::stage::{Reading, Stage, Weight};

/// Which way to lean where a choice is left: the cost of a mistake is lopsided.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lean {
    /// The crop waits well, so picking too soon costs more.
    Early,
    /// The crop does not wait, so leaving it costs more.
    Late,
}

impl Lean {
    fn choose(self, stages: impl Iterator<Item = Stage>) -> Option<Stage> {
        match self {
            Self::Early => stages.min(),
            Self::Late => stages.max(),
        }
    }
}

/// How sure a verdict is: by rule, not by percentage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Certainty {
    /// Weak signs alone, or signs that disagree.
    Possible,
    /// One strong sign.
    Likely,
    /// A decisive sign, or two strong ones that agree.
    Sure,
}

/// What the signs say together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Combined {
    /// The verdict; none without signs, or where signs of one weight exclude each other.
    pub stage: Option<Stage>,
    /// The earliest stage still possible.
    pub earliest: Stage,
    /// The latest stage still possible.
    pub latest: Stage,
    /// Which signs decided, by their place in the list given.
    pub leading: Vec<usize>,
    /// Two signs that exclude each other, by their place in the list given.
    pub clash: Option<(usize, usize)>,
    /// How sure the verdict is.
    pub certainty: Certainty,
}

/// Combines the signs seen on one fruit, head, root or plant.
pub fn combine(readings: &[Reading], lean: Lean) -> Combined {
    let mut combined = Combined {
        stage: None,
        earliest: Stage::NotYet,
        latest: Stage::Past,
        leading: Vec::new(),
        clash: None,
        certainty: Certainty::Possible,
    };
    for weight in [Weight::Decisive, Weight::Strong, Weight::Weak] {
        let Some(level) = Level::of(weight, readings, &combined) else {
            continue;
        };
        let alone = combined.leading.is_empty();
        // Weak signs one stage apart are a matter of taste or of variety; heavier ones are not.
        let clashes = match weight {
            Weight::Weak => alone && level.low as u8 > level.high as u8 + 1,
            _ => level.low > level.high,
        };
        if weight != Weight::Weak || alone {
            let narrowed = level.low > combined.earliest || level.high < combined.latest;
            combined.earliest = level.low.min(level.high);
            combined.latest = level.low.max(level.high);
            if alone || narrowed {
                combined.leading.extend(level.agreeing(readings, &combined));
            }
        }
        if clashes {
            return Combined {
                stage: None,
                leading: vec![level.clash.0, level.clash.1],
                clash: Some(level.clash),
                certainty: Certainty::Possible,
                ..combined
            };
        }
        let (earliest, latest) = (combined.earliest, combined.latest);
        let likely = level.signs.iter().filter_map(|sign| readings.get(*sign));
        combined.stage = lean.choose(likely.map(|sign| sign.likely.clamp(earliest, latest)));
    }
    combined.certainty = combined.how_sure(readings);
    combined
}

impl Combined {
    /// How sure the verdict is: two strong signs count for sure only where they mean the same stage.
    fn how_sure(&self, readings: &[Reading]) -> Certainty {
        let with = |weight| readings.iter().filter(move |sign| sign.weight == weight);
        let decisive = with(Weight::Decisive).next().is_some();
        let means_it =
            |sign: &&Reading| Some(sign.likely.clamp(self.earliest, self.latest)) == self.stage;
        let agreeing = with(Weight::Strong).filter(means_it).count();
        let narrow = self.latest as u8 <= self.earliest as u8 + 1;
        match agreeing {
            _ if decisive && narrow => Certainty::Sure,
            2.. if narrow => Certainty::Sure,
            0 if !decisive && with(Weight::Strong).next().is_none() => Certainty::Possible,
            _ => Certainty::Likely,
        }
    }
}

/// The signs of one weight, each read within what heavier signs allow.
struct Level {
    weight: Weight,
    signs: Vec<usize>,
    /// The latest stage that some sign starts at, and the earliest that some sign ends at: they
    /// agree where the first is not after the second.
    low: Stage,
    high: Stage,
    /// The signs those two come from.
    clash: (usize, usize),
}

impl Level {
    fn of(weight: Weight, readings: &[Reading], within: &Combined) -> Option<Self> {
        let (earliest, latest) = (within.earliest, within.latest);
        let signs = readings.iter().enumerate().filter(|(_, sign)| sign.weight == weight);
        let mut level: Option<Self> = None;
        for (place, sign) in signs {
            let from = sign.from.clamp(earliest, latest);
            let to = sign.to.clamp(earliest, latest);
            match &mut level {
                None => {
                    let signs = vec![place];
                    level =
                        Some(Self { weight, signs, low: from, high: to, clash: (place, place) });
                }
                Some(level) => {
                    level.signs.push(place);
                    if from > level.low {
                        (level.low, level.clash.0) = (from, place);
                    }
                    if to < level.high {
                        (level.high, level.clash.1) = (to, place);
                    }
                }
            }
        }
        level.map(|mut level| {
            level.clash = (level.clash.0.min(level.clash.1), level.clash.0.max(level.clash.1));
            level
        })
    }

    /// The signs of this level that an end of the range it left comes from.
    fn agreeing(&self, readings: &[Reading], range: &Combined) -> Vec<usize> {
        let ends = [range.earliest, range.latest];
        let bears_on = |sign: &Reading| {
            self.weight == Weight::Decisive || ends.contains(&sign.from) || ends.contains(&sign.to)
        };
        let all = self.signs.iter().copied();
        all.filter(|sign| readings.get(*sign).is_some_and(bears_on)).collect()
    }
}

/// What was seen of a bed: how many at each stage, and how many gave no verdict.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    counts: [u32; 4],
    untold: u32,
}

impl Tally {
    /// Counts `number` that gave this verdict.
    pub fn add(&mut self, stage: Option<Stage>, number: u32) {
        let place = stage.and_then(|stage| self.counts.get_mut(stage as usize));
        let place = place.unwrap_or(&mut self.untold);
        *place = place.saturating_add(number);
    }

    /// How many are at a stage.
    pub fn at(&self, stage: Stage) -> u32 {
        self.counts.get(stage as usize).copied().unwrap_or(0)
    }

    /// How many gave a verdict.
    pub fn told(&self) -> u32 {
        self.counts.iter().fold(0, |sum, count| sum.saturating_add(*count))
    }

    /// How many gave none.
    pub fn untold(&self) -> u32 {
        self.untold
    }

    /// The stage of the middle one; of the middle two, the one the crop's lean says.
    pub fn median(&self, lean: Lean) -> Option<Stage> {
        let told = self.told();
        let half = match lean {
            Lean::Early => told.div_ceil(2),
            Lean::Late => told / 2 + 1,
        };
        let mut so_far = 0_u32;
        Stage::ALL.iter().copied().find(|stage| {
            so_far = so_far.saturating_add(self.at(*stage));
            told > 0 && so_far >= half
        })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const NOT_YET: Stage = Stage::NotYet;
    const PRIME: Stage = Stage::Prime;
    const GOING: Stage = Stage::Going;
    const PAST: Stage = Stage::Past;

    fn any_stage() -> impl Strategy<Value = Stage> {
        (0..4_usize).prop_map(|place| Stage::ALL[place])
    }

    fn any_reading() -> impl Strategy<Value = Reading> {
        ([any_stage(), any_stage(), any_stage()], 0..3_usize).prop_map(|(mut three, weight)| {
            three.sort();
            let [from, likely, to] = three;
            Reading { from, likely, to, weight: Weight::ALL[weight] }
        })
    }

    fn either_lean() -> impl Strategy<Value = Lean> {
        prop_oneof![Just(Lean::Early), Just(Lean::Late)]
    }

    #[test]
    fn without_signs_there_is_no_verdict() {
        let nothing = combine(&[], Lean::Late);
        assert_eq!(nothing.stage, None);
        assert_eq!((nothing.earliest, nothing.latest), (NOT_YET, PAST));
        assert_eq!(nothing.certainty, Certainty::Possible);
        assert!(nothing.leading.is_empty() && nothing.clash.is_none());
    }

    #[test]
    fn a_decisive_sign_wins_over_any_number_of_others() {
        let mut signs = vec![Reading::of(PRIME, Weight::Weak); 9];
        signs.push(Reading::of(PRIME, Weight::Strong));
        signs.push(Reading::of(PAST, Weight::Decisive));
        let past = combine(&signs, Lean::Early);
        assert_eq!(past.stage, Some(PAST));
        assert_eq!(past.leading, [10]);
        assert_eq!(past.certainty, Certainty::Sure);
    }

    #[test]
    fn weak_signs_choose_within_what_strong_ones_leave() {
        let not_past = Reading { from: PRIME, likely: PRIME, to: GOING, weight: Weight::Strong };
        let alone = combine(&[not_past], Lean::Late);
        assert_eq!((alone.stage, alone.certainty), (Some(PRIME), Certainty::Likely));
        let large = combine(&[not_past, Reading::of(GOING, Weight::Weak)], Lean::Late);
        assert_eq!(large.stage, Some(GOING));
        assert_eq!((large.earliest, large.latest), (PRIME, GOING));
        let huge = combine(&[not_past, Reading::of(PAST, Weight::Weak)], Lean::Late);
        assert_eq!(huge.stage, Some(GOING));
    }

    #[test]
    fn two_decisive_signs_that_exclude_each_other_give_a_range_and_both_names() {
        let signs = [
            Reading::of(PRIME, Weight::Weak),
            Reading::of(PRIME, Weight::Decisive),
            Reading::of(NOT_YET, Weight::Decisive),
        ];
        let clash = combine(&signs, Lean::Early);
        assert_eq!(clash.stage, None);
        assert_eq!((clash.earliest, clash.latest), (NOT_YET, PRIME));
        assert_eq!(clash.clash, Some((1, 2)));
        assert_eq!(clash.certainty, Certainty::Possible);
    }

    #[test]
    fn weak_signs_one_stage_apart_still_give_a_verdict_by_the_crops_lean() {
        let signs = [Reading::of(PRIME, Weight::Weak), Reading::of(GOING, Weight::Weak)];
        assert_eq!(combine(&signs, Lean::Early).stage, Some(PRIME));
        assert_eq!(combine(&signs, Lean::Late).stage, Some(GOING));
        let wide = |from, to| Reading { from, likely: from, to, weight: Weight::Weak };
        let near = combine(&[wide(NOT_YET, PRIME), wide(GOING, PAST)], Lean::Late);
        assert_eq!((near.earliest, near.latest), (PRIME, GOING));
        assert_eq!(near.leading, [0, 1]);
        let far = [Reading::of(NOT_YET, Weight::Weak), Reading::of(GOING, Weight::Weak)];
        assert_eq!(combine(&far, Lean::Late).clash, Some((0, 1)));
    }

    #[test]
    fn two_strong_signs_that_agree_are_sure_and_one_is_likely() {
        let one = [Reading::of(PRIME, Weight::Strong)];
        assert_eq!(combine(&one, Lean::Late).certainty, Certainty::Likely);
        let two = [Reading::of(PRIME, Weight::Strong); 2];
        assert_eq!(combine(&two, Lean::Late).certainty, Certainty::Sure);
        // Two that allow the same stages but mean different ones do not agree.
        let either = |likely| Reading { from: NOT_YET, likely, to: PRIME, weight: Weight::Strong };
        let torn = combine(&[either(NOT_YET), either(PRIME)], Lean::Late);
        assert_eq!((torn.stage, torn.certainty), (Some(PRIME), Certainty::Likely));
    }

    #[test]
    fn the_middle_of_a_sample_leans_with_the_crop() {
        let mut tally = Tally::default();
        assert_eq!(tally.median(Lean::Late), None);
        tally.add(Some(PRIME), 2);
        tally.add(Some(PAST), 2);
        tally.add(None, 1);
        assert_eq!(tally.median(Lean::Early), Some(PRIME));
        assert_eq!(tally.median(Lean::Late), Some(PAST));
        assert_eq!((tally.told(), tally.untold(), tally.at(PAST)), (4, 1, 2));
        tally.add(Some(PRIME), 1);
        assert_eq!(tally.median(Lean::Late), Some(PRIME));
        tally.add(Some(GOING), u32::MAX);
        assert_eq!(tally.median(Lean::Late), Some(GOING));
    }

    proptest! {
        #[test]
        fn a_worse_sign_never_improves_the_verdict(
            signs in prop::collection::vec(any_reading(), 1..7),
            place in any::<prop::sample::Index>(),
            worse in any_reading(),
            lean in either_lean(),
        ) {
            let place = place.index(signs.len());
            let better = signs[place];
            let mut worsened = signs.clone();
            worsened[place] = Reading {
                from: better.from.max(worse.from),
                likely: better.likely.max(worse.likely),
                to: better.to.max(worse.to),
                weight: better.weight,
            };
            let (before, after) = (combine(&signs, lean), combine(&worsened, lean));
            prop_assert!(before.earliest <= after.earliest, "{before:?} {after:?}");
            prop_assert!(before.latest <= after.latest, "{before:?} {after:?}");
            if let (Some(before), Some(after)) = (before.stage, after.stage) {
                prop_assert!(before <= after);
            }
        }

        #[test]
        fn the_order_in_which_signs_are_given_does_not_matter(
            signs in prop::collection::vec(any_reading(), 0..7), lean in either_lean(),
        ) {
            let mut turned = signs.clone();
            turned.reverse();
            let (one, other) = (combine(&signs, lean), combine(&turned, lean));
            prop_assert_eq!(
                (one.stage, one.earliest, one.latest, one.certainty, one.clash.is_some()),
                (other.stage, other.earliest, other.latest, other.certainty, other.clash.is_some())
            );
        }

        #[test]
        fn a_verdict_lies_in_the_range_and_a_clash_has_none(
            signs in prop::collection::vec(any_reading(), 1..7), lean in either_lean(),
        ) {
            let told = combine(&signs, lean);
            prop_assert_eq!(told.stage.is_none(), told.clash.is_some());
            prop_assert!(told.earliest <= told.latest);
            if let Some(stage) = told.stage {
                prop_assert!(told.earliest <= stage && stage <= told.latest);
                prop_assert!(!told.leading.is_empty());
            }
            if let Some((one, other)) = told.clash {
                prop_assert!(signs[one].to < signs[other].from || signs[other].to < signs[one].from);
            }
        }

        #[test]
        fn a_weak_sign_never_moves_what_heavier_ones_allow(
            signs in prop::collection::vec(any_reading(), 1..7), weak in any_reading(),
            lean in either_lean(),
        ) {
            prop_assume!(signs.iter().any(|sign| sign.weight != Weight::Weak));
            let before = combine(&signs, lean);
            let mut more = signs.clone();
            more.push(Reading { weight: Weight::Weak, ..weak });
            let after = combine(&more, lean);
            prop_assert_eq!((before.earliest, before.latest), (after.earliest, after.latest));
        }
    }
}
