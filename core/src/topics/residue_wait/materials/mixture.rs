//! Several materials taken together: their carbon and nitrogen add up, their ratios never do.

use uom::si::{area::square_meter, f64::ArealMassDensity, mass::kilogram};

use super::amount::{Amount, Measure};
use crate::{
    catalogue::{Residue, ResidueKind, Toxins},
    given::words,
    quantity::{Area, Mass},
    topics::residue_wait::{
        balance::CarbonToNitrogen,
        limits::{Ends, Load},
    },
};

/// Dry matter guessed for a bed where no amount is given, kg/m2: that of a spent vegetable crop.
/// Common practice; it may be half or twice as much.
const GUESSED_KG_PER_M2: f64 = 0.3;

/// Least share of the dry matter from which a material's toxins count. Common practice.
const COUNTS: f64 = 0.1;

/// Manure of so much carbon for its nitrogen has bedding in it.
const BEDDING: f64 = 25.0;

words! {
    /// Whether an amount was taken as it was cut, or dried.
    pub enum State {
        /// As cut, with its water.
        Fresh = "fresh",
        /// Air-dry, dry to the touch: of a weight 85 in 100 is dry matter.
        Dry = "dry" => "dried crisp",
        /// Dried in an oven: a weight counts whole as dry matter.
        OvenDry = "oven-dry",
    }
}

words! {
    /// How far a plant had grown, where its name leaves that open.
    pub enum Stage {
        /// Green and soft.
        Soft = "soft" => "green and soft",
        /// Some of both.
        Mixed = "mixed",
        /// Woody.
        Woody = "woody" => "woody",
    }
}

/// One material as it was laid.
#[derive(Clone, Copy)]
pub struct Material {
    /// Which.
    pub residue: &'static Residue,
    /// How much, if that is known.
    pub amount: Option<Amount>,
    /// The measure taken by hand that it was told in, if it was.
    pub measure: Option<&'static Measure>,
    /// Fresh or dry; as it usually lies if not said.
    pub state: Option<State>,
    /// How far it had grown.
    pub stage: Stage,
}

impl Material {
    /// C:N, lowest, likely, highest.
    fn ratio(&self) -> [f64; 3] {
        let [soft, usual, woody] = self.residue.carbon_to_nitrogen();
        match self.stage {
            Stage::Soft => [soft * 0.9, soft, usual],
            Stage::Mixed => [soft, usual, woody],
            Stage::Woody => [usual, woody, woody * 1.1],
        }
    }

    /// Whether it takes part in the rotting that the model describes; wood does as the toughest of straw.
    fn counts(&self) -> bool {
        // Manure with bedding holds nitrogen as straw does; other manure does not.
        let [_, usual, _] = self.residue.carbon_to_nitrogen();
        match self.residue.kind() {
            ResidueKind::Plant | ResidueKind::Wood => true,
            ResidueKind::Manure => BEDDING <= usual,
            ResidueKind::Compost => false,
        }
    }

    /// Whether it was laid fresh and green.
    fn green(&self) -> bool {
        let plant = self.residue.kind() == ResidueKind::Plant;
        plant
            && !self.residue.lies_dry()
            && !matches!(self.state, Some(State::Dry | State::OvenDry))
    }
}

/// All materials together, on their area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mixture {
    /// What the limits need to know.
    pub load: Load,
    /// Dry matter, likely.
    pub dry: ArealMassDensity,
    /// Some amount was guessed.
    pub guessed: bool,
}

impl Mixture {
    /// Mixes the materials on an area above nothing; `None` if none of them is plant or wood.
    pub fn new(materials: &[Material], area: Area) -> Option<Self> {
        let counting: Vec<&Material> =
            materials.iter().filter(|material| material.counts()).collect();
        let square_metres = area.get::<square_meter>();
        let each = GUESSED_KG_PER_M2 * square_metres / counting.len() as f64;
        let dry = |material: &Material| match material.amount {
            Some(amount) => {
                let state = material.state.unwrap_or(State::Fresh);
                amount.dry_matter(material.residue, state, area).map(|mass| mass.get::<kilogram>())
            }
            None => [each / 2.0, each, each * 2.0],
        };
        let (mut carbon, mut likely_carbon, mut nitrogen) = ([0.0; 3], 0.0, [0.0; 3]);
        let mut all = 0.0;
        let (mut brassica, mut rye) = (0.0, 0.0);
        for material in &counting {
            let share = material.residue.carbon_share();
            let [low, likely, high] = dry(material);
            for (sum, mass) in carbon.iter_mut().zip([low, likely, high]) {
                *sum += mass * share;
            }
            likely_carbon += likely * share;
            for (sum, ratio) in nitrogen.iter_mut().zip(material.ratio()) {
                *sum += likely * share / ratio;
            }
            all += likely;
            if material.green() {
                match material.residue.toxins() {
                    Some(Toxins::Brassica) => brassica += likely,
                    Some(Toxins::Rye) => rye += likely,
                    None => {}
                }
            }
        }
        let [low, likely, high] =
            nitrogen.map(|nitrogen| CarbonToNitrogen::of(likely_carbon, nitrogen));
        let on_area = |kg: f64| Mass::new::<kilogram>(kg) / area;
        let [less, carbon, more] = carbon.map(on_area);
        Some(Self {
            load: Load {
                ratio: Ends { low: low?, likely: likely?, high: high? },
                carbon: Ends { low: less, likely: carbon, high: more },
                green: counting.iter().any(|material| material.green()),
                brassica: 0.0 < brassica && COUNTS * all <= brassica,
                rye: 0.0 < rye && COUNTS * all <= rye,
                fine: counting.iter().all(|material| material.residue.is_fine()),
            },
            dry: on_area(all),
            guessed: counting.iter().any(|material| material.amount.is_none()),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{catalogue::residue, given::Readable};
    use proptest::prelude::*;
    use uom::si::areal_mass_density::kilogram_per_square_meter;

    fn material(name: &str, amount: &str, state: Option<State>) -> Material {
        Material {
            residue: residue(name).ok().unwrap(),
            amount: Amount::read(amount).ok(),
            measure: None,
            state,
            stage: Stage::Mixed,
        }
    }

    fn square_metre() -> Area {
        Area::new::<square_meter>(1.0)
    }

    #[test]
    fn straw_weighed_air_dry_has_some_water_left() {
        let air_dry = [material("wheat straw", "1 kg", Some(State::Dry))];
        let air_dry = Mixture::new(&air_dry, square_metre()).unwrap();
        assert!((air_dry.dry.get::<kilogram_per_square_meter>() - 0.85).abs() < 1e-12);
        let straw = [material("wheat straw", "0.5 kg", Some(State::OvenDry))];
        let mixture = Mixture::new(&straw, square_metre()).unwrap();
        assert!((mixture.dry.get::<kilogram_per_square_meter>() - 0.5).abs() < 1e-12);
        assert_eq!(mixture.load.ratio.likely.get(), 80.0);
        assert!(!mixture.load.green);
    }

    #[test]
    fn an_amount_not_given_is_guessed_and_said() {
        let greens = [material("pea vines", "", None), material("lettuce", "", None)];
        let mixture = Mixture::new(&greens, square_metre()).unwrap();
        assert!(mixture.guessed);
        assert!((mixture.dry.get::<kilogram_per_square_meter>() - 0.3).abs() < 1e-12);
        assert!(mixture.load.green);
    }

    #[test]
    fn compost_and_manure_alone_hold_up_nothing() {
        let laid =
            [material("compost", "2 wheelbarrows", None), material("cow manure", "a bucket", None)];
        assert_eq!(Mixture::new(&laid, square_metre()), None);
    }

    #[test]
    fn a_leaf_of_cabbage_among_much_else_does_not_count() {
        let much =
            [material("tomato vines", "5 kg", None), material("cabbage leaves", "100 g", None)];
        assert!(!Mixture::new(&much, square_metre()).unwrap().load.brassica);
        let more =
            [material("tomato vines", "5 kg", None), material("cabbage leaves", "2 kg", None)];
        assert!(Mixture::new(&more, square_metre()).unwrap().load.brassica);
    }

    proptest! {
        #[test]
        fn the_ratio_of_a_mixture_lies_between_those_mixed(
            first in 0..crate::catalogue::residues().len(), second in 0..crate::catalogue::residues().len(),
            kg in 0.1..20.0, more_kg in 0.1..20.0,
        ) {
            let rows = crate::catalogue::residues();
            let one = |row: usize, kg: f64| Material {
                residue: &rows[row],
                amount: Some(Amount::Weight(Mass::new::<kilogram>(kg))),
                measure: None,
                state: None,
                stage: Stage::Mixed,
            };
            let (first, second) = (one(first, kg), one(second, more_kg));
            let ratio = |materials: &[Material]| {
                Mixture::new(materials, square_metre()).map(|mixture| mixture.load.ratio.likely.get())
            };
            if let (Some(a), Some(b)) = (ratio(&[first]), ratio(&[second])) {
                let mixed = ratio(&[first, second]).unwrap();
                prop_assert!(a.min(b) - 1e-9 <= mixed && mixed <= a.max(b) + 1e-9);
            }
        }
    }
}
