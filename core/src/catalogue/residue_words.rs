//! The words a residue is described with; the build script reads the table with these same types.

use serde::{Deserialize, Serialize};

/// What a material is, as far as its rotting goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ResidueKind {
    /// Plant waste.
    Plant,
    /// Dung, with or without bedding.
    Manure,
    /// Rotted already.
    Compost,
    /// Wood.
    Wood,
}

/// Where a material stands in the list that a gardener picks from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ResidueGroup {
    /// Leaves, tops and roots of vegetables.
    Vegetables,
    /// Weeds and grass.
    Weeds,
    /// Cover crops.
    CoverCrops,
    /// Straw, hay, fallen leaves, wood.
    Dry,
    /// Manure, compost, coffee grounds.
    Rotted,
}

/// Whose fresh residue hinders seeds and roots longer than other greens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Toxins {
    /// The cabbage family.
    Brassica,
    /// Rye, cut green.
    Rye,
}

/// What to look for before a material is laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Watch {
    /// Clubroot on the roots.
    Clubroot,
    /// Late blight.
    Blight,
    /// White rot of onions and garlic.
    WhiteRot,
    /// Seed that will come up.
    Seeds,
    /// Stumps, crowns and pieces that grow again.
    Resprouts,
    /// A weedkiller sprayed on the field that it came from.
    Weedkiller,
}
