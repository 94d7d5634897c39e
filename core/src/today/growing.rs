//! What grows: is it up, is it ready.
//!
//! - Seed not seen up: from the likely day of its range on, and for four weeks after the day on which sowing
//!   again is wiser; by then it came up, or the gap was filled. A picking or a look at what grew from it
//!   tells that it is up.
//! - A crop: when its next look is due ([`next_look`]).
//!
//! Several crops of a bed become one.

use chrono::{NaiveDate, TimeDelta};

use super::{
    day::Day,
    found::{Found, Weight},
};
use crate::{
    asking::Topic,
    bed::BedAsked,
    catalogue,
    garden::{Bed, Came, Planting},
    given::{Faults, Given},
    record::crop_name,
    text::{capital, list, small_first, span},
    topics::{
        emergence::{self, course::Verdict},
        harvest_readiness::{NextLook, next_look},
    },
};

/// So long after it should have been sown again, a sowing is no question any more.
const FORGOTTEN: TimeDelta = TimeDelta::days(28);

/// What is to be done with one planting.
struct One<'a> {
    planting: &'a Planting,
    act: &'static str,
    when: [NaiveDate; 2],
    why: String,
    weight: Weight,
}

pub(super) fn find(day: &Day<'_>, found: &mut Vec<Found>) {
    for bed in day.beds() {
        for (topic, of_one) in [
            (Topic::Emergence, seedlings as fn(_, _, _) -> _),
            (Topic::HarvestReadiness, ripening as fn(_, _, _) -> _),
        ] {
            let all: Vec<One<'_>> =
                bed.plantings.iter().filter_map(|it| of_one(bed, it, day)).collect();
            let (due, coming): (Vec<_>, Vec<_>) =
                all.into_iter().partition(|it| it.when[0] <= day.today);
            found.extend(together(bed, topic, due));
            found.extend(coming.into_iter().filter_map(|it| together(bed, topic, vec![it])));
        }
    }
}

/// "Look at the kale and leeks in Path bed; take out the beans".
fn together(bed: &Bed, topic: Topic, mut all: Vec<One<'_>>) -> Option<Found> {
    crate::order::sort(&mut all, &|it| [it.weight as i64, it.when[1].to_epoch_days().into(), 0]);
    let mut acts: Vec<(&str, Vec<String>)> = Vec::new();
    for it in &all {
        let crop = crop_name(&it.planting.crop);
        match acts.iter_mut().find(|(act, _)| *act == it.act) {
            Some((_, crops)) if crops.contains(&crop) => {}
            Some((_, crops)) => crops.push(crop),
            None => acts.push((it.act, vec![crop])),
        }
    }
    let said = acts.iter().map(|(act, crops)| format!("{act} {}", list(crops)));
    let what = format!("{} in {}", said.collect::<Vec<_>>().join(", "), bed.name);
    let first = all.first()?;
    let why = if all.len() > 1 {
        format!("{}: {}", capital(&crop_name(&first.planting.crop)), small_first(&first.why))
    } else {
        first.why.clone()
    };
    let by = all.iter().map(|it| it.when[1]).min()?;
    let found = Found::new(topic, capital(&what), [first.when[0], by], why);
    let mut found = found.weighs(first.weight).of_bed(&bed.id);
    found.due.planting = (all.len() == 1).then(|| first.planting.id.to_string());
    Some(found)
}

fn seedlings<'a>(bed: &Bed, planting: &'a Planting, day: &Day<'_>) -> Option<One<'a>> {
    let since = planting.since;
    let picked = bed.harvests.iter().any(|it| it.when > since);
    let seen = planting.check_ins.iter().any(|look| look.what.stage.is_some());
    if planting.came != Came::Seeded || picked || seen {
        return None;
    }
    let looks = bed.check_ins.iter().filter(|look| look.when >= since);
    let up = looks.chain(&planting.check_ins).filter_map(|look| look.what.up).next_back();
    let fields = emergence::of_sowing(day.asking.garden, planting);
    fn given<T>(text: Option<&str>) -> Given<T> {
        Given::default().or(text)
    }
    // In the record nothing is guessed.
    catalogue::crop(&planting.crop).ok()?;
    let asked = emergence::Asked {
        crop: given(Some(&planting.crop)),
        sown: given(fields.iter().find(|it| it.0 == "sown").map(|it| it.1.as_str())),
        depth: given(fields.iter().find(|it| it.0 == "depth").map(|it| it.1.as_str())),
        up: given(up.map(|up| crate::quantity::number::show_number(up, 6)).as_deref()),
        bed: Some(BedAsked::Named(given(Some(&bed.id)))),
        ..emergence::Asked::default()
    };
    let (telling, answer) = emergence::answer(&asked, day.asking, &mut Faults::default())?;
    let by = answer.resow_after?;
    let likely = answer.expected?.likely?;
    let again = by + TimeDelta::days(1);
    let (act, from) = match answer.verdict {
        Verdict::Up => return None,
        Verdict::Resow => ("sow again:", again),
        // What was seen to come is left until its time is over.
        Verdict::Wait if up.is_some_and(|up| up > 0.0) => ("look for seedlings of", again),
        Verdict::Wait => ("look for seedlings of", likely),
    };
    (day.today <= by + FORGOTTEN).then_some(One {
        planting,
        act,
        when: [from, by],
        why: telling.headline + ".",
        weight: Weight::Lost,
    })
}

fn ripening<'a>(bed: &Bed, planting: &'a Planting, day: &Day<'_>) -> Option<One<'a>> {
    let look = next_look(bed, planting, &day.site, day.year.as_ref(), day.asking)?;
    let NextLook { from, by, last, is_over, hurries } = look;
    let why = match last.map(|last| day.said(last)) {
        None => format!("It may be ready from {} on, and was not looked at.", day.said(from)),
        Some(last) if is_over => format!("Past its prime on {last}."),
        Some(last) if from == by => {
            format!("Last looked at on {last}; the next look was due {}.", day.said(by))
        }
        Some(last) => format!(
            "Last looked at on {last}; the next look was due {}.",
            span(from, by, Some(day.today))
        ),
    };
    Some(One {
        planting,
        act: if is_over { "take out" } else { "look at" },
        when: [from, by],
        why,
        weight: if hurries { Weight::Lost } else { Weight::Waits },
    })
}
