//! The other way round: so many plants, how far from each other can they stand?

use super::fill::{Layout, fill_by};
use super::geometry::Kept;
use super::one::{Look, Most, most};
use super::open;
use super::request::{LEAST_SPACING, MOST_PLANTS, MOST_SPACING, Request, SiteChoice, Want};
use super::sites::at_emitters;
use crate::bed::{Bed, Site};
use crate::order;
use crate::quantity::Micrometres;
use crate::turns::{Pace, at_once};

/// How closely a spacing on free ground is found: a tenth of a millimetre.
const FINEST: Micrometres = Micrometres::new(100);

/// The widest spacing for a number of plants.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WidestSpacing {
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
pub fn widest_spacing(request: &Request<'_>, count: u32) -> Option<WidestSpacing> {
    at_once(async |pace: &Pace| search_widest(request, count, pace).await)
}

/// [`widest_spacing`], in turns.
pub(crate) async fn search_widest(
    request: &Request<'_>,
    count: u32,
    pace: &Pace,
) -> Option<WidestSpacing> {
    let first = *request.wants().first().filter(|_| count <= MOST_PLANTS)?;
    let seek = Seek {
        bed: request.bed(),
        want: Want { on_hand: Some(count), ..first },
        kept: Kept::new(request.standing()),
        count,
        pace,
    };
    let (spacing, bound) = match first.sites {
        SiteChoice::Emitters => {
            let distances = distances(request, &first);
            let spacing = seek.last(&distances, Test::Fits).await?;
            let next = distances.get(distances.partition_point(|&at| at <= spacing));
            // Mostly the next distance is refuted outright, and the bound needs no search.
            let may_more = match next {
                Some(&next) => seek.passes(next, Test::MayFit).await,
                None => false,
            };
            match may_more {
                true => (spacing, seek.last(&distances, Test::MayFit).await?),
                false => (spacing, spacing),
            }
        }
        SiteChoice::AlongLine | SiteChoice::Anywhere => {
            let bound = seek.widest(MOST_SPACING, Test::MayFit).await?;
            (seek.widest(bound, Test::Fits).await?, bound)
        }
    };
    let bound = bound.max(spacing);
    let found = request.with(Want { spacing, ..seek.want });
    let layout = fill_by(&found, &|_| 0, pace).await;
    let slack = if first.sites == SiteChoice::Emitters { Micrometres::ZERO } else { FINEST };
    Some(WidestSpacing { spacing, proved: bound - spacing <= slack, bound, layout })
}

/// What a spacing is tested for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Test {
    /// A layout was found.
    Fits,
    /// There may be one.
    MayFit,
}

/// What is sought: a spacing that takes all, where no wider one does.
struct Seek<'a> {
    bed: &'a Bed,
    want: Want,
    kept: Kept,
    count: u32,
    pace: &'a Pace,
}

impl Seek<'_> {
    async fn passes(&self, spacing: Micrometres, test: Test) -> bool {
        let want = Want { spacing, ..self.want };
        if test == Test::MayFit && want.sites == SiteChoice::Anywhere {
            let margin = want.edge_margin.at(spacing);
            return open::at_most(self.bed, margin, spacing) >= self.count;
        }
        let most = most(self.bed, &want, &self.kept, Look::Whole, self.pace).await;
        match test {
            Test::Fits => most.count >= self.count,
            Test::MayFit => most.bound >= self.count,
        }
    }

    /// The last of rising spacings that passes a test which no wider one passes once it fails.
    async fn last(&self, spacings: &[Micrometres], test: Test) -> Option<Micrometres> {
        let (mut passing, mut failing) = (0, spacings.len());
        while passing < failing {
            let middle = passing.midpoint(failing);
            match self.passes(*spacings.get(middle)?, test).await {
                true => passing = middle + 1,
                false => failing = middle,
            }
        }
        spacings.get(passing.checked_sub(1)?).copied()
    }

    /// The widest spacing up to `most` that passes such a test, to the finest step.
    ///
    /// Looked for from the wide end, where there is the least to work out.
    async fn widest(&self, most: Micrometres, test: Test) -> Option<Micrometres> {
        let mut passing = most;
        let mut failing = most + FINEST;
        while !self.passes(passing, test).await {
            if passing <= LEAST_SPACING {
                return None;
            }
            failing = passing;
            passing = Micrometres::new(passing.get() * 7 / 8).max(LEAST_SPACING);
        }
        while failing - passing > FINEST {
            let middle = Micrometres::new((passing + failing).get().div_euclid(2));
            if self.passes(middle, test).await {
                passing = middle;
            } else {
                failing = middle;
            }
        }
        Some(passing)
    }
}

/// How many plants of the request's first want fit at each spacing, however many there are.
#[must_use]
pub fn at_spacings(request: &Request<'_>, spacings: &[Micrometres]) -> Vec<(Micrometres, u32)> {
    let first = request.wants().first();
    let wants: Vec<Want> =
        spacings.iter().filter_map(|&spacing| Some(Want { spacing, ..*first? })).collect();
    let counts = at_once(async |pace: &Pace| counts(request, &wants, pace).await);
    spacings.iter().copied().zip(counts).collect()
}

/// How many fit of each of these wants in place of the request's own, however many there are. They
/// differ by their spacing and come in its order.
///
/// On the same sites a wider spacing never holds more, so what lies between two spacings that hold
/// equally many needs no search.
pub(crate) async fn counts(request: &Request<'_>, wants: &[Want], pace: &Pace) -> Vec<u32> {
    let (bed, kept) = (request.bed(), Kept::new(request.standing()));
    let mut known: Vec<Option<Most>> = vec![None; wants.len()];
    let mut stretches = vec![(0, wants.len().saturating_sub(1))];
    while let Some((first, last)) = stretches.pop() {
        let mut ends = [None; 2];
        for (at, end) in [first, last].into_iter().zip(&mut ends) {
            let Some((want, slot)) = wants.get(at).zip(known.get_mut(at)) else {
                continue;
            };
            let want = Want { on_hand: None, ..*want };
            let most = match *slot {
                Some(most) => most,
                None => most(bed, &want, &kept, Look::Whole, pace).await,
            };
            *slot = Some(most);
            *end = Some((want.sites, most.count, most.count == most.bound));
        }
        if last.saturating_sub(first) < 2 {
            continue;
        }
        if ends[0] == ends[1] && ends[0].is_some_and(|(.., proved)| proved) {
            let alike = known.get(first).copied().flatten();
            known.get_mut(first..last).unwrap_or_default().fill(alike);
        } else {
            let middle = first.midpoint(last);
            stretches.extend([(first, middle), (middle, last)]);
        }
    }
    let count = |most: &Option<Most>| most.map_or(0, |most| most.count);
    known.iter().map(count).collect()
}

/// Every spacing at which the choice among emitters changes, in order.
fn distances(request: &Request<'_>, want: &Want) -> Vec<Micrometres> {
    let bed = request.bed();
    let sites = at_emitters(bed, want.edge_margin.at(LEAST_SPACING));
    let lines: Vec<&[Site]> = sites.chunk_by(|one, other| one.line == other.line).collect();
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
    let mut distances: Vec<Micrometres> =
        squares.iter().map(|square| Micrometres::new(square.isqrt())).collect();
    // A margin tied to the spacing, or a plant that stays, lets an emitter go at these.
    for site in &sites {
        let spot = &site.spot;
        if want.edge_margin.at(MOST_SPACING) != want.edge_margin.at(LEAST_SPACING) {
            let right = bed.length() - spot.along;
            let far = bed.width() - spot.across;
            distances.push(spot.along.min(right).min(spot.across).min(far) * 2);
        }
        for plant in request.standing() {
            let twice = Micrometres::new((spot.square_to(&plant.site.spot) * 4).isqrt());
            distances.push(twice - plant.spacing);
        }
    }
    distances.push(MOST_SPACING);
    distances.push(LEAST_SPACING);
    distances.retain(|&at| LEAST_SPACING <= at && at <= MOST_SPACING);
    order::distinct(&mut distances);
    distances
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::fixture::{inch, known_bed, open_bed, want};
    use crate::layout::{Aim, EdgeMargin};

    #[test]
    fn fourteen_cabbages_stand_fifteen_inches_from_each_other() {
        let bed = known_bed();
        let request = Request::new(&bed, &[want(18, SiteChoice::Emitters, 3)], &[], Aim::InOrder);
        let found = widest_spacing(&request.unwrap(), 14).unwrap();
        assert_eq!((found.spacing, found.proved, found.bound), (inch(15), true, inch(15)));
        assert_eq!(found.layout.counts, [14]);
    }

    #[test]
    fn more_plants_than_emitters_fit_at_no_spacing() {
        let bed = known_bed();
        let request =
            Request::new(&bed, &[want(18, SiteChoice::Emitters, 3)], &[], Aim::InOrder).unwrap();
        assert_eq!(widest_spacing(&request, 45), None);
        assert_eq!(widest_spacing(&request, 44).unwrap().spacing, inch(9));
        assert_eq!(widest_spacing(&request, 1).unwrap().spacing, MOST_SPACING);
    }

    #[test]
    fn on_open_ground_the_edge_may_move_with_the_spacing() {
        let bed = open_bed(96, 48);
        let half =
            Want { edge_margin: EdgeMargin::HalfSpacing, ..want(12, SiteChoice::Anywhere, 0) };
        let request = Request::new(&bed, &[half], &[], Aim::InOrder).unwrap();
        let found = widest_spacing(&request, 32).unwrap();
        assert!((found.spacing - inch(12)).get().abs() < 1_500, "{:?}", found.spacing);
        assert_eq!(found.layout.counts, [32]);
        assert!(found.bound >= found.spacing);
    }

    #[test]
    fn along_one_line_the_widest_spacing_divides_it() {
        let bed = crate::layout::fixture::drip_bed(96, 48, 1, 9);
        let request =
            Request::new(&bed, &[want(18, SiteChoice::AlongLine, 3)], &[], Aim::InOrder).unwrap();
        let found = widest_spacing(&request, 10).unwrap();
        // The edges may give way by a millimetre each.
        assert!((found.spacing - inch(10)).get().abs() <= 300, "{:?}", found.spacing);
        assert!(found.proved);
    }

    #[test]
    fn counts_fall_as_spacing_grows() {
        let bed = known_bed();
        let request =
            Request::new(&bed, &[want(18, SiteChoice::Emitters, 3)], &[], Aim::InOrder).unwrap();
        let spacings: Vec<Micrometres> = (15..=18).map(inch).collect();
        let counts: Vec<u32> =
            at_spacings(&request, &spacings).into_iter().map(|(_, count)| count).collect();
        assert_eq!(counts, [22, 12, 12, 12]);
    }
}
