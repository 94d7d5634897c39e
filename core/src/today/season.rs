//! What the season asks: frost tonight, and garlic.
//!
//! - Frost: in the season in which one year in ten has frost at this place, while something stands out that
//!   does not come through hard frosts by itself. Once tonight's low is written down, the beds that it
//!   endangers and that lie bare; a sky or wind that was not written down is taken as clear and still.
//! - Garlic: while its window is open and no bed has it or is kept for it.

use chrono::NaiveDate;

use super::{
    day::Day,
    found::{Found, Weight},
};
use crate::{
    asking::Topic,
    given::{Faults, Given},
    journal::details::Reading,
    text::list,
    time::DayOfYear,
    topics::{frost_tonight, garlic_window},
};

/// Crops named in the line about frost.
const NAMED: usize = 2;

pub(super) fn find(day: &Day<'_>, found: &mut Vec<Found>) {
    found.extend(tonight(day));
    found.extend(garlic_time(day));
}

fn tonight(day: &Day<'_>) -> Option<Found> {
    let (garden, today) = (day.asking.garden, day.today);
    let out = frost_tonight::tender_out(garden, today);
    if out.is_empty() {
        return None;
    }
    let dates = day.site.frost_dates()?;
    let (first, last) = (dates.first.tenth?, dates.last.nine_tenths?);
    let season = last.from_start(first);
    let since = |date: NaiveDate| DayOfYear::of(date).from_start(first);
    let mut read = garden.readings.iter().rev();
    let read = read.find(|it| it.when.date() == today && it.what.forecast_low.is_some());
    let mut from = today;
    if let Some(read) = read
        && let Some(cover) = to_cover(&read.what, day)
    {
        return Some(cover);
    }
    if since(today) > season || read.is_some() {
        let mut ahead = today.iter_days().skip(1).take(366);
        from = ahead.find(|date| since(*date) <= season)?;
    }
    let named: Vec<&str> = out.iter().map(String::as_str).take(NAMED).collect();
    let more = if out.len() > NAMED { ", and more" } else { "" };
    let why = format!("Frost can come here now: it hurts {}{more}.", list(&named));
    let what = "Read tonight's low".to_owned();
    let found = Found::new(Topic::FrostTonight, what, [from, from], why);
    Some(found.weighs(Weight::Tonight))
}

/// The beds that are in danger by tonight's low, as far as they lie bare.
fn to_cover(read: &Reading, day: &Day<'_>) -> Option<Found> {
    fn given<T>(told: &Option<String>, else_taken: &str) -> Given<T> {
        Given::default().or(Some(told.as_deref().unwrap_or(else_taken)))
    }
    let asked = frost_tonight::Asked {
        forecast_low: given(&read.forecast_low, ""),
        sky: given(&read.sky, "clear"),
        wind: given(&read.wind, "still"),
        ..frost_tonight::Asked::default()
    };
    let (_, answer) = frost_tonight::answer(&asked, day.asking, &mut Faults::default())?;
    let lies_bare = |name: &&str| {
        let bed = day.beds().find(|bed| bed.name == *name);
        bed.is_none_or(|bed| bed.covered.is_none())
    };
    let in_danger = answer.beds.iter().filter(|bed| bed.cover_as.is_some());
    let bare: Vec<_> =
        in_danger.filter(|bed| bed.bed.as_deref().is_some_and(|it| lies_bare(&it))).collect();
    let names: Vec<&str> = bare.iter().filter_map(|bed| bed.bed.as_deref()).collect();
    // The low of the bed that is named, as the answer behind it tells it.
    let why = bare.first().map_or_else(String::new, |bed| bed.told(day.asking.system).low + ".");
    let what = format!("Cover {}", list(&names));
    let found = Found::new(Topic::FrostTonight, what, [day.today; 2], why);
    (!names.is_empty()).then(|| found.weighs(Weight::Tonight))
}

fn garlic_time(day: &Day<'_>) -> Option<Found> {
    let none = day.beds().next().is_none();
    if none || day.beds().any(|bed| garlic_window::has_garlic(bed, day.today)) {
        return None;
    }
    let asked = garlic_window::Asked::default();
    let (telling, answer) = garlic_window::answer(&asked, day.asking, &mut Faults::default())?;
    let window = answer.window?;
    let (opens, closes) = (window.opens.likely?, window.closes.likely?);
    // A window that is past is told where it is asked about; the next one is too far off.
    (day.today <= closes).then(|| {
        let fit = answer.beds.iter().find(|bed| bed.out.is_none());
        let best = fit.map(|bed| format!(" Best in {}.", bed.name)).unwrap_or_default();
        let what = "Plant garlic, or keep a bed for it".to_owned();
        let why = format!("{}.{best}", telling.headline);
        Found::new(Topic::GarlicWindow, what, [opens, closes], why).weighs(Weight::Lost)
    })
}
