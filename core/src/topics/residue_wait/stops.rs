//! What must not be left in a bed at all, and what to do with it instead.
//!
//! Sources: plant disease clinics of Wisconsin (2017), Delaware (2008), Minnesota (2015) and Kentucky
//! (1998); garden pages on clubroot. White rot, pasture weedkillers and walnut are from memory, the
//! rest is common practice.

use super::illness::{Illness, Years, members, same_family};
use crate::{
    catalogue::{Crop, Family, Watch},
    given::words,
    text::small,
};

words! {
    /// Something seen in the material before it was laid.
    pub enum Flag {
        /// Sick plants.
        Diseased = "diseased" => "Sick: spots, rot, wilt, knotted roots",
        /// Seed heads or ripe seed.
        InSeed = "in-seed" => "In seed",
        /// Runners, or roots and stumps that grow again.
        Running = "running" => "Running: bindweed, couch, mint, stumps that sprout",
        /// Straw, hay or manure that may carry a weedkiller.
        Herbicide = "herbicide" => "Straw, hay or manure that may carry weedkiller",
        /// Leaves, husks or wood of black walnut.
        Walnut = "walnut" => "Black walnut",
    }
}

/// Why nothing of a family goes in here, and for how long.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Stop {
    /// Why, in words.
    pub why: String,
    /// For how many years; null where that is not known.
    pub years: Option<Years>,
}

/// What forbids the crop asked for; `None` where nothing does.
pub(super) fn stop(
    crop: &Crop,
    flags: &[Flag],
    illness: Option<Illness>,
    laid: &mut dyn Iterator<Item = Family>,
) -> Option<Stop> {
    let name = small(crop.name());
    if flags.contains(&Flag::Diseased)
        && let Some(family) = same_family(crop, illness, laid)
    {
        let what = illness.and_then(Illness::name).unwrap_or("what made those plants sick");
        let years = illness.and_then(Illness::years);
        let last = years
            .map_or_else(|| "for some years".to_owned(), |years| format!("for {}", years.told()));
        let why = format!(
            "No {name} here {last}: {what} stays in the ground and takes the whole {} family ({}).",
            family.called(),
            members(family)
        );
        return Some(Stop { why, years });
    }
    (flags.contains(&Flag::Herbicide) && weedkiller_harms(crop)).then(|| Stop {
        why: format!(
            "No {name} here for a season or more, until three beans have grown well for three weeks in a pot of this soil: weedkiller in hay, straw or manure harms the bean, tomato and lettuce families most."
        ),
        years: Some(Years { least: 1, most: None }),
    })
}

/// Whether weedkiller of pastures harms a crop most (from memory).
pub(crate) fn weedkiller_harms(crop: &Crop) -> bool {
    matches!(crop.family(), Family::Bean | Family::Tomato | Family::Lettuce)
}

/// What to do first, as a verdict.
pub(super) fn verdict(flags: &[Flag]) -> Option<&'static str> {
    let has = |flag| flags.contains(&flag);
    if has(Flag::Diseased) {
        Some("Take the sick plants out first")
    } else if has(Flag::Running) {
        Some("Pull the runners out first")
    } else if has(Flag::InSeed) {
        Some("Cut the seed heads off first")
    } else if has(Flag::Herbicide) {
        Some("Try it on beans first")
    } else if has(Flag::Walnut) {
        Some("Take the walnut out first")
    } else {
        None
    }
}

/// What is wrong with it, and what to do instead.
pub(super) fn stops(flags: &[Flag], illness: Option<Illness>) -> Vec<&'static str> {
    let mut stops: Vec<&'static str> = Vec::new();
    if flags.contains(&Flag::Diseased) || illness.is_some() {
        stops.push(match illness {
            Some(Illness::Clubroot) => {
                "Clubroot: lift the roots whole and bin or burn them; chopped up they let go spores that last 10 to 20 years. Lime to pH 7.2 or more, gloves and glasses on, plant nothing of the cabbage family here, weed out its wild kin (shepherd's purse, charlock), and clean tools and boots before they go to another bed."
            }
            Some(Illness::WhiteRot) => {
                "White rot: bin the plants and the soil that clings to them; its black specks last 20 years and more. No garlic, onion or leek in this bed; clean tools and boots before they go to another."
            }
            Some(Illness::Blight) => {
                "Blight: bin tops and fruit, neither bury nor compost them at home; dig out every potato that comes up by itself."
            }
            Some(
                Illness::Wilt
                | Illness::FusariumWilt
                | Illness::VerticilliumWilt
                | Illness::WhiteMould
                | Illness::SouthernBlight,
            ) => {
                "Wilt and root rots: bin the whole plant with its roots; home compost does not kill them. Nothing of the same family here for some years; clean tools and boots before they go to another bed."
            }
            Some(Illness::LeafSpot) => {
                "Leaf spots: in a small bed take leaves, stems and fruit away, or compost them hot; left here they wait for the next crop of the family."
            }
            Some(Illness::Nematodes) => {
                "Root-knot: lift the roots whole and bin them; corn, grasses and onions starve the worms, resistant kinds stand them. Clean tools and boots before they go to another bed."
            }
            Some(Illness::Virus) => {
                "Virus: bin the plants, not the compost; it lives in plants and weeds of the family and is carried by insects, hands and knives. Wash them."
            }
            Some(Illness::NotKnown) | None => {
                "Sick plants: if you don't know what it is, bin them with their roots. Only spots on leaves may go into a hot compost."
            }
        });
    }
    // In the order of the verdict, whatever order they are told in.
    let worst_first = [Flag::Running, Flag::InSeed, Flag::Herbicide, Flag::Walnut];
    for flag in worst_first.iter().filter(|flag| flags.contains(flag)) {
        stops.push(match flag {
            Flag::Diseased => continue,
            Flag::InSeed => {
                "Seed: cut the seed heads off and bin them, or you weed them for years; the rest of the plant may stay."
            }
            Flag::Running => {
                "Runners and resprouters (bindweed, couch grass, mint, horsetail, nutsedge, potato, comfrey root; stumps of cabbage and chard, live rye and clover): every piece grows again. Pull them, dry them crisp in the sun or bin them; cut stumps below the crown."
            }
            Flag::Herbicide => {
                "Weedkiller: hay, straw or manure off a sprayed pasture harms beans, peas, tomatoes and potatoes for a season or more. Grow three beans for three weeks in a pot of soil mixed with it: curled or cupped leaves mean don't use it, compost it or pass it on; lay clean leaves or straw instead."
            }
            Flag::Walnut => {
                "Black walnut: its juglone harms tomato, pepper, potato and the cabbage family. Leave it out of the beds: bin it, or lay it where no vegetables grow."
            }
        });
    }
    stops
}

/// What to look for in a material that often carries something.
pub(super) fn look_for(watch: Watch) -> &'static str {
    match watch {
        Watch::Clubroot => {
            "Pull one root of the cabbage family: knotted and swollen is clubroot and must not stay."
        }
        Watch::Blight => {
            "Brown greasy patches on leaves and stems, white down beneath: blight must not stay."
        }
        Watch::WhiteRot => {
            "White fluff or black specks at the base of onion or garlic: white rot must not stay."
        }
        Watch::Seeds => "Seed heads: cut them off before the rest is laid.",
        Watch::Resprouts => "Stumps, crowns and root pieces: pull them, or they grow on.",
        Watch::Weedkiller => {
            "Ask whether the field or lawn was sprayed; if nobody knows, try it on three beans in a pot for three weeks."
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sickness_comes_before_everything_else() {
        assert_eq!(
            verdict(&[Flag::InSeed, Flag::Diseased]),
            Some("Take the sick plants out first")
        );
        assert_eq!(verdict(&[]), None);
    }

    #[test]
    fn every_flag_says_what_to_do_instead() {
        for flag in Flag::ALL {
            assert_eq!(stops(&[*flag], None).len(), 1);
            assert!(verdict(&[*flag]).is_some());
        }
        for illness in Illness::ALL {
            assert_eq!(stops(&[Flag::Diseased], Some(*illness)).len(), 1);
        }
    }
}
