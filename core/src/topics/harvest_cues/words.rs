//! What is told of the signs to look for.

use crate::{
    catalogue::Crop,
    harvest::{
        cautions::cautions,
        cues::{Question, Sheet},
    },
    telling::{Sure, Telling},
    text::{count, sentence},
};

/// The question that settles it soonest, then the others.
pub(super) fn tell(crop: &Crop, sheet: &Sheet, order: &[&'static Question]) -> Telling {
    let first = order.first().map_or("Nothing is left to ask", |question| question.say());
    let mut telling = Telling::new(first, Sure::Fair);
    if let Some((_, rest @ [_, ..])) = order.split_first() {
        let number = u32::try_from(rest.len()).unwrap_or(u32::MAX);
        telling.because.push(format!(
            "If that does not settle it, {}:",
            count(number, "more question", "more questions")
        ));
        telling.because.extend(rest.iter().map(|question| sentence(question.say())));
    }
    telling.look_for.extend(sheet.beware().iter().map(|&line| line.to_owned()));
    cautions(crop, sheet, false, &mut telling);
    for question in order {
        question.sources().iter().for_each(|source| telling.source(*source));
    }
    for size in sheet.sizes() {
        size.sources().iter().for_each(|source| telling.source(*source));
    }
    telling
}
