//! What is asked, and how it is read.

use uom::si::mass::gram;

use super::salt::Cut;
use crate::{
    catalogue::crops,
    given::{Faults, Given, Readable, Text, asked},
    harvest::measures::Percent,
    quantity::Mass,
    text::{parted, small},
};

asked! {
    /// How much salt does this ferment take?
    pub struct Asked {
        /// What is fermented: "cabbage", "whole cucumbers", "shredded carrots".
        vegetable: Given<Text> = "What",
        /// What it weighs, trimmed.
        vegetable_mass: Given<Mass> = "What it weighs, trimmed",
        /// What the water weighs that it lies in; needed for whole vegetables.
        water_mass: Given<Mass> = "What its water weighs",
        /// Salt in percent of vegetable and water; the usual for the vegetable if absent.
        percent: Given<Percent> = "Salt, percent",
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
        let mass = |given: &Given<Mass>, least: f64, faults: &mut Faults| {
            let limits = "1 g to 500 kg";
            given.within(Mass::new::<gram>(least), Mass::new::<gram>(500_000.0), limits, faults)
        };
        if !self.vegetable_mass.is_given() {
            self.vegetable_mass.need(faults);
        }
        let weight = mass(&self.vegetable_mass, 1.0, faults);
        let water = mass(&self.water_mass, 0.0, faults);
        let given = self.percent.text().map(|_| percent(&self.percent, faults));
        let Text(name) = vegetable?;
        let cut = cut(&name);
        if cut == Cut::Whole && !self.water_mass.is_given() {
            self.water_mass.refuse(
                faults,
                Mass::allowed(),
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
