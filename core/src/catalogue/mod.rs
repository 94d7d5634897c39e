//! The crops: what is grown, at what spacing, how it bears cold, how it is raised, what it feeds on,
//! what it can do to people and animals; each figure with its source.
//!
//! The figures stand in `core/data/crops.toml` and `classes.toml`, the works they come from in
//! `sources.toml`; the build script checks all three. To add a crop, add a table there.
//!
//! Spacings are for ordinary kinds at full size, in beds; dwarf and giant kinds differ twofold, and
//! published figures for one crop do too. Killing temperatures are for plants used to the cold, at
//! the leaf, and differ by some 5 F with kind, wind, wet and repeated frost (common practice).

mod class;
#[cfg(feature = "ahead")]
mod cover;
#[cfg(feature = "ahead")]
mod cover_words;
mod crop;
mod family;
mod find;
mod fold;
#[cfg(feature = "ahead")]
mod known;
#[cfg(feature = "ahead")]
mod residue;
#[cfg(feature = "ahead")]
mod residue_words;
mod row;
pub mod rows;
mod words;

#[cfg(feature = "ahead")]
pub use cover::{Cover, CoverRow, Gain, cover, covers};
#[cfg(feature = "ahead")]
pub use cover_words::CoverWatch;
pub use crop::{Crop, Facet, Part, Range, Span, crops};
pub use find::crop;
#[cfg(feature = "ahead")]
pub(crate) use fold::fold;
#[cfg(feature = "ahead")]
pub use known::KnownCrop;
#[cfg(feature = "ahead")]
pub use residue::{Product, Residue, ResidueRow, nitrogen_products, residue, residues};
#[cfg(feature = "ahead")]
pub use residue_words::{ResidueKind, Toxins, Watch};
pub use row::{Row, RowPart, RowSpacing};
pub use words::{
    Deeper, Family, Feeder, Habit, Hardening, Hardiness, Height, Kind, Pick, Spread, Start,
};

// The build script's reading and checking of the tables, tested with the rest.
#[cfg(test)]
#[expect(
    dead_code,
    reason = "what is read and checked is written out by the build script alone"
)]
#[path = "../../build/check.rs"]
mod check;
#[cfg(all(test, feature = "ahead"))]
#[path = "../../build/covers.rs"]
mod cover_table;
#[cfg(all(test, feature = "ahead"))]
mod cover_table_tests;
#[cfg(all(test, feature = "ahead"))]
#[expect(dead_code, reason = "as above")]
#[path = "../../build/emit.rs"]
mod emit;
#[cfg(test)]
#[path = "../../build/reader.rs"]
mod reader;
#[cfg(test)]
mod table_tests;
#[cfg(test)]
#[allow(
    dead_code,
    reason = "as above, unless what is written out is tested too"
)]
#[path = "../../build/tables.rs"]
mod tables;
