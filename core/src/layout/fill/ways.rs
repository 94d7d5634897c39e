//! Of layouts with equal counts the better one: crops in tidy patterns, in a few orders, each turned
//! end to end and side to side.

use super::{Judge, Run, Together, at_most};
use crate::bed::{Bed, Site, TOLERANCE};
use crate::layout::geometry::{Kept, Plant};
use crate::layout::joint::Found;
use crate::layout::one::{Laid, lay};
use crate::layout::request::{Request, Want};
use crate::order;
use crate::quantity::Micrometres;
use crate::turns::Pace;

/// What it takes to turn a layout or to judge it, in steps of a search.
const LOOKED_AT: u64 = 2_000;

impl Run {
    /// Takes over what was found for crops together: of the ways with these counts the one that
    /// the judge likes best, and of equal ones the tidiest.
    pub(super) async fn finish(
        &mut self,
        request: &Request<'_>,
        judge: &Judge<'_>,
        together: &Together,
        pace: &Pace,
    ) {
        let found = together.joint.found();
        self.steps += together.joint.steps;
        self.together = Some(together.joint.together);
        let moved = (0..self.laid.len()).any(|place| !together.members.contains(&place));
        let mut best: Option<(i64, Ways)> = None;
        for way in self.ways(request, together, &found, pace).await {
            pace.did(LOOKED_AT).await;
            let score = judge(&self.planted(request, together, &way));
            if best.as_ref().is_none_or(|(most, _)| score > *most) {
                best = Some((score, way));
            }
        }
        let Some((_, best)) = best else { return };
        for ((&place, spots), found) in together.members.iter().zip(&best).zip(&found) {
            let Some(want) = self.want(request, place) else {
                continue;
            };
            let mut laid = Laid::at(together.plants(spots, want.spacing));
            laid.bound = match self.laid.get(place) {
                Some(before) => before.bound,
                // With plants between kept where they are, the search's bound says too little.
                None if moved => at_most(request, want, pace).await.0,
                None => found.bound,
            };
            match self.laid.get_mut(place) {
                Some(before) => *before = laid,
                None => self.laid.push(laid),
            }
        }
    }

    /// The plants of each want: these crops at these sites, and those laid out already that are not
    /// searched again.
    fn planted(&self, request: &Request<'_>, together: &Together, way: &Ways) -> Vec<Vec<Plant>> {
        let mut plants = vec![Vec::new(); request.wants().len()];
        let mut put = |place: usize, own: Vec<Plant>| {
            let want = self.order.get(place).and_then(|&want| plants.get_mut(want));
            if let Some(plants) = want {
                *plants = own;
            }
        };
        for (&place, spots) in together.members.iter().zip(way) {
            let spacing = self.want(request, place).map_or(Micrometres::ZERO, |want| want.spacing);
            put(place, together.plants(spots, spacing));
        }
        for (place, laid) in self.laid.iter().enumerate() {
            if !together.members.contains(&place) {
                put(place, laid.plants.clone());
            }
        }
        plants
    }

    /// Ways to plant these counts, the tidier first: each crop in a tidy pattern beside those before
    /// it, in a few orders, and what the search found; each also turned end to end and side to side.
    async fn ways(
        &self,
        request: &Request<'_>,
        together: &Together,
        found: &[Found],
        pace: &Pace,
    ) -> Vec<Ways> {
        let spacing = |at: &usize| {
            let kind = together.crops.get(*at).map(|crop| crop.kind.apart);
            kind.unwrap_or(0)
        };
        let given: Vec<usize> = (0..together.members.len()).collect();
        let mut orders = vec![given.clone()];
        let mut widest = given.clone();
        order::sort(&mut widest, &|at| [-spacing(at), 0, 0]);
        let mut closest = given.clone();
        order::sort(&mut closest, &|at| [spacing(at), 0, 0]);
        let reversed = given.into_iter().rev().collect();
        for order in [widest, closest, reversed] {
            if !orders.contains(&order) {
                orders.push(order);
            }
        }
        let counts: Vec<u32> = found.iter().map(|found| found.spots.len() as u32).collect();
        let mut ways: Vec<Ways> = Vec::new();
        for order in &orders {
            ways.extend(self.tidy(request, together, &counts, order, pace).await);
        }
        // What was searched without a rule is for where no rule has room for all.
        if ways.is_empty() {
            ways.push(found.iter().map(|found| found.spots.clone()).collect());
        }
        let straight = ways.len();
        for (ends, sides) in [(true, false), (false, true), (true, true)] {
            for at in 0..straight {
                pace.did(LOOKED_AT).await;
                let turned =
                    ways.get(at).and_then(|way| together.turned(way, request.bed(), ends, sides));
                ways.extend(turned);
            }
        }
        ways
    }

    /// These counts, each crop in a tidy pattern beside those before it in this order; nothing where
    /// there is no room for them.
    async fn tidy(
        &self,
        request: &Request<'_>,
        together: &Together,
        counts: &[u32],
        order: &[usize],
        pace: &Pace,
    ) -> Option<Ways> {
        let kept = self.kept_beside(request, &together.members);
        let mut standing = kept.plants().to_vec();
        let mut way: Ways = vec![Vec::new(); together.members.len()];
        for &at in order {
            let (place, &count) = (*together.members.get(at)?, counts.get(at)?);
            let want = Want { on_hand: Some(count), ..*self.want(request, place)? };
            let laid = lay(request.bed(), &want, &Kept::new(&standing), pace).await;
            if (laid.plants.len() as u32) < count {
                return None;
            }
            standing.extend(&laid.plants);
            let site =
                |plant: &Plant| together.sites.iter().position(|site: &Site| *site == plant.site);
            *way.get_mut(at)? = laid.plants.iter().filter_map(site).collect();
        }
        Some(way)
    }
}

/// For each crop of a search its sites, by their places in the list.
type Ways = Vec<Vec<usize>>;

impl Together {
    /// Plants of this spacing at these sites.
    fn plants(&self, spots: &[usize], spacing: Micrometres) -> Vec<Plant> {
        let sites = spots.iter().filter_map(|&spot| self.sites.get(spot).copied());
        sites.map(|site| Plant { site, spacing }).collect()
    }

    /// The same layout turned end to end or side to side; nothing where it does not fit so.
    fn turned(&self, way: &Ways, bed: &Bed, ends: bool, sides: bool) -> Option<Ways> {
        let turn = |place: Micrometres, side: Micrometres, turn: bool| {
            if turn { side - place } else { place }
        };
        let near =
            |one: Micrometres, other: Micrometres| (one - other).get().abs() <= TOLERANCE.get();
        let mut turned = Vec::with_capacity(way.len());
        for (spots, crop) in way.iter().zip(&self.crops) {
            let mut own = Vec::with_capacity(spots.len());
            for &spot in spots {
                let there = self.sites.get(spot)?.spot;
                let along = turn(there.along, bed.length(), ends);
                let across = turn(there.across, bed.width(), sides);
                let to = self.sites.iter().position(|site| {
                    near(site.spot.along, along) && near(site.spot.across, across)
                })?;
                own.push(Some(to).filter(|&to| crop.kind.spots.get(to) == Some(&true))?);
            }
            turned.push(own);
        }
        // Sites match within the tolerance only, so the distances are looked at once more.
        let plants = || {
            let crops = turned.iter().zip(&self.crops);
            crops.flat_map(|(own, crop)| own.iter().map(move |&spot| (spot, &crop.kind)))
        };
        let clear = plants().enumerate().all(|(at, (spot, kind))| {
            plants().skip(at + 1).all(|(other, kind_of_other)| {
                let pair = self.sites.get(spot).zip(self.sites.get(other));
                pair.is_some_and(|(one, two)| kind.clear_of(kind_of_other, &one.spot, &two.spot))
            })
        });
        clear.then_some(turned)
    }
}
