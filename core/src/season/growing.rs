//! A crop in a place's year.

use chrono::{Duration, NaiveDate};
use uom::si::{frequency::cycle_per_day, time::hour};

use super::{
    course::{Course, Reason, Verdict},
    heat::{Between, lit, of_day, of_days, unlit},
    year::{DAYS, Year, number},
};
use crate::{
    catalogue::{
        Bolts, Crop, Growth, HeatSum, Pick, Span,
        germination::{Germination, of_crop},
    },
    place::{
        air::{celsius, of_celsius},
        nights::Alive,
    },
    quantity::{Temperature, Time},
    time::Range,
};

/// What goes into the ground that day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Seed, where it will grow, or a tuber.
    Sown,
    /// A plant raised elsewhere.
    SetOut,
}

/// Why no course can be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotKnown {
    /// How much warmth the crop needs, started so.
    Growth,
    /// How its seed comes up.
    Emergence,
    /// The latitude, of a crop that goes by the length of the day.
    Latitude,
}

/// A year so much warmer or colder at one day in ten, °C (derived: see [`Course`]).
const ONE_IN_TEN_C: f64 = 1.1;
/// Heat is worked out every so many days, and runs straight between.
const EVERY: usize = 10;
/// No course is followed for longer, days.
const LONGEST: usize = 400;
/// Small until this part of its sum; then the leaves' own figure kills.
const YOUNG: f64 = 0.15;
/// From this part on there is a curd, a flower or a pod to lose.
const PART: f64 = 0.75;
/// From this part on heat spoils what is picked.
const HOT_FROM: f64 = 0.5;
/// It stands still under this part of a good day's growth (derived),
const STILL: f64 = 0.12;
/// and is not set out under this (derived).
const SET_OUT: f64 = 0.3;
/// Soil may be so much under the published figure at setting out, °C (derived from calendars).
const SOIL_C: f64 = 1.5;
/// Seed that takes longer to come up is sown later (common practice), days,
const SLOWEST: f64 = 28.0;
/// unless it is slow by nature (considered).
const SLOWER: f64 = 2.5;
/// Of the best share, as much must come up: less than half, for growers sow melons so (derived).
const SHARE: f64 = 0.4;
/// Days longer than this, hours, and so much heat in them, °C·d over the base, make spinach bolt (University of
/// California IPM, "long days"; both figures derived from calendars).
const LONG_DAYS: (f64, f64) = (14.0, 400.0);
/// A biennial that stood the winter bolts when days are longer and has had so much heat since midwinter
/// (from memory),
const SPRING: (f64, f64) = (13.0, 300.0);
/// if winter was colder than this, °C: 50 °F (University of California IPM, of cole crops).
const WINTER_C: f64 = 10.0;
/// Leaves before bulbs, °C·d of the onion's own sum; it is lifted 1500 later (derived from 17 places: root
/// mean square error 5 days, 10 at most).
const LEAVES: f64 = 600.0;
/// Onions bulb in days longer than this by kind, hours, and the kind is chosen by latitude: short-day
/// kinds below 35°, long-day kinds from 38° on (derived; extension and sellers' maps agree).
const BULBING: [(f64, f64); 3] = [(35.0, 11.0), (38.0, 13.5), (90.0, 14.0)];
/// So likely alive is a yes, and so likely a gamble.
const YES: f64 = 0.7;
const GAMBLE: f64 = 0.4;

/// A crop in a place's year, for any date.
pub struct Growing<'a> {
    year: &'a Year,
    growth: Growth,
    how: How,
    pick: Option<Pick>,
    seed: Option<&'static Germination>,
    /// °C·d to the first picking, of the quickest and the slowest kinds.
    least: f64,
    most: f64,
    /// Growth of a good day, °C·d.
    good: f64,
    /// Growth of each day in a colder, the usual and a warmer year.
    daily: [Vec<f64>; 3],
    young: f64,
    grown: f64,
    part: f64,
    too_hot: f64,
    /// Days must be so long for bulbs.
    bulbing: Option<f64>,
    /// Days to the first picking that are useful.
    useful: usize,
}

/// The usual year run through with the quickest kinds.
struct Run {
    up: Option<usize>,
    first: Option<usize>,
    likely: Option<usize>,
    end: Option<usize>,
    alive: f64,
    alive_at_first: f64,
    still: Option<(usize, usize)>,
    reason: Option<Reason>,
}

impl<'a> Growing<'a> {
    /// That crop there.
    ///
    /// # Errors
    /// Where something it needs is not known.
    pub fn new(year: &'a Year, crop: &Crop, how: How) -> Result<Self, NotKnown> {
        let growth = crop.growth().ok_or(NotKnown::Growth)?;
        let sum = match how {
            How::Sown => growth.sown,
            How::SetOut => growth.set,
        };
        let Span { least, most } = sum.ok_or(NotKnown::Growth)?;
        let (least, most) = (least.celsius_days(), most.celsius_days());
        let seed = of_crop(crop.id()).map(|(kind, _)| kind);
        if how == How::Sown && seed.is_none() && growth.up.is_none() {
            return Err(NotKnown::Emergence);
        }
        let bulbing = match (growth.bulbs, year.latitude) {
            (false, _) => None,
            (true, None) => return Err(NotKnown::Latitude),
            (true, Some(latitude)) => {
                let degrees = latitude.degrees().abs();
                BULBING.iter().find(|(below, _)| degrees <= *below).map(|(_, hours)| *hours)
            }
        };
        let good = good_day(&growth);
        let kills = |at: Option<crate::quantity::Temperature>| at.map(celsius);
        let grown = kills(crop.kill_temperature())
            .unwrap_or_else(|| celsius(crop.hardiness().serious_loss()));
        let part = kills(growth.part_killed_at).unwrap_or(grown).max(grown);
        let to_come_up = if how == How::Sown { 10.0 } else { 0.0 };
        let days = least / good + to_come_up;
        Ok(Self {
            year,
            growth,
            how,
            pick: crop.pick(),
            seed: seed.filter(|_| growth.up.is_none()),
            least,
            most,
            good,
            daily: [-ONE_IN_TEN_C, 0.0, ONE_IN_TEN_C].map(|warmer| daily(year, &growth, warmer)),
            young: celsius(growth.young_killed_at),
            grown,
            part,
            too_hot: growth.too_hot.map_or(f64::INFINITY, celsius),
            bulbing,
            // A useful crop takes less than twice its days and three weeks; one that winters, a year
            // (derived from calendars).
            useful: if growth.winters { 330 } else { (1.9 * days + 20.0) as usize },
        })
    }

    /// The course from a date.
    pub fn course(&self, date: NaiveDate) -> Course {
        let start = number(date);
        let run = self.run(start);
        let on = |days: usize| date + Duration::days(days as i64);
        let [colder, _, warmer] = &self.daily;
        let up = |warmer: f64| self.up(start, warmer);
        let (early_up, late_up) = (up(ONE_IN_TEN_C), up(-ONE_IN_TEN_C));
        let early = early_up.and_then(|up| self.grown(warmer, start, up, self.least));
        let late = late_up.and_then(|up| self.grown(colder, start, up, self.most));
        let verdict = match run.reason {
            None if run.alive >= YES => Verdict::Yes,
            None => Verdict::Gamble,
            Some(reason) if self.year.warms(start) != reason.is_heat() => Verdict::TooEarly,
            Some(_) => Verdict::TooLate,
        };
        // Above the best, warmer soil is slower.
        let ends = [early_up, run.up, late_up];
        let known = || ends.iter().flatten().copied();
        Course {
            started: date,
            up: Range {
                early: run.up.and(known().min()).map(on),
                likely: run.up.map(on),
                late: run.up.and(late_up).and(early_up).and(known().max()).map(on),
            },
            first: Range {
                early: run.likely.map(|likely| on(early.unwrap_or(likely).min(likely))),
                likely: run.likely.map(on),
                late: late.zip(run.likely).map(|(late, likely)| on(late.max(likely))),
            },
            end: run.end.map(on),
            alive_at_first: run.alive_at_first,
            alive: run.alive,
            still: run.still.map(|(from, to)| (on(from), on(to))),
            reason: run.reason,
            verdict,
        }
    }

    /// Whether it may go in that day by the chance that one risks: 0.5 for seed, which costs little,
    /// 0.7 for plants (considered).
    pub fn goes(&self, date: NaiveDate) -> bool {
        let start = number(date);
        // Most days of a year fail by their soil alone, which is soon asked.
        if self.soil(start, self.up(start, 0.0)).is_some() {
            return false;
        }
        let run = self.run(start);
        run.reason.is_none() && run.alive >= self.nerve()
    }

    /// The air that kills it on a day, started on another: of seedlings, of grown plants, of a head, a flower
    /// or a pod, each by the share of warmth it has had in the usual year.
    pub fn killed_below(&self, started: NaiveDate, on: NaiveDate) -> Temperature {
        of_celsius(self.limit(self.grown_by(started, on)))
    }

    /// Whether it has come so far that there is a head, a flower or a pod to lose.
    pub fn bears_its_part(&self, started: NaiveDate, on: NaiveDate) -> bool {
        self.grown_by(started, on) >= PART * self.least
    }

    /// Degree-days that it has grown by a day, started on another.
    fn grown_by(&self, started: NaiveDate, on: NaiveDate) -> f64 {
        let start = number(started);
        let days = usize::try_from((on - started).num_days()).unwrap_or(0).min(LONGEST);
        let Some(up) = self.up(start, 0.0).filter(|up| *up <= days) else { return 0.0 };
        let [_, usual, _] = &self.daily;
        let grown = self.year.from(start + up).zip(usual.iter().cycle().skip((start + up) % DAYS));
        let grown = grown.take(days - up);
        grown.fold(0.0, |sum, ((_, day), growth)| self.plus(sum, *growth, day.hours))
    }

    /// What kills it so far grown, °C.
    fn limit(&self, grown: f64) -> f64 {
        if grown < YOUNG * self.least {
            self.young
        } else if grown < PART * self.least {
            self.grown
        } else {
            self.part
        }
    }

    fn nerve(&self) -> f64 {
        match self.how {
            How::Sown => 0.5,
            How::SetOut => YES,
        }
    }

    /// Days from the start until it is up.
    fn up(&self, start: usize, warmer: f64) -> Option<usize> {
        if self.how == How::SetOut {
            return Some(0);
        }
        let base = celsius(self.growth.base);
        let whole = self.growth.up.map_or(1.0, HeatSum::celsius_days);
        let mut gone = 0.0;
        for (days, (_, day)) in self.year.from(start).take(LONGEST).enumerate() {
            gone += match self.seed {
                Some(seed) => seed.rate(of_celsius(day.seed_soil + warmer)).get::<cycle_per_day>(),
                None => (day.root_soil + warmer - base).max(0.0),
            };
            if gone >= whole {
                return Some(days + 1);
            }
        }
        None
    }

    /// Days from the start until so much has grown.
    fn grown(&self, daily: &[f64], start: usize, up: usize, sum: f64) -> Option<usize> {
        let mut grown = 0.0;
        let days = self.year.from(start + up).zip(daily.iter().cycle().skip((start + up) % DAYS));
        for (days, ((_, day), growth)) in days.take(LONGEST.saturating_sub(up)).enumerate() {
            grown = self.plus(grown, *growth, day.hours);
            if grown >= sum {
                return Some(up + days + 1);
            }
        }
        None
    }

    /// One more day's growth; an onion with its leaves waits for days long enough.
    fn plus(&self, grown: f64, growth: f64, hours: Option<f64>) -> f64 {
        match (self.bulbing, hours) {
            (Some(bulbing), Some(hours)) if grown <= LEAVES && hours < bulbing => {
                (grown + growth).min(LEAVES)
            }
            _ => grown + growth,
        }
    }

    /// Why it can't be started in that soil.
    fn soil(&self, start: usize, up: Option<usize>) -> Option<Reason> {
        let (_, day) = self.year.from(start).next()?;
        if self.how == How::SetOut {
            let limit = self.growth.soil.filter(|soil| day.root_soil < celsius(*soil) - SOIL_C);
            let soil = of_celsius(day.root_soil);
            return limit.map(|limit| Reason::SoilCold { soil, limit }).or_else(|| {
                let [_, usual, _] = &self.daily;
                let growth: f64 = usual.iter().cycle().skip(start).take(14).sum();
                (growth < 14.0 * SET_OUT * self.good).then_some(Reason::StandsStill)
            });
        }
        let seed = self.seed?;
        let soil = of_celsius(day.seed_soil);
        let (from, to) = seed.optimum_range();
        let within = seed.minimum() <= soil && soil <= seed.maximum();
        let best = 1.0 / seed.best_rate().get::<cycle_per_day>();
        let quick = up.is_some_and(|days| (days as f64) <= SLOWEST.max(SLOWER * best));
        let days = up.unwrap_or(30).clamp(1, 30);
        let over = self.year.from(start).take(days);
        let share: f64 = over.map(|(_, day)| seed.share(of_celsius(day.seed_soil))).sum();
        let many = share / days as f64 >= SHARE * seed.best_share();
        if within && quick && many {
            None
        } else if soil < seed.optimum() {
            Some(Reason::TooColdToComeUp { soil, limit: from })
        } else {
            Some(Reason::TooHotToComeUp { soil, limit: to })
        }
    }

    /// The usual year from a day on.
    fn run(&self, start: usize) -> Run {
        let up = self.up(start, 0.0);
        let mut run = Run {
            up,
            first: None,
            likely: None,
            end: None,
            alive: 0.0,
            alive_at_first: 0.0,
            still: None,
            reason: self.soil(start, up),
        };
        if let Some(up) = up {
            self.follow(&mut run, start, up);
        }
        let useful = run.first.is_some_and(|first| first <= self.useful);
        let late = run.reason.or((!useful).then_some(Reason::NeverThere));
        run.reason = late.or((run.alive < GAMBLE).then_some(Reason::Killed { alive: run.alive }));
        run
    }

    /// Grows it day by day and asks every night.
    fn follow(&self, run: &mut Run, start: usize, up: usize) {
        let usual = 0.5 * (self.least + self.most);
        let (long_hours, long_growth) =
            if self.growth.bolts == Some(Bolts::Spring) { SPRING } else { LONG_DAYS };
        // Three weeks of what bears on, one of what is taken at once.
        let picking = if self.pick == Some(Pick::Repeat) { 21 } else { 7 };
        let mut alive = Alive::default();
        let (mut grown, mut hot, mut hot_days, mut long) = (0.0, 0.0, 0.0, 0.0);
        let mut wintered = false;
        let [_, daily, _] = &self.daily;
        let start_up = start + up;
        let days = self.year.from(start_up % DAYS).zip(daily.iter().cycle().skip(start_up % DAYS));
        for (days, ((number, day), growth)) in days.take(LONGEST.saturating_sub(up)).enumerate() {
            let days = up + days + 1;
            grown = self.plus(grown, *growth, day.hours);
            alive.night(&self.year.nights, self.limit(grown), day.low, day.sd);

            let hours = day.hours.unwrap_or_default();
            let heat = match day.radiation {
                Some(radiation) if self.growth.light => unlit(*growth, radiation),
                _ => *growth,
            };
            match self.growth.bolts {
                Some(Bolts::LongDays) if hours > long_hours => long += heat,
                Some(Bolts::Spring) => {
                    wintered |= number == self.year.coldest && day.mean() < WINTER_C;
                    if wintered {
                        long += heat;
                    }
                }
                _ => {}
            }
            let bolts = long > long_growth && hours > long_hours;

            if run.first.is_none() {
                if *growth < STILL * self.good {
                    run.still = Some((run.still.map_or(days, |(from, _)| from), days));
                }
                if grown >= HOT_FROM * self.least {
                    hot += day.mean();
                    hot_days += 1.0;
                }
                if bolts && run.reason.is_none() {
                    run.reason = Some(Reason::Bolts { days: Time::new::<hour>(long_hours) });
                }
                if grown >= self.least {
                    run.first = Some(days);
                    let mean = hot / hot_days;
                    if mean > self.too_hot && run.reason.is_none() {
                        let (mean, limit) = (of_celsius(mean), of_celsius(self.too_hot));
                        run.reason = Some(Reason::TooHot { mean, limit });
                    }
                }
            }
            if run.first.is_some_and(|first| days <= first + picking) {
                run.alive = alive.chance();
            }
            if run.likely.is_none() && grown >= usual {
                run.likely = Some(days);
                run.alive_at_first = alive.chance();
            }
            if run.likely.is_some() {
                let over = bolts || day.mean() > self.too_hot || alive.chance() < 0.5;
                if over && run.end.is_none() {
                    run.end = Some(days);
                }
                if run.end.is_some() && run.first.is_some_and(|first| days > first + picking) {
                    break;
                }
            }
        }
    }
}

/// Growth of a good day, °C·d: 9 to 21 °C and 18 MJ/m² for cool crops, 15 to 28 °C and 20 for warm
/// ones, 19 to 31 °C and 22 for those of the tropics. The sums of the catalogue are days times this.
fn good_day(growth: &Growth) -> f64 {
    let between = between(growth);
    let (low, high, radiation) = match between {
        Between { base, .. } if base >= 14.0 => (19.0, 31.0, 22.0),
        Between { cap, .. } if cap > 26.0 => (15.0, 28.0, 20.0),
        _ => (9.0, 21.0, 18.0),
    };
    let heat = of_day(low, high, between);
    if growth.light { lit(heat, radiation) } else { heat }
}

fn between(growth: &Growth) -> Between {
    Between { base: celsius(growth.base), cap: celsius(growth.cap) }
}

/// Growth of each day of the year, °C·d, in a year warmer by so much.
fn daily(year: &Year, growth: &Growth, warmer: f64) -> Vec<f64> {
    let between = between(growth);
    let mut knots = year.from(0).take(DAYS).step_by(EVERY).map(|(_, day)| {
        let heat = of_days(day.low + warmer, day.high + warmer, day.sd, between);
        match day.radiation {
            Some(radiation) if growth.light => lit(heat, radiation),
            _ => heat,
        }
    });
    let first = knots.next().unwrap_or_default();
    let (mut days, mut before) = (Vec::with_capacity(DAYS), first);
    for after in knots.chain([first]) {
        // The last stretch is the shorter one that closes the year.
        let length = EVERY.min(DAYS - days.len());
        for day in 0..length {
            let part = day as f64 / length as f64;
            days.push(before + part * (after - before));
        }
        before = after;
    }
    days
}
