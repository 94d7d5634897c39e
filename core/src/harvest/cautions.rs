//! What can hurt, of a crop and of a use of it.

use super::cues::Sheet;
use crate::{
    catalogue::{Crop, Facet},
    telling::Telling,
};

/// Adds the cautions of the crop and of this use of it, the crop's first; those about old ones only
/// where they are wanted.
pub(crate) fn cautions(crop: &Crop, sheet: &Sheet, late: bool, telling: &mut Telling) {
    telling.cautions.extend(crop.cautions().iter().map(|&line| line.to_owned()));
    crop.sources(Facet::Caution).for_each(|source| telling.source(source));
    for caution in sheet.cautions().iter().filter(|caution| late || !caution.is_late()) {
        telling.cautions.push(caution.say().to_owned());
        caution.sources().iter().for_each(|source| telling.source(*source));
    }
}
