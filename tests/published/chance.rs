//! The normal and the binomial distribution.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use pegline_core::chance::{binomial::tries_for, normal};

use crate::near;

/// Abramowitz and Stegun, *Handbook of Mathematical Functions*, 1964, table 26.1 (from memory).
#[test]
fn normal_chances_are_those_of_the_handbook() {
    for (z, chance) in [
        (0.0, 0.5),
        (0.5, 0.691_462_461_27),
        (1.0, 0.841_344_746_07),
        (1.5, 0.933_192_798_73),
        (2.0, 0.977_249_868_05),
        (3.0, 0.998_650_101_97),
        (4.0, 0.999_968_328_76),
    ] {
        near("Φ", normal::chance_below(z), chance, 5e-12);
    }
}

/// The quantiles that every statistics table prints (from memory).
#[test]
fn normal_quantiles_are_those_of_the_tables() {
    for (chance, z) in [
        (0.5, 0.0),
        (0.75, 0.674_489_750),
        (0.9, 1.281_551_566),
        (0.95, 1.644_853_627),
        (0.975, 1.959_963_985),
        (0.99, 2.326_347_874),
        (0.999, 3.090_232_306),
    ] {
        near("quantile", normal::value_at(chance), z, 5e-10);
        near("quantile", normal::value_at(1.0 - chance), -z, 5e-9);
    }
}

/// Binomial tables with p = 0.9 and 0.5, as printed in introductory statistics (from memory): P(X ≥
/// 16 | 19) = 0.8850, P(X ≥ 16 | 20) = 0.9568; P(X ≥ 9 | 11) = 0.9104, P(X ≥ 9 | 10) = 0.7361; P(X
/// ≥ 1 | 3) = 0.8750, P(X ≥ 1 | 4) = 0.9375.
#[test]
fn seeds_for_nine_times_in_ten_agree_with_binomial_tables() {
    assert_eq!(tries_for(16, 0.9, 0.9, 100), Some(20));
    assert_eq!(tries_for(9, 0.9, 0.9, 100), Some(11));
    assert_eq!(tries_for(1, 0.5, 0.9, 100), Some(4));
    // The printed chances themselves, asked for exactly.
    assert_eq!(tries_for(16, 0.9, 0.9568, 100), Some(20));
    assert_eq!(tries_for(16, 0.9, 0.9569, 100), Some(21));
    assert_eq!(tries_for(16, 0.9, 0.8850, 100), Some(19));
}
