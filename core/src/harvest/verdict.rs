//! The verdict on one fruit, head, root or plant, and on a bed from several.

use crate::order;
use chrono::TimeDelta;

use super::{
    age,
    combine::{Certainty, Tally, combine},
    cues::{Sheet, Sign, Stop},
    heat::DegreeDays,
    measures::Measures,
    stage::{Reading, Stage, stages},
};

/// What was seen and measured on one.
#[derive(Clone, Default)]
pub struct Seen {
    /// The signs chosen.
    pub signs: Vec<&'static Sign>,
    /// The signs chosen that end the question.
    pub stops: Vec<&'static Stop>,
    /// What was measured.
    pub measures: Measures,
}

impl Seen {
    /// Whether nothing was seen and nothing measured.
    pub fn is_empty(&self) -> bool {
        self.signs.is_empty() && self.stops.is_empty() && self.measures == Measures::default()
    }
}

/// What is known of the crop's age. All of it is support.
#[derive(Clone, Copy, Debug, Default)]
pub struct Ages {
    /// Since the flower, the silk or the fruit's set.
    pub flower: Option<TimeDelta>,
    /// Since sowing or planting out, with the least and the most that are published to the first
    /// harvest from there.
    pub planting: Option<(TimeDelta, [TimeDelta; 2])>,
    /// Heat since sowing, with the least and the most that are published, or the gardener's own.
    pub heat: Option<(DegreeDays, [DegreeDays; 2])>,
}

/// What the signs, measures and ages say together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// The stage; none where a stop was seen, two signs exclude each other, or nothing was told.
    pub stage: Option<Stage>,
    /// The stages still possible, in order; none where a stop was seen.
    pub allowed: Vec<Stage>,
    /// What decided: ids of signs, names of measures, `days-from-flower`, `days`, `heat`.
    pub decisive: Vec<&'static str>,
    /// Two that exclude each other.
    pub clash: Option<[&'static str; 2]>,
    /// How sure it is.
    pub certainty: Certainty,
}

/// The name under which the age from the flower stands among what decided.
pub const FLOWER: &str = "days-from-flower";
/// The name under which the days from planting stand among what decided.
pub const DAYS: &str = "days";
/// The name under which heat stands among what decided.
pub const HEAT: &str = "heat";

/// Judges one.
pub fn judge(sheet: &Sheet, seen: &Seen, ages: &Ages) -> Verdict {
    let lean = sheet.lean();
    let mut evidence: Vec<(&'static str, Reading)> =
        seen.signs.iter().map(|sign| (sign.id(), sign.reads())).collect();
    for size in sheet.sizes() {
        let measured = seen.measures.get(size.what());
        if let Some(reading) = measured.and_then(|measured| size.read(measured)) {
            evidence.push((size.what().word(), reading));
        }
    }
    let flower = ages.flower.and_then(|age| age::by_flower(sheet, age));
    let planting =
        ages.planting.and_then(|(age, [least, most])| age::by_days(age, least, most, lean));
    let heat = ages.heat.and_then(|(heat, sums)| age::by_heat(heat, sums, lean));
    // The nearest of the ages speaks for all: days from the flower predict better than heat, and heat
    // better than days from planting (F. Tan and others, Scientia Horticulturae 84:227, 2000).
    let ages = [(FLOWER, flower), (HEAT, heat), (DAYS, planting)];
    evidence.extend(ages.into_iter().find_map(|(name, reading)| Some((name, reading?))));

    let excluded = excluded(sheet, seen);
    let readings: Vec<Reading> = evidence.iter().map(|(_, reading)| *reading).collect();
    let combined = combine(&readings, lean);
    let name = |place: usize| evidence.get(place).map_or("", |(name, _)| *name);
    if !seen.stops.is_empty() {
        return Verdict {
            stage: None,
            allowed: Vec::new(),
            decisive: seen.stops.iter().map(|stop| stop.id()).collect(),
            clash: None,
            certainty: Certainty::Sure,
        };
    }
    let clash = combined.clash.map(|(one, other)| [name(one), name(other)]).or(excluded);
    Verdict {
        stage: combined.stage.filter(|_| clash.is_none()),
        allowed: stages(combined.earliest, combined.latest).collect(),
        decisive: combined.leading.iter().map(|place| name(*place)).collect(),
        clash,
        certainty: if clash.is_some() { Certainty::Possible } else { combined.certainty },
    }
}

/// Two answers to one question that can't both be true of one.
fn excluded(sheet: &Sheet, seen: &Seen) -> Option<[&'static str; 2]> {
    let reads = |sign: &Sign| sign.reads();
    sheet.questions().iter().find_map(|question| {
        let mut chosen = question.signs().iter();
        let is_seen = |sign: &&Sign| seen.signs.iter().any(|seen| seen.id() == sign.id());
        let first = chosen.find(is_seen)?;
        let last = chosen.rfind(is_seen)?;
        (reads(first).to < reads(last).from).then_some([first.id(), last.id()])
    })
}

/// One or several alike that were looked at, and the verdict on each.
pub struct Sample {
    /// How many were alike.
    pub count: u32,
    /// The verdict.
    pub verdict: Verdict,
}

/// The verdict on a bed from samples: the counts, and the stage of the middle one. A stop or a clash in
/// any of them leaves the bed without a stage; fewer than three looked at are at most likely.
pub fn judge_bed(sheet: &Sheet, samples: &[Sample]) -> (Verdict, Tally) {
    let mut tally = Tally::default();
    for sample in samples {
        tally.add(sample.verdict.stage, sample.count);
    }
    let verdicts = || samples.iter().map(|sample| &sample.verdict);
    let clash = verdicts().find_map(|verdict| verdict.clash);
    let stopped = verdicts().any(|verdict| verdict.allowed.is_empty());
    let stage = tally.median(sheet.lean()).filter(|_| !stopped && clash.is_none());
    let bears_on = |verdict: &&Verdict| {
        stopped == verdict.allowed.is_empty()
            && (stopped
                || clash.is_some() && verdict.clash == clash
                || clash.is_none() && verdict.stage == stage)
    };
    let mut decisive: Vec<&'static str> = Vec::new();
    for name in verdicts().filter(bears_on).flat_map(|verdict| &verdict.decisive) {
        if !decisive.contains(name) {
            decisive.push(name);
        }
    }
    let told = verdicts().filter(|verdict| verdict.stage.is_some());
    let surest = told.map(|verdict| verdict.certainty).min().unwrap_or(Certainty::Possible);
    let certainty = match stage {
        _ if stopped => Certainty::Sure,
        None => Certainty::Possible,
        Some(_) if tally.told() < 3 => surest.min(Certainty::Likely),
        Some(_) => surest,
    };
    let mut allowed: Vec<Stage> = Vec::new();
    if !stopped {
        allowed = verdicts().flat_map(|verdict| verdict.allowed.iter().copied()).collect();
        order::sort(&mut allowed, &|stage| [*stage as i64, 0, 0]);
        allowed.dedup();
    }
    (Verdict { stage, allowed, decisive, clash, certainty }, tally)
}

#[cfg(test)]
mod tests {
    use super::super::cues::sheet_named;
    use super::*;

    fn seen(sheet: &Sheet, signs: &[&str]) -> Seen {
        Seen {
            signs: signs.iter().filter_map(|id| Some(sheet.sign(id)?.1)).collect(),
            stops: signs.iter().filter_map(|id| sheet.stop(id)).collect(),
            measures: Measures::default(),
        }
    }

    fn verdict(sheet: &str, signs: &[&str]) -> Verdict {
        let sheet = sheet_named(sheet).unwrap();
        judge(sheet, &seen(sheet, signs), &Ages::default())
    }

    fn bed(sheet: &str, samples: &[(&[&str], u32)]) -> (Verdict, Tally) {
        let samples: Vec<Sample> = samples
            .iter()
            .map(|(signs, count)| Sample { count: *count, verdict: verdict(sheet, signs) })
            .collect();
        judge_bed(sheet_named(sheet).unwrap(), &samples)
    }

    #[test]
    fn a_stop_leaves_no_stage_whatever_else_was_seen() {
        let bitter = verdict("summer-squash", &["glossy", "nail-cuts", "bitter"]);
        assert_eq!(bitter.stage, None);
        assert!(bitter.allowed.is_empty());
        assert_eq!(bitter.decisive, ["bitter"]);
    }

    #[test]
    fn a_bed_is_told_by_its_middle_one_and_its_counts() {
        let (told, tally) = bed("snap-bean", &[(&["snaps-clean"], 5), (&["spongy"], 3)]);
        assert_eq!(told.stage, Some(Stage::Prime));
        assert_eq!((tally.at(Stage::Prime), tally.at(Stage::Past)), (5, 3));
        assert_eq!(told.decisive, ["snaps-clean"]);
        assert_eq!(told.allowed, [Stage::Prime, Stage::Past]);
    }

    #[test]
    fn few_looked_at_are_at_most_likely() {
        assert_eq!(verdict("snap-bean", &["spongy"]).certainty, Certainty::Sure);
        assert_eq!(bed("snap-bean", &[(&["spongy"], 2)]).0.certainty, Certainty::Likely);
        assert_eq!(bed("snap-bean", &[(&["spongy"], 3)]).0.certainty, Certainty::Sure);
    }

    #[test]
    fn one_stop_or_clash_in_a_bed_leaves_it_without_a_stage() {
        let (stopped, tally) = bed("summer-squash", &[(&["nail-cuts"], 4), (&["bitter"], 1)]);
        assert_eq!((stopped.stage, stopped.decisive.as_slice()), (None, ["bitter"].as_slice()));
        assert!(stopped.allowed.is_empty());
        assert_eq!((tally.told(), tally.untold()), (4, 1));
        let (clash, _) =
            bed("garlic", &[(&["fills-tight-skins"], 3), (&["splayed", "fills-tight-skins"], 1)]);
        assert_eq!((clash.stage, clash.clash), (None, Some(["splayed", "fills-tight-skins"])));
        assert!(!clash.allowed.is_empty());
    }

    #[test]
    fn an_empty_bed_sample_tells_nothing() {
        let (told, tally) = bed("kale", &[]);
        assert_eq!((told.stage, told.certainty, tally.told()), (None, Certainty::Possible, 0));
        let (told, _) = bed("kale", &[(&[], 3)]);
        assert_eq!((told.stage, told.allowed.len()), (None, 4));
    }

    #[test]
    fn the_flowers_date_speaks_before_heat_and_days() {
        let sheet = sheet_named("sweet-corn").unwrap();
        let ages = Ages {
            flower: Some(TimeDelta::days(5)),
            planting: Some((TimeDelta::days(90), [TimeDelta::days(75), TimeDelta::days(100)])),
            heat: None,
        };
        let told = judge(sheet, &Seen::default(), &ages);
        assert_eq!((told.stage, told.decisive), (Some(Stage::NotYet), vec![FLOWER]));
    }
}
