//! What is asked, and how it is read.

use uom::si::{
    mass::{gram, kilogram},
    volume::liter,
};

use super::salt::Cut;
use crate::{
    catalogue::crops,
    given::{Control, Faults, Given, Readable, Text, asked},
    harvest::measures::Percent,
    quantity::{Mass, Quantity, Unreadable, Volume},
    text::{parted, small},
};

asked! {
    /// How much salt does this ferment take?
    pub struct Asked {
        /// What is fermented: "cabbage", "whole cucumbers", "shredded carrots".
        vegetable: Given<Text> = "What",
        /// What it weighs, trimmed.
        vegetable_mass: Given<Mass> = "What it weighs, trimmed",
        /// What the water weighs that it lies in, or how much of it there is; needed for whole vegetables.
        water_mass: Given<Water> = "What its water weighs",
        /// Salt in percent of vegetable and water; the usual for the vegetable if absent.
        percent: Given<Percent> = "Salt, percent",
    }
}

/// Water, by its weight or its volume: a litre of it weighs a kilogram.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Water(Mass);

impl Readable for Water {
    const CONTROL: Control = <Mass as Readable>::CONTROL;

    fn allowed() -> String {
        "a weight or a volume of water such as 2 lb, 1 kg, 1 quart or 1 litre".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let volume = <Volume as Quantity>::read(text).ok();
        let weight = volume.map(|volume| Mass::new::<kilogram>(volume.get::<liter>()));
        let read = weight.map_or_else(|| <Mass as Quantity>::read(text), Ok);
        let water = read.map_err(|why| Unreadable { allowed: Self::allowed(), ..why })?;
        Ok(Self(water))
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question {
    /// What the vegetable weighs.
    pub(super) weight: Mass,
    /// What the water weighs that it lies in.
    pub(super) water: Mass,
    pub(super) percent: Percent,
    /// Whether the percent were said.
    pub(super) percent_given: bool,
    pub(super) cut: Cut,
}

impl Question {
    /// Whether printed recipes use as much salt.
    pub(super) fn is_usual(&self) -> bool {
        let [least, most] = self.cut.usual_percents();
        (least..=most).contains(&self.percent.number())
    }
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, faults: &mut Faults) -> Option<Question> {
        let vegetable = self.vegetable.need(faults);
        let [nothing, least, most] = [0.0, 1.0, 500_000.0].map(Mass::new::<gram>);
        const LIMITS: &str = "1 g to 500 kg";
        if !self.vegetable_mass.is_given() {
            self.vegetable_mass.need(faults);
        }
        let weight = self.vegetable_mass.within(least, most, LIMITS, faults);
        let water = self.water_mass.within(Water(nothing), Water(most), LIMITS, faults);
        let water = water.map(|Water(mass)| mass);
        let given = self.percent.text().map(|_| percent(&self.percent, faults));
        let Text(name) = vegetable?;
        let cut = cut(&name);
        if cut == Cut::Whole && !self.water_mass.is_given() {
            self.water_mass.refuse(
                faults,
                Water::allowed(),
                "whole vegetables lie in brine, so the water must be weighed; say \"shredded\" if it is cut fine",
            );
        }
        let percent_given = given.is_some();
        let given = match given {
            Some(given) => Some(given?),
            None => None,
        };
        let percent = given.or_else(|| Percent::new(cut.usual_percent()))?;
        let water = match cut {
            Cut::Whole => water?,
            Cut::Shredded => water.unwrap_or_default(),
        };
        Some(Question { weight: weight?, water, percent, percent_given, cut })
    }
}

/// What makes its own brine when it is shredded, and commonly is, beside the catalogue's crops that do.
const SHREDDED: [&str; 1] = ["kraut"];

/// Words that say it lies whole, or in pieces, in water.
const WHOLE_WORDS: [&str; 5] = ["whole", "halves", "halved", "pieces", "spears"];

/// Words that say it is cut so fine that it makes its own brine.
const SHREDDED_WORDS: [&str; 5] = ["shredded", "grated", "sliced", "chopped", "pounded"];

/// How a vegetable of this name lies in its salt.
fn cut(name: &str) -> Cut {
    let name = small(name);
    let says = |words: &[&str]| words.iter().any(|word| parted(&name, word).is_some());
    if says(&WHOLE_WORDS) {
        Cut::Whole
    } else if says(&SHREDDED_WORDS) || says(&SHREDDED) || is_shredded_crop(&name) {
        Cut::Shredded
    } else {
        Cut::Whole
    }
}

fn is_shredded_crop(name: &str) -> bool {
    let mut shredded = crops().iter().filter(|crop| crop.makes_own_brine());
    shredded.any(|crop| parted(name, crop.id()).is_some())
}

/// Reads a share of salt, in percent: 2.25 or "2.25 %". Here a number below 1 is a number of percent
/// all the same, since nobody salts half of a ferment.
fn percent(given: &Given<Percent>, faults: &mut Faults) -> Option<Percent> {
    let text = given.text()?;
    let with_sign =
        if text.bytes().any(|byte| byte == b'%') { text.to_owned() } else { format!("{text} %") };
    let read = Percent::read(&with_sign).ok();
    let percent = read.filter(|percent| (0.1..=25.0).contains(&percent.number()));
    if percent.is_none() {
        given.refuse(faults, "0.1 to 25 percent, such as 2.25", "that is no share of salt");
    }
    percent
}
