//! The words a crop is described with.
//!
//! The build script reads the tables in `core/data` with these same types, so a word that is not
//! here is refused there, with its line. What a class means in figures stands in
//! `core/data/classes.toml`; its methods are in [`super::class`].

use serde::{Deserialize, Serialize};

/// What a crop is grown for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Leaves, roots, fruits or seeds to eat.
    Vegetable,
    /// Leaves to season with.
    Herb,
    /// Flowers, to cut or for the bed's sake.
    Flower,
    /// Sown to cover and feed the soil.
    Cover,
}

/// When a crop shoots up to flower before, or after, it can be picked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bolts {
    /// In long days.
    LongDays,
    /// In the spring after.
    Spring,
}

/// Plant family, for rotation: one disease or pest often takes the whole family.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Family {
    /// Asparagaceae.
    Asparagus,
    /// Basellaceae: Malabar spinach.
    Basella,
    /// Fabaceae: beans, peas, clovers, vetch.
    Bean,
    /// Amaranthaceae: beet, chard, spinach.
    Beet,
    /// Convolvulaceae: sweet potato.
    Bindweed,
    /// Boraginaceae: borage, phacelia.
    Borage,
    /// Polygonaceae: buckwheat, rhubarb, sorrel.
    Buckwheat,
    /// Ranunculaceae: larkspur, nigella.
    Buttercup,
    /// Brassicaceae: cabbage, kale, radish, sweet alyssum.
    Cabbage,
    /// Apiaceae: carrot, celery, dill.
    Carrot,
    /// Poaceae: sweet corn, rye, oats.
    Grass,
    /// Ericaceae: blueberry.
    Heath,
    /// Aizoaceae: New Zealand spinach.
    IcePlant,
    /// Iridaceae: crocus.
    Iris,
    /// Asteraceae: lettuce, endive, marigold, zinnia.
    Lettuce,
    /// Liliaceae: tulip.
    Lily,
    /// Malvaceae: okra.
    Mallow,
    /// Lamiaceae: mint, basil, sage.
    Mint,
    /// Tropaeolaceae.
    Nasturtium,
    /// Amaryllidaceae: onion, garlic, leek.
    Onion,
    /// Plantaginaceae: snapdragon, foxglove.
    Plantain,
    /// Papaveraceae: poppy.
    Poppy,
    /// Montiaceae: claytonia.
    Purslane,
    /// Rosaceae: strawberry, raspberry.
    Rose,
    /// Cucurbitaceae: cucumber, squash, melon.
    Squash,
    /// Solanaceae: tomato, potato, pepper, petunia.
    Tomato,
    /// Caprifoliaceae: corn salad.
    Valerian,
    /// Violaceae: pansy.
    Violet,
}

/// What goes into the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Start {
    /// Seed, where it is to grow.
    Sow,
    /// A young plant raised elsewhere.
    Transplant,
    /// A clove of a bulb.
    Clove,
    /// A small bulb grown for planting.
    Set,
    /// A tuber, or a piece of one.
    Tuber,
    /// A rooted shoot.
    Slip,
    /// A dormant rootstock.
    Crown,
    /// A part of an old plant.
    Division,
}

/// How a plant stands beside the bed's side, and so how near it may be planted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Habit {
    /// Small, or held up: stays inside.
    Upright,
    /// Neither small nor sprawling.
    Usual,
    /// Falls or runs over the side.
    Floppy,
}

/// How a plant looks from above, in the drawing of a bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Seen {
    /// Broad leaves round a head.
    Head,
    /// A rosette of smooth leaves.
    Leafy,
    /// Cut or curled leaves.
    Frilly,
    /// Long narrow blades.
    Blade,
    /// Leaves of three.
    Bean,
    /// Fine cut tops.
    Root,
    /// Large leaves over fruit.
    Fruit,
    /// A flower or a bushy herb.
    Bloom,
}

/// Height when grown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Height {
    /// Under a foot.
    Low,
    /// One to two feet.
    Medium,
    /// Two to four feet.
    Tall,
    /// Over four feet.
    VeryTall,
}

/// Spread when grown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Spread {
    /// Under a foot.
    Narrow,
    /// One to two feet.
    Medium,
    /// Two to four feet.
    Wide,
    /// A vine or a sprawler: over four feet unless it is trained up.
    Sprawling,
}

/// How much a crop feeds. Between the three published classes stand the two that publications
/// give as a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Feeder {
    /// Thrives on little.
    Light,
    /// Published as light to medium.
    LightToMedium,
    /// Wants ordinary feeding.
    Medium,
    /// Published as medium to heavy.
    MediumToHeavy,
    /// Wants rich soil or feeding as it grows.
    Heavy,
}

/// How a crop is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pick {
    /// The whole plant, or its one head or root, at once.
    Once,
    /// Again and again, as it goes on bearing.
    Repeat,
    /// Leaves are cut and grow again.
    Cut,
}

/// What frost does to the leaves, from the tenderest to the hardiest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hardiness {
    /// Hurt by cold well above freezing.
    Chilling,
    /// One light frost ends it.
    Tender,
    /// Comes through light frosts.
    HalfHardy,
    /// Comes through hard frosts.
    Hardy,
    /// Lives through a mild winter outdoors.
    VeryHardy,
}

/// How much cold a young plant may meet while it is getting used to outdoors. The number in a
/// tender class is its lowest air, degrees Fahrenheit, as it was published.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hardening {
    /// Takes light frost once used to outdoors.
    Hardy,
    /// Takes a touch of frost once used to outdoors.
    HalfHardy,
    /// No frost; squash and sweet corn.
    #[serde(rename = "tender-50")]
    Tender50,
    /// No frost; cucumber and melon.
    #[serde(rename = "tender-60")]
    Tender60,
    /// No frost; tomato, pepper and basil.
    #[serde(rename = "tender-65")]
    Tender65,
}

/// Whether a stem may go deeper into the soil than it grew.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Deeper {
    /// Yes, and it gains by it.
    Yes,
    /// As far as the seed leaves.
    ToSeedLeaves,
    /// No: the stem rots, or the bulb is buried.
    No,
    /// No: the growing point must stay above the soil.
    NeverBuryCrown,
}

/// What too many weeks of cold do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ColdHarm {
    /// It runs to seed.
    Bolts,
    /// Heads form at once and stay tiny.
    Buttons,
}
