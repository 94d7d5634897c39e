//! What is asked, and how it is read.

use chrono::{Days, NaiveDate};

use super::answer::Doing;
use crate::{
    catalogue::{self, Hardiness, KnownCrop, Start},
    garden::{Bed, Garden, Planting},
    given::{Faults, Given, Text, asked},
    harvest::{
        again::too_late_by,
        age::by_days,
        chosen::{Chosen, choose},
        combine::Lean,
        cues::sheets_of,
        own,
        stage::Stage,
    },
    place::site::SiteAsked,
    quantity::Temperature,
    season::Year,
};

asked! {
    /// I am back on that day: what must I pick before I go?
    pub struct Asked {
        /// The day of coming back.
        back_on: Given<NaiveDate> = "Or on that day",
        /// In how many days that is, in place of the date.
        back_in: Given<u32> = "Back in how many days",
        /// What grows, if not what the record tells.
        plants: Vec<PlantAsked> = "",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// A frost that is forecast.
        frost: Given<NaiveDate> = "Frost forecast for",
    }
}

asked! {
    /// One crop that grows.
    pub struct PlantAsked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// What it is grown for, where there is more than one use.
        purpose: Given<Text>,
        /// The stage of most of it; bearing, if absent.
        stage: Given<Stage>,
    }
}

/// One crop that grows, read.
pub(super) struct Growing<'a> {
    pub(super) chosen: Chosen,
    pub(super) stage: Option<Stage>,
    pub(super) place: Option<(&'a Bed, &'a Planting)>,
}

impl Asked {
    /// The day of coming back, given as a day or as a number of days.
    pub(super) fn back(&self, today: Option<NaiveDate>, faults: &mut Faults) -> Option<NaiveDate> {
        if self.back_on.is_given() || !self.back_in.is_given() {
            return self.back_on.need(faults);
        }
        let days = self.back_in.within(0, 365, "0 to 365 days", faults)?;
        today?.checked_add_days(Days::new(days.into()))
    }
}

impl PlantAsked {
    pub(super) fn read(&self, faults: &mut Faults) -> Option<Growing<'static>> {
        let stage = self.stage.read(faults);
        let chosen = choose(&self.crop, &self.purpose, faults)?;
        Some(Growing { chosen, stage, place: None })
    }
}

/// What grows in the beds and is old enough to bear.
pub(super) fn in_the_record<'a>(
    garden: &'a Garden,
    year: Option<&Year>,
    today: NaiveDate,
) -> Vec<Growing<'a>> {
    let mut growing = Vec::new();
    for bed in garden.beds.iter().filter(|bed| bed.gone.is_none()) {
        for planting in bed.plantings.iter().filter(|planting| planting.picked_clean.is_none()) {
            if let Some(chosen) = bearing(garden, planting, year, today) {
                growing.push(Growing { chosen, stage: None, place: Some((bed, planting)) });
            }
        }
    }
    growing
}

fn bearing(
    garden: &Garden,
    planting: &Planting,
    year: Option<&Year>,
    today: NaiveDate,
) -> Option<Chosen> {
    let crop = catalogue::crop(&planting.crop).ok()?;
    let sheet = *sheets_of(crop).first()?;
    let first = year.and_then(|year| own::first_picking(year, planting, crop));
    if let Some(first) = first.and_then(|first| first.early) {
        return (first <= today).then_some(Chosen { crop, sheet });
    }
    let (sown, planted) = own::began(garden, planting);
    let began = if crop.starts().first() == Some(&Start::Sow) { sown } else { planted };
    let age = began
        .zip(crop.days_to_harvest())
        .and_then(|(began, span)| by_days(today - began, span.least, span.most, sheet.lean()));
    let too_young = age.is_some_and(|reading| reading.to == Stage::NotYet);
    (!too_young).then_some(Chosen { crop, sheet })
}

impl Growing<'_> {
    /// "Bush bean in Fence bed".
    pub(super) fn name(&self) -> String {
        let crop = self.chosen.crop.name();
        match self.place {
            Some((bed, _)) => format!("{crop} in {}", bed.name),
            None => crop.to_owned(),
        }
    }

    pub(super) fn doing(
        &self,
        today: NaiveDate,
        back_on: NaiveDate,
        frost: Option<NaiveDate>,
        mean: Option<Temperature>,
    ) -> Option<Doing> {
        let Chosen { crop, sheet } = self.chosen;
        let tender = matches!(crop.hardiness(), Hardiness::Chilling | Hardiness::Tender);
        if tender && frost.is_some() {
            return Some(Doing::TakeAll);
        }
        let stage = self.stage.unwrap_or(Stage::Prime);
        if stage == Stage::Past && sheet.sets_on() {
            return Some(Doing::OldOnesOff);
        }
        if !too_late_by(sheet, stage, today, back_on, mean) {
            return None;
        }
        match (sheet.sets_on(), sheet.lean()) {
            (true, _) => Some(Doing::SmallOnesToo),
            // Without a stage told, what waits well is not worth a warning.
            (false, Lean::Early) if self.stage.is_none() => None,
            (false, _) => Some(Doing::Look),
        }
    }
}
