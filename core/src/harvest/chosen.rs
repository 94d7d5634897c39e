//! Which crop is meant, and what it is grown for.

use super::cues::{Sheet, sheet_named, sheets_of};
use crate::text::small;
use crate::{
    catalogue::{self, Crop},
    given::{Faults, Given, Text},
};

/// A crop and the sheet that tells what to look for.
#[derive(Clone, Copy)]
pub(super) struct Chosen {
    pub(super) crop: &'static Crop,
    pub(super) sheet: &'static Sheet,
}

/// Reads the crop ("pea", "snow pea", "dry bean") and what it is grown for ("snow").
pub(super) fn choose(
    crop: &Given<Text>,
    purpose: &Given<Text>,
    faults: &mut Faults,
) -> Option<Chosen> {
    let wanted = purpose.read(faults);
    let Text(name) = crop.need(faults)?;
    let found = match catalogue::crop(&name) {
        Ok(found) => found,
        Err(nearest) => {
            // "Dry bean" names a use, and with it the crop.
            let sheet = sheet_named(&name);
            let of_sheet = sheet.and_then(|sheet| catalogue::crop(sheet.crops().next()?).ok());
            if let (Some(sheet), Some(crop)) = (sheet, of_sheet) {
                return Some(Chosen { crop, sheet });
            }
            crop.refuse(
                faults,
                format!("a crop such as {}", or(nearest.iter().map(|crop| crop.name()))),
                "no crop of that name is known here",
            );
            return None;
        }
    };
    let sheets = sheets_of(found);
    let Some(usual) = sheets.first() else {
        crop.refuse(faults, "a crop that is eaten or cut", "nothing is harvested from this one");
        return None;
    };
    let sheet = match &wanted {
        None => sheets.iter().find(|sheet| sheet.is_called(&name)).unwrap_or(usual),
        Some(Text(wanted)) => {
            let Some(sheet) = sheets.iter().find(|sheet| sheet.is_called(wanted)) else {
                let uses: Vec<&str> = sheets.iter().filter_map(|sheet| sheet.used_as()).collect();
                let allowed = if uses.is_empty() {
                    "nothing: this crop is looked at in one way".to_owned()
                } else {
                    or(uses.into_iter())
                };
                purpose.refuse(faults, allowed, "this crop is not known for that use");
                return None;
            };
            sheet
        }
    };
    Some(Chosen { crop: found, sheet })
}

/// "one, two or three", in small letters.
fn or<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let names: Vec<String> = names.map(small).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}
