//! Topic `what-fits-when`: what can still go into a bed and be picked, most pressing first.
//!
//! Model: each crop's [course](crate::season) from the day the bed is free. What crops less than four
//! years in ten is left out. A last day is that of the stretch in which it may go in by the nerve of
//! its kind, as `sow-now` tells it; gaps of under a week are not seen.

mod answer;
mod kept_out;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, Can, How, Verdict};
pub use question::{Asked, Goes};

use chrono::{Datelike, Duration, NaiveDate};

use self::{
    kept_out::{KeptOut, kept_out},
    question::Question,
};
use crate::{
    asking::Asking,
    catalogue::{Crop, Start, crops},
    given::Faults,
    order,
    plan::{Stood, resting},
    season::{self, Growing, Year},
    telling::Telling,
    turns::Pace,
};

/// Days of a year.
const YEAR: i64 = 365;
/// The last day is looked for in steps of so many days, then day by day.
const STRIDE: usize = 7;
/// What one date of one crop takes, in steps of a search: some microseconds.
const A_COURSE: u64 = 2_000;

/// Answers the question.
pub(crate) async fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
    pace: &Pace,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking, faults).filter(|_| faults.is_empty())?;
    let year = Year::of_site(&question.site, &question.soil.year)?;
    let meant = question.bed.as_ref();
    let stood = meant.map(|bed| resting(bed, asking.garden, Some(question.from)));
    let stood = stood.unwrap_or_default();
    let recorded = meant.and_then(|bed| asking.garden.bed(bed.id.as_deref()?));
    let mut answer = Answer { can: Vec::new(), not_known: 0 };
    let mut out: Vec<(&Crop, KeptOut)> = Vec::new();
    for crop in crops() {
        if let Some(kept) = recorded.and_then(|bed| kept_out(crop, bed, question.from)) {
            out.push((crop, kept));
            continue;
        }
        let mut known = false;
        for how in ways(crop, question.goes) {
            let Ok(growing) = Growing::new(&year, crop, how) else { continue };
            known = true;
            answer.can.extend(can(crop, how, &growing, &question, &stood, pace).await);
        }
        answer.not_known += u32::from(!known && crop.eaten());
    }
    let days = |date: NaiveDate| i64::from(date.num_days_from_ce());
    order::sort(&mut answer.can, &|can| {
        let picked = can.picked.likely.map_or(0, days);
        [can.last_day.map_or(i64::MAX, days), picked, 0]
    });
    for can in &mut answer.can {
        can.told = words::row(can, asking);
    }
    Some((words::tell(&answer, &question, &out, asking), answer))
}

/// The usual ways it is started, of those that are asked for.
fn ways(crop: &Crop, goes: Option<Goes>) -> impl Iterator<Item = season::How> {
    let plants = crop.starts().iter().any(|start| {
        matches!(start, Start::Transplant | Start::Slip | Start::Crown | Start::Division)
    });
    let seed = crop
        .starts()
        .iter()
        .any(|start| matches!(start, Start::Sow | Start::Tuber | Start::Set | Start::Clove));
    let sown = (seed && goes != Some(Goes::Plants)).then_some(season::How::Sown);
    let set = (plants && goes != Some(Goes::Seed)).then_some(season::How::SetOut);
    sown.into_iter().chain(set)
}

/// The row of a crop, if it can go in on that day.
async fn can(
    crop: &'static Crop,
    how: season::How,
    growing: &Growing<'_>,
    question: &Question,
    stood: &[Stood],
    pace: &Pace,
) -> Option<Can> {
    pace.did(A_COURSE).await;
    let course = growing.course(question.from);
    let verdict = match course.verdict {
        season::Verdict::Yes => Verdict::Yes,
        season::Verdict::Gamble => Verdict::Gamble,
        season::Verdict::TooEarly | season::Verdict::TooLate => return None,
    };
    let kin = |&&(family, _): &&Stood| crop.family() == family || crop.mixed_with() == Some(family);
    Some(Can {
        crop: crop.id(),
        name: crop.name(),
        how: match how {
            season::How::Sown => How::Sow,
            season::How::SetOut => How::SetOut,
        },
        verdict,
        last_day: last_day(growing, question.from, pace).await,
        picked: course.first,
        alive: (course.alive * 100.0).round() / 100.0,
        stands_through_winter: course.stands_winter,
        rests_until: stood
            .iter()
            .find(kin)
            .map(|(family, year)| year + i32::from(family.gap_years())),
        told: String::new(),
    })
}

/// The last day of the stretch that begins on `from`; `None` where it goes on for a year. What is only
/// a gamble yet may become a yes; once it was one, the stretch ends with it.
async fn last_day(growing: &Growing<'_>, from: NaiveDate, pace: &Pace) -> Option<NaiveDate> {
    let mut went = growing.goes(from);
    let mut keeps = |days: i64| {
        let date = from + Duration::days(days);
        if growing.goes(date) {
            went = true;
            return true;
        }
        let gambles = || matches!(growing.course(date).verdict, season::Verdict::Gamble);
        !went && gambles()
    };
    for last in (0..YEAR).step_by(STRIDE) {
        pace.did(A_COURSE).await;
        if !keeps(last + STRIDE as i64) {
            let within = (last + 1..last + STRIDE as i64).take_while(|days| keeps(*days)).last();
            return Some(from + Duration::days(within.unwrap_or(last)));
        }
    }
    None
}
