//! What stands between a covered bed and the next crop: its limits, each with its own range of days.
//!
//! Days are calendar days unless said; "warm days" are days at 15 °C in soil at least partly damp.
//! Where a wait is published as a range, its ends are the early and the late day; single figures
//! and whatever has no source below are common practice.
//!
//! - Nitrogen: see [`balance`](super::balance). 1 g/m2 does not matter to a vegetable that takes up
//!   10 to 20 g/m2 (design choice); a transplant brings enough for twice that (common practice).
//! - Seedling rot: N. J. Grünwald, S. Hu, A. H. C. van Bruggen, *European Journal of Plant Pathology*
//!   106, 2000, 37-50: after oats and vetch dug in *Pythium* grew best at once and was down by three
//!   weeks, *Rhizoctonia* peaked at about 20 days and was down two weeks later.
//! - Toxins: D. R. Mason-Sedun, R. S. Jessop, *Plant and Soil* 107, 1988, 69-80 (abstract; authors
//!   from memory): brassica toxins faded after 20 to 40 days at 20 to 24 °C, that is 38 to 76 warm
//!   days; rye two to four weeks in extension advice; Adhikari et al., *American Journal of Plant
//!   Sciences* 9, 2018, 685-700: fine seed four weeks after rye still lost 35 to 64 % of its
//!   seedlings; broccoli waste set back cauliflower most (HortScience conference abstract 345).
//! - Seed maggot: UC IPM, two weeks at least, and out of a peak of flight.
//! - Coarse trash and slugs: common practice; one slug a trap is the line of damage for small oilseed
//!   rape (AHDB).

use chrono::{Days, NaiveDate};
use uom::si::{areal_mass_density::gram_per_square_meter, f64::ArealMassDensity};

use super::{
    balance::{CarbonToNitrogen, Placement, RotAge},
    check_in::VisibleRate,
    clock::{Clock, Speed},
    course::followed,
};
use crate::{given::words, time::Range};

words! {
    /// What there is to wait for.
    pub enum Limit {
        /// Nitrogen held by the rotting.
        Nitrogen = "nitrogen",
        /// Fungi that rot seedlings, fed by fresh residue.
        SeedlingRot = "seedling-rot",
        /// Substances from the residue that hinder seeds and roots.
        Toxins = "toxins",
        /// Seed maggot flies, drawn by rotting greens.
        SeedMaggot = "seed-maggot",
        /// Pieces too coarse to sow among.
        CoarseTrash = "coarse-trash",
        /// Slugs under the cover.
        Slugs = "slugs",
        /// Raw manure: it burns, and what is eaten must not be picked soon after.
        RawManure = "raw-manure",
        /// A thick wet mat that rots without air.
        WetMat = "wet-mat",
        /// The crop's own season.
        Season = "season",
    }
}

words! {
    /// How the next crop goes in.
    pub enum Plan {
        /// As young plants with their roots in soil.
        Transplant = "transplant" => "young plants",
        /// As seed, where it is to grow.
        DirectSow = "direct-sow" => "seeds, sown in the bed",
    }
}

impl Plan {
    /// Nitrogen held that does it no harm, g/m2.
    pub(super) fn bears_g_per_m2(self) -> f64 {
        match self {
            Self::DirectSow => 1.0,
            Self::Transplant => 2.0,
        }
    }
}

/// The next crop, as far as the limits know it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Next {
    /// How it goes in.
    pub plan: Plan,
    /// It can be raised elsewhere and set as young plants.
    pub can_be_set: bool,
    /// Its seed is fine, as of carrot, lettuce or onion.
    pub fine_seed: bool,
    /// It is of the cabbage family.
    pub brassica: bool,
    /// Seed maggots eat its seed: bean, pea, corn, squash, melon, onion, spinach, the cabbage family.
    pub maggots_eat: bool,
    /// Its seedlings rot off easily, and have done so in this bed: bean, lettuce, the cabbage family.
    pub rots_here: bool,
}

/// A figure with the ends that are still reasonable.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends<T> {
    /// The lowest reasonable.
    pub low: T,
    /// The likely one.
    pub likely: T,
    /// The highest reasonable.
    pub high: T,
}

/// What lies on or in the bed, taken together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// C:N of the mixture.
    pub ratio: Ends<CarbonToNitrogen>,
    /// Carbon laid on the ground.
    pub carbon: Ends<ArealMassDensity>,
    /// Some of it is fresh and green.
    pub green: bool,
    /// Some of it is of the cabbage family.
    pub brassica: bool,
    /// Some of it is green rye.
    pub rye: bool,
    /// All of it lies in small pieces.
    pub fine: bool,
}

/// Something found at the bed that says more than any clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sign {
    /// The day it was found.
    pub on: NaiveDate,
    /// What it was.
    pub what: SignOf,
}

/// What a sign can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SignOf {
    /// Seeds came up in a jar of bed soil as well as in plain mix.
    SeedsThrive,
    /// They did not.
    SeedsFail,
    /// It smells sour, of ammonia or of rotten cabbage.
    Foul,
}

/// Slugs counted under a trap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slugs {
    /// The day of counting.
    pub on: NaiveDate,
    /// Slugs in a trap after one night, the mean of several traps.
    pub per_trap: f64,
}

/// Tells, of a day, when the peak of maggot flight in which it lies is over; `None` outside a peak.
pub type Flight<'a> = dyn Fn(NaiveDate) -> Option<NaiveDate> + 'a;

/// A bed to be planted, as the limits see it.
#[derive(Clone, Copy)]
pub struct Waiting<'a> {
    /// What was laid.
    pub load: Load,
    /// Where it lies.
    pub placement: Placement,
    /// Share of the rate that its touch with the soil leaves it.
    pub touch: f64,
    /// What comes next.
    pub next: Next,
    /// How fast it rots.
    pub rotting: &'a Clock,
    /// Warmth alone, held back only by drought, for waits seen in fields.
    pub warmth: &'a Clock,
    /// The rate at which it becomes unrecognisable.
    pub visible: VisibleRate,
    /// What was found at the bed.
    pub signs: &'a [Sign],
    /// Slugs, if they were counted.
    pub slugs: Option<Slugs>,
    /// Peaks of maggot flight, where the climate is known.
    pub flight: Option<&'a Flight<'a>>,
}

impl Waiting<'_> {
    /// Every limit with its range: the day the residue was laid where there is nothing to wait for,
    /// `None` where nothing is known.
    pub fn limits(&self) -> Vec<(Limit, Option<Range>)> {
        vec![
            (Limit::Nitrogen, Some(self.nitrogen())),
            (Limit::SeedlingRot, Some(self.heed_signs(self.seedling_rot(), true))),
            (Limit::Toxins, Some(self.heed_signs(self.toxins(), false))),
            (Limit::SeedMaggot, Some(self.seed_maggot())),
            (Limit::CoarseTrash, Some(self.coarse_trash())),
            (Limit::Slugs, self.slugs()),
        ]
    }

    /// Until the nitrogen still to be held no longer matters.
    fn nitrogen(&self) -> Range {
        let matters = self.next.plan.bears_g_per_m2();
        let Ends { low, likely, high } = self.load.ratio;
        let carbon = self.load.carbon;
        let when = |ratio, carbon: ArealMassDensity, speed| {
            // On top only its underside takes any, away from the roots.
            if self.placement == Placement::OnTop || !holds_nitrogen(ratio, self.placement) {
                return Some(self.laid());
            }
            let debt = matters / carbon.get::<gram_per_square_meter>();
            self.rotting
                .reaches(followed(ratio, self.placement, self.touch).owes_less_than(debt)?, speed)
        };
        Range {
            early: when(low, carbon.low, Speed::Fast),
            likely: when(likely, carbon.likely, Speed::Likely),
            late: when(high, carbon.high, Speed::Slow),
        }
    }

    fn seedling_rot(&self) -> Range {
        match (self.placement, self.next.plan) {
            // The row is raked bare for sowing, and a root ball stands above the mat.
            (Placement::OnTop, _) => self.nothing(),
            (Placement::WorkedIn, Plan::Transplant) => self.calendar(5, 7, 14),
            (Placement::WorkedIn, Plan::DirectSow) if self.next.rots_here => {
                self.warmth.mild_range(21, 35, 42)
            }
            (Placement::WorkedIn, Plan::DirectSow) => self.warmth.mild_range(14, 21, 35),
        }
    }

    fn toxins(&self) -> Range {
        let load = self.load;
        let warm_days = match (self.placement, self.next.plan) {
            (Placement::OnTop, Plan::DirectSow) if load.rye && self.next.fine_seed => {
                Some([21.0, 30.0, 42.0])
            }
            (Placement::OnTop, _) => None,
            (Placement::WorkedIn, Plan::DirectSow) => {
                let brassica = match (load.brassica, self.next.brassica) {
                    (false, _) => None,
                    (true, false) => Some([20.0, 30.0, 76.0]),
                    (true, true) => Some([30.0, 38.0, 76.0]),
                };
                let rye = match (load.rye, self.next.fine_seed) {
                    (false, _) => None,
                    (true, false) => Some([14.0, 21.0, 30.0]),
                    (true, true) => Some([35.0, 42.0, 56.0]),
                };
                longer(longer(brassica, rye), load.green.then_some([7.0, 10.0, 14.0]))
            }
            (Placement::WorkedIn, Plan::Transplant) => longer(
                load.brassica.then_some([7.0, 14.0, 30.0]),
                load.rye.then_some([0.0, 7.0, 14.0]),
            ),
        };
        match warm_days.map(|days| days.map(RotAge::days_at_15_c)) {
            None => self.nothing(),
            Some([early, likely, late]) => self.warmth.range(early, likely, late),
        }
    }

    fn seed_maggot(&self) -> Range {
        if self.placement == Placement::OnTop || !self.next.maggots_eat || !self.load.green {
            return self.nothing();
        }
        let wait = match self.next.plan {
            Plan::DirectSow => self.calendar(14, 14, 28),
            Plan::Transplant => return self.calendar(0, 3, 7),
        };
        let past_flight = |date: Option<NaiveDate>| {
            let date = date?;
            Some(self.flight.and_then(|flight| flight(date)).unwrap_or(date))
        };
        Range { likely: past_flight(wait.likely), late: past_flight(wait.late), ..wait }
    }

    fn coarse_trash(&self) -> Range {
        if self.next.plan == Plan::Transplant || self.load.fine {
            // A trowel parts it; what is fine is no hindrance.
            return self.nothing();
        }
        let age = self.visible.unseen_age_at(if self.next.fine_seed { 0.3 } else { 0.5 });
        self.rotting.range(age, age, age)
    }

    fn slugs(&self) -> Option<Range> {
        let slugs = self.slugs?;
        let bearable = match self.next.plan {
            Plan::DirectSow => 1.0,
            Plan::Transplant => 2.0,
        };
        if slugs.per_trap <= bearable || self.placement == Placement::WorkedIn {
            return Some(self.nothing());
        }
        // Two or three nights with the cover lifted, or trapped for a week; nobody can say how long
        // they keep coming.
        let after = |days| slugs.on.checked_add_days(Days::new(days));
        Some(Range { early: after(3), likely: after(7), late: None })
    }

    /// Moves a limit by what was found. A jar of seeds judges rot and toxins together; a foul smell
    /// means rotting without air, which holds up the fading of rots.
    fn heed_signs(&self, range: Range, smell_counts: bool) -> Range {
        self.signs.iter().fold(range, |range, sign| {
            let not_before = |days: [u64; 3]| {
                let [early, likely, late] =
                    days.map(|days| sign.on.checked_add_days(Days::new(days)));
                later(range, Range { early, likely, late })
            };
            match sign.what {
                SignOf::SeedsThrive => sooner(range, on(sign.on)),
                SignOf::SeedsFail => not_before([7, 7, 14]),
                SignOf::Foul if smell_counts => not_before([3, 7, 14]),
                SignOf::Foul => range,
            }
        })
    }

    fn calendar(&self, early: u64, likely: u64, late: u64) -> Range {
        let after = |days| self.laid().checked_add_days(Days::new(days));
        Range { early: after(early), likely: after(likely), late: after(late) }
    }

    fn nothing(&self) -> Range {
        on(self.laid())
    }

    fn laid(&self) -> NaiveDate {
        self.rotting.laid()
    }
}

/// Whether residue of that C:N holds enough nitrogen to matter at any time: below 18 dug in, and
/// below 36 on the surface, it does not (derived from [`starting_thresholds`](super::balance::starting_thresholds)).
pub fn holds_nitrogen(ratio: CarbonToNitrogen, placement: Placement) -> bool {
    let from = match placement {
        Placement::WorkedIn => 18.0,
        Placement::OnTop => 36.0,
    };
    from <= ratio.get()
}

/// The range by which every limit is past.
pub fn all_past(limits: &[(Limit, Option<Range>)], laid: NaiveDate) -> Range {
    limits.iter().filter_map(|(_, range)| *range).fold(on(laid), later)
}

/// The limit that is past last, if any outlasts the day the residue was laid: the likely day
/// decides, then the late one, then the order of the limits.
pub fn binding(limits: &[(Limit, Option<Range>)], laid: NaiveDate) -> Option<Limit> {
    let key = |range: &Range| (never_last(range.likely), never_last(range.late));
    let mut last = None;
    for (limit, range) in limits.iter().filter_map(|(limit, range)| Some((limit, (*range)?))) {
        let waits = Some(laid) != range.likely || Some(laid) != range.late;
        if waits && last.is_none_or(|(_, other)| key(&other) < key(&range)) {
            last = Some((*limit, range));
        }
    }
    last.map(|(limit, _)| limit)
}

/// A date that is certain.
fn on(date: NaiveDate) -> Range {
    Range { early: Some(date), likely: Some(date), late: Some(date) }
}

/// The later of both at each end; a date that never comes is the latest.
fn later(one: Range, other: Range) -> Range {
    let latest = |a: Option<NaiveDate>, b: Option<NaiveDate>| Some(a?.max(b?));
    Range {
        early: latest(one.early, other.early),
        likely: latest(one.likely, other.likely),
        late: latest(one.late, other.late),
    }
}

/// The sooner of both at each end.
fn sooner(one: Range, other: Range) -> Range {
    let soonest = |a: Option<NaiveDate>, b: Option<NaiveDate>| a.into_iter().chain(b).min();
    Range {
        early: soonest(one.early, other.early),
        likely: soonest(one.likely, other.likely),
        late: soonest(one.late, other.late),
    }
}

/// The longer wait at each end.
fn longer(one: Option<[f64; 3]>, other: Option<[f64; 3]>) -> Option<[f64; 3]> {
    match (one, other) {
        (Some([a, b, c]), Some([x, y, z])) => Some([a.max(x), b.max(y), c.max(z)]),
        (one, other) => one.or(other),
    }
}

fn never_last(date: Option<NaiveDate>) -> NaiveDate {
    date.unwrap_or(NaiveDate::MAX)
}
