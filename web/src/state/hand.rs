//! The proposed layout changed by hand: kept as long as the question stays as it is.

use pegline_core::{
    ask::Of,
    journal::Draft,
    plan::by_hand::{ByHand, Judged, Touch},
};
use serde_json::Value;

use super::App;
use crate::draw::Scale;

/// A layout in the making.
#[derive(Clone, Debug)]
pub(crate) struct Hand {
    /// The question it was proposed for.
    question: Value,
    layout: ByHand,
    /// Whether a plant was put in or taken away.
    changed: bool,
    /// The crop that a tap puts in, by its place.
    crop: usize,
    /// The line whose sites are listed, once one was chosen.
    line: Option<usize>,
}

impl App {
    /// The layout as it stands for the question in the form: proposed, or changed by hand.
    fn hand(&self) -> Option<Hand> {
        let question = self.question();
        if let Some(hand) = self.hand.as_ref().filter(|hand| hand.question == question) {
            return Some(hand.clone());
        }
        let laid = match &self.answer()?.of {
            Of::PlantsPerBed(found) => &found.laid,
            Of::SpacingForCount(found) => found.laid.as_ref()?,
            _ => return None,
        };
        let layout = ByHand::of(laid);
        Some(Hand { question, layout, changed: false, crop: 0, line: None })
    }

    /// The layout, for the screen.
    pub fn layout(&self) -> Option<ByHand> {
        self.hand().map(|hand| hand.layout)
    }

    /// Which crop a tap puts in, and which line's sites are listed, by their places.
    pub fn hand_at(&self) -> (usize, Option<usize>) {
        let hand = self.hand.as_ref().filter(|hand| hand.question == self.question());
        hand.map_or((0, None), |hand| (hand.crop, hand.line))
    }

    /// What follows from the layout, where it was changed by hand.
    pub fn judged(&self) -> Option<Judged> {
        let hand = self.hand().filter(|hand| hand.changed)?;
        Some(hand.layout.judge(self.system()))
    }

    /// What the answer offers to write, with the layout as it was changed by hand.
    pub fn next(&self) -> Vec<Draft> {
        let next = self.answer().map(|answer| answer.telling.next.clone());
        let next = next.unwrap_or_default();
        match self.hand().filter(|hand| hand.changed) {
            Some(hand) => hand.layout.drafts(&next, self.system()),
            None => next,
        }
    }

    /// Takes a tap on the drawing or on a row of the list.
    pub(crate) fn tap(&mut self, verb: &str, object: &str) {
        let Some(mut hand) = self.hand() else {
            return;
        };
        let place = object.parse().ok();
        match (verb, place) {
            ("hand-crop", Some(crop)) => hand.crop = crop,
            ("hand-line", Some(line)) => hand.line = Some(line),
            ("hand-set", Some(site)) => {
                hand.layout.tap(site, hand.crop);
                hand.changed = true;
            }
            ("hand-touch", _) => {
                let Some(touch) = touched(&hand, object) else {
                    return;
                };
                hand.changed |= hand.layout.touch(touch, hand.crop, self.system());
            }
            _ => {
                self.hand = None;
                return;
            }
        }
        self.hand = Some(hand);
    }
}

/// Where the drawing was touched: "120.5,40" in its own units.
fn touched(hand: &Hand, at: &str) -> Option<Touch> {
    let (x, y) = at.split_once(',')?;
    let number = |text: &str| text.parse::<i32>().ok().map(f64::from);
    Some(Scale::of(hand.layout.bed()).touch(number(x)?, number(y)?))
}
