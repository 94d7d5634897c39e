//! Tonight's low at a bed: the air's low, and the difference of the bed as its past nights tell it.
//!
//! Two kinds of past night are kept apart. *Bed minus forecast* holds the forecast's own error;
//! *bed minus a reference thermometer* does not, so the forecast's error is added to it. Few nights
//! are shrunk toward what is usual ([`shrinkage`](crate::chance::shrinkage)); eight or more of the
//! first kind stand alone with their t distribution. Clear, calm nights and others are never mixed.

use uom::si::{length::inch, temperature_interval::degree_fahrenheit};

use super::{
    expected::{Expected, above},
    night::Night,
};
use crate::{
    chance::shrinkage::{Learned, Prior, Sample},
    order,
    quantity::{Length, Temperature, TemperatureInterval},
};

/// What a past night's low at the bed is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// The low that was forecast.
    Forecast,
    /// The low of the garden's reference thermometer.
    Reference,
}

/// One past night.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BedNight {
    /// What the bed is held against.
    pub against: Against,
    /// That low.
    pub other_low: Temperature,
    /// The low at the bed.
    pub bed_low: Temperature,
    /// What kind of night it was.
    pub night: Night,
}

/// How a bed differs from the air, before it has told anything itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usual {
    /// Bed minus air.
    pub difference: TemperatureInterval,
    /// How far beds differ from that, one standard deviation.
    pub sd: TemperatureInterval,
}

/// Night-to-night scatter of a bed's difference, °F, and how many nights that is worth (derived).
const SCATTER_F: f64 = 2.0;
const WORTH_NIGHTS: f64 = 4.0;

/// Standard deviation of a next day's forecast low, °F: highs were within 3 °F in 68 of 100 cases
/// in the United States in 2005, and lows are forecast worse; for each further day half a degree
/// more (derived).
const FORECAST_SD_F: f64 = 3.5;
const FORECAST_SD_A_DAY_F: f64 = 0.5;

/// From so many nights against the forecast on, they stand alone.
const ENOUGH_NIGHTS: u32 = 8;

/// The least scatter nights that stand alone are taken to have, °F: thermometers are read to a degree.
const LEAST_SCATTER_F: f64 = 0.5;

/// Bare soil kept night lows 0.9 to 2.2 °F higher than mulch or plants under trees did; this is the
/// middle (N. O'Connell and R. L. Snyder, *California Agriculture* 53(5), 1999).
const UNDER_RESIDUE_F: f64 = -1.5;

impl Usual {
    /// On such a night, for leaves at `height` (at 3 in if not known), with chopped residue on top or not.
    ///
    /// Clear and calm: -4 °F at 3 in beside 5 ft, where published clear nights run from -4 to -9;
    /// between the two heights on a logarithmic profile. Other nights: -0.5 °F. (Derived.)
    pub fn of(night: Night, height: Option<Length>, residue_on_top: bool) -> Self {
        const LEAF_IN: f64 = 3.0;
        const SCREEN_IN: f64 = 60.0;
        let height_in =
            height.map_or(LEAF_IN, |height| height.get::<inch>()).clamp(LEAF_IN, SCREEN_IN);
        let part = (SCREEN_IN / height_in).ln() / (SCREEN_IN / LEAF_IN).ln();
        let (difference_f, sd_f) = match night {
            Night::ClearAndCalm if residue_on_top => (-4.0 * part + UNDER_RESIDUE_F, 3.0),
            Night::ClearAndCalm => (-4.0 * part, 3.0),
            Night::Other => (-0.5 * part, 1.0),
        };
        Self { difference: interval(difference_f), sd: interval(sd_f) }
    }

    /// Under glass or plastic without heat: no figure was found in print, so none is assumed, and far
    /// less is known than of an open bed (derived).
    pub fn under_glass() -> Self {
        Self { difference: interval(0.0), sd: interval(5.0) }
    }
}

/// Tonight's low of the air, as far as it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AirLow {
    /// As it was forecast so many days before; 0 or 1 for tonight's.
    Forecast(Temperature, u32),
    /// As the evening tells it of the garden's own thermometer.
    Evening(Expected),
}

impl AirLow {
    /// The air's low and its error.
    pub fn expected(&self) -> Expected {
        match *self {
            Self::Evening(expected) => expected,
            Self::Forecast(low, days) => {
                let more = f64::from(days.saturating_sub(1)) * FORECAST_SD_A_DAY_F;
                Expected { low, sd: interval(FORECAST_SD_F + more), df: None }
            }
        }
    }
}

/// How a bed's difference is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Bed minus air, the likely value.
    pub likely: TemperatureInterval,
    /// What its own nights were held against; `None` where it has none of this kind.
    pub against: Option<Against>,
    /// How many of its own nights counted.
    pub nights: u32,
}

/// Tonight's low at a bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BedLow {
    /// The low.
    pub expected: Expected,
    /// The bed's difference from the air.
    pub difference: Difference,
}

/// Tonight's low at a bed, from the air's, on this kind of night, by the bed's past nights of the
/// same kind and what is usual.
///
/// Nights against the forecast are taken where they are at least as many as those against the
/// reference and tonight's low is a forecast; they then hold its error already.
pub fn tonight(air: &AirLow, night: Night, past: &[BedNight], usual: &Usual) -> BedLow {
    let differences = |against: Against| -> Vec<f64> {
        past.iter()
            .filter(|one| one.night == night && one.against == against)
            .map(|one| above(one.bed_low, one.other_low).get::<degree_fahrenheit>())
            .collect()
    };
    let forecast = Sample::of(&differences(Against::Forecast));
    let reference = Sample::of(&differences(Against::Reference));
    let (usual_f, usual_sd_f) =
        (usual.difference.get::<degree_fahrenheit>(), usual.sd.get::<degree_fahrenheit>());
    let prior =
        |scatter: f64| Prior { mean: usual_f, mean_sd: usual_sd_f, scatter, worth: WORTH_NIGHTS };
    let air_low = air.expected();
    let by_forecast = forecast.count > 0 && forecast.count >= reference.count;
    let (against, sample, expected, likely_f) = match *air {
        AirLow::Forecast(low, _) if by_forecast => {
            // The forecast's error of a night ahead is in the nights; what an older one adds is not.
            let fresh_f = FORECAST_SD_F;
            let older_f = (air_low.sd.get::<degree_fahrenheit>().powi(2) - fresh_f.powi(2)).sqrt();
            let sure = Expected { low, sd: interval(older_f), df: None };
            if forecast.count >= ENOUGH_NIGHTS {
                let scatter_f = forecast.sd_of_the_next().max(LEAST_SCATTER_F);
                let moved = sure.moved(interval(forecast.mean), interval(scatter_f));
                let df = Some(forecast.df());
                (Against::Forecast, forecast, Expected { df, ..moved }, forecast.mean)
            } else {
                let learned = prior(SCATTER_F.hypot(fresh_f)).learn(&forecast);
                let moved = sure.moved(interval(learned.mean), next_sd(&learned));
                (Against::Forecast, forecast, moved, learned.mean)
            }
        }
        _ => {
            let learned = prior(SCATTER_F).learn(&reference);
            let moved = air_low.moved(interval(learned.mean), next_sd(&learned));
            (Against::Reference, reference, moved, learned.mean)
        }
    };
    BedLow {
        expected,
        difference: Difference {
            likely: interval(likely_f),
            against: (sample.count > 0).then_some(against),
            nights: sample.count,
        },
    }
}

/// Tonight's low at a bed where the night is partly like a clear, calm one, 0 to 1, and `of` gives it for
/// either kind of night: their mean, with the doubt of both and of which it will be.
pub fn between(clear_part: f64, of: &dyn Fn(Night) -> BedLow) -> BedLow {
    let share = order::between(clear_part, 0.0, 1.0);
    if share >= 1.0 {
        return of(Night::ClearAndCalm);
    }
    let other = of(Night::Other);
    if share <= 0.0 {
        return other;
    }
    let clear = of(Night::ClearAndCalm);
    let mean = |clear: f64, other: f64| share * clear + (1.0 - share) * other;
    let f = |it: TemperatureInterval| it.get::<degree_fahrenheit>();
    let apart = above(clear.expected.low, other.expected.low);
    let variance = mean(f(clear.expected.sd).powi(2), f(other.expected.sd).powi(2))
        + share * (1.0 - share) * f(apart).powi(2);
    let (one, two) = (clear.difference, other.difference);
    BedLow {
        expected: Expected {
            low: other.expected.low + apart * share,
            sd: interval(variance.sqrt()),
            df: None,
        },
        difference: Difference {
            likely: interval(mean(f(one.likely), f(two.likely))),
            against: one.against.or(two.against),
            nights: one.nights + two.nights,
        },
    }
}

/// Standard deviation of the next night's difference.
fn next_sd(learned: &Learned) -> TemperatureInterval {
    interval(learned.scatter.hypot(learned.mean_sd))
}

fn interval(degrees_f: f64) -> TemperatureInterval {
    TemperatureInterval::new::<degree_fahrenheit>(degrees_f)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::air::{celsius, of_celsius};
    use proptest::prelude::*;
    use uom::si::thermodynamic_temperature::degree_fahrenheit as fahrenheit;

    fn at(degrees_f: f64) -> Temperature {
        Temperature::new::<fahrenheit>(degrees_f)
    }

    fn past(differences_f: &[f64], against: Against, night: Night) -> Vec<BedNight> {
        let one = |difference: &f64| BedNight {
            against,
            other_low: at(40.0),
            bed_low: at(40.0 + difference),
            night,
        };
        differences_f.iter().map(one).collect()
    }

    const CLEAR: Night = Night::ClearAndCalm;

    #[test]
    fn a_cloudy_night_learns_nothing_from_clear_ones() {
        let usual = Usual::of(Night::Other, None, false);
        let clear = past(&[-9.0; 12], Against::Reference, CLEAR);
        let air = AirLow::Forecast(at(38.0), 1);
        assert_eq!(
            tonight(&air, Night::Other, &clear, &usual),
            tonight(&air, Night::Other, &[], &usual)
        );
    }

    #[test]
    fn an_evening_s_own_thermometer_is_not_held_against_forecasts() {
        let usual = Usual::of(CLEAR, None, false);
        let nights = past(&[-9.0; 12], Against::Forecast, CLEAR);
        let evening = AirLow::Evening(AirLow::Forecast(at(38.0), 1).expected());
        assert_eq!(tonight(&evening, CLEAR, &nights, &usual).difference.nights, 0);
    }

    #[test]
    fn an_old_forecast_is_less_sure() {
        let usual = Usual::of(CLEAR, None, false);
        for count in [0, 3, 9] {
            let nights = past(&[-3.0, -5.0, -4.0].repeat(3)[..count], Against::Forecast, CLEAR);
            let sd = |days| {
                tonight(&AirLow::Forecast(at(38.0), days), CLEAR, &nights, &usual).expected.sd
            };
            assert!(sd(1) < sd(3) && sd(3) < sd(6), "{count}");
            assert_eq!(sd(0), sd(1));
        }
    }

    #[test]
    fn residue_on_top_makes_the_bed_colder_and_height_warmer() {
        let difference = |height, residue| {
            let usual = Usual::of(CLEAR, height, residue);
            usual.difference.get::<degree_fahrenheit>()
        };
        assert!((difference(None, false) + 4.0).abs() < 1e-9);
        assert!((difference(None, true) + 5.5).abs() < 1e-9);
        assert!(difference(Some(Length::new::<inch>(60.0)), false).abs() < 1e-9);
        let knee = difference(Some(Length::new::<inch>(20.0)), false);
        assert!((-2.0..-1.0).contains(&knee), "{knee}");
    }

    #[test]
    fn nights_all_alike_do_not_make_it_certain() {
        let nights = past(&[-4.0; 20], Against::Forecast, CLEAR);
        let low =
            tonight(&AirLow::Forecast(at(36.0), 1), CLEAR, &nights, &Usual::of(CLEAR, None, false));
        assert!(low.expected.chance_below(at(31.0)) > 0.0);
    }

    proptest! {
        #[test]
        fn a_night_between_lies_between(part in 0.0..1.0f64, forecast_f in 10.0..60.0f64) {
            let air = AirLow::Forecast(at(forecast_f), 1);
            let of = |night: Night| tonight(&air, night, &[], &Usual::of(night, None, false));
            let low = |part| celsius(between(part, &of).expected.low);
            prop_assert!(low(1.0) <= low(part) && low(part) <= low(0.0));
            prop_assert_eq!(between(1.0, &of), of(CLEAR));
            prop_assert_eq!(between(0.0, &of), of(Night::Other));
        }

        #[test]
        fn more_nights_make_the_bed_surer(difference in -8.0..2.0f64, few in 1..4usize, more in 4..7usize) {
            let low = |count: usize| {
                let nights = past(&vec![difference; count], Against::Reference, CLEAR);
                tonight(&AirLow::Forecast(at(38.0), 1), CLEAR, &nights, &Usual::of(CLEAR, None, false))
            };
            prop_assert!(low(few + more).expected.sd < low(few).expected.sd);
            let far = |count| (low(count).difference.likely.get::<degree_fahrenheit>() - difference).abs();
            prop_assert!(far(few + more) <= far(few) + 1e-9);
        }

        #[test]
        fn a_warmer_forecast_is_a_warmer_bed(
            forecast_f in 10.0..60.0f64, more in 0.1..20.0f64,
            differences in prop::collection::vec(-9.0..3.0f64, 0..12), clear: bool,
        ) {
            let night = if clear { CLEAR } else { Night::Other };
            let nights = past(&differences, Against::Forecast, night);
            let usual = Usual::of(night, None, false);
            let low = |f| tonight(&AirLow::Forecast(at(f), 1), night, &nights, &usual).expected;
            prop_assert!(celsius(low(forecast_f).low) < celsius(low(forecast_f + more).low));
            prop_assert!(low(forecast_f).chance_below(of_celsius(0.0)) >= low(forecast_f + more).chance_below(of_celsius(0.0)));
        }
    }
}
