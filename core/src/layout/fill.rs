//! Several crops laid into a bed.

mod beside;
mod ways;

use super::arrangement::{Arrangement, Form};
use super::geometry::{Kept, Plant};
use super::joint::{Crop, Joint, Kind};
use super::one::{Laid, Look, lay, may_use, most};
use super::open;
use super::request::{Aim, EdgeMargin, Request, SiteChoice, Want};
use super::sites::at_emitters;
use crate::bed::{Site, Spot, TOLERANCE};
use crate::order;
use crate::quantity::Micrometres;
use crate::turns::{Pace, at_once};

/// Where everything goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout {
    /// The plants of each want, by across, then along.
    pub plants: Vec<Vec<Plant>>,
    /// Plants of each want.
    pub counts: Vec<u32>,
    /// Whether no layout does better by the request's aim.
    pub proved: bool,
    /// No layout that serves the request's aim holds more plants in all.
    pub bound: u32,
    /// Work done: the same on every machine.
    pub steps: u64,
    /// The form of each want's layout.
    pub arrangements: Vec<Arrangement>,
}

/// How well the plants of each want stand, where several layouts have the same counts: the better,
/// the greater.
pub type Judge<'a> = dyn Fn(&[Vec<Plant>]) -> i64 + 'a;

/// Lays out what is wanted, in one go.
#[must_use]
pub fn fill(request: &Request<'_>) -> Layout {
    at_once(async |pace: &Pace| fill_by(request, &|_| 0, pace).await)
}

/// Lays out what is wanted, and of equal counts takes what the judge likes best.
///
/// One crop at emitters is laid out with the true maximum, proved; so is one along the lines
/// wherever its places could all be searched. On open ground the best pattern is taken, and proved
/// only where it meets the bound.
///
/// Crops at emitters that follow each other in the list are searched together: as many of the first
/// as possible, then of the second given that count, and so on, or as many as possible in all.
/// Other crops are laid out beside those before them, whose plants stay where they are.
///
/// With fewer plants than places the tidiest pattern that holds them is filled from the left end, so
/// that what stays free is one piece for the next crop.
pub async fn fill_by(request: &Request<'_>, judge: &Judge<'_>, pace: &Pace) -> Layout {
    let mut best: Option<Run> = None;
    let mut steps = 0;
    for order in orders(request) {
        let run = Run::laid_out(request, order, judge, pace).await;
        steps += run.steps;
        if best.as_ref().is_none_or(|best| run.plants() > best.plants()) {
            best = Some(run);
        }
    }
    let mut layout = best.unwrap_or_default().layout(request, pace).await;
    layout.steps += steps;
    layout
}

/// The orders to try; one alone for [`Aim::InOrder`].
fn orders(request: &Request<'_>) -> Vec<Vec<usize>> {
    let wants = request.wants();
    let given: Vec<usize> = (0..wants.len()).collect();
    let mut orders = vec![given.clone()];
    if request.aim() == Aim::Most && !at_emitters_all(wants) {
        // Of the crop that stands closest most plants fit.
        let mut closest = given;
        order::sort(&mut closest, &|&at| {
            [wants.get(at).map_or(0, |want| want.spacing.get()), 0, 0]
        });
        orders.push(closest);
    }
    orders
}

/// The crops laid out in one order.
#[derive(Default)]
struct Run {
    order: Vec<usize>,
    /// What is laid out so far, by the crop's place in the order.
    laid: Vec<Laid>,
    /// No layout has more than this in all, where that is known for all at once.
    together: Option<u32>,
    steps: u64,
}

/// Crops that are searched together.
struct Together {
    joint: Joint,
    sites: Vec<Site>,
    crops: Vec<Crop>,
    /// Their places in the order.
    members: Vec<usize>,
}

fn at_emitters_all(wants: &[Want]) -> bool {
    wants.iter().all(|want| want.sites == SiteChoice::Emitters)
}

impl Run {
    /// The crop at this place of the order.
    fn want<'r>(&self, request: &'r Request<'_>, place: usize) -> Option<&'r Want> {
        request.wants().get(*self.order.get(place)?)
    }

    async fn laid_out(
        request: &Request<'_>,
        order: Vec<usize>,
        judge: &Judge<'_>,
        pace: &Pace,
    ) -> Self {
        let mut run = Self { order, ..Self::default() };
        while run.laid.len() < run.order.len() {
            run.lay_next(request, judge, pace).await;
        }
        run
    }

    /// Lays out the next crop beside those before it, or those together that can be.
    async fn lay_next(&mut self, request: &Request<'_>, judge: &Judge<'_>, pace: &Pace) {
        let place = self.laid.len();
        let Some(want) = self.want(request, place) else {
            return;
        };
        let at_emitters = |place: &usize| {
            self.want(request, *place).is_some_and(|want| want.sites == SiteChoice::Emitters)
        };
        let mut members: Vec<usize> = Vec::new();
        if want.sites == SiteChoice::Emitters {
            members.extend((0..place).filter(at_emitters));
            members.extend((place..self.order.len()).take_while(at_emitters));
        }
        if members.len() > 1 {
            let mut together = self.together(request, members);
            together.joint.search(pace).await;
            return self.finish(request, judge, &together, pace).await;
        }
        let others: Vec<usize> = (0..place).collect();
        let mut laid = lay(request.bed(), want, &self.kept(request, &others), pace).await;
        self.steps += laid.steps;
        if place > 0 {
            // Its bound must hold beside any layout of those before it.
            let (bound, steps) = self.at_most_beside(request, want, pace).await;
            self.steps += steps;
            laid.bound = bound;
        }
        self.laid.push(laid);
    }

    fn plants(&self) -> usize {
        self.laid.iter().map(|laid| laid.plants.len()).sum()
    }

    /// All crops, in the order of the request.
    async fn layout(&self, request: &Request<'_>, pace: &Pace) -> Layout {
        let wants = request.wants().len();
        let mut layout = Layout {
            plants: vec![Vec::new(); wants],
            counts: vec![0; wants],
            proved: true,
            bound: 0,
            steps: 0,
            arrangements: vec![Arrangement::of(Form::Empty); wants],
        };
        for (&at, laid) in self.order.iter().zip(&self.laid) {
            let count = laid.plants.len() as u32;
            layout.proved &= count == laid.bound;
            layout.bound = layout.bound.saturating_add(laid.bound);
            if let (Some(own), Some(plants), Some(form)) = (
                layout.counts.get_mut(at),
                layout.plants.get_mut(at),
                layout.arrangements.get_mut(at),
            ) {
                *own = count;
                plants.clone_from(&laid.plants);
                form.clone_from(&laid.arrangement);
            }
        }
        if wants > 1 {
            let (bound, steps) = at_most(request, &smallest(request), pace).await;
            layout.steps += steps;
            layout.bound = layout.bound.min(bound).min(self.together.unwrap_or(bound));
            let total: u32 = layout.counts.iter().sum();
            layout.proved |= request.aim() == Aim::Most && total == layout.bound;
        }
        for plants in &mut layout.plants {
            order::sort(plants, &|plant| {
                let Spot { along, across } = plant.site.spot;
                [across.get(), along.get(), 0]
            });
        }
        layout
    }

    /// What stays, and the plants of these crops.
    fn kept(&self, request: &Request<'_>, others: &[usize]) -> Kept {
        let mut standing = request.standing().to_vec();
        for &place in others {
            standing.extend(self.laid.get(place).into_iter().flat_map(|laid| &laid.plants));
        }
        Kept::new(&standing)
    }

    /// The plants of the crops laid out already that are not searched again.
    fn kept_beside(&self, request: &Request<'_>, members: &[usize]) -> Kept {
        let others: Vec<usize> =
            (0..self.laid.len()).filter(|place| !members.contains(place)).collect();
        self.kept(request, &others)
    }

    /// The search for these crops; those laid out already keep their counts.
    fn together(&self, request: &Request<'_>, members: Vec<usize>) -> Together {
        let kept = self.kept_beside(request, &members);
        let sites = at_emitters(request.bed(), Micrometres::ZERO);
        let crops: Vec<Crop> = members
            .iter()
            .filter_map(|&place| {
                let want = self.want(request, place)?;
                let most = match self.laid.get(place) {
                    Some(laid) => laid.plants.len() as u32,
                    None => want.on_hand.unwrap_or(u32::MAX),
                };
                Some(Crop {
                    kind: Kind {
                        apart: (want.spacing - TOLERANCE).get(),
                        spots: may_use(request.bed(), want, &kept, &sites),
                    },
                    most,
                })
            })
            .collect();
        let spots = sites.iter().map(|site| site.spot).collect();
        // The greatest number in all is that of some of the crops only where there are no others.
        let aim = match members.len() == request.wants().len() {
            true => request.aim(),
            false => Aim::InOrder,
        };
        Together { joint: Joint::new(spots, &crops, aim), sites, crops, members }
    }
}

/// What one want alone can't exceed beside what stays, and the work done.
async fn at_most(request: &Request<'_>, want: &Want, pace: &Pace) -> (u32, u64) {
    let bed = request.bed();
    if want.sites == SiteChoice::Anywhere {
        let bound = open::at_most(bed, want.edge_margin.at(want.spacing), want.spacing);
        return (bound.min(want.on_hand.unwrap_or(u32::MAX)), 0);
    }
    let kept = Kept::new(request.standing());
    let alone = most(bed, want, &kept, Look::Whole, pace).await;
    (alone.bound, alone.steps)
}

/// A crop of which at least as many fit as of all wants together: as small as the smallest, and
/// kept as near to the sides.
fn smallest(request: &Request<'_>) -> Want {
    let wants = request.wants();
    let spacing = wants.iter().map(|want| want.spacing).min().unwrap_or_default();
    let margin =
        wants.iter().map(|want| want.edge_margin.at(want.spacing)).min().unwrap_or_default();
    let sites = match wants.first().map(|want| want.sites) {
        Some(first) if wants.iter().all(|want| want.sites == first) => first,
        _ => SiteChoice::Anywhere,
    };
    Want { spacing, on_hand: None, sites, edge_margin: EdgeMargin::Of(margin) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bed::Bed;
    use crate::layout::fixture::{drip_bed, inch, known_bed, open_bed, want};

    fn one(bed: &Bed, want: Want) -> Layout {
        fill(&Request::new(bed, &[want], &[], Aim::InOrder).unwrap())
    }

    fn words(layout: &Layout) -> String {
        let show = |length: Micrometres| format!("{} in", length.get() as f64 / 25_400.0);
        layout.arrangements[0].words(&show)
    }

    #[test]
    fn the_known_bed_holds_twelve_cabbages_on_alternate_lines() {
        let layout = one(&known_bed(), want(18, SiteChoice::Emitters, 3));
        assert_eq!(
            (layout.counts.as_slice(), layout.proved, layout.bound),
            ([12].as_slice(), true, 12)
        );
        assert_eq!(words(&layout), "every 2nd emitter, alternate lines");
        let holes: Vec<_> = layout.plants[0]
            .iter()
            .map(|at| (at.site.line.unwrap(), at.site.hole.unwrap()))
            .collect();
        assert_eq!(holes[..6], [(1, 1), (1, 3), (1, 5), (1, 7), (1, 9), (1, 11)]);
        assert_eq!(holes[6], (3, 1));
    }

    #[test]
    fn wider_edges_cost_plants() {
        for (margin, count) in [(3, 12), (6, 10), (9, 5)] {
            let layout = one(&known_bed(), want(18, SiteChoice::Emitters, margin));
            assert_eq!(layout.counts, [count], "{margin} in");
            assert!(layout.proved);
        }
    }

    #[test]
    fn fifteen_inches_make_a_zig_zag() {
        let layout = one(&known_bed(), want(15, SiteChoice::Emitters, 3));
        assert_eq!(layout.counts, [22]);
        assert_eq!(
            words(&layout),
            "every 2nd emitter, zig-zag: from hole 1, on the next line from hole 2"
        );
    }

    #[test]
    fn close_set_garlic_stands_in_rows_over_the_whole_bed() {
        let layout = one(&known_bed(), want(6, SiteChoice::Anywhere, 3));
        assert_eq!((layout.counts.as_slice(), layout.bound), ([140].as_slice(), 144));
        assert!(!layout.proved);
        assert!(layout.plants[0].iter().all(|plant| plant.site == Site::open(plant.site.spot)));
    }

    #[test]
    fn along_the_lines_each_line_is_filled() {
        let layout = one(&known_bed(), want(6, SiteChoice::AlongLine, 3));
        assert_eq!((layout.counts.as_slice(), layout.proved), ([64].as_slice(), true));
        assert_eq!(layout.plants[0][0].site.spot.along, inch(3));
        assert!(
            words(&layout).starts_with("Line 1: 16 plants, from 3 in every 6 in."),
            "{}",
            words(&layout)
        );
    }

    #[test]
    fn few_plants_fill_the_tidy_places_from_the_left() {
        let ten = Want { on_hand: Some(10), ..want(18, SiteChoice::Emitters, 3) };
        let layout = one(&known_bed(), ten);
        assert_eq!(
            (layout.counts.as_slice(), layout.proved, layout.bound),
            ([10].as_slice(), true, 10)
        );
        assert!(layout.plants[0].iter().all(|plant| plant.site.spot.along <= inch(3 + 4 * 18)));
        assert_eq!(words(&layout), "every 2nd emitter, alternate lines, filled from the left end");
    }

    #[test]
    fn a_layout_without_a_rule_is_read_line_by_line() {
        let layout = one(&drip_bed(96, 48, 3, 6), want(18, SiteChoice::Emitters, 3));
        assert_eq!((layout.counts.as_slice(), layout.proved), ([13].as_slice(), true));
        assert_eq!(
            words(&layout),
            "Line 1: holes 1, 5, 9, 13, 16. Line 2: holes 3, 7, 11. Line 3: holes 1, 5, 9, 13, 16."
        );
    }

    #[test]
    fn few_plants_without_a_rule_are_listed_alone() {
        let twelve = Want { on_hand: Some(12), ..want(18, SiteChoice::AlongLine, 3) };
        let along = one(&known_bed(), twelve);
        assert_eq!(along.counts, [12]);
        let Form::Along(lines) = &along.arrangements[0].form else { panic!() };
        assert_eq!(lines.iter().map(|on| on.along.len()).sum::<usize>(), 12);
    }

    #[test]
    fn no_plants_fit_between_margins_that_meet() {
        for sites in [SiteChoice::Emitters, SiteChoice::AlongLine, SiteChoice::Anywhere] {
            let layout = one(&known_bed(), want(12, sites, 30));
            assert_eq!(
                (layout.counts.as_slice(), layout.proved, layout.bound),
                ([0].as_slice(), true, 0)
            );
            assert_eq!(words(&layout), "nothing to plant");
        }
    }

    #[test]
    fn what_stays_keeps_its_distance() {
        let there = Spot { along: inch(48), across: inch(18) };
        let stays = Plant::open(there, inch(24));
        for (sites, least, proved) in [
            (SiteChoice::Emitters, 18, true),
            (SiteChoice::AlongLine, 26, true),
            (SiteChoice::Anywhere, 31, false),
        ] {
            let bed = known_bed();
            let request =
                Request::new(&bed, &[want(12, sites, 3)], &[stays], Aim::InOrder).unwrap();
            let layout = fill(&request);
            assert!(layout.counts[0] >= least, "{sites:?}: {:?}", layout.counts);
            assert_eq!(layout.proved, proved);
            for plant in &layout.plants[0] {
                let least = inch(18) - TOLERANCE;
                assert!(plant.site.spot.square_to(&there) >= least.get() * least.get());
            }
        }
    }

    #[test]
    fn emitters_that_a_plant_keeps_are_left_out_of_the_comb() {
        let bed = known_bed();
        let there = Spot { along: inch(48), across: inch(18) };
        let stays = Plant::open(there, inch(24));
        let want = want(12, SiteChoice::Emitters, 3);
        let layout = fill(&Request::new(&bed, &[want], &[stays], Aim::InOrder).unwrap());
        assert_eq!(
            words(&layout),
            "every 2nd emitter on all lines, leaving out the places too near to what is there"
        );
    }

    #[test]
    fn a_second_crop_takes_the_end_that_the_first_leaves_free() {
        let bed = open_bed(96, 48);
        let cabbages = Want { on_hand: Some(6), ..want(18, SiteChoice::Anywhere, 3) };
        let garlic = want(6, SiteChoice::Anywhere, 3);
        let layout = fill(&Request::new(&bed, &[cabbages, garlic], &[], Aim::InOrder).unwrap());
        assert_eq!(layout.counts[0], 6);
        // Nine rows of eleven and ten in turn on the free 60 in, and what fits between the cabbages.
        assert!(layout.counts[1] >= 95, "{:?}", layout.counts);
        assert!(layout.bound <= 6 + 126, "{}", layout.bound);
        assert!(!layout.proved);
    }

    #[test]
    fn two_crops_that_both_go_in_whole_are_proved() {
        let bed = known_bed();
        let few = |count, spacing| Want {
            on_hand: Some(count),
            ..want(spacing, SiteChoice::Emitters, 3)
        };
        let request = Request::new(&bed, &[few(4, 18), few(8, 9)], &[], Aim::InOrder).unwrap();
        let layout = fill(&request);
        assert_eq!((layout.counts, layout.proved, layout.bound), (vec![4, 8], true, 12));
    }
}
