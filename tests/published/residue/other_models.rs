//! Other published models of rotting, written out here to hold ours against; each is first checked
//! against its own worked figures.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use super::{as_printed, celsius, close};
use pegline_core::topics::residue_wait::clock;

/// Share of straw carbon that RothC-26.3 keeps in soil of a clay share: what is left of the plant
/// pools, and what of the rest became biomass and humus.
///
/// Coleman and Jenkinson 1999: 59 % decomposable at 10 a year, 41 % resistant at 0.3 a year, moist
/// and bare; the clay equation is from memory.
pub(super) fn rothc_carbon_kept(c: f64, days: f64, clay: f64) -> f64 {
    let left = rothc_plant_left(c, days, 1.0);
    let respired_to_kept = 1.67 * (1.85 + 1.60 * (-7.86 * clay).exp());
    left + (1.0 - left) / (1.0 + respired_to_kept)
}

fn rothc_plant_left(c: f64, days: f64, cover: f64) -> f64 {
    let years = days / 365.25 * clock::rothc(celsius(c)) * cover;
    0.59 * (-10.0 * years).exp() + 0.41 * (-0.3 * years).exp()
}

/// RothC-26.3 at 20 °C for 56 days, bare and with plants growing (factor 0.6).
#[test]
fn rothc_plant_pools() {
    as_printed(rothc_plant_left(20.0, 56.0, 1.0), 0.368, 3);
    as_printed(rothc_plant_left(20.0, 56.0, 0.6), 0.423, 3);
}

/// CERES pools: carbohydrate, cellulose, lignin with their daily rates (Godwin and Jones 1991, from
/// memory), at 20 and 10 °C for 28 days, by daily steps and by exponentials.
#[test]
fn ceres_pools() {
    const POOLS: [(f64, f64); 3] = [(0.2, 0.8), (0.7, 0.05), (0.1, 0.0095)];
    let daily = |c: f64| {
        let warmth = clock::ceres(celsius(c));
        POOLS.iter().map(|(share, rate)| share * (1.0 - rate * warmth).powi(28)).sum::<f64>()
    };
    let warmth = clock::ceres(celsius(20.0));
    let exponential: f64 =
        POOLS.iter().map(|(share, rate)| share * (-rate * warmth * 28.0).exp()).sum();
    as_printed(daily(20.0), 0.4320, 4);
    as_printed(exponential, 0.4352, 4);
    as_printed(daily(10.0), 0.6531, 4);
}

/// CERES factor for C:N: exp(-0.693 (C:N - 25) / 25), at most 1.
#[test]
fn ceres_carbon_to_nitrogen_factor() {
    let factor = |r: f64| (-0.693 * (r - 25.0) / 25.0).exp().min(1.0);
    as_printed(factor(40.0), 0.6598, 4);
    as_printed(factor(80.0), 0.2177, 4);
}

/// CERES demand of nitrogen: what decomposed times (critical 2 % less its own), here 400 g of straw of 0.5 %.
#[test]
fn ceres_net_demand() {
    close(400.0 * (0.020 - 0.005), 6.0, 1e-9);
}

/// The textbook balance: nitrogen held = carbon decomposed x (e / C:N of microbes - 1 / C:N).
#[test]
fn textbook_balance() {
    close(400.0 * (0.4 / 8.0 - 1.0 / 80.0), 15.0, 1e-9);
}

/// Quemada and Cabrera 1997: factor of temperature (°C) and water potential of the residue (MPa).
#[test]
fn quemada_cabrera_factor() {
    let factor = |c: f64, psi: f64| (0.384 + 0.018 * c) * ((0.142 + 0.628 / c) * psi).exp();
    as_printed(factor(20.0, -0.033), 0.740, 3);
    as_printed(factor(20.0, -1.0), 0.626, 3);
    as_printed(factor(20.0, -5.0), 0.313, 3);
}
