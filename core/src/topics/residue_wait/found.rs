//! What is found of a covered bed: all that its words are made from.

use chrono::NaiveDate;
use uom::si::mass::gram;

use super::{
    answer::{Answer, ProductAmount},
    feeding,
    limits::{Next, holds_nitrogen},
    materials::Mixture,
    question::Question,
    way_round::Way,
};
use crate::{catalogue::Product, quantity::Mass, season::Reason};

/// Everything the words are made from.
pub(super) struct Found<'a> {
    pub(super) asked: &'a Question,
    pub(super) next: Next,
    pub(super) mixture: Option<&'a Mixture>,
    /// What was laid is too little to matter.
    pub(super) little: bool,
    /// Why the crop's season is not there yet.
    pub(super) why_not: Option<Reason>,
    /// The day that "today" means for planting: not before it was laid.
    pub(super) from: NaiveDate,
    pub(super) way: Option<Way>,
    pub(super) answer: &'a Answer,
}

/// Less of a product is not told: half an ounce.
const LEAST_G: f64 = 14.0;

/// The weight of a product that makes up for so much; nothing where no safe weight does.
pub(super) fn amount(
    product: &Product,
    question: &Question,
    need: uom::si::f64::ArealMassDensity,
) -> Option<ProductAmount> {
    let dose =
        feeding::dose(need, question.area, product.nitrogen_share(), product.available_share())?;
    // So little is not worth an errand.
    if (dose.now + dose.later).get::<gram>() < LEAST_G {
        return None;
    }
    let grams = |mass: Mass| rounded(mass.get::<gram>(), 10.0);
    Some(ProductAmount {
        product: product.id(),
        name: product.name(),
        g: grams(dose.now),
        later_g: grams(dose.later),
        told: String::new(),
        caution: product.caution(),
    })
}

/// Whether the mixture holds nitrogen that matters.
pub(super) fn holds(found: &Found<'_>) -> bool {
    found
        .mixture
        .is_some_and(|mixture| holds_nitrogen(mixture.load.ratio.likely, found.asked.placement))
}

pub(super) fn rounded(value: f64, steps: f64) -> f64 {
    let rounded = (value * steps).round() / steps;
    // Zero is never written with a minus.
    if rounded == 0.0 { 0.0 } else { rounded }
}
