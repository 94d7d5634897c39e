//! Amounts for a bed.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use pegline_core::catalogue::garlic::Kind;
use pegline_core::catalogue::{Range, crop};
use pegline_core::quantity::unit::length::inch;
use pegline_core::quantity::unit::mass::pound;
use pegline_core::quantity::unit::volume::{cubic_foot, cubic_yard, liter};
use pegline_core::quantity::{Area, Length, Mass, Quantity, Volume, WHEELBARROW};
use pegline_core::topics::bed_quantities::{
    Material, clove, containers, depth, in_grid, in_row, of_area, spread, weight,
};

fn read<Q: Quantity>(text: &str) -> Q {
    Q::read(text).unwrap()
}

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value}, not {expected}");
}

/// What a clove, set or piece of a crop weighs.
fn piece(id: &str) -> Range<Mass> {
    crop(id).ok().unwrap().piece_mass().unwrap()
}

/// 43 560 square feet (by definition).
fn acre() -> Area {
    read("43560 sq ft")
}

/// By arithmetic: rows 8 in apart, cloves 6 in apart, 4 in from every side of a 96 x 48 in bed
/// make 15 x 6; at 40 cloves a pound, 2.25 lb.
#[test]
fn garlic_for_a_bed() {
    let bed = [read("96 in"), read("48 in")];
    let cloves = in_grid(bed, read("4 in"), read("6 in"), read("8 in"));
    assert_eq!(cloves, 90);
    near(weight(cloves, read::<Mass>("1 lb") / 40.0).get::<pound>(), 2.25, 1e-9);
}

/// A summary page of garlic growing: 24 x 6 in takes 43 560 cloves an acre; 1320 lb at 33 a pound,
/// 545 lb at 80.
#[test]
fn garlic_for_an_acre() {
    let cloves = of_area(acre(), read("6 in"), read("24 in"));
    assert!(cloves.abs_diff(43_560) <= 1, "{cloves}");
    near(weight(cloves, clove(Kind::Hardneck).most).get::<pound>(), 1320.0, 1.0);
    near(weight(cloves, clove(Kind::Softneck).least).get::<pound>(), 545.0, 1.0);
}

/// By arithmetic from C. Rosen's 20 to 80 cloves a pound (University of Minnesota) and the common
/// 50: 100 ft at 6 in are 200 cloves, 4.0 lb; 2.5 lb of the smallest, 10 lb of the largest.
#[test]
fn garlic_for_a_row() {
    let cloves = in_row(read("100 ft"), read("6 in"));
    assert_eq!(cloves, 200);
    let piece = piece("garlic");
    near(weight(cloves, piece.usual).get::<pound>(), 4.0, 1e-9);
    near(weight(cloves, piece.least).get::<pound>(), 2.5, 1e-9);
    near(weight(cloves, piece.most).get::<pound>(), 10.0, 1e-9);
}

/// *Potato Grower*, 2021: rows 34 in apart, pieces of 2 oz 8 in apart take 23 061 an acre, 28.8
/// hundredweight.
#[test]
fn potatoes_for_an_acre() {
    let pieces = of_area(acre(), read("8 in"), read("34 in"));
    assert!(pieces.abs_diff(23_061) <= 1, "{pieces}");
    let pounds = weight(pieces, piece("potato").usual).get::<pound>();
    near(pounds / 100.0, 28.8, 0.05);
}

/// A Kansas garden centre's sheet: seed potatoes weigh 10 to 12 lb for 100 ft at 12 in, which are
/// pieces inside the range of 1.5 to 3 oz.
#[test]
fn potatoes_for_a_row() {
    let pieces = in_row(read("100 ft"), read("12 in"));
    assert_eq!(pieces, 100);
    let piece = piece("potato");
    assert!(weight(pieces, piece.least).get::<pound>() <= 10.0);
    assert!(weight(pieces, piece.most).get::<pound>() >= 12.0);
}

/// By arithmetic: an inch on 4 x 8 ft is 2.667 cubic feet, 0.0988 cubic yards, 75.5 litres.
#[test]
fn an_inch_of_compost_on_a_bed() {
    let bed = read("4 x 8 ft");
    let compost = spread(bed, Material::Compost.usual_depth().unwrap());
    near(compost.get::<cubic_foot>(), 2.667, 0.001 * 2.667);
    near(compost.get::<cubic_yard>(), 0.0988, 0.001 * 0.0988);
    near(compost.get::<liter>(), 75.5, 0.001 * 75.5);
}

/// A handbook rule by arithmetic: 12 in on 4 x 8 ft is 32 cubic feet, 1.185 cubic yards.
#[test]
fn a_bed_filled_a_foot_deep() {
    let soil = spread(read("4 x 8 ft"), read("12 in"));
    near(soil.get::<cubic_foot>(), 32.0, 0.001);
    near(soil.get::<cubic_yard>(), 1.185, 0.001);
}

/// University of Maine Cooperative Extension, "Mulch, Soil, and Compost": 1000 square feet at 3
/// in take 9 cubic yards, 200 at 6 in about 4, 650 at 12 in 24 (printed whole); nine bags of 3
/// cubic feet make a cubic yard. A cubic yard covers 324 square feet an inch deep.
#[test]
fn the_maine_table_of_mulch_soil_and_compost() {
    for (area, deep, yards) in
        [("1000 sq ft", "3 in", 9.0), ("200 sq ft", "6 in", 4.0), ("650 sq ft", "12 in", 24.0)]
    {
        near(spread(read(area), read(deep)).get::<cubic_yard>(), yards, 0.5);
    }
    assert_eq!(containers(read("1 cu yd"), read("3 cu ft")), Some(9));
    let one_inch = depth(read("1 cu yd"), read("324 sq ft")).unwrap();
    near(one_inch.get::<inch>(), 1.0, 1e-6);
}

/// Oregon State University Extension, EC 871: 2 to 5 wheelbarrows of compost on 100 square feet;
/// at 3 cubic feet a load that is 0.7 to 1.8 in.
#[test]
fn the_oregon_rule_of_wheelbarrows() {
    for (loads, inches) in [(2.0, 0.7), (5.0, 1.8)] {
        let compost: Volume = read::<Volume>("3 cu ft") * loads;
        let deep: Length = depth(compost, read("100 sq ft")).unwrap();
        near(deep.get::<inch>(), inches, 0.05);
    }
}

/// A heaped wheelbarrow of the trade holds 6 cubic feet (common practice).
#[test]
fn a_wheelbarrow_is_six_cubic_feet() {
    near(WHEELBARROW.get::<cubic_foot>(), 6.0, 0.01);
}

/// State recycling conversion factors (Oregon 2005, Massachusetts 2011): finished compost weighs
/// 1350 lb a cubic yard, so that a bucket of 5 US gallons weighs 15.2 kg.
#[test]
fn a_bucket_of_compost() {
    use pegline_core::quantity::unit::mass::kilogram;
    let bucket = Material::Compost.weight(read("5 gal")).unwrap();
    near(bucket.get::<kilogram>(), 15.2, 0.05);
}
