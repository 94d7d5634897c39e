//! Cloves of garlic: what one of either kind weighs, narrower than the catalogue's clove of any kind, and
//! how many a bed takes.

use crate::{
    bed::Meant,
    catalogue::{
        Range,
        garlic::{Kind, garlic},
    },
    layout::{self, Aim, Layout, Request, SiteChoice, Want},
    plan::edge_margin,
    quantity::{Length, Mass, Micrometres},
};
use uom::si::mass::pound;

/// What a clove of that kind weighs.
///
/// Hardneck: 40 to 50 in a pound of bulbs, the largest 33. Softneck: 50 to 60, small ones 80
/// (J. Allen, Ontario Ministry of Agriculture, factsheet 09-011w, 2009, and growers' summaries).
/// The usual is the middle of the common range.
#[must_use]
pub fn clove(kind: Kind) -> Range<Mass> {
    let in_a_pound = |number: f64| Mass::new::<pound>(1.0) / number;
    let [most, usual, fewest] = match kind {
        Kind::Hardneck => [50.0, 45.0, 33.0],
        Kind::Softneck => [80.0, 55.0, 50.0],
    };
    Range { least: in_a_pound(most), usual: in_a_pound(usual), most: in_a_pound(fewest) }
}

/// How many cloves an empty bed takes.
pub(crate) fn cloves(meant: &Meant, spacing: Length) -> u32 {
    let laid = lay_cloves(meant, spacing);
    laid.and_then(|laid| laid.counts.first().copied()).unwrap_or(0)
}

/// Where the cloves go in an empty bed.
pub(crate) fn lay_cloves(meant: &Meant, spacing: Length) -> Option<Layout> {
    let spacing = Micrometres::from_length(spacing)?;
    let want = Want {
        spacing,
        on_hand: None,
        // Closer than the emitters are, garlic goes beside the line.
        sites: SiteChoice::usual(&meant.bed, spacing),
        edge_margin: edge_margin(&meant.bed, garlic()),
    };
    let request = Request::new(&meant.bed, &[want], &[], Aim::InOrder).ok()?;
    Some(layout::fill(&request))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::crop;

    #[test]
    fn a_clove_of_either_kind_lies_inside_the_range_of_any() {
        let any = crop("garlic").ok().unwrap().piece_mass().unwrap();
        for kind in Kind::ALL {
            let clove = clove(*kind);
            assert!(any.least <= clove.least && clove.most <= any.most);
            assert!(clove.least <= clove.usual && clove.usual <= clove.most);
        }
    }
}
