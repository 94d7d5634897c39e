//! Topic `salt-for-fermenting`: how much salt, by weight.
//!
//! Model: [`salt`](salt). Whole vegetables lie in brine, so their water must be weighed too.

pub mod salt;

use uom::si::{mass::gram, thermodynamic_temperature::degree_fahrenheit};

use self::salt::{Cut, salt};
use crate::{
    asking::Asking,
    catalogue::crops,
    given::{Faults, Given, Readable, Text, asked},
    harvest::measures::Percent,
    quantity::{Mass, Quantity, Temperature, number::show_number},
    source::Source,
    telling::{Sure, Telling},
    text::{parted, small},
};

asked! {
    /// How much salt does this ferment take?
    pub struct Asked {
        /// What is fermented: "cabbage", "whole cucumbers", "shredded carrots".
        vegetable: Given<Text>,
        /// What it weighs, trimmed.
        vegetable_mass: Given<Mass>,
        /// What the water weighs that it lies in; needed for whole vegetables.
        water_mass: Given<Mass>,
        /// Salt in percent of vegetable and water; the usual for the vegetable if absent.
        percent: Given<Percent>,
    }
}

/// The salt.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// Salt, grams.
    pub salt_g: f64,
    /// Salt in percent of vegetable and water.
    pub percent: f64,
    /// Whether that lies inside what printed recipes use.
    pub usual: bool,
}

/// What makes its own brine when it is shredded, and commonly is, beside the catalogue's crops that do.
const SHREDDED: [&str; 2] = ["kraut", "celeriac"];

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

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let vegetable = asked.vegetable.need(faults);
    let mass = |given: &Given<Mass>, least: f64, faults: &mut Faults| {
        let limits = "1 g to 500 kg";
        given.within(Mass::new::<gram>(least), Mass::new::<gram>(500_000.0), limits, faults)
    };
    if !asked.vegetable_mass.is_given() {
        asked.vegetable_mass.need(faults);
    }
    let weight = mass(&asked.vegetable_mass, 1.0, faults);
    let water = mass(&asked.water_mass, 0.0, faults);
    let given = asked.percent.text().map(|_| percent(&asked.percent, faults));
    let Text(name) = vegetable?;
    let cut = cut(&name);
    if cut == Cut::Whole && !asked.water_mass.is_given() {
        asked.water_mass.refuse(
            faults,
            Mass::allowed(),
            "whole vegetables lie in brine, so the water must be weighed; say \"shredded\" if it is cut fine",
        );
    }
    let given = match given {
        Some(given) => Some(given?),
        None => None,
    };
    let percent = given.or_else(|| Percent::new(cut.usual_percent()))?;
    let water = match cut {
        Cut::Whole => water?,
        Cut::Shredded => water.unwrap_or_default(),
    };
    let weight = weight?;
    let salt = salt(weight, water, percent);
    let [least, most] = cut.usual_range();
    let usual = (least..=most).contains(&percent.number());

    let grams = show_number(salt.get::<gram>(), if salt.get::<gram>() < 100.0 { 1 } else { 0 });
    let mut telling = Telling::new(
        format!("{grams} g of salt"),
        if given.is_some() { Sure::High } else { Sure::Fair },
    );
    let share = show_number(percent.number(), 2);
    let system = asking.system;
    telling.because.push(if water > Mass::new::<gram>(0.0) {
        format!(
            "{share} % of {} of vegetable and {} of water.",
            weight.show(system),
            water.show(system)
        )
    } else {
        format!("{share} % of {}.", weight.show(system))
    });
    if !usual {
        let side = if percent.number() < least { "less" } else { "more" };
        let why =
            if percent.number() < least { "it may spoil or turn soft" } else { "it may not sour" };
        telling.because.push(format!(
            "That is {side} than printed recipes use ({} to {} %): {why}.",
            show_number(least, 1),
            show_number(most, 1)
        ));
        telling.cautions.push(format!(
            "Outside {} to {} % salt a ferment is not safe to rely on.",
            show_number(least, 1),
            show_number(most, 1)
        ));
    }
    telling.because.push("Weigh it: spoons and cups of salt differ by half.".to_owned());
    let warm = |degrees: f64| Temperature::new::<degree_fahrenheit>(degrees).show(system);
    telling.look_for.push(match cut {
        Cut::Shredded => format!(
            "Brine over everything within a day; {} to {} for three to four weeks; bubbles, then a clean sour smell.",
            warm(70.0),
            warm(75.0)
        ),
        Cut::Whole => format!(
            "Everything under the brine; {} to {} for three to four weeks; above {} they turn soft.",
            warm(70.0),
            warm(75.0),
            warm(80.0)
        ),
    });
    telling.cautions.push(
        "Pickling salt without iodine or additives. Soft, slimy, mouldy or bad-smelling: throw it away. For jars, use a tested recipe."
            .to_owned(),
    );
    telling.source(match cut {
        Cut::Shredded => Source::MichiganSauerkraut,
        Cut::Whole => Source::UsdaDillPickles,
    });
    if given.is_none() {
        telling.source(Source::HouseholdMeasures);
    }
    let round = |value: f64| (value * 10.0).round() / 10.0;
    Some((telling, Answer { salt_g: round(salt.get::<gram>()), percent: percent.number(), usual }))
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
