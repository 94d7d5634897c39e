//! Water for a bed: what drip gives, how long it runs, what plants use.

use chrono::NaiveDate;
use pegline_core::bed::{Bed, DripMeasures, LinesMeasured, Measures, Reach};
use pegline_core::catalogue::crop;
use pegline_core::place::sun::Latitude;
use pegline_core::quantity::unit::length::{inch, millimeter};
use pegline_core::quantity::unit::time::{hour, minute};
use pegline_core::quantity::unit::volume::{gallon, liter};
use pegline_core::quantity::{
    Area, Length, Micrometres, Quantity, Temperature, Time, Velocity, VolumeRate,
};
use pegline_core::topics::drip_run_time::coefficient::{VEGETABLES, mid_season};
use pegline_core::topics::drip_run_time::drip::{
    REACHES_ROOTS, application_rate, flow_of_bed, home_tap, in_an_hour, run_time,
};
use pegline_core::topics::drip_run_time::need::{radiation_as_water, reference, still_needed};
use pegline_core::topics::drip_run_time::soil::longest_run;

use crate::near;

fn read<Q: Quantity>(text: &str) -> Q {
    Q::read(text).unwrap()
}

/// What one emitter gives on its own strip.
fn rate_of(flow: &str, along: &str, across: &str) -> Velocity {
    let strip: Area = read::<Length>(along) * read::<Length>(across);
    application_rate(read(flow), strip)
}

fn inches_an_hour(rate: Velocity) -> f64 {
    in_an_hour(rate).get::<inch>()
}

/// Penn State Extension, "Drip Irrigation for Vegetable Production", 2013: hours to put an inch of
/// water on beds 30 in wide, by what 100 ft of tape give in an hour.
#[test]
fn an_inch_from_drip_tape() {
    for (gallons, hours) in [
        ("13.2 gph", 11.8),
        ("20.4 gph", 7.6),
        ("27 gph", 5.8),
        ("30.6 gph", 5.1),
        ("40.2 gph", 3.9),
        ("80.4 gph", 1.9),
    ] {
        let rate = rate_of(gallons, "100 ft", "30 in");
        near(gallons, run_time(read("1 in"), rate, 1.0).get::<hour>(), hours, 0.05);
    }
}

/// University of California, Santa Cruz, *Teaching Organic Farming and Gardening*, unit 1.5,
/// appendix 13: an acre-inch by tape of 0.75 gpm for 100 ft on beds 24 in from each other takes
/// 2.76 h.
#[test]
fn an_acre_inch_from_drip_tape() {
    let rate = rate_of("0.75 gpm", "100 ft", "24 in");
    near("hours", run_time(read("1 in"), rate, 1.0).get::<hour>(), 2.77, 0.02);
}

/// An irrigation maker's sheet (Toro and Geoflow): 0.53 gph every 12 in on lines 12 in from each
/// other is 0.85 in an hour.
#[test]
fn the_rate_of_a_maker_s_sheet() {
    near("inches an hour", inches_an_hour(rate_of("0.53 gph", "12 in", "12 in")), 0.85, 0.005);
}

/// By arithmetic: rate in inches an hour is 231 q / (e g), with q in US gallons of 231 cubic
/// inches. DIFFERENCE: makers print 231.1, which is 0.04 % high.
#[test]
fn the_constant_is_that_of_the_gallon() {
    let rate = inches_an_hour(rate_of("0.5 gph", "12 in", "16 in"));
    near("rate", rate, 0.6016, 1e-4);
    near("rate", rate, 231.1 * 0.5 / (12.0 * 16.0), 3e-4);
    near("rate", in_an_hour(rate_of("2 L/h", "30 cm", "40 cm")).get::<millimeter>(), 16.67, 0.01);
}

/// R. Shortt, Ontario Ministry of Agriculture, 2016: where grass uses 3.4 mm, plants of coefficient
/// 1.05 on 3.3 m² use 11.8 litres a day; two emitters of 1.6 L/h give them in 3.7 h.
#[test]
fn the_ontario_example() {
    let area: Area = read("3.3 m2");
    let need = read::<Length>("3.4 mm") * VEGETABLES;
    near("litres or hours", (need * area).get::<liter>(), 11.8, 0.05);
    let rate = application_rate(read::<VolumeRate>("1.6 L/h") * 2.0, area);
    near("litres or hours", run_time(need, rate, 1.0).get::<hour>(), 3.7, 0.05);
}

/// University of California, drip irrigation in the home garden: an inch on 7 by 11 ft is 48.0
/// gallons.
#[test]
fn an_inch_in_gallons() {
    let water = read::<Area>("7 x 11 ft") * read::<Length>("1 in");
    near("gallons", water.get::<gallon>(), 48.0, 0.1);
}

/// A question and answer of the drip trade: 0.25 in needed at 0.10 in an hour takes 2.5 h.
#[test]
fn a_quarter_inch_at_a_tenth_an_hour() {
    let rate: Velocity = read::<Length>("0.10 in") / Time::new::<hour>(1.0);
    near("hours", run_time(read("0.25 in"), rate, 1.0).get::<hour>(), 2.5, 1e-9);
}

fn three_lines() -> Bed {
    Bed::new(&Measures {
        length: Micrometres::from_inches(96),
        width: Micrometres::from_inches(48),
        drip: Some(DripMeasures {
            lines: LinesMeasured::Count(3),
            line_spacing: None,
            first_line: None,
            emitter_spacing: Micrometres::from_inches(9),
            first_emitter: None,
            flow: None,
        }),
        edge_margin: None,
        reach: Reach::default(),
        faces: None,
    })
    .unwrap()
}

/// By arithmetic from the makers' formula and the 0.90 of Colorado State University Extension
/// (4.702): three lines of 11 emitters of 0.5 gph on 32 square feet give 16.5 gph, 0.8271 in an
/// hour; 1.25 in wanted less 0.25 in of rain take 80.6 min. The formula for an endless field gives
/// 0.8021: short beds differ by 3 %.
#[test]
fn a_bed_of_three_lines() {
    let flow = flow_of_bed(&three_lines(), read("0.5 gph"));
    near("flow, rate or minutes", (flow * Time::new::<hour>(1.0)).get::<gallon>(), 16.5, 1e-9);
    let rate = application_rate(flow, read("32 sq ft"));
    near("flow, rate or minutes", inches_an_hour(rate), 0.8271, 1e-4);
    let lacking = still_needed(read("1.25 in"), read("0.25 in"));
    near(
        "flow, rate or minutes",
        run_time(lacking, rate, REACHES_ROOTS).get::<minute>(),
        80.6,
        0.1,
    );
    near(
        "flow, rate or minutes",
        inches_an_hour(rate_of("0.5 gph", "9 in", "16 in")),
        0.8021,
        1e-4,
    );
}

/// An emitter maker's low-volume irrigation manual (Rain Bird), after I. Hung, California State
/// Polytechnic University, Pomona, 1993: T = 0.000361 × 0.5 × 2.0 × 12 × 12² / (0.5 × 0.9).
#[test]
fn the_longest_run() {
    let rate = rate_of("0.5 gph", "12 in", "12 in");
    let longest = longest_run(0.5, read("2 in"), read("12 in"), rate, 0.9);
    near("hours", longest.get::<hour>(), 1.386, 0.005);
}

/// A trade article on drip for raised beds: 400 emitters of 1 gph draw 6.67 gpm (it prints 6.6),
/// more than the 5 gpm of a home tap.
#[test]
fn four_hundred_emitters_are_too_many_for_a_tap() {
    let flow = read::<VolumeRate>("1 gph") * 400.0;
    near("gallons a minute", (flow * Time::new::<minute>(1.0)).get::<gallon>(), 6.67, 0.01);
    assert!(flow > home_tap());
    assert!(read::<VolumeRate>("1 gph") * 299.0 < home_tap());
}

/// FAO Irrigation and Drainage Paper 56 (1998), example 20: Lyon, 45.72° N, 15 July, 26.6 and 14.8
/// °C: 16.546 mm of radiation and 5.0 mm of use a day (documentation of the NCAR Command Language).
#[test]
fn the_use_of_grass_in_fao_56_example_20() {
    let lyon = Latitude::from_degrees(45.72).unwrap();
    let day: NaiveDate = "2025-07-15".parse().unwrap();
    near("millimetres", radiation_as_water(lyon, day).get::<millimeter>(), 16.546, 0.01);
    let [low, high] = ["14.8 C", "26.6 C"].map(read::<Temperature>);
    let used = reference(lyon, day, low, high).get::<millimeter>();
    near("millimetres", used, 5.0, 0.05);
    near("millimetres", used, 5.033, 0.005);
}

/// FAO Irrigation and Drainage Paper 56 (1998), table 12, coefficients in mid-season (read in a
/// reproduction): beans and tomatoes on the ground 1.05 and 1.15, on stakes 1.15 and 1.20.
#[test]
fn the_coefficients_of_fao_56() {
    for (id, printed) in [
        ("broccoli", 1.05),
        ("brussels-sprouts", 1.05),
        ("cabbage", 1.05),
        ("carrot", 1.05),
        ("cauliflower", 1.05),
        ("celery", 1.05),
        ("garlic", 1.00),
        ("lettuce-head", 1.00),
        ("lettuce-leaf", 1.00),
        ("onion-bulb", 1.05),
        ("onion-bunching", 1.00),
        ("spinach", 1.00),
        ("radish", 0.90),
        ("eggplant", 1.05),
        ("pepper", 1.05),
        ("tomato", 1.15),
        ("melon", 0.85),
        ("cucumber", 1.00),
        ("pumpkin", 1.00),
        ("squash-winter", 1.00),
        ("squash-summer", 0.95),
        ("beet", 1.05),
        ("parsnip", 1.05),
        ("potato", 1.15),
        ("sweet-potato", 1.15),
        ("turnip", 1.10),
        ("rutabaga", 1.10),
        ("bean-snap-bush", 1.05),
        ("bean-pole", 1.15),
        ("bean-broad", 1.15),
        ("pea", 1.15),
        ("asparagus", 0.95),
        ("mint", 1.15),
        ("strawberry", 0.85),
        ("sunflower", 1.10),
        ("sweet-corn", 1.15),
    ] {
        let row = crop(id).ok().unwrap();
        assert_eq!(row.id(), id);
        assert_eq!(mid_season(Some(row)), printed, "{id}");
    }
    assert_eq!(mid_season(None), 1.05);
}
