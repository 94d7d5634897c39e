//! What is asked, and how it is read.

use crate::{
    catalogue::KnownCrop,
    given::{Faults, Given, Text, asked},
    harvest::{
        chosen::refuse_sign,
        cues::{Sheet, Sign},
    },
};

asked! {
    /// What do I look for to know whether it is ready?
    pub struct Asked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop>,
        /// What it is grown for, where there is more than one use: snap, shell or dry beans.
        purpose: Given<Text>,
        /// Signs already seen: they are not asked again, and the rest is put in a new order.
        cues: Vec<Given<Text>>,
    }
}

/// Reads the signs among these names. Stops are passed over: they leave nothing to ask.
pub(super) fn signs(
    sheet: &'static Sheet,
    names: &[Given<Text>],
    faults: &mut Faults,
) -> Vec<&'static Sign> {
    let mut signs = Vec::new();
    for given in names {
        let Some(Text(name)) = given.read(faults) else {
            continue;
        };
        match sheet.sign(&name) {
            Some((_, sign)) => signs.push(sign),
            None if sheet.stop(&name).is_some() => {}
            None => refuse_sign(sheet, given, faults),
        }
    }
    signs
}
