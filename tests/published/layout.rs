//! How many plants fit: tables, closed forms and known optima.
//!
//! Marks: *read* was seen in a copy of the source, *from memory* is to be checked again, *derived*
//! follows from the formula or the exhaustive search named beside it.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use pegline_core::bed::{Bed, DripMeasures, LineMeasures, LinesMeasured, Measures, Reach};
use pegline_core::layout::{
    Aim, EdgeMargin, Layout, Request, SiteChoice, Want, at_spacings, fill, on_two, patterns,
    widest_spacing,
};
use pegline_core::quantity::Micrometres;

/// A length in inches that need not be whole.
fn inches(inches: f64) -> Micrometres {
    Micrometres::new((inches * 25_400.0).round() as i64)
}

fn to_inches(length: Micrometres) -> f64 {
    length.get() as f64 / 25_400.0
}

fn bed(length: f64, width: f64, drip: Option<DripMeasures>) -> Bed {
    let reach = Reach::default();
    let (length, width) = (inches(length), inches(width));
    Bed::new(&Measures { length, width, drip, edge_margin: None, reach, faces: None }).unwrap()
}

/// Lines in the middle of equal strips, emitters centred on each.
fn strips(lines: u32, pitch: f64) -> DripMeasures {
    DripMeasures {
        lines: LinesMeasured::Count(lines),
        line_spacing: None,
        first_line: None,
        emitter_spacing: inches(pitch),
        first_emitter: None,
        flow: None,
    }
}

/// So many lines `gap` from each other with so many emitters `pitch` from each other, on a bed that
/// just holds them.
fn board(lines: u32, gap: f64, emitters: u32, pitch: f64) -> Bed {
    let each = (0..lines)
        .map(|line| LineMeasures {
            across: inches(gap) * i64::from(line),
            first_emitter: Some(Micrometres::ZERO),
        })
        .collect();
    let drip = DripMeasures { lines: LinesMeasured::Each(each), ..strips(lines, pitch) };
    let side = |count: u32, step: f64| (f64::from(count - 1) * step).max(1.0);
    bed(side(emitters, pitch), side(lines, gap), Some(drip))
}

fn lay(bed: &Bed, spacing: f64, sites: SiteChoice, margin: EdgeMargin) -> Layout {
    let want = Want { spacing: inches(spacing), on_hand: None, sites, edge_margin: margin };
    fill(&Request::new(bed, &[want], &[], Aim::InOrder).unwrap())
}

fn count(bed: &Bed, spacing: f64, sites: SiteChoice, margin: f64) -> u32 {
    let layout = lay(bed, spacing, sites, EdgeMargin::Of(inches(margin)));
    assert!(layout.proved || sites == SiteChoice::Anywhere);
    layout.counts[0]
}

/// Exact maxima on emitters of a 96 x 48 in bed, equal strips, in phase. Derived: exhaustive search.
#[test]
fn a_bed_of_eight_by_four_feet_holds_the_exhaustive_counts() {
    let rows: [(u32, f64, [u32; 5]); 7] = [
        (2, 9.0, [22, 12, 12, 12, 8]),
        (3, 6.0, [24, 24, 18, 13, 9]),
        (3, 9.0, [33, 18, 18, 17, 9]),
        (3, 12.0, [24, 24, 12, 12, 8]),
        (4, 6.0, [32, 32, 16, 12, 8]),
        (4, 9.0, [44, 24, 22, 12, 8]),
        (4, 12.0, [32, 32, 16, 8, 8]),
    ];
    for (lines, pitch, counts) in rows {
        let bed = bed(96.0, 48.0, Some(strips(lines, pitch)));
        let found = [9.0, 12.0, 15.0, 18.0, 24.0]
            .map(|spacing| count(&bed, spacing, SiteChoice::Emitters, 0.0));
        assert_eq!(found, counts, "{lines} lines, emitters every {pitch} in");
    }
}

/// Emitters of a 96 in line: first at 3, 6 and 3 in. Derived.
#[test]
fn unmeasured_emitters_lie_where_the_table_has_them() {
    for (pitch, emitters, first) in [(9.0, 11, 3.0), (12.0, 8, 6.0), (6.0, 16, 3.0)] {
        let bed = bed(96.0, 48.0, Some(strips(4, pitch)));
        let line = bed.drip().unwrap().lines()[0];
        assert_eq!((line.emitters, line.first_emitter), (emitters, inches(first)));
    }
}

/// Cabbages and garlic in the bed of eight by four feet. Derived: exhaustive search for emitters,
/// rows for garlic.
#[test]
fn cabbages_and_garlic_in_the_known_bed() {
    let bed = bed(96.0, 48.0, Some(strips(4, 9.0)));
    for (spacing, margin, plants) in
        [(18.0, 3.0, 12), (15.0, 3.0, 22), (18.0, 6.0, 10), (18.0, 9.0, 5)]
    {
        assert_eq!(count(&bed, spacing, SiteChoice::Emitters, margin), plants);
    }
    assert_eq!(count(&bed, 6.0, SiteChoice::Anywhere, 3.0), 140);

    let cabbage = Want {
        spacing: inches(18.0),
        on_hand: None,
        sites: SiteChoice::Emitters,
        edge_margin: EdgeMargin::Of(inches(3.0)),
    };
    let request = Request::new(&bed, &[cabbage], &[], Aim::InOrder).unwrap();
    assert_eq!(widest_spacing(&request, 14).unwrap().spacing, inches(15.0));
}

/// Two lines in phase, k = ceil(s/e), c = ceil(sqrt(s^2 - g^2)/e), M = N - 1. Derived, and said to
/// agree with exhaustive search over the same ranges.
fn zig_zag_on_emitters(pitch: f64, emitters: u32, gap: f64, spacing: f64) -> u32 {
    let k = (spacing / pitch).ceil() as u32;
    let c = ((spacing * spacing - gap * gap).max(0.0).sqrt() / pitch).ceil() as u32;
    let m = emitters - 1;
    if c == 0 {
        2 * (m / k + 1)
    } else if 2 * c >= k {
        m / c + 1
    } else {
        2 * (m / k) + 1 + u32::from(m % k >= c)
    }
}

#[test]
fn two_lines_of_emitters_follow_the_closed_form() {
    let spacings: Vec<Micrometres> = (4..=36).map(|spacing| inches(f64::from(spacing))).collect();
    // What a tape measure forgives.
    let tolerance = 1.0 / 25.4;
    for pitch in 6..=18 {
        for gap in 6..=24 {
            for emitters in [1, 2, 3, 4, 7, 11, 12, 16] {
                let (pitch, gap) = (f64::from(pitch), f64::from(gap));
                let bed = board(2, gap, emitters, pitch);
                let want = Want {
                    spacing: spacings[0],
                    on_hand: None,
                    sites: SiteChoice::Emitters,
                    edge_margin: EdgeMargin::Of(Micrometres::ZERO),
                };
                let request = Request::new(&bed, &[want], &[], Aim::InOrder).unwrap();
                for (spacing, plants) in at_spacings(&request, &spacings) {
                    let spacing = to_inches(spacing) - tolerance;
                    assert_eq!(
                        plants,
                        zig_zag_on_emitters(pitch, emitters, gap, spacing),
                        "emitters {emitters} every {pitch} in, gap {gap} in, spacing {spacing} in"
                    );
                }
            }
        }
    }
}

/// Worked cases of the closed form. Derived.
#[test]
fn worked_cases_on_emitters() {
    for (pitch, emitters, gap, spacing, plants) in [
        (9.0, 11, 16.0, 18.0, 11),
        (12.0, 8, 12.0, 18.0, 4),
        (6.0, 16, 23.5, 24.0, 8),
        (9.0, 11, 20.0, 24.0, 6),
    ] {
        assert_eq!(zig_zag_on_emitters(pitch, emitters, gap, spacing), plants);
        let bed = board(2, gap, emitters, pitch);
        assert_eq!(count(&bed, spacing, SiteChoice::Emitters, 0.0), plants);
    }
}

/// Zig-zag along two lines, free places. Derived.
#[test]
fn worked_cases_along_two_lines() {
    for (length, spacing, gap, plants) in [
        (84.0, 18.0, 12.0, 7),
        (84.0, 18.0, 16.0, 10),
        (84.0, 18.0, 18.0, 10),
        (90.0, 9.0, 6.0, 14),
    ] {
        assert_eq!(on_two(inches(length), inches(gap), inches(spacing)), plants);
        let lines = [2.0, 2.0 + gap]
            .map(|across| LineMeasures { across: inches(across), first_emitter: None });
        let drip = DripMeasures { lines: LinesMeasured::Each(lines.to_vec()), ..strips(2, 9.0) };
        let bed = bed(length + 4.0, gap + 4.0, Some(drip));
        assert_eq!(count(&bed, spacing, SiteChoice::AlongLine, 2.0), plants);
    }
}

/// The smallest multiple of the emitter spacing not below the wish. Derived.
#[test]
fn a_spacing_snaps_to_whole_hops_on_one_line() {
    for (wish, hops) in [
        (9.0, [12.0, 9.0, 12.0, 18.0]),
        (12.0, [12.0, 18.0, 12.0, 18.0]),
        (15.0, [18.0, 18.0, 24.0, 18.0]),
        (18.0, [18.0, 18.0, 24.0, 18.0]),
        (24.0, [24.0, 27.0, 24.0, 36.0]),
        (30.0, [30.0, 36.0, 36.0, 36.0]),
        (36.0, [36.0, 36.0, 36.0, 36.0]),
    ] {
        for (pitch, hop) in [6.0, 9.0, 12.0, 18.0].into_iter().zip(hops) {
            let bed = board(1, 1.0, 30, pitch);
            let layout = lay(&bed, wish, SiteChoice::Emitters, EdgeMargin::Of(Micrometres::ZERO));
            for pair in layout.plants[0].windows(2) {
                assert_eq!(
                    pair[1].site.spot.along - pair[0].site.spot.along,
                    inches(hop),
                    "{wish} in on {pitch} in"
                );
            }
        }
    }
}

/// Off the emitters, from the first one on: the farthest plant from its nearest emitter. Derived.
#[test]
fn plants_between_emitters_are_never_far_from_one() {
    for (spacing, pitch, worst) in [(15.0, 9.0, 3.0), (10.0, 12.0, 6.0)] {
        let bed = board(1, 1.0, 31, pitch);
        let layout = lay(&bed, spacing, SiteChoice::AlongLine, EdgeMargin::Of(Micrometres::ZERO));
        let drip = bed.drip().unwrap();
        let farthest = layout.plants[0]
            .iter()
            .map(|plant| {
                drip.emitters(&drip.lines()[0])
                    .map(|emitter| (plant.site.spot.along - emitter).get().abs())
                    .min()
                    .unwrap()
            })
            .max()
            .unwrap();
        assert_eq!(farthest, inches(worst).get(), "every {spacing} in, emitters every {pitch} in");
    }
}

/// Length, width, spacing, margin (in): square, staggered along, staggered across, stretched, bound.
///
/// Derived from the formulas of each pattern; the bound is Oler's (Acta Mathematica 105, 1961) and
/// Groemer's (1960), from memory. The last row is 240 x 120 cm, 30 cm, 15 cm.
const PATTERNS: [(f64, f64, f64, f64, [u32; 5]); 13] = [
    (96.0, 48.0, 4.0, 2.0, [288, 306, 311, 311, 327]),
    (96.0, 48.0, 6.0, 3.0, [128, 140, 135, 140, 144]),
    (96.0, 48.0, 9.0, 4.5, [50, 60, 54, 60, 63]),
    (96.0, 48.0, 12.0, 6.0, [32, 30, 32, 32, 35]),
    (96.0, 48.0, 12.0, 3.0, [32, 40, 36, 40, 42]),
    (96.0, 48.0, 15.0, 7.5, [18, 17, 18, 18, 22]),
    (96.0, 48.0, 18.0, 9.0, [10, 9, 12, 12, 15]),
    (96.0, 48.0, 18.0, 6.0, [15, 15, 15, 15, 18]),
    (96.0, 48.0, 24.0, 6.0, [8, 8, 10, 10, 12]),
    (120.0, 48.0, 18.0, 9.0, [12, 12, 14, 17, 19]),
    (144.0, 48.0, 18.0, 9.0, [16, 15, 18, 20, 23]),
    (96.0, 30.0, 12.0, 6.0, [16, 15, 18, 18, 21]),
    (240.0 / 2.54, 120.0 / 2.54, 30.0 / 2.54, 15.0 / 2.54, [32, 30, 32, 32, 35]),
];

#[test]
fn rows_without_drip_hold_what_the_table_says() {
    for (length, width, spacing, margin, [square, along, across, stretched, bound]) in PATTERNS {
        let (l, w) = (inches(length - 2.0 * margin), inches(width - 2.0 * margin));
        let apart = inches(spacing);
        assert_eq!(patterns::square(l, w, apart).count(), square);
        assert_eq!(patterns::at_most(l, w, apart), bound, "{length} x {width}, {spacing}");
        assert_eq!(patterns::best(l, w, apart).count(), stretched);
        assert!(along.max(across) <= stretched);

        let layout = lay(
            &bed(length, width, None),
            spacing,
            SiteChoice::Anywhere,
            EdgeMargin::Of(inches(margin)),
        );
        assert_eq!(layout.counts[0], stretched, "{length} x {width}, {spacing}");
        assert!(layout.bound >= bound && layout.bound <= bound + 1);
    }
}

/// The widest spacing for a number of plants, 96 x 48 in, margin 6 in, within 0.01 in. Derived.
#[test]
fn the_reverse_table_is_met() {
    let bed = bed(96.0, 48.0, None);
    for (plants, spacing) in
        [(6, 36.00), (8, 28.00), (10, 24.00), (12, 21.63), (15, 18.67), (20, 15.20), (24, 14.22)]
    {
        // On the bare rectangle, since in a bed the edges may give way by a millimetre each.
        let (l, w) = (inches(84.0), inches(36.0));
        assert!(patterns::best(l, w, inches(spacing - 0.01)).count() >= plants, "{plants}");
        assert!(patterns::best(l, w, inches(spacing + 0.01)).count() < plants, "{plants}");

        let want = Want {
            spacing: inches(12.0),
            on_hand: None,
            sites: SiteChoice::Anywhere,
            edge_margin: EdgeMargin::Of(inches(6.0)),
        };
        let request = Request::new(&bed, &[want], &[], Aim::InOrder).unwrap();
        let found = to_inches(widest_spacing(&request, plants).unwrap().spacing);
        assert!(spacing - 0.01 <= found && found <= spacing + 0.1, "{plants}: {found}");
    }
}

/// The largest least distance of n points in a unit square, n = 2 to 20.
///
/// n = 2 to 10 from OEIS A281065, read (n = 9: Schaer 1965); n = 11 to 20 from memory (Peikert and
/// others 1992; Szabo and others, *New Approaches to Circle Packing in a Square*, Springer 2007).
/// All proven optimal, so no layout may beat them and no bound may fall below them.
#[expect(clippy::approx_constant, reason = "the values as they are printed")]
const SQUARE: [f64; 19] = [
    1.414_214, 1.035_276, 1.000_000, 0.707_107, 0.600_925, 0.535_898, 0.517_638, 0.500_000,
    0.421_280, 0.398_207, 0.388_730, 0.366_096, 0.348_915, 0.341_081, 0.333_333, 0.306_154,
    0.300_463, 0.289_542, 0.286_612,
];

#[test]
fn no_layout_beats_the_best_points_in_a_square() {
    let side = 60.0;
    let bed = bed(side, side, None);
    for (plants, distance) in (2..).zip(SQUARE) {
        let want = Want {
            spacing: inches(12.0),
            on_hand: None,
            sites: SiteChoice::Anywhere,
            edge_margin: EdgeMargin::Of(Micrometres::ZERO),
        };
        let request = Request::new(&bed, &[want], &[], Aim::InOrder).unwrap();
        let found = widest_spacing(&request, plants).unwrap();
        let most = distance * side;
        // Half the last printed digit of the table, and the tenth of a millimetre searched to.
        let slack = 0.000_000_5 * side + 0.005;
        assert!(to_inches(found.spacing) <= most + slack, "{plants}: {:?}", found.spacing);
        assert!(to_inches(found.bound) >= most - slack, "{plants}: {:?}", found.bound);
    }
}

/// The most circles of area 1 inside a square of area N, N = 1 to 30: OEIS A337020, read.
const CIRCLES: [u32; 30] = [
    0, 1, 1, 2, 3, 4, 4, 5, 5, 6, 8, 9, 9, 9, 10, 11, 12, 13, 13, 15, 16, 16, 16, 18, 18, 20, 20,
    21, 22, 22,
];

#[test]
fn no_layout_beats_the_most_circles_in_a_square() {
    let diameter = 2.0 / std::f64::consts::PI.sqrt();
    // A unit is 40 in, so that the millimetre given at each edge is a thousandth of it.
    let unit = 40.0;
    for (area, &most) in (1..).zip(&CIRCLES) {
        let side = f64::from(area).sqrt() * unit;
        let bed = bed(side, side, None);
        let layout = lay(&bed, diameter * unit, SiteChoice::Anywhere, EdgeMargin::HalfSpacing);
        assert!(layout.counts[0] <= most, "area {area}: {}", layout.counts[0]);
        assert!(layout.bound >= most, "area {area}: {}", layout.bound);
        // Square grids of whole side are optimal up to 36 (read, beside the sequence).
        let grid = (side / (diameter * unit)).floor() as u32;
        assert!(layout.counts[0] >= grid * grid);
    }
}

/// Independent sets of the grid graph and of the king graph.
///
/// King values 1, 1, 4, 4, 9, 9, 16, 16: MathWorld, "Kings Problem"; Madachy 1979; OEIS A008794,
/// read. Grid graph: ceil(m n / 2), derived.
#[test]
fn kings_and_rooks_neighbours_on_a_board() {
    let pitch = 10.0;
    for m in 1..=8_u32 {
        for n in 1..=8_u32 {
            let board = board(m, pitch, n, pitch);
            let at = |spacing: f64| count(&board, spacing * pitch, SiteChoice::Emitters, 0.0);
            assert_eq!(at(0.9), m * n);
            assert_eq!(at(1.0), m * n);
            assert_eq!(at(1.2), (m * n).div_ceil(2));
            assert_eq!(at(2.0_f64.sqrt()), (m * n).div_ceil(2));
            assert_eq!(at(1.5), m.div_ceil(2) * n.div_ceil(2));
            assert_eq!(at(2.0), m.div_ceil(2) * n.div_ceil(2));
        }
    }
    for (n, kings) in (1..).zip([1, 1, 4, 4, 9, 9, 16, 16]) {
        assert_eq!(
            count(&board(n, pitch, n, pitch), 2.0 * pitch, SiteChoice::Emitters, 0.0),
            kings
        );
    }
}

/// Exact maxima on small boards at wider distances. Derived: exhaustive search.
#[test]
fn small_boards_at_wider_distances() {
    let pitch = 10.0;
    let boards = [(3, 3), (4, 4), (5, 5), (6, 6), (3, 12), (4, 8), (4, 12), (5, 10), (2, 12)];
    for (spacing, counts) in [
        (5.0_f64.sqrt(), [2, 4, 6, 8, 8, 8, 11, 11, 6]),
        (8.0_f64.sqrt(), [2, 4, 5, 6, 6, 6, 8, 8, 4]),
        (3.0, [1, 4, 4, 4, 4, 6, 8, 8, 4]),
    ] {
        for ((m, n), most) in boards.into_iter().zip(counts) {
            let board = board(m, pitch, n, pitch);
            let found = count(&board, spacing * pitch, SiteChoice::Emitters, 0.0);
            assert_eq!(found, most, "{m} x {n}, distance {spacing}");
        }
    }
}
