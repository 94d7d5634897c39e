//! Topic `catalogue`: the rows of a table, for other programs and for looking things up.

mod answer;
mod question;
mod words;

pub use answer::Answer;
pub use question::{Asked, Table};

use serde::Serialize;
use serde_json::Value;

use crate::{
    asking::Asking,
    catalogue::{covers, crops, residues},
    given::Faults,
    source::Source,
    telling::Telling,
    topics::harvest_cues,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    _: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let (rows, one, many) = match asked.kind.need(faults)? {
        Table::Crop => {
            let rows = crops().iter().map(|crop| (json(&crop.row()), crop.all_sources()));
            (rows.collect::<Vec<_>>(), "crop", "crops")
        }
        Table::Residue => {
            let rows =
                residues().iter().map(|residue| (json(&residue.row()), residue.sources().to_vec()));
            (rows.collect(), "residue", "residues")
        }
        Table::Cover => {
            let rows = covers().iter().map(|cover| (json(&cover.row()), cover.sources().to_vec()));
            (rows.collect(), "cover", "covers")
        }
        Table::Cue => {
            let rows = harvest_cues::rows().into_iter().map(|row| (json(&row), row.sources));
            (rows.collect(), "sign", "signs")
        }
    };
    let (rows, sources): (Vec<Value>, Vec<Vec<Source>>) = rows.into_iter().unzip();
    Some((words::tell(rows.len(), one, many, sources), Answer { rows }))
}

/// OK because rows hold only names, numbers and lists.
fn json(row: &impl Serialize) -> Value {
    serde_json::to_value(row).unwrap_or_default()
}
