//! Checks against what others have published, each with its source beside it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod after_frost;
mod amounts;
mod calendars;
mod catalogue;
mod chance;
mod degree_days;
mod emergence;
mod emergence_tables;
mod frost;
mod frost_coverage;
mod frost_dates;
mod garlic;
mod harvest;
mod layout;
mod lifted;
mod residue;
mod soil;
mod starts;
mod stations;
mod sun;
mod vignettes;
mod water;

/// Fails, saying what was compared, unless the two are within `tolerance`.
#[track_caller]
pub(crate) fn near(what: &str, found: f64, published: f64, tolerance: f64) {
    assert!(
        (found - published).abs() <= tolerance + 1e-9,
        "{what}: found {found}, published {published} ± {tolerance}"
    );
}
