//! The verdict in one short sentence, and the dates in it.

use super::words::Told;
use crate::{
    harvest::{
        again::Look,
        combine::Lean,
        stage::Stage,
        verdict::{DAYS, FLOWER, HEAT},
    },
    text::{capital, span},
};

impl Told<'_> {
    pub(super) fn headline(&self) -> String {
        let sheet = self.sheet();
        let take = capital(sheet.take().word());
        if let Some(stop) = self.stops.first() {
            return stop.head().to_owned();
        }
        if self.verdict.clash.is_some() {
            return match sheet.lean() {
                Lean::Late => {
                    format!("The signs disagree: {} one today and look inside", sheet.take().word())
                }
                Lean::Early => {
                    format!("The signs disagree: wait{}", self.look_words(", and look again "))
                }
            };
        }
        let Some(stage) = self.verdict.stage else {
            return "Nothing seen yet".to_owned();
        };
        let ages = [FLOWER, HEAT, DAYS];
        if stage != Stage::NotYet && self.verdict.decisive.iter().all(|name| ages.contains(name)) {
            return "Old enough to be ready: look at one".to_owned();
        }
        if let Some(frost) = self.frost.filter(|_| stage != Stage::Past) {
            let which =
                if stage == Stage::NotYet { "take what is usable" } else { "take them all" };
            return format!("Frost on {}: {which} before it", self.on(frost));
        }
        match stage {
            Stage::NotYet if self.next_visit.is_some() => {
                format!("{take} the nearly ready ones today: you are back too late for them")
            }
            Stage::NotYet => format!("Not yet{}", self.look_words(": look again ")),
            Stage::Prime if self.next_visit.is_some() && sheet.sets_on() => {
                format!("{take} today, the small ones too")
            }
            Stage::Prime if sheet.lean() == Lean::Late || self.next_visit.is_some() => {
                format!("{take} today")
            }
            Stage::Prime => match self.until.and_then(|until| until.early) {
                Some(until) => format!("Ready, and it waits until about {}", self.on(until)),
                None => "Ready, and it stands still".to_owned(),
            },
            Stage::Going => format!("{take} today: going over"),
            Stage::Past if sheet.sets_on() => {
                "Past its prime: take it off, so that others come".to_owned()
            }
            Stage::Past => "Past its prime".to_owned(),
        }
    }

    /// " 16 to 19 Jul", or nothing where no look is planned.
    pub(super) fn look_words(&self, before: &str) -> String {
        match self.look {
            None => String::new(),
            Some(Look { early, late: Some(late), .. }) if late == early => {
                format!("{before}{}", self.on(early))
            }
            Some(Look { early, late: Some(late), .. }) => {
                format!("{before}{}", span(early, late, self.today()))
            }
            Some(Look { early, late: None, .. }) => format!("{before}from {}", self.on(early)),
        }
    }
}
