//! What one screen at the bed asks: the few questions that tell most for this crop now.
//!
//! The order is [`Sheet::ask_next`]'s, worked out anew after each answer, but only for what stands below
//! that answer: a question never moves from under the finger that answers it.

use chrono::NaiveDate;

use super::{
    chosen::choose,
    cues::{Question, Sheet, Sign, Stop, sheets_of},
    measures::Measure,
    own,
    sizes::Size,
};
use crate::{
    catalogue,
    garden::{Bed, Garden, Planting},
    given::{Faults, Given},
    text::{day, small},
};

/// How many questions stand open at once while the verdict is not sure.
const OPEN: usize = 3;
/// How many are asked in all before the rest is folded away.
const MOST: usize = 6;

/// What is asked of one crop.
pub struct AtBed {
    /// All uses of the crop, the usual one first; empty where it has one.
    pub purposes: Vec<&'static str>,
    /// The use that is asked about.
    pub purpose: Option<&'static str>,
    /// The questions answered so far and those that tell most now, in order.
    pub questions: Vec<ToAsk>,
    /// The questions that tell less, folded away.
    pub more: Vec<ToAsk>,
    /// The signs that end the question, each with its place.
    pub stops: Vec<(usize, &'static Stop)>,
    /// What can be measured.
    pub sizes: &'static [Size],
    /// What the age is counted from, where it predicts better than days from planting.
    pub flower: Option<&'static str>,
    /// What is looked at: many.
    pub many: &'static str,
}

/// One question.
pub struct ToAsk {
    /// Its place in the sheet, which does not change with the order.
    pub place: usize,
    /// The question.
    pub question: &'static Question,
    /// The sign that was chosen; none while it is open, or where the gardener can't tell.
    pub sign: Option<&'static Sign>,
    /// Whether it was answered, if only by "can't tell".
    pub is_answered: bool,
}

/// What to ask of a crop, by its name or id and the use of it. `chosen` gives the sign's id chosen for the
/// question at a place, empty for "can't tell"; `sure` says that the verdict needs no more.
/// `None` where no such crop or use is known.
pub fn at_bed(
    crop: &str,
    purpose: &str,
    chosen: &dyn Fn(usize) -> Option<String>,
    sure: bool,
) -> Option<AtBed> {
    fn given<T>(text: &str) -> Given<T> {
        Given::default().or(Some(text).filter(|text| !text.is_empty()))
    }
    let sheet = choose(&given(crop), &given(purpose), &mut Faults::default())?;
    let (crop, sheet) = (sheet.crop, sheet.sheet);
    let mut asked = in_order(sheet, chosen);
    let (mut open, mut kept) = (if sure { 0 } else { OPEN }, Vec::new());
    let mut more = Vec::new();
    for question in asked.drain(..) {
        let room = question.is_answered || (open > 0 && kept.len() < MOST);
        if room {
            open = open.saturating_sub(usize::from(!question.is_answered));
            kept.push(question);
        } else {
            more.push(question);
        }
    }
    let number = sheet.questions().len();
    Some(AtBed {
        purposes: sheets_of(crop).into_iter().filter_map(Sheet::used_as).collect(),
        purpose: sheet.used_as(),
        questions: kept,
        more,
        stops: sheet.stops().iter().enumerate().map(|(at, stop)| (number + at, *stop)).collect(),
        sizes: sheet.sizes(),
        flower: sheet.flower.as_ref().map(|flower| flower.say),
        many: sheet.many(),
    })
}

/// All questions, each before those that an answer to it makes more or less telling.
fn in_order(sheet: &'static Sheet, chosen: &dyn Fn(usize) -> Option<String>) -> Vec<ToAsk> {
    let mut asked: Vec<ToAsk> = Vec::new();
    let mut seen: Vec<&'static Sign> = Vec::new();
    loop {
        let next = sheet.ask_next(&seen).into_iter().find_map(|question| {
            let place =
                sheet.questions().iter().position(|other| core::ptr::eq(other, question))?;
            (!asked.iter().any(|before| before.place == place)).then_some((place, question))
        });
        let Some((place, question)) = next else {
            return asked;
        };
        let answer = chosen(place);
        let sign =
            answer.as_deref().and_then(|id| question.signs().iter().find(|sign| sign.id() == id));
        seen.extend(sign);
        asked.push(ToAsk { place, question, sign, is_answered: answer.is_some() });
    }
}

/// The words above the field of a measure.
pub fn measure_words(size: &Size) -> String {
    let of = size.of();
    match size.what() {
        Measure::Length => format!("Length: {of}"),
        Measure::Width => format!("Across: {of}"),
        Measure::Height => format!("Height: {of}"),
        Measure::Colour | Measure::TopsDown => format!("Percent: {of}"),
        Measure::GreenLeaves => "Green leaves left".to_owned(),
        Measure::Brix => "Sugar by the Brix glass, percent".to_owned(),
    }
}

/// One planting that can be asked about.
pub struct Ripening<'a> {
    /// Its bed.
    pub bed: &'a Bed,
    /// The planting.
    pub planting: &'a Planting,
    /// The crop and since when; with the bed, where all beds were asked for.
    pub words: String,
}

/// What grows and can be harvested: in one bed, or in all of them. The beds in their order.
pub fn ripening<'a>(garden: &'a Garden, bed: Option<&str>, today: NaiveDate) -> Vec<Ripening<'a>> {
    let mut found = Vec::new();
    let beds = garden.beds.iter().filter(|at| at.gone.is_none());
    for at in beds.filter(|at| bed.is_none_or(|bed| at.id == bed)) {
        for planting in &at.plantings {
            let Ok(crop) = catalogue::crop(&planting.crop) else {
                continue;
            };
            if sheets_of(crop).is_empty() {
                continue;
            }
            let place = bed.map_or_else(|| format!(" in {}", at.name), |_| String::new());
            let variety = planting.variety.as_deref();
            let variety = variety.map(|name| format!(" ({name})")).unwrap_or_default();
            let (sown, planted) = own::began(garden, planting);
            let since = planted
                .or(sown)
                .map(|since| format!(", since {}", day(since, Some(today))))
                .unwrap_or_default();
            found.push(Ripening {
                bed: at,
                planting,
                words: format!("{}{variety}{place}{since}", small(crop.name())),
            });
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::cues::sheet_named;
    use super::*;

    fn places(questions: &[ToAsk]) -> Vec<usize> {
        questions.iter().map(|asked| asked.place).collect()
    }

    #[test]
    fn an_answered_question_stays_where_it_is() {
        let before = at_bed("eggplant", "", &|_| None, false).unwrap();
        let third = before.questions[2].place;
        let sign = before.questions[2].question.signs()[0].id().to_owned();
        let after =
            at_bed("eggplant", "", &|place| (place == third).then(|| sign.clone()), false).unwrap();
        assert_eq!(places(&before.questions), places(&after.questions)[..3]);
        assert_eq!(after.questions[2].sign.map(Sign::id), Some(sign.as_str()));
    }

    #[test]
    fn three_stand_open_and_none_once_the_verdict_is_sure() {
        let open = at_bed("eggplant", "", &|_| None, false).unwrap();
        assert_eq!((open.questions.len(), open.more.len()), (3, 1));
        let sure = at_bed("eggplant", "", &|place| (place == 0).then(String::new), true).unwrap();
        assert_eq!((sure.questions.len(), sure.more.len()), (1, 3));
        assert!(sure.questions[0].is_answered && sure.questions[0].sign.is_none());
    }

    #[test]
    fn every_question_of_every_crop_is_there_once() {
        for crop in catalogue::crops() {
            let Some(asked) = at_bed(crop.id(), "", &|_| None, false) else {
                assert!(sheets_of(crop).is_empty());
                continue;
            };
            let mut all = places(&asked.questions);
            all.extend(places(&asked.more));
            all.sort_unstable();
            let number = sheets_of(crop)[0].questions().len();
            assert_eq!(all, (0..number).collect::<Vec<_>>(), "{}", crop.id());
        }
        assert!(sheet_named("kale").is_some());
        assert!(at_bed("no such crop", "", &|_| None, false).is_none());
        assert!(at_bed("pea", "rope", &|_| None, false).is_none());
    }
}
