//! Where each crop stands best, among layouts with the same number of plants of each.
//!
//! None of this ever costs a plant. Often-picked crops go near the sides one can reach; tall ones to
//! the pole's side, where their shadow falls outside (Montana State University Extension, MT199502AG:
//! tall plants on the north side); heavy feeders not beside each other (common practice).

use super::Placed;
use super::how_many::Laid;
use super::spot::Spot;
use crate::bed::Bed;
use crate::catalogue::{Crop, Feeder, Height, Pick};
use crate::quantity::Micrometres;
use crate::text::{capital, list};

/// In micrometres.
const MILLIMETRE: i64 = 1_000;
/// What two heavy feeders side by side weigh, in millimetres of a plant's way to its better place.
const SIDE_BY_SIDE: i64 = 200;

/// What is known of the place and the crops.
pub(super) struct Sense<'a> {
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

impl<'a> Sense<'a> {
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
    fn arm(&self, plant: &Placed) -> i64 {
        let reach = self.bed.reach();
        let sides = [
            (reach.near, plant.across),
            (reach.far, self.bed.width() - plant.across),
            (reach.left, plant.along),
            (reach.right, self.bed.length() - plant.along),
        ];
        let ways = sides.iter().filter(|side| side.0).map(|side| side.1.get());
        ways.min().unwrap_or(0) / MILLIMETRE
    }

    /// How far a plant stands toward the pole from the middle of the bed, in millimetres.
    fn poleward(&self, plant: &Placed) -> i64 {
        let (along, across) = self.pole.unwrap_or((0, 0));
        let from_middle =
            |place: Micrometres, side: Micrometres| (place.get() - side.get() / 2) / MILLIMETRE;
        (from_middle(plant.along, self.bed.length()) * along
            + from_middle(plant.across, self.bed.width()) * across)
            / 1_000
    }

    fn traits(&self, plant: &Placed) -> Option<&Traits> {
        self.crops.get(plant.want)
    }

    /// Pairs of heavy feeders of different crops that stand beside each other.
    fn side_by_side(&self, placed: &[Placed]) -> i64 {
        let mut pairs = 0;
        let heavy = |plant: &&Placed| self.traits(plant).is_some_and(|traits| traits.heavy);
        for (at, one) in placed.iter().enumerate().filter(|(_, plant)| heavy(plant)) {
            let others = placed.iter().skip(at + 1).filter(heavy);
            for other in others.filter(|other| other.want != one.want) {
                let mean = self.traits(one).zip(self.traits(other));
                let mean = mean.map_or(0, |(a, b)| (a.spacing + b.spacing).get() / 2);
                let spot = |plant: &Placed| Spot { along: plant.along, across: plant.across };
                // Beside each other: nothing fits between.
                pairs += i64::from(spot(one).square_to(&spot(other)) * 4 < mean * mean * 9);
            }
        }
        pairs
    }

    /// The better a layout, the greater.
    pub(super) fn score(&self, placed: &[Placed]) -> i64 {
        let each = placed.iter().map(|plant| {
            let Some(traits) = self.traits(plant) else {
                return 0;
            };
            let reach = if traits.often { self.arm(plant) } else { 0 };
            traits.height * self.poleward(plant) - reach
        });
        each.sum::<i64>() - SIDE_BY_SIDE * self.side_by_side(placed)
    }

    /// The aims that the layout meets, as sentences.
    pub(super) fn told(&self, laid: &Laid<'_>) -> Vec<String> {
        let placed = &laid.layout.placed;
        let mean = |chosen: &dyn Fn(&Traits) -> bool, of: &dyn Fn(&Placed) -> i64| {
            let own = placed.iter().filter(|plant| self.traits(plant).is_some_and(chosen));
            let (sum, count) = own.fold((0, 0), |(sum, count), plant| (sum + of(plant), count + 1));
            (count > 0).then(|| sum / count)
        };
        let names = |chosen: &dyn Fn(&Traits) -> bool| {
            let crops = self.crops.iter().zip(&laid.wanted).zip(&laid.layout.counts);
            let own = crops.filter(|((traits, _), count)| **count > 0 && chosen(traits));
            list(&own.map(|((_, wanted), _)| wanted.name()).collect::<Vec<_>>())
        };
        let mut told = Vec::new();
        let arm = |plant: &Placed| self.arm(plant);
        let reached = mean(&|crop| crop.often, &arm).zip(mean(&|crop| !crop.often, &arm));
        if reached.is_some_and(|(often, seldom)| often < seldom) {
            let often = names(&|crop| crop.often);
            told.push(format!(
                "{}, picked often, nearer to the sides you can reach.",
                capital(&often)
            ));
        }
        let grown = |plant: &&Placed| self.traits(plant).map_or(0, |traits| traits.height);
        let tallest = placed.iter().map(|plant| grown(&plant)).max().unwrap_or(0);
        let poleward = |plant: &Placed| self.poleward(plant);
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
        if heavy.count() > 1 && self.side_by_side(placed) == 0 {
            told.push("No two heavy feeders side by side.".to_owned());
        }
        told
    }
}
