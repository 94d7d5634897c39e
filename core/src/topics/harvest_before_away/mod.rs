//! Topic `harvest-before-away`: what must be picked before the gardener goes, and what can wait.
//!
//! Model: [`again`](crate::harvest::again): what holds for fewer days than the gardener is away overripens, and
//! on crops that set fruit one forgotten giant costs the next ones (North Carolina State University,
//! AG-552: cucumbers picked at 1 3/4 in gave a third of the fruit of those picked at 1/2 in). So the
//! small ones are picked too.

mod answer;
mod question;
mod words;

pub use answer::{Answer, Doing, Take, Waits};
pub use question::{Asked, PlantAsked};

use uom::si::time;

use self::{
    question::{Growing, in_the_record},
    words::tell,
};
use crate::{
    asking::Asking,
    given::Faults,
    harvest::{again::holds, own},
    order,
    place::site::SiteAsked,
    season::Year,
    telling::Telling,
};

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
    let growing = if given.is_empty() {
        let year = Year::of(&site);
        in_the_record(asking.garden, year.as_ref(), today)
    } else {
        given
    };
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

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "1 to 360 days")]
fn whole(days: f64) -> u16 {
    days.round() as u16
}
