//! Several crops laid into a bed, one after the other.

use super::arrangement::Arrangement;
use super::one::{lay, most};
use super::request::{Aim, EdgeMargin, Request, SiteChoice, Standing, Want};
use super::spot::Kept;
use crate::order;
use crate::quantity::Micrometres;

/// One plant's place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placed {
    /// The crop, by its place among the wants.
    pub want: usize,
    /// From the left end.
    pub along: Micrometres,
    /// From the near side.
    pub across: Micrometres,
    /// The drip line, from 1 at the near side, for plants on one.
    pub line: Option<u16>,
    /// The emitter, from 1 at the left end of the line, for plants at one.
    pub hole: Option<u16>,
}

/// Where everything goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout {
    /// Every plant, by across, then along.
    pub placed: Vec<Placed>,
    /// Plants of each want.
    pub counts: Vec<u32>,
    /// Whether no layout does better by the request's aim.
    pub proved: bool,
    /// No layout holds more plants in all.
    pub bound: u32,
    /// Work done: the same on every machine.
    pub steps: u64,
    /// The form of each want's layout.
    pub arrangements: Vec<Arrangement>,
}

/// Lays out what is wanted.
///
/// One crop at emitters is laid out with the true maximum, proved; so is one along the lines
/// wherever its places could all be searched. On open ground the best pattern is taken, and proved
/// only where it meets the bound.
///
/// With fewer plants than places the tidiest pattern that holds them is filled from the left end, so
/// that what stays free is one piece for the next crop.
///
/// Several crops are laid out one after the other, each as full as it can be beside those before it.
/// That order is proved best only where each crop reaches what it could not exceed alone; a layout
/// that arranges an earlier crop to suit a later one, or the greatest number in all
/// ([`Aim::Most`]), is not searched for.
#[must_use]
pub fn fill(request: &Request<'_>) -> Layout {
    let mut standing = request.standing().to_vec();
    let mut layout = Layout {
        placed: Vec::new(),
        counts: Vec::new(),
        proved: true,
        bound: 0,
        steps: 0,
        arrangements: Vec::new(),
    };
    for (at, want) in request.wants().iter().enumerate() {
        let laid = lay(request.bed(), want, &Kept::new(&standing));
        let count = laid.plants.len() as u32;
        // A later crop's bound must hold beside any layout of those before it.
        let alone = if at == 0 {
            laid.bound
        } else {
            let alone = most(request.bed(), want, &Kept::new(request.standing()));
            layout.steps += alone.steps;
            alone.bound
        };
        layout.proved &= count == alone;
        layout.bound = layout.bound.saturating_add(alone);
        layout.steps += laid.steps;
        layout.counts.push(count);
        layout.arrangements.push(laid.arrangement);
        for plant in laid.plants {
            let (along, across) = (plant.spot.along, plant.spot.across);
            standing.push(Standing {
                along,
                across,
                spacing: want.spacing,
            });
            layout.placed.push(Placed {
                want: at,
                along,
                across,
                line: plant.line,
                hole: plant.hole,
            });
        }
    }
    if request.wants().len() > 1 {
        let together = most(
            request.bed(),
            &smallest(request),
            &Kept::new(request.standing()),
        );
        layout.bound = layout.bound.min(together.bound);
        layout.steps += together.steps;
        let total: u32 = layout.counts.iter().sum();
        layout.proved |= request.aim() == Aim::Most && total == layout.bound;
    }
    order::sort(&mut layout.placed, &|plant| {
        [plant.across.get(), plant.along.get(), plant.want as i64]
    });
    layout
}

/// A crop of which at least as many fit as of all wants together: as small as the smallest, and
/// kept as near to the sides.
fn smallest(request: &Request<'_>) -> Want {
    let wants = request.wants();
    let spacing = wants
        .iter()
        .map(|want| want.spacing)
        .min()
        .unwrap_or_default();
    let margin = wants
        .iter()
        .map(|want| want.edge_margin.at(want.spacing))
        .min()
        .unwrap_or_default();
    let sites = match wants.first().map(|want| want.sites) {
        Some(first) if wants.iter().all(|want| want.sites == first) => first,
        _ => SiteChoice::Anywhere,
    };
    Want {
        spacing,
        on_hand: None,
        sites,
        edge_margin: EdgeMargin::Of(margin),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bed::{Bed, TOLERANCE};
    use crate::layout::arrangement::Form;
    use crate::layout::fixture::{drip_bed, inch, known_bed, open_bed, want};
    use crate::layout::spot::Spot;

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
        let holes: Vec<_> = layout
            .placed
            .iter()
            .map(|at| (at.line.unwrap(), at.hole.unwrap()))
            .collect();
        assert_eq!(
            holes[..6],
            [(1, 1), (1, 3), (1, 5), (1, 7), (1, 9), (1, 11)]
        );
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
        assert_eq!(
            (layout.counts.as_slice(), layout.bound),
            ([140].as_slice(), 144)
        );
        assert!(!layout.proved);
        assert!(
            layout
                .placed
                .iter()
                .all(|plant| plant.line.is_none() && plant.hole.is_none())
        );
    }

    #[test]
    fn along_the_lines_each_line_is_filled() {
        let layout = one(&known_bed(), want(6, SiteChoice::AlongLine, 3));
        assert_eq!(
            (layout.counts.as_slice(), layout.proved),
            ([64].as_slice(), true)
        );
        assert_eq!(layout.placed[0].along, inch(3));
        assert!(
            words(&layout).starts_with("Line 1: 16 plants, from 3 in every 6 in."),
            "{}",
            words(&layout)
        );
    }

    #[test]
    fn few_plants_fill_the_tidy_places_from_the_left() {
        let ten = Want {
            on_hand: Some(10),
            ..want(18, SiteChoice::Emitters, 3)
        };
        let layout = one(&known_bed(), ten);
        assert_eq!(
            (layout.counts.as_slice(), layout.proved, layout.bound),
            ([10].as_slice(), true, 10)
        );
        assert!(
            layout
                .placed
                .iter()
                .all(|plant| plant.along <= inch(3 + 4 * 18))
        );
        assert_eq!(
            words(&layout),
            "every 2nd emitter, alternate lines, filled from the left end"
        );
    }

    #[test]
    fn a_layout_without_a_rule_is_read_line_by_line() {
        let layout = one(&drip_bed(96, 48, 3, 6), want(18, SiteChoice::Emitters, 3));
        assert_eq!(
            (layout.counts.as_slice(), layout.proved),
            ([13].as_slice(), true)
        );
        assert_eq!(
            words(&layout),
            "Line 1: holes 1, 5, 9, 13, 16. Line 2: holes 3, 7, 11. Line 3: holes 1, 5, 9, 13, 16."
        );
    }

    #[test]
    fn few_plants_without_a_rule_are_listed_alone() {
        let twelve = Want {
            on_hand: Some(12),
            ..want(18, SiteChoice::AlongLine, 3)
        };
        let along = one(&known_bed(), twelve);
        assert_eq!(along.counts, [12]);
        let Form::Along(lines) = &along.arrangements[0].form else {
            panic!()
        };
        assert_eq!(lines.iter().map(|on| on.along.len()).sum::<usize>(), 12);
    }

    #[test]
    fn no_plants_fit_between_margins_that_meet() {
        for sites in [
            SiteChoice::Emitters,
            SiteChoice::AlongLine,
            SiteChoice::Anywhere,
        ] {
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
        let stays = Standing {
            along: inch(48),
            across: inch(18),
            spacing: inch(24),
        };
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
            let there = Spot {
                along: stays.along,
                across: stays.across,
            };
            for plant in &layout.placed {
                let spot = Spot {
                    along: plant.along,
                    across: plant.across,
                };
                let least = inch(18) - TOLERANCE;
                assert!(spot.square_to(&there) >= least.get() * least.get());
            }
        }
    }

    #[test]
    fn emitters_that_a_plant_keeps_are_left_out_of_the_comb() {
        let bed = known_bed();
        let stays = Standing {
            along: inch(48),
            across: inch(18),
            spacing: inch(24),
        };
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
        let cabbages = Want {
            on_hand: Some(6),
            ..want(18, SiteChoice::Anywhere, 3)
        };
        let garlic = want(6, SiteChoice::Anywhere, 3);
        let layout = fill(&Request::new(&bed, &[cabbages, garlic], &[], Aim::InOrder).unwrap());
        assert_eq!(layout.counts[0], 6);
        // Nine rows of eleven and ten in turn on the free 60 in, and what fits between the cabbages.
        assert!(layout.counts[1] >= 95, "{:?}", layout.counts);
        assert_eq!(layout.bound, 6 + 138);
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
        assert_eq!(
            (layout.counts, layout.proved, layout.bound),
            (vec![4, 8], true, 12)
        );
    }
}
