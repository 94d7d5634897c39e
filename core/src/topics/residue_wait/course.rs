//! The course of one covered bed: its clocks under its own conditions, moved by what was seen.

use chrono::NaiveDate;
use uom::si::f64::ArealMassDensity;

use super::{
    balance::{Balance, CarbonToNitrogen, Placement, RotAge},
    check_in::{Left, Look, VisibleRate},
    clock::{Clock, Moisture, Soil, Speed, Spread, contact},
    feeding,
    limits::{Flight, Limit, Load, Next, Sign, Slugs, Waiting},
};
use crate::time::Range;

/// How far ahead the clocks run: what takes longer than two years is told as never.
const DAYS_AHEAD: u32 = 730;

/// The crop to come is concerned with what happens within a year, here one at 15 °C and damp: a thick
/// mulch rots from below for decades, and feeds on next to nothing meanwhile.
const CONCERN_DAYS: f64 = 365.0;

/// The course of nitrogen as far as it concerns the next crop. `touch` is the share of the rate that a
/// layer's touch with the soil leaves it.
pub fn followed(ratio: CarbonToNitrogen, placement: Placement, touch: f64) -> Balance {
    Balance::new(ratio, placement).followed_to(RotAge::days_at_15_c(CONCERN_DAYS * touch))
}

/// A covered bed and what is to come next, with everything that bears on the wait.
#[derive(Clone, Copy)]
pub struct Course<'a> {
    /// The day the residue was laid.
    pub laid: NaiveDate,
    /// What was laid.
    pub load: Load,
    /// Its dry matter.
    pub dry: ArealMassDensity,
    /// Where it lies.
    pub placement: Placement,
    /// How wet it is.
    pub moisture: Moisture,
    /// From this day on it is kept damp, whatever it was before.
    pub wetted_on: Option<NaiveDate>,
    /// The next crop.
    pub next: Next,
    /// How much could be recognised, and when.
    pub looks: &'a [(NaiveDate, Left)],
    /// What else was found.
    pub signs: &'a [Sign],
    /// Slugs, if they were counted.
    pub slugs: Option<Slugs>,
    /// Soil temperature by date.
    pub soil: &'a Soil<'a>,
    /// Peaks of maggot flight, where the climate is known.
    pub flight: Option<&'a Flight<'a>>,
    /// What else is waited for, whatever rots there.
    pub also: &'a [(Limit, Range)],
}

/// A course run.
#[derive(Clone, Debug)]
pub struct Run {
    /// How fast it rots, moved by what was seen.
    pub rotting: Clock,
    /// Warmth alone, held back only by drought.
    pub warmth: Clock,
    /// The rate at which it becomes unrecognisable.
    pub visible: VisibleRate,
}

impl Course<'_> {
    /// Share of the rate that its touch with the soil leaves it.
    pub fn touch(&self) -> f64 {
        match self.placement {
            Placement::OnTop => contact(self.dry),
            Placement::WorkedIn => 1.0,
        }
    }

    /// Runs the clocks.
    pub fn run(&self) -> Run {
        let touch = self.touch();
        let moisture = |date: NaiveDate| match self.wetted_on {
            Some(wetted) if wetted <= date => Moisture::Moist,
            _ => self.moisture,
        };
        let clock = |share: &dyn Fn(NaiveDate) -> f64, spread| {
            Clock::run(self.laid, DAYS_AHEAD, self.soil, share, spread)
        };
        let unseen = clock(&|date| touch * moisture(date).factor(), Spread::UNSEEN);
        let visible = self.looks.iter().fold(
            VisibleRate::unseen(self.load.ratio.likely, self.placement),
            |rate, (date, left)| {
                rate.after(Look { age: unseen.age_on(*date, Speed::Likely), left: *left })
            },
        );
        let rotting = if visible.looks() == 0 {
            unseen
        } else {
            let moved = visible.against_unseen();
            clock(
                &|date| moved * touch * moisture(date).factor(),
                Spread::of_log_sd(visible.log_sd()),
            )
        };
        let warmth = clock(&|date| moisture(date).against_field(), Spread::NONE);
        Run { rotting, warmth, visible }
    }

    /// Available nitrogen to add on a day so that the next crop lacks none.
    pub fn to_add(&self, run: &Run, on: NaiveDate) -> ArealMassDensity {
        let age = run.rotting.age_on(on, Speed::Likely);
        let load = self.load;
        feeding::to_add(load.ratio.likely, self.placement, load.carbon.likely, self.touch(), age)
    }

    /// Every limit with its range.
    pub fn limits(&self, run: &Run) -> Vec<(Limit, Option<Range>)> {
        let mut limits = Waiting {
            load: self.load,
            placement: self.placement,
            touch: self.touch(),
            next: self.next,
            rotting: &run.rotting,
            warmth: &run.warmth,
            visible: run.visible,
            signs: self.signs,
            slugs: self.slugs,
            flight: self.flight,
        }
        .limits();
        limits.extend(self.also.iter().map(|(limit, range)| (*limit, Some(*range))));
        limits
    }
}
