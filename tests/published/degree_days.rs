//! Degree-days, by every formula, against printed and worked values.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use super::near;
use pegline_core::{
    harvest::{
        age::heat_between,
        cues::sheet_named,
        heat::{CutOff, DayAir, DegreeDays, Formula, Thresholds, of_day},
    },
    quantity::{
        Temperature,
        unit::thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
    },
};

fn fahrenheit(degrees: f64) -> Temperature {
    Temperature::new::<degree_fahrenheit>(degrees)
}

fn celsius(degrees: f64) -> Temperature {
    Temperature::new::<degree_celsius>(degrees)
}

fn limits_f(base: f64, cap: f64) -> Thresholds {
    Thresholds { base: fahrenheit(base), cap: Some(fahrenheit(cap)) }
}

/// A day's heat in Fahrenheit degree-days.
fn day_f(formula: Formula, (base, cap): (f64, f64), (low, high): (f64, f64)) -> f64 {
    let air = DayAir { low: fahrenheit(low), high: fahrenheit(high) };
    of_day(formula, limits_f(base, cap), air).fahrenheit_days()
}

/// Wisconsin county extension column, 2018: three days by the 86/50 rule, with their sum.
#[test]
fn the_clamped_rule_adds_up_wisconsins_three_days() {
    let days = [(65.0, 90.0), (46.0, 72.0), (42.0, 63.0)];
    let heat = days.map(|air| day_f(Formula::Clamped, (50.0, 86.0), air));
    for (found, printed) in heat.into_iter().zip([25.5, 11.0, 6.5]) {
        near("heat", found, printed, 1e-9);
    }
    near("heat", heat.iter().sum(), 43.0, 1e-9);
}

/// Ohio State University, 2023 (63 and 87 F); 48 and 90 F derived from the same rule.
#[test]
fn the_clamped_rule_gives_ohios_example() {
    near("heat", day_f(Formula::Clamped, (50.0, 86.0), (63.0, 87.0)), 24.5, 1e-9);
    near("heat", day_f(Formula::Clamped, (50.0, 86.0), (48.0, 90.0)), 18.0, 1e-9);
}

/// Derived: the same day differs by 4.5 between the two rules.
#[test]
fn average_and_clamped_part_on_a_cool_night() {
    near("heat", day_f(Formula::Average, (50.0, 86.0), (41.0, 77.0)), 9.0, 1e-9);
    near("heat", day_f(Formula::Clamped, (50.0, 86.0), (41.0, 77.0)), 13.5, 1e-9);
}

/// University of California Statewide IPM Program, red scale: a mean of 64 F above 53 F is 11.
#[test]
fn the_average_rule_gives_californias_example() {
    near("heat", day_f(Formula::Average, (53.0, 200.0), (54.0, 74.0)), 11.0, 1e-9);
}

/// Documentation of the R package TrenchR, `degree_days` (single sine): 7 to 14 C above 12 C is 0.47.
#[test]
fn the_sine_gives_the_documented_half_degree_day() {
    let air = DayAir { low: celsius(7.0), high: celsius(14.0) };
    let limits = Thresholds { base: celsius(12.0), cap: Some(celsius(33.0)) };
    let heat = of_day(Formula::Sine(CutOff::Horizontal), limits, air).celsius_days();
    near("heat", heat, 0.468, 0.005);
}

/// Derived from the formulas of Baskerville and Emin (1969) and the cut-offs of the University of
/// California Statewide IPM Program; checked by numerical integration.
#[test]
fn the_sine_and_its_three_cut_offs_give_the_worked_days() {
    let corn = (50.0, 86.0);
    for (air, expected) in [
        ((41.0, 77.0), 10.962),
        ((65.0, 95.0), 27.838),
        ((45.0, 95.0), 19.026),
        ((88.0, 100.0), 36.0),
        ((30.0, 48.0), 0.0),
    ] {
        near("heat", day_f(Formula::Sine(CutOff::Horizontal), corn, air), expected, 0.005);
    }
    near("heat", day_f(Formula::Sine(CutOff::Vertical), corn, (65.0, 95.0)), 14.554, 0.005);
    near("heat", day_f(Formula::Sine(CutOff::Intermediate), corn, (65.0, 95.0)), 25.676, 0.005);
    near(
        "heat",
        day_f(Formula::Sine(CutOff::Horizontal), (55.0, 90.0), (50.0, 82.0)),
        11.853,
        0.005,
    );
}

/// K. B. Perry and T. C. Wehner, HortTechnology 6(1):27, 1996: cucumber, maximum alone, base 60 F,
/// above 90 F as far below it as it is above.
#[test]
fn cucumber_heat_folds_down_above_ninety() {
    for (high, expected) in
        [(55.0, 0.0), (72.0, 12.0), (84.0, 24.0), (90.0, 30.0), (95.0, 25.0), (100.0, 20.0)]
    {
        near("heat", day_f(Formula::FoldedMaximum, (60.0, 90.0), (50.0, high)), expected, 1e-9);
    }
}

/// A Fahrenheit degree-day is five ninths of a Celsius one (derived).
#[test]
fn sums_turn_into_celsius_days() {
    for (fahrenheit, celsius) in [(1250.0, 694.4), (1539.0, 855.0), (800.0, 444.4), (1160.0, 644.4)]
    {
        let sum = DegreeDays::from_fahrenheit_days(fahrenheit);
        near("heat", sum.celsius_days(), celsius, 0.1);
        near("heat", sum.fahrenheit_days(), fahrenheit, 1e-6);
    }
}

/// J. Atherton and others, J. Hort. Sci. 65:423-429, 1990: carrot needs 126 to 336 C-days above -1 C
/// of cold to run to seed; at a constant 6.5 C that is 16.8 and 44.8 days (derived).
#[test]
fn carrots_take_a_constant_cold_in_the_derived_days() {
    let limits = Thresholds { base: celsius(-1.0), cap: None };
    let air = DayAir { low: celsius(6.5), high: celsius(6.5) };
    let a_day = of_day(Formula::Average, limits, air);
    for (sum, days) in [(126.0, 16.8), (336.0, 44.8)] {
        near("heat", sum / a_day.celsius_days(), days, 0.1);
    }
}

/// The sums that are published, each in the sheet it belongs to: University of Delaware, 2025 (pea,
/// above 40 F); Oregon State University, 1969 (snap bean, above 50 F); University of Nebraska (dry
/// bean, 50 and 86 F); Oregon State University (sweet corn, sine, 50 and 86 F).
#[test]
fn the_sheets_carry_the_published_sums() {
    for (sheet, formula, base, cap, [least, most]) in [
        ("shelling-pea", Formula::Average, 40.0, None, [1250.0, 1250.0]),
        ("snap-bean", Formula::Average, 50.0, None, [800.0, 1160.0]),
        ("dry-bean", Formula::Clamped, 50.0, Some(86.0), [1800.0, 2200.0]),
        ("sweet-corn", Formula::Sine(CutOff::Horizontal), 50.0, Some(86.0), [1539.0, 1539.0]),
    ] {
        let heat = sheet_named(sheet).unwrap().heat().unwrap();
        assert_eq!(heat.formula(), formula, "{sheet}");
        near("heat", heat.thresholds().base.get::<degree_fahrenheit>(), base, 1e-6);
        let found = heat.thresholds().cap.map(|cap| cap.get::<degree_fahrenheit>().round());
        assert_eq!(found, cap, "{sheet}");
        let [low, high] = heat.sums().map(DegreeDays::fahrenheit_days);
        near("heat", low, least, 1e-6);
        near("heat", high, most, 1e-6);
    }
}

/// Oregon State University, 1969: snap beans took 64 to 84 days to 800 to 1,160 F-days. A season of
/// 55 to 71 F (mean 63 F) gives the middle of the sums in the middle of the days (derived).
#[test]
fn oregons_sums_and_days_go_together() {
    let sheet = sheet_named("snap-bean").unwrap();
    let heat = sheet.heat().unwrap();
    let from = chrono::NaiveDate::from_ymd_opt(1968, 5, 25).unwrap();
    let to = from + chrono::TimeDelta::days(74);
    let sum =
        heat_between(heat, from, to, |_| DayAir { low: fahrenheit(55.0), high: fahrenheit(71.0) });
    let [least, most] = heat.sums();
    assert!(least < sum && sum < most, "{}", sum.fahrenheit_days());
    near("heat", sum.fahrenheit_days(), 74.0 * 13.0, 1e-6);
}
