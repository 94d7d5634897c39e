//! Plant families and how long a bed should rest from them.

use super::class::family_figures;
use super::fold::fold;
use super::words::Family;
use crate::source::Source;

/// A row of the family table.
#[derive(Clone, Copy)]
pub(super) struct FamilyRow {
    pub(super) called: &'static str,
    pub(super) botanical: &'static str,
    pub(super) gap_years: u8,
    pub(super) sources: &'static [Source],
    pub(super) tray: Tray,
}

/// How young plants of a family do in a tray.
#[derive(Clone, Copy)]
pub(crate) struct Tray {
    /// Weeks beyond the published range after which they are too old (derived).
    pub(crate) grace_weeks: u8,
    /// True leaves at planting, from and to (common practice).
    pub(crate) leaves: [u8; 2],
    /// What waiting costs.
    pub(crate) wait: &'static str,
    /// Trials that rests on.
    pub(crate) sources: &'static [Source],
}

impl Family {
    /// Every family, in order of its word.
    pub const ALL: &[Self] = &[
        Self::Asparagus,
        Self::Basella,
        Self::Bean,
        Self::Beet,
        Self::Bindweed,
        Self::Borage,
        Self::Buckwheat,
        Self::Buttercup,
        Self::Cabbage,
        Self::Carrot,
        Self::Grass,
        Self::Heath,
        Self::IcePlant,
        Self::Iris,
        Self::Lettuce,
        Self::Lily,
        Self::Mallow,
        Self::Mint,
        Self::Nasturtium,
        Self::Onion,
        Self::Plantain,
        Self::Poppy,
        Self::Purslane,
        Self::Rose,
        Self::Squash,
        Self::Tomato,
        Self::Valerian,
        Self::Violet,
    ];

    /// The plain name, said before "family": "cabbage".
    pub fn called(self) -> &'static str {
        family_figures(self).called
    }

    /// The botanical name: "Brassicaceae".
    pub fn botanical(self) -> &'static str {
        family_figures(self).botanical
    }

    /// Years until the family should come back to the same soil, 2 to 4. Common practice built on
    /// intervals for single diseases, some of which ask far longer (clubroot 7 years, white rot of
    /// onions for good); small gardens keep less, so tell it and do not forbid.
    pub fn gap_years(self) -> u8 {
        family_figures(self).gap_years
    }

    /// What the gap rests on.
    pub fn sources(self) -> &'static [Source] {
        family_figures(self).sources
    }

    pub(crate) fn tray(self) -> Tray {
        family_figures(self).tray
    }

    /// Reads a family by its plain or botanical name, with or without the word "family".
    pub fn read(text: &str) -> Option<Self> {
        let wanted = fold(text);
        let matches =
            |name: &str| fold(name) == wanted || fold(&format!("{name} family")) == wanted;
        Self::ALL
            .iter()
            .copied()
            .find(|family| matches(family.called()) || matches(family.botanical()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_family_is_read_by_either_name() {
        for family in Family::ALL {
            assert_eq!(Family::read(family.called()), Some(*family));
            assert_eq!(Family::read(family.botanical()), Some(*family));
        }
        assert_eq!(Family::read("Cabbage family"), Some(Family::Cabbage));
        assert_eq!(Family::read("ice-plant"), Some(Family::IcePlant));
        assert_eq!(Family::read("orchid"), None);
    }

    #[test]
    fn a_family_called_as_a_crop_is_the_family_of_that_crop() {
        let called = Family::ALL.iter().flat_map(|family| [family.called(), family.botanical()]);
        let crops = called.filter_map(|name| Some((name, crate::catalogue::crop(name).ok()?)));
        let crops: Vec<_> = crops.collect();
        assert!(crops.len() > 2, "{} crops", crops.len());
        for (name, crop) in crops {
            assert_eq!(Family::read(name), Some(crop.family()), "{name}");
        }
    }

    #[test]
    fn the_list_of_families_is_whole() {
        // A family out of the list would be one more than its place says.
        for (place, family) in Family::ALL.iter().enumerate() {
            assert_eq!(*family as usize, place);
        }
        assert_eq!(Family::Violet as usize + 1, Family::ALL.len());
    }
}
