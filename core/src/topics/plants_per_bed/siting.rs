//! Where each crop stands best, among layouts with the same number of plants of each.
//!
//! None of this ever costs a plant. Often-picked crops go near the sides one can reach; tall ones to
//! the pole's side, where their shadow falls outside (Montana State University Extension, MT199502AG:
//! tall plants on the north side); heavy feeders not beside each other (common practice).

use crate::bed::{Bed, Spot};
use crate::catalogue::{Crop, Feeder, Height, Pick};
use crate::layout::Plant;
use crate::plan::Laid;
use crate::quantity::Micrometres;
use crate::text::{capital, list};

/// In micrometres.
const MILLIMETRE: i64 = 1_000;
/// What two heavy feeders side by side weigh, in millimetres of a plant's way to its better place.
const SIDE_BY_SIDE: i64 = 200;

/// What is known of the place and the crops.
pub(super) struct Siting<'a> {
    bed: &'a Bed,
    /// Toward the pole: so much along and so much across, in thousandths; nothing if not known.
    pole: Option<(i64, i64)>,
    /// Whether the pole is the south one.
    south: bool,
    crops: Vec<Traits>,
}

/// What matters of one crop.
#[derive(Clone, Copy)]
struct Traits {
    spacing: Micrometres,
    often: bool,
    /// 0 for low ones to 3.
    height: i64,
    heavy: bool,
}

impl<'a> Siting<'a> {
    /// What is known; `south` where the half of the world is.
    pub(super) fn new(
        bed: &'a Bed,
        south: Option<bool>,
        crops: impl Iterator<Item = (Option<&'static Crop>, Micrometres)>,
    ) -> Self {
        let pole = bed.faces().zip(south).map(|(faces, south)| {
            let toward = if south { 180.0 } else { 0.0 };
            let turn = f64::from(faces.degrees()) - toward;
            let part = |degrees: f64| (degrees.to_radians().cos() * 1_000.0).round() as i64;
            // The far side lies where one looks, the right end a quarter turn on from there.
            (part(turn + 90.0), part(turn))
        });
        let crops = crops
            .map(|(row, spacing)| Traits {
                spacing,
                often: row.is_some_and(|row| matches!(row.pick(), Some(Pick::Repeat | Pick::Cut))),
                height: row.map_or(Height::Medium, Crop::height) as i64,
                heavy: row
                    .and_then(Crop::feeder)
                    .is_some_and(|feeder| feeder >= Feeder::MediumToHeavy),
            })
            .collect();
        Self { bed, pole, south: south == Some(true), crops }
    }

    /// From a plant to the nearest side one can reach it from, in millimetres.
    fn arm(&self, spot: Spot) -> i64 {
        let reach = self.bed.reach();
        let sides = [
            (reach.near, spot.across),
            (reach.far, self.bed.width() - spot.across),
            (reach.left, spot.along),
            (reach.right, self.bed.length() - spot.along),
        ];
        let ways = sides.iter().filter(|side| side.0).map(|side| side.1.get());
        ways.min().unwrap_or(0) / MILLIMETRE
    }

    /// How far a plant stands toward the pole from the middle of the bed, in millimetres.
    fn poleward(&self, spot: Spot) -> i64 {
        let (along, across) = self.pole.unwrap_or((0, 0));
        let from_middle =
            |place: Micrometres, side: Micrometres| (place.get() - side.get() / 2) / MILLIMETRE;
        (from_middle(spot.along, self.bed.length()) * along
            + from_middle(spot.across, self.bed.width()) * across)
            / 1_000
    }

    /// Pairs of heavy feeders of different crops that stand beside each other.
    fn side_by_side(&self, plants: &[Vec<Plant>]) -> i64 {
        let heavy = self.crops.iter().zip(plants).filter(|(traits, _)| traits.heavy);
        let mut pairs = 0;
        for (at, (one, own)) in heavy.clone().enumerate() {
            for (other, others) in heavy.clone().skip(at + 1) {
                // Beside each other: nothing fits between.
                let mean = (one.spacing + other.spacing).get() / 2;
                let near = |one: &Plant, other: &Plant| {
                    one.site.spot.square_to(&other.site.spot) * 4 < mean * mean * 9
                };
                let beside = |plant: &Plant| others.iter().filter(|it| near(plant, it)).count();
                pairs += own.iter().map(beside).sum::<usize>();
            }
        }
        i64::try_from(pairs).unwrap_or(i64::MAX)
    }

    /// The better a layout, the greater.
    pub(super) fn score(&self, plants: &[Vec<Plant>]) -> i64 {
        let each = self.crops.iter().zip(plants).map(|(traits, plants)| {
            let of = |plant: &Plant| {
                let reach = if traits.often { self.arm(plant.site.spot) } else { 0 };
                traits.height * self.poleward(plant.site.spot) - reach
            };
            plants.iter().map(of).sum::<i64>()
        });
        each.sum::<i64>() - SIDE_BY_SIDE * self.side_by_side(plants)
    }

    /// The mean over the plants of the crops chosen; nothing where there are none.
    fn mean(
        &self,
        laid: &Laid,
        chosen: &dyn Fn(&Traits) -> bool,
        of: &dyn Fn(Spot) -> i64,
    ) -> Option<i64> {
        let crops = self.crops.iter().zip(&laid.layout.plants);
        let own = crops.filter(|(traits, _)| chosen(traits)).flat_map(|(_, plants)| plants);
        let add = |(sum, count), plant: &Plant| (sum + of(plant.site.spot), count + 1);
        let (sum, count) = own.fold((0, 0), add);
        (count > 0).then(|| sum / count)
    }

    /// The aims that the layout meets, as sentences.
    pub(super) fn told(&self, laid: &Laid) -> Vec<String> {
        let mean = |chosen: &dyn Fn(&Traits) -> bool, of: &dyn Fn(Spot) -> i64| {
            self.mean(laid, chosen, of)
        };
        let names = |chosen: &dyn Fn(&Traits) -> bool| {
            let crops = self.crops.iter().zip(&laid.wanted).zip(&laid.layout.counts);
            let own = crops.filter(|((traits, _), count)| **count > 0 && chosen(traits));
            list(&own.map(|((_, wanted), _)| wanted.name()).collect::<Vec<_>>())
        };
        let mut told = Vec::new();
        let arm = |spot: Spot| self.arm(spot);
        let reached = mean(&|crop| crop.often, &arm).zip(mean(&|crop| !crop.often, &arm));
        if reached.is_some_and(|(often, seldom)| often < seldom) {
            let often = names(&|crop| crop.often);
            told.push(format!(
                "{}, picked often, nearer to the sides you can reach.",
                capital(&often)
            ));
        }
        let grown = self.crops.iter().zip(&laid.layout.plants);
        let grown = grown.filter(|(_, plants)| !plants.is_empty());
        let tallest = grown.map(|(traits, _)| traits.height).max().unwrap_or(0);
        let poleward = |spot: Spot| self.poleward(spot);
        let heights = mean(&|crop| crop.height == tallest, &poleward)
            .zip(mean(&|crop| crop.height < tallest, &poleward));
        if heights.is_some_and(|(tall, low)| tall > low + 100) {
            let side = if self.south { "south" } else { "north" };
            told.push(format!(
                "{}, the tallest, to the {side}, where the shade falls outside.",
                capital(&names(&|crop| crop.height == tallest))
            ));
        }
        let heavy = self.crops.iter().zip(&laid.layout.counts);
        let heavy = heavy.filter(|(traits, count)| traits.heavy && **count > 0);
        if heavy.count() > 1 && self.side_by_side(&laid.layout.plants) == 0 {
            told.push("No two heavy feeders side by side.".to_owned());
        }
        told
    }
}
