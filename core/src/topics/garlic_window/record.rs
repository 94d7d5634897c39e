//! What the record knows of each bed, as the choice of a bed for garlic asks it.

use chrono::{Datelike, NaiveDate, TimeDelta};
use uom::si::temperature_interval::degree_celsius as kelvin;

use super::which_bed::Candidate;
use crate::{
    catalogue::{self, Family},
    garden::{Bed, Garden},
    given::Readable,
    journal::What,
    place::{
        air::Air,
        known_soil::BedSoil,
        soil::{Mulch, Texture},
    },
    quantity::{TemperatureInterval, number::read_count},
};

/// How a note of white rot begins, as this topic itself writes it.
pub(super) const WHITE_ROT: &str = "White rot";

/// The beds of the record.
pub(super) fn candidates<'a>(
    garden: &'a Garden,
    air: Option<&Air>,
    texture: Texture,
    today: NaiveDate,
) -> Vec<(&'a Bed, Candidate<'a>)> {
    let beds = garden.beds.iter().filter(|bed| bed.gone.is_none());
    beds.map(|bed| {
        let candidate = Candidate {
            name: &bed.name,
            white_rot: white_rot_noted(garden, &bed.id),
            last_allium: last_allium(bed, today),
            free_on: free_on(bed, today),
            drained: told(bed, "drains"),
            spring_sun: told(bed, "spring_sun"),
            colder_by: air.and_then(|air| colder_by(bed, air, texture, today)),
        };
        (bed, candidate)
    })
    .collect()
}

/// A yes or no that was told of a bed, if it was.
fn told(bed: &Bed, name: &str) -> Option<bool> {
    let told = bed.shape.get(name)?;
    told.as_bool().or_else(|| Readable::read(told.as_str()?.trim()).ok())
}

/// Since when garlic grows in a bed, if it does.
pub(super) fn growing_since(bed: &Bed) -> Option<NaiveDate> {
    let mut garlic = bed.plantings.iter().filter(|it| is_garlic(&it.crop));
    garlic.next().map(|it| it.since.date())
}

/// Whether garlic grows in a bed, or the bed is kept for it.
pub(crate) fn has_garlic(bed: &Bed, today: NaiveDate) -> bool {
    growing_since(bed).or_else(|| kept_from(bed, today)).is_some()
}

/// Whether a crop's name means garlic.
pub(crate) fn is_garlic(crop: &str) -> bool {
    catalogue::crop(crop).is_ok_and(|crop| crop.id() == "garlic")
}

/// From which day a bed is kept for garlic, if it is.
pub(super) fn kept_from(bed: &Bed, today: NaiveDate) -> Option<NaiveDate> {
    let kept = bed.kept(today).find(|kept| kept.crop.as_deref().is_some_and(is_garlic));
    kept.map(|kept| kept.from.unwrap_or(today))
}

/// Whether white rot was ever noted of a bed.
fn white_rot_noted(garden: &Garden, bed: &str) -> bool {
    garden.happened_in(bed).any(|happened| {
        matches!(&happened.entry.what, What::Note(note) if note.text.starts_with(WHITE_ROT))
    })
}

/// Whether a crop, or a family, is of the onion family.
pub(super) fn is_allium(what: &str) -> bool {
    // A crop first: in a record of ten years it is asked of hundreds, and names of families take longer.
    match catalogue::crop(what) {
        Ok(crop) => crop.family() == Family::Onion,
        Err(_) => Family::read(what) == Some(Family::Onion),
    }
}

fn last_allium(bed: &Bed, today: NaiveDate) -> Option<i32> {
    let grown = bed.grown();
    let grown = grown.iter().filter(|grown| is_allium(grown.crop));
    let recorded = grown.map(|grown| grown.to.map_or(today.year(), |to| to.date().year())).max();
    let told = bed.shape.get("history").and_then(|history| history.as_array());
    let told = told.into_iter().flatten().filter_map(|past| {
        let what = past.get("crop").or_else(|| past.get("family"))?.as_str()?;
        let year = past.get("year")?;
        let year = read_count(year.as_str().unwrap_or(&year.to_string()).trim()).ok()?;
        is_allium(what).then(|| i32::try_from(year).ok())?
    });
    told.max().max(recorded)
}

/// When the bed is free: after what grows there by the longest usual days to its harvest, or after
/// what it is kept for.
fn free_on(bed: &Bed, today: NaiveDate) -> Option<NaiveDate> {
    let grown = bed.plantings.iter().filter_map(|planting| {
        let crop = catalogue::crop(&planting.crop).ok()?;
        let most: TimeDelta = crop.days_to_harvest()?.most;
        Some(planting.since.date().checked_add_signed(most)?.max(today))
    });
    let kept = bed.kept(today).filter_map(|kept| {
        let for_garlic = kept.crop.as_deref().is_some_and(is_garlic);
        kept.until.filter(|_| !for_garlic)
    });
    grown.chain(kept).max()
}

/// How much colder than usual for the place its fresh readings show it.
fn colder_by(
    bed: &Bed,
    air: &Air,
    texture: Texture,
    today: NaiveDate,
) -> Option<TemperatureInterval> {
    let correction =
        BedSoil::new(air, texture, Mulch::Bare, &bed.soil_readings(), today).correction;
    (correction.counted > 0)
        .then(|| TemperatureInterval::new::<kelvin>(-correction.shift.get::<kelvin>()))
}
