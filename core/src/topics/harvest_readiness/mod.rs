//! Topic `harvest-readiness`: is it at its prime, and when do I look again?
//!
//! Models: [`verdict`](crate::harvest::verdict) over the signs of the sheet, [`age`](crate::harvest::age) in support,
//! [`again`](crate::harvest::again) for the next look. From a bed in the record come the dates, the gardener's
//! own pace of picking and the heat earlier seasons took.

mod ages;
mod answer;
mod headline;
mod next_look;
mod question;
mod recorded;
mod rests_on;
mod support;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, Keeps, TallyTold};
pub(crate) use next_look::{NextLook, next_look};
pub use question::{Asked, CountedAsked, MeasuresAsked, SampleAsked};
pub use support::HeatTold;

use self::{
    ages::{ages, best_until, own_sums},
    question::Question,
    words::Told,
};
use crate::{
    asking::Asking,
    given::Faults,
    harvest::{
        again::{self, Look, Why},
        grades, own,
        stage::Stage,
    },
    telling::Telling,
    time::Range,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let question = asked.read(asking, faults)?;
    let Question { chosen, dates, recorded, ref site, ref one, ref several } = question;
    let sheet = chosen.sheet;

    let own_sums = own_sums(chosen, site, asking);
    let ages = ages(chosen, site, dates, asking.today, own_sums);
    let (verdict, tally) = question.judged(&ages);
    let stops = question.stops();
    let mean = asking.today.zip(site.air.as_ref()).map(|(today, air)| own::usual_mean(air, today));
    let look = asking
        .today
        .filter(|_| stops.is_empty())
        .and_then(|today| question.look_again(today, verdict.stage, tally, mean));
    let still = look.is_some_and(|look| look.why == Why::ShortDays);
    let until = best_until(chosen, verdict.stage.filter(|_| !still), mean, asking.today);
    let late = dates
        .next_visit
        .zip(asking.today)
        .zip(verdict.stage)
        .map(|((visit, today), stage)| again::too_late_by(sheet, stage, today, visit, mean));
    let grade = if several.is_empty() { grades::grade(sheet, &one.measures) } else { None };

    let heat_is_own = ages.heat.is_some() && own_sums.is_some();
    let told = Told {
        chosen,
        verdict: &verdict,
        tally,
        signs: question.all_seen().flat_map(|seen| seen.signs.iter().copied()).collect(),
        measures: one.measures,
        stops: &stops,
        look,
        until,
        next_visit: dates.next_visit.filter(|_| late == Some(true)),
        frost: question.harmful_frost(),
        heat_is_own,
        grade,
        recorded,
        asking,
    };
    let telling = words::tell(&told);
    let keeps = matches!(verdict.stage, Some(Stage::Prime | Stage::Going));
    let answer = Answer {
        stage: verdict.stage,
        allowed: verdict.allowed.clone(),
        tally: tally.map(|tally| TallyTold {
            not_yet: tally.at(Stage::NotYet),
            prime: tally.at(Stage::Prime),
            going: tally.at(Stage::Going),
            past: tally.at(Stage::Past),
        }),
        decisive: verdict.decisive.clone(),
        clash: verdict.clash,
        look_again: look.map(|Look { early, likely, late, .. }| Range {
            early: Some(early),
            likely,
            late,
        }),
        best_until: until,
        late_by_next_visit: late,
        good_for: words::good_for(sheet, verdict.stage).to_vec(),
        keeps: sheet
            .keep(chosen.crop)
            .into_iter()
            .filter(|_| keeps)
            .map(|keep| Keeps::of(keep, asking.system))
            .collect(),
        heat: asking.today.zip(site.air.as_ref()).and_then(|(today, air)| {
            HeatTold::of(chosen, today, air, &ages, heat_is_own).map(|heat| heat.told(asking))
        }),
        trade_grade: grade.map(|grade| grade.name),
        stops: stops.iter().map(|stop| stop.tell()).collect(),
    };
    Some((telling, answer))
}
