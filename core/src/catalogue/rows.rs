//! Topic `catalogue`: the rows of a table, for other programs and for looking things up.

use super::{Row, crops};
use crate::{
    ask::Asking,
    given::{Faults, Given, asked, words},
    telling::{Sure, Telling, count},
};

words! {
    /// A catalogue table.
    pub enum Table {
        /// Crops, filler flowers and cover crops.
        Crop = "crop",
    }
}

asked! {
    /// Which rows does a catalogue table have?
    pub struct Asked {
        /// The table.
        kind: Given<Table>,
    }
}

/// The rows of a table.
#[derive(Clone, Debug, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// One row for each crop, in order of its id.
    #[cfg_attr(feature = "schema", schemars(with = "Vec<serde_json::Value>"))]
    pub rows: Vec<Row>,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    _: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let Table::Crop = asked.kind.need(faults)?;
    let rows: Vec<Row> = crops().iter().map(super::Crop::row).collect();
    let number = u32::try_from(rows.len()).unwrap_or(u32::MAX);
    let mut telling = Telling::new(count(number, "crop", "crops"), Sure::High);
    telling
        .because
        .push("Each figure names the work it was taken from.".to_owned());
    for row in crops() {
        row.all_sources()
            .into_iter()
            .for_each(|source| telling.source(source));
    }
    Some((telling, Answer { rows }))
}
