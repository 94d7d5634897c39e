//! What a low does to a crop.

use super::expected::Expected;
use crate::{
    catalogue::{Crop, Hardiness},
    quantity::{Temperature, TemperatureInterval},
};
use uom::si::thermodynamic_temperature::degree_fahrenheit;

/// The leaf temperature below which such plants are lost.
///
/// Of plants used to the cold: what kills at its stage, where that is known; else the crop's own killing
/// temperature, or its class's serious loss. Of plants that are not: not below the serious loss of the
/// class one step more tender (derived).
pub fn lost_below(crop: &Crop, hardened: bool, at_its_stage: Option<Temperature>) -> Temperature {
    let used_to_it =
        at_its_stage.or(crop.kill_temperature()).unwrap_or_else(|| crop.hardiness().serious_loss());
    if hardened {
        return used_to_it;
    }
    let tenderer = match crop.hardiness() {
        Hardiness::Chilling | Hardiness::Tender => Hardiness::Chilling,
        Hardiness::HalfHardy => Hardiness::Tender,
        Hardiness::Hardy => Hardiness::HalfHardy,
        Hardiness::VeryHardy => Hardiness::Hardy,
    };
    let loss = tenderer.serious_loss();
    if used_to_it < loss { loss } else { used_to_it }
}

/// 28 °F, from which on the National Weather Service speaks of a hard freeze.
pub fn hard_freeze() -> Temperature {
    Temperature::new::<degree_fahrenheit>(28.0)
}

/// Whether frosts of this night are left to the plants: used to the cold, of a class that comes
/// through hard frosts, and the air over a bed that differs as beds usually do stays above a
/// [`hard_freeze`].
///
/// Growers leave kale, cabbage, leek and chard alone at 29 °F (common practice), although single
/// kinds are hurt sooner.
pub fn comes_through(
    crop: &Crop,
    hardened: bool,
    bed: &Expected,
    usual_difference: TemperatureInterval,
) -> bool {
    hardened && crop.hardiness() >= Hardiness::Hardy && bed.low - usual_difference > hard_freeze()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{crop, crops};
    use uom::si::temperature_interval;

    fn known(id: &str) -> &'static Crop {
        crop(id).ok().unwrap()
    }

    fn expected(low_f: f64) -> Expected {
        Expected {
            low: Temperature::new::<degree_fahrenheit>(low_f),
            sd: TemperatureInterval::new::<temperature_interval::degree_fahrenheit>(5.0),
            df: None,
        }
    }

    #[test]
    fn plants_not_used_to_the_cold_are_lost_sooner_or_at_the_same() {
        for crop in crops() {
            assert!(lost_below(crop, false, None) >= lost_below(crop, true, None), "{}", crop.id());
        }
        let f =
            |id, hardened| lost_below(known(id), hardened, None).get::<degree_fahrenheit>().round();
        assert_eq!((f("tomato", true), f("tomato", false)), (32.0, 35.0));
        assert_eq!((f("kale", true), f("kale", false)), (10.0, 20.0));
        assert_eq!((f("broccoli", true), f("broccoli", false)), (22.0, 31.0));
    }

    #[test]
    fn chard_kale_cabbage_and_leek_need_nothing_at_29() {
        let usual = TemperatureInterval::new::<temperature_interval::degree_fahrenheit>(-4.0);
        for id in ["chard", "kale", "cabbage", "leek"] {
            assert!(comes_through(known(id), true, &expected(25.0), usual), "{id}");
            assert!(!comes_through(known(id), true, &expected(21.0), usual), "{id}");
            assert!(!comes_through(known(id), false, &expected(25.0), usual), "{id}");
        }
        assert!(!comes_through(known("tomato"), true, &expected(40.0), usual));
    }
}
