//! The other way round: so many plants, how far from each other can they stand?

use super::fill::{Layout, fill};
use super::one::most;
use super::open;
use super::request::{LEAST_SPACING, MOST_PLANTS, MOST_SPACING, Request, SiteChoice, Want};
use super::sites::{Site, at_emitters};
use super::spot::{Kept, Spot};
use crate::order;
use crate::quantity::Micrometres;

/// How closely a spacing on free ground is found: a tenth of a millimetre.
const FINEST: Micrometres = Micrometres::new(100);

/// The widest spacing for a number of plants.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loosest {
    /// The widest spacing found at which they all fit.
    pub spacing: Micrometres,
    /// Whether they fit at no wider one: exact at emitters, within a tenth of a millimetre along
    /// lines, and on open ground only where the bound is met.
    pub proved: bool,
    /// They fit at no spacing wider than this.
    pub bound: Micrometres,
    /// The plants at that spacing.
    pub layout: Layout,
}

/// The widest spacing at which `count` plants of the request's first want fit, its own spacing and
/// number not looked at; nothing if they do not fit even an inch from each other.
///
/// At emitters only the distances between emitters matter, so the answer is one of these, the true
/// distance without tolerance. It never exceeds [`MOST_SPACING`].
#[must_use]
pub fn loosest(request: &Request<'_>, count: u32) -> Option<Loosest> {
    let first = request.wants().first().filter(|_| count <= MOST_PLANTS)?;
    let kept = Kept::new(request.standing());
    let want = |spacing| Want {
        spacing,
        on_hand: Some(count),
        ..*first
    };
    let bed = request.bed();
    let fits = |spacing: Micrometres| most(bed, &want(spacing), &kept).count >= count;
    let may_fit = |spacing: Micrometres| match first.sites {
        SiteChoice::Anywhere => open::at_most(bed, first.edge_margin.at(spacing), spacing) >= count,
        SiteChoice::Emitters | SiteChoice::AlongLine => {
            most(bed, &want(spacing), &kept).bound >= count
        }
    };
    let (spacing, bound) = match first.sites {
        SiteChoice::Emitters => {
            let distances = distances(request, first);
            let spacing = last(&distances, &fits)?;
            let next = distances.get(distances.partition_point(|&at| at <= spacing));
            // Mostly the next distance is refuted outright, and the bound needs no search.
            match next.is_some_and(|&next| may_fit(next)) {
                true => (spacing, last(&distances, &may_fit)?),
                false => (spacing, spacing),
            }
        }
        SiteChoice::AlongLine | SiteChoice::Anywhere => {
            let bound = widest(MOST_SPACING, &may_fit)?;
            (widest(bound, &fits)?, bound)
        }
    };
    let bound = bound.max(spacing);
    let request = Request::new(bed, &[want(spacing)], request.standing(), request.aim()).ok()?;
    let layout = fill(&request);
    let slack = if first.sites == SiteChoice::Emitters {
        Micrometres::ZERO
    } else {
        FINEST
    };
    Some(Loosest {
        spacing,
        proved: bound - spacing <= slack,
        bound,
        layout,
    })
}

/// How many plants of the request's first want fit at each spacing, however many there are.
#[must_use]
pub fn at_spacings(request: &Request<'_>, spacings: &[Micrometres]) -> Vec<(Micrometres, u32)> {
    let Some(first) = request.wants().first() else {
        return Vec::new();
    };
    let kept = Kept::new(request.standing());
    spacings
        .iter()
        .map(|&spacing| {
            let want = Want {
                spacing,
                on_hand: None,
                ..*first
            };
            (spacing, most(request.bed(), &want, &kept).count)
        })
        .collect()
}

/// Every spacing at which the choice among emitters changes, in order.
fn distances(request: &Request<'_>, want: &Want) -> Vec<Micrometres> {
    let bed = request.bed();
    let sites = at_emitters(bed, want.edge_margin.at(LEAST_SPACING));
    let lines: Vec<&[Site]> = sites
        .chunk_by(|one, other| one.line == other.line)
        .collect();
    let mut squares = Vec::new();
    // Emitters are even along each line, so the first of a line stands for all of it.
    for (at, near) in lines.iter().enumerate() {
        for far in lines.iter().skip(at) {
            for (firsts, others) in [(near, far), (far, near)] {
                let first = firsts.iter().take(1);
                squares.extend(first.flat_map(|first| {
                    others.iter().map(|other| first.spot.square_to(&other.spot))
                }));
            }
        }
    }
    order::distinct(&mut squares);
    let mut distances: Vec<Micrometres> = squares
        .iter()
        .map(|square| Micrometres::new(square.isqrt()))
        .collect();
    // A margin tied to the spacing, or a plant that stays, lets an emitter go at these.
    for site in &sites {
        let spot = &site.spot;
        if want.edge_margin.at(MOST_SPACING) != want.edge_margin.at(LEAST_SPACING) {
            let right = bed.length() - spot.along;
            let far = bed.width() - spot.across;
            distances.push(spot.along.min(right).min(spot.across).min(far) * 2);
        }
        for plant in request.standing() {
            let there = Spot {
                along: plant.along,
                across: plant.across,
            };
            let twice = Micrometres::new((spot.square_to(&there) * 4).isqrt());
            distances.push(twice - plant.spacing);
        }
    }
    distances.push(MOST_SPACING);
    distances.push(LEAST_SPACING);
    distances.retain(|&at| LEAST_SPACING <= at && at <= MOST_SPACING);
    order::distinct(&mut distances);
    distances
}

/// The last of rising spacings that passes a test which no wider one passes once it fails.
fn last(spacings: &[Micrometres], passes: &dyn Fn(Micrometres) -> bool) -> Option<Micrometres> {
    let first_failing = spacings.partition_point(|&spacing| passes(spacing));
    spacings.get(first_failing.checked_sub(1)?).copied()
}

/// The widest spacing up to `most` that passes such a test, to the finest step.
///
/// Looked for from the wide end, where there is the least to work out.
fn widest(most: Micrometres, passes: &dyn Fn(Micrometres) -> bool) -> Option<Micrometres> {
    let mut passing = most;
    let mut failing = most + FINEST;
    while !passes(passing) {
        if passing <= LEAST_SPACING {
            return None;
        }
        failing = passing;
        passing = Micrometres::new(passing.get() * 7 / 8).max(LEAST_SPACING);
    }
    while failing - passing > FINEST {
        let middle = Micrometres::new((passing + failing).get().div_euclid(2));
        if passes(middle) {
            passing = middle;
        } else {
            failing = middle;
        }
    }
    Some(passing)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::fixture::{inch, known_bed, open_bed, want};
    use crate::layout::{Aim, EdgeMargin};

    #[test]
    fn fourteen_cabbages_stand_fifteen_inches_from_each_other() {
        let bed = known_bed();
        let request = Request::new(
            &bed,
            &[want(18, SiteChoice::Emitters, 3)],
            &[],
            Aim::InOrder,
        );
        let found = loosest(&request.unwrap(), 14).unwrap();
        assert_eq!(
            (found.spacing, found.proved, found.bound),
            (inch(15), true, inch(15))
        );
        assert_eq!(found.layout.counts, [14]);
    }

    #[test]
    fn more_plants_than_emitters_fit_at_no_spacing() {
        let bed = known_bed();
        let request = Request::new(
            &bed,
            &[want(18, SiteChoice::Emitters, 3)],
            &[],
            Aim::InOrder,
        )
        .unwrap();
        assert_eq!(loosest(&request, 45), None);
        assert_eq!(loosest(&request, 44).unwrap().spacing, inch(9));
        assert_eq!(loosest(&request, 1).unwrap().spacing, MOST_SPACING);
    }

    #[test]
    fn on_open_ground_the_edge_may_move_with_the_spacing() {
        let bed = open_bed(96, 48);
        let half = Want {
            edge_margin: EdgeMargin::HalfSpacing,
            ..want(12, SiteChoice::Anywhere, 0)
        };
        let request = Request::new(&bed, &[half], &[], Aim::InOrder).unwrap();
        let found = loosest(&request, 32).unwrap();
        assert!(
            (found.spacing - inch(12)).get().abs() < 1_500,
            "{:?}",
            found.spacing
        );
        assert_eq!(found.layout.counts, [32]);
        assert!(found.bound >= found.spacing);
    }

    #[test]
    fn along_one_line_the_widest_spacing_divides_it() {
        let bed = crate::layout::fixture::drip_bed(96, 48, 1, 9);
        let request = Request::new(
            &bed,
            &[want(18, SiteChoice::AlongLine, 3)],
            &[],
            Aim::InOrder,
        )
        .unwrap();
        let found = loosest(&request, 10).unwrap();
        // The edges may give way by a millimetre each.
        assert!(
            (found.spacing - inch(10)).get().abs() <= 300,
            "{:?}",
            found.spacing
        );
        assert!(found.proved);
    }

    #[test]
    fn counts_fall_as_spacing_grows() {
        let bed = known_bed();
        let request = Request::new(
            &bed,
            &[want(18, SiteChoice::Emitters, 3)],
            &[],
            Aim::InOrder,
        )
        .unwrap();
        let spacings: Vec<Micrometres> = (15..=18).map(inch).collect();
        let counts: Vec<u32> = at_spacings(&request, &spacings)
            .into_iter()
            .map(|(_, count)| count)
            .collect();
        assert_eq!(counts, [22, 12, 12, 12]);
    }
}
