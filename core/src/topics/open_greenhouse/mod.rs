//! Topic `open-greenhouse`: how warm it gets under glass or plastic by day, and whether to open it.
//!
//! Inside is outside and a difference that grows with the sun; what a house adds is learned from its own
//! middays and shrunk toward what is usual ([`shrinkage`](crate::chance::shrinkage)). No tested figure for
//! small unheated houses was found, so what is usual is a wide guess, and said to be one.
//! Vents open at 75 to 80 °F inside (common practice).

use uom::si::{
    temperature_interval::{degree_celsius as kelvin, degree_fahrenheit},
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit as fahrenheit},
};

use crate::{
    asking::Asking,
    chance::shrinkage::{Prior, Sample},
    frost::{
        expected::{Expected, above},
        midday::Midday,
        sky::Sky,
    },
    given::{Faults, Given, asked, words},
    journal::{About, Draft, What, details},
    quantity::{Quantity, Temperature, TemperatureInterval, hundredths},
    source::Source,
    telling::{Sure, Telling},
    text::{count, list, small},
    topics::frost_tonight,
};

words! {
    /// What is opened.
    pub enum Place {
        /// An unheated greenhouse or a tunnel to walk in.
        Greenhouse = "greenhouse",
        /// A cold frame, or a low tunnel of plastic.
        Frame = "cold-frame",
    }
}

asked! {
    /// Does the greenhouse want opening today?
    pub struct Asked {
        /// What is opened; the greenhouse if absent.
        place: Given<Place>,
        /// The sun: `clear`, `part` or `cloudy`.
        sky: Given<Sky>,
        /// Today's forecast high outdoors.
        forecast_high: Given<Temperature>,
        /// The air outdoors now.
        outside: Given<Temperature>,
        /// The air inside now.
        inside: Given<Temperature>,
        /// Earlier middays with it shut; those of the record if absent.
        middays: Vec<MiddayAsked>,
    }
}

asked! {
    /// A midday with it shut.
    pub struct MiddayAsked {
        /// The air inside.
        inside: Given<Temperature>,
        /// The air outdoors.
        outside: Given<Temperature>,
        /// The sun.
        sky: Given<Sky>,
    }
}

words! {
    /// What to do.
    pub enum Verdict {
        /// Open wide.
        Open = "open",
        /// Open a hand's width.
        Ajar = "ajar",
        /// Leave it shut.
        Shut = "shut",
    }
}

/// Whether to open.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// What to do.
    pub verdict: Verdict,
    /// The likely high inside if it stays shut, °C.
    pub inside_high_c: f64,
    /// Standard deviation of its error, °C.
    pub inside_high_sd_c: f64,
    /// Inside minus outside in such sun, °C.
    pub warmer_c: f64,
    /// How many of its own middays that rests on.
    pub middays: u32,
    /// Outdoors at this, °C, it reaches 75 °F inside.
    pub opens_at_outside_c: f64,
    /// Whether the day is a hot spell for what stands in trays.
    pub hot: bool,
}

/// Vents open from here on, °F inside; at the upper end all of them (common practice).
const VENT_F: (f64, f64) = (75.0, 80.0);
/// From this high outdoors on trays want shade and water, °F (common practice).
const HOT_F: f64 = 85.0;
/// Standard deviation of a day's forecast high, °F: within 3 °F in 68 of 100 cases in the United States in 2005.
const FORECAST_SD_F: f64 = 3.0;
/// Scatter of a house's difference from midday to midday in like sun, °F, and what it is worth (considered).
const SCATTER_F: f64 = 5.0;
const WORTH_MIDDAYS: f64 = 4.0;
/// How much warmer a shut house is at midday, and how far houses differ, °F (considered: no tested figure found).
const fn usual_f(sky: Sky) -> (f64, f64) {
    match sky {
        Sky::Clear => (30.0, 12.0),
        Sky::Part => (18.0, 10.0),
        Sky::Cloudy => (7.0, 5.0),
    }
}

impl MiddayAsked {
    fn read(&self, faults: &mut Faults) -> Option<Midday> {
        let inside = frost_tonight::needed_air(&self.inside, faults);
        let outside = frost_tonight::needed_air(&self.outside, faults);
        let sky = self.sky.need(faults);
        Some(Midday { inside: inside?, outside: outside?, sky: sky? })
    }
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let place = asked.place.read(faults).unwrap_or(Place::Greenhouse);
    let sky = asked.sky.need(faults);
    let forecast = frost_tonight::air(&asked.forecast_high, faults);
    let outside = frost_tonight::air(&asked.outside, faults);
    let inside = frost_tonight::air(&asked.inside, faults);
    let given: Vec<_> = asked.middays.iter().map(|it| it.read(faults)).collect();
    if !asked.forecast_high.is_given() && !asked.outside.is_given() {
        asked.forecast_high.refuse(
            faults,
            "today's forecast high, such as 58 F; or the air outdoors now",
            "how warm it gets inside follows from it",
        );
    }
    let (sky, outdoors) = (sky?, forecast.or(outside)?);
    if !faults.is_empty() {
        return None;
    }
    let spot = match place {
        Place::Greenhouse => "unheated-greenhouse",
        Place::Frame => "cold-frame",
    };
    let middays = if asked.middays.is_empty() {
        frost_tonight::middays(asking.garden, spot)
    } else {
        given.into_iter().flatten().collect()
    };
    let differences = middays.iter().filter(|midday| midday.sky == sky);
    let differences: Vec<f64> = differences
        .map(|midday| above(midday.inside, midday.outside).get::<degree_fahrenheit>())
        .collect();
    let sample = Sample::of(&differences);
    let (mean, mean_sd) = usual_f(sky);
    let learned = Prior { mean, mean_sd, scatter: SCATTER_F, worth: WORTH_MIDDAYS }.learn(&sample);
    let interval = TemperatureInterval::new::<degree_fahrenheit>;
    let air = Expected {
        low: outdoors,
        sd: interval(if forecast.is_some() { FORECAST_SD_F } else { 0.0 }),
        df: None,
    };
    let high = air.moved(interval(learned.mean), interval(learned.scatter.hypot(learned.mean_sd)));
    let at = Temperature::new::<fahrenheit>;
    let in_f = |temperature: Temperature| temperature.get::<fahrenheit>();
    let too_warm = 1.0 - high.chance_below(at(VENT_F.1));
    let warm_now = inside.map_or(f64::MIN, in_f);
    let hot = in_f(outdoors) >= HOT_F;
    let verdict = if warm_now >= VENT_F.0 || hot || in_f(high.low) >= VENT_F.0 || too_warm >= 0.3 {
        Verdict::Open
    } else if too_warm >= 0.05 {
        Verdict::Ajar
    } else {
        Verdict::Shut
    };
    let found = Answer {
        verdict,
        inside_high_c: hundredths(high.low.get::<degree_celsius>()),
        inside_high_sd_c: hundredths(high.sd.get::<kelvin>()),
        warmer_c: hundredths(interval(learned.mean).get::<kelvin>()),
        middays: sample.count,
        opens_at_outside_c: hundredths(at(VENT_F.0 - learned.mean).get::<degree_celsius>()),
        hot,
    };
    let told = Told {
        found: &found,
        place,
        sky,
        high: &high,
        is_warm_now: warm_now >= VENT_F.0,
        warmer: interval(learned.mean),
        trays: frost_tonight::trays_at(asking.garden, spot),
    };
    let mut telling = told.telling(asking);
    telling.next = drafts(asked, spot, sky);
    Some((telling, found))
}

/// What the words are made from.
struct Told<'a> {
    found: &'a Answer,
    place: Place,
    sky: Sky,
    high: &'a Expected,
    is_warm_now: bool,
    warmer: TemperatureInterval,
    trays: Vec<String>,
}

impl Told<'_> {
    fn telling(&self, asking: &Asking<'_>) -> Telling {
        let system = asking.system;
        let found = self.found;
        let it = match self.place {
            Place::Greenhouse => "greenhouse",
            Place::Frame => "frame",
        };
        let headline = match found.verdict {
            Verdict::Open if self.is_warm_now => format!("Open the {it} now"),
            Verdict::Open => format!("Open the {it} by mid-morning"),
            Verdict::Ajar => format!("Open the {it} a hand's width by mid-morning"),
            Verdict::Shut => format!("Leave the {it} shut today"),
        };
        let sure = if found.middays >= 3 { Sure::Fair } else { Sure::Low };
        let mut telling = Telling::new(headline, sure);
        let (from, to) = self.high.range(0.9);
        telling.because.push(format!(
            "Shut, it gets to about {} inside; nine such days in ten end between {} and {}.",
            self.high.low.show(system),
            from.show(system),
            to.show(system)
        ));
        let sun = match self.sky {
            Sky::Clear => "full sun",
            Sky::Part => "sun and cloud",
            Sky::Cloudy => "cloud",
        };
        telling.because.push(match found.middays {
            0 => format!(
                "In {sun} it is taken to be {} warmer inside, a wide guess: read both thermometers at noon and it learns.",
                self.warmer.show(system)
            ),
            days => format!(
                "In {sun} it is about {} warmer inside, by {} of its own.",
                self.warmer.show(system),
                count(days, "midday", "middays")
            ),
        });
        let show = |degrees_f: f64| Temperature::new::<fahrenheit>(degrees_f).show(system);
        telling.look_for.push(format!(
            "A thermometer in the shade inside, at the height of the trays: vents open from {}, all of them at {}.",
            show(VENT_F.0),
            show(VENT_F.1)
        ));
        telling.look_for.push(
            "Wilted at dawn is thirst; wilted at noon may be heat: shade first, then feel the soil.".to_owned(),
        );
        if found.verdict != Verdict::Shut {
            telling.look_for.push(
                "Shut it again in mid-afternoon, while the sun still warms it, when the night will be cold.".to_owned(),
            );
        }
        if found.hot {
            let trays = if self.trays.is_empty() { "trays".to_owned() } else { list(&self.trays) };
            telling.because.push(format!(
                "From {} outdoors young plants suffer: shade {}, water in the morning and look again in the afternoon, \
                 put no tray out for the first time.",
                show(HOT_F),
                small(&trays)
            ));
        }
        for caution in [
            "Covers on beds and frames open by mid-morning too: in the sun plants cook under them.",
            "Prop lids and doors so that wind cannot slam them; glass cuts. Clear snow off from outside, never from below.",
            "Do not work long in a hot house.",
        ] {
            let of_heat = caution.starts_with("Do not");
            if !of_heat || found.hot {
                telling.cautions.push(caution.to_owned());
            }
        }
        telling.source(Source::CommonPractice);
        telling.source(Source::ForecastError2006);
        telling.source(Source::NormalShrinkage);
        telling
    }
}

/// The two thermometers read now, from which the next such day learns.
fn drafts(asked: &Asked, spot: &str, sky: Sky) -> Vec<Draft> {
    let (Some(inside), Some(outside)) = (asked.inside.text(), asked.outside.text()) else {
        return Vec::new();
    };
    let one = |spot: &str, air: &str| Draft {
        about: About::default(),
        what: What::Reading(details::Reading {
            spot: Some(spot.to_owned()),
            air: Some(air.to_owned()),
            sky: Some(sky.word().to_owned()),
            ..details::Reading::default()
        }),
    };
    vec![one(spot, inside), one("outdoors", outside)]
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]
mod tests {
    use crate::{ask::ask, garden::Garden, given::Refusal};
    use proptest::prelude::*;
    use serde_json::{Value, json};

    fn told(mut question: Value) -> Result<Value, Refusal> {
        question["topic"] = json!("open-greenhouse");
        ask(&question, &Garden::default()).map(|answer| serde_json::to_value(answer).unwrap())
    }

    #[test]
    fn a_sunny_day_opens_it_and_a_cold_dull_one_does_not() {
        let verdict = |sky: &str, high: &str| {
            told(json!({"sky": sky, "forecast_high": high})).unwrap()["verdict"].clone()
        };
        assert_eq!(verdict("clear", "58 F"), "open");
        assert_eq!(verdict("part", "48 F"), "ajar");
        assert_eq!(verdict("cloudy", "45 F"), "shut");
        // 75 °F inside opens it whatever the forecast.
        let now = json!({"sky": "cloudy", "forecast_high": "45 F", "inside": "76 F"});
        assert_eq!(told(now).unwrap()["headline"], "Open the greenhouse now");
    }

    #[test]
    fn its_own_middays_are_believed() {
        let question = |middays: usize| {
            let midday = json!({"inside": "62 F", "outside": "50 F", "sky": "clear"});
            json!({"sky": "clear", "forecast_high": "50 F", "middays": vec![midday; middays]})
        };
        let warmer = |middays| told(question(middays)).unwrap()["warmer_c"].as_f64().unwrap() * 1.8;
        assert!((warmer(0) - 30.0).abs() < 0.1);
        assert!((12.0..15.0).contains(&warmer(6)), "{}", warmer(6));
        assert_eq!(told(question(6)).unwrap()["sure"], "fair");
        // Those of another sky tell nothing.
        let mut dull = question(6);
        dull["sky"] = json!("cloudy");
        assert_eq!(told(dull).unwrap()["middays"], 0);
    }

    #[test]
    fn a_hot_spell_is_told_and_faults_are_named() {
        let hot = told(json!({"sky": "clear", "forecast_high": "92 F"})).unwrap();
        assert_eq!(hot["hot"], true);
        assert!(hot["because"].to_string().contains("shade trays, water in the morning"));
        let refused =
            told(json!({"sky": "blue", "inside": "300 F", "middays": [{"sky": "clear"}]}))
                .unwrap_err();
        let fields: Vec<&str> = refused.refused.iter().map(|fault| fault.field.as_str()).collect();
        assert_eq!(
            fields,
            ["sky", "inside", "middays.0.inside", "middays.0.outside", "forecast_high"]
        );
    }

    proptest! {
        #[test]
        fn warmer_outdoors_is_warmer_inside_and_never_more_shut(
            high in -10..100i32, more in 1..20i32, sky in prop::sample::select(vec!["clear", "part", "cloudy"]),
        ) {
            let one = |high: i32| told(json!({"sky": sky, "forecast_high": format!("{high} F")})).unwrap();
            let (cool, warm) = (one(high), one(high + more));
            prop_assert!(cool["inside_high_c"].as_f64() < warm["inside_high_c"].as_f64());
            let rank = |answer: &Value| ["shut", "ajar", "open"].iter().position(|word| answer["verdict"] == **word);
            prop_assert!(rank(&cool) <= rank(&warm));
        }
    }
}
