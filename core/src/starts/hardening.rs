//! One day of getting used to outdoors: how long, in what light, whether the night too; and what
//! keeps a tray in.
//!
//! Published schedules agree on 7 to 14 days, beginning with one to four hours of shade and adding an
//! hour or two a day (University of Maryland Extension, 2023; Growing Gardens; Hennepin and Bemidji
//! Master Gardeners). The steps between, what missed days cost and the limits of wind and heat are
//! derived or common practice: no published rule was found.

use uom::si::{thermodynamic_temperature::degree_fahrenheit, time::hour};

use crate::{
    catalogue::{Crop, Hardening, Hardiness},
    given::words,
    quantity::{Temperature, Time},
    words::sky::{Sky, Wind},
};

/// How far a tray has come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// Days of light and wind it has had.
    pub light: u32,
    /// Days of cold it has had, at most [`TOUGH`].
    pub cold: u32,
}

/// From so many days of cold on a plant is as tough as it gets here.
pub const TOUGH: u32 = 5;

/// Days until a plant of this class is used to outdoors; plants raised under lamps take the longest.
pub const fn days(class: Hardening, under_lamps: bool) -> u32 {
    match class {
        _ if under_lamps => 14,
        Hardening::Hardy => 7,
        Hardening::HalfHardy | Hardening::Tender50 => 10,
        Hardening::Tender60 | Hardening::Tender65 => 14,
    }
}

/// How much sun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sun {
    /// Full shade, still air.
    Shade,
    /// Dappled shade.
    Dappled,
    /// Shade, and so many hours of early sun.
    Early(u8),
    /// Sun till mid-morning.
    MidMorning,
    /// Sun for half the day.
    HalfDay,
    /// Sun till early afternoon.
    EarlyAfternoon,
    /// Full sun.
    Full,
}

/// How long out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Out {
    /// So many hours.
    Hours(u8),
    /// From morning till evening.
    Daylight,
    /// Day and night.
    DayAndNight,
}

impl Out {
    /// In hours, given the length of the day.
    pub fn time(self, daylight: Time) -> Time {
        match self {
            Self::Hours(hours) => Time::new::<hour>(f64::from(hours)),
            Self::Daylight => daylight,
            Self::DayAndNight => Time::new::<hour>(24.0),
        }
    }
}

/// What a day asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    /// How long out.
    pub out: Out,
    /// How much sun.
    pub sun: Sun,
    /// Whether the night may be spent out, if it is warm enough.
    pub night: bool,
}

/// Ten steps; longer and shorter ways take them slower or faster.
const STEPS: [Step; 10] = [
    step(Out::Hours(2), Sun::Shade, false),
    step(Out::Hours(3), Sun::Shade, false),
    step(Out::Hours(4), Sun::Dappled, false),
    step(Out::Hours(5), Sun::Early(1), false),
    step(Out::Hours(6), Sun::Early(2), false),
    step(Out::Hours(7), Sun::MidMorning, false),
    step(Out::Hours(8), Sun::HalfDay, false),
    step(Out::Daylight, Sun::EarlyAfternoon, true),
    step(Out::Daylight, Sun::Full, true),
    step(Out::DayAndNight, Sun::Full, true),
];

const fn step(out: Out, sun: Sun, night: bool) -> Step {
    Step { out, sun, night }
}

/// The step of a tray that has had `light` days of `days`: the table's row 10·(light + 1)/days, rounded up.
pub fn next_step(light: u32, days: u32) -> Step {
    let days = days.max(1);
    let row = (10 * (light.min(days - 1) + 1)).div_ceil(days);
    let index = row.clamp(1, 10) as usize - 1;
    STEPS.get(index).copied().unwrap_or(STEPS[9])
}

/// A day's weather, as far as it is known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Weather {
    /// The air while the tray is out, the coldest of it.
    pub air: Option<Temperature>,
    /// The low of the night after.
    pub low: Option<Temperature>,
    /// The wind.
    pub wind: Option<Wind>,
    /// The sky.
    pub sky: Option<Sky>,
    /// Hail or hard rain.
    pub hard_rain: bool,
}

/// Why a day is not as the schedule has it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It freezes.
    Freezing,
    /// The air is colder than the crop takes yet.
    Cold,
    /// Too much wind: behind a wind-break for the hours of the first day.
    Wind,
    /// Hail or hard rain.
    Rain,
    /// Hot: in the shade, half the hours, water.
    Heat,
    /// No sun to burn: the hours count, the shade does not.
    Overcast,
    /// The night is colder than the crop takes yet.
    ColdNight,
}

/// What is done on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Today {
    /// The tray stays in.
    In(Why),
    /// It goes out.
    Out(Step, Option<Why>),
}

/// How much cold a crop takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Its class.
    pub class: Hardening,
    /// The lowest air while it gets used to outdoors.
    pub lowest_air: Temperature,
}

/// Shade above this, °F (common practice).
const HOT_F: f64 = 85.0;

fn f(degrees: f64) -> Temperature {
    Temperature::new::<degree_fahrenheit>(degrees)
}

/// What a crop takes: by its class, or, where it is usually sown in place, by what frost does to it.
pub fn limits_of(crop: &Crop) -> Limits {
    if let Some(lowest_air) = crop.not_by_cold() {
        return Limits { class: Hardening::Tender50, lowest_air };
    }
    let class = crop.hardening().unwrap_or(match crop.hardiness() {
        Hardiness::VeryHardy | Hardiness::Hardy => Hardening::Hardy,
        Hardiness::HalfHardy => Hardening::HalfHardy,
        Hardiness::Tender => Hardening::Tender50,
        Hardiness::Chilling => Hardening::Tender65,
    });
    Limits { class, lowest_air: crop.lowest_air().unwrap_or_else(|| class.lowest_air()) }
}

impl Limits {
    /// The coldest air a tray takes that has had so many days of cold: the class's figure; hardy
    /// kinds down to 35 °F after three, and to 30 after five, since light frost is harmless once they
    /// are used to it (derived).
    pub fn coldest(&self, cold: u32) -> Temperature {
        let used_to = match (self.class, cold) {
            (Hardening::Hardy, TOUGH..) => f(30.0),
            (Hardening::Hardy, 3..) => f(35.0),
            (Hardening::HalfHardy, TOUGH..) => f(35.0),
            _ => return self.lowest_air,
        };
        if used_to < self.lowest_air { used_to } else { self.lowest_air }
    }

    /// Whether a day or night that cold toughens: 35 to 50 °F, tender kinds 50 to 60.
    pub fn toughens(&self, temperature: Temperature) -> bool {
        let (from, to) = match self.class {
            Hardening::Hardy | Hardening::HalfHardy => (35.0, 50.0),
            Hardening::Tender50 | Hardening::Tender60 | Hardening::Tender65 => (50.0, 60.0),
        };
        f(from) <= temperature && temperature <= f(to)
    }

    /// What is done with a tray on a day of this weather; the first thing that stands in the way decides.
    pub fn today(&self, progress: Progress, step: Step, weather: &Weather) -> Today {
        if let Some(air) = weather.air
            && air < self.coldest(progress.cold)
        {
            return Today::In(if air < f(32.0) { Why::Freezing } else { Why::Cold });
        }
        if weather.hard_rain {
            return Today::In(Why::Rain);
        }
        if weather.wind == Some(Wind::Windy) {
            let sheltered = Step { out: STEPS[0].out, night: false, ..step };
            return Today::Out(sheltered, Some(Why::Wind));
        }
        if weather.air.is_some_and(|air| air > f(HOT_F)) {
            let out = match step.out {
                Out::Hours(hours) => Out::Hours(hours.div_ceil(2)),
                Out::Daylight | Out::DayAndNight => Out::Hours(6),
            };
            let sun = Sun::Shade;
            return Today::Out(Step { out, sun, ..step }, Some(Why::Heat));
        }
        if weather.sky == Some(Sky::Cloudy) && step.sun != Sun::Full {
            return Today::Out(Step { sun: Sun::Full, ..step }, Some(Why::Overcast));
        }
        Today::Out(step, None)
    }

    /// Where a tray spends the night: the roots in a tray are in the open, so on cold nights it stands
    /// on the ground and under a cover.
    pub fn night(&self, progress: Progress, step: Step, low: Option<Temperature>) -> Night {
        if !step.night {
            return Night::In;
        }
        match low {
            None => Night::Out,
            Some(low) if low >= self.lowest_air => Night::Out,
            Some(low) if low >= self.coldest(progress.cold) => Night::Covered,
            Some(_) => Night::In,
        }
    }
}

words! {
    /// Where a tray spends the night.
    pub enum Night {
        /// Indoors, or wherever it comes from.
        In = "in" => "in",
        /// On the ground, under a cover.
        Covered = "covered" => "out, covered",
        /// In the open.
        Out = "out" => "out",
    }
}

impl Progress {
    /// After a day out: it counts where four fifths of the hours were done and nothing was hurt.
    #[must_use]
    pub fn after_day(self, asked: Time, done: Time, hurt: bool, of: u32) -> Self {
        let counts = !hurt && done >= asked * 0.8;
        Self { light: (self.light + u32::from(counts)).min(of), ..self }
    }

    /// After so many days in a row not done: one does no harm, every two cost a day (derived).
    #[must_use]
    pub fn after_missed(self, days: u32) -> Self {
        Self { light: self.light.saturating_sub(days / 2), ..self }
    }

    /// After a day or night of cold that toughens.
    #[must_use]
    pub fn after_cold(self) -> Self {
        Self { cold: (self.cold + 1).min(TOUGH), ..self }
    }

    /// After a day and a night above about 68 °F: what the cold had given is lost. (Cabbage seedlings
    /// that had learned to bear -6 °C had lost all of it after one warm day: *Annals of Botany*
    /// 78(3):365, 1996.)
    #[must_use]
    pub fn after_warm_day(self) -> Self {
        Self { cold: 0, ..self }
    }
}

/// Whether a day and night of these temperatures undoes the cold.
pub fn is_warm_spell(low: Temperature) -> bool {
    low > f(68.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const CLASSES: [Hardening; 5] = [
        Hardening::Hardy,
        Hardening::HalfHardy,
        Hardening::Tender50,
        Hardening::Tender60,
        Hardening::Tender65,
    ];

    fn limits(class: Hardening) -> Limits {
        Limits { class, lowest_air: class.lowest_air() }
    }

    fn weather(air_f: f64) -> Weather {
        Weather { air: Some(f(air_f)), ..Weather::default() }
    }

    #[test]
    fn a_tray_ends_day_and_night_in_full_sun() {
        for days in [7, 10, 14] {
            let first = next_step(0, days).out.time(Time::new::<hour>(12.0));
            assert!(first <= Time::new::<hour>(3.0));
            assert_eq!(next_step(days - 1, days), STEPS[9]);
            assert_eq!(next_step(days + 3, days), STEPS[9]);
        }
    }

    #[test]
    fn wind_shortens_and_heat_shades() {
        let tomato = limits(Hardening::Tender50);
        let step = next_step(6, 10);
        let windy = Weather { wind: Some(Wind::Windy), ..weather(70.0) };
        let Today::Out(out, Some(Why::Wind)) = tomato.today(Progress::default(), step, &windy)
        else {
            panic!("behind a wind-break")
        };
        assert_eq!(out.out, Out::Hours(2));
        let Today::Out(out, Some(Why::Heat)) =
            tomato.today(Progress::default(), step, &weather(90.0))
        else {
            panic!("in the shade")
        };
        assert_eq!((out.out, out.sun), (Out::Hours(4), Sun::Shade));
    }

    #[test]
    fn hail_keeps_everything_in() {
        let hail = Weather { hard_rain: true, ..weather(70.0) };
        for class in CLASSES {
            let today =
                limits(class).today(Progress { light: 5, cold: 5 }, next_step(5, 10), &hail);
            assert_eq!(today, Today::In(Why::Rain));
        }
    }

    #[test]
    fn a_warm_day_undoes_the_cold_and_not_the_light() {
        let tough = Progress { light: 4, cold: 4 }.after_cold().after_cold();
        assert_eq!(tough, Progress { light: 4, cold: TOUGH });
        assert_eq!(tough.after_warm_day(), Progress { light: 4, cold: 0 });
    }

    #[test]
    fn damage_and_too_few_hours_do_not_count() {
        let hours = Time::new::<hour>;
        let at = Progress { light: 2, cold: 0 };
        assert_eq!(at.after_day(hours(5.0), hours(4.0), false, 10).light, 3);
        assert_eq!(at.after_day(hours(5.0), hours(3.9), false, 10).light, 2);
        assert_eq!(at.after_day(hours(5.0), hours(8.0), true, 10).light, 2);
    }

    proptest! {
        #[test]
        fn steps_never_go_back(light in 0..20u32, days in 1..20u32) {
            let hours = |light| next_step(light, days).out.time(Time::new::<hour>(12.0));
            prop_assert!(hours(light) <= hours(light + 1));
            prop_assert!(!next_step(light, days).night || next_step(light + 1, days).night);
        }

        #[test]
        fn a_tougher_tray_is_never_kept_in_where_another_goes_out(
            class in 0..5usize, air_f in 20.0..80.0f64, cold in 0..5u32, light in 0..14u32,
        ) {
            let limits = limits(CLASSES[class]);
            let step = next_step(light, 10);
            let out = |cold| matches!(limits.today(Progress { light, cold }, step, &weather(air_f)), Today::Out(..));
            prop_assert!(!out(cold) || out(cold + 1));
        }

        #[test]
        fn no_night_is_spent_out_below_what_the_tray_takes(class in 0..5usize, low_f in 10.0..70.0f64, cold in 0..6u32) {
            let limits = limits(CLASSES[class]);
            let progress = Progress { light: 9, cold };
            let night = limits.night(progress, next_step(9, 10), Some(f(low_f)));
            prop_assert_eq!(night == Night::In, f(low_f) < limits.coldest(cold));
            prop_assert!(night != Night::Out || f(low_f) >= limits.lowest_air);
        }
    }
}
