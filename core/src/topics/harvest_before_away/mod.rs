//! Topic `harvest-before-away`: what must be picked before the gardener goes, and what can wait.
//!
//! Model: [`again`](crate::harvest::again): what holds for fewer days than the gardener is away overripens, and
//! on crops that set fruit one forgotten giant costs the next ones (North Carolina State University,
//! AG-552: cucumbers picked at 1 3/4 in gave a third of the fruit of those picked at 1/2 in). So the
//! small ones are picked too.

use chrono::{Days, NaiveDate};
use uom::si::time;

use crate::{
    asking::Asking,
    catalogue::{self, Hardiness, KnownCrop, Start},
    garden::{Bed, Garden, Planting},
    given::{Faults, Given, Text, asked, words},
    harvest::{
        again::{holds, too_late_by},
        age::by_days,
        chosen::{Chosen, choose},
        combine::Lean,
        cues::sheets_of,
        own,
        stage::Stage,
    },
    order,
    place::site::SiteAsked,
    quantity::Temperature,
    source::Source,
    telling::{Sure, Telling},
    text::{capital, day, list, small},
};

asked! {
    /// I am back on that day: what must I pick before I go?
    pub struct Asked {
        /// The day of coming back.
        back_on: Given<NaiveDate>,
        /// In how many days that is, in place of the date.
        back_in: Given<u32>,
        /// What grows, if not what the record tells.
        plants: Vec<PlantAsked>,
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
        /// A frost that is forecast.
        frost: Given<NaiveDate>,
    }
}

asked! {
    /// One crop that grows.
    pub struct PlantAsked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop>,
        /// What it is grown for, where there is more than one use.
        purpose: Given<Text>,
        /// The stage of most of it; bearing, if absent.
        stage: Given<Stage>,
    }
}

words! {
    /// What to do before going.
    pub enum Doing {
        /// Everything usable goes: a frost comes that the crop does not bear.
        TakeAll = "take-all",
        /// All of size, and the small ones too.
        SmallOnesToo = "small-ones-too",
        /// Old ones off, so that others come.
        OldOnesOff = "old-ones-off",
        /// A look: what is ready or nearly ready is taken.
        Look = "look",
    }
}

/// What to pick before going, and what can wait.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// What must be seen to, that which waits least first.
    pub take: Vec<Take>,
    /// What can wait.
    pub wait: Vec<Waits>,
}

/// Something to see to before going.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Take {
    /// The crop's catalogue id.
    pub crop: &'static str,
    /// The bed's id in the record; null where the crop came with the question.
    pub bed: Option<String>,
    /// The planting's id in the record; null where the crop came with the question.
    pub planting: Option<String>,
    /// The crop, and the bed where the record knows it: "Bush bean in Fence bed".
    pub name: String,
    /// What to do.
    pub doing: Doing,
    /// What to do, in a sentence.
    pub words: String,
    /// How many days it holds at its prime, the fewest and the most.
    pub holds_days: [u16; 2],
}

/// Something that can wait.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Waits {
    /// The crop's catalogue id.
    pub crop: &'static str,
    /// The bed's id in the record; null where the crop came with the question.
    pub bed: Option<String>,
    /// The planting's id in the record; null where the crop came with the question.
    pub planting: Option<String>,
    /// The crop, and the bed where the record knows it.
    pub name: String,
}

/// One crop that grows, read.
struct Growing<'a> {
    chosen: Chosen,
    stage: Option<Stage>,
    place: Option<(&'a Bed, &'a Planting)>,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let back_on = asked.back(asking.today, faults);
    let frost = asked.frost.read(faults);
    if asking.today.is_none() {
        faults.add(
            "today",
            "",
            "a date such as 2026-11-25",
            "this is needed to tell how long it must wait",
        );
    }
    for (given, date) in [(&asked.back_on, back_on), (&asked.frost, frost)] {
        if date.zip(asking.today).is_some_and(|(date, today)| date < today) {
            given.refuse(faults, "today or a day to come", "that is over");
        }
    }
    let given: Vec<Option<Growing<'_>>> =
        asked.plants.iter().map(|plant| plant.read(faults)).collect();
    let given: Option<Vec<Growing<'_>>> = given.into_iter().collect();
    let (today, back_on, given) = (asking.today?, back_on?, given?);
    if !faults.is_empty() {
        return None;
    }
    let growing = if given.is_empty() { in_the_record(asking.garden, today) } else { given };
    if growing.is_empty() {
        faults.add(
            "plants",
            "",
            "what grows, each with its crop",
            "the record tells of nothing that could be picked",
        );
        return None;
    }
    let mean = site.air.as_ref().map(|air| own::usual_mean(air, today));
    let frost = frost.filter(|frost| *frost <= back_on);

    let mut answer = Answer { take: Vec::new(), wait: Vec::new() };
    for growing in &growing {
        let crop = growing.chosen.crop.id();
        let bed = growing.place.map(|(bed, _)| bed.id.clone());
        let planting = growing.place.map(|(_, planting)| planting.id.to_string());
        let name = growing.name();
        match growing.doing(today, back_on, frost, mean) {
            Some(doing) => answer.take.push(Take {
                crop,
                bed,
                planting,
                name,
                doing,
                words: doing.words(frost, asking),
                holds_days: holds(growing.chosen.sheet, mean)
                    .map(|hold| whole(hold.get::<time::day>())),
            }),
            None => answer.wait.push(Waits { crop, bed, planting, name }),
        }
    }
    order::sort(&mut answer.take, &|take| {
        let [least, most] = take.holds_days;
        [take.doing as i64, least.into(), most.into()]
    });
    Some((tell(&answer, back_on, frost, mean.is_some(), asking), answer))
}

impl Asked {
    /// The day of coming back, given as a day or as a number of days.
    fn back(&self, today: Option<NaiveDate>, faults: &mut Faults) -> Option<NaiveDate> {
        if self.back_on.is_given() || !self.back_in.is_given() {
            return self.back_on.need(faults);
        }
        let days = self.back_in.within(0, 365, "0 to 365 days", faults)?;
        today?.checked_add_days(Days::new(days.into()))
    }
}

impl PlantAsked {
    fn read(&self, faults: &mut Faults) -> Option<Growing<'static>> {
        let stage = self.stage.read(faults);
        let chosen = choose(&self.crop, &self.purpose, faults)?;
        Some(Growing { chosen, stage, place: None })
    }
}

/// What grows in the beds and is old enough to bear.
fn in_the_record(garden: &Garden, today: NaiveDate) -> Vec<Growing<'_>> {
    let mut growing = Vec::new();
    for bed in garden.beds.iter().filter(|bed| bed.gone.is_none()) {
        for planting in bed.plantings.iter().filter(|planting| planting.picked_clean.is_none()) {
            if let Some(chosen) = bearing(garden, planting, today) {
                growing.push(Growing { chosen, stage: None, place: Some((bed, planting)) });
            }
        }
    }
    growing
}

fn bearing(garden: &Garden, planting: &Planting, today: NaiveDate) -> Option<Chosen> {
    let crop = catalogue::crop(&planting.crop).ok()?;
    let sheet = *sheets_of(crop).first()?;
    let (sown, planted) = own::began(garden, planting);
    let began = if crop.starts().first() == Some(&Start::Sow) { sown } else { planted };
    let age = began
        .zip(crop.days_to_harvest())
        .and_then(|(began, span)| by_days(today - began, span.least, span.most, sheet.lean()));
    let too_young = age.is_some_and(|reading| reading.to == Stage::NotYet);
    (!too_young).then_some(Chosen { crop, sheet })
}

impl Doing {
    fn words(self, frost: Option<NaiveDate>, asking: &Asking<'_>) -> String {
        match self {
            Self::TakeAll => {
                let night = frost
                    .map_or(String::new(), |frost| format!(" on {}", day(frost, asking.today)));
                format!("take all that is usable, frost comes{night}")
            }
            Self::SmallOnesToo => "pick all, the small ones too".to_owned(),
            Self::OldOnesOff => "take the old ones off, so that others come".to_owned(),
            Self::Look => "take what is ready or nearly".to_owned(),
        }
    }
}

impl Growing<'_> {
    /// "Bush bean in Fence bed".
    fn name(&self) -> String {
        let crop = self.chosen.crop.name();
        match self.place {
            Some((bed, _)) => format!("{crop} in {}", bed.name),
            None => crop.to_owned(),
        }
    }

    fn doing(
        &self,
        today: NaiveDate,
        back_on: NaiveDate,
        frost: Option<NaiveDate>,
        mean: Option<Temperature>,
    ) -> Option<Doing> {
        let Chosen { crop, sheet } = self.chosen;
        let tender = matches!(crop.hardiness(), Hardiness::Chilling | Hardiness::Tender);
        if tender && frost.is_some() {
            return Some(Doing::TakeAll);
        }
        let stage = self.stage.unwrap_or(Stage::Prime);
        if stage == Stage::Past && sheet.sets_on() {
            return Some(Doing::OldOnesOff);
        }
        if !too_late_by(sheet, stage, today, back_on, mean) {
            return None;
        }
        match (sheet.sets_on(), sheet.lean()) {
            (true, _) => Some(Doing::SmallOnesToo),
            // Without a stage told, what waits well is not worth a warning.
            (false, Lean::Early) if self.stage.is_none() => None,
            (false, _) => Some(Doing::Look),
        }
    }
}

fn tell(
    answer: &Answer,
    back_on: NaiveDate,
    frost: Option<NaiveDate>,
    weather_known: bool,
    asking: &Asking<'_>,
) -> Telling {
    let names = |crops: &mut dyn Iterator<Item = &'static str>| {
        let mut names: Vec<String> = Vec::new();
        for name in crops.filter_map(|id| catalogue::crop(id).ok()).map(|crop| small(crop.name())) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        list(&names)
    };
    let all = names(&mut answer.take.iter().map(|take| take.crop));
    let headline = if all.is_empty() {
        format!("All of it waits until {}", day(back_on, asking.today))
    } else {
        format!("Before you go: {all}")
    };
    let mut telling = Telling::new(headline, if weather_known { Sure::Fair } else { Sure::Low });
    for doing in Doing::ALL {
        let those = names(
            &mut answer.take.iter().filter(|take| take.doing == *doing).map(|take| take.crop),
        );
        if those.is_empty() {
            continue;
        }
        telling.because.push(format!("{}: {}.", capital(&those), doing.words(frost, asking)));
    }
    let waits = names(&mut answer.wait.iter().map(|waits| waits.crop));
    if !all.is_empty() && !waits.is_empty() {
        telling.look_for.push(format!("{} can wait.", capital(&waits)));
    }
    if !weather_known {
        telling
            .look_for
            .push("Reckoned for warm weather; in cool weather more can wait.".to_owned());
    }
    telling.source(Source::StretchRule);
    telling.source(Source::NorthCarolina552);
    telling.source(Source::CommonPractice);
    telling
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "1 to 360 days")]
fn whole(days: f64) -> u16 {
    days.round() as u16
}
