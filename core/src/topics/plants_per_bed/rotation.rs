//! What is said of families that come back too soon.

use crate::{
    plan::{Stood, Wanted},
    text::{capital, list},
};

/// A warning for each family that comes back too soon.
pub(super) fn warnings(stood: &[Stood], wanted: &[Wanted]) -> Vec<String> {
    let warning = |&(family, year): &Stood| {
        let kin = |wanted: &&Wanted| {
            wanted.row.is_some_and(|row| row.family() == family || row.mixed_with() == Some(family))
        };
        let names: Vec<String> = wanted.iter().filter(kin).map(Wanted::name).collect();
        (!names.is_empty()).then(|| {
            format!(
                "{} family was here in {year}: until {} another bed is better for {}.",
                capital(family.called()),
                year + i32::from(family.gap_years()),
                list(&names)
            )
        })
    };
    stood.iter().filter_map(warning).collect()
}
