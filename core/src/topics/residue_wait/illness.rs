//! Sicknesses that stay in the ground: by the words people use, whom they take, and for how long.
//!
//! How long each lasts: growers' pages on clubroot (10 to 20 years for its spores, "seven or more" as
//! the least rest); the others from memory of extension pages, as the least and the most that they give.

use crate::{
    catalogue::{Crop, Family, crops},
    given::{Control, Readable, words},
    quantity::Unreadable,
    text::{list, small},
};

words! {
    /// Which sickness.
    pub enum Illness {
        /// Swollen, knotted roots of the cabbage family.
        Clubroot = "clubroot" => "clubroot: knotted cabbage roots",
        /// White fluff and black specks at the base of onion or garlic.
        WhiteRot = "white-rot" => "white rot of onion or garlic",
        /// Late blight of tomato and potato.
        Blight = "blight" => "late blight of tomato or potato",
        /// A wilt or a root rot, not known which.
        Wilt = "wilt" => "wilt or root rot, not known which",
        /// Fusarium wilt: yellow from one side, brown veins.
        FusariumWilt = "fusarium-wilt" => "Fusarium wilt",
        /// Verticillium wilt.
        VerticilliumWilt = "verticillium-wilt" => "Verticillium wilt",
        /// White cottony rot with black lumps in the stems: Sclerotinia.
        WhiteMould = "white-mould" => "white mould (Sclerotinia): cotton and black lumps in stems",
        /// White threads and tan beads at the foot of the stem.
        SouthernBlight = "southern-blight" => "southern blight: threads and tan beads at the foot",
        /// Galls along the roots of many kinds.
        Nematodes = "nematodes" => "root-knot nematodes: beads along the roots",
        /// Spots or mildew on leaves alone.
        LeafSpot = "leaf-spot" => "spots, rust or mildew on leaves alone",
        /// A virus: mosaic, curled and stunted.
        Virus = "virus" => "a virus: mosaic, curled leaves",
        /// Not known which.
        NotKnown = "dont-know" => "I don't know",
    }
}

/// What people say instead.
const SAID: [(&str, Illness); 33] = [
    ("club root", Illness::Clubroot),
    ("knotted roots", Illness::Clubroot),
    ("finger and toe", Illness::Clubroot),
    ("onion rot", Illness::WhiteRot),
    ("garlic rot", Illness::WhiteRot),
    ("late blight", Illness::Blight),
    ("potato blight", Illness::Blight),
    ("tomato blight", Illness::Blight),
    ("root rot", Illness::Wilt),
    ("black root rot", Illness::Wilt),
    ("wilting", Illness::Wilt),
    ("fusarium", Illness::FusariumWilt),
    ("verticillium", Illness::VerticilliumWilt),
    ("white mold", Illness::WhiteMould),
    ("sclerotinia", Illness::WhiteMould),
    ("cottony rot", Illness::WhiteMould),
    ("stem rot", Illness::WhiteMould),
    ("southern stem rot", Illness::SouthernBlight),
    ("root knot", Illness::Nematodes),
    ("root-knot nematodes", Illness::Nematodes),
    ("eelworm", Illness::Nematodes),
    ("early blight", Illness::LeafSpot),
    ("septoria", Illness::LeafSpot),
    ("leaf spots", Illness::LeafSpot),
    ("spots", Illness::LeafSpot),
    ("powdery mildew", Illness::LeafSpot),
    ("downy mildew", Illness::LeafSpot),
    ("mildew", Illness::LeafSpot),
    ("rust", Illness::LeafSpot),
    ("mosaic", Illness::Virus),
    ("unknown", Illness::NotKnown),
    ("not known", Illness::NotKnown),
    ("don't know", Illness::NotKnown),
];

/// A sickness by its word, or as people say it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct IllnessSaid(pub Illness);

impl Readable for IllnessSaid {
    const CONTROL: Control = Illness::CONTROL;

    fn allowed() -> String {
        Illness::allowed()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let plain = small(text).replace(['-', '_'], " ").replace('\u{2019}', "'");
        let said = SAID.iter().find(|(said, _)| said.replace('-', " ") == plain);
        match said {
            Some((_, illness)) => Ok(Self(*illness)),
            None => Illness::read(text).map(Self),
        }
    }
}

/// Whom it takes.
enum Takes {
    /// One family.
    One(Family),
    /// The family that was sick.
    TheSame,
    /// All but grasses and onion kin.
    Many,
}

/// The least and the most years it lasts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Years {
    /// The least.
    pub least: u8,
    /// The most; null where it may be much longer.
    pub most: Option<u8>,
}

impl Years {
    /// "7 years or more", "2 to 3 years", "this year and next".
    pub(super) fn told(self) -> String {
        match (self.least, self.most) {
            (least, None) => format!("{least} years or more").replace("1 years", "a season"),
            (1, Some(1)) => "a year".to_owned(),
            (least, Some(most)) => format!("{least} to {most} years"),
        }
    }
}

impl Illness {
    fn takes(self) -> Takes {
        match self {
            Self::Clubroot => Takes::One(Family::Cabbage),
            Self::WhiteRot => Takes::One(Family::Onion),
            Self::Blight => Takes::One(Family::Tomato),
            Self::VerticilliumWilt | Self::WhiteMould | Self::SouthernBlight | Self::Nematodes => {
                Takes::Many
            }
            Self::Wilt | Self::FusariumWilt | Self::LeafSpot | Self::Virus | Self::NotKnown => {
                Takes::TheSame
            }
        }
    }

    /// How long its family had better not come back; `None` where that is not known.
    pub(crate) fn years(self) -> Option<Years> {
        let years = |least, most| Some(Years { least, most });
        match self {
            Self::Clubroot => years(7, None),
            Self::WhiteRot => years(20, None),
            Self::Blight | Self::Virus => years(1, Some(1)),
            Self::FusariumWilt => years(5, Some(7)),
            Self::VerticilliumWilt => years(4, Some(10)),
            Self::WhiteMould => years(5, Some(8)),
            Self::SouthernBlight => years(3, Some(5)),
            Self::Nematodes | Self::LeafSpot => years(2, Some(3)),
            Self::Wilt | Self::NotKnown => None,
        }
    }

    /// "clubroot"; none where it is not known.
    pub(crate) fn name(self) -> Option<&'static str> {
        Some(match self {
            Self::Clubroot => "clubroot",
            Self::WhiteRot => "white rot",
            Self::Blight => "late blight",
            Self::Wilt => "wilt or root rot",
            Self::FusariumWilt => "Fusarium wilt",
            Self::VerticilliumWilt => "Verticillium wilt",
            Self::WhiteMould => "white mould",
            Self::SouthernBlight => "southern blight",
            Self::Nematodes => "root-knot nematodes",
            Self::LeafSpot => "a leaf disease",
            Self::Virus => "a virus",
            Self::NotKnown => return None,
        })
    }
}

/// The family of a crop that had better not follow: the one the illness lives on, or else one of those
/// that were laid.
pub(crate) fn same_family(
    crop: &Crop,
    illness: Option<Illness>,
    laid: impl Iterator<Item = Family>,
) -> Option<Family> {
    let own = [Some(crop.family()), crop.mixed_with()];
    match illness.map(Illness::takes) {
        Some(Takes::One(family)) => own.contains(&Some(family)).then_some(family),
        Some(Takes::Many) => {
            (!matches!(crop.family(), Family::Grass | Family::Onion)).then(|| crop.family())
        }
        Some(Takes::TheSame) | None => {
            let mut laid = laid;
            laid.find(|family| own.contains(&Some(*family)))
        }
    }
}

/// Who is meant by a family, so that nobody overlooks a radish.
pub(super) fn members(family: Family) -> String {
    if family == Family::Cabbage {
        return "cabbage, broccoli, cauliflower, kale, sprouts, turnip, swede, radish, mustard, rocket, pak choi, \
                and of flowers sweet alyssum, stock and wallflower"
            .to_owned();
    }
    let mut names: Vec<String> = Vec::new();
    for crop in crops().iter().filter(|crop| crop.family() == family) {
        names.push(small(crop.name()));
    }
    list(&names)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sicknesses_are_known_by_the_words_people_use() {
        let read = |text: &str| IllnessSaid::read(text).unwrap().0;
        assert_eq!(read("Clubroot"), Illness::Clubroot);
        assert_eq!(read("club root"), Illness::Clubroot);
        assert_eq!(read("white mold"), Illness::WhiteMould);
        assert_eq!(read("Verticillium"), Illness::VerticilliumWilt);
        assert_eq!(read("powdery-mildew"), Illness::LeafSpot);
        assert_eq!(read("don\u{2019}t know"), Illness::NotKnown);
        assert_eq!(read("dont-know"), Illness::NotKnown);
        assert!(IllnessSaid::read("the lurgy").is_err());
        for illness in Illness::ALL {
            assert_eq!(read(illness.word()), *illness);
        }
    }

    #[test]
    fn the_family_that_was_sick_is_known_by_the_illness_or_by_what_was_laid() {
        let crop = |name: &str| crate::catalogue::crop(name).ok().unwrap();
        let laid = || [Family::Cabbage, Family::Bean].into_iter();
        let same = |name, illness| same_family(crop(name), illness, laid());
        assert_eq!(same("kale", None), Some(Family::Cabbage));
        assert_eq!(same("pea", Some(Illness::Wilt)), Some(Family::Bean));
        assert_eq!(same("pea", Some(Illness::Clubroot)), None);
        assert_eq!(same("radish", Some(Illness::Clubroot)), Some(Family::Cabbage));
        assert_eq!(same("leek", Some(Illness::WhiteRot)), Some(Family::Onion));
        assert_eq!(same("lettuce-leaf", None), None);
        // White mould takes nearly everything but corn and onions.
        assert_eq!(same("lettuce-leaf", Some(Illness::WhiteMould)), Some(Family::Lettuce));
        assert_eq!(same("sweet-corn", Some(Illness::WhiteMould)), None);
        // Either half of a mixture counts.
        assert_eq!(
            same_family(crop("pea-oat"), None, [Family::Grass].into_iter()),
            Some(Family::Grass)
        );
    }

    /// Seven years or more of clubroot, longer of white rot (growers' pages).
    #[test]
    fn what_lasts_longest_is_white_rot() {
        let least = |illness: Illness| illness.years().map_or(0, |years| years.least);
        assert!(
            least(Illness::Clubroot) >= 7 && least(Illness::WhiteRot) > least(Illness::Clubroot)
        );
        for illness in Illness::ALL {
            assert!(
                illness
                    .years()
                    .is_none_or(|years| years.most.is_none_or(|most| most >= years.least))
            );
        }
        assert_eq!(Years { least: 1, most: None }.told(), "a season or more");
    }
}
