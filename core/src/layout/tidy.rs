//! The tidiest of the fullest layouts at emitters.
//!
//! Tried in this order, so that the answer is always the same: every k-th hole on all lines; the
//! same on every second, then every third line; zig-zag, with every second line moved by half of k
//! or by another number of holes; and each line moved on from the one before. Within each kind from
//! the closest k to twice that, first holes from the left.

use core::ops::RangeInclusive;

use super::arrangement::{Comb, Shift};
use super::geometry::too_near;
use crate::bed::{Site, Spot};
use crate::order;
use crate::quantity::Micrometres;

/// The holes of one line that can be used.
struct Line {
    number: Option<u16>,
    /// Hole numbers with their places in the caller's list.
    holes: Vec<(u16, usize)>,
}

/// The first comb with a number of plants in this range, and the places of its sites in the list.
pub(super) fn find(
    sites: &[Site],
    pitch: Micrometres,
    apart: Micrometres,
    plants: RangeInclusive<u32>,
) -> Option<(Comb, Vec<usize>)> {
    let lines = by_line(sites);
    let first_hole = first_hole(sites)?;
    let pitch = pitch.get().max(1);
    let closest = u16::try_from((apart.get() + pitch - 1).div_euclid(pitch).max(1)).ok()?;
    let all = u16::try_from(lines.len()).ok()?;
    let everies: Vec<Every> = (closest..=closest.saturating_mul(2))
        .map(|every| Every::new(every, &lines, sites))
        .collect();

    let kinds: [fn(u16) -> Vec<Shift>; 4] = [
        |_| vec![Shift::None],
        |every| {
            if every % 2 == 0 { vec![Shift::Alternate(every / 2)] } else { Vec::new() }
        },
        |every| (1..every).map(Shift::Alternate).collect(),
        |every| (1..every).map(Shift::Onward).collect(),
    ];
    for (kind, shifts) in kinds.iter().enumerate() {
        // Lines left out altogether only where that is simple to say.
        let most = if kind == 0 { all } else { all.min(2) };
        for every_line in 1..=most {
            for every in &everies {
                for shift in shifts(every.every) {
                    let places = |comb: &Comb| {
                        // The cheap looks first: hardly any comb passes them.
                        let may_do =
                            plants.contains(&every.count(comb)) && every.starts_apart(comb, apart);
                        let places = may_do.then(|| places(comb, &lines))?;
                        keeps_apart(sites, &places, apart).then_some(places)
                    };
                    for comb in combs(every.every, every_line, shift, first_hole) {
                        if let Some(places) = places(&comb) {
                            return Some((comb, places));
                        }
                    }
                }
            }
        }
    }
    None
}

/// Combs that differ by where they begin: first holes from the left, first lines from the near side.
fn combs(every: u16, every_line: u16, shift: Shift, first_hole: u16) -> impl Iterator<Item = Comb> {
    (first_hole..first_hole.saturating_add(every)).flat_map(move |first| {
        (0..every_line).map(move |first_line| Comb { every, first, every_line, first_line, shift })
    })
}

/// The leftmost hole number of any site.
pub(super) fn first_hole(sites: &[Site]) -> Option<u16> {
    sites.iter().filter_map(|site| site.hole).min()
}

/// The usable holes of each line by hole number modulo k: how many, and the first two.
struct Every {
    every: u16,
    on_lines: Vec<Vec<Class>>,
}

#[derive(Clone, Default)]
struct Class {
    count: u32,
    firsts: Vec<Spot>,
}

impl Every {
    fn new(every: u16, lines: &[Line], sites: &[Site]) -> Self {
        let on_lines = lines
            .iter()
            .map(|line| {
                let mut classes = vec![Class::default(); usize::from(every)];
                for &(hole, place) in &line.holes {
                    let class = classes.get_mut(usize::from(hole % every));
                    if let (Some(class), Some(site)) = (class, sites.get(place)) {
                        class.count += 1;
                        if class.firsts.len() < 2 {
                            class.firsts.push(site.spot);
                        }
                    }
                }
                classes
            })
            .collect();
        Self { every, on_lines }
    }

    /// The classes that a comb plants, line by line.
    fn planted(&self, comb: &Comb) -> impl Iterator<Item = &Class> {
        used(comb, &self.on_lines)
            .filter_map(|(classes, first)| classes.get(usize::from(first % self.every)))
    }

    fn count(&self, comb: &Comb) -> u32 {
        self.planted(comb).map(|class| class.count).sum()
    }

    /// Whether the first plants of each line keep their distance from those of the next.
    fn starts_apart(&self, comb: &Comb, apart: Micrometres) -> bool {
        self.planted(comb).zip(self.planted(comb).skip(1)).all(|(line, next)| {
            line.firsts
                .iter()
                .all(|one| next.firsts.iter().all(|other| !too_near(one, other, [apart; 2])))
        })
    }
}

/// The lines that a comb uses, each with the hole it counts from.
fn used<'a, T>(comb: &Comb, lines: &'a [T]) -> impl Iterator<Item = (&'a T, u16)> + use<'a, T> {
    let comb = *comb;
    lines
        .iter()
        .skip(usize::from(comb.first_line))
        .step_by(usize::from(comb.every_line.max(1)))
        .zip(0_u16..)
        .map(move |(line, turn)| (line, comb.first_on(turn)))
}

fn places(comb: &Comb, lines: &[Line]) -> Vec<usize> {
    let every = comb.every.max(1);
    used(comb, lines)
        .flat_map(|(line, first)| {
            line.holes
                .iter()
                .filter(move |hole| hole.0 % every == first % every)
                .map(|&(_, place)| place)
        })
        .collect()
}

fn by_line(sites: &[Site]) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    for (place, site) in sites.iter().enumerate() {
        let Some(hole) = site.hole else {
            continue;
        };
        match lines.last_mut().filter(|line| line.number == site.line) {
            Some(line) => line.holes.push((hole, place)),
            None => lines.push(Line { number: site.line, holes: vec![(hole, place)] }),
        }
    }
    lines
}

/// Whether these sites keep their distance from each other.
fn keeps_apart(sites: &[Site], places: &[usize], apart: Micrometres) -> bool {
    let mut spots: Vec<_> =
        places.iter().filter_map(|&place| sites.get(place)).map(|site| site.spot).collect();
    order::sort(&mut spots, &Spot::key);
    spots.iter().enumerate().all(|(at, spot)| {
        spots
            .iter()
            .skip(at + 1)
            .take_while(|other| other.along - spot.along < apart)
            .all(|other| !too_near(spot, other, [apart; 2]))
    })
}
