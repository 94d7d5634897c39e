//! What is asked of the way to the bed, and how it is read.

use chrono::{Datelike, NaiveDate};
use uom::si::{thermodynamic_temperature::degree_fahrenheit, time::hour};

use crate::{
    asking::Asking,
    bed::BedAsked,
    catalogue::{Crop, KnownCrop},
    frost::last_frost::{FEWEST_YEARS, LastFrost},
    garden::Start,
    given::{Faults, Given, Readable, Text, asked},
    order,
    place::{
        known_soil::{KnownSoil, SoilAsked, usual_depth},
        site::{Site, SiteAsked},
    },
    quantity::{Quantity, Temperature, Time, Unreadable, number::read_number},
    starts::{
        course::{Air, Done, Raised, Way},
        plant_out::{Frosts, Nerve},
        tray::{self, Reading},
        tray_asked::{ReadingAsked, crop_of, mean_temperature, sown_of},
    },
    time::DayOfYear,
    words::sky::{Sky, Wind},
};

asked! {
    /// How does this tray get used to outdoors?
    pub struct Asked {
        /// A tray of the record, by its id or name; it brings along what is not given here.
        tray: Given<Text> = "Tray",
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// Where it was raised.
        raised: Given<Raised> = "Raised",
        /// Whether it was raised under lamps.
        under_lamps: Given<bool> = "Raised under lamps",
        /// Lows it lived through where it was raised.
        greenhouse_lows: Vec<ReadingAsked>,
        /// The first day; today if absent.
        start: Given<NaiveDate> = "First day",
        /// A little longer every day, or one move for a week.
        way: Given<Way> = "Way",
        /// Where it is to be planted: a bed of the record, whose soil readings count.
        bed: Option<BedAsked> = "Bed",
        /// How many of the last 14 nights were cold where it was raised, for one who kept no lows: within
        /// 30 to 45 °F, tender kinds within 50 to 60.
        cold_nights_before: Given<u32> = "Cold nights of the last 14",
        /// How many days up to yesterday were done as asked, for one who kept no record.
        days_done: Given<u32> = "Days out so far",
        /// Days with the night after each, forecast or past.
        nights: Vec<NightAsked> = "",
        /// Days that were done.
        done: Vec<DoneAsked>,
        /// The day it was sown.
        sown: Given<NaiveDate> = "Sown",
        /// The mean temperature where it was raised.
        warmth: Given<Temperature>,
        /// The place; the garden's own where absent.
        site: Option<SiteAsked> = "The place",
        /// The soil of the bed, one temperature or by date.
        soil_temperature: SoilAsked = "Soil there, if measured",
        /// The risk of a later frost, in percent, at which you plant: 10 if absent.
        nerve: Given<Nerve> = "Risk of a later frost" [
            "10" => "1 year in 10", "25" => "1 year in 4", "50" => "every other year",
        ],
        /// The day of the last frost in your own years, one for each year that had one.
        last_frosts: Vec<Given<NaiveDate>>,
        /// How many years had none.
        years_without_frost: Given<u32>,
    }
}

asked! {
    /// A day and the night after it.
    pub struct NightAsked {
        /// The day; where absent, today for the first and the days after it for the others.
        date: Given<NaiveDate>,
        /// The low of the night after.
        low: Given<Temperature> = "Tonight’s low",
        /// The high of the day.
        high: Given<Temperature> = "Today’s high",
        /// The wind, by a word or a speed.
        wind: Given<Wind> = "Wind today" [
            "still" => "still", "light" => "leaves stir", "windy" => "it shakes the plants",
        ],
        /// The sky.
        sky: Given<Sky> = "Sky today",
        /// Hail or hard rain.
        hard_rain: Given<bool> = "Rain today" ["yes" => "hail or hard rain"],
    }
}

asked! {
    /// A day that was done.
    pub struct DoneAsked {
        /// The day.
        date: Given<NaiveDate>,
        /// Hours outdoors.
        hours: Given<HoursOut>,
        /// Whether it was hurt.
        damage: Given<bool>,
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question<'a> {
    /// The tray of the record.
    pub(super) start: Option<&'a Start>,
    pub(super) site: Site,
    pub(super) crop: &'static Crop,
    pub(super) raised: Raised,
    /// Whether it was said where it was raised.
    pub(super) raised_given: bool,
    pub(super) under_lamps: bool,
    /// Lows and highs where it was raised; where they were given, in order of their days.
    pub(super) readings: Vec<Reading>,
    /// Whether the first day was given, or days were done.
    pub(super) begun: bool,
    /// The first day of the way.
    pub(super) begins: NaiveDate,
    pub(super) today: NaiveDate,
    pub(super) way: Way,
    /// Days with the night after each.
    pub(super) nights: Vec<(NaiveDate, Air)>,
    /// Days that were done, in order.
    pub(super) done: Vec<Done>,
    /// How many nights were cold, for one who kept no lows.
    pub(super) cold_before: u32,
    pub(super) sown: Option<NaiveDate>,
    /// The mean temperature where it was raised, as told.
    pub(super) warmth: Option<Temperature>,
    pub(super) nerve: Nerve,
    /// The last frosts of the gardener's own years.
    pub(super) own_frosts: Option<Frosts>,
    pub(super) soil: Option<KnownSoil>,
}

impl Asked {
    /// Reads the question.
    #[expect(clippy::too_many_lines, reason = "one field after the other, so that all faults show")]
    pub(super) fn read<'a>(
        &self,
        asking: &Asking<'a>,
        faults: &mut Faults,
    ) -> Option<Question<'a>> {
        let start = tray::find(&self.tray, asking.garden, faults);
        let site = SiteAsked::read(self.site.as_ref(), &asking.garden.place, faults);
        let crop = crop_of(&self.crop, start, faults);
        let given_raised = self.raised.read(faults);
        let recorded = start.and_then(|start| tray::raised(start, asking.today?));
        let raised = match given_raised.or(recorded) {
            None if !self.raised.is_given() => self.raised.need(faults),
            raised => raised,
        };
        let under_lamps = self
            .under_lamps
            .read(faults)
            .unwrap_or_else(|| given_raised.is_none() && start.is_some_and(tray::under_lamps));
        let lows: Vec<_> = self.greenhouse_lows.iter().map(|one| one.read(false, faults)).collect();
        let begins = match (self.start.is_given(), asking.today) {
            (false, Some(today)) => Some(today),
            _ => self.start.need(faults),
        };
        let today = asking.today.or(begins);
        let way = self.way.read(faults).or(start.and_then(tray::way));
        let way = way.unwrap_or(Way::DayByDay);
        let mut day = today;
        let nights: Vec<_> = self
            .nights
            .iter()
            .map(|night| {
                let read = night.read(day, faults);
                let meant = read.map_or(day, |(date, _)| Some(date));
                day = meant.and_then(|date| date.succ_opt());
                read
            })
            .collect();
        let done: Vec<_> = self.done.iter().map(|done| done.read(today, faults)).collect();
        let days_done = self.days_done.within(0, 30, "0 to 30 days", faults);
        let cold_before = self.cold_nights_before.within(0, 14, "0 to 14 nights", faults);
        let sown_given = self.sown.is_given() || start.is_some();
        let sown = if sown_given { sown_of(&self.sown, start, today, faults) } else { None };
        let told = mean_temperature(&self.warmth, faults);
        let nerve = self.nerve.read(faults);
        let own_frosts = own_frosts(self, faults);
        let soil_wanted = self.soil_temperature.is_given() || site.air.is_some();
        let bed = self.bed.as_ref();
        let bed = bed.and_then(|bed| bed.read(asking.garden, asking.system, faults)?.id);
        let in_bed =
            bed.and_then(|id| asking.garden.bed(&id)).map(crate::garden::Bed::soil_readings);
        let soil = today.filter(|_| soil_wanted).and_then(|today| {
            let readings = in_bed.unwrap_or_default();
            self.soil_temperature.read(&site, usual_depth(), &readings, today, faults)
        });
        let lows: Vec<Reading> = lows.into_iter().collect::<Option<_>>()?;
        let nights: Vec<(NaiveDate, Air)> = nights.into_iter().collect::<Option<_>>()?;
        let done: Vec<Done> = done.into_iter().collect::<Option<_>>()?;
        let (crop, raised, begins, today) = (crop?, raised?, begins?, today?);
        if (begins - today).num_days().abs() > 366 {
            self.start.refuse(faults, "a day within a year of today", "that is too far from today");
        }
        if !faults.is_empty() {
            return None;
        }

        let readings = if lows.is_empty() {
            start.map(|start| tray::readings(start, asking.garden)).unwrap_or_default()
        } else {
            let mut lows = lows;
            order::sort(&mut lows, &|reading| by_date(reading.date));
            lows
        };
        let mut done =
            if done.is_empty() { start.map(tray::done).unwrap_or_default() } else { done };
        if done.is_empty() {
            done = days_before(begins.max(today), days_done.unwrap_or(0));
        }
        order::sort(&mut done, &|done| by_date(done.date));
        let begins = if self.start.is_given() {
            begins
        } else {
            done.first().map_or(begins, |first| first.date)
        };
        let nerve = nerve
            .or_else(|| Nerve::from_percent(f64::from(asking.garden.settings.nerve?)))
            .unwrap_or(Nerve::USUAL);
        Some(Question {
            start,
            site,
            crop,
            raised,
            raised_given: given_raised.is_some(),
            under_lamps,
            readings,
            begun: self.start.is_given() || !done.is_empty(),
            begins,
            today,
            way,
            nights,
            done,
            cold_before: cold_before.unwrap_or(0),
            sown,
            warmth: told,
            nerve,
            own_frosts,
            soil,
        })
    }
}

/// The days before `today` that were done as asked, for one who only tells how many.
fn days_before(today: NaiveDate, days: u32) -> Vec<Done> {
    let before = today.pred_opt();
    let dates = core::iter::successors(before, NaiveDate::pred_opt);
    let done = dates.take(days as usize).map(|date| Done {
        date,
        out: Time::new::<hour>(24.0),
        hurt: false,
        cold: false,
    });
    done.collect()
}

/// Hours outdoors on a day, 0 to 24.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoursOut(pub(crate) f64);

impl Readable for HoursOut {
    fn allowed() -> String {
        "hours from 0 to 24, such as 5 or 2 h 30 min".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let unreadable = |why: String| Unreadable { allowed: Self::allowed(), why };
        let hours = match read_number(text) {
            Ok(hours) => hours,
            Err(_) => <Time as Quantity>::read(text)
                .map_err(|refused| unreadable(refused.why))?
                .get::<hour>(),
        };
        if (0.0..=24.0).contains(&hours) {
            Ok(Self(hours))
        } else {
            Err(unreadable("no day has so many".to_owned()))
        }
    }
}

/// As "10" or "10 %".
impl Readable for Nerve {
    fn allowed() -> String {
        "a risk in percent from 1 to 99, such as 10, 25 or 50".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let number = text.strip_suffix('%').map_or(text, str::trim);
        read_number(number).ok().and_then(Self::from_percent).ok_or_else(|| Unreadable {
            allowed: Self::allowed(),
            why: "no such risk can be read from it".to_owned(),
        })
    }
}

impl NightAsked {
    /// The day and its air; `day` is the one meant where none is given.
    pub(super) fn read(
        &self,
        day: Option<NaiveDate>,
        faults: &mut Faults,
    ) -> Option<(NaiveDate, Air)> {
        let f = Temperature::new::<degree_fahrenheit>;
        let limits = "an air temperature from -40 °F to 122 °F (-40 °C to 50 °C)";
        let date = match day.filter(|_| !self.date.is_given()) {
            Some(day) => Some(day),
            None => self.date.need(faults),
        };
        if !self.low.is_given() {
            self.low.need(faults);
        }
        let low = self.low.within(f(-40.0), f(122.0), limits, faults);
        let high = self.high.within(f(-40.0), f(122.0), limits, faults);
        let wind = self.wind.read(faults);
        let sky = self.sky.read(faults);
        let hard_rain = self.hard_rain.read(faults).unwrap_or(false);
        Some((date?, Air { high, low: Some(low?), wind, sky, hard_rain }))
    }
}

impl DoneAsked {
    pub(super) fn read(&self, today: Option<NaiveDate>, faults: &mut Faults) -> Option<Done> {
        let date = self.date.need(faults);
        let hours = self.hours.need(faults);
        let hurt = self.damage.read(faults).unwrap_or(false);
        let (date, HoursOut(hours)) = (date?, hours?);
        if today.is_some_and(|today| date > today) {
            self.date.refuse(faults, "today or a day before", "that day has not come yet");
            return None;
        }
        Some(Done { date, out: Time::new::<hour>(hours), hurt, cold: false })
    }
}

/// The last frosts of the gardener's own years, if enough were given.
pub(super) fn own_frosts(asked: &Asked, faults: &mut Faults) -> Option<Frosts> {
    let without = asked.years_without_frost.read(faults).unwrap_or(0);
    let dates: Vec<NaiveDate> =
        asked.last_frosts.iter().filter_map(|date| date.need(faults)).collect();
    let first = asked.last_frosts.first()?;
    let days: Vec<DayOfYear> = dates.iter().map(|date| DayOfYear::of(*date)).collect();
    let own = LastFrost::from_years(&days, without);
    if own.is_none() && dates.len() == asked.last_frosts.len() {
        first.refuse(
            faults,
            format!("the last frost of at least {FEWEST_YEARS} years that differ, one date a year"),
            "so few say nothing of the years to come",
        );
    }
    own.map(Frosts::Own)
}

pub(super) fn by_date(date: NaiveDate) -> order::Key {
    [date.num_days_from_ce().into(), 0, 0]
}
