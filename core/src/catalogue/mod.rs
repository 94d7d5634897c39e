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
mod cover;
mod cover_words;
mod crop;
mod family;
mod find;
mod fold;
pub mod garlic;
pub mod germination;
mod growth;
mod known;
mod residue;
mod residue_words;
mod resolve;
mod row;
pub mod seed_age;
mod sound;
mod words;

pub use cover::{Cover, CoverRow, Gain, cover, covers};
pub use cover_words::CoverWatch;
pub(crate) use crop::ColdCounts;
pub use crop::{Crop, Facet, Part, Range, Span, crops};
pub use find::{NoCrop, crop};
pub(crate) use fold::fold;
pub use growth::{Growth, HeatSum};
pub use known::KnownCrop;
pub(crate) use residue::known_residue;
pub use residue::{
    Product, RESIDUE_GROUPS, Residue, ResidueRow, nitrogen_products, residue, residues,
};
pub use residue_words::{ResidueGroup, ResidueKind, Toxins, Watch};
pub use resolve::{Resolved, resolve};
pub use row::{Row, RowPart, RowSpacing};
pub use words::{
    Bolts, ColdHarm, Deeper, Family, Feeder, Habit, Hardening, Hardiness, Height, Kind, Pick, Seen,
    Spread, Start,
};

// The build script's reading and checking of the tables, tested with the rest.
#[cfg(test)]
#[expect(dead_code, reason = "what is read and checked is written out by the build script alone")]
#[path = "../../build/check.rs"]
mod check;
#[cfg(test)]
#[path = "../../build/covers.rs"]
mod cover_table;
#[cfg(test)]
mod cover_table_tests;
#[cfg(test)]
#[expect(dead_code, reason = "as above")]
#[path = "../../build/emit.rs"]
mod emit;
#[cfg(test)]
#[path = "../../build/kinds.rs"]
mod kinds;
#[cfg(test)]
#[path = "../../build/reader.rs"]
mod reader;
#[cfg(test)]
mod table_tests;
#[cfg(test)]
#[allow(dead_code, reason = "as above, unless what is written out is tested too")]
#[path = "../../build/tables.rs"]
mod tables;
