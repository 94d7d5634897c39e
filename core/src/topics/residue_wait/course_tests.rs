//! The limits and the ways round them, on beds like those one meets.

use chrono::{Days, NaiveDate};
use proptest::prelude::*;
use uom::si::{
    areal_mass_density::gram_per_square_meter, f64::ArealMassDensity, temperature_interval::kelvin,
    thermodynamic_temperature::degree_celsius,
};

use super::{
    balance::{CarbonToNitrogen, Placement},
    check_in::Left,
    clock::{Moisture, Soil},
    course::Course,
    limits::{Ends, Limit, Load, Next, Plan, Sign, SignOf, Slugs, all_past, binding},
    way_round::{What, best, ways},
};
use crate::{
    quantity::{Temperature, TemperatureInterval},
    time::Range,
};

fn laid() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 4, 20).unwrap()
}

fn after(days: u64) -> Option<NaiveDate> {
    laid().checked_add_days(Days::new(days))
}

fn soil(c: f64) -> impl Fn(NaiveDate) -> (Temperature, TemperatureInterval) {
    move |_| (Temperature::new::<degree_celsius>(c), TemperatureInterval::new::<kelvin>(1.0))
}

fn load(ratio: f64, dry_g_per_m2: f64) -> Load {
    let ends = |share: f64| {
        (
            CarbonToNitrogen::new(ratio * share).unwrap(),
            ArealMassDensity::new::<gram_per_square_meter>(0.42 * dry_g_per_m2 * share),
        )
    };
    let ((low, less), (likely, carbon), (high, more)) = (ends(0.9), ends(1.0), ends(1.1));
    Load {
        ratio: Ends { low, likely, high },
        carbon: Ends { low: less, likely: carbon, high: more },
        green: true,
        brassica: false,
        rye: false,
        fine: false,
    }
}

const PLANTS: Next = Next {
    plan: Plan::Transplant,
    can_be_set: true,
    fine_seed: false,
    brassica: false,
    maggots_eat: false,
    rots_here: false,
};

const SEED: Next = Next { plan: Plan::DirectSow, ..PLANTS };

/// Moist greens at 300 g/m2 of dry matter, dug in, before transplants.
fn bed<'a>(ratio: f64, soil: &'a Soil<'a>) -> Course<'a> {
    Course {
        laid: laid(),
        load: load(ratio, 300.0),
        dry: ArealMassDensity::new::<gram_per_square_meter>(300.0),
        placement: Placement::WorkedIn,
        moisture: Moisture::Moist,
        wetted_on: None,
        next: PLANTS,
        looks: &[],
        signs: &[],
        slugs: None,
        soil,
        flight: None,
        also: &[],
    }
}

fn limits(course: Course<'_>) -> Vec<(Limit, Option<Range>)> {
    course.limits(&course.run())
}

fn limit(course: Course<'_>, which: Limit) -> Range {
    limits(course).iter().find(|(limit, _)| *limit == which).unwrap().1.unwrap()
}

fn whole(course: Course<'_>) -> Range {
    all_past(&limits(course), course.laid)
}

#[test]
fn plants_go_through_greens_left_on_top_at_once() {
    let soil = soil(12.0);
    let course = Course { placement: Placement::OnTop, ..bed(15.0, &soil) };
    assert_eq!(
        whole(course),
        Range { early: Some(laid()), likely: Some(laid()), late: Some(laid()) }
    );
    assert_eq!(binding(&limits(course), laid()), None);
    let best = best(&ways(&course, whole(course), laid()), whole(course), laid()).unwrap();
    assert_eq!((best.what, best.from(laid())), (What::ThroughTheTop, Some(laid())));
}

#[test]
fn plants_wait_a_calendar_week_for_greens_dug_in_even_in_cold_soil() {
    for c in [2.0, 12.0, 22.0] {
        let soil = soil(c);
        assert_eq!(limit(bed(15.0, &soil), Limit::SeedlingRot).likely, after(7));
    }
}

#[test]
fn seed_waits_three_weeks_longer_than_plants_do() {
    let soil = soil(15.0);
    let sown = Course { next: SEED, ..bed(15.0, &soil) };
    assert_eq!(limit(sown, Limit::SeedlingRot).likely, after(21));
    assert!(whole(bed(15.0, &soil)).likely < whole(sown).likely);
}

#[test]
fn where_seedlings_have_rotted_before_it_is_five_weeks() {
    let soil = soil(15.0);
    let sown = Course { next: Next { rots_here: true, ..SEED }, ..bed(15.0, &soil) };
    assert_eq!(limit(sown, Limit::SeedlingRot).likely, after(35));
}

#[test]
fn cabbages_wait_for_cabbage_leaves_and_more_than_others_do() {
    let soil = soil(15.0);
    let leaves = Load { brassica: true, ..load(12.0, 300.0) };
    let plants = Course { load: leaves, ..bed(12.0, &soil) };
    assert_eq!(limit(plants, Limit::Toxins).likely, after(14));
    let others = Course { next: SEED, ..plants };
    let cabbages = Course { next: Next { brassica: true, ..SEED }, ..plants };
    assert_eq!(limit(others, Limit::Toxins).likely, after(30));
    assert_eq!(limit(cabbages, Limit::Toxins).likely, after(38));
    assert_eq!(
        limit(Course { placement: Placement::OnTop, ..plants }, Limit::Toxins).late,
        Some(laid())
    );
}

#[test]
fn fine_seed_waits_more_than_four_weeks_after_rye() {
    let soil = soil(15.0);
    let rye = Load { rye: true, ..load(26.0, 300.0) };
    let beans = Course { load: rye, next: SEED, ..bed(26.0, &soil) };
    let carrots = Course { next: Next { fine_seed: true, ..SEED }, ..beans };
    assert_eq!(limit(beans, Limit::Toxins).likely, after(21));
    assert!(after(28) < limit(carrots, Limit::Toxins).early);
    let mulched = Course { placement: Placement::OnTop, ..carrots };
    assert_eq!(limit(mulched, Limit::Toxins).likely, after(30));
    let plants = Course { next: PLANTS, ..mulched };
    assert_eq!(limit(plants, Limit::Toxins).likely, Some(laid()));
}

#[test]
fn maggot_flies_hold_up_bean_seed_and_a_peak_of_flight_more() {
    let soil = soil(15.0);
    let beans = Course { next: Next { maggots_eat: true, ..SEED }, ..bed(15.0, &soil) };
    assert_eq!(limit(beans, Limit::SeedMaggot).likely, after(14));
    let flight = |_: NaiveDate| after(40);
    assert_eq!(
        limit(Course { flight: Some(&flight), ..beans }, Limit::SeedMaggot).likely,
        after(40)
    );
    let on_top = Course { placement: Placement::OnTop, ..beans };
    assert_eq!(limit(on_top, Limit::SeedMaggot).likely, Some(laid()));
}

#[test]
fn straw_dug_in_is_fed_for_not_waited_for() {
    let soil = soil(15.0);
    let straw = Course { load: load(80.0, 500.0), ..bed(80.0, &soil) };
    let nitrogen = limit(straw, Limit::Nitrogen);
    assert_eq!((nitrogen.likely, nitrogen.late), (None, None));
    assert!(nitrogen.early.is_none_or(|early| laid() + Days::new(120) < early));
    assert_eq!(binding(&limits(straw), laid()), Some(Limit::Nitrogen));
    let best = best(&ways(&straw, whole(straw), laid()), whole(straw), laid()).unwrap();
    assert_eq!(best.what, What::LiftToTop);
    let old = laid() + Days::new(40);
    let best = super::way_round::best(&ways(&straw, whole(straw), old), whole(straw), old).unwrap();
    assert_eq!((best.what, best.from(old)), (What::Feed, Some(old)));
}

#[test]
fn a_little_straw_is_waited_for_by_no_one() {
    let soil = soil(15.0);
    let straw = Course { load: load(80.0, 80.0), ..bed(80.0, &soil) };
    assert_eq!(limit(straw, Limit::Nitrogen).likely, Some(laid()));
}

#[test]
fn a_strip_is_raked_for_seed_where_the_mulch_lies_on_top() {
    let soil = soil(12.0);
    let sown = Course { placement: Placement::OnTop, next: SEED, ..bed(20.0, &soil) };
    assert_eq!(binding(&limits(sown), laid()), Some(Limit::CoarseTrash));
    let best = best(&ways(&sown, whole(sown), laid()), whole(sown), laid()).unwrap();
    assert_eq!((best.what, best.from(laid())), (What::RakeAStrip, Some(laid())));
}

#[test]
fn fine_seed_waits_for_finer_crumbs() {
    let soil = soil(15.0);
    let coarse = Course { next: SEED, ..bed(20.0, &soil) };
    let fine = Course { next: Next { fine_seed: true, ..SEED }, ..coarse };
    assert!(limit(coarse, Limit::CoarseTrash).likely < limit(fine, Limit::CoarseTrash).likely);
}

#[test]
fn slugs_hold_up_small_plants_under_a_mulch() {
    let soil = soil(12.0);
    let slugs = |per_trap| Some(Slugs { on: laid(), per_trap });
    let on_top = Course { placement: Placement::OnTop, ..bed(15.0, &soil) };
    assert_eq!(limits(on_top).iter().find(|(limit, _)| *limit == Limit::Slugs).unwrap().1, None);
    let few = Course { slugs: slugs(2.0), ..on_top };
    assert_eq!(limit(few, Limit::Slugs).likely, Some(laid()));
    let many = Course { slugs: slugs(5.0), ..on_top };
    assert_eq!(limit(many, Limit::Slugs), Range { early: after(3), likely: after(7), late: None });
    let seed = Course { slugs: slugs(2.0), next: SEED, ..on_top };
    assert_eq!(limit(seed, Limit::Slugs).likely, after(7));
}

#[test]
fn the_jar_of_seeds_overrules_the_clocks() {
    let soil = soil(15.0);
    let on = laid() + Days::new(10);
    let thrive = [Sign { on, what: SignOf::SeedsThrive }];
    let fail = [Sign { on: laid() + Days::new(30), what: SignOf::SeedsFail }];
    let sown = Course { next: SEED, ..bed(15.0, &soil) };
    let rot = limit(Course { signs: &thrive, ..sown }, Limit::SeedlingRot);
    assert_eq!(rot, Range { early: Some(on), likely: Some(on), late: Some(on) });
    assert_eq!(limit(Course { signs: &fail, ..sown }, Limit::SeedlingRot).likely, after(37));
}

#[test]
fn a_foul_smell_holds_up_planting() {
    let soil = soil(15.0);
    let foul = [Sign { on: laid() + Days::new(12), what: SignOf::Foul }];
    assert_eq!(
        limit(Course { signs: &foul, ..bed(15.0, &soil) }, Limit::SeedlingRot).likely,
        after(19)
    );
}

#[test]
fn a_look_moves_the_dates_the_way_it_should() {
    let soil = soil(15.0);
    let sown = Course { placement: Placement::OnTop, next: SEED, ..bed(20.0, &soil) };
    let on = laid() + Days::new(30);
    let (ahead, behind) = ([(on, Left::new(0.3).unwrap())], [(on, Left::new(0.9).unwrap())]);
    let trash = |course| limit(course, Limit::CoarseTrash);
    let unseen = trash(sown);
    let ahead = trash(Course { looks: &ahead, ..sown });
    let behind = trash(Course { looks: &behind, ..sown });
    assert!(ahead.likely < unseen.likely);
    assert!(unseen.likely < behind.likely);
    let width = |range: Range| (range.late.unwrap() - range.early.unwrap()).num_days();
    assert!(width(ahead) < width(unseen));
}

#[test]
fn dry_residue_does_not_rot_until_it_is_wetted() {
    let soil = soil(15.0);
    let dry = Course { moisture: Moisture::Dry, load: load(24.0, 1500.0), ..bed(24.0, &soil) };
    let wetted = Course { wetted_on: after(10), ..dry };
    assert!(
        limit(wetted, Limit::Nitrogen).likely.unwrap()
            < limit(dry, Limit::Nitrogen).likely.unwrap()
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn colder_soil_is_never_sooner(
        c in 0.0..30.0, colder in 0.0..15.0, ratio in 9.0..90.0, sowing in any::<bool>(),
        on_top in any::<bool>(), brassica in any::<bool>(), rye in any::<bool>(),
    ) {
        let (warm, cold) = (soil(c), soil(c - colder));
        let course = |soil| Course {
            load: Load { brassica, rye, ..load(ratio, 300.0) },
            placement: if on_top { Placement::OnTop } else { Placement::WorkedIn },
            next: if sowing { SEED } else { PLANTS },
            ..bed(ratio, soil)
        };
        let never = NaiveDate::MAX;
        for (warm, cold) in limits(course(&warm)).iter().zip(limits(course(&cold))) {
            let (Some(warm), Some(cold)) = (warm.1, cold.1) else { continue };
            for (warm, cold) in
                [(warm.early, cold.early), (warm.likely, cold.likely), (warm.late, cold.late)]
            {
                prop_assert!(warm.unwrap_or(never) <= cold.unwrap_or(never));
            }
        }
    }

    #[test]
    fn the_ends_of_every_range_are_in_order(
        c in 0.0..30.0, ratio in 9.0..90.0, sowing in any::<bool>(), on_top in any::<bool>(),
        days in 1u64..60, left in 0.0..=1.0, slugs in 0.0..9.0,
    ) {
        let soil = soil(c);
        let looks = [(laid() + Days::new(days), Left::new(left).unwrap())];
        let course = Course {
            placement: if on_top { Placement::OnTop } else { Placement::WorkedIn },
            next: if sowing { SEED } else { PLANTS },
            looks: &looks,
            slugs: Some(Slugs { on: laid(), per_trap: slugs }),
            ..bed(ratio, &soil)
        };
        let never = NaiveDate::MAX;
        let in_order = |range: Range| {
            range.early.unwrap_or(never) <= range.likely.unwrap_or(never)
                && range.likely.unwrap_or(never) <= range.late.unwrap_or(never)
        };
        for (_, range) in limits(course) {
            prop_assert!(range.is_none_or(in_order));
        }
        for way in ways(&course, whole(course), laid()) {
            prop_assert!(in_order(way.plant_from));
        }
    }
}
