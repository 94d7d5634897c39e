//! Which crop is meant, and what it is grown for.

use super::cues::{Question, Sheet, Sign, sheet_named, sheets_of};
use crate::text::small;
use crate::{
    catalogue::{self, Crop, KnownCrop},
    given::{Faults, Given, Text},
};

/// A crop and the sheet that tells what to look for.
#[derive(Clone, Copy)]
pub(crate) struct Chosen {
    pub(crate) crop: &'static Crop,
    pub(crate) sheet: &'static Sheet,
}

/// Reads the crop ("pea", "snow pea", "dry bean") and what it is grown for ("snow").
pub(crate) fn choose(
    crop: &Given<KnownCrop>,
    purpose: &Given<Text>,
    faults: &mut Faults,
) -> Option<Chosen> {
    let wanted = purpose.read(faults);
    let name = crop.text().unwrap_or_default();
    // "Dry bean" names a use, and with it the crop.
    if let Some(sheet) = sheet_named(name).filter(|_| crop.is_own_word())
        && let Some(crop) = sheet.crops().next().and_then(|id| catalogue::crop(id).ok())
    {
        return Some(Chosen { crop, sheet });
    }
    let KnownCrop(found) = crop.need(faults)?;
    let sheets = sheets_of(found);
    let Some(usual) = sheets.first() else {
        let why = if found.eaten() {
            format!("what to look for in {} is not known here", small(found.name()))
        } else {
            "nothing is harvested from this one".to_owned()
        };
        crop.refuse(faults, "a crop that is eaten or cut", why);
        return None;
    };
    let sheet = match &wanted {
        None => sheets.iter().find(|sheet| sheet.is_called(name)).unwrap_or(usual),
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

/// Refuses a name that is no sign of this sheet, and lists those that are.
pub(crate) fn refuse_sign(sheet: &Sheet, given: &Given<Text>, faults: &mut Faults) {
    let signs = sheet.questions().iter().flat_map(Question::signs).map(Sign::id);
    let stops = sheet.stops().iter().map(|stop| stop.id());
    let ids: Vec<&str> = signs.chain(stops).collect();
    given.refuse(faults, format!("one of: {}", ids.join(", ")), "that is no sign of this crop");
}
