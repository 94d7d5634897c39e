//! What lies on the beds, lies over them, or is kept for them.
//!
//! - Plant waste: three days before the bed can likely be planted, and for two weeks from then while nothing
//!   else is in it or meant for it; after that the bed is one of those that are free.
//! - A look at it: a week after the last, while it decides when to plant or two halves are compared.
//! - A cover: from the morning after it was laid.
//! - A bed kept for something: from the day on which it was to go in.

use chrono::TimeDelta;

use super::{
    day::Day,
    due::Tick,
    found::{Found, Weight},
};
use crate::{
    asking::Topic,
    garden::Bed,
    record,
    text::span,
    topics::{
        garlic_window,
        residue_wait::{self, balance::Placement},
    },
};

const READY_AHEAD: TimeDelta = TimeDelta::days(3);
const READY_LASTS: TimeDelta = TimeDelta::days(14);
const LOOK_EVERY: TimeDelta = TimeDelta::days(7);
/// A look is worth nothing any more so long after it was due.
const LOOK_WITHIN: TimeDelta = TimeDelta::days(3);

pub(super) fn find(day: &Day<'_>, found: &mut Vec<Found>) {
    for bed in day.beds() {
        let all = lying(bed, day).into_iter().chain(covered(bed, day));
        let all = all.chain(kept(bed, day));
        found.extend(all.map(|it| it.of_bed(&bed.id)));
    }
}

fn lying(bed: &Bed, day: &Day<'_>) -> Option<Found> {
    let (garden, today) = (day.asking.garden, day.today);
    let laid = residue_wait::lying(bed, Some(today))?;
    let far = residue_wait::progress(&bed.id, garden, today)?;
    let lies = record::lies_told(&bed.id, garden, today)?;
    let free = bed.plantings.is_empty() && bed.kept(today).next().is_none();
    let ready = far.plant_from.likely.filter(|ready| free && today <= *ready + READY_LASTS);
    let ready = ready.map(|ready| {
        let how = match (far.plant_from.early, far.plant_from.late) {
            (Some(early), Some(late)) if laid.when.date() < late => {
                format!("ready {}", span(early, late, Some(today)))
            }
            _ => "plant through it".to_owned(),
        };
        let when = [ready - READY_AHEAD, ready + READY_LASTS];
        let what = format!("Plant {} again", bed.name);
        Found::new(Topic::ResidueWait, what, when, format!("{lies}; {how}."))
    });
    let compared = residue_wait::parts(bed, laid).len() > 1;
    let until = if compared { far.settles.likely } else { far.plant_from.likely };
    let decides = compared || far.placement == Placement::WorkedIn;
    let mut looks = bed.check_ins.iter().filter(|look| laid.when <= look.when);
    let last = looks.next_back().map_or(laid.when, |look| look.when).date();
    let waits = until.is_none_or(|until| (last + LOOK_EVERY).max(today) < until);
    let look = (decides && waits).then(|| {
        let when = [last + LOOK_EVERY, last + LOOK_EVERY + LOOK_WITHIN];
        let what = format!("Look how far {} has settled", bed.name);
        let why = format!("{lies}; what you see moves the day to plant.");
        Found::new(Topic::ResidueWait, what, when, why)
    });
    // One of them is told: what is due before what is not.
    match (ready, look) {
        (Some(ready), Some(look)) if today < ready.from && look.from < ready.from => Some(look),
        (ready, look) => ready.or(look),
    }
}

fn covered(bed: &Bed, day: &Day<'_>) -> Option<Found> {
    let on = bed.covered.as_ref()?.when.date();
    let off = on + TimeDelta::days(1);
    let what = format!("Take the cover off {}", bed.name);
    let why = format!("Covered since {}, and not written as off.", day.said(on));
    let found = Found::new(Topic::FrostTonight, what, [off, off], why);
    Some(found.ticked(Some(Tick::CoversOff)))
}

fn kept(bed: &Bed, day: &Day<'_>) -> Option<Found> {
    let due = bed.kept(day.today).filter_map(|kept| Some((kept, kept.from?)));
    let (kept, from) = due.min_by_key(|(_, from)| *from)?;
    let crop = kept.crop.as_deref();
    let topic = match crop {
        Some(crop) if garlic_window::is_garlic(crop) => Topic::GarlicWindow,
        _ => Topic::PlantsPerBed,
    };
    let name = crop.map_or_else(|| "what it is kept for".to_owned(), record::crop_name);
    let what = format!("Plant {name} in {}", bed.name);
    let mut why = format!("It is {} from {}", record::kept_for(kept), day.said(from));
    if let Some(until) = kept.until {
        why += &format!(" to {}", day.said(until));
    }
    let found = Found::new(topic, what, [from, kept.until.unwrap_or(from)], why + ".");
    Some(found.weighs(Weight::Lost))
}
