//! Which crop a gardener means by a word.

use super::crop::{Crop, crops};
use super::find::{distance, exact, short};
use super::fold::fold;
use super::sound::soundex;

include!(concat!(env!("OUT_DIR"), "/kinds.rs"));

/// How many crops are offered in place of a name that is none.
pub(super) const OFFERED: usize = 3;

/// What a word for a crop comes to.
#[derive(Clone)]
pub enum Resolved {
    /// It names this one.
    Exact(&'static Crop),
    /// It names several, of which the commonest is taken, or one but for a slip of a letter or two.
    Meant {
        /// The one taken.
        taken: &'static Crop,
        /// What else it may mean.
        others: Vec<&'static Crop>,
    },
    /// It is none that is known; the three nearest, the nearest first.
    Unknown {
        /// By letters, sound and use.
        nearest: Vec<&'static Crop>,
    },
}

/// The crop that a word means: by id, plain name or other name; by a word for several crops
/// (`kinds.toml`); or by one of these but for a slip.
///
/// ```
/// use pegline_core::catalogue::{Resolved, resolve};
/// let Resolved::Meant { taken, .. } = resolve("onoin") else { panic!("onion, but for a slip") };
/// assert_eq!(taken.id(), "onion-bulb");
/// ```
pub fn resolve(name: &str) -> Resolved {
    // As entries have it: nearly always, and many times for one screen.
    if let Some(crop) = exact(name, crops()) {
        return Resolved::Exact(crop);
    }
    let wanted = fold(&short(name));
    let (taken, others) = match kind(&MEANT, &wanted).map(rows) {
        Some(kinds) => (kinds, Vec::new()),
        None => slip(&wanted),
    };
    match taken.split_first() {
        Some((taken, rest)) => {
            Resolved::Meant { taken, others: rest.iter().copied().chain(others).collect() }
        }
        None => Resolved::Unknown { nearest: nearest(&wanted) },
    }
}

type Kinds = [(&'static str, &'static [&'static str])];

fn kind(kinds: &'static Kinds, wanted: &str) -> Option<&'static [&'static str]> {
    kinds.iter().find(|(word, _)| *word == wanted).map(|(_, ids)| *ids)
}

fn rows(ids: &[&str]) -> Vec<&'static Crop> {
    ids.iter().filter_map(|id| crops().iter().find(|crop| crop.id() == *id)).collect()
}

/// All names of a crop, folded, the plain one first.
fn names(crop: &'static Crop) -> impl Iterator<Item = String> {
    [crop.name(), crop.id()].into_iter().chain(crop.also().iter().copied()).map(fold)
}

// ---- A slip ----

/// A slip of one letter is believed from so many letters on: "pear" is no pea.
const ONE_SLIP_FROM: usize = 5;
/// A slip of two; the word must sound the same besides: "mangold" is no marigold.
const TWO_SLIPS_FROM: usize = 7;

/// Letters wrong in a word that is another but for a slip.
fn slips(wanted: &str, name: &str) -> Option<usize> {
    let letters = wanted.chars().count();
    let most = match letters {
        TWO_SLIPS_FROM.. if soundex(wanted) == soundex(name) => 2,
        ONE_SLIP_FROM.. => 1,
        _ => 0,
    };
    let wrong = strsim::osa_distance(wanted, name);
    (wrong <= most).then_some(wrong)
}

/// The crops that a word means but for the fewest slips, commonest first; with them others that it
/// may mean. None where two crops are as near, for then neither is meant more than the other.
fn slip(wanted: &str) -> (Vec<&'static Crop>, Vec<&'static Crop>) {
    let words = MEANT.iter().map(|(word, ids)| (slips(wanted, word), rows(ids)));
    let named = crops().iter().map(|crop| {
        let fewest = names(crop).filter_map(|name| slips(wanted, &name)).min();
        (fewest, vec![crop])
    });
    let near: Vec<(usize, Vec<&'static Crop>)> =
        words.chain(named).filter_map(|(wrong, crops)| Some((wrong?, crops))).collect();
    let Some(fewest) = near.iter().map(|(wrong, _)| *wrong).min() else {
        return Default::default();
    };
    let mut best = near.iter().filter(|(wrong, _)| *wrong == fewest);
    let (Some((_, taken)), None) = (best.next(), best.next()) else {
        return Default::default();
    };
    let others = near.iter().filter(|(wrong, _)| *wrong > fewest).flat_map(|(_, crops)| crops);
    (taken.clone(), others.copied().filter(|crop| !is_among(crop, taken)).collect())
}

fn is_among(crop: &Crop, crops: &[&Crop]) -> bool {
    crops.iter().any(|other| other.id() == crop.id())
}

// ---- The nearest ----

/// What counts for how near a crop is; the less, the nearer. Weights are considered.
const WORD_IS_THERE: usize = 10;
const SOUNDS_ALIKE: usize = 35;
/// A word of another use is so much further off.
const OTHER_FAMILY: usize = 20;
const OTHER_KIND: usize = 6;
/// "Lettuce" means leaf lettuce sooner than miner's lettuce, which is claytonia.
const OTHER_NAME: usize = 3;

/// The three nearest. First those of a word for several crops or for a use that stands in it; then by
/// letters and sound, and, of those about as near, what is of the nearest one's family and kind.
fn nearest(wanted: &str) -> Vec<&'static Crop> {
    let whole = kind(&USED, wanted);
    let of_word = |word: &str| kind(&MEANT, word).or_else(|| kind(&USED, word));
    let used = whole.or_else(|| wanted.split(' ').find_map(of_word));
    let mut offered = used.map(rows).unwrap_or_default();
    let ranked: Vec<(usize, &'static Crop)> =
        crops().iter().map(|crop| (far(wanted, crop), crop)).collect();
    while offered.len() < OFFERED {
        let first = offered.first().copied();
        let use_of = |crop: &Crop| {
            first.map_or(0, |first| {
                OTHER_FAMILY * usize::from(first.family() != crop.family())
                    + OTHER_KIND * usize::from(first.kind() != crop.kind())
            })
        };
        let left = ranked.iter().filter(|(_, crop)| !is_among(crop, &offered));
        // The first of those equally near, in order of their ids.
        let Some((_, next)) = left.min_by_key(|(far, crop)| far + use_of(crop)) else { break };
        offered.push(next);
    }
    offered.truncate(OFFERED);
    offered
}

/// How far a crop's names are from a word, by letters and by sound: 0 where all words begin a name's.
fn far(wanted: &str, crop: &'static Crop) -> usize {
    let each = names(crop).enumerate().map(|(place, name)| {
        // The id says what the plain name says.
        let also = if place < 2 { 0 } else { OTHER_NAME };
        if distance(wanted, &name) == 0 {
            return also;
        }
        let words = wanted.split(' ').flat_map(|word| name.split(' ').map(move |of| (word, of)));
        let by_word = words.map(|(word, of)| match share_wrong(word, of) {
            0 => WORD_IS_THERE,
            share if soundex(word).is_some() && soundex(word) == soundex(of) => {
                share.min(SOUNDS_ALIKE)
            }
            share => share,
        });
        also + by_word.min().unwrap_or(100).min(share_wrong(wanted, &name))
    });
    each.min().unwrap_or(100)
}

/// Letters wrong in a hundred.
fn share_wrong(word: &str, name: &str) -> usize {
    let letters = word.chars().count().max(name.chars().count()).max(1);
    100 * strsim::osa_distance(word, name) / letters
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ids(crops: &[&'static Crop]) -> Vec<&'static str> {
        crops.iter().map(|crop| crop.id()).collect()
    }

    /// The crop taken where one is meant, and the others.
    fn meant(name: &str) -> Option<(&'static str, Vec<&'static str>)> {
        match resolve(name) {
            Resolved::Meant { taken, others } => Some((taken.id(), ids(&others))),
            _ => None,
        }
    }

    fn offered(name: &str) -> Vec<&'static str> {
        match resolve(name) {
            Resolved::Unknown { nearest } => ids(&nearest),
            Resolved::Exact(crop) | Resolved::Meant { taken: crop, .. } => {
                panic!("{name} is {}", crop.id())
            }
        }
    }

    #[test]
    fn a_name_is_taken_as_it_stands() {
        for name in ["cabbage", "Lettuce, leaf", "courgettes", "corn"] {
            assert!(matches!(resolve(name), Resolved::Exact(_)), "{name}");
        }
    }

    #[test]
    fn a_word_for_several_crops_means_the_commonest() {
        assert_eq!(meant("Lettuces"), Some(("lettuce-leaf", vec!["lettuce-head"])));
        let onions = vec!["onion-bunching", "onion-overwintering"];
        // One sort of a crop is that crop.
        assert_eq!(meant("cherry tomatoes"), Some(("tomato", vec![])));
        assert_eq!(meant("onion"), Some(("onion-bulb", onions)));
        assert_eq!(meant("squash"), Some(("squash-summer", vec!["squash-winter"])));
        assert_eq!(meant("capsicum"), Some(("pepper", vec![])));
    }

    #[test]
    fn a_slip_of_a_letter_or_two_is_seen_through() {
        for (name, id) in [
            ("brocolli", "broccoli"),
            ("carot", "carrot"),
            ("cabage", "cabbage"),
            ("galric", "garlic"),
            ("zuchini", "squash-summer"),
            ("letuce leaf", "lettuce-leaf"),
            ("cauliflour", "cauliflower"),
            ("tomatos", "tomato"),
        ] {
            let found = match resolve(name) {
                Resolved::Exact(crop) | Resolved::Meant { taken: crop, .. } => Some(crop.id()),
                Resolved::Unknown { .. } => None,
            };
            assert_eq!(found, Some(id), "{name}");
        }
        // A slip in a word for several is a word for several all the same.
        assert_eq!(meant("letuce"), Some(("lettuce-leaf", vec!["lettuce-head"])));
    }

    /// What people say for what they grow, in the United States, Britain and Australia, and the crop they
    /// mean by it (common practice): the name is taken, as it stands or as the commonest kind.
    #[test]
    fn everyday_names_are_taken() {
        let rows = "lettuce=lettuce-leaf onions=onion-bulb onion=onion-bulb beans=bean-snap-bush \
            bean=bean-snap-bush squash=squash-summer marigold=marigold-french chili=pepper chilli=pepper \
            chile_pepper=pepper chilies=pepper hot_pepper=pepper cherry_tomato=tomato plum_tomatoes=tomato \
            capsicum=pepper silverbeet=chard silver_beet=chard pak_choy=pak-choi bok_choi=pak-choi \
            bok_choy=pak-choi butternut=squash-winter butternut_squash=squash-winter zucchini=squash-summer \
            courgette=squash-summer aubergine=eggplant rocket=arugula beetroot=beet swede=rutabaga \
            coriander=cilantro spring_onion=onion-bunching scallions=onion-bunching sweetcorn=sweet-corn \
            maize=sweet-corn broad_beans=bean-broad fava=bean-broad runner_beans=bean-runner \
            snow_peas=pea mangetout=pea sugar_snaps=pea iceberg_lettuce=lettuce-head romaine=lettuce-head \
            cos_lettuce=lettuce-head red_onion=onion-bulb kidney_beans=bean-snap-bush spuds=potato \
            new_potatoes=potato maincrop_potato=potato lambs_lettuce=corn-salad cantaloupe=melon \
            honeydew=melon peppermint=mint spearmint=mint edamame=soybean black_eyed_peas=cowpea \
            groundnuts=peanut daikon=radish-daikon mooli=radish-daikon gai_lan=broccoli-chinese \
            broccoli_rabe=rapini rapini=rapini sunchoke=artichoke-jerusalem callaloo=amaranth \
            garden_cress=cress camomile=chamomile love_in_a_mist=nigella daffodils=daffodil \
            tulips=tulip cape_gooseberry=ground-cherry perpetual_spinach=chard curly_kale=kale \
            french_beans=bean-snap-bush long_beans=bean-yardlong \
            letuce=lettuce-leaf tomatoe=tomato potatos=potato zuchini=squash-summer brocolli=broccoli \
            cauliflour=cauliflower raddish=radish cucmber=cucumber spinich=spinach asparagas=asparagus \
            parsly=parsley rosemarry=rosemary lavendar=lavender tomatilo=tomatillo artichoque=artichoke \
            rasberry=raspberry bluberry=blueberry horse_radish=horseradish pumkin=pumpkin \
            strawbery=strawberry capsicums=pepper";
        let wrong: Vec<String> = rows
            .split_whitespace()
            .filter_map(|row| {
                let (name, id) = row.split_once('=').unwrap();
                let name = name.replace('_', " ");
                let found = match resolve(&name) {
                    Resolved::Exact(crop) | Resolved::Meant { taken: crop, .. } => crop.id(),
                    Resolved::Unknown { .. } => "unknown",
                };
                (found != id).then(|| format!("{name}: {found}, not {id}"))
            })
            .collect();
        assert_eq!(wrong, Vec::<String>::new());
    }

    #[test]
    fn another_plant_is_no_slip() {
        for name in ["pear", "lemon", "mangold", "lovage", "date", "sea kale", "water spinach"] {
            assert!(meant(name).is_none(), "{name}: {:?}", meant(name));
        }
    }

    #[test]
    fn a_name_that_is_none_brings_what_is_near_by_sound_and_use() {
        assert_eq!(offered("tomatoe plant")[0], "tomato");
        assert_eq!(offered("striped tomato")[0], "tomato");
        assert_eq!(offered("wax bean")[0], "bean-snap-bush");
        assert_eq!(offered("pickling onion")[0], "onion-bulb");
        assert_eq!(offered("broc")[0], "broccoli");
        assert_eq!(offered("salad"), ["lettuce-leaf", "arugula", "corn-salad"]);
        // After the nearest, its own family's come before what is a little nearer by its letters.
        assert_eq!(offered("cutting celery")[..2], ["celery", "celeriac"]);
        // By sound, where the letters are few that agree.
        assert_eq!(offered("kolrobby")[0], "kohlrabi");
    }

    #[test]
    fn nothing_and_nonsense_are_refused() {
        for name in ["", "  ,;", "'", "9", "\u{0}\u{202e}", &"x".repeat(100_000)] {
            assert_eq!(offered(name).len(), OFFERED);
        }
    }

    proptest::proptest! {
        #[test]
        fn any_text_comes_to_something(text in ".*") {
            if let Resolved::Unknown { nearest } = resolve(&text) {
                proptest::prop_assert_eq!(nearest.len(), OFFERED);
            }
        }
    }
}
