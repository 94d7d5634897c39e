//! Topic `bed-quantities`: how much to haul, buy, weigh or keep back for a bed.
//!
//! Only arithmetic. Where plants may stand is another matter: the counts here are those of plain
//! rows and grids, as a table in a handbook gives them; of garlic it is told how many more the best
//! layout takes.

mod amount;
mod answer;
mod bulk;
pub mod clove;
mod pieces;
mod question;
#[cfg(test)]
mod tests;
mod words;

pub use answer::{Answer, MassRange};
pub use bulk::{Material, containers, depth, fill, spread};
pub use clove::clove;
pub use pieces::{Share, bulbs_to_keep, in_grid, in_row, of_area, one_of, to_obtain, weight};
pub use question::{Asked, Item};

use uom::si::length::millimeter;

use self::{
    amount::{StockAsked, bulk, stock},
    question::{DEPTHS, LEAST_DEPTH_MM, MOST_DEPTH_MM, comes_up},
};
use crate::{
    asking::Asking,
    garden::needed_bed,
    given::{Faults, Readable},
    quantity::{Length, Volume, WHEELBARROW},
    telling::Telling,
};

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let meant = needed_bed(asked.bed.as_ref(), asking.garden, asking.system, faults);
    let bed = meant.as_ref().map(|meant| &meant.bed);
    let item = asked.item.need(faults);
    let millimetres = Length::new::<millimeter>;
    let (least, most) = (millimetres(LEAST_DEPTH_MM), millimetres(MOST_DEPTH_MM));
    let depth = asked.depth.within(least, most, DEPTHS, faults);
    if !item.is_some_and(Item::is_counted) {
        // Where it counts it is read with its crop.
        asked.spacing.read(faults);
    }
    let known = asking.garden.settings.wheelbarrow.as_deref();
    let barrow = asked.wheelbarrow.clone().or(known).read(faults);
    let barrow = barrow.unwrap_or(WHEELBARROW);
    if barrow.value <= 0.0 {
        let allowed = Volume::allowed();
        asked.wheelbarrow.refuse(faults, allowed, "a wheelbarrow holds something");
    }
    let kind = asked.kind.read(faults);
    let comes_up = comes_up(&asked.germination, faults);
    let piece = asked.handful.as_ref().and_then(|handful| handful.read(faults));
    let given = StockAsked { kind, comes_up, piece };
    let amount = match item? {
        Item::Compost => bulk(Material::Compost, asked, depth, barrow, bed, faults),
        Item::Mulch => bulk(Material::Mulch, asked, depth, barrow, bed, faults),
        Item::Soil => bulk(Material::Soil, asked, depth, barrow, bed, faults),
        item => stock(item, asked, &given, meant.as_ref(), asking.system, faults),
    }?;
    Some((words::told(&amount, asking.system), amount.answer()))
}
