//! When to plant garlic: the window for a place, or for one bed.
//!
//! The rule is derived: it joins, for soil at planting depth, the published limits
//! - plant at 50 °F (10 °C) at 4 in, read about 9 a.m., and 2 to 3 weeks after the first frost and
//!   before the ground freezes (P. Dawling, *Growing for Market*, September 2016);
//! - within one or two weeks after the first killing frost (B. Berlin, University of Minnesota
//!   Extension, 14 September 2016);
//! - from the first frost to early November (Cornell University, home gardening page on garlic);
//! - soil down to 60 °F (15.5 °C) at the warm edge, and weeks enough to root before the ground
//!   freezes (common practice);
//! - October and November where winters are mild (extension advice for California, Nevada and
//!   Florida).
//!
//! How much the date matters is less than is told: in Saskatchewan it had little effect within the
//! autumn, while autumn beat spring by 59 % and 25 % (*Can. J. Plant Sci.*, two years, eight
//! lines). So the window has a soft middle, and is never told closed while the ground opens.

use chrono::{Datelike, Duration, NaiveDate};
use uom::si::time::day as a_day;

use super::chill::{Cold, ENOUGH_AT_10_C};
use crate::{
    given::words,
    place::{
        air::{HALF_A_YEAR, celsius, of_celsius},
        soil::{Crossing, SoilYear},
    },
    quantity::{Length, TemperatureInterval},
    time::{DayOfYear, Range},
};

words! {
    /// The kind of winter that the window is drawn for.
    pub enum Winter {
        /// The ground freezes, or nearly.
        Freeze = "freeze",
        /// Eight weeks and more of soil at or below 50 °F, never near freezing.
        Cool = "cool",
        /// Less than eight weeks of soil at or below 50 °F.
        Warm = "warm",
    }
}

words! {
    /// How today stands to the window.
    pub enum Now {
        /// It has not opened.
        Early = "early",
        /// It is open.
        In = "in",
        /// It is past; planting still does, with smaller bulbs.
        Late = "late",
        /// The ground is frozen.
        GroundFrozen = "ground-frozen",
    }
}

/// How far one year's autumn is from the usual, one standard deviation, days.
///
/// The first day at or below 10 °C over 30 to 37 years at four places scatters by 9 to 13 days
/// (derived from daily series).
const WEATHER_DAYS: f64 = 10.0;

/// What the window is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct Inputs<'a> {
    /// The bed's usual year, corrected by its readings.
    pub soil: &'a SoilYear,
    /// The place's usual year without them, which says what winters are like: a reading moves the
    /// window's days, never the winter's kind.
    pub usual: &'a SoilYear,
    /// How sure that is, one standard deviation.
    pub soil_sd: TemperatureInterval,
    /// Where the soil is looked at: planting depth, or the 4 in of the rule.
    pub depth: Length,
    /// The usual first frost of autumn; `None` where frost is rarer than every other year.
    pub first_frost: Option<DayOfYear>,
    /// Whether the place is in the southern half of the world.
    pub south: bool,
    /// Today, which says which autumn is meant.
    pub today: NaiveDate,
}

/// The window.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// The kind of winter.
    pub winter: Winter,
    /// When it opens, with one standard deviation either way.
    pub opens: Range,
    /// The best time.
    pub best: Range,
    /// When it closes.
    pub closes: Range,
}

/// What can be told of planting garlic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Planting {
    /// The window; `None` where the soil's year has no place for one.
    pub window: Option<Window>,
    /// When the soil at that depth usually freezes.
    pub freeze_up: Option<NaiveDate>,
    /// When it usually thaws after that.
    pub thaw: Option<NaiveDate>,
    /// How today stands to it; `None` where there is no window.
    pub now: Option<Now>,
}

/// A day with its doubt, in days.
#[derive(Clone, Copy)]
struct Edge {
    day: f64,
    sd: f64,
}

impl Edge {
    /// The same doubt on another day.
    fn on(self, day: f64) -> Self {
        Self { day, ..self }
    }

    fn earlier(self, other: Self) -> Self {
        if other.day < self.day { other } else { self }
    }

    fn later(self, other: Self) -> Self {
        if other.day > self.day { other } else { self }
    }

    fn in_year(self, year: i32) -> Range {
        let date = |day: f64| Some(DayOfYear::new(day).in_year(year));
        Range {
            early: date(self.day - self.sd),
            likely: date(self.day),
            late: date(self.day + self.sd),
        }
    }
}

/// The calendar year whose autumn is meant: the coming one from 1 April on (1 October in the
/// south), else the last.
pub fn planting_year(today: NaiveDate, south: bool) -> i32 {
    match (south, today.month()) {
        (false, 4..) => today.year(),
        (false, _) => today.year() - 1,
        (true, 10..) => today.year() + 1,
        (true, _) => today.year(),
    }
}

/// Draws the window and says how today stands to it.
pub fn planting(inputs: &Inputs<'_>) -> Planting {
    let Inputs { soil, depth, south, today, .. } = *inputs;
    let year = planting_year(today, south);
    let frozen = soil.falls_through(of_celsius(0.0), depth);
    let thawed = soil.rises_through(of_celsius(0.0), depth);
    let window = window(inputs, frozen, year);
    let on = |crossing: Crossing| crossing.day.in_year(year);
    let (freeze_up, thaw) = (frozen.map(on), thawed.map(on));
    let now = window.and_then(|window| now(&window, freeze_up, thaw, today));
    Planting { window, freeze_up, thaw, now }
}

fn now(
    window: &Window,
    freeze_up: Option<NaiveDate>,
    thaw: Option<NaiveDate>,
    today: NaiveDate,
) -> Option<Now> {
    let (opens, closes) = (window.opens.likely?, window.closes.likely?);
    if freeze_up.is_some_and(|frozen| frozen <= today) && thaw.is_none_or(|thaw| today < thaw) {
        return Some(Now::GroundFrozen);
    }
    Some(if today < opens {
        Now::Early
    } else if today <= closes {
        Now::In
    } else {
        Now::Late
    })
}

fn window(inputs: &Inputs<'_>, frozen: Option<Crossing>, year: i32) -> Option<Window> {
    let Inputs { soil, usual, depth, first_frost, south, .. } = *inputs;
    let falls = |degrees: f64| {
        let through = |soil: &SoilYear| soil.falls_through(of_celsius(degrees), depth);
        // What the place never comes to, a reading does not bring.
        let usually = through(usual)?;
        let crossing = through(soil).unwrap_or(usually);
        let soil_days = crossing.moved_by(inputs.soil_sd).get::<a_day>();
        Some(Edge { day: crossing.day.number(), sd: soil_days.hypot(WEATHER_DAYS) })
    };
    let calendar = |northern: f64| {
        let day = northern - if south { HALF_A_YEAR } else { 0.0 };
        Edge { day, sd: WEATHER_DAYS }
    };
    let warmest = celsius(usual.warmest(depth).1);
    let winter = if celsius(usual.coldest(depth).1) <= NEAR_FREEZING_C {
        Winter::Freeze
    } else if Cold::of(usual).days_at_10_c >= ENOUGH_AT_10_C {
        Winter::Cool
    } else {
        Winter::Warm
    };
    let [opens, best, closes] = match winter {
        Winter::Freeze | Winter::Cool => {
            // Soil that never warms to 50 °F makes no bulbs.
            let at_10 = falls(10.0)?;
            // Where summer stays under 60 °F the soil is never too warm; a month before the best is
            // early enough.
            let at_15 = falls(15.5).unwrap_or(at_10.on(at_10.day - 28.0));
            let three_weeks_on = at_10.on(at_10.day + 21.0);
            if winter == Winter::Cool {
                [at_15, at_10.earlier(at_15.on(at_15.day + 28.0)), three_weeks_on]
            } else {
                let frost = first_frost.map(|frost| {
                    let summer = DayOfYear::new(calendar(200.0).day);
                    Edge { day: frost.from_start(summer).number(), sd: WEATHER_DAYS }
                });
                let opens = frost.map_or(at_15, |frost| at_15.later(frost));
                let closes = frozen.map_or(three_weeks_on, |frozen| {
                    let soil_days = frozen.moved_by(inputs.soil_sd).get::<a_day>();
                    let sd = soil_days.hypot(WEATHER_DAYS);
                    three_weeks_on.earlier(Edge { day: frozen.day.number() - 21.0, sd })
                });
                // Where frost comes late or the ground freezes soon the three would change places.
                let best = at_10.earlier(closes);
                [opens.earlier(best), best, closes]
            }
        }
        Winter::Warm => {
            let october = calendar(274.0);
            let opens = match falls(21.0) {
                Some(cool_enough) => cool_enough.later(october),
                None if warmest <= 21.0 => october,
                // Soil that never cools to 70 °F has no window.
                None => return None,
            };
            // Mid-January at the latest: after it too little cool time is left to root and grow.
            let closes = calendar(380.0).later(opens.on(opens.day + 21.0));
            [opens, opens.on(opens.day + 21.0), closes]
        }
    };
    Some(Window {
        winter,
        opens: opens.in_year(year),
        best: best.in_year(year),
        closes: closes.in_year(year),
    })
}

/// Soil this cold at its coldest counts as freezing.
const NEAR_FREEZING_C: f64 = 2.0;

/// The day to begin chilling seed garlic before planting it on `planted`: eight weeks before.
///
/// Four to eight weeks at 2 to 7 °C (36 to 45 °F), planted at once when taken out: the trials of
/// Bandara and others (2000) and del Pozo and González, *Agric. Técnica* 65:119-126, 2005.
pub fn prechill_from(planted: NaiveDate) -> NaiveDate {
    planted - Duration::days(56)
}

/// The day to plant chilled seed: the best day, or, where eight weeks of chilling no longer fit
/// before it, after six weeks from today; `None` where that is past the window's close.
pub fn plant_chilled(best: NaiveDate, closes: NaiveDate, today: NaiveDate) -> Option<NaiveDate> {
    const SHORTEST_CHILLING: i64 = 42;
    let plant = if today <= prechill_from(best) {
        best
    } else {
        best.max(today + Duration::days(SHORTEST_CHILLING))
    };
    (plant <= closes).then_some(plant)
}

/// Whether soil is too warm for garlic all year.
pub fn never_cools(soil: &SoilYear, depth: Length) -> bool {
    celsius(soil.coldest(depth).1) > 21.0
}

/// The day to plant chilled seed where the soil never cools to 70 °F: four weeks before it is coolest
/// (considered), the next for which six weeks of chilling fit.
pub fn where_it_never_cools(
    soil: &SoilYear,
    depth: Length,
    south: bool,
    today: NaiveDate,
) -> Option<NaiveDate> {
    const BEFORE_COOLEST: Duration = Duration::days(28);
    let year = planting_year(today, south);
    let mut coolest = [year, year + 1].into_iter();
    coolest.find_map(|year| {
        let plant = soil.coldest(depth).0.in_year(year) - BEFORE_COOLEST;
        plant_chilled(plant, plant + BEFORE_COOLEST + BEFORE_COOLEST, today)
    })
}

/// From the gardener's own usual first frost alone, where nothing else is known of the place: open
/// from the frost, best ten days after it, four weeks in all. For winters that freeze (Berlin 2016;
/// Dawling 2016; common practice).
pub fn from_first_frost(first_frost: DayOfYear, south: bool, today: NaiveDate) -> Planting {
    let year = planting_year(today, south);
    let summer = DayOfYear::new(200.0 - if south { HALF_A_YEAR } else { 0.0 });
    let frost = first_frost.from_start(summer).number();
    // Neither the soil nor the year's weather is known: twice the usual doubt.
    let edge = |day: f64| Edge { day, sd: 2.0 * WEATHER_DAYS }.in_year(year);
    let window = Window {
        winter: Winter::Freeze,
        opens: edge(frost),
        best: edge(frost + 10.0),
        closes: edge(frost + 28.0),
    };
    Planting {
        window: Some(window),
        freeze_up: None,
        thaw: None,
        now: now(&window, None, None, today),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::soil::{Texture, Wave};
    use proptest::prelude::*;
    use uom::si::{length::centimeter, temperature_interval::degree_celsius as kelvin};

    fn year(mean: f64, swing: f64, south: bool) -> SoilYear {
        let hottest = 205.0 - if south { HALF_A_YEAR } else { 0.0 };
        let swing = TemperatureInterval::new::<kelvin>(swing);
        let wave = Wave::simple(of_celsius(mean), swing, DayOfYear::new(hottest));
        SoilYear::new(wave, Texture::Loam.diffusivity())
    }

    fn asked(soil: &SoilYear, first_frost: Option<f64>, south: bool, today: NaiveDate) -> Planting {
        planting(&Inputs {
            soil,
            usual: soil,
            soil_sd: TemperatureInterval::new::<kelvin>(2.0),
            depth: Length::new::<centimeter>(10.0),
            first_frost: first_frost.map(DayOfYear::new),
            south,
            today,
        })
    }

    fn date(year: i32, month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(year, month, day).unwrap()
    }

    fn likely(range: Range) -> NaiveDate {
        range.likely.unwrap()
    }

    #[test]
    fn the_year_turns_in_spring() {
        assert_eq!(planting_year(date(2027, 1, 20), false), 2026);
        assert_eq!(planting_year(date(2027, 4, 1), false), 2027);
        assert_eq!(planting_year(date(2027, 4, 1), true), 2027);
        assert_eq!(planting_year(date(2027, 11, 1), true), 2028);
    }

    #[test]
    fn the_south_plants_in_april_what_the_north_plants_in_october() {
        let north =
            asked(&year(11.0, 11.0, false), Some(290.0), false, date(2026, 8, 1)).window.unwrap();
        let south =
            asked(&year(11.0, 11.0, true), Some(108.0), true, date(2026, 2, 1)).window.unwrap();
        assert_eq!(north.winter, south.winter);
        for (north, south) in
            [(north.opens, south.opens), (north.best, south.best), (north.closes, south.closes)]
        {
            let apart = (likely(north) - likely(south)).num_days();
            assert!((apart - 183).abs() <= 1, "{apart}");
        }
    }

    #[test]
    fn it_is_late_and_never_closed_while_the_ground_opens() {
        let soil = year(11.0, 9.0, false);
        let now = |today| asked(&soil, Some(320.0), false, today).now.unwrap();
        assert_eq!(now(date(2026, 8, 1)), Now::Early);
        assert_eq!(now(date(2026, 11, 5)), Now::In);
        assert_eq!(now(date(2026, 12, 20)), Now::Late);
        assert_eq!(now(date(2027, 2, 20)), Now::Late);
        assert_eq!(now(date(2027, 4, 20)), Now::Early);
    }

    #[test]
    fn frozen_ground_is_told() {
        let soil = year(6.0, 14.0, false);
        let told = asked(&soil, Some(275.0), false, date(2027, 1, 10));
        assert_eq!(told.now, Some(Now::GroundFrozen));
        assert!(told.freeze_up.unwrap() < date(2027, 1, 10));
        assert!(told.thaw.unwrap() > date(2027, 2, 1));
        assert_eq!(asked(&soil, Some(275.0), false, date(2027, 3, 31)).now, Some(Now::Late));
    }

    #[test]
    fn soil_always_hot_and_soil_always_cold_have_no_window() {
        assert_eq!(asked(&year(27.0, 2.0, false), None, false, date(2026, 8, 1)).window, None);
        assert_eq!(
            asked(&year(-2.0, 9.0, false), Some(230.0), false, date(2026, 8, 1)).window,
            None
        );
    }

    proptest! {
        #[test]
        fn the_window_opens_before_it_closes(
            mean in -5.0..27.0f64, swing in 0.5..18.0f64, south: bool, frost in prop::option::of(220.0..380.0f64),
            day in 0i64..730,
        ) {
            let soil = year(mean, swing, south);
            let frost = frost.map(|day| if south { day - HALF_A_YEAR } else { day });
            let today = date(2026, 1, 1) + Duration::days(day);
            let told = asked(&soil, frost, south, today);
            prop_assert_eq!(told.now.is_some(), told.window.is_some());
            if let Some(window) = told.window {
                prop_assert!(likely(window.opens) <= likely(window.best));
                prop_assert!(likely(window.best) <= likely(window.closes));
                for range in [window.opens, window.best, window.closes] {
                    prop_assert!(range.early <= range.likely && range.likely <= range.late);
                    // Never another year's autumn.
                    let from_today = (likely(range) - today).num_days();
                    prop_assert!((-300..=330).contains(&from_today), "{from_today}");
                }
            }
        }

        #[test]
        fn a_warmer_bed_never_opens_earlier(by in 0.0..3.0f64) {
            let soil = year(11.0, 9.0, false);
            let warmer = soil.shifted(TemperatureInterval::new::<kelvin>(by));
            let opens = |soil: &SoilYear| {
                let told = asked(soil, Some(300.0), false, date(2026, 8, 1));
                likely(told.window.unwrap().opens)
            };
            prop_assert!(opens(&warmer) >= opens(&soil));
        }
    }
}
