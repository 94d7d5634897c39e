//! The days of a tray until it is used to outdoors: what was done, and what is still to do.

use chrono::{Days, NaiveDate};
use uom::si::{temperature_interval::degree_fahrenheit as degrees_f, time::hour};

use super::hardening::{
    Limits, Night, Out, Progress, Step, Sun, TOUGH, Today, Weather, Why, days, is_warm_spell,
    next_step,
};
use crate::{
    catalogue::Hardening,
    frost::expected::above,
    given::words,
    quantity::{Temperature, TemperatureInterval, Time},
    words::sky::{Sky, Wind},
};

words! {
    /// Where a tray was raised.
    pub enum Raised {
        /// In a heated house.
        HeatedHouse = "heated-house" => "in the warm",
        /// In a greenhouse or frame without heat.
        UnheatedGreenhouse = "unheated-greenhouse" => "in a greenhouse without heat",
        /// Outdoors.
        Outdoors = "outdoors" => "outdoors",
    }
}

words! {
    /// How it is got used to outdoors.
    pub enum Way {
        /// A little longer every day.
        DayByDay = "day-by-day",
        /// Out for a week in shelter, under a sheet.
        OneMove = "one-move" => "one move, a week in shelter",
    }
}

/// A day and the night after it, forecast or usual.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Air {
    /// The high of the day.
    pub high: Option<Temperature>,
    /// The low of the night after.
    pub low: Option<Temperature>,
    /// The wind.
    pub wind: Option<Wind>,
    /// The sky.
    pub sky: Option<Sky>,
    /// Hail or hard rain.
    pub hard_rain: bool,
}

impl Air {
    /// The coldest air while a tray is out for that long, where high and low are known: a quarter of the
    /// range below the high around midday, half of it from morning to evening (considered).
    pub(crate) fn while_out(&self, out: Out) -> Option<Temperature> {
        let high = self.high?;
        let range = self
            .low
            .filter(|low| *low < high)
            .map_or(TemperatureInterval::new::<degrees_f>(0.0), |low| above(high, low));
        Some(match out {
            Out::Hours(_) => high - range / 4.0,
            Out::Daylight | Out::DayAndNight => high - range / 2.0,
        })
    }
}

/// A day that was done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Done {
    /// The day.
    pub date: NaiveDate,
    /// How long the tray was out.
    pub out: Time,
    /// Whether it was hurt.
    pub hurt: bool,
    /// Whether the day or its night was cold enough to toughen it.
    pub cold: bool,
}

/// The tray and its way.
#[derive(Clone, Debug, PartialEq)]
pub struct Tray<'a> {
    /// What the crop takes.
    pub limits: Limits,
    /// Where it was raised.
    pub raised: Raised,
    /// Under lamps, so that it knows no sun at all.
    pub under_lamps: bool,
    /// Lows it lived through where it was raised, in order of time.
    pub lows_before: &'a [Temperature],
    /// How it is done.
    pub way: Way,
    /// The first day.
    pub start: NaiveDate,
    /// Days done, in order.
    pub done: &'a [Done],
    /// Today: days before it that are not among the done were missed.
    pub today: NaiveDate,
}

/// One day to come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Day {
    /// The day.
    pub date: NaiveDate,
    /// How long out; `None` on a day in.
    pub step: Option<Step>,
    /// What makes it differ from the schedule.
    pub why: Option<Why>,
    /// The night after.
    pub night: Night,
    /// Whether it counts.
    pub counts: bool,
    /// How many days of how many are behind it then.
    pub progress: Progress,
}

/// The days to come, and when it is ready.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Each day from today or the start on.
    pub days: Vec<Day>,
    /// How far it is today.
    pub now: Progress,
    /// Days it takes in all.
    pub of: u32,
    /// The first day on which it can be planted; `None` where the weather known never lets it get there.
    pub ready: Option<NaiveDate>,
    /// How many days in a row were missed up to today.
    pub missed: u32,
    /// Whether the nights stay too cold for it to be left out before it is planted.
    pub nights_too_cold: bool,
}

/// Of the days with light that greenhouse plants are spared: glass has given part of it (considered).
const GLASS_COUNTS: f64 = 0.3;
/// Days of a hardy plant from a greenhouse without heat (common practice).
const HARDY_FROM_GLASS_DAYS: u32 = 3;
/// Days of a one-move week, and of the longer one of tender kinds and of plants from under lamps.
const ONE_MOVE_DAYS: (u32, u32) = (7, 10);
/// The last days of it, with the sheet off by day.
const SHEET_OFF_DAYS: u32 = 2;
/// The longest that is planned ahead, days.
const LONGEST_DAYS: u32 = 60;
/// So many days beyond the schedule a tray waits for nights in which it can stay out.
const WAITS_DAYS: u32 = 7;

impl Tray<'_> {
    /// How many days it takes in all.
    pub fn days_in_all(&self) -> u32 {
        match (self.raised, self.way) {
            (Raised::Outdoors, _) => 0,
            (Raised::UnheatedGreenhouse, _) if self.is_half_way() => HARDY_FROM_GLASS_DAYS,
            (_, Way::DayByDay) => days(self.limits.class, self.under_lamps),
            (_, Way::OneMove) => {
                let long = self.under_lamps
                    || matches!(self.limits.class, Hardening::Tender60 | Hardening::Tender65);
                if long { ONE_MOVE_DAYS.1 } else { ONE_MOVE_DAYS.0 }
            }
        }
    }

    /// A hardy plant from a greenhouse without heat: its nights were as cold as those outdoors.
    fn is_half_way(&self) -> bool {
        self.limits.class == Hardening::Hardy && !self.under_lamps
    }

    /// What it brings along: part of the light from glass, and the cold it lived through.
    fn at_first(&self) -> Progress {
        let of = f64::from(self.days_in_all());
        let glass =
            self.raised == Raised::UnheatedGreenhouse && !self.under_lamps && !self.is_half_way();
        let light = if glass { (of * GLASS_COUNTS).floor() as u32 } else { 0 };
        let mut progress = Progress { light, cold: 0 };
        for low in self.lows_before {
            progress = self.after_low(progress, *low);
        }
        progress
    }

    /// After a night at this low where the tray stands: what it lives through below the mark toughens it too.
    fn after_low(&self, progress: Progress, low: Temperature) -> Progress {
        let lived_through = self.limits.toughens(low) || low < self.limits.lowest_air;
        if is_warm_spell(low) {
            progress.after_warm_day()
        } else if lived_through {
            progress.after_cold()
        } else {
            progress
        }
    }

    /// After a day and night not out: in a heated house the cold it had learned is lost.
    fn after_day_in(&self, progress: Progress) -> Progress {
        if self.raised == Raised::HeatedHouse { progress.after_warm_day() } else { progress }
    }

    fn step(&self, light: u32) -> Step {
        let of = self.days_in_all();
        match self.way {
            Way::DayByDay => next_step(light, of),
            Way::OneMove => Step {
                out: Out::DayAndNight,
                sun: if light + SHEET_OFF_DAYS >= of { Sun::Full } else { Sun::Dappled },
                night: true,
            },
        }
    }

    /// The plan from today on, by what is known of the air of each day.
    ///
    /// Ready after as many days as it takes and, day by day, after two nights out running (tender kinds:
    /// one) unless the cold before has done the same.
    pub fn plan(
        &self,
        air: &dyn Fn(NaiveDate) -> Air,
        daylight: &dyn Fn(NaiveDate) -> Time,
    ) -> Plan {
        let of = self.days_in_all();
        let (mut progress, missed) = self.so_far(daylight);
        let now = progress;
        let mut plan =
            Plan { days: Vec::new(), now, of, ready: None, missed, nights_too_cold: false };
        if of == 0 {
            plan.ready = Some(self.today.max(self.start));
            return plan;
        }
        let tender = !matches!(self.limits.class, Hardening::Hardy | Hardening::HalfHardy);
        let nights_wanted = if tender { 1 } else { 2 };
        let (mut waited, mut held) = (0, 0);
        let mut date = self.today.max(self.start);
        if self.done.iter().any(|done| done.date == date) {
            date = next(date);
        }
        let mut nights = self.nights_out(date);
        for _ in 0..LONGEST_DAYS {
            let lights = progress.light >= of;
            let nights_done =
                nights >= nights_wanted || progress.cold >= TOUGH || self.way == Way::OneMove;
            if lights && (nights_done || waited >= WAITS_DAYS) {
                // What would be waited for in vain is not waited for.
                let in_vain = if nights_done { 0 } else { waited };
                plan.days.truncate(plan.days.len() - in_vain as usize);
                plan.ready = date.checked_sub_days(Days::new(in_vain.into()));
                plan.nights_too_cold = !nights_done;
                break;
            }
            waited += u32::from(lights);
            let day = self.day(date, progress, &air(date), daylight(date));
            nights = if day.night == Night::In { 0 } else { nights + 1 };
            if day.counts {
                held = 0;
            } else {
                held += 1;
            }
            progress = day.progress;
            if held > 0 && held % 2 == 0 {
                progress = progress.after_missed(2);
            }
            plan.days.push(day);
            date = next(date);
        }
        plan
    }

    /// How many nights running it was left out unhurt, up to this day.
    fn nights_out(&self, until: NaiveDate) -> u32 {
        let all_night = |date| {
            let done = self.done.iter().find(|done| done.date == date);
            done.is_some_and(|done| !done.hurt && done.out.get::<hour>() > 23.5)
        };
        let before = std::iter::successors(until.pred_opt(), NaiveDate::pred_opt);
        before.take_while(|date| all_night(*date)).count() as u32
    }

    fn day(&self, date: NaiveDate, before: Progress, air: &Air, daylight: Time) -> Day {
        let step = self.step(before.light);
        let weather = Weather {
            air: air.while_out(step.out),
            low: air.low,
            wind: air.wind,
            sky: air.sky,
            hard_rain: air.hard_rain,
        };
        let (step_done, mut why) = match self.limits.today(before, step, &weather) {
            Today::In(why) => (None, Some(why)),
            Today::Out(done, why) => (Some(done), why),
        };
        let night = match step_done {
            Some(done) => self.limits.night(before, done, air.low),
            None => Night::In,
        };
        let night = match (self.way, night) {
            // In the one-move week it stands under its sheet.
            (Way::OneMove, Night::Out) => Night::Covered,
            (_, night) => night,
        };
        if step_done.is_some_and(|done| done.night) && night == Night::In {
            why = why.or(Some(Why::ColdNight));
        }
        let of = self.days_in_all();
        let counts = step_done.is_some_and(|done| {
            // Shade and short hours on a hot day, and a night in, are part of the way.
            why == Some(Why::Heat) || done.out.time(daylight) >= step.out.time(daylight) * 0.8
        });
        // A night in is no day and night out.
        let step_done = step_done.map(|done| match done.out {
            Out::DayAndNight if night == Night::In => Step { out: Out::Daylight, ..done },
            _ => done,
        });
        let mut progress = before;
        if counts {
            progress.light = (progress.light + 1).min(of);
        }
        if step_done.is_none() {
            progress = self.after_day_in(progress);
        }
        // Without heat the greenhouse follows the night outside.
        let feels_the_night = night != Night::In || self.raised == Raised::UnheatedGreenhouse;
        if let Some(low) = air.low.filter(|_| feels_the_night) {
            progress = self.after_low(progress, low);
        }
        Day { date, step: step_done, why, night, counts, progress }
    }

    /// How far it has come by today, and how many days in a row were missed last.
    fn so_far(&self, daylight: &dyn Fn(NaiveDate) -> Time) -> (Progress, u32) {
        let of = self.days_in_all();
        let mut progress = self.at_first();
        let mut missed = 0;
        let mut date = self.start;
        while date < self.today || self.done.iter().any(|done| done.date == date) {
            let asked = self.step(progress.light).out.time(daylight(date));
            match self.done.iter().find(|done| done.date == date) {
                Some(done) => {
                    progress = progress.after_missed(missed);
                    missed = 0;
                    // Day and night is more than one tap can tell: a day's length will do.
                    let asked = if asked > daylight(date) { daylight(date) } else { asked };
                    progress = progress.after_day(asked, done.out, done.hurt, of);
                    if done.cold {
                        progress = progress.after_cold();
                    }
                }
                None => {
                    missed += 1;
                    progress = self.after_day_in(progress);
                }
            }
            if (date - self.start).num_days() > 400 {
                break;
            }
            date = next(date);
        }
        (progress.after_missed(missed), missed)
    }
}

fn next(date: NaiveDate) -> NaiveDate {
    date.checked_add_days(Days::new(1)).unwrap_or(date)
}

/// Twelve hours, where the day's length is not known.
pub fn usual_daylight() -> Time {
    Time::new::<hour>(12.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use uom::si::thermodynamic_temperature::degree_fahrenheit;

    fn f(degrees: f64) -> Temperature {
        Temperature::new::<degree_fahrenheit>(degrees)
    }

    fn date(day: u32) -> NaiveDate {
        NaiveDate::from_yo_opt(2026, day).unwrap()
    }

    fn tray(class: Hardening, raised: Raised, done: &[Done], today: u32) -> Tray<'_> {
        Tray {
            limits: Limits { class, lowest_air: class.lowest_air() },
            raised,
            under_lamps: false,
            lows_before: &[],
            way: Way::DayByDay,
            start: date(100),
            done,
            today: date(today),
        }
    }

    fn steady(low_f: f64, high_f: f64) -> impl Fn(NaiveDate) -> Air {
        move |_| Air { low: Some(f(low_f)), high: Some(f(high_f)), ..Air::default() }
    }

    fn planned(tray: &Tray<'_>, low_f: f64, high_f: f64) -> Plan {
        tray.plan(&steady(low_f, high_f), &|_| usual_daylight())
    }

    fn done(day: u32, hours: f64) -> Done {
        Done { date: date(day), out: Time::new::<hour>(hours), hurt: false, cold: false }
    }

    #[test]
    fn mild_weather_lets_each_class_be_ready_after_its_days() {
        for (class, of) in [
            (Hardening::Hardy, 7),
            (Hardening::HalfHardy, 10),
            (Hardening::Tender50, 10),
            (Hardening::Tender65, 14),
        ] {
            let plan = planned(&tray(class, Raised::HeatedHouse, &[], 100), 66.0, 78.0);
            assert_eq!((plan.days.len(), plan.ready), (of as usize, Some(date(100 + of))));
            assert!(plan.days.iter().all(|day| day.counts));
            assert_eq!(plan.days[0].night, Night::In);
            assert_eq!(plan.days.last().unwrap().night, Night::Out);
        }
    }

    #[test]
    fn nights_that_were_spent_outdoors_are_not_asked_for_again() {
        let days = |nights: u32| -> Vec<Done> {
            let by_day = (100..107 - nights).map(|day| done(day, 14.0));
            by_day.chain((107 - nights..107).map(|day| done(day, 24.0))).collect()
        };
        let left = [0, 1, 2].map(|nights| {
            let done = days(nights);
            let plan =
                planned(&tray(Hardening::Hardy, Raised::HeatedHouse, &done, 107), 50.0, 66.0);
            assert_eq!(plan.now.light, plan.of);
            plan.days.len()
        });
        assert_eq!(left, [2, 1, 0]);
    }

    #[test]
    fn what_was_raised_outdoors_needs_no_days() {
        let plan = planned(&tray(Hardening::Hardy, Raised::Outdoors, &[], 103), 40.0, 55.0);
        assert_eq!((plan.days.len(), plan.ready), (0, Some(date(103))));
    }

    #[test]
    fn a_greenhouse_winter_has_toughened_it_already() {
        let cold = [30.0, 33.0, 36.0, 34.0, 31.0].map(f);
        let mut greenhouse = tray(Hardening::Hardy, Raised::UnheatedGreenhouse, &[], 100);
        greenhouse.lows_before = &cold;
        let warm = tray(Hardening::Hardy, Raised::HeatedHouse, &[], 100);
        let (tough, soft) = (planned(&greenhouse, 34.0, 52.0), planned(&warm, 34.0, 52.0));
        assert_eq!((tough.now, tough.of), (Progress { light: 0, cold: TOUGH }, 3));
        assert!(tough.ready < soft.ready);
        // At 34 °F it may stay out, on the ground and covered; the other may not yet.
        assert!(tough.days.iter().any(|day| day.night == Night::Covered));
        assert_eq!(soft.days[5].night, Night::In);
    }

    #[test]
    fn missed_days_cost_half_of_themselves() {
        let three = [done(100, 2.0), done(101, 3.0), done(102, 4.0)];
        let light = |today| {
            let plan = planned(
                &tray(Hardening::HalfHardy, Raised::HeatedHouse, &three, today),
                50.0,
                65.0,
            );
            (plan.now.light, plan.missed)
        };
        assert_eq!(light(103), (3, 0));
        assert_eq!(light(104), (3, 1));
        assert_eq!(light(105), (2, 2));
        assert_eq!(light(109), (0, 6));
    }

    #[test]
    fn where_nights_stay_cold_it_is_planted_under_cover_and_not_waited_for() {
        let plan = planned(&tray(Hardening::Tender50, Raised::HeatedHouse, &[], 100), 38.0, 68.0);
        assert!(plan.nights_too_cold);
        assert_eq!(plan.ready, Some(date(100 + 10)));
        assert!(plan.days.iter().all(|day| day.night == Night::In));
        let frozen = planned(&tray(Hardening::Tender50, Raised::HeatedHouse, &[], 100), 20.0, 35.0);
        assert_eq!(frozen.ready, None);
        assert!(frozen.days.iter().all(|day| day.step.is_none()));
    }

    #[test]
    fn the_one_move_week_is_spent_outdoors_under_a_sheet() {
        let mut lettuce = tray(Hardening::HalfHardy, Raised::UnheatedGreenhouse, &[], 100);
        lettuce.way = Way::OneMove;
        let plan = planned(&lettuce, 47.0, 62.0);
        assert!(plan.days.len() <= 7);
        assert!(plan.days.iter().all(|day| day.night == Night::Covered));
        assert_eq!(plan.days.last().unwrap().step.unwrap().sun, Sun::Full);
    }

    proptest! {
        #[test]
        fn any_weather_gives_a_plan_that_ends(
            lows in prop::collection::vec(0.0..80.0f64, 60), range in 0.0..40.0f64, class in 0..5usize,
            raised in 0..3usize, one_move: bool, today in 100..160u32, days in prop::collection::vec((0..60u32, 0.0..24.0f64), 0..20),
        ) {
            let classes = [Hardening::Hardy, Hardening::HalfHardy, Hardening::Tender50, Hardening::Tender60, Hardening::Tender65];
            let done: Vec<Done> = days.iter().map(|(day, hours)| done(100 + day, *hours)).collect();
            let mut tray = tray(classes[class], Raised::ALL[raised], &done, today);
            tray.way = if one_move { Way::OneMove } else { Way::DayByDay };
            let air = |day: NaiveDate| {
                let low = lows[(day - date(100)).num_days() as usize % 60];
                Air { low: Some(f(low)), high: Some(f(low + range)), ..Air::default() }
            };
            let plan = tray.plan(&air, &|_| usual_daylight());
            prop_assert!(plan.days.len() <= LONGEST_DAYS as usize);
            prop_assert!(plan.now.light <= plan.of && plan.now.cold <= TOUGH);
            for (day, after) in plan.days.iter().zip(plan.days.iter().skip(1)) {
                prop_assert_eq!(after.date, next(day.date));
            }
            for day in &plan.days {
                prop_assert!(day.date >= date(today));
                // Nothing is left out in the open below its class's figure.
                prop_assert!(day.night != Night::Out || air(day.date).low.unwrap() >= tray.limits.lowest_air);
                prop_assert!(day.step.is_some() || day.night == Night::In);
            }
            if let (Some(ready), Some(last)) = (plan.ready, plan.days.last()) {
                prop_assert_eq!(ready, next(last.date));
            }
        }
    }
}
