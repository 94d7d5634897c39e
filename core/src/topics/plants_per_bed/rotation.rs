//! Families that the bed should rest from.

use chrono::{Datelike, NaiveDate};

use crate::{
    bed::Meant,
    catalogue::{self, Crop, Family},
    garden::Garden,
    order,
    plan::Wanted,
    text::{capital, list},
};

/// A family and the last year in which it stood in the bed.
pub(super) type Stood = (Family, i32);

/// The families that stood in the bed lately enough to matter, by the record and by what was told.
///
/// What still grows there is no past; without a date every year told matters.
pub(super) fn resting(meant: &Meant, garden: &Garden, today: Option<NaiveDate>) -> Vec<Stood> {
    let families = |what: &str| {
        let crop = catalogue::crop(what).ok();
        // A crop first: a record tells hundreds of them, and names of families take longer to read.
        let own = crop.map(Crop::family).or_else(|| Family::read(what));
        [own, crop.and_then(Crop::mixed_with)].into_iter().flatten()
    };
    let told = meant.history.iter().flat_map(|past| {
        let year = i32::try_from(past.year).unwrap_or(0);
        families(&past.what).map(move |family| (family, year))
    });
    let grown = meant.id.as_deref().and_then(|id| garden.bed(id));
    let grown = grown.map(|bed| bed.past.as_slice()).unwrap_or_default();
    let recorded = grown.iter().flat_map(|planting| {
        let year = planting.ended.unwrap_or(planting.since).year();
        families(&planting.crop).map(move |family| (family, year))
    });
    let matters = |(family, year): &Stood| {
        today.is_none_or(|today| today.year() - year < i32::from(family.gap_years()))
    };
    let mut stood: Vec<Stood> = told.chain(recorded).filter(matters).collect();
    order::sort(&mut stood, &|&(family, year)| [family as i64, -i64::from(year), 0]);
    stood.dedup_by_key(|(family, _)| *family);
    stood
}

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
