//! What the record calls a crop, a bed or a tray.

use super::trays;
use crate::{
    catalogue,
    garden::Garden,
    journal::{About, details},
    text::small,
};

/// A crop's name as a sentence goes on with it.
pub(crate) fn crop_name(crop: &str) -> String {
    catalogue::crop(crop).map_or_else(|_| crop.to_owned(), |row| small(row.name()))
}

/// "kept for garlic".
pub(crate) fn kept_for(it: &details::Reserved) -> String {
    let crop = it.crop.as_deref().map(crop_name);
    format!("kept for {}", crop.as_deref().unwrap_or("something"))
}

/// The name of the bed or tray an entry is about.
pub(super) fn place(about: &About, garden: &Garden) -> String {
    let named = about.bed.as_deref();
    let by_planting = || {
        let id = about.planting.as_deref()?.parse().ok()?;
        garden.planting(id).map(|(bed, _)| bed.name.clone())
    };
    let by_start = || {
        let id = about.start.as_deref()?.parse().ok()?;
        garden.start(id).map(trays::name)
    };
    match named {
        Some(id) => garden.bed(id).map_or_else(|| id.to_owned(), |bed| bed.name.clone()),
        None => by_planting().or_else(by_start).unwrap_or_default(),
    }
}
