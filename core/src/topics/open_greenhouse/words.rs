//! What is told of the air under glass.

use uom::si::thermodynamic_temperature::degree_fahrenheit as fahrenheit;

use super::{
    HOT_F, VENT_F,
    answer::{Answer, Verdict},
    question::{Asked, Place},
};
use crate::{
    asking::Asking,
    frost::expected::Expected,
    journal::{About, Draft, What, details},
    quantity::{Quantity, Temperature, TemperatureInterval},
    source::Source,
    telling::{Sure, Telling},
    text::{count, list, small},
    words::{sky::Sky, spot::Spot},
};

/// What the words are made from.
pub(super) struct Told<'a> {
    pub(super) found: &'a Answer,
    pub(super) place: Place,
    pub(super) sky: Sky,
    pub(super) high: &'a Expected,
    pub(super) is_warm_now: bool,
    pub(super) warmer: TemperatureInterval,
    pub(super) trays: Vec<String>,
}

impl Told<'_> {
    pub(super) fn telling(&self, asking: &Asking<'_>) -> Telling {
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
pub(super) fn drafts(asked: &Asked, spot: Spot, sky: Sky) -> Vec<Draft> {
    let (Some(inside), Some(outside)) = (asked.inside.text(), asked.outside.text()) else {
        return Vec::new();
    };
    let one = |spot: Spot, air: &str| Draft {
        about: About::default(),
        what: What::Reading(details::Reading {
            spot: Some(spot.word().to_owned()),
            air: Some(air.to_owned()),
            sky: Some(sky.word().to_owned()),
            ..details::Reading::default()
        }),
    };
    vec![one(spot, inside), one(Spot::Outdoors, outside)]
}
