//! What is told of the rows of a table.

use crate::{
    source::Source,
    telling::{Sure, Telling},
    text::count,
};

/// How many rows, and what they were taken from.
pub(super) fn tell(rows: usize, one: &str, many: &str, sources: Vec<Vec<Source>>) -> Telling {
    let number = u32::try_from(rows).unwrap_or(u32::MAX);
    let mut telling = Telling::new(count(number, one, many), Sure::High);
    telling.because.push("Each figure names the work it was taken from.".to_owned());
    sources.into_iter().flatten().for_each(|source| telling.source(source));
    telling
}
