//! The typed numbers of the answer.

use uom::si::length::meter;

use crate::{
    harvest::{
        cues::{Question, Sense, Sheet, Sign, Stop},
        measures::Measure,
        sizes::Size,
        stage::{Stage, Weight},
    },
    source::Source,
};

/// What to look for.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The crop's catalogue id.
    pub crop: &'static str,
    /// What it is grown for; null where the crop has one use.
    pub purpose: Option<&'static str>,
    /// All uses of the crop, the usual one first; empty where it has one.
    pub purposes: Vec<&'static str>,
    /// The questions, the one that settles it soonest first.
    pub questions: Vec<Asks>,
    /// Every sign of those questions, in the same order; then those that end the question.
    pub cues: Vec<Cue>,
    /// What can be measured.
    pub measures: Vec<Measurable>,
}

/// One question.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Asks {
    /// What to do or look at.
    pub ask: &'static str,
    /// With which sense.
    pub sense: Sense,
    /// The ids of the signs to choose from, from young to old.
    pub cues: Vec<&'static str>,
}

/// One sign.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Cue {
    /// The id to answer with.
    pub id: &'static str,
    /// The sign in words.
    pub words: &'static str,
    /// The stage it most often means; null for a sign that ends the question.
    pub stage: Option<Stage>,
    /// The stages at which it is seen; empty for a sign that ends the question.
    pub allowed: Vec<Stage>,
    /// How much it weighs; null for a sign that ends the question.
    pub weight: Option<Weight>,
    /// Whether it ends the question: no stage is told then, only what to do.
    pub stop: bool,
}

/// Something that can be measured.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Measurable {
    /// The name of the field in `measures`.
    pub measure: Measure,
    /// On what it is measured.
    pub of: &'static str,
    /// The least that means prime, metres; null where it is no length.
    pub prime_from_m: Option<f64>,
    /// The most that means prime, metres; null where it is no length.
    pub prime_to_m: Option<f64>,
    /// The least that means prime, in percent or as a number; null for a length.
    pub prime_from: Option<f64>,
    /// The most that means prime, in percent or as a number; null for a length.
    pub prime_to: Option<f64>,
}

/// One sign in the catalogue's list of all of them.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct CueRow {
    /// The crops' catalogue ids.
    pub crops: Vec<&'static str>,
    /// What they are grown for; null where they have one use.
    pub purpose: Option<&'static str>,
    /// The sign.
    #[serde(flatten)]
    pub cue: Cue,
    /// What it rests on.
    pub sources: Vec<Source>,
}

/// Every sign of every sheet, in order of the sheets.
pub fn rows() -> Vec<CueRow> {
    let of_sheet = |sheet: &'static Sheet| {
        let order: Vec<&'static Question> = sheet.questions().iter().collect();
        cues(sheet, &order).into_iter().map(|cue| {
            let stop = sheet.stop(cue.id).filter(|_| cue.stop).map(Stop::sources);
            let asked = || sheet.sign(cue.id).map(|(question, _)| question.sources());
            CueRow {
                crops: sheet.crops().collect(),
                purpose: sheet.used_as(),
                sources: stop.or_else(asked).unwrap_or_default().to_vec(),
                cue,
            }
        })
    };
    crate::harvest::cues::sheets().iter().flat_map(of_sheet).collect()
}

pub(super) fn asks(question: &Question) -> Asks {
    Asks {
        ask: question.say(),
        sense: question.sense(),
        cues: question.signs().iter().map(Sign::id).collect(),
    }
}

pub(super) fn cues(sheet: &Sheet, order: &[&'static Question]) -> Vec<Cue> {
    let signs = order.iter().flat_map(|question| question.signs());
    let signs = signs.map(|sign| Cue {
        id: sign.id(),
        words: sign.say(),
        stage: Some(sign.reads().likely),
        allowed: sign.reads().allowed().collect(),
        weight: Some(sign.reads().weight),
        stop: false,
    });
    let stops = sheet.stops().iter().map(|stop| Cue {
        id: stop.id(),
        words: stop.say(),
        stage: None,
        allowed: Vec::new(),
        weight: None,
        stop: true,
    });
    signs.chain(stops).collect()
}

pub(super) fn measurable(size: &Size) -> Measurable {
    let lengths = size.prime_lengths().map(|ends| ends.map(|end| rounded(end.get::<meter>())));
    let numbers = size.prime_numbers();
    Measurable {
        measure: size.what(),
        of: size.of(),
        prime_from_m: lengths.map(|[from, _]| from),
        prime_to_m: lengths.map(|[_, to]| to),
        prime_from: numbers.map(|[from, _]| from),
        prime_to: numbers.map(|[_, to]| to),
    }
}

/// To the tenth of a millimetre.
fn rounded(metres: f64) -> f64 {
    (metres * 1e4).round() / 1e4
}
