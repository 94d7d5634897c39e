//! What to look for, crop by crop: the sheets of `core/data/cues.toml`.
//!
//! A sheet is one way of using a crop (beans to snap, to shell, to dry). It has questions with signs
//! to choose from, measures, the signs that end the question, and what is known of waiting, keeping
//! and using. Each sign carries its [`Reading`]; how many of them make one verdict is
//! [`combine`](super::combine)'s business. To add a crop, add a sheet to the table.

use uom::si::thermodynamic_temperature::degree_fahrenheit;

use super::{
    combine::Lean,
    grades::{Ends, Grades, Rule},
    heat::{CutOff, DegreeDays, Formula, Thresholds},
    measures::Measure,
    sizes::{Size, Unit},
    stage::{Reading, Stage, Weight},
};
use crate::{
    catalogue::{Crop, fold},
    given::words,
    quantity::Temperature,
    source::Source,
};

words! {
    /// How it is taken.
    pub enum Take {
        /// By hand.
        Pick = "pick",
        /// With a knife or shears.
        Cut = "cut",
        /// Out of the soil by its top.
        Pull = "pull",
        /// Out of the soil with a fork.
        Dig = "dig",
    }
}

words! {
    /// With which sense a question is answered.
    pub enum Sense {
        /// Looking.
        Eye = "eye",
        /// Pressing, bending, breaking.
        Hand = "hand",
        /// Listening.
        Ear = "ear",
        /// Tasting.
        Taste = "taste",
        /// Measuring or guessing a size.
        Size = "size",
    }
}

/// One way of using a crop, and what to look for.
pub struct Sheet {
    id: &'static str,
    crops: &'static [&'static str],
    other_use_of: &'static [&'static str],
    used_as: Option<&'static str>,
    names: &'static [&'static str],
    part: [&'static str; 2],
    take: Take,
    leaves: bool,
    whole: bool,
    sets_on: bool,
    pub(crate) wait: Wait,
    pub(crate) flower: Option<Flower>,
    heat: Option<HeatSum>,
    pub(crate) grade: Option<Grades>,
    sizes: &'static [Size],
    questions: &'static [Question],
    stops: &'static [&'static Stop],
    cautions: &'static [Caution],
    pub(crate) good_for: GoodFor,
    keep: &'static [Keep],
    beware: &'static [&'static str],
}

/// How long it stays at its prime and how often to look, in warm weather (a mean of 25 C).
pub(crate) struct Wait {
    pub(crate) holds_days: [u8; 2],
    pub(crate) look_days: [u8; 2],
    pub(crate) base_f: f64,
    pub(crate) by: &'static [Source],
}

/// Age from the flower, the silk or the fruit's set at which it is ready.
pub(crate) struct Flower {
    pub(crate) days: [u8; 2],
    pub(crate) look_from: Option<u8>,
    pub(crate) young: Option<u8>,
    pub(crate) strong: bool,
    pub(crate) say: &'static str,
    pub(crate) by: &'static [Source],
}

/// A published sum of heat from sowing to harvest, with the formula it was fitted with.
pub struct HeatSum {
    formula: Formula,
    base_f: f64,
    cap_f: Option<f64>,
    sum_f: [f64; 2],
    by: &'static [Source],
}

/// One question.
pub struct Question {
    say: &'static str,
    sense: Sense,
    by: &'static [Source],
    signs: &'static [Sign],
}

/// One sign to choose.
pub struct Sign {
    id: &'static str,
    say: &'static str,
    reads: Reading,
}

/// A sign that ends the question: no stage is told, only what to do.
#[derive(Debug)]
pub struct Stop {
    id: &'static str,
    head: &'static str,
    say: &'static str,
    tell: &'static str,
    by: &'static [Source],
}

/// Something that can hurt.
pub struct Caution {
    say: &'static str,
    late: bool,
    by: &'static [Source],
}

/// What one at a stage is good for, and what an old one is not for.
pub(crate) struct GoodFor {
    pub(crate) not_yet: &'static [&'static str],
    pub(crate) prime: &'static [&'static str],
    pub(crate) going: &'static [&'static str],
    pub(crate) past: &'static [&'static str],
    pub(crate) not: &'static [&'static str],
}

/// How long it keeps after picking, and in what air.
pub struct Keep {
    kind: Option<&'static str>,
    /// Of which crops of the sheet alone; empty: of all that have none of their own.
    crops: &'static [&'static str],
    air_f: [i8; 2],
    humidity: [u8; 2],
    days: [u16; 2],
    by: &'static [Source],
}

include!(concat!(env!("OUT_DIR"), "/cues.rs"));

/// All sheets, in order of their ids.
pub fn sheets() -> &'static [Sheet] {
    SHEETS
}

/// The sheets of a crop, its usual one first; empty where it is not harvested.
pub fn sheets_of(crop: &Crop) -> Vec<&'static Sheet> {
    let usual = SHEETS.iter().filter(|sheet| sheet.crops.contains(&crop.id()));
    let others = SHEETS.iter().filter(|sheet| sheet.other_use_of.contains(&crop.id()));
    usual.chain(others).collect()
}

/// A sheet by its own name ("dry bean") and its first crop.
pub fn sheet_named(name: &str) -> Option<&'static Sheet> {
    let wanted = fold(name);
    SHEETS.iter().find(|sheet| fold(sheet.id) == wanted)
}

impl Sheet {
    /// Its id.
    pub fn id(&self) -> &'static str {
        self.id
    }

    /// The ids of all crops it is for.
    pub fn crops(&self) -> impl Iterator<Item = &'static str> {
        self.crops.iter().chain(self.other_use_of).copied()
    }

    /// The word for this use, where the crop has more than one.
    pub fn used_as(&self) -> Option<&'static str> {
        self.used_as
    }

    /// Whether this use goes by that name: "snow", "snow pea", "mangetout".
    pub fn is_called(&self, name: &str) -> bool {
        let wanted = fold(name);
        let names = self.names.iter().chain(&self.used_as);
        names.copied().chain([self.id]).any(|called| fold(called) == wanted)
    }

    /// What is looked at: one ("pod").
    pub fn one(&self) -> &'static str {
        self.part[0]
    }

    /// What is looked at: many ("pods").
    pub fn many(&self) -> &'static str {
        self.part[1]
    }

    /// How it is taken.
    pub fn take(&self) -> Take {
        self.take
    }

    /// Whether leaves are eaten: such crops stand still while days are short.
    pub fn is_leaves(&self) -> bool {
        self.leaves
    }

    /// Whether what is taken is the plant itself, as with a head or a root.
    pub fn is_whole_plant(&self) -> bool {
        self.whole
    }

    /// Whether an old one left on the plant stops new ones.
    pub fn sets_on(&self) -> bool {
        self.sets_on
    }

    /// Which way to lean: what stays at its prime for a week or more waits well.
    pub fn lean(&self) -> Lean {
        if self.wait.holds_days[0] >= 7 { Lean::Early } else { Lean::Late }
    }

    /// The questions, in the order of the table: the best first.
    pub fn questions(&self) -> &'static [Question] {
        self.questions
    }

    /// The measures.
    pub fn sizes(&self) -> &'static [Size] {
        self.sizes
    }

    /// The signs that end the question.
    pub fn stops(&self) -> &'static [&'static Stop] {
        self.stops
    }

    /// The cautions of this use; those of the crop come beside them.
    pub fn cautions(&self) -> &'static [Caution] {
        self.cautions
    }

    /// How long a crop of this sheet keeps after picking, the usual kind first; empty where it is not
    /// published.
    pub fn keep(&self, crop: &Crop) -> Vec<&'static Keep> {
        let own = |keep: &&Keep| keep.crops.contains(&crop.id());
        let any = self.keep.iter().any(|keep| own(&keep));
        self.keep
            .iter()
            .filter(|keep| if any { own(keep) } else { keep.crops.is_empty() })
            .collect()
    }

    /// What is mistaken for ready or for late.
    pub fn beware(&self) -> &'static [&'static str] {
        self.beware
    }

    /// The published sum of heat from sowing.
    pub fn heat(&self) -> Option<&HeatSum> {
        self.heat.as_ref()
    }

    /// The sign of this id or in these words, and its question.
    pub fn sign(&self, name: &str) -> Option<(&'static Question, &'static Sign)> {
        let wanted = fold(name);
        let mut all = self
            .questions
            .iter()
            .flat_map(|question| question.signs.iter().map(move |sign| (question, sign)));
        let by_id = all.clone().find(|(_, sign)| fold(sign.id) == wanted);
        by_id.or_else(|| all.find(|(_, sign)| fold(sign.say) == wanted))
    }

    /// The stop of this id or in these words.
    pub fn stop(&self, name: &str) -> Option<&'static Stop> {
        let wanted = fold(name);
        let mut all = self.stops.iter().copied();
        all.find(|stop| fold(stop.id) == wanted || fold(stop.say) == wanted)
    }
}

impl Question {
    /// What to do or look at.
    pub fn say(&self) -> &'static str {
        self.say
    }

    /// With which sense.
    pub fn sense(&self) -> Sense {
        self.sense
    }

    /// The signs to choose from, from young to old.
    pub fn signs(&self) -> &'static [Sign] {
        self.signs
    }

    /// What they rest on.
    pub fn sources(&self) -> &'static [Source] {
        self.by
    }
}

impl Sign {
    /// Its id, unique in its sheet; other programs rely on it.
    pub fn id(&self) -> &'static str {
        self.id
    }

    /// The sign in words.
    pub fn say(&self) -> &'static str {
        self.say
    }

    /// What it says.
    pub fn reads(&self) -> Reading {
        self.reads
    }
}

impl Caution {
    /// The caution in words.
    pub fn say(&self) -> &'static str {
        self.say
    }

    /// Whether it concerns only what is going over or past, or was stopped.
    pub fn is_late(&self) -> bool {
        self.late
    }

    /// What it rests on.
    pub fn sources(&self) -> &'static [Source] {
        self.by
    }
}

impl Stop {
    /// Its id; other programs rely on it.
    pub fn id(&self) -> &'static str {
        self.id
    }

    /// The sign in words.
    pub fn say(&self) -> &'static str {
        self.say
    }

    /// The verdict in a few words.
    pub fn head(&self) -> &'static str {
        self.head
    }

    /// What to do.
    pub fn tell(&self) -> &'static str {
        self.tell
    }

    /// What it rests on.
    pub fn sources(&self) -> &'static [Source] {
        self.by
    }
}

impl HeatSum {
    /// The formula it was fitted with.
    pub fn formula(&self) -> Formula {
        self.formula
    }

    /// Between which temperatures it was fitted.
    pub fn thresholds(&self) -> Thresholds {
        Thresholds {
            base: Temperature::new::<degree_fahrenheit>(self.base_f),
            cap: self.cap_f.map(Temperature::new::<degree_fahrenheit>),
        }
    }

    /// The least and the most that are published.
    pub fn sums(&self) -> [DegreeDays; 2] {
        self.sum_f.map(DegreeDays::from_fahrenheit_days)
    }

    /// What it rests on.
    pub fn sources(&self) -> &'static [Source] {
        self.by
    }
}

impl Keep {
    /// Which kind or state, where there are several.
    pub fn kind(&self) -> Option<&'static str> {
        self.kind
    }

    /// The coolest and the warmest air for it.
    pub fn air(&self) -> [Temperature; 2] {
        self.air_f.map(|degrees| Temperature::new::<degree_fahrenheit>(f64::from(degrees)))
    }

    /// The driest and the moistest air for it, percent relative humidity.
    pub fn humidity_percent(&self) -> [u8; 2] {
        self.humidity
    }

    /// How many days it keeps so.
    pub fn days(&self) -> [u16; 2] {
        self.days
    }

    /// What it rests on.
    pub fn sources(&self) -> &'static [Source] {
        self.by
    }
}

#[cfg(test)]
mod tests {
    use super::super::combine::combine;
    use super::*;
    use crate::catalogue::{Kind, crop};

    fn sheet(id: &str) -> &'static Sheet {
        sheet_named(id).unwrap()
    }

    fn signs(sheet: &Sheet) -> Vec<&'static Sign> {
        sheet.questions.iter().flat_map(|question| question.signs).collect()
    }

    #[test]
    fn the_first_sheet_is_the_usual_one() {
        for (name, id, count) in [
            ("bush bean", "snap-bean", 3),
            ("pea", "shelling-pea", 3),
            ("potato", "store-potato", 2),
        ] {
            let found = sheets_of(crop(name).ok().unwrap());
            assert_eq!((found[0].id, found.len()), (id, count));
        }
    }

    #[test]
    fn a_sign_is_found_by_its_id_and_by_its_words() {
        let bean = sheet("snap bean");
        assert_eq!(bean.sign("snaps-clean").unwrap().1.id, "snaps-clean");
        assert_eq!(bean.sign("Firm, snaps clean").unwrap().1.id, "snaps-clean");
        assert_eq!(bean.sign("SPONGY").unwrap().1.id, "spongy");
        assert!(bean.sign("purple").is_none());
        assert_eq!(sheet("potato store").stop("green-skin").unwrap().id, "green-skin");
    }

    #[test]
    fn what_can_be_eaten_has_the_common_stops() {
        for sheet in SHEETS {
            let eaten = sheet.crops().any(|id| crop(id).ok().unwrap().kind() == Kind::Vegetable);
            if eaten {
                for stop in ["rot", "sprayed", "flooded"] {
                    assert!(sheet.stop(stop).is_some(), "{} lacks {stop}", sheet.id);
                }
            }
        }
    }

    #[test]
    fn every_gourd_is_stopped_when_bitter() {
        for id in ["cucumber", "squash-summer", "squash-winter", "pumpkin", "melon", "watermelon"] {
            for sheet in sheets_of(crop(id).ok().unwrap()) {
                assert!(sheet.stop("bitter").is_some(), "{}", sheet.id);
            }
        }
    }

    #[test]
    fn no_sheet_asks_more_than_a_gardener_answers() {
        for sheet in SHEETS {
            let asked = sheet.questions.len() + usize::from(!sheet.stops.is_empty());
            assert!((1..=6).contains(&asked), "{}", sheet.id);
            for question in sheet.questions {
                assert!((2..=6).contains(&question.signs.len()), "{}: {}", sheet.id, question.say);
            }
        }
    }

    #[test]
    fn signs_stand_from_young_to_old() {
        for sheet in SHEETS {
            for question in sheet.questions {
                let likely: Vec<_> = question.signs.iter().map(|sign| sign.reads.likely).collect();
                assert!(likely.is_sorted(), "{}: {}", sheet.id, question.say);
            }
        }
    }

    #[test]
    fn one_sign_alone_says_what_it_means() {
        for sheet in SHEETS {
            for sign in signs(sheet) {
                let told = combine(&[sign.reads], sheet.lean());
                assert_eq!(told.stage, Some(sign.reads.likely), "{} {}", sheet.id, sign.id);
            }
        }
    }
}
