//! Ways round the wait: what can be done so that the bed is planted sooner, and what each changes.

use chrono::{Days, NaiveDate};

use super::{
    balance::Placement,
    clock::{Moisture, Speed},
    course::Course,
    feeding::can_be_fed,
    limits::{Limit, Plan, all_past},
};
use crate::{given::words, time::Range};

/// A way round is worth telling as the verdict if it saves a week.
const WORTH_DAYS: i64 = 7;

/// Of ways that end within these days of each other the easier is taken.
const AS_GOOD_DAYS: u64 = 3;

/// Residue dug in longer ago than this can't be raked out any more: soft greens, and what is dry and
/// tough. Common practice.
const CAN_BE_LIFTED_DAYS: (i64, i64) = (3, 14);

/// A fork finds it while so much of it can be recognised. Common practice.
const FORK_FINDS: f64 = 0.5;

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
        /// Fork most of it out as a mulch, and give the nitrogen that what stays holds.
        LiftMost = "lift-most",
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

/// Every way that gets the bed planted sooner than `waiting`, the easiest first.
pub fn ways(course: &Course<'_>, waiting: Range, today: NaiveDate) -> Vec<Way> {
    let sooner = |way: &Way| {
        let from = way.from(today);
        way.what == What::ThroughTheTop
            || from.is_some_and(|from| waiting.likely.is_none_or(|wait| from < wait))
    };
    let mut ways: Vec<Way> = Vec::new();
    for way in What::ALL.iter().filter_map(|what| way(*what, course, today)).filter(sooner) {
        // Two things at once are no way where one of them does as well.
        let in_vain = way.what.parts().iter().any(|part| {
            let alone = ways.iter().find(|other| other.what == *part);
            alone.is_some_and(|alone| alone.from(today) <= way.from(today))
        });
        if !in_vain {
            ways.push(way);
        }
    }
    ways
}

impl What {
    /// The ways that it is made of.
    fn parts(self) -> &'static [Self] {
        match self {
            Self::FeedAndRake => &[Self::Feed, Self::RakeAStrip],
            Self::TransplantAndFeed => &[Self::Feed, Self::Transplant],
            _ => &[],
        }
    }
}

/// The way to take: none if nothing saves a week; else the easiest of those that end soonest.
///
/// Planting through the mulch is a way, not a wait, so it is taken wherever nothing else holds.
pub fn best(ways: &[Way], waiting: Range, today: NaiveDate) -> Option<Way> {
    let saves = |way: &&Way| {
        let Some(from) = way.from(today) else {
            return false;
        };
        way.what == What::ThroughTheTop
            || waiting.likely.is_none_or(|wait| WORTH_DAYS <= (wait - from).num_days())
    };
    let soonest = ways.iter().filter(saves).filter_map(|way| way.from(today)).min()?;
    let as_good = soonest.checked_add_days(Days::new(AS_GOOD_DAYS))?;
    ways.iter()
        .filter(saves)
        .find(|way| way.from(today).is_some_and(|from| from <= as_good))
        .copied()
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
        What::Transplant if sowing && course.next.can_be_set => {
            changed.next.plan = Plan::Transplant
        }
        What::TransplantAndFeed if sowing && course.next.can_be_set => {
            changed.next.plan = Plan::Transplant;
            past = &[Limit::Nitrogen];
        }
        What::LiftMost if !on_top && can_be_forked_out(course, today) => {
            // What is forked out lies aside of where the crop goes in.
            past = &[Limit::Nitrogen, Limit::CoarseTrash];
        }
        What::LiftToTop if !on_top && can_be_lifted(course, today) => {
            changed.placement = Placement::OnTop;
            // Lifted out, it is parted or raked aside where the crop goes in.
            past = &[Limit::CoarseTrash];
        }
        _ => return None,
    }
    let run = changed.run();
    let can_be_fed = can_be_fed(course.to_add(&run, today));
    if past.contains(&Limit::Nitrogen) && can_be_fed == (what == What::LiftMost) {
        return None;
    }
    let limits = changed.limits(&run);
    let remaining: Vec<_> = limits.into_iter().filter(|(limit, _)| !past.contains(limit)).collect();
    let plant_from = all_past(&remaining, course.laid);
    // The mulch is planted through only where nothing else is waited for.
    let waits = plant_from.likely.is_none_or(|likely| today < likely);
    (!(what == What::ThroughTheTop && waits)).then_some(Way { what, plant_from })
}

/// Whether enough of it keeps its shape for a fork to find it.
fn can_be_forked_out(course: &Course<'_>, today: NaiveDate) -> bool {
    let run = course.run();
    run.rotting.age_on(today, Speed::Likely) < run.visible.unseen_age_at(FORK_FINDS)
}

fn can_be_lifted(course: &Course<'_>, today: NaiveDate) -> bool {
    let (soft, tough) = CAN_BE_LIFTED_DAYS;
    (today - course.laid).num_days() <= if course.load.green { soft } else { tough }
}
