//! What is told of the salt.

use uom::si::{mass::gram, thermodynamic_temperature::degree_fahrenheit};

use super::{question::Question, salt::Cut};
use crate::{
    quantity::{Mass, Quantity, System, Temperature, number::show_number},
    source::Source,
    telling::{Sure, Telling},
};

/// How much, and how the ferment should then go.
pub(super) fn tell(question: &Question, salt: Mass, system: System) -> Telling {
    let Question { weight, water, .. } = *question;
    let percent = question.percent.number();
    let [least, most] = question.cut.usual_percents();
    let grams = show_number(salt.get::<gram>(), if salt.get::<gram>() < 100.0 { 1 } else { 0 });
    let mut telling = Telling::new(
        format!("{grams} g of salt"),
        if question.percent_given { Sure::High } else { Sure::Fair },
    );
    let share = show_number(percent, 2);
    telling.because.push(if water > Mass::new::<gram>(0.0) {
        format!(
            "{share} % of {} of vegetable and {} of water.",
            weight.show(system),
            water.show(system)
        )
    } else {
        format!("{share} % of {}.", weight.show(system))
    });
    if !question.is_usual() {
        let side = if percent < least { "less" } else { "more" };
        let why = if percent < least { "it may spoil or turn soft" } else { "it may not sour" };
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
    telling.look_for.push(match question.cut {
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
    telling.source(match question.cut {
        Cut::Shredded => Source::MichiganSauerkraut,
        Cut::Whole => Source::UsdaDillPickles,
    });
    if !question.percent_given {
        telling.source(Source::HouseholdMeasures);
    }
    telling
}
