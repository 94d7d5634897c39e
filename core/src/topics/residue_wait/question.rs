//! The question as it comes, and as it is read.

use super::{
    balance::Placement,
    check_in::Left,
    clock::Moisture,
    limits::{Plan, Sign, Slugs},
    materials::{Amount, Material, Stage, State},
    soil::SoilKnown,
    stops::{Flag, Illness},
};
use crate::{
    bed::{BedAsked, Meant},
    catalogue::{Crop, KnownCrop},
    given::{Control, Given, Readable, Text, asked, words},
    place::{
        known_soil::SoilAsked,
        site::{Site, SiteAsked},
    },
    quantity::{Area, Length, Unreadable, number::read_number},
};
use chrono::NaiveDate;

words! {
    /// How small the pieces are.
    pub enum Chop {
        /// Whole plants.
        Whole = "whole" => "whole plants",
        /// Cut up by hand.
        Hand = "hand" => "cut by hand",
        /// Shredded or mown.
        Fine = "fine" => "shredded or mown",
    }
}

words! {
    /// How it smells when lifted.
    pub enum Smell {
        /// Of earth.
        Earth = "earth" => "earth",
        /// Of cut grass or fresh leaves.
        Fresh = "fresh" => "cut grass, fresh leaves",
        /// Sour.
        Sour = "sour" => "something sour",
        /// Of ammonia.
        Ammonia = "ammonia" => "ammonia",
        /// Of rotten cabbage.
        Cabbage = "cabbage" => "rotten cabbage",
    }
}

impl Smell {
    /// Whether it rots without air.
    pub(super) fn is_foul(self) -> bool {
        matches!(self, Self::Sour | Self::Ammonia | Self::Cabbage)
    }
}

words! {
    /// Worms and their casts under it.
    pub enum Worms {
        /// None seen.
        None = "none" => "none",
        /// One here and there.
        Few = "few" => "a few",
        /// Plenty.
        Many = "many" => "plenty, with casts",
    }
}

asked! {
    /// When can this bed be planted?
    pub struct Asked {
        /// The day it was chopped and laid; today if absent.
        laid: Given<NaiveDate> = "Laid or dug in on",
        /// The bed, by its name in the record or described.
        bed: Option<BedAsked> = "Bed",
        /// The area it lies on, in place of a bed.
        area: Given<Area> = "Area it lies on",
        /// What was laid.
        materials: Vec<MaterialAsked> = "",
        /// Anything sick, in seed, running, or perhaps carrying weedkiller.
        flags: Vec<Given<Flag>> = "Diseased, seeding, or spreading by root?",
        /// Which sickness, where it is known.
        illness: Given<Illness> = "Which sickness",
        /// On top, or dug in.
        placement: Given<Placement> = "It lies",
        /// How wet it is.
        moisture: Given<Moisture> = "It is",
        /// What lies over it, such as burlap or a tarp.
        cover: Given<Text> = "What lies over it" [
            "burlap" => "burlap",
            "cardboard" => "cardboard",
            "tarp" => "a tarp",
            "cloth" => "a cloth or fleece",
        ],
        /// How deep compost was spread over it.
        compost: Given<Length> = "Compost over it" as Control::Text,
        /// The part of the bed it lies on, such as "left half": half its area. The whole if absent.
        part: Given<Text> = "Where",
        /// How small the pieces are.
        chop: Given<Chop> = "The pieces",
        /// The soil's temperature: one for all days, or readings by date.
        soil_temperature: SoilAsked = "Soil, if measured",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// Slugs under a baited trap after one night.
        slugs: Given<PerTrap> = "Slugs in a trap overnight",
        /// Young plants, or seed.
        plan: Given<Plan> = "Then come",
        /// The next crop.
        crop: Given<KnownCrop> = "Crop",
        /// Whether seedlings have rotted off in this bed before.
        damping_off: Given<bool> = "Seedlings rotted off here before" ["yes" => "yes"],
        /// Looks at the bed since.
        check_ins: Vec<CheckInAsked>,
        /// Two parts of the bed that were treated differently.
        halves: Vec<HalfAsked>,
    }
}

asked! {
    /// One material.
    pub struct MaterialAsked {
        /// What it is: a catalogue id or a plain name.
        residue: Given<Text> = "What was chopped",
        /// How much: a weight, a heap or a depth.
        amount: Given<Amount> = "How much",
        /// Fresh or dry.
        state: Given<State> = "It was",
        /// Soft, mixed or woody.
        stage: Given<Stage> = "It was",
    }
}

asked! {
    /// A look at the bed.
    pub struct CheckInAsked {
        /// The day.
        date: Given<NaiveDate>,
        /// How much can still be recognised: all, most, half, some, traces, or a share.
        left: Given<Left>,
        /// How it smells.
        smell: Given<Smell>,
        /// Worms and their casts under it.
        worms: Given<Worms>,
        /// Slugs in a baited trap after one night.
        slugs: Given<PerTrap>,
        /// Of 20 seeds in a jar of this bed's soil, how many came up.
        jar: Given<u32>,
        /// Of 20 seeds in a jar of plain mix, how many came up.
        jar_plain: Given<u32>,
    }
}

asked! {
    /// A part of the bed.
    pub struct HalfAsked {
        /// What it is called.
        name: Given<Text>,
        /// What lies on it, on half the area; as the rest if absent.
        materials: Vec<MaterialAsked>,
        /// On top, or dug in; as the rest if absent.
        placement: Given<Placement>,
        /// How wet it is; as the rest if absent.
        moisture: Given<Moisture>,
        /// What lies over it.
        cover: Given<Text>,
        /// Looks at this part.
        check_ins: Vec<CheckInAsked>,
    }
}

/// Slugs under a trap: a count, or the mean of several.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct PerTrap(f64);

impl PerTrap {
    /// Slugs a trap.
    pub(crate) fn get(self) -> f64 {
        self.0
    }
}

impl Readable for PerTrap {
    const CONTROL: Control = Control::Count;

    fn allowed() -> String {
        "how many slugs a trap held, such as 3".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let slugs = read_number(text)?;
        if (0.0..=1000.0).contains(&slugs) {
            return Ok(Self(slugs));
        }
        Err(Unreadable { allowed: Self::allowed(), why: "no trap holds that".to_owned() })
    }
}

/// The question read.
pub(super) struct Question {
    pub(super) laid: NaiveDate,
    pub(super) today: NaiveDate,
    pub(super) bed: Option<Meant>,
    pub(super) area: Area,
    pub(super) area_guessed: bool,
    pub(super) materials: Vec<Material>,
    pub(super) flags: Vec<Flag>,
    pub(super) illness: Option<Illness>,
    pub(super) placement: Placement,
    pub(super) moisture: Moisture,
    pub(super) cover: Option<String>,
    pub(super) compost: Option<Length>,
    pub(super) part: Option<String>,
    pub(super) chop: Option<Chop>,
    /// Whether there is chopping to be careful with: said now, or still to be done.
    pub(super) chops: bool,
    pub(super) soil: SoilKnown,
    pub(super) site: Site,
    pub(super) plan: Plan,
    pub(super) crop: Option<&'static Crop>,
    pub(super) damping_off: bool,
    pub(super) seen: Seen,
    pub(super) halves: Vec<Half>,
}

/// What was found at the bed since it was covered.
#[derive(Default)]
pub(super) struct Seen {
    pub(super) looks: Vec<(NaiveDate, Left)>,
    pub(super) signs: Vec<Sign>,
    /// The last count of slugs.
    pub(super) slugs: Option<Slugs>,
    /// The last day on which worms were looked for, and how many there were.
    pub(super) worms: Option<(NaiveDate, Worms)>,
}

impl Question {
    /// Whether anything keeps it damp.
    pub(super) fn is_covered(&self) -> bool {
        self.cover.is_some() || self.compost.is_some()
    }
}

/// A part of the bed, read.
pub(super) struct Half {
    pub(super) name: String,
    /// What lies on it, where that differs from the rest.
    pub(super) materials: Vec<Material>,
    pub(super) placement: Placement,
    pub(super) moisture: Moisture,
    pub(super) seen: Seen,
}
