//! Nitrogen to give a bed so that its next crop need not wait for what the rotting holds.

use uom::si::{
    areal_mass_density::gram_per_square_meter,
    f64::{Area, ArealMassDensity, Mass, Ratio},
};

use super::{
    balance::{CarbonToNitrogen, Placement, RotAge},
    course::followed,
    limits::holds_nitrogen,
};

/// Debts below this are left alone: vegetables take up 10 to 20 g/m2. Design choice.
const NOT_WORTH_FEEDING: f64 = 1.0;

/// Most nitrogen to give at once beside seed or young roots, all of it counted: 0.2 lb on 100 sq ft.
/// Common practice.
const SAFE_AT_ONCE: f64 = 9.765;

/// More than this is not fed: two safe givings of a meal, of whose nitrogen 0.6 comes free (derived).
const TOO_MUCH_TO_FEED: f64 = 2.0 * SAFE_AT_ONCE * 0.6;

/// Available nitrogen to add now so that the crop lacks none, from the age reached on.
///
/// Nothing for what lies on top: it holds little, away from the roots. Nothing below C:N 18 ("to be safe" is no reason: soft greens set nitrogen free), and nothing
/// where the debt is too small to matter. `touch` is the share of the rate that a layer's touch with
/// the soil leaves it, see [`contact`](super::clock::contact).
pub fn to_add(
    ratio: CarbonToNitrogen,
    placement: Placement,
    carbon: ArealMassDensity,
    touch: f64,
    age: RotAge,
) -> ArealMassDensity {
    let debt = carbon * followed(ratio, placement, touch).debt_from(age);
    let on_top = placement == Placement::OnTop;
    if !on_top
        && holds_nitrogen(ratio, placement)
        && NOT_WORTH_FEEDING <= debt.get::<gram_per_square_meter>()
    {
        debt
    } else {
        ArealMassDensity::default()
    }
}

/// Whether so much can be fed at all: else most of the residue has to come out.
pub fn can_be_fed(need: ArealMassDensity) -> bool {
    need.get::<gram_per_square_meter>() <= TOO_MUCH_TO_FEED
}

/// Into how many equal parts a residue that can't be fed for is split, so that one of them can be: two
/// safe givings of a meal half of whose nitrogen comes free.
pub fn split(need: ArealMassDensity) -> u32 {
    // OK because no bed needs billions of givings.
    ((need.get::<gram_per_square_meter>() / SAFE_AT_ONCE).ceil() as u32).max(2)
}

/// A product in the weights that a bed takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dose {
    /// To give now: never more than is safe beside seed.
    pub now: Mass,
    /// To give two or three weeks later, where the whole is too much at once.
    pub later: Mass,
}

/// The weights of a product that make so much nitrogen available; nothing where two safe givings of
/// it are too little.
///
/// `nitrogen` is the product's share of nitrogen, `available` the share of that which plants can
/// take within four to eight weeks; both above 0.
pub fn dose(need: ArealMassDensity, area: Area, nitrogen: Ratio, available: Ratio) -> Option<Dose> {
    let whole = need / available;
    let safe = ArealMassDensity::new::<gram_per_square_meter>(SAFE_AT_ONCE);
    let now = if whole <= safe { whole } else { safe };
    let later = whole - now;
    // A hair above is a rounding, not a risk.
    (later <= safe * (1.0 + 1e-9))
        .then(|| Dose { now: now * area / nitrogen, later: later * area / nitrogen })
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::{area::square_meter, mass::gram, ratio};

    fn percent(share: f64) -> Ratio {
        Ratio::new::<ratio::percent>(share)
    }

    fn density(g_per_m2: f64) -> ArealMassDensity {
        ArealMassDensity::new::<gram_per_square_meter>(g_per_m2)
    }

    fn add(ratio: f64, placement: Placement, carbon: f64, age: f64) -> f64 {
        let ratio = CarbonToNitrogen::new(ratio).unwrap();
        to_add(ratio, placement, density(carbon), 1.0, RotAge::days_at_15_c(age))
            .get::<gram_per_square_meter>()
    }

    #[test]
    fn soft_greens_are_never_fed_to_be_safe() {
        for ratio in [8.0, 11.0, 15.0, 17.9] {
            for placement in [Placement::OnTop, Placement::WorkedIn] {
                assert_eq!(add(ratio, placement, 5000.0, 0.0), 0.0);
            }
        }
    }

    #[test]
    fn a_little_straw_is_not_worth_feeding_for() {
        assert_eq!(add(80.0, Placement::WorkedIn, 30.0, 0.0), 0.0);
        assert!(add(80.0, Placement::WorkedIn, 60.0, 0.0) > 1.0);
    }

    #[test]
    fn no_more_is_given_at_once_than_is_safe_beside_seed() {
        let area = Area::new::<square_meter>(3.0);
        let twice = dose(density(9.0), area, percent(12.0), percent(60.0)).unwrap();
        assert!((twice.now.get::<gram>() - 9.765 * 3.0 / 0.12).abs() < 1e-6);
        assert!(((twice.now + twice.later).get::<gram>() - 15.0 * 3.0 / 0.12).abs() < 1e-6);
        assert_eq!(dose(density(12.0), area, percent(12.0), percent(60.0)), None);
        for need in 1..60 {
            let need = density(f64::from(need) / 5.0);
            assert_eq!(can_be_fed(need), dose(need, area, percent(12.0), percent(60.0)).is_some());
        }
    }
}
