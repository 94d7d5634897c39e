//! What fits into the gaps that are left.
//!
//! Unlike neighbours keep the mean of their spacings (J. Jeavons, *How to Grow More Vegetables*), so
//! the widest filler at a place is, over all plants, the least of twice the distance less the
//! plant's own spacing (derived): in a square of four, 0.41 times theirs. Looked for on a grid.

use super::Filler;
use crate::bed::{Bed, Spot, TOLERANCE};
use crate::catalogue::{Crop, Family, Feeder, Habit, Height, Kind, Pick, crops};
use crate::layout::{Field, MOST_STANDING, Plant};
use crate::order;
use crate::plan::{Laid, Stood};
use crate::quantity::{Micrometres, System};

/// The closest fillers told: closer ones are sown, not set (common practice).
const CLOSEST: Micrometres = Micrometres::from_inches(3);
/// The widest: a wider gap holds another main crop (common practice).
const WIDEST: Micrometres = Micrometres::from_inches(12);
/// How many kinds of gaps are told.
const MOST_ROWS: usize = 3;
/// How many crops are named for each.
const MOST_NAMED: usize = 4;
/// The most points of the grid.
const MOST_POINTS: i64 = 4_000;

/// What fits into the gaps of a layout: the gaps with the crops that suit them.
pub(super) fn of(laid: &Laid, resting: &[Stood], system: System) -> Vec<Filler> {
    let placed = || laid.layout.plants.iter().flatten();
    if placed().next().is_none() {
        return Vec::new();
    }
    let plants: Vec<Plant> = laid.standing.iter().chain(placed()).copied().collect();
    let main: Vec<_> = laid.wanted.iter().filter_map(|wanted| wanted.row).collect();
    let families: Vec<_> = resting.iter().map(|stood| stood.0).collect();
    let suiting = |spacing| suiting(spacing, &main, &families);
    let suits = |spacing| !suiting(spacing).is_empty();
    gaps(&laid.bed, &plants, system, &suits)
        .iter()
        .map(|gaps| Filler {
            spacing_m: gaps.spacing.metres(),
            count: gaps.places.len() as u32,
            crops: suiting(gaps.spacing).iter().map(|crop| crop.id().to_owned()).collect(),
        })
        .collect()
}

/// Gaps of one width.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Gaps {
    /// The spacing that still fits.
    spacing: Micrometres,
    /// How many places there are.
    places: Vec<Spot>,
}

/// The gaps between plants that some crop suits, the widest first; those of one row leave no room for
/// another of it.
fn gaps(
    bed: &Bed,
    plants: &[Plant],
    system: System,
    suits: &dyn Fn(Micrometres) -> bool,
) -> Vec<Gaps> {
    let margin = bed.edge_margin().unwrap_or(CLOSEST);
    let Some(field) = Field::within(bed, margin) else {
        return Vec::new();
    };
    if plants.is_empty() || plants.len() > MOST_STANDING {
        return Vec::new();
    }
    let whole = system.whole_step();
    let mut points: Vec<(Spot, i64)> =
        grid(&field).into_iter().map(|spot| (spot, WIDEST.get())).collect();
    plants.iter().for_each(|plant| keep(&mut points, plant));
    let mut rows: Vec<Gaps> = Vec::new();
    let mut widest = WIDEST;
    while rows.len() < MOST_ROWS {
        let room = points.iter().map(|point| point.1).max().unwrap_or(0);
        let spacing = whole * room.min(widest.get()).div_euclid(whole.get());
        if spacing < CLOSEST {
            break;
        }
        widest = spacing - Micrometres::new(1);
        if !suits(spacing) {
            continue;
        }
        let mut places = Vec::new();
        for at in 0..points.len() {
            let Some(&(spot, room)) = points.get(at) else {
                break;
            };
            if room < spacing.get() {
                continue;
            }
            places.push(spot);
            keep(&mut points, &Plant::open(spot, spacing));
        }
        rows.push(Gaps { spacing, places });
    }
    rows
}

/// Lowers what fits at each point beside one more plant. Points stand in order along the bed; farther
/// along than this the widest filler fits anyway.
fn keep(points: &mut [(Spot, i64)], plant: &Plant) {
    let there = plant.site.spot;
    let reach = (WIDEST.get() + plant.spacing.get()) / 2 + 1;
    let before = |end: i64| points.partition_point(|(spot, _)| spot.along.get() < end);
    let near = before(there.along.get() - reach)..before(there.along.get() + reach);
    for (spot, room) in points.get_mut(near).unwrap_or_default() {
        let distance = (spot.square_to(&there) as f64).sqrt();
        // OK because no bed is longer than 31 m, and a fraction of a micrometre is nothing.
        let most = (2.0 * distance) as i64 - plant.spacing.get();
        *room = (*room).min(most);
    }
}

/// Points an inch apart, or farther on a large field.
fn grid(field: &Field) -> Vec<Spot> {
    let mut step = Micrometres::from_inches(1);
    let along = |step: Micrometres| field.length.get() / step.get() + 1;
    let across = |step: Micrometres| field.width.get() / step.get() + 1;
    while along(step) * across(step) > MOST_POINTS {
        step = Micrometres::new(step.get() * 5 / 4);
    }
    (0..along(step))
        .flat_map(|x| (0..across(step)).map(move |y| (x, y)))
        .map(|(x, y)| Spot {
            along: field.corner.along + step * x,
            across: field.corner.across + step * y,
        })
        .collect()
}

/// Crops for gaps of this width beside main crops, those that use it best first.
///
/// Of another family than the main crops and than those the bed rests from; low, or gone by half the
/// time the first main crop takes, when that closes over it; as hardy as the tenderest main crop.
/// Common practice.
fn suiting(spacing: Micrometres, main: &[&'static Crop], resting: &[Family]) -> Vec<&'static Crop> {
    let usual = |crop: &Crop| {
        let range = crop.spacing()?;
        Micrometres::from_length(range.usual)
    };
    let kin = |crop: &Crop| {
        main.iter().any(|main| {
            let families = [Some(main.family()), main.mixed_with()];
            families.contains(&Some(crop.family()))
        })
    };
    let closes = main.iter().filter_map(|main| Some(main.days_to_harvest()?.least / 2)).min();
    let gone = |crop: &Crop| {
        let ready = crop.days_to_harvest().map(|days| days.most);
        crop.pick() != Some(Pick::Repeat) && ready.zip(closes).is_some_and(|(by, at)| by <= at)
    };
    let tenderest = main.iter().map(|main| main.hardiness()).min();
    let mut suiting: Vec<&Crop> = crops()
        .iter()
        .filter(|crop| {
            usual(crop).is_some_and(|usual| usual <= spacing + TOLERANCE && usual * 2 > spacing)
                && crop.kind() != Kind::Cover
                && crop.habit() != Habit::Floppy
                && !kin(crop)
                && !resting.contains(&crop.family())
                && (crop.height() == Height::Low || gone(crop))
                && tenderest.is_none_or(|tenderest| crop.hardiness() >= tenderest)
        })
        .collect();
    order::sort(&mut suiting, &|crop| {
        let heavy = crop.feeder().unwrap_or(Feeder::Medium) as i64;
        [-usual(crop).map_or(0, Micrometres::get), heavy, 0]
    });
    suiting.truncate(MOST_NAMED);
    suiting
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing)]
mod tests {
    use super::*;
    use crate::catalogue::crop;
    use crate::layout::fixture::{inch, open_bed};

    fn plant(along: i64, across: i64, spacing: i64) -> Plant {
        Plant::open(Spot { along: inch(along), across: inch(across) }, inch(spacing))
    }

    /// The middle of four: (sqrt 2 - 1) times the spacing. Derived from Jeavons' mean.
    #[test]
    fn the_middle_of_a_square_takes_four_tenths_of_its_side() {
        for (side, filler) in [(18, 7), (24, 9)] {
            let bed = open_bed(side + 6, side + 6);
            let corners = [(3, 3), (3 + side, 3), (3, 3 + side), (3 + side, 3 + side)]
                .map(|(along, across)| plant(along, across, side));
            let rows = gaps(&bed, &corners, System::Us, &|_| true);
            assert_eq!(rows[0].spacing, inch(filler), "{side} in");
            assert_eq!(rows[0].places.len(), 1);
            assert_eq!(rows[0].places[0].along, inch(3 + side / 2));
        }
    }

    #[test]
    fn fillers_keep_their_distance_from_plants_and_from_each_other() {
        let bed = open_bed(96, 48);
        let plants = [(12, 12), (30, 30), (60, 20)].map(|(x, y)| plant(x, y, 18));
        let rows = gaps(&bed, &plants, System::Us, &|_| true);
        assert!(rows.windows(2).all(|pair| pair[0].spacing > pair[1].spacing));
        let mut all = plants.to_vec();
        for row in &rows {
            for spot in &row.places {
                for other in &all {
                    let apart = (row.spacing + other.spacing).get() / 2 - TOLERANCE.get() - 1;
                    assert!(spot.square_to(&other.site.spot) >= apart * apart);
                }
                all.push(Plant::open(*spot, row.spacing));
            }
        }
        assert!(all.len() > 20);
    }

    #[test]
    fn a_bed_full_of_small_plants_has_no_gaps() {
        let bed = open_bed(24, 24);
        let plants: Vec<Plant> =
            (0..7).flat_map(|x| (0..7).map(move |y| plant(3 + 3 * x, 3 + 3 * y, 3))).collect();
        assert_eq!(gaps(&bed, &plants, System::Us, &|_| true), []);
        assert_eq!(gaps(&bed, &[], System::Us, &|_| true), []);
    }

    /// Leaf lettuce, spinach and onions between cabbages: extension examples (K-State; Ellis 2008).
    #[test]
    fn what_suits_is_of_another_family_and_low_or_early() {
        let cabbage = crop("cabbage").ok().unwrap();
        let names: Vec<&str> =
            suiting(inch(7), &[cabbage], &[]).iter().map(|crop| crop.id()).collect();
        assert!(names.contains(&"lettuce-leaf") || names.contains(&"spinach"), "{names:?}");
        for spacing in 3..=12 {
            for found in suiting(inch(spacing), &[cabbage], &[Family::Lettuce]) {
                assert!(found.family() != Family::Cabbage && found.family() != Family::Lettuce);
                assert!(found.hardiness() >= cabbage.hardiness());
            }
        }
    }
}
