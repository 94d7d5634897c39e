//! One crop laid into a bed, then the next one beside it.

use super::arrangement::{AlongLine, Arrangement, Form, OnLine};
use super::request::{Aim, EdgeMargin, Request, SiteChoice, Standing, Want};
use super::sites::{Site, along_lines, at_emitters};
use super::spot::{Field, Kept, Spot};
use super::{open, pack, tidy};
use crate::bed::{Bed, TOLERANCE};
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

/// The layout of one want alone.
pub(super) struct Laid {
    pub(super) plants: Vec<Plant>,
    /// No layout of this want alone holds more.
    pub(super) bound: u32,
    pub(super) steps: u64,
    pub(super) arrangement: Arrangement,
}

/// A plant, and where on the drip lines it is.
#[derive(Clone, Copy)]
pub(super) struct Plant {
    pub(super) spot: Spot,
    line: Option<u16>,
    hole: Option<u16>,
}

impl Plant {
    fn at(site: &Site) -> Self {
        Self {
            spot: site.spot,
            line: Some(site.line),
            hole: Some(site.hole).filter(|&at| at > 0),
        }
    }

    fn open(spot: Spot) -> Self {
        Self {
            spot,
            line: None,
            hole: None,
        }
    }
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
            let (alone, steps) = at_most(request, want);
            layout.steps += steps;
            alone
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
        let (together, steps) = most_together(request);
        layout.bound = layout.bound.min(together);
        layout.steps += steps;
        let total: u32 = layout.counts.iter().sum();
        layout.proved |= request.aim() == Aim::Most && total == layout.bound;
    }
    layout
        .placed
        .sort_by_key(|plant| (plant.across, plant.along, plant.want));
    layout
}

/// The most plants of any kind: were all as small as the smallest, and kept as near the sides.
fn most_together(request: &Request<'_>) -> (u32, u64) {
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
    at_most(
        request,
        &Want {
            spacing,
            on_hand: None,
            sites,
            edge_margin: EdgeMargin::Of(margin),
        },
    )
}

/// What no layout of one want alone exceeds, and the work it took to know.
fn at_most(request: &Request<'_>, want: &Want) -> (u32, u64) {
    let most = want.on_hand.unwrap_or(u32::MAX);
    if want.sites == SiteChoice::Anywhere {
        let field = Field::within(request.bed(), want.edge_margin.at(want.spacing));
        return (
            field
                .map_or(0, |field| open::at_most(&field, want.spacing))
                .min(most),
            0,
        );
    }
    let laid = lay(request.bed(), want, &Kept::new(request.standing()));
    (laid.bound, laid.steps)
}

/// Lays out one want beside what stays.
pub(super) fn lay(bed: &Bed, want: &Want, kept: &Kept) -> Laid {
    let margin = want.edge_margin.at(want.spacing);
    let laid = match want.sites {
        SiteChoice::Emitters => lay_at_emitters(bed, want, margin, kept),
        SiteChoice::AlongLine => lay_along_lines(bed, want, margin, kept),
        SiteChoice::Anywhere => lay_on_open_ground(bed, want, margin, kept),
    };
    let most = want.on_hand.unwrap_or(u32::MAX);
    let mut laid = Laid {
        bound: laid.bound.min(most),
        ..laid
    };
    if laid.plants.len() > most as usize {
        laid.plants.sort_by_key(|plant| plant.spot);
        laid.plants.truncate(most as usize);
        laid.arrangement.from_left = true;
    }
    if laid.plants.is_empty() {
        laid.arrangement = Arrangement {
            form: Form::Empty,
            from_left: false,
            with_gaps: false,
        };
    }
    laid
}

fn lay_at_emitters(bed: &Bed, want: &Want, margin: Micrometres, kept: &Kept) -> Laid {
    let all = at_emitters(bed, margin);
    let sites: Vec<Site> = all
        .iter()
        .copied()
        .filter(|site| !kept.off(&site.spot, want.spacing))
        .collect();
    let pitch = bed
        .drip()
        .map_or(want.spacing, |drip| drip.emitter_spacing());
    // Emitters lie where they lie, so a distance short of the spacing by the tolerance counts.
    let apart = want.spacing - TOLERANCE;
    let with_gaps = sites.len() < all.len();
    let comb = |need| {
        let (comb, places) = tidy::find(&sites, pitch, apart, need)?;
        let plants: Vec<Plant> = places
            .iter()
            .filter_map(|&at| sites.get(at))
            .map(Plant::at)
            .collect();
        let mut lines: Vec<u16> = plants.iter().filter_map(|plant| plant.line).collect();
        lines.dedup();
        let first_hole = tidy::first_hole(&sites)?;
        let form = Form::Comb {
            comb,
            first_hole,
            lines,
        };
        Some((
            plants,
            Arrangement {
                form,
                from_left: false,
                with_gaps,
            },
        ))
    };
    if let Some(few) = want.on_hand
        && let Some((plants, arrangement)) = comb(few)
    {
        return Laid {
            plants,
            bound: few,
            steps: 0,
            arrangement,
        };
    }
    let spots: Vec<Spot> = sites.iter().map(|site| site.spot).collect();
    let packing = pack::pack(&spots, apart);
    let need = packing.chosen.len() as u32;
    let (plants, arrangement) = comb(need).unwrap_or_else(|| {
        let chosen: Vec<Site> = packing
            .chosen
            .iter()
            .filter_map(|&at| sites.get(at).copied())
            .collect();
        let form = Form::Holes(
            by_line(&chosen)
                .map(|(line, sites)| OnLine {
                    line,
                    holes: sites.iter().map(|site| site.hole).collect(),
                })
                .collect(),
        );
        let plants = chosen.iter().map(Plant::at).collect();
        (
            plants,
            Arrangement {
                form,
                from_left: false,
                with_gaps: false,
            },
        )
    });
    Laid {
        plants,
        bound: packing.bound,
        steps: packing.steps,
        arrangement,
    }
}

fn lay_along_lines(bed: &Bed, want: &Want, margin: Micrometres, kept: &Kept) -> Laid {
    let along = along_lines(bed, margin, want.spacing, kept);
    let spots: Vec<Spot> = along.sites.iter().map(|site| site.spot).collect();
    let packing = pack::pack(&spots, want.spacing);
    let mut chosen: Vec<Site> = packing
        .chosen
        .iter()
        .filter_map(|&at| along.sites.get(at).copied())
        .collect();
    settle(&mut chosen, bed, margin, want.spacing, kept);
    chosen.sort_by_key(|site| (site.line, site.spot.along));
    let bound = if along.whole {
        packing.bound.min(along.at_most)
    } else {
        along.at_most
    };
    let form = Form::Along(
        by_line(&chosen)
            .map(|(line, sites)| AlongLine {
                line,
                along: sites.iter().map(|site| site.spot.along).collect(),
            })
            .collect(),
    );
    let arrangement = Arrangement {
        form,
        from_left: false,
        with_gaps: false,
    };
    let plants = chosen.iter().map(Plant::at).collect();
    Laid {
        plants,
        bound,
        steps: packing.steps,
        arrangement,
    }
}

/// Moves plants that were searched from the very edge of the tolerance back inside the margin,
/// where the right end and the plants that stay allow it.
fn settle(chosen: &mut [Site], bed: &Bed, margin: Micrometres, spacing: Micrometres, kept: &Kept) {
    let Some(field) = Field::within(bed, margin).map(|field| field.loose()) else {
        return;
    };
    let moved = |site: &Site| Spot {
        along: site.spot.along + TOLERANCE,
        ..site.spot
    };
    let can = chosen
        .iter()
        .map(moved)
        .all(|spot| field.holds(&spot) && !kept.off(&spot, spacing));
    if can {
        for site in chosen {
            site.spot = moved(site);
        }
    }
}

fn lay_on_open_ground(bed: &Bed, want: &Want, margin: Micrometres, kept: &Kept) -> Laid {
    let empty = Arrangement {
        form: Form::Empty,
        from_left: false,
        with_gaps: false,
    };
    let Some(field) = Field::within(bed, margin) else {
        return Laid {
            plants: Vec::new(),
            bound: 0,
            steps: 0,
            arrangement: empty,
        };
    };
    let found = open::lay(&field, want.spacing, kept);
    let steps = found.spots.len() as u64;
    let form = found.rows.map_or(Form::Scattered, |(rows, over)| {
        let (row, breadth) = if rows.run_across {
            (over.width, over.length)
        } else {
            (over.length, over.width)
        };
        Form::Rows {
            rows,
            step: rows.step(row),
            gap: rows.gap(breadth),
        }
    });
    let arrangement = Arrangement {
        form,
        from_left: false,
        with_gaps: found.with_gaps,
    };
    let plants = found.spots.into_iter().map(Plant::open).collect();
    Laid {
        plants,
        bound: found.at_most,
        steps,
        arrangement,
    }
}

/// Sites that are sorted by line, line by line.
fn by_line(sites: &[Site]) -> impl Iterator<Item = (u16, &[Site])> {
    sites
        .chunk_by(|one, other| one.line == other.line)
        .filter_map(|sites| Some((sites.first()?.line, sites)))
}

#[cfg(test)]
mod tests {
    use super::*;
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
        println!("{}", words(&layout));
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
        for sites in [
            SiteChoice::Emitters,
            SiteChoice::AlongLine,
            SiteChoice::Anywhere,
        ] {
            let bed = known_bed();
            let request =
                Request::new(&bed, &[want(12, sites, 3)], &[stays], Aim::InOrder).unwrap();
            let layout = fill(&request);
            println!(
                "{sites:?} {:?} {} {} {}",
                layout.counts,
                layout.bound,
                layout.proved,
                words(&layout)
            );
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
    fn crops_in_order_share_a_bed() {
        let bed = open_bed(96, 48);
        let cabbages = Want {
            on_hand: Some(6),
            ..want(18, SiteChoice::Anywhere, 3)
        };
        let request = Request::new(
            &bed,
            &[cabbages, want(6, SiteChoice::Anywhere, 3)],
            &[],
            Aim::InOrder,
        )
        .unwrap();
        let layout = fill(&request);
        println!("{:?} {} {}", layout.counts, layout.bound, layout.proved);
    }
}
