//! When a planting of the record wants its next look, from what was written down alone.
//!
//! Never looked at and never picked, it wants one from its first picking on, by its course in the place's
//! year; where that is not known, from the day on which [`judge`] calls it old enough by its days or its heat.
//! Else when the last look or picking said so ([`again`](crate::harvest::again)).

use chrono::{Days, NaiveDate};

use super::{
    ages::{ages, own_sums},
    question::Dates,
    recorded::Recorded,
};
use crate::{
    asking::Asking,
    catalogue,
    garden::{Bed, Planting},
    harvest::{
        again::{Looking, look_again},
        chosen::Chosen,
        combine::Lean,
        cues::sheets_of,
        own,
        stage::Stage,
        verdict::{Seen, judge},
    },
    place::{site::Site, sun},
    season::Year,
    text::parted,
};

/// When to look at a planting.
pub(crate) struct NextLook {
    /// From this day on; that of the last look, where nothing is left to look at.
    pub(crate) from: NaiveDate,
    /// The day by which to have looked.
    pub(crate) by: NaiveDate,
    /// The last look or picking.
    pub(crate) last: Option<NaiveDate>,
    /// It was past its prime then, and nothing more comes of it.
    pub(crate) is_over: bool,
    /// It does not wait once it is ready.
    pub(crate) hurries: bool,
}

/// Beyond a year from planting an age tells nothing.
const LONGEST_DAYS: u64 = 365;

/// The next look at a planting; `None` where no signs are known for its crop, where nothing tells its age,
/// or where all of it is picked.
pub(crate) fn next_look(
    bed: &Bed,
    planting: &Planting,
    site: &Site,
    year: Option<&Year>,
    asking: &Asking<'_>,
) -> Option<NextLook> {
    let crop = catalogue::crop(&planting.crop).ok()?;
    let sheet = *sheets_of(crop).first()?;
    if planting.picked_clean.is_some() {
        return None;
    }
    let last = last_look(bed, planting, Chosen { crop, sheet });
    let since = match &last {
        Some((on, _)) => *on,
        None => old_enough(bed, planting, Chosen { crop, sheet }, site, year, asking)?,
    };
    let told = last.as_ref().and_then(|(_, stage)| stage.as_deref());
    let stage =
        told.and_then(|told| Stage::ALL.iter().find(|stage| parted(told, stage.word()).is_some()));
    let air = site.air.as_ref();
    let look = look_again(&Looking {
        sheet,
        today: since,
        stage: stage.copied(),
        any_going: told.is_some_and(|told| parted(told, Stage::Going.word()).is_some()),
        mean: air.map(|air| own::usual_mean(air, since)),
        flowered: None,
        short_days: site
            .latitude
            .filter(|_| sheet.is_leaves())
            .and_then(|latitude| sun::short_days(latitude, since)),
        frost: None,
        own: air.and_then(|air| own::pace(bed, planting, crop, sheet, air)),
    });
    let by = look.map_or(since, |look| look.late.unwrap_or(look.early));
    Some(NextLook {
        // What was never looked at waits for no interval.
        from: look.filter(|_| last.is_some()).map_or(since, |look| look.early),
        by,
        last: last.map(|(on, _)| on),
        is_over: look.is_none(),
        hurries: sheet.lean() == Lean::Late,
    })
}

/// The last look or picking, and the stage as it was written down.
fn last_look(
    bed: &Bed,
    planting: &Planting,
    chosen: Chosen,
) -> Option<(NaiveDate, Option<String>)> {
    let looked = planting.check_ins.iter().rev();
    let looked = looked.map(|look| (look.when, look.what.stage.clone()));
    let looked = looked.into_iter().find(|(_, stage)| stage.is_some());
    let picked = own::pickings(bed, planting, chosen.crop).pop().map(|when| {
        let harvest = bed.harvests.iter().rev().find(|it| it.when == when);
        (when, harvest.and_then(|it| it.what.stage.clone()))
    });
    let last = looked.max(picked);
    last.map(|(when, stage)| (when.date(), stage))
}

/// The first day on which its days or its heat say that it may be ready.
fn old_enough(
    bed: &Bed,
    planting: &Planting,
    chosen: Chosen,
    site: &Site,
    year: Option<&Year>,
    asking: &Asking<'_>,
) -> Option<NaiveDate> {
    let own_sums = own_sums(chosen, site, asking);
    // What the gardener's own seasons took goes before what the crop usually takes here.
    if let Some(year) = year.filter(|_| own_sums.is_none())
        && let Some(first) = own::first_picking(year, planting, chosen.crop)
    {
        return first.early;
    }
    let recorded = Recorded { bed: Some(bed), planting: Some(planting) };
    let since = planting.since.date();
    let mut dates = Dates::default().filled(asking, recorded);
    // Sown nobody knows when, it is at least as old as it stands here.
    dates.sown = dates.sown.or(dates.transplanted);
    let is_ready = |days: u64| {
        let today = since.checked_add_days(Days::new(days));
        let ages = ages(chosen, site, dates, today, own_sums);
        let stage = judge(chosen.sheet, &Seen::default(), &ages).stage;
        stage.is_some_and(|stage| stage != Stage::NotYet)
    };
    if !is_ready(LONGEST_DAYS) {
        return None;
    }
    // Older is never read younger, so that the first such day is found by halving.
    let (mut before, mut ready) = (0, LONGEST_DAYS);
    while before < ready {
        let middle = u64::midpoint(before, ready);
        if is_ready(middle) {
            ready = middle;
        } else {
            before = middle + 1;
        }
    }
    // What is old on the day it is planted tells nothing of when it is ready.
    since.checked_add_days(Days::new(ready)).filter(|_| ready > 0)
}
