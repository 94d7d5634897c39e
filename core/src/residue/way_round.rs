//! Ways round the wait: what can be done so that the bed is planted sooner, and what each changes.

use chrono::{Days, NaiveDate};

use super::{
    balance::Placement,
    clock::Moisture,
    course::Course,
    limits::{Limit, Plan, all_past},
};
use crate::{given::words, time::Range};

/// A way round is worth telling as the verdict if it saves a week.
const WORTH_DAYS: i64 = 7;

/// Of ways that end within these days of each other the easier is taken.
const AS_GOOD_DAYS: u64 = 3;

/// Residue dug in longer ago than this can't be raked out any more. Common practice.
const CAN_BE_LIFTED_DAYS: i64 = 14;

words! {
    /// What can be done instead of waiting, the easiest first.
    pub enum What {
        /// Part the mulch and plant through it.
        ThroughTheTop = "through-the-top",
        /// Rake a strip bare and sow in it.
        RakeAStrip = "rake-a-strip",
        /// Give the nitrogen that the rotting holds.
        Feed = "feed",
        /// Give the nitrogen, and rake a strip.
        FeedAndRake = "feed-and-rake",
        /// Keep it damp.
        Water = "water",
        /// Set young plants instead of sowing.
        Transplant = "transplant",
        /// Set young plants instead of sowing, and give the nitrogen.
        TransplantAndFeed = "transplant-and-feed",
        /// Rake it out of the soil and leave it on top.
        LiftToTop = "lift-to-top",
    }
}

/// One way round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// What is done.
    pub what: What,
    /// The days from which the bed can be planted then.
    pub plant_from: Range,
}

impl Way {
    /// The likely day, not before `today`.
    pub fn from(&self, today: NaiveDate) -> Option<NaiveDate> {
        Some(self.plant_from.likely?.max(today))
    }
}

/// Every way that applies to the bed, the easiest first.
pub fn ways(course: &Course<'_>, today: NaiveDate) -> Vec<Way> {
    What::ALL.iter().filter_map(|what| way(*what, course, today)).collect()
}

/// The way to take: none if nothing saves a week; else the easiest of those that end soonest.
///
/// Planting through the mulch is a way, not a wait, so it is taken wherever nothing else holds.
pub fn best(ways: &[Way], waiting: Range, today: NaiveDate) -> Option<Way> {
    let saves = |way: &&Way| {
        let Some(from) = way.from(today) else { return false };
        way.what == What::ThroughTheTop
            || waiting.likely.is_none_or(|wait| WORTH_DAYS <= (wait - from).num_days())
    };
    let soonest = ways.iter().filter(saves).filter_map(|way| way.from(today)).min()?;
    let as_good = soonest.checked_add_days(Days::new(AS_GOOD_DAYS))?;
    ways.iter().filter(saves).find(|way| way.from(today).is_some_and(|from| from <= as_good)).copied()
}

/// One way, if it applies.
fn way(what: What, course: &Course<'_>, today: NaiveDate) -> Option<Way> {
    let on_top = course.placement == Placement::OnTop;
    let sowing = course.next.plan == Plan::DirectSow;
    let mut changed = *course;
    let mut past: &[Limit] = &[];
    match what {
        What::ThroughTheTop if on_top && !sowing => {}
        What::RakeAStrip if sowing => past = &[Limit::CoarseTrash],
        What::Feed => past = &[Limit::Nitrogen],
        What::FeedAndRake if sowing => past = &[Limit::Nitrogen, Limit::CoarseTrash],
        What::Water if matches!(course.moisture, Moisture::Dry | Moisture::Part) => {
            changed.wetted_on = Some(today);
        }
        What::Transplant if sowing => changed.next.plan = Plan::Transplant,
        What::TransplantAndFeed if sowing => {
            changed.next.plan = Plan::Transplant;
            past = &[Limit::Nitrogen];
        }
        What::LiftToTop if !on_top && (today - course.laid).num_days() <= CAN_BE_LIFTED_DAYS => {
            changed.placement = Placement::OnTop;
            // Lifted out, it is parted or raked aside where the crop goes in.
            past = &[Limit::CoarseTrash];
        }
        _ => return None,
    }
    let limits = changed.limits(&changed.run());
    let gone = |limit: &Limit| past.contains(limit);
    // A way that takes away what did not hold is no way.
    let helps = past.is_empty()
        || what == What::LiftToTop
        || past.iter().all(|limit| holds(&limits, *limit, course.laid));
    let remaining: Vec<_> = limits.into_iter().filter(|(limit, _)| !gone(limit)).collect();
    let plant_from = all_past(&remaining, course.laid);
    // The mulch is planted through only where nothing else is waited for.
    let waits = plant_from.likely.is_none_or(|likely| today < likely);
    (helps && !(what == What::ThroughTheTop && waits)).then_some(Way { what, plant_from })
}

/// Whether a limit is waited for at all.
fn holds(limits: &[(Limit, Option<Range>)], limit: Limit, laid: NaiveDate) -> bool {
    limits.iter().any(|(one, range)| *one == limit && range.is_some_and(|range| range.likely != Some(laid)))
}
