//! What is asked, and how it is read.

use crate::{
    catalogue::{Crop, KnownCrop},
    given::{Faults, Given, Text, asked},
    harvest::{
        chosen::{Chosen, choose, refuse_sign},
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

/// The question read, fit to be worked out.
pub(super) struct Question {
    pub(super) crop: &'static Crop,
    pub(super) sheet: &'static Sheet,
    /// Signs already seen.
    pub(super) seen: Vec<&'static Sign>,
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, faults: &mut Faults) -> Option<Question> {
        let Chosen { crop, sheet } = choose(&self.crop, &self.purpose, faults)?;
        let seen = signs(sheet, &self.cues, faults);
        Some(Question { crop, sheet, seen })
    }
}

/// Reads the signs among these names. Stops are passed over: they leave nothing to ask.
fn signs(sheet: &'static Sheet, names: &[Given<Text>], faults: &mut Faults) -> Vec<&'static Sign> {
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
