//! What is told of each bed on a cold night, and of how it runs beside the open air.

use uom::si::{
    temperature_interval::degree_celsius as kelvin,
    thermodynamic_temperature::degree_fahrenheit as fahrenheit,
};

use super::{
    answer::{AtBed, AtCrop, Verdict},
    from_record,
};
use crate::{
    catalogue::{self, Cover},
    frost::{
        expected::Expected,
        low::{Against, AirLow, Usual, tonight},
        night::Night,
    },
    garden::{Bed, Garden},
    place::air::of_celsius,
    quantity::{Quantity, System, Temperature, TemperatureInterval, show_number},
    text::{capital, count, small},
};

/// One bed tonight, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct BedTold {
    /// The likely low: "27 °F".
    pub figure: String,
    /// "About 27 °F, 19 °F to 35 °F; by 5 nights of its own".
    pub low: String,
    /// A line for each crop in danger or in doubt.
    pub harm: Vec<String>,
    /// What to do.
    pub act: String,
    /// Whether there is something to do, or to fear.
    pub is_urgent: bool,
}

impl AtBed {
    /// The bed in words.
    pub fn told(&self, system: System) -> BedTold {
        let show = |degrees_c: f64| of_celsius(degrees_c).show(system);
        let has = |verdict: Verdict| self.crops.iter().any(|crop| crop.verdict == verdict);
        let act = if let Some(cover) = self.cover.and_then(catalogue::cover) {
            // With one bed each crop has a cover of its own.
            let covered = self.crops.iter().filter(|crop| crop.verdict == Verdict::Cover);
            let over: Vec<&str> = covered.map(|crop| name(crop.crop)).collect();
            match (&self.bed, over.as_slice()) {
                (None, [..]) if over.len() < self.crops.len() => {
                    format!("{} over {}", cover.name(), small(&crate::text::list(&over)))
                }
                _ => format!("Cover it: {}", small(cover.name())),
            }
        } else if has(Verdict::NoneLeft) {
            "No cover is left for it".to_owned()
        } else if has(Verdict::PastSaving) {
            "No cover saves it: pick or move what you can".to_owned()
        } else if has(Verdict::InDoubt) {
            "Worth a thought; no cover needed".to_owned()
        } else {
            "No cover needed".to_owned()
        };
        let shown = self.crops.iter();
        let harm = shown.filter(|crop| crop.verdict != Verdict::Safe).map(harm);
        BedTold {
            figure: show(self.low_c),
            low: format!(
                "About {}, {} to {}{}",
                show(self.low_c),
                show(self.low_from_c),
                show(self.low_to_c),
                match self.nights {
                    0 => String::new(),
                    nights => format!("; by {} of its own", count(nights, "night", "nights")),
                }
            ),
            harm: harm.collect(),
            act,
            is_urgent: has(Verdict::Cover) || has(Verdict::NoneLeft) || has(Verdict::PastSaving),
        }
    }
}

fn name(crop: &'static str) -> &'static str {
    catalogue::crop(crop).map_or(crop, catalogue::Crop::name)
}

/// "24 leaf lettuce: harm on 5 in 10 such nights, under light fabric 4 in 10".
fn harm(crop: &AtCrop) -> String {
    let number = crop.count.map(|count| format!("{count} ")).unwrap_or_default();
    let cover = catalogue::cover(crop.cover.unwrap_or(crop.reckoned_with));
    capital(&format!(
        "{number}{}: harm {}",
        small(name(crop.crop)),
        bare_and_covered(crop.harm, crop.with_cover, cover)
    ))
}

/// "on 5 in 10 such nights, under light fabric 4 in 10".
pub(super) fn bare_and_covered(bare: f64, covered: f64, cover: Option<&Cover>) -> String {
    let (alone, less) = (odds(bare), odds(covered));
    let on = match alone.split_once(' ') {
        Some((many, _)) if many.parse::<u32>().is_ok() => format!("on {alone} such nights"),
        _ => alone.clone(),
    };
    let Some(cover) = cover else { return on };
    let under = small(cover.name());
    if alone == less {
        format!("{on}, under {under} hardly less")
    } else {
        format!("{on}, under {under} {less}")
    }
}

/// A chance as one says it, no finer than it is known: "3 in 10".
fn odds(chance: f64) -> String {
    let tenths = (chance * 10.0).round();
    match chance {
        0.95.. => "nearly certain".to_owned(),
        0.15.. => format!("{} in 10", show_number(tenths, 0)),
        0.07.. => "1 in 10".to_owned(),
        0.035.. => "1 in 20".to_owned(),
        0.026.. => "1 in 30".to_owned(),
        0.014.. => "1 in 50".to_owned(),
        _ => "hardly ever".to_owned(),
    }
}

/// How a bed runs beside the reference spot, or the forecast, as its own nights tell it: "On clear,
/// calm nights this bed runs about 2 °F colder than your open-air thermometer (5 nights)". Empty where it has told
/// nothing yet.
pub fn runs(bed: &Bed, garden: &Garden, system: System) -> Vec<String> {
    let past = from_record::nights(bed, garden);
    let said = |night: Night, kind: &str| {
        let usual = Usual::of(night, None, false);
        // Any air will do: the difference does not depend on it. The thermometer goes before the forecast.
        let any = Expected {
            low: Temperature::new::<fahrenheit>(32.0),
            sd: TemperatureInterval::new::<kelvin>(0.0),
            df: None,
        };
        let airs = [AirLow::Evening(any), AirLow::Forecast(any.low, 1)];
        let learned = airs.iter().map(|air| tonight(air, night, &past, &usual).difference);
        let learned = learned.into_iter().find(|it| it.nights > 0)?;
        let beside = match learned.against {
            Some(Against::Reference) => "your open-air thermometer",
            _ => "the forecast",
        };
        let far = learned.likely.get::<kelvin>();
        let by = if far.abs() < 0.25 {
            "much like".to_owned()
        } else if far < 0.0 {
            format!("about {} colder than", (-learned.likely).show(system))
        } else {
            format!("about {} warmer than", learned.likely.show(system))
        };
        Some(format!(
            "On {kind} this bed runs {by} {beside} ({})",
            count(learned.nights, "night", "nights")
        ))
    };
    [
        said(Night::ClearAndCalm, "clear, calm nights"),
        said(Night::Other, "nights with cloud or wind"),
    ]
    .into_iter()
    .flatten()
    .collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_chance_is_said_no_finer_than_it_is_known() {
        for (chance, words) in [
            (1.0, "nearly certain"),
            (0.5, "5 in 10"),
            (0.33, "3 in 10"),
            (0.1, "1 in 10"),
            (0.0, "hardly ever"),
        ] {
            assert_eq!(odds(chance), words);
        }
    }

    proptest! {
        /// What is said is less than half as much again, or as little, as what was computed.
        #[test]
        fn the_words_are_near_the_chance(chance in 0.014..0.949f64) {
            let words = odds(chance);
            let (some, of) = words.split_once(" in ").unwrap();
            let said = some.parse::<f64>().unwrap() / of.parse::<f64>().unwrap();
            prop_assert!((0.66..=1.5).contains(&(said / chance)), "{chance}: {words}");
        }
    }
}
