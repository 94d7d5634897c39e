//! The rotting of plant residue, against published equations, worked figures and measurements.
//!
//! Three kinds of check: arithmetic (the equations give the figures they should), measurements
//! inside a stated band, and measurements that the model is known to miss, with the size of the
//! miss. A known miss fails when it changes either way, so that it can't be forgotten or hidden.
//! Independent of the model are Peterson 2023, Trinsoutrot 1999, Sullivan and Andrews 2012, Wilson
//! and Hargrove 1986 and Wagger 1989; Justes 2009 and probably Trinsoutrot 2000 are data that it was
//! fitted to.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

mod other_models;
mod waits;

use pegline_core::{
    catalogue::residue,
    topics::residue_wait::{
        balance::{Balance, CarbonToNitrogen, Fate, Placement, RotAge, starting_thresholds},
        check_in::{Left, Look, VisibleRate},
        clock, feeding,
        materials::{Amount, BUCKET, Material, Mixture, Stage, State},
    },
};
use uom::si::{
    area::square_meter,
    areal_mass_density::{gram_per_square_meter, kilogram_per_square_meter},
    f64::{Area, ArealMassDensity, Length, Mass, ThermodynamicTemperature, Volume},
    length::inch,
    mass::{gram, kilogram},
    thermodynamic_temperature::degree_celsius,
    volume::{cubic_foot, gallon},
};

/// Carbon in plant dry matter, g per kg; published models use 400 to 430.
const CARBON_G_PER_KG: f64 = 420.0;

#[track_caller]
fn close(ours: f64, published: f64, within: f64) {
    assert!(
        (ours - published).abs() <= within,
        "ours {ours}, published {published}, within {within}"
    );
}

/// Half a unit of the last printed digit.
#[track_caller]
fn as_printed(ours: f64, published: f64, decimals: i32) {
    close(ours, published, 0.5001 * 10f64.powi(-decimals));
}

fn ratio(r: f64) -> CarbonToNitrogen {
    CarbonToNitrogen::new(r).unwrap()
}

fn fate(r: f64, placement: Placement, days_at_15_c: f64) -> Fate {
    Balance::new(ratio(r), placement).at(RotAge::days_at_15_c(days_at_15_c))
}

fn dug_in(r: f64, days_at_15_c: f64) -> Fate {
    fate(r, Placement::WorkedIn, days_at_15_c)
}

fn celsius(c: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(c)
}

// ---- Arithmetic ----

/// Coleman and Jenkinson, RothC-26.3, 1999: the rate modifying factor for temperature.
#[test]
fn rothc_temperature_factor() {
    for (c, published) in [(0.0, 0.1439), (10.0, 1.0990), (20.0, 2.8215), (30.0, 4.7910)] {
        as_printed(clock::rothc(celsius(c)), published, 4);
    }
    close(clock::rothc(celsius(9.291)), 1.0, 1e-4);
}

/// STICS v9.1 parameter file (0.103, 12, reference 15 °C), form from memory.
#[test]
fn stics_temperature_factor() {
    for (c, published) in
        [(5.0, 0.3772), (10.0, 0.6182), (15.0, 1.0), (20.0, 1.5847), (25.0, 2.4355)]
    {
        as_printed(clock::stics(celsius(c)), published, 4);
    }
    assert_eq!(clock::stics(celsius(0.0)), 0.0);
}

/// All functions brought to 1 at 15 °C, as derived from their published forms.
#[test]
fn temperature_functions_relative_to_15_c() {
    let rothc_15 = clock::rothc(celsius(15.0));
    let ceres_15 = clock::ceres(celsius(15.0));
    for (c, stics, rothc, ceres, doubling) in [
        (0.0, 0.0, 0.076, 0.0, 0.354),
        (2.0, 0.279, 0.134, 0.0, 0.406),
        (5.0, 0.377, 0.262, 0.0, 0.500),
        (10.0, 0.618, 0.579, 0.500, 0.707),
        (20.0, 1.585, 1.486, 1.500, 1.414),
        (25.0, 2.436, 2.003, 2.000, 2.000),
        (30.0, 3.586, 2.524, 2.500, 2.828),
    ] {
        as_printed(clock::stics(celsius(c)), stics, 3);
        as_printed(clock::rothc(celsius(c)) / rothc_15, rothc, 3);
        as_printed(clock::ceres(celsius(c)) / ceres_15, ceres, 3);
        as_printed(clock::doubling(celsius(c)), doubling, 3);
    }
}

/// Nicolardot, Recous and Mary 2001 with the STICS v9.1 parameters, straw dug in for four weeks.
#[test]
fn straw_dug_in_after_28_days_at_15_c() {
    let straw = Balance::new(ratio(80.0), Placement::WorkedIn);
    as_printed(straw.decay, 0.10950, 5);
    as_printed(straw.microbe_ratio, 14.400, 3);
    // Printed 0.3525; the fourth digit is 0.35255.
    close(straw.humus_share, 0.3525, 0.0001);
    let fate = straw.at(RotAge::days_at_15_c(28.0));
    as_printed(fate.residue, 0.0466, 4);
    as_printed(fate.microbes, 0.4839, 4);
    as_printed(fate.humus, 0.0378, 4);
    as_printed(fate.respired, 0.4317, 4);
    close(fate.nitrogen, -0.02565, 0.005 * 0.02565);
}

/// The same, net nitrogen of other residues.
#[test]
fn net_nitrogen_dug_in() {
    for (r, days, published) in [
        (11.0, 28.0, 0.02382),
        (19.0, 7.0, -0.00074),
        (19.0, 28.0, 0.00188),
        (30.0, 14.0, -0.01112),
        (30.0, 84.0, -0.00509),
        (37.0, 28.0, -0.01557),
    ] {
        close(
            dug_in(r, days).nitrogen,
            published,
            f64::max(0.005 * f64::abs(published), 0.000_005),
        );
    }
}

/// The same equations with the parameters of surface residue.
#[test]
fn on_the_surface() {
    let greens = fate(19.0, Placement::OnTop, 28.0);
    as_printed(greens.residue, 0.4130, 4);
    as_printed(greens.nitrogen, 0.00826, 5);
    let straw = fate(80.0, Placement::OnTop, 56.0);
    as_printed(straw.residue, 0.6570, 4);
    as_printed(straw.nitrogen, -0.00295, 5);
}

/// Where the net nitrogen starts at zero: derived from the same equations.
#[test]
fn starting_thresholds_of_carbon_to_nitrogen() {
    let [low, high] = starting_thresholds(Placement::WorkedIn);
    assert!(low.is_none());
    as_printed(high.unwrap().get(), 17.916, 3);
    let [low, high] = starting_thresholds(Placement::OnTop).map(|r| r.unwrap().get());
    as_printed(low, 12.204, 3);
    as_printed(high, 36.344, 3);
}

/// Most nitrogen held, when, and when it is back: derived from the same equations.
#[test]
fn most_nitrogen_held_and_when_it_is_back() {
    for (r, g_per_kg, at, back) in [
        (18.0, 0.0, None, None),
        (20.0, 0.8, Some(10.0), Some(27.0)),
        (22.0, 1.8, Some(13.0), Some(50.0)),
        (25.0, 3.1, Some(17.0), Some(87.0)),
        (28.0, 4.2, Some(19.0), Some(132.0)),
        (30.0, 4.9, Some(20.0), Some(171.0)),
        (40.0, 7.2, Some(24.0), None),
        (60.0, 9.6, Some(26.0), None),
        (80.0, 10.8, Some(28.0), None),
    ] {
        let balance = Balance::new(ratio(r), Placement::WorkedIn);
        let (age, lowest) = balance.low_point();
        as_printed(-lowest * CARBON_G_PER_KG, g_per_kg, 1);
        if let Some(at) = at {
            // The low point is flat: a day either side the net nitrogen differs by under 0.01 g/kg.
            close(age.days(), at, 1.0);
        }
        if let Some(back) = back {
            close(balance.back_at().unwrap().days(), back, 0.51);
        }
        if 40.0 <= r {
            assert!(balance.back_at().is_none());
        }
    }
}

/// Derived worked figures: straw, cabbage stalks and vetch on a square metre.
#[test]
fn nitrogen_to_add_and_blood_meal_for_it() {
    let load = |kg_per_m2: f64| {
        ArealMassDensity::new::<gram_per_square_meter>(kg_per_m2 * CARBON_G_PER_KG)
    };
    let add =
        |r, kg| feeding::to_add(ratio(r), Placement::WorkedIn, load(kg), 1.0, RotAge::default());
    let straw = add(80.0, 0.5);
    close(straw.get::<gram_per_square_meter>(), 5.39, 0.005 * 5.39);
    // 1 lb on 100 sq ft is 48.8 g/m2.
    close(straw.get::<gram_per_square_meter>() / 48.824, 0.110, 0.0005);
    // Blood meal of 12 % nitrogen, 0.60 of it available (Hartz and Johnstone 2006).
    let square_metre = Area::new::<square_meter>(1.0);
    let share = uom::si::f64::Ratio::new::<uom::si::ratio::percent>;
    let meal = feeding::dose(straw, square_metre, share(12.0), share(60.0)).unwrap();
    close(meal.now.get::<gram>(), 74.8, 0.005 * 74.8);
    assert_eq!(meal.later.get::<gram>(), 0.0);
    close(add(30.0, 0.3).get::<gram_per_square_meter>(), 1.46, 0.005 * 1.46);
    close(0.4 * CARBON_G_PER_KG * dug_in(11.0, 28.0).nitrogen, 4.00, 0.005 * 4.00);
}

/// APSIM surface organic matter: a layer thicker than 2000 kg/ha touches the soil only in part.
#[test]
fn a_thick_layer_touches_the_soil_in_part() {
    let contact = |kg| clock::contact(ArealMassDensity::new::<kilogram_per_square_meter>(kg));
    as_printed(contact(0.4), 0.50, 2);
    as_printed(contact(0.8), 0.25, 2);
}

/// A mixture's ratio is that of its sums: 0.6 kg of dry bean tops of 2.2 % nitrogen and 0.9 kg of dry straw
/// of 0.5 % hold 0.630 kg of carbon and 0.0177 kg of nitrogen, C:N 35.6 (worked by hand); averaging
/// their ratios would give 51.5.
#[test]
fn a_mixture_of_bean_tops_and_straw() {
    let (tops, straw) = (3.0 * 0.20, 1.0 * 0.90);
    let (carbon, nitrogen) = (0.42 * (tops + straw), 0.022 * tops + 0.005 * straw);
    as_printed(carbon, 0.630, 3);
    as_printed(nitrogen, 0.0177, 4);
    as_printed(CarbonToNitrogen::of(carbon, nitrogen).unwrap().get(), 35.6, 1);
}

/// The same through the catalogue: vetch of C:N 11 and wheat straw of 80 (NRCS 2011), weighed oven-dry.
#[test]
fn a_mixture_from_the_catalogue_adds_up() {
    let laid = |name: &str, kg: f64| Material {
        residue: residue(name).ok().unwrap(),
        amount: Some(Amount::Weight(Mass::new::<kilogram>(kg))),
        measure: None,
        state: Some(State::OvenDry),
        stage: Stage::Mixed,
    };
    let square_metre = Area::new::<square_meter>(1.0);
    let mixture =
        Mixture::new(&[laid("hairy-vetch", 0.6), laid("wheat-straw", 0.9)], square_metre).unwrap();
    let nitrogen = 0.42 * 0.6 / 11.0 + 0.42 * 0.9 / 80.0;
    close(mixture.load.ratio.likely.get(), 0.42 * 1.5 / nitrogen, 1e-9);
    as_printed(mixture.load.carbon.likely.get::<gram_per_square_meter>(), 630.0, 6);
}

/// Oregon DEQ 2005: loose chopped green yard debris weighs 250 lb/yd3. A bucket of 5 US gallons, a
/// wheelbarrow of 6 cubic feet and a layer of 2 in weigh, fresh, what follows from that.
#[test]
fn loose_greens_by_bucket_wheelbarrow_and_layer() {
    let greens = residue("mixed-greens").ok().unwrap();
    let square_metre = Area::new::<square_meter>(1.0);
    let fresh = |amount: Amount| {
        let [_, dry, _] = amount.dry_matter(greens, State::Fresh, square_metre);
        dry.get::<kilogram>() / greens.dry_share()
    };
    as_printed(fresh(Amount::Heap(Volume::new::<gallon>(5.0))), 2.81, 2);
    as_printed(fresh(Amount::Heap(Volume::new::<cubic_foot>(6.0))), 25.2, 1);
    as_printed(fresh(Amount::Layer(Length::new::<inch>(2.0))), 7.53, 2);
    as_printed(BUCKET, 0.01893, 5);
}

/// Heaps in kg per 5-gallon bucket as the published weights by volume give them.
#[test]
fn heaps_by_the_bucket() {
    for (name, published) in
        [("grass-clippings", 7.5), ("autumn-leaves", 4.5), ("wood-chips", 5.3), ("compost", 15.2)]
    {
        let [_, usual, _] = residue(name).ok().unwrap().heap();
        as_printed((usual * Volume::new::<gallon>(5.0)).get::<kilogram>(), published, 1);
    }
}

/// Carbon to nitrogen of the catalogue beside print: NRCS 2011; Gotaas 1956 (from memory); Ranells and
/// Wagger 1992 (from 30.2 and 21.2 g of nitrogen per kg); Angers and Recous 1997; Bending and Turner 1999.
#[test]
fn carbon_to_nitrogen_of_the_catalogue() {
    for (name, published) in [
        ("hairy vetch", 11.0),
        ("rye", 26.0),
        ("flowering rye", 37.0),
        ("corn stover", 57.0),
        ("oat straw", 70.0),
        ("wheat straw", 80.0),
        ("rye straw", 82.0),
        ("pea straw", 29.0),
        ("alfalfa hay", 13.0),
        ("mature alfalfa hay", 25.0),
        ("legume hay", 17.0),
        ("lettuce", 11.0),
        ("cabbage leaves", 12.0),
        ("turnip tops", 19.0),
        ("onion tops", 15.0),
        ("pigweed", 11.0),
        ("purslane", 8.0),
        ("young rye", 9.0),
        ("Brussels sprouts", 15.0),
    ] {
        let [_, usual, _] = residue(name).ok().unwrap().carbon_to_nitrogen();
        assert_eq!(usual, published, "{name}");
    }
    for (name, nitrogen_g_per_kg) in [("crimson clover", 30.2), ("crimson clover seeding", 21.2)] {
        let [_, usual, _] = residue(name).ok().unwrap().carbon_to_nitrogen();
        close(usual, 420.0 / nitrogen_g_per_kg, 0.5);
    }
}

/// Two normal distributions of ln kv combined, worked by hand.
#[test]
fn one_look_moves_the_rate() {
    let unseen = VisibleRate::unseen(ratio(20.0), Placement::OnTop);
    let age = RotAge::days_at_15_c(21.0);
    as_printed(unseen.per_day(), 0.0150, 4);
    as_printed(unseen.left_at(age).share(), 0.730, 3);
    as_printed(unseen.age_at(Left::new(0.3).unwrap()).days(), 80.3, 1);
    let look = Look { age, left: Left::new(0.55).unwrap() };
    let (y, sy) = look.ln_rate().unwrap();
    as_printed(y, -3.5590, 4);
    as_printed(sy, 0.3650, 4);
    let after = unseen.after(look);
    as_printed(after.per_day(), 0.02394, 5);
    as_printed(after.age_at(Left::new(0.3).unwrap()).days(), 50.3, 1);
}

/// "Three weeks of breakdown" by soil temperature: 21 days at 15 °C through the STICS factor.
#[test]
fn three_weeks_by_season() {
    for (c, days) in [
        (5.0, 56.0),
        (8.0, 41.0),
        (10.0, 34.0),
        (12.0, 28.0),
        (15.0, 21.0),
        (18.0, 16.0),
        (20.0, 13.0),
        (25.0, 9.0),
    ] {
        close(21.0 / clock::stics(celsius(c)), days, 0.5001);
    }
}

// ---- Measurements inside a stated band ----

/// Justes, Mary and Nicolardot 2009, *Plant and Soil* 325:171-185 (abstract): 25 catch crops of C:N
/// 9.5 to 34, 168 days at 15 °C: 59 to 68 % of carbon respired, net nitrogen -4.9 to +38 mg/g C.
#[test]
fn justes_2009_catch_crops() {
    let most_lush = dug_in(9.5, 168.0);
    let toughest = dug_in(34.0, 168.0);
    close(100.0 * most_lush.respired, 59.0, 6.0);
    close(100.0 * toughest.respired, 68.0, 6.0);
    close(1000.0 * toughest.nitrogen, -4.9, 6.0);
    close(1000.0 * dug_in(12.0, 168.0).nitrogen, 38.0, 6.0);
    // Held down by the cap below C:N 12.
    close(1000.0 * most_lush.nitrogen, 38.0, 6.0);
}

/// Trinsoutrot et al. 2000, *SSSAJ* 64:918 (abstract): of 47 residues after 168 days at 15 °C only
/// those below C:N 24 had set nitrogen free; NRCS 2011 gives the same 24. Band 24 to 30.
#[test]
fn trinsoutrot_2000_break_even() {
    let surplus = |r: f64| dug_in(r, 168.0).nitrogen;
    assert!(0.0 < surplus(24.0));
    assert!(surplus(30.0) < 0.0);
}

/// Trinsoutrot et al. 1999, GCIRC paper 344: oilseed rape in the field, about 50 % of carbon
/// respired in two months. Band 8 points.
#[test]
fn trinsoutrot_1999_rape_in_the_field() {
    for r in [25.0, 40.0, 60.0] {
        close(100.0 * dug_in(r, 60.0).respired, 50.0, 8.0);
    }
}

/// Sullivan and Andrews 2012, PNW 636: plant-available nitrogen of cover crops, lb per ton of dry
/// matter: 17.5 x (N % - 1.5). Band 4 after 168 days at 15 °C; after 100 the model is behind the
/// publication's four to six weeks by up to 8.
#[test]
fn pnw_636_available_nitrogen() {
    for (percent, published) in [(1.5, 0.0), (2.0, 8.8), (2.5, 17.5), (3.0, 26.3), (3.5, 35.0)] {
        close(17.5 * (percent - 1.5), published, 0.051);
        let lb_per_ton = |days| 2.0 * CARBON_G_PER_KG * dug_in(42.0 / percent, days).nitrogen;
        close(lb_per_ton(168.0), published, 4.0);
        let behind = published - lb_per_ton(100.0);
        assert!((0.0..=8.0).contains(&behind), "{percent} %: behind by {behind}");
    }
}

/// Wagger 1989, *Agronomy Journal* 81:236, litterbags of 16 weeks in North Carolina: nitrogen left in
/// rye 53 %, crimson clover 14 %, hairy vetch 13 %. Order only.
#[test]
fn wagger_1989_order_of_decay() {
    let left = |r| fate(r, Placement::OnTop, 112.0).residue;
    let (rye, clover, vetch) = (left(26.0), left(14.0), left(11.0));
    assert!(clover < rye);
    assert!(vetch <= clover);
}

/// J. Mitchell, SARE report SW97-045, Five Points, California: buried grassy cover crops lost mass at
/// 0.014 to 0.017 a day.
#[test]
fn mitchell_buried_grasses() {
    let rate = VisibleRate::unseen(ratio(30.0), Placement::WorkedIn).per_day();
    assert!((0.014..=0.017).contains(&rate), "{rate}");
}

/// Nitrogen that straw holds: 5 kg/t in GRDC's advice (Update 2018), 15 kg/t as the demand of the
/// CERES routine (Godwin and Jones 1991, from memory: 2.0 % less 0.5 %). Ours lies between.
#[test]
fn straw_holds_between_two_published_figures() {
    let (_, lowest) = Balance::new(ratio(80.0), Placement::WorkedIn).low_point();
    let kg_per_t = -lowest * CARBON_G_PER_KG;
    assert!((5.0..=15.0).contains(&kg_per_t), "{kg_per_t}");
}

/// Saviozzi and others, *Soil Use and Management* 11, 1995: rape, sunflower and soya residue in bags of soil
/// lost 75, 73 and 66 % of their carbon in a year. Their C:N and warmth are not printed in what was
/// read, so the band is wide: 8 points either side, for C:N 15 to 40 and a year at 15 °C.
#[test]
fn saviozzi_1995_carbon_lost_in_a_year() {
    for r in [15.0, 25.0, 40.0] {
        let lost = 100.0 * dug_in(r, 365.0).respired;
        assert!((58.0..=83.0).contains(&lost), "C:N {r}: {lost}");
    }
}

/// Thönnissen and others, *Agronomy Journal*, 2000 (year from memory): soybean green manure lost mass at 0.010
/// to 0.034 a day. Ours, per day at 15 °C, for soft greens of C:N 15 lies within.
#[test]
fn thonnissen_2000_soybean_green_manure() {
    let rate = VisibleRate::unseen(ratio(15.0), Placement::WorkedIn).per_day();
    assert!((0.010..=0.034).contains(&rate), "{rate}");
}

/// What a week is worth at a steady warmth, in days at 15 °C by the STICS factor (derived).
#[test]
fn a_week_by_soil_temperature() {
    for (c, days) in
        [(2.0, 2.0), (5.0, 2.6), (10.0, 4.3), (15.0, 7.0), (20.0, 11.1), (25.0, 17.0), (30.0, 25.1)]
    {
        as_printed(7.0 * clock::stics(celsius(c)), days, 1);
    }
}

// ---- Known misses ----

/// Trinsoutrot et al. 2000: of 47 residues 33 to 67 % of carbon was respired in 168 days. The model's
/// range, 54 to 71 %, starts 21 points too high and ends 4 too high.
#[test]
fn known_miss_trinsoutrot_2000_range_of_respiration() {
    let least = [8.0, 20.0, 40.0, 60.0, 100.0]
        .map(|r| 100.0 * dug_in(r, 168.0).respired)
        .into_iter()
        .fold(f64::INFINITY, f64::min);
    let most = 100.0 * dug_in(100.0, 168.0).respired;
    close(least - 33.0, 21.0, 1.0);
    close(most - 67.0, 4.0, 1.0);
}

/// Peterson, Curtin, Fraser and Qiu 2023 (preprint): nine vegetable residues dried and ground lost 29
/// to 46 % of their carbon in 7 days at 15 °C, barley straw 10 %. The model is too slow on lush
/// residue, by up to 18 points, and twice too fast on straw.
#[test]
fn known_miss_peterson_2023_first_week() {
    let lush = [9.0, 12.0, 16.0, 20.0].map(|r| 100.0 * dug_in(r, 7.0).respired);
    let fastest = lush.into_iter().fold(0.0, f64::max);
    let slowest = lush.into_iter().fold(100.0, f64::min);
    close(46.0 - fastest, 18.0, 1.0);
    close(29.0 - slowest, 5.0, 1.0);
    close(100.0 * dug_in(99.0, 7.0).respired - 10.0, 11.0, 1.0);
}

/// Wilson and Hargrove 1986, *SSSAJ* 50, crimson clover litterbags, Georgia: nitrogen left buried
/// 40 % after 4 weeks and 31 % after 16, on the surface 63 and 36 %. The rate on the surface is 0.50 of
/// that buried at first (band 0.4 to 0.6) and 0.87 over all. The rate of becoming unrecognisable is
/// set between them, so it misses the first band by 0.07; the decay rate of the C:N model, made for
/// carbon, lies below it by 0.12.
#[test]
fn known_miss_wilson_hargrove_1986_surface_against_buried() {
    let measured = |surface: f64, buried: f64| surface.ln() / buried.ln();
    as_printed(measured(0.63, 0.40), 0.50, 2);
    as_printed(measured(0.36, 0.31), 0.87, 2);
    let visible = |placement| VisibleRate::unseen(ratio(14.0), placement).per_day();
    let ours = visible(Placement::OnTop) / visible(Placement::WorkedIn);
    close(ours - 0.6, 0.07, 0.005);
    let decay = |placement| Balance::new(ratio(14.0), placement).decay;
    close(0.4 - decay(Placement::OnTop) / decay(Placement::WorkedIn), 0.12, 0.005);
}

/// Mitchell, SARE SW97-045: buried vetch too lost mass at no more than 0.017 a day. For C:N 11 we think
/// 0.041 per day at 15 °C likely, 2.4 times as much; a check-in at the bed corrects it.
#[test]
fn known_miss_mitchell_buried_vetch() {
    let rate = VisibleRate::unseen(ratio(11.0), Placement::WorkedIn).per_day();
    close(rate / 0.017, 2.4, 0.05);
}

/// Another model of the same thing, RothC-26.3, on straw in soil of 20 % clay at 20 °C for eight weeks:
/// ours keeps 0.10 less of the carbon, for it is fast on straw.
#[test]
fn known_miss_straw_against_rothc() {
    let days_at_15_c = 56.0 * clock::stics(celsius(20.0));
    let ours = 1.0 - dug_in(80.0, days_at_15_c).respired;
    close(other_models::rothc_carbon_kept(20.0, 56.0, 0.20) - ours, 0.10, 0.01);
}

/// The surface parameters, below C:N 12.2, hold nitrogen for a while: 1.6 g per kg of dry matter at
/// C:N 11, where extension advice and litterbags know of none. No nitrogen is advised for it.
#[test]
fn known_miss_lush_greens_on_the_surface() {
    let (_, lowest) = Balance::new(ratio(11.0), Placement::OnTop).low_point();
    close(-lowest * CARBON_G_PER_KG, 1.6, 0.05);
    let carbon = ArealMassDensity::new::<gram_per_square_meter>(2000.0);
    let added = feeding::to_add(ratio(11.0), Placement::OnTop, carbon, 1.0, RotAge::default());
    assert_eq!(added.get::<gram_per_square_meter>(), 0.0);
}
