//! What a verdict rests on, and what can hurt.

use super::words::Told;
use crate::{
    catalogue::Facet,
    harvest::{
        again::Why,
        stage::Stage,
        verdict::{DAYS, FLOWER, HEAT},
    },
    source::Source,
    telling::Telling,
};

impl Told<'_> {
    /// Adds the sources of everything the verdict rests on.
    pub(super) fn sources(&self, telling: &mut Telling) {
        let sheet = self.sheet();
        for stop in self.stops {
            stop.sources().iter().for_each(|source| telling.source(*source));
        }
        if !self.stops.is_empty() {
            return;
        }
        for sign in &self.signs {
            if let Some((question, _)) = sheet.sign(sign.id()) {
                question.sources().iter().for_each(|source| telling.source(*source));
            }
        }
        for size in sheet.sizes() {
            if self.measures.get(size.what()).is_some() {
                size.sources().iter().for_each(|source| telling.source(*source));
            }
        }
        let decided = |name| self.verdict.decisive.contains(&name);
        let by_flower = self.look.is_some_and(|look| look.why == Why::Flower);
        if let Some(flower) = sheet.flower.as_ref().filter(|_| decided(FLOWER) || by_flower) {
            flower.by.iter().for_each(|source| telling.source(*source));
        }
        if let Some(heat) = sheet.heat().filter(|_| decided(HEAT)) {
            heat.sources().iter().for_each(|source| telling.source(*source));
        }
        if decided(DAYS) {
            self.chosen.crop.sources(Facet::Ready).for_each(|source| telling.source(source));
        }
        if let Some(grade) = self.grade {
            telling.source(grade.source);
        }
        match self.look.map(|look| look.why) {
            Some(Why::Interval | Why::WarmInterval | Why::Own) => {
                sheet.wait.by.iter().for_each(|source| telling.source(*source));
                telling.source(Source::StretchRule);
            }
            Some(Why::ShortDays) => {
                telling.source(Source::Drost2017);
                telling.source(Source::TenHourPractice);
            }
            _ => {}
        }
        if matches!(self.verdict.stage, Some(Stage::Prime | Stage::Going))
            && let Some(keep) = sheet.keep(self.chosen.crop).first()
        {
            keep.sources().iter().for_each(|source| telling.source(*source));
        }
    }
}
