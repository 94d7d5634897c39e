//! The crop table against the works it is drawn from, and against some it is not.
//!
//! Where our figure differs from a published one, the row says DIFFERENCE and why.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use pegline_core::catalogue::{
    Crop, Deeper, Facet, Hardening, Hardiness, Range, Span, crop, crops,
};
use pegline_core::quantity::{Mass, Temperature};
use pegline_core::source::{Basis, Source};
use uom::si::length::inch;
use uom::si::mass::{ounce, pound};
use uom::si::thermodynamic_temperature::degree_fahrenheit;

fn known(id: &str) -> &'static Crop {
    match crop(id) {
        Ok(crop) if crop.id() == id => crop,
        _ => panic!("no crop {id}"),
    }
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-6 * other.abs().max(1.0)
}

fn fahrenheit(temperature: Temperature) -> f64 {
    temperature.get::<degree_fahrenheit>()
}

fn spacing_in(id: &str) -> (f64, f64) {
    let Range { least, most, .. } = known(id).spacing().unwrap();
    (least.get::<inch>(), most.get::<inch>())
}

/// Iowa State University Extension, Horticulture and Home Pest News, 5 April 1996 (small fruits: red
/// raspberries 1 1/2 to 3 ft) and 13 September 2002 (spring bulbs: crocus 3 in, grape hyacinth 3 to 4,
/// small daffodils 4 to 6 and large ones 6 to 8). Texas Master Gardeners (Wood County), culinary herb
/// table: rosemary 24 in, German chamomile 12, lemon balm 12.
#[test]
fn spacing_of_fruits_bulbs_and_herbs_is_as_printed() {
    for (id, least, most) in [
        ("raspberry", 18.0, 36.0),
        ("crocus", 3.0, 3.0),
        ("grape-hyacinth", 3.0, 4.0),
        ("daffodil", 4.0, 8.0),
    ] {
        let (our_least, our_most) = spacing_in(id);
        assert!(near(our_least, least) && near(our_most, most), "{id}: {our_least} to {our_most}");
    }
    for (id, inches) in [("rosemary", 24.0), ("chamomile", 12.0), ("lemon-balm", 12.0)] {
        let (least, most) = spacing_in(id);
        assert!(least < inches + 1e-6 && inches < most + 1e-6, "{id}: {least} to {most}");
    }
}

/// Poisonous garden plants of university and poison-centre lists (from memory): none is called food, and
/// each has its caution.
#[test]
fn poisonous_flowers_are_not_eaten_and_say_so() {
    for id in ["foxglove", "larkspur", "lupin", "sweet-pea", "daffodil", "tulip", "crocus", "poppy"]
    {
        let crop = known(id);
        assert!(!crop.eaten() && !crop.cautions().is_empty(), "{id}");
    }
    for id in ["bean-runner", "bean-yardlong", "cowpea", "soybean", "tomatillo", "ground-cherry"] {
        assert!(!known(id).cautions().is_empty(), "{id}");
    }
}

/// Arizona Master Gardener Manual, "Intensive Gardening Methods", inches between plants (read in a
/// garden page that quotes the table whole, 2009).
#[test]
fn spacing_is_that_of_the_intensive_gardening_table() {
    for (id, least, most) in [
        ("asparagus", 15.0, 18.0),
        ("bean-lima", 4.0, 6.0),
        ("bean-pole", 6.0, 12.0),
        ("bean-snap-bush", 4.0, 6.0),
        ("beet", 2.0, 4.0),
        ("broccoli", 12.0, 18.0),
        ("brussels-sprouts", 15.0, 18.0),
        ("cabbage", 15.0, 18.0),
        ("cabbage-chinese", 10.0, 12.0),
        ("carrot", 2.0, 3.0),
        ("cauliflower", 15.0, 18.0),
        ("chard", 6.0, 9.0),
        ("collards", 12.0, 15.0),
        ("cucumber", 12.0, 18.0),
        ("eggplant", 18.0, 24.0),
        ("endive", 15.0, 18.0),
        ("kale", 15.0, 18.0),
        ("kohlrabi", 6.0, 9.0),
        ("leek", 3.0, 6.0),
        ("lettuce-head", 10.0, 12.0),
        ("lettuce-leaf", 4.0, 6.0),
        ("melon", 18.0, 24.0),
        ("mustard-greens", 6.0, 9.0),
        ("okra", 12.0, 18.0),
        ("onion-bulb", 2.0, 4.0),
        ("pea", 2.0, 4.0),
        ("pepper", 12.0, 15.0),
        ("potato", 10.0, 12.0),
        ("pumpkin", 24.0, 36.0),
        ("radish", 2.0, 3.0),
        ("rutabaga", 4.0, 6.0),
        ("spinach", 4.0, 6.0),
        ("squash-summer", 18.0, 24.0),
        ("squash-winter", 24.0, 36.0),
        ("sweet-corn", 15.0, 18.0),
        ("tomato", 18.0, 24.0),
        ("turnip", 4.0, 6.0),
    ] {
        let (our_least, our_most) = spacing_in(id);
        assert!(near(our_least, least) && near(our_most, most), "{id}: {our_least}-{our_most}");
        let first = known(id).sources(Facet::Spacing).next();
        assert_eq!(first, Some(Source::ArizonaIntensive), "{id}");
    }
}

/// Kansas State University Master Gardeners, intensive spacing list, and other works read for what
/// that table lacks. Each figure lies in our range.
#[test]
fn other_published_spacings_lie_in_the_range() {
    for (id, inches, work) in [
        ("parsnip", 3.0, "Kansas State"),
        ("onion-bunching", 3.0, "Kansas State"),
        ("sweet-potato", 12.0, "Kansas State"),
        ("spinach-new-zealand", 12.0, "Kansas State"),
        ("basil", 12.0, "Kansas State"),
        ("sunflower", 28.0, "Kansas State"),
        ("celery", 6.0, "Solomon, Gardening When It Counts, raised-bed column"),
        ("garlic", 4.0, "Rosen, University of Minnesota"),
        ("garlic", 6.0, "Fuller, University of Maine; Minnesota Master Gardeners"),
        ("garlic-elephant", 8.0, "Cornell"),
        ("garlic-elephant", 12.0, "Cornell"),
        ("oregano", 18.0, "Texas Master Gardeners"),
        ("mint", 24.0, "Texas Master Gardeners"),
        ("chives", 6.0, "Texas Master Gardeners"),
        ("sweet-corn", 15.0, "Jeavons, How to Grow More Vegetables"),
        ("beet", 4.0, "Jeavons"),
        ("radish", 2.0, "Virginia Cooperative Extension 426-335, from memory"),
        ("bean-snap-bush", 4.0, "Virginia Cooperative Extension 426-335, from memory"),
        // DIFFERENCE: Kansas State has kale and napa at 6, cabbage and eggplant at 12, which is
        // closer than any other work read; the gardener's own spacing is asked for instead.
    ] {
        let (least, most) = spacing_in(id);
        assert!(least < inches + 0.01 && inches < most + 0.01, "{id}: {inches} in, {work}");
    }
}

/// P. Dawling and K. Bezilla, winter-kill lists, 2012 and later, degrees Fahrenheit (read). Where the
/// lists differ, both ends of our range.
#[test]
fn killing_temperatures_are_those_of_the_winter_kill_lists() {
    for (id, hardiest, tenderest) in [
        ("basil", 35.0, 35.0),
        ("bean-snap-bush", 32.0, 32.0),
        ("bean-pole", 32.0, 32.0),
        ("bean-lima", 32.0, 32.0),
        ("sweet-corn", 32.0, 32.0),
        ("okra", 32.0, 32.0),
        ("cucumber", 32.0, 32.0),
        ("melon", 32.0, 32.0),
        ("watermelon", 32.0, 32.0),
        ("squash-summer", 32.0, 32.0),
        ("squash-winter", 32.0, 32.0),
        ("pepper", 32.0, 32.0),
        ("eggplant", 32.0, 32.0),
        ("tomato", 32.0, 32.0),
        ("potato", 32.0, 32.0),
        ("sweet-potato", 32.0, 32.0),
        ("cabbage", 20.0, 27.0),
        ("cabbage-chinese", 25.0, 25.0),
        ("mustard-greens", 25.0, 25.0),
        ("mustard-cover", 25.0, 25.0),
        ("mizuna", 25.0, 25.0),
        ("pak-choi", 25.0, 32.0),
        ("arugula", 22.0, 22.0),
        ("tatsoi", 22.0, 22.0),
        ("lettuce-leaf", 22.0, 25.0),
        ("endive", 25.0, 25.0),
        ("radicchio", 25.0, 27.0),
        ("onion-bunching", 25.0, 25.0),
        ("dill", 25.0, 25.0),
        ("fennel-bulb", 25.0, 25.0),
        ("beet", 20.0, 20.0),
        ("rhubarb", 25.0, 25.0),
        ("rye", -40.0, -40.0),
    ] {
        let Span { least, most } = known(id).kill_range().unwrap();
        assert!(near(fahrenheit(least), hardiest) && near(fahrenheit(most), tenderest), "{id}");
    }
    // The same lists: cauliflower curds at 32, broccoli heads at 25, while the leaves live.
    for (id, part, f) in [("cauliflower", "curd", 32.0), ("broccoli", "head", 25.0)] {
        let of_crop = known(id).part().unwrap();
        assert_eq!(of_crop.name, part);
        assert!(near(fahrenheit(of_crop.killed_at), f));
        assert!(of_crop.killed_at > known(id).kill_temperature().unwrap());
    }
}

/// A list of what light frost (28 to 32 F) damages, and what bears light and hard frost (below
/// 28 F), after a seed seller's article (read in two places that quote it). The catalogue takes no
/// figure from it.
#[test]
fn classes_agree_with_a_list_of_light_and_hard_frost() {
    for id in [
        "bean-snap-bush",
        "cucumber",
        "eggplant",
        "melon",
        "spinach-new-zealand",
        "okra",
        "pepper",
        "pumpkin",
        "squash-summer",
        "sweet-corn",
        "tomato",
        "watermelon",
        "squash-winter",
    ] {
        assert!(known(id).hardiness() <= Hardiness::Tender, "{id}");
    }
    for id in [
        "beet",
        "carrot",
        "cauliflower",
        "celery",
        "cabbage-chinese",
        "endive",
        "lettuce-leaf",
        "parsnip",
        "pea",
        "chard",
        "arugula",
        "pak-choi",
        "corn-salad",
        "radicchio",
    ] {
        assert!(known(id).hardiness() >= Hardiness::HalfHardy, "{id}");
    }
    for id in [
        "brussels-sprouts",
        "cabbage",
        "collards",
        "kale",
        "kohlrabi",
        "onion-bulb",
        "parsley",
        "radish",
        "spinach",
        "turnip",
        "leek",
    ] {
        assert!(known(id).hardiness() >= Hardiness::Hardy, "{id}");
    }
    // DIFFERENCE: that list has broccoli, mustard and pea bear hard frost. The winter-kill lists
    // have broccoli heads and mustard die at 25 F; peas stand on both of that list's sides.
    for id in ["broccoli", "mustard-greens", "pea"] {
        assert_eq!(known(id).hardiness(), Hardiness::HalfHardy, "{id}");
    }
}

/// Common practice: chard, kale, cabbage and leek want no cover at 29 F; cabbage stands 3 in from the
/// side of a drip bed, a sprawler 6.
#[test]
fn what_gardeners_do_without_thinking() {
    for id in ["chard", "kale", "cabbage", "leek"] {
        assert!(fahrenheit(known(id).cover_below()) < 29.0, "{id}");
    }
    let edge_in = |id: &str| known(id).habit().edge_margin().get::<inch>();
    assert!(near(edge_in("cabbage"), 3.0) && near(edge_in("nasturtium"), 6.0));
}

/// University of Missouri Extension, G 6629 (read): petunia and calendula bear a moderate frost, to
/// about 28 F.
#[test]
fn petunia_and_calendula_bear_28_f() {
    for id in ["petunia", "calendula"] {
        assert!(fahrenheit(known(id).kill_temperature().unwrap()) < 28.0, "{id}");
    }
}

/// Growing Gardens, Guide to Hardening-off, and a seed house's table (both read): lowest air, F.
#[test]
fn lowest_air_while_hardening_is_as_published() {
    for (id, class, f) in [
        ("onion-bulb", Hardening::Hardy, 40.0),
        ("leek", Hardening::Hardy, 40.0),
        ("broccoli", Hardening::Hardy, 40.0),
        ("brussels-sprouts", Hardening::Hardy, 40.0),
        ("cabbage", Hardening::Hardy, 40.0),
        ("parsley", Hardening::Hardy, 40.0),
        ("lettuce-head", Hardening::HalfHardy, 45.0),
        ("celery", Hardening::HalfHardy, 45.0),
        ("squash-summer", Hardening::Tender50, 50.0),
        ("pumpkin", Hardening::Tender50, 50.0),
        ("sweet-corn", Hardening::Tender50, 50.0),
        ("cucumber", Hardening::Tender60, 60.0),
        ("basil", Hardening::Tender65, 65.0),
        ("tomato", Hardening::Tender65, 65.0),
        ("pepper", Hardening::Tender65, 65.0),
    ] {
        assert_eq!(known(id).hardening(), Some(class), "{id}");
        assert!(near(fahrenheit(class.lowest_air()), f), "{id}");
    }
    // DIFFERENCE: extension advice for tomato is days in the fifties and never below 45 (Hennepin
    // County Master Gardeners, 2014, read), so what is used is looser than the seed house's 65.
    for (id, f) in [("tomato", 50.0), ("pepper", 55.0), ("eggplant", 55.0), ("basil", 55.0)] {
        assert!(near(fahrenheit(known(id).lowest_air().unwrap()), f), "{id}");
    }
}

/// Weeks from sowing to planting: Purdue Vegetable Crops Hotline; UC ANR Master Gardener blog 9462
/// (2013); a New England newsletter; a home magazine's answer (all read). Every published range lies
/// in ours.
#[test]
fn weeks_to_planting_hold_every_published_range() {
    for (id, ranges) in [
        ("cucumber", &[(2, 3), (3, 4), (2, 3), (4, 4)][..]),
        ("squash-summer", &[(3, 4), (2, 3), (2, 3), (3, 4)]),
        ("watermelon", &[(3, 4), (3, 5), (3, 4)]),
        ("melon", &[(4, 5), (2, 3), (3, 4)]),
        ("lettuce-head", &[(4, 4), (4, 5), (3, 6), (3, 5)]),
        ("broccoli", &[(5, 7), (4, 6), (5, 7)]),
        ("cauliflower", &[(5, 7), (4, 6), (5, 7)]),
        ("tomato", &[(5, 7), (5, 6), (6, 10)]),
        ("pepper", &[(5, 7), (6, 8)]),
        ("eggplant", &[(6, 7), (6, 8), (6, 9)]),
        ("leek", &[(6, 8), (8, 10)]),
        ("onion-bulb", &[(10, 12), (5, 6), (6, 8), (12, 12)]),
        ("celery", &[(10, 12)]),
        ("okra", &[(6, 8)]),
    ] {
        let Span { least, most } = known(id).weeks_to_plant().unwrap();
        for (from, to) in ranges {
            assert!(least.num_weeks() <= *from && *to <= most.num_weeks(), "{id}: {from}-{to}");
        }
        assert_eq!(least.num_weeks(), ranges.iter().map(|range| range.0).min().unwrap(), "{id}");
        assert_eq!(most.num_weeks(), ranges.iter().map(|range| range.1).max().unwrap(), "{id}");
    }
}

/// Soil at 4 to 6 in for planting out: McLaurin, University of Georgia, 2000, and Texas A&M, 2014
/// (both read): cucumber 60; pepper, watermelon, squash 70; cantaloupe, okra, sweet potato 75 F.
#[test]
fn soil_warm_enough_to_plant_is_as_published() {
    for (id, f) in [
        ("cucumber", 60.0),
        ("pepper", 70.0),
        ("watermelon", 70.0),
        ("squash-winter", 70.0),
        ("melon", 75.0),
        ("okra", 75.0),
        ("sweet-potato", 75.0),
    ] {
        assert!(near(fahrenheit(known(id).soil_to_plant().unwrap()), f), "{id}");
    }
    // DIFFERENCE: both have tomato at 60. That is the stop here, and 65 the advice (common practice).
    let tomato = known("tomato");
    assert!(near(fahrenheit(tomato.soil_stop().unwrap()), 60.0));
    assert!(near(fahrenheit(tomato.soil_to_plant().unwrap()), 65.0));
}

/// A seed company's planting chart (Olds), seeds in an ounce (read in a reproduction).
#[test]
fn seeds_in_an_ounce_are_those_of_the_chart() {
    for (id, fewest, most) in [
        ("asparagus", 750.0, 750.0),
        ("bean-lima", 30.0, 30.0),
        ("bean-snap-bush", 100.0, 100.0),
        ("beet", 1500.0, 1500.0),
        ("chard", 1500.0, 1500.0),
        ("cabbage", 8000.0, 10_000.0),
        ("broccoli", 8000.0, 10_000.0),
        ("carrot", 25_000.0, 25_000.0),
        ("lettuce-leaf", 25_000.0, 25_000.0),
        ("sweet-corn", 175.0, 175.0),
        ("cucumber", 1000.0, 1000.0),
        ("melon", 1000.0, 1000.0),
        ("eggplant", 6000.0, 6000.0),
        ("leek", 11_000.0, 11_000.0),
        ("okra", 500.0, 500.0),
        ("onion-bulb", 8000.0, 8000.0),
        ("parsley", 15_000.0, 15_000.0),
        ("parsnip", 12_000.0, 12_000.0),
        ("pea", 120.0, 120.0),
        ("pepper", 4500.0, 4500.0),
        ("pumpkin", 180.0, 180.0),
        ("radish", 2500.0, 2500.0),
        ("spinach", 2800.0, 2800.0),
        ("squash-summer", 220.0, 220.0),
        ("squash-winter", 250.0, 250.0),
        ("tomato", 11_000.0, 11_000.0),
        ("turnip", 15_000.0, 15_000.0),
    ] {
        let Span { least, most: heaviest } = known(id).seed_mass().unwrap();
        assert!(near(1.0 / heaviest.get::<ounce>(), fewest), "{id}");
        assert!(near(1.0 / least.get::<ounce>(), most), "{id}");
    }
}

/// Garlic at 24 x 6 in: an acre takes 43,560 cloves, 545 lb at 80 to the pound (a summary page, read).
/// Rosen, University of Minnesota: 20 to 80 cloves to the pound (read in a newspaper column).
#[test]
fn an_acre_of_garlic_weighs_what_is_published() {
    let clove = known("garlic").piece_mass().unwrap();
    assert!((43_560.0 * clove.least.get::<pound>() - 545.0).abs() <= 1.0);
    assert!(near(clove.most.get::<pound>(), 1.0 / 20.0));
    assert!(clove.least < clove.usual && clove.usual < clove.most);
}

/// Potato Grower, 2021 (read): pieces of 2 oz; 23,061 of them are 28.8 hundredweight. Pieces weigh
/// 1.5 to 3 oz.
#[test]
fn a_seed_potato_piece_weighs_what_is_published() {
    let piece = known("potato").piece_mass().unwrap();
    let hundredweight = |each: Mass| 23_061.0 * each.get::<pound>() / 100.0;
    assert!((hundredweight(piece.usual) - 28.8).abs() <= 0.05);
    // Whole pieces to the pound, so the ends are near 1.5 and 3 oz.
    assert!((piece.least.get::<ounce>() - 1.5).abs() < 0.1);
    assert!((piece.most.get::<ounce>() - 3.0).abs() < 0.25);
}

/// Depth at planting out: Vavrina and others (tomato, read); HortScience 35(4):593 (pepper, read);
/// Watts, Vegetable Gardening (cabbage and kin, read); Parsons, Texas A&M, 2002 (onion, read); the
/// rest common practice.
#[test]
fn depth_at_planting_is_as_published() {
    for (id, deeper) in [
        ("tomato", Deeper::Yes),
        ("leek", Deeper::Yes),
        ("pepper", Deeper::ToSeedLeaves),
        ("eggplant", Deeper::ToSeedLeaves),
        ("cabbage", Deeper::ToSeedLeaves),
        ("cauliflower", Deeper::ToSeedLeaves),
        ("cucumber", Deeper::No),
        ("squash-summer", Deeper::No),
        ("onion-bulb", Deeper::No),
        ("lettuce-head", Deeper::NeverBuryCrown),
        ("celery", Deeper::NeverBuryCrown),
        ("strawberry", Deeper::NeverBuryCrown),
    ] {
        assert_eq!(known(id).deeper(), Some(deeper), "{id}");
    }
}

/// University of Connecticut, rotation by disease, years (read): brassica blackleg 3 to 4, black rot
/// 2 to 3; eggplant Verticillium 4; bean anthracnose 2; beet Cercospora 3; lettuce drop 3; cucumber
/// scab 2; corn leaf blight 3. Ours is at least the least, except where the row says so.
#[test]
fn rotation_gaps_reach_the_published_intervals() {
    for (id, years) in [
        ("cabbage", 3),
        ("radish", 3),
        ("sweet-alyssum", 3),
        ("eggplant", 4),
        ("potato", 4),
        ("bean-snap-bush", 2),
        ("beet", 3),
        ("lettuce-head", 3),
        ("cucumber", 2),
    ] {
        assert!(known(id).rotation_years() >= years, "{id}");
    }
    // DIFFERENCE: leaf blight of corn asks 3 years, clubroot 7, white rot of onions 20 and more
    // (from memory). The gap told for a healthy bed is shorter; a sick bed is asked about apart.
    assert_eq!(known("sweet-corn").rotation_years(), 2);
    assert_eq!(known("garlic").rotation_years(), 4);
}

/// Encyclopaedia Britannica, "Vegetable farming", days from planting (read).
#[test]
fn days_to_harvest_are_those_of_the_encyclopaedia() {
    for (id, least, most) in [
        ("bean-snap-bush", 50, 60),
        ("beet", 60, 70),
        ("broccoli", 50, 80),
        ("cabbage", 70, 100),
        ("carrot", 70, 80),
        ("leek", 150, 150),
        ("okra", 60, 60),
        ("pea", 60, 75),
        ("spinach", 40, 50),
        ("squash-summer", 45, 60),
        ("tomato", 70, 90),
        ("turnip", 45, 60),
    ] {
        let days = known(id).days_to_harvest().unwrap();
        assert_eq!((days.least.num_days(), days.most.num_days()), (least, most), "{id}");
    }
    // DIFFERENCE: radish is 25 to 50 there, winter kinds included; spring kinds are 25 to 35.
    let radish = known("radish").days_to_harvest().unwrap();
    assert_eq!((radish.least.num_days(), radish.most.num_days()), (25, 35));
}

/// A seed seller's guide (read): a pound of buckwheat covers 400 square feet, hairy vetch 750, white
/// clover 2000. Rates are kept
/// to a tenth of a pound on 1000 square feet.
#[test]
fn a_pound_of_cover_crop_seed_covers_what_is_published() {
    use pegline_core::quantity::Area;
    use uom::si::area::square_foot;
    for (id, square_feet) in [("buckwheat", 400.0), ("vetch", 750.0), ("clover-white", 2000.0)] {
        let seed = known(id).seed_for(Area::new::<square_foot>(square_feet)).unwrap();
        let (least, most) = (seed.least.get::<pound>(), seed.most.get::<pound>());
        assert!(least <= 1.03 && 0.97 <= most, "{id}: {least}-{most}");
    }
}

/// What is eaten of flowers, and what hurts (common practice and the sources of the cautions).
#[test]
fn cautions_stand_where_a_plant_can_hurt() {
    for (id, word) in [
        ("sweet-pea", "poisonous"),
        ("rhubarb", "leaves"),
        ("potato", "green"),
        ("parsnip", "sap"),
        ("celery", "sap"),
        ("bean-broad", "G6PD"),
        ("bean-snap-bush", "raw"),
        ("mint", "spreads"),
        ("garlic", "dogs and cats"),
        ("onion-overwintering", "dogs and cats"),
        ("squash-summer", "bitter"),
        ("vetch", "poultry"),
    ] {
        let said = known(id).cautions().join(" ");
        assert!(said.to_lowercase().contains(&word.to_lowercase()), "{id}: {said}");
        assert!(known(id).sources(Facet::Caution).next().is_some(), "{id}");
    }
    let flowers_eaten: Vec<_> = crops()
        .iter()
        .filter(|crop| crop.kind() == pegline_core::catalogue::Kind::Flower && crop.eaten())
        .map(Crop::id)
        .collect();
    assert_eq!(flowers_eaten, ["calendula", "nasturtium", "pansy"]);
}

#[test]
fn what_is_recalled_is_marked_as_recalled() {
    // Kohlrabi's killing temperature is from memory; cabbage's was read.
    let first = |id: &str| known(id).sources(Facet::Frost).next().map(Source::basis);
    assert_eq!(first("kohlrabi"), Some(Basis::FromMemory));
    assert_eq!(first("cabbage"), Some(Basis::Read));
    assert_eq!(first("shallot"), Some(Basis::CommonPractice));
    assert_eq!(first("zinnia"), Some(Basis::Derived));
}
