//! The words of a verdict: what to do today, why, and when to look again.

use chrono::NaiveDate;

use super::recorded::Recorded;
use crate::{
    asking::Asking,
    harvest::{
        again::{Look, Why},
        cautions::cautions,
        chosen::Chosen,
        combine::{Certainty, Tally},
        cues::{Keep, Sheet, Sign, Stop},
        grades::Grade,
        measures::{Measured, Measures},
        stage::Stage,
        verdict::{DAYS, FLOWER, HEAT, Verdict},
    },
    journal::{
        About, Draft, What,
        details::{CheckIn, Harvest},
    },
    quantity::{Quantity, System, number::show_number, show_spacing},
    telling::{Sure, Telling},
    text::{capital, count, day, list, sentence, small},
    time::Range,
};

/// All that is told of.
pub(super) struct Told<'a> {
    pub(super) chosen: Chosen,
    pub(super) verdict: &'a Verdict,
    pub(super) tally: Option<Tally>,
    pub(super) signs: Vec<&'static Sign>,
    pub(super) measures: Measures,
    pub(super) stops: &'a [&'static Stop],
    pub(super) look: Option<Look>,
    pub(super) until: Option<Range>,
    /// The next visit, where it comes too late for some.
    pub(super) next_visit: Option<NaiveDate>,
    /// A frost that this crop does not bear.
    pub(super) frost: Option<NaiveDate>,
    pub(super) heat_is_own: bool,
    pub(super) grade: Option<Grade>,
    pub(super) recorded: Recorded<'a>,
    pub(super) asking: &'a Asking<'a>,
}

/// What one at this stage is good for.
pub(super) fn good_for(sheet: &Sheet, stage: Option<Stage>) -> &'static [&'static str] {
    let uses = &sheet.good_for;
    match stage {
        None => &[],
        Some(Stage::NotYet) => uses.not_yet,
        Some(Stage::Prime) => uses.prime,
        Some(Stage::Going) => uses.going,
        Some(Stage::Past) => uses.past,
    }
}

/// Writes the telling.
pub(super) fn tell(told: &Told<'_>) -> Telling {
    let sure = match told.verdict.certainty {
        Certainty::Sure => Sure::High,
        Certainty::Likely => Sure::Fair,
        Certainty::Possible => Sure::Low,
    };
    let mut telling = Telling::new(told.headline(), sure);
    told.stops(&mut telling);
    if told.stops.is_empty() {
        told.why(&mut telling);
        told.when(&mut telling);
        told.what_for(&mut telling);
        // The verdict and three reasons are what a person reads at the bed, and of a bed what to do with
        // each kind.
        telling.because.truncate(if told.tally.is_some() { 5 } else { 4 });
        told.look_for(&mut telling);
        told.next(&mut telling);
    }
    let late =
        matches!(told.verdict.stage, Some(Stage::Going | Stage::Past)) || !told.stops.is_empty();
    cautions(told.chosen.crop, told.sheet(), late, &mut telling);
    told.sources(&mut telling);
    telling
}

impl Told<'_> {
    pub(super) fn sheet(&self) -> &'static Sheet {
        self.chosen.sheet
    }

    pub(super) fn today(&self) -> Option<NaiveDate> {
        self.asking.today
    }

    pub(super) fn on(&self, date: NaiveDate) -> String {
        day(date, self.today())
    }

    fn stops(&self, telling: &mut Telling) {
        telling.because.extend(self.stops.iter().map(|stop| stop.tell().to_owned()));
        if !self.stops.is_empty() {
            telling.because.push(
                "When in doubt, don't eat it; your food-safety authority knows better than any list.".to_owned(),
            );
        }
    }

    fn why(&self, telling: &mut Telling) {
        if let Some([one, other]) = self.verdict.clash {
            let (one, other) = (self.evidence(one), self.evidence(other));
            telling.because.push(format!(
                "\"{one}\" and \"{other}\" do not go together: perhaps they are of different ones, perhaps a pest or a dry spell."
            ));
            telling.because.push(format!("It may be anything from {}.", self.range_words()));
            return;
        }
        if self.verdict.stage.is_none() {
            return;
        }
        let signs: Vec<String> =
            self.verdict.decisive.iter().map(|name| self.evidence(name)).collect();
        let sure = match self.verdict.certainty {
            Certainty::Sure => "Sure",
            Certainty::Likely => "Likely",
            Certainty::Possible => "Possible",
        };
        telling.because.push(format!("{sure}: {}.", list(&signs)));
        if let Some(tally) = self.tally {
            telling.because.push(self.tally_words(tally));
            telling.because.push(self.picking_words(tally));
        }
    }

    /// "not yet ready to going over".
    fn range_words(&self) -> String {
        let words: Vec<&str> =
            self.verdict.allowed.iter().map(|stage| stage_words(*stage)).collect();
        match (words.first(), words.last()) {
            (Some(first), Some(last)) => format!("{first} to {last}"),
            _ => String::new(),
        }
    }

    /// What decided, as a person says it.
    fn evidence(&self, name: &str) -> String {
        if let Some(sign) = self.signs.iter().find(|sign| sign.id() == name) {
            return sign.say().to_owned();
        }
        let size = self.sheet().sizes().iter().find(|size| size.what().word() == name);
        let measured = size.and_then(|size| Some((size, self.measures.get(size.what())?)));
        match (measured, name) {
            (Some((size, measured)), _) => {
                format!("{} {}", size.of(), measured_words(measured, self.asking.system))
            }
            (None, FLOWER) => "days from the flower".to_owned(),
            (None, HEAT) if self.heat_is_own => {
                "the heat it had, against your own earlier seasons".to_owned()
            }
            (None, HEAT) => "the heat it had since sowing".to_owned(),
            (None, DAYS) => "days from planting".to_owned(),
            (None, other) => other.replace(['-', '_'], " "),
        }
    }

    fn tally_words(&self, tally: Tally) -> String {
        let (one, many) = (self.sheet().one(), self.sheet().many());
        let counts: Vec<String> = Stage::ALL
            .iter()
            .filter(|stage| tally.at(**stage) > 0)
            .map(|stage| {
                let number = tally.at(*stage);
                let words = if *stage == Stage::Prime && number > 1 {
                    "at their prime"
                } else {
                    stage_words(*stage)
                };
                format!("{number} {words}")
            })
            .collect();
        let looked_at = tally.told().saturating_add(tally.untold());
        let mut words = format!("Of {} looked at: {}.", count(looked_at, one, many), list(&counts));
        let past = self.sheet().good_for.past;
        if tally.at(Stage::Past) > 0
            && self.verdict.stage != Some(Stage::Past)
            && let Some(use_of) = past.first()
        {
            words.push_str(&format!(" The past ones: {use_of}."));
        }
        words
    }

    /// What to do with each kind of the bed: "Pick those at their prime and take the past ones off."
    fn picking_words(&self, tally: Tally) -> String {
        let sheet = self.sheet();
        let take = sheet.take().word();
        let seen = |stage| tally.at(stage) > 0;
        let mut does: Vec<String> = Vec::new();
        match (seen(Stage::Prime), seen(Stage::Going)) {
            (true, true) => does.push(format!("{take} those at their prime and those going over")),
            (true, false) => does.push(format!("{take} those at their prime")),
            (false, true) => does.push(format!("{take} those going over first")),
            (false, false) => {}
        }
        if seen(Stage::Past) {
            does.push(
                if sheet.sets_on() {
                    "take the past ones off, so that others come"
                } else {
                    "take the past ones out"
                }
                .to_owned(),
            );
        }
        if seen(Stage::NotYet) {
            does.push(match (self.next_visit, self.frost) {
                (Some(_), _) => format!("{take} the nearly ready ones too: you are back too late"),
                (_, Some(_)) => "take what is usable of the rest before the frost".to_owned(),
                _ => "leave those not yet ready".to_owned(),
            });
        }
        format!("{}.", capital(&list(&does)))
    }

    fn when(&self, telling: &mut Telling) {
        if let Some(visit) = self.next_visit {
            telling.because.push(format!("By {} some would be past it.", self.on(visit)));
        }
        let Some(look) = self.look else { return };
        let prime_or_going =
            matches!(self.verdict.stage, Some(Stage::Prime | Stage::Going | Stage::Past));
        let told_in_headline = !prime_or_going;
        let line = match look.why {
            Why::ShortDays => Some(
                "Days are under ten hours: leaves stand still, so no date is promised.".to_owned(),
            ),
            Why::Frost => None,
            Why::Own => {
                Some(format!("Look again {}, at your own pace of picking.", self.look_plain()))
            }
            Why::Flower if self.verdict.decisive.contains(&FLOWER) => None,
            Why::Flower => Some("The day of the flower tells when.".to_owned()),
            Why::WarmInterval if told_in_headline => Some(
                "That is for warm weather; in cool weather it takes up to two weeks.".to_owned(),
            ),
            Why::WarmInterval => Some(format!("Look again {} in warm weather.", self.look_plain())),
            Why::Interval if told_in_headline => None,
            Why::Interval => Some(format!("Look again {}.", self.look_plain())),
        };
        telling.because.extend(line.filter(|_| self.verdict.stage.is_some()));
    }

    fn look_plain(&self) -> String {
        self.look_words("")
    }

    fn what_for(&self, telling: &mut Telling) {
        let uses = good_for(self.sheet(), self.verdict.stage);
        if !uses.is_empty() && self.verdict.stage != Some(Stage::Prime) {
            telling.because.push(format!("Good for: {}.", uses.join("; ")));
        }
        if let Some(grade) = self.grade {
            telling.because.push(format!("By the trade's measure: {}.", grade.name));
        }
        if matches!(self.verdict.stage, Some(Stage::Prime | Stage::Going))
            && let Some(keep) = self.sheet().keep(self.chosen.crop).first()
        {
            telling.because.push(keep_words(keep, self.asking.system));
        }
        let not = self.sheet().good_for.not;
        if matches!(self.verdict.stage, Some(Stage::Going | Stage::Past)) && !not.is_empty() {
            telling.cautions.push(format!("Not for {}.", not.join("; ")));
        }
    }

    fn look_for(&self, telling: &mut Telling) {
        if self.verdict.clash.is_some()
            && let Some(best) = self.sheet().questions().first()
        {
            telling.look_for.push(format!("On another one: {}", lower(&sentence(best.say()))));
        }
        let unsure = self.verdict.certainty != Certainty::Sure || self.verdict.stage.is_none();
        if unsure {
            let open = self.sheet().ask_next(&self.signs);
            telling.look_for.extend(open.iter().take(2).map(|question| sentence(question.say())));
        }
        telling.look_for.extend(self.sheet().beware().iter().map(|&line| line.to_owned()));
    }

    /// A picking can be written down where the bed is known.
    fn next(&self, telling: &mut Telling) {
        let Some(bed) = self.recorded.bed else {
            return;
        };
        let about = match self.recorded.planting {
            Some(planting) => About::planting(planting.id),
            None => About::bed(&bed.id),
        };
        let variety = self.recorded.planting.and_then(|planting| planting.variety.clone());
        telling.next.push(Draft {
            about: about.clone(),
            what: What::Harvest(Harvest {
                crop: Some(self.chosen.crop.id().to_owned()),
                variety,
                stage: self.stage_written(),
                ..Harvest::default()
            }),
        });
        // Or the look alone, where it told something.
        let looked = self.stage_written().map(|stage| Draft {
            about,
            what: What::CheckIn(CheckIn { stage: Some(stage), ..CheckIn::default() }),
        });
        telling.next.extend(looked);
    }

    /// The stage as the record keeps it: "prime", or the counts of a sample, "5 prime, 3 past".
    fn stage_written(&self) -> Option<String> {
        let Some(tally) = self.tally else {
            return self.verdict.stage.map(|stage| stage.word().to_owned());
        };
        let counts: Vec<String> = Stage::ALL
            .iter()
            .filter(|stage| tally.at(**stage) > 0)
            .map(|stage| format!("{} {}", tally.at(*stage), stage.word()))
            .collect();
        (!counts.is_empty()).then(|| counts.join(", "))
    }
}

fn stage_words(stage: Stage) -> &'static str {
    match stage {
        Stage::NotYet => "not yet ready",
        Stage::Prime => "at its prime",
        Stage::Going => "going over",
        Stage::Past => "past",
    }
}

fn measured_words(measured: Measured, system: System) -> String {
    match measured {
        Measured::Length(length) => show_spacing(length, system),
        Measured::Percent(percent) => format!("{} %", show_number(percent.number(), 1)),
        Measured::Count(number) => number.to_string(),
    }
}

/// "Keeps 7 to 10 days at 40 °F to 45 °F in moist air", after which kind of it that is.
pub(super) fn keep_words(keep: &Keep, system: System) -> String {
    let [least, most] = keep.days();
    let days = match (least, most) {
        (least, most) if least == most => count(u32::from(least), "day", "days"),
        (least, most) if least >= 30 && most >= 60 => {
            format!("{} to {} months", least / 30, most / 30)
        }
        (least, most) => format!("{least} to {most} days"),
    };
    let [from, to] = keep.air();
    let air = if from == to {
        from.show(system)
    } else {
        format!("{} to {}", from.show(system), to.show(system))
    };
    let moist = match keep.humidity_percent() {
        [_, most] if most <= 75 => "dry",
        _ => "moist",
    };
    let keeps = format!("eeps {days} at {air} in {moist} air.");
    match keep.kind() {
        Some(kind) => format!("{}: k{keeps}", capital(kind)),
        None => format!("K{keeps}"),
    }
}

/// The text with its first letter made small.
pub(super) fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |first| small(first.encode_utf8(&mut [0; 4])) + letters.as_str())
}
