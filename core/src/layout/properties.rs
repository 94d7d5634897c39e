//! What holds of every layout, whatever is asked.

use proptest::prelude::*;

use super::fixture::bed;
use super::*;
use crate::bed::{Bed, DripMeasures, LineMeasures, LinesMeasured, Site, Spot, TOLERANCE};
use crate::quantity::Micrometres;
use crate::turns::{self, Pace, Turns};

fn millimetres(range: core::ops::Range<i64>) -> impl Strategy<Value = Micrometres> {
    range.prop_map(|mm| Micrometres::new(mm * 1_000))
}

/// A bed with drip lines out of phase.
fn any_bed() -> impl Strategy<Value = Bed> {
    let line = (0.0..1.0_f64, 0_i64..300);
    (
        millimetres(300..3_000),
        millimetres(200..1_500),
        prop::collection::vec(line, 1..5),
        millimetres(90..500),
    )
        .prop_map(|(length, width, lines, emitter_spacing)| {
            let each = lines
                .iter()
                .map(|&(share, phase)| LineMeasures {
                    across: Micrometres::new((width.get() as f64 * share) as i64),
                    first_emitter: Some(Micrometres::new(phase * 1_000).min(length)),
                })
                .collect();
            let drip = DripMeasures {
                lines: LinesMeasured::Each(each),
                line_spacing: None,
                first_line: None,
                emitter_spacing,
                first_emitter: None,
                flow: None,
            };
            bed(length, width, Some(drip))
        })
}

fn any_sites() -> impl Strategy<Value = SiteChoice> {
    prop_oneof![Just(SiteChoice::Emitters), Just(SiteChoice::AlongLine), Just(SiteChoice::Anywhere)]
}

fn any_margin() -> impl Strategy<Value = EdgeMargin> {
    prop_oneof![millimetres(0..200).prop_map(EdgeMargin::Of), Just(EdgeMargin::HalfSpacing)]
}

fn any_want() -> impl Strategy<Value = Want> {
    (millimetres(80..700), prop::option::of(0_u32..30), any_sites(), any_margin()).prop_map(
        |(spacing, on_hand, sites, edge_margin)| Want { spacing, on_hand, sites, edge_margin },
    )
}

/// Plants that stay, as shares of the bed.
fn any_standing() -> impl Strategy<Value = Vec<(f64, f64, Micrometres)>> {
    prop::collection::vec((0.0..1.0_f64, 0.0..1.0_f64, millimetres(50..600)), 0..5)
}

fn standing_in(bed: &Bed, shares: &[(f64, f64, Micrometres)]) -> Vec<Plant> {
    let part = |side: Micrometres, share: f64| Micrometres::new((side.get() as f64 * share) as i64);
    shares
        .iter()
        .map(|&(along, across, spacing)| {
            let (along, across) = (part(bed.length(), along), part(bed.width(), across));
            Plant::open(Spot { along, across }, spacing)
        })
        .collect()
}

/// Checks all that a layout promises.
fn check(request: &Request<'_>, layout: &Layout) {
    let bed = request.bed();
    let wants = request.wants();
    assert_eq!(layout.counts.len(), wants.len());
    assert_eq!(layout.plants.len(), wants.len());

    // Twice everything: a mean of two spacings may end in a half.
    let apart = |one: Spot, other: Spot| {
        let (x, y) = ((one.along - other.along).get() * 2, (one.across - other.across).get() * 2);
        x * x + y * y
    };
    let least = |one: Micrometres, other: Micrometres| {
        let twice = (one + other - TOLERANCE * 2).get().max(0);
        twice * twice
    };
    let drip = bed.drip().unwrap();
    let mut before: Vec<(Spot, Micrometres)> =
        request.standing().iter().map(|plant| (plant.site.spot, plant.spacing)).collect();
    for (want, plants) in wants.iter().zip(&layout.plants) {
        let key = |plant: &Plant| (plant.site.spot.across, plant.site.spot.along);
        assert!(plants.is_sorted_by_key(key));
        for plant in plants {
            assert_eq!(plant.spacing, want.spacing);
            let Site { spot, line, hole } = plant.site;
            let margin = want.edge_margin.at(want.spacing) - TOLERANCE;
            assert!(margin <= spot.along && spot.along <= bed.length() - margin, "{plant:?}");
            assert!(margin <= spot.across && spot.across <= bed.width() - margin, "{plant:?}");
            for &(other, spacing) in &before {
                let far = apart(spot, other) >= least(want.spacing, spacing);
                assert!(far, "{plant:?} {other:?}");
            }
            before.push((spot, want.spacing));
            let on = line.map(|line| drip.lines()[usize::from(line) - 1]);
            assert_eq!(on.is_some(), want.sites != SiteChoice::Anywhere);
            assert_eq!(hole.is_some(), want.sites == SiteChoice::Emitters);
            if let Some(on) = on {
                assert_eq!(on.across, spot.across);
                if let Some(hole) = hole {
                    let emitter = drip.emitters(&on).nth(usize::from(hole) - 1);
                    assert_eq!(emitter, Some(spot.along));
                }
            }
        }
    }
    for ((want, plants), &count) in wants.iter().zip(&layout.plants).zip(&layout.counts) {
        assert_eq!(plants.len() as u32, count);
        assert!(want.on_hand.is_none_or(|most| count <= most));
    }
    let total: u32 = layout.counts.iter().sum();
    assert!(total <= layout.bound);
    if wants.len() == 1 {
        assert_eq!(layout.proved, total == layout.bound);
        if wants[0].sites == SiteChoice::Emitters {
            assert!(layout.proved);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn every_layout_keeps_what_it_promises(
        bed in any_bed(), wants in prop::collection::vec(any_want(), 1..4),
        shares in any_standing(), most in any::<bool>(),
    ) {
        let standing = standing_in(&bed, &shares);
        let aim = if most { Aim::Most } else { Aim::InOrder };
        let request = Request::new(&bed, &wants, &standing, aim).unwrap();
        let layout = fill(&request);
        check(&request, &layout);
        prop_assert_eq!(fill(&request), layout);
    }

    #[test]
    fn turns_change_nothing_and_taste_no_count(
        bed in any_bed(), wants in prop::collection::vec(any_want(), 1..4),
        shares in any_standing(), most in any::<bool>(), steps in 1_u64..2_000,
    ) {
        let standing = standing_in(&bed, &shares);
        let aim = if most { Aim::Most } else { Aim::InOrder };
        let request = Request::new(&bed, &wants, &standing, aim).unwrap();
        let at_once = fill(&request);
        // The first crop as far right and as far back as it goes.
        let judge = |plants: &[Vec<Plant>]| {
            let first = plants[0].iter().map(|plant| plant.site.spot);
            first.map(|spot| (spot.along + spot.across).get()).sum()
        };
        let mut cut = Turns::new({
            let (bed, wants) = (bed.clone(), wants.clone());
            async move |pace: &Pace| {
                let request = Request::new(&bed, &wants, &standing, aim).unwrap();
                fill_by(&request, &judge, pace).await
            }
        });
        let in_turns = loop {
            if let Some(layout) = cut.turn(steps) {
                break layout;
            }
        };
        let judged = turns::at_once(async |pace: &Pace| fill_by(&request, &judge, pace).await);
        prop_assert_eq!(&in_turns, &judged);
        check(&request, &judged);
        if wants.iter().all(|want| want.sites == SiteChoice::Emitters) {
            prop_assert_eq!(
                (judged.counts, judged.bound, judged.proved),
                (at_once.counts, at_once.bound, at_once.proved)
            );
        }
    }

    #[test]
    fn a_wider_spacing_never_holds_more(
        bed in any_bed(), want in any_want(), wider in millimetres(1..200),
    ) {
        let want = Want { on_hand: None, ..want };
        let request = Request::new(&bed, &[want], &[], Aim::InOrder).unwrap();
        let counts = at_spacings(&request, &[want.spacing, want.spacing + wider]);
        // Past a thousand places along the lines a search over fewer stands in.
        prop_assume!(want.sites != SiteChoice::AlongLine || fill(&request).proved);
        prop_assert!(counts[0].1 >= counts[1].1, "{:?}", counts);
    }

    #[test]
    fn the_widest_spacing_holds_the_plants_and_a_wider_one_does_not(
        bed in any_bed(), want in any_want(), count in 1_u32..12, shares in any_standing(),
    ) {
        let standing = standing_in(&bed, &shares);
        let request = Request::new(&bed, &[want], &standing, Aim::InOrder).unwrap();
        let Some(found) = widest_spacing(&request, count) else { return Ok(()) };
        prop_assert_eq!(&found.layout.counts, &[count]);
        prop_assert!(found.spacing <= found.bound);
        let at = |spacing| Request::new(
            &bed, &[Want { spacing, on_hand: Some(count), ..want }], &standing, Aim::InOrder,
        ).unwrap();
        check(&at(found.spacing), &found.layout);
        // The tolerance counts twice in a margin of half the spacing; halves are rounded.
        let wider = found.bound + TOLERANCE * 2 + Micrometres::new(10);
        if found.proved && wider <= MOST_SPACING && want.sites == SiteChoice::Emitters {
            prop_assert!(fill(&at(wider)).counts[0] < count);
        }
    }

    #[test]
    fn on_open_ground_length_and_width_are_alike(
        length in millimetres(300..4_000), width in millimetres(300..4_000),
        spacing in millimetres(80..900), margin in any_margin(),
    ) {
        let want = Want { spacing, on_hand: None, sites: SiteChoice::Anywhere, edge_margin: margin };
        let count = |bed: &Bed| {
            fill(&Request::new(bed, &[want], &[], Aim::InOrder).unwrap()).counts[0]
        };
        let width = width.min(crate::bed::WIDEST_SIDE);
        prop_assert_eq!(count(&bed(length, width, None)), count(&bed(width, length, None)));
    }

    #[test]
    fn a_bed_typed_in_rounded_centimetres_answers_as_in_inches(
        length in 24_i64..200, width in 12_i64..60, lines in 1_u32..5, pitch in 6_i64..13,
        spacing in 6_i64..30, margin in 0_i64..7,
    ) {
        let inch = Micrometres::from_inches;
        // Rounded to a tenth of a millimetre, ten times finer than what is forgiven.
        let rounded = |inches: i64| {
            Micrometres::new((inch(inches).get() + 50).div_euclid(100) * 100)
        };
        let count = |measure: &dyn Fn(i64) -> Micrometres| {
            let drip = DripMeasures {
                lines: LinesMeasured::Count(lines),
                line_spacing: None,
                first_line: None,
                emitter_spacing: measure(pitch),
                first_emitter: None,
                flow: None,
            };
            let bed = bed(measure(length), measure(width), Some(drip));
            let want = Want {
                spacing: measure(spacing),
                on_hand: None,
                sites: SiteChoice::Emitters,
                edge_margin: EdgeMargin::Of(measure(margin)),
            };
            fill(&Request::new(&bed, &[want], &[], Aim::InOrder).unwrap()).counts[0]
        };
        prop_assert_eq!(count(&inch), count(&rounded));
    }
}
