//! The words of a verdict: what to do today, why, and when to look again.

use chrono::NaiveDate;

use super::{
    again::{Look, Why},
    chosen::Chosen,
    combine::{Certainty, Lean, Tally},
    cues::{Keep, Sheet, Sign, Stop},
    grades::Grade,
    measures::{Measured, Measures},
    readiness::Recorded,
    stage::Stage,
    verdict::{DAYS, FLOWER, HEAT, Verdict},
};
use crate::{
    ask::Asking,
    catalogue::{Crop, Facet},
    journal::{About, Draft, What, details::Harvest},
    quantity::{Quantity, System, number::show_number, show_spacing},
    source::Source,
    telling::{Sure, Telling, capital, count, day, list, span},
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

/// Adds the cautions of the crop and of this use of it, the crop's first; those about old ones only
/// where they are wanted.
pub(super) fn cautions(crop: &Crop, sheet: &Sheet, late: bool, telling: &mut Telling) {
    telling
        .cautions
        .extend(crop.cautions().iter().map(|&line| line.to_owned()));
    crop.sources(Facet::Caution)
        .for_each(|source| telling.source(source));
    for caution in sheet
        .cautions()
        .iter()
        .filter(|caution| late || !caution.is_late())
    {
        telling.cautions.push(caution.say().to_owned());
        caution
            .sources()
            .iter()
            .for_each(|source| telling.source(*source));
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
        // The verdict and three reasons are what a person reads at the bed.
        telling.because.truncate(4);
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
    fn sheet(&self) -> &'static Sheet {
        self.chosen.sheet
    }

    fn today(&self) -> Option<NaiveDate> {
        self.asking.today
    }

    fn on(&self, date: NaiveDate) -> String {
        day(date, self.today())
    }

    fn headline(&self) -> String {
        let sheet = self.sheet();
        let take = capital(sheet.take().word());
        if let Some(stop) = self.stops.first() {
            return stop.head().to_owned();
        }
        if self.verdict.clash.is_some() {
            return match sheet.lean() {
                Lean::Late => format!(
                    "The signs disagree: {} one today and look inside",
                    sheet.take().word()
                ),
                Lean::Early => format!(
                    "The signs disagree: wait{}",
                    self.look_words(", and look again ")
                ),
            };
        }
        let Some(stage) = self.verdict.stage else {
            let first = sheet
                .ask_next(&self.signs)
                .first()
                .map(|question| question.say());
            return match first {
                Some(question) => format!("Nothing seen yet: {}", lower(question)),
                None => "Nothing seen yet".to_owned(),
            };
        };
        let ages = [FLOWER, HEAT, DAYS];
        if stage != Stage::NotYet && self.verdict.decisive.iter().all(|name| ages.contains(name)) {
            let first = sheet
                .ask_next(&self.signs)
                .first()
                .map(|question| lower(question.say()));
            return format!(
                "Old enough to be ready: {}",
                first.unwrap_or_else(|| "look".to_owned())
            );
        }
        if let Some(frost) = self.frost.filter(|_| stage != Stage::Past) {
            let which = if stage == Stage::NotYet {
                "take what is usable"
            } else {
                "take them all"
            };
            return format!("Frost on {}: {which} before it", self.on(frost));
        }
        match stage {
            Stage::NotYet if self.next_visit.is_some() => {
                format!("{take} the nearly ready ones today: you are back too late for them")
            }
            Stage::NotYet => format!("Not yet{}", self.look_words(": look again ")),
            Stage::Prime if self.next_visit.is_some() && sheet.sets_on() => {
                format!("{take} today, the small ones too")
            }
            Stage::Prime if sheet.lean() == Lean::Late || self.next_visit.is_some() => {
                format!("{take} today")
            }
            Stage::Prime => match self.until.and_then(|until| until.early) {
                Some(until) => format!("Ready, and it waits until about {}", self.on(until)),
                None => "Ready, and it stands still".to_owned(),
            },
            Stage::Going => format!("{take} today: going over"),
            Stage::Past if sheet.sets_on() => {
                "Past its prime: take it off, so that others come".to_owned()
            }
            Stage::Past => "Past its prime".to_owned(),
        }
    }

    /// " 16 to 19 Jul", or nothing where no look is planned.
    fn look_words(&self, before: &str) -> String {
        match self.look {
            None => String::new(),
            Some(Look {
                early,
                late: Some(late),
                ..
            }) if late == early => format!("{before}{}", self.on(early)),
            Some(Look {
                early,
                late: Some(late),
                ..
            }) => format!("{before}{}", span(early, late, self.today())),
            Some(Look {
                early, late: None, ..
            }) => format!("{before}from {}", self.on(early)),
        }
    }

    fn stops(&self, telling: &mut Telling) {
        telling
            .because
            .extend(self.stops.iter().map(|stop| stop.tell().to_owned()));
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
            telling
                .because
                .push(format!("It may be anything from {}.", self.range_words()));
            return;
        }
        if self.verdict.stage.is_none() {
            return;
        }
        let signs: Vec<String> = self
            .verdict
            .decisive
            .iter()
            .map(|name| self.evidence(name))
            .collect();
        let sure = match self.verdict.certainty {
            Certainty::Sure => "Sure",
            Certainty::Likely => "Likely",
            Certainty::Possible => "Possible",
        };
        telling.because.push(format!("{sure}: {}.", list(&signs)));
        if let Some(tally) = self.tally {
            telling.because.push(self.tally_words(tally));
        }
    }

    /// "not yet ready to going over".
    fn range_words(&self) -> String {
        let words: Vec<&str> = self
            .verdict
            .allowed
            .iter()
            .map(|stage| stage_words(*stage))
            .collect();
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
        let size = self
            .sheet()
            .sizes()
            .iter()
            .find(|size| size.what().word() == name);
        let measured = size.and_then(|size| Some((size, self.measures.get(size.what())?)));
        match (measured, name) {
            (Some((size, measured)), _) => {
                format!(
                    "{} {}",
                    size.of(),
                    measured_words(measured, self.asking.system)
                )
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
        let mut words = format!(
            "Of {} looked at: {}.",
            count(looked_at, one, many),
            list(&counts)
        );
        let past = self.sheet().good_for.past;
        if tally.at(Stage::Past) > 0
            && self.verdict.stage != Some(Stage::Past)
            && let Some(use_of) = past.first()
        {
            words.push_str(&format!(" The past ones: {use_of}."));
        }
        words
    }

    fn when(&self, telling: &mut Telling) {
        if let Some(visit) = self.next_visit {
            telling
                .because
                .push(format!("By {} some would be past it.", self.on(visit)));
        }
        let Some(look) = self.look else { return };
        let prime_or_going = matches!(
            self.verdict.stage,
            Some(Stage::Prime | Stage::Going | Stage::Past)
        );
        let told_in_headline = !prime_or_going;
        let line = match look.why {
            Why::ShortDays => Some(
                "Days are under ten hours: leaves stand still, so no date is promised.".to_owned(),
            ),
            Why::Frost => None,
            Why::Own => Some(format!(
                "Look again {}, at your own pace of picking.",
                self.look_plain()
            )),
            Why::Flower if self.verdict.decisive.contains(&FLOWER) => None,
            Why::Flower => Some("The day of the flower tells when.".to_owned()),
            Why::WarmInterval if told_in_headline => Some(
                "That is for warm weather; in cool weather it takes up to two weeks.".to_owned(),
            ),
            Why::WarmInterval => Some(format!("Look again {} in warm weather.", self.look_plain())),
            Why::Interval if told_in_headline => None,
            Why::Interval => Some(format!("Look again {}.", self.look_plain())),
        };
        telling
            .because
            .extend(line.filter(|_| self.verdict.stage.is_some()));
    }

    fn look_plain(&self) -> String {
        self.look_words("")
    }

    fn what_for(&self, telling: &mut Telling) {
        let uses = good_for(self.sheet(), self.verdict.stage);
        if !uses.is_empty() && self.verdict.stage != Some(Stage::Prime) {
            telling
                .because
                .push(format!("Good for: {}.", uses.join("; ")));
        }
        if let Some(grade) = self.grade {
            telling
                .because
                .push(format!("By the trade's measure: {}.", grade.name));
        }
        if matches!(self.verdict.stage, Some(Stage::Prime | Stage::Going))
            && let Some(keep) = self.sheet().keep().first()
        {
            telling.because.push(keep_words(keep, self.asking.system));
        }
        let not = self.sheet().good_for.not;
        if matches!(self.verdict.stage, Some(Stage::Going | Stage::Past)) && !not.is_empty() {
            telling
                .cautions
                .push(format!("Not for {}.", not.join("; ")));
        }
    }

    fn look_for(&self, telling: &mut Telling) {
        if self.verdict.clash.is_some()
            && let Some(best) = self.sheet().questions().first()
        {
            telling
                .look_for
                .push(format!("On another one: {}", lower(&sentence(best.say()))));
        }
        let unsure = self.verdict.certainty != Certainty::Sure || self.verdict.stage.is_none();
        if unsure {
            let open = self.sheet().ask_next(&self.signs);
            // The headline names the first where nothing was seen yet.
            let skip = usize::from(self.verdict.stage.is_none() && self.verdict.clash.is_none());
            telling.look_for.extend(
                open.iter()
                    .skip(skip)
                    .take(2)
                    .map(|question| sentence(question.say())),
            );
        }
        telling
            .look_for
            .extend(self.sheet().beware().iter().map(|&line| line.to_owned()));
    }

    /// A picking can be written down where the bed is known.
    fn next(&self, telling: &mut Telling) {
        let (Some(bed), Some(stage)) = (self.recorded.bed, self.verdict.stage) else {
            return;
        };
        if stage == Stage::NotYet {
            return;
        }
        let about = match self.recorded.planting {
            Some(planting) => About::planting(planting.id),
            None => About::bed(&bed.id),
        };
        let harvest = Harvest {
            crop: Some(self.chosen.crop.id().to_owned()),
            variety: self
                .recorded
                .planting
                .and_then(|planting| planting.variety.clone()),
            stage: Some(stage.word().to_owned()),
            ..Harvest::default()
        };
        for all in [false, true] {
            let harvest = Harvest {
                all,
                ..harvest.clone()
            };
            telling.next.push(Draft {
                about: about.clone(),
                what: What::Harvest(harvest),
            });
        }
    }

    fn sources(&self, telling: &mut Telling) {
        let sheet = self.sheet();
        for stop in self.stops {
            stop.sources()
                .iter()
                .for_each(|source| telling.source(*source));
        }
        if !self.stops.is_empty() {
            return;
        }
        for sign in &self.signs {
            if let Some((question, _)) = sheet.sign(sign.id()) {
                question
                    .sources()
                    .iter()
                    .for_each(|source| telling.source(*source));
            }
        }
        for size in sheet.sizes() {
            if self.measures.get(size.what()).is_some() {
                size.sources()
                    .iter()
                    .for_each(|source| telling.source(*source));
            }
        }
        let decided = |name| self.verdict.decisive.contains(&name);
        let by_flower = self.look.is_some_and(|look| look.why == Why::Flower);
        if let Some(flower) = sheet
            .flower
            .as_ref()
            .filter(|_| decided(FLOWER) || by_flower)
        {
            flower.by.iter().for_each(|source| telling.source(*source));
        }
        if let Some(heat) = sheet.heat().filter(|_| decided(HEAT)) {
            heat.sources()
                .iter()
                .for_each(|source| telling.source(*source));
        }
        if decided(DAYS) {
            self.chosen
                .crop
                .sources(Facet::Ready)
                .for_each(|source| telling.source(source));
        }
        if let Some(grade) = self.grade {
            telling.source(grade.source);
        }
        match self.look.map(|look| look.why) {
            Some(Why::Interval | Why::WarmInterval | Why::Own) => {
                sheet
                    .wait
                    .by
                    .iter()
                    .for_each(|source| telling.source(*source));
                telling.source(Source::StretchRule);
            }
            Some(Why::ShortDays) => {
                telling.source(Source::Drost2017);
                telling.source(Source::TenHourPractice);
            }
            _ => {}
        }
        if matches!(self.verdict.stage, Some(Stage::Prime | Stage::Going))
            && let Some(keep) = sheet.keep().first()
        {
            keep.sources()
                .iter()
                .for_each(|source| telling.source(*source));
        }
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

/// "Keeps 7 to 10 days at 40 °F to 45 °F in moist air."
fn keep_words(keep: &Keep, system: System) -> String {
    let [least, most] = keep.days();
    let days = match (least, most) {
        (least, most) if least == most => count(u32::from(least), "day", "days"),
        (least, most) if least >= 60 => format!("{} to {} months", least / 30, most / 30),
        (least, most) => format!("{least} to {most} days"),
    };
    let [from, to] = keep.air();
    let air = if from == to {
        from.show(system)
    } else {
        format!("{} to {}", from.show(system), to.show(system))
    };
    let kind = keep
        .kind()
        .map_or(String::new(), |kind| format!(", {kind},"));
    let moist = match keep.humidity_percent() {
        [_, most] if most <= 75 => "dry",
        _ => "moist",
    };
    format!("Keeps{kind} {days} at {air} in {moist} air.")
}

/// The text with a full stop, unless it asks.
pub(super) fn sentence(text: &str) -> String {
    if text.ends_with('?') {
        text.to_owned()
    } else {
        format!("{text}.")
    }
}

/// The text with its first letter made small.
fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
