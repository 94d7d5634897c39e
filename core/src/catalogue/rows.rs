//! Topic `catalogue`: the rows of a table, for other programs and for looking things up.

use super::{ResidueRow, Row, crops, residues};
use super::{Cover, CoverRow, Row, covers, crops};
use crate::{
    ask::Asking,
    given::{Faults, Given, asked, words},
    source::Source,
    telling::{Sure, Telling, count},
};

words! {
    /// A catalogue table.
    pub enum Table {
        /// Crops, filler flowers and cover crops.
        Crop = "crop",
        /// What beds are covered with.
        Residue = "residue",
        /// Covers against frost.
        Cover = "cover",
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
    /// The rows, in order of their ids.
    #[cfg_attr(feature = "schema", schemars(with = "Vec<serde_json::Value>"))]
    pub rows: Vec<TableRow>,
}

/// A row of one of the tables.
#[derive(Clone, Debug, serde::Serialize)]
#[serde(untagged)]
pub enum TableRow {
    /// A crop.
    Crop(Box<Row>),
    /// A residue.
    Residue(Box<ResidueRow>),
    /// In order of their ids.
    pub rows: Rows,
/// The rows of one table.
pub enum Rows {
    /// One for each crop.
    Crops(Vec<Row>),
    /// One for each cover.
    Covers(Vec<CoverRow>),
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    _: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let (rows, sources, (one, many)): (Vec<TableRow>, Vec<Source>, _) =
        match asked.kind.need(faults)? {
            Table::Crop => (
                crops()
                    .iter()
                    .map(|row| TableRow::Crop(Box::new(row.row())))
                    .collect(),
                crops().iter().flat_map(super::Crop::all_sources).collect(),
                ("crop", "crops"),
            ),
            Table::Residue => (
                residues()
                    .iter()
                    .map(|row| TableRow::Residue(Box::new(row.row())))
                    .collect(),
                residues()
                    .iter()
                    .flat_map(super::Residue::sources)
                    .copied()
                    .collect(),
                ("residue", "residues"),
            ),
        };
    let number = u32::try_from(rows.len()).unwrap_or(u32::MAX);
    let mut telling = Telling::new(count(number, one, many), Sure::High);
    telling
        .because
        .push("Each figure names the work it was taken from.".to_owned());
    sources
        .into_iter()
        .for_each(|source| telling.source(source));
    let (rows, told, sources): (Rows, String, Vec<Source>) = match asked.kind.need(faults)? {
        Table::Crop => {
            let rows: Vec<Row> = crops().iter().map(super::Crop::row).collect();
            let told = number_of(rows.len(), "crop", "crops");
            let sources = crops().iter().flat_map(super::Crop::all_sources);
            (Rows::Crops(rows), told, sources.collect())
        }
        Table::Cover => {
            let rows: Vec<CoverRow> = covers().iter().map(Cover::row).collect();
            let told = number_of(rows.len(), "cover", "covers");
            let sources = covers().iter().flat_map(Cover::sources).copied();
            (Rows::Covers(rows), told, sources.collect())
        }
    };
    let mut telling = Telling::new(told, Sure::High);
    sources.into_iter().for_each(|source| telling.source(source));
    telling
        .because
        .push("Each figure names the work it was taken from.".to_owned());
    sources
        .into_iter()
        .for_each(|source| telling.source(source));
    Some((telling, Answer { rows }))
}

fn number_of(rows: usize, one: &str, many: &str) -> String {
    count(u32::try_from(rows).unwrap_or(u32::MAX), one, many)
}
