//! Topic `catalogue`: the rows of a table, for other programs and for looking things up.

use serde::Serialize;
use serde_json::Value;

use crate::{
    asking::Asking,
    catalogue::{covers, crops, residues},
    given::{Faults, Given, asked, words},
    source::Source,
    telling::{Sure, Telling},
    text::count,
    topics::harvest_cues,
};

words! {
    /// A catalogue table.
    pub enum Table {
        /// Crops, filler flowers and cover crops.
        Crop = "crop",
        /// Plants and other stuff that is chopped and left.
        Residue = "residue",
        /// Covers against frost.
        Cover = "cover",
        /// Signs of readiness, of every crop that is harvested.
        Cue = "cue",
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
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The rows, in order of their ids; signs in order of their crops' sheets.
    pub rows: Vec<Value>,
}

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
    let number = u32::try_from(rows.len()).unwrap_or(u32::MAX);
    let mut telling = Telling::new(count(number, one, many), Sure::High);
    telling.because.push("Each figure names the work it was taken from.".to_owned());
    let (rows, sources): (Vec<Value>, Vec<Vec<Source>>) = rows.into_iter().unzip();
    sources.into_iter().flatten().for_each(|source| telling.source(source));
    Some((telling, Answer { rows }))
}

/// OK because rows hold only names, numbers and lists.
fn json(row: &impl Serialize) -> Value {
    serde_json::to_value(row).unwrap_or_default()
}
