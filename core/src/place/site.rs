//! What a gardener tells of the place: each field optional, the fewer the wider the answers.

use serde_json::{Map, Value};
use uom::si::{length::meter, temperature_interval::degree_celsius as kelvin};

use super::{
    Latitude, MonthDay,
    air::{Air, LowAndHigh, celsius, of_celsius},
    frost_dates::FrostDates,
    soil::{SOILS, Texture},
};
use crate::{
    given::{Control, Faults, FromGiven, Given, asked},
    quantity::{Length, Temperature, TemperatureInterval},
    time::DayOfYear,
};

asked! {
    /// The place of the garden.
    pub struct SiteAsked {
        /// Latitude, north positive.
        latitude: Given<Latitude> = "Latitude",
        /// Whether it is in the southern half of the world.
        south: Given<bool>,
        /// Height above the sea.
        elevation: Given<Length> = "Height above the sea" as Control::FEET,
        /// What the soil is.
        soil: Given<Texture> = "Soil in the beds" as SOILS,
        /// The usual low and high of the coldest month.
        coldest: Option<MonthAsked> = "Coldest month",
        /// The usual low and high of the hottest month.
        hottest: Option<MonthAsked> = "Hottest month",
        /// The usual low of each month, January first.
        monthly_low: Vec<Given<Temperature>> = "Usual low of a month",
        /// The usual high of each month, January first.
        monthly_high: Vec<Given<Temperature>> = "Usual high of a month",
        /// How far single nights' lows are from the usual, one standard deviation in each month.
        monthly_low_sd: Vec<Given<TemperatureInterval>>,
        /// The usual date of the last frost in spring, month and day.
        last_frost: Given<MonthDay> = "Usual last frost",
        /// The usual date of the first frost in autumn, month and day.
        first_frost: Given<MonthDay> = "Usual first frost",
    }
}

asked! {
    /// The usual low and high of a month.
    pub struct MonthAsked {
        /// Mean daily low.
        low: Given<Temperature> = "usual low",
        /// Mean daily high.
        high: Given<Temperature> = "usual high",
    }
}

/// The place as far as it is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Site {
    /// Latitude.
    pub latitude: Option<Latitude>,
    /// Whether it is in the southern half of the world, if that is known.
    pub south: Option<bool>,
    /// Height above the sea.
    pub elevation: Option<Length>,
    /// What the soil is.
    pub soil: Option<Texture>,
    /// Its usual air.
    pub air: Option<Air>,
    /// The gardener's own date of the last frost.
    pub last_frost: Option<DayOfYear>,
    /// The gardener's own date of the first frost.
    pub first_frost: Option<DayOfYear>,
}

/// Usual lows and highs are taken from here
const COLDEST_C: f64 = -60.0;
/// to here.
const HOTTEST_C: f64 = 55.0;
const TEMPERATURES: &str = "a usual temperature from -76 °F to 131 °F (-60 °C to 55 °C)";
/// Beyond the tropics the warm half of the year shows the half of the world, °.
const TROPICS: f64 = 23.5;

impl SiteAsked {
    /// Reads the place as given, and from the record where nothing is given.
    ///
    /// The climate is taken whole from the question or whole from the record, never mixed.
    pub fn read(asked: Option<&Self>, record: &Map<String, Value>, faults: &mut Faults) -> Site {
        let record = (!record.is_empty()).then(|| {
            let place = Value::Object(record.clone());
            Self::from_given(Some(&place), "site", faults)
        });
        match (asked, record) {
            (Some(asked), Some(record)) => asked.filled_from(record).site(faults),
            (Some(asked), None) => asked.site(faults),
            (None, Some(record)) => record.site(faults),
            (None, None) => Site::default(),
        }
    }

    fn filled_from(&self, record: Self) -> Self {
        fn or<T: Clone>(own: &Given<T>, record: Given<T>) -> Given<T> {
            if own.is_given() { own.clone() } else { record }
        }
        let climate = self.coldest.is_some()
            || self.hottest.is_some()
            || !self.monthly_low.is_empty()
            || !self.monthly_high.is_empty();
        let from = if climate { self.clone() } else { record.clone() };
        Self {
            latitude: or(&self.latitude, record.latitude),
            south: or(&self.south, record.south),
            elevation: or(&self.elevation, record.elevation),
            soil: or(&self.soil, record.soil),
            coldest: from.coldest,
            hottest: from.hottest,
            monthly_low: from.monthly_low,
            monthly_high: from.monthly_high,
            monthly_low_sd: from.monthly_low_sd,
            last_frost: or(&self.last_frost, record.last_frost),
            first_frost: or(&self.first_frost, record.first_frost),
        }
    }

    fn site(&self, faults: &mut Faults) -> Site {
        let latitude = self.latitude.read(faults);
        let said = self.south.read(faults);
        let south = match (latitude, said) {
            (Some(latitude), Some(false)) if latitude.is_southern() => {
                self.south.refuse(faults, "yes, or nothing", "the latitude is a southern one");
                None
            }
            // "33" and "in the south" together are 33 south.
            (Some(latitude), said) => Some(latitude.is_southern() || said == Some(true)),
            (None, said) => said,
        };
        let latitude = match (latitude, south) {
            (Some(latitude), Some(true)) => Latitude::from_degrees(-latitude.degrees().abs()),
            (latitude, _) => latitude,
        };
        let lowest = Length::new::<meter>(-450.0);
        let highest = Length::new::<meter>(6000.0);
        let elevation = self.elevation.within(
            lowest,
            highest,
            "a height from the lowest shore to the highest garden, -450 m to 6000 m",
            faults,
        );
        let last = self.last_frost.read(faults).map(MonthDay::day_of_year);
        let first = self.first_frost.read(faults).map(MonthDay::day_of_year);
        let mut site = Site {
            latitude,
            south,
            elevation,
            soil: self.soil.read(faults),
            air: self.air(south, faults),
            last_frost: last,
            first_frost: first,
        };
        self.which_half(&mut site, faults);
        if let (Some(last), Some(first)) = (last, first) {
            let summer = DayOfYear::new(if site.is_south() { 14.0 } else { 197.0 });
            // Counted from midsummer, the first frost of autumn comes before the last of spring.
            if first.from_start(summer) >= last.from_start(summer) {
                self.last_frost.refuse(
                    faults,
                    "a last frost in spring before the first in autumn",
                    "the summer between them is not where it should be; in the south, say so, or \
                     change the two",
                );
            }
        }
        site
    }

    /// The usual air: by twelve months, else by the extremes.
    fn air(&self, south: Option<bool>, faults: &mut Faults) -> Option<Air> {
        if self.monthly_low.is_empty() && self.monthly_high.is_empty() {
            return self.air_from_extremes(south, faults);
        }
        let lows = months(&self.monthly_low, "site.monthly_low", &temperature, faults);
        let highs = months(&self.monthly_high, "site.monthly_high", &temperature, faults);
        let sds = match &*self.monthly_low_sd {
            [] => None,
            given => Some(months(given, "site.monthly_low_sd", &scatter, faults)?),
        };
        let (lows, highs) = (lows?, highs?);
        let mut in_order = true;
        for ((low, high), given) in lows.iter().zip(&highs).zip(&self.monthly_low) {
            if low > high {
                given.refuse(faults, "a low that is not above the month's high", "it is above it");
                in_order = false;
            }
        }
        in_order.then(|| Air::from_months(&lows, &highs, sds.as_ref()))
    }

    fn air_from_extremes(&self, south: Option<bool>, faults: &mut Faults) -> Option<Air> {
        let coldest = self.coldest.as_ref().and_then(|month| month.read(faults));
        let hottest = self.hottest.as_ref().and_then(|month| month.read(faults));
        for (one, other, field) in [
            (&self.coldest, &self.hottest, "site.hottest"),
            (&self.hottest, &self.coldest, "site.coldest"),
        ] {
            if one.is_some() && other.is_none() {
                let allowed = "the usual low and high of that month, such as 55 F and 80 F";
                faults.add(field, "", allowed, "the coldest and the hottest month go together");
            }
        }
        let (coldest, hottest) = (coldest?, hottest?);
        if hottest.low < coldest.low || hottest.high < coldest.high {
            if let Some(given) = &self.hottest {
                let why = "it is colder than the coldest month";
                given.low.refuse(faults, "a hottest month warmer than the coldest", why);
            }
            return None;
        }
        Some(Air::from_extremes(coldest, hottest, south == Some(true)))
    }

    /// The half of the world, from the months where it is not said; and whether they agree.
    fn which_half(&self, site: &mut Site, faults: &mut Faults) {
        if self.monthly_low.is_empty() {
            return;
        }
        let Some(warm) = site.air.as_ref().and_then(Air::is_warmest_in_new_year) else {
            return;
        };
        let tropical = site.latitude.is_some_and(|latitude| latitude.degrees().abs() <= TROPICS);
        match site.south {
            None => site.south = Some(warm),
            Some(south) if south != warm && !tropical => {
                let half = if south { "southern" } else { "northern" };
                let allowed =
                    "twelve months, January first, warm in the summer of that half of the world";
                let why = format!("these are not the months of a {half} place");
                if let Some(given) = self.monthly_low.first() {
                    given.refuse(faults, allowed, why);
                }
            }
            Some(_) => {}
        }
    }
}

impl MonthAsked {
    fn read(&self, faults: &mut Faults) -> Option<LowAndHigh> {
        let needed = |given: &Given<Temperature>, faults: &mut Faults| {
            if given.is_given() { temperature(given, faults) } else { given.need(faults) }
        };
        let low = needed(&self.low, faults);
        let high = needed(&self.high, faults);
        let (low, high) = (low?, high?);
        if low > high {
            self.low.refuse(faults, "a low that is not above the high", "it is above it");
            return None;
        }
        Some(LowAndHigh { low, high })
    }
}

fn temperature(given: &Given<Temperature>, faults: &mut Faults) -> Option<Temperature> {
    given.within(of_celsius(COLDEST_C), of_celsius(HOTTEST_C), TEMPERATURES, faults)
}

fn scatter(given: &Given<TemperatureInterval>, faults: &mut Faults) -> Option<TemperatureInterval> {
    let interval = TemperatureInterval::new::<kelvin>;
    given.within(interval(0.2), interval(20.0), "from 0.5 °F to 36 °F (0.2 °C to 20 °C)", faults)
}

/// Twelve values, or a fault for each that is missing.
fn months<T: Copy>(
    given: &[Given<T>],
    field: &str,
    read: &dyn Fn(&Given<T>, &mut Faults) -> Option<T>,
    faults: &mut Faults,
) -> Option<[T; 12]> {
    if given.len() != 12 {
        let count = match given.len() {
            0 => String::new(),
            count => format!("{count} in the list"),
        };
        faults.add(field, &count, "twelve values, January first", "months are missing or too many");
        return None;
    }
    let mut read_months = Vec::with_capacity(12);
    for month in given {
        if !month.is_given() {
            month.refuse(faults, "a value for each month, January first", "this month is missing");
        }
        read_months.extend(read(month, faults));
    }
    read_months.try_into().ok()
}

impl Site {
    /// Whether it is in the southern half of the world; the northern is taken where nothing tells.
    pub fn is_south(&self) -> bool {
        self.south == Some(true)
    }

    /// The usual air, or a refusal with the one question that would give it.
    pub fn need_air(&self, faults: &mut Faults) -> Option<&Air> {
        if self.air.is_none() && faults.is_empty() {
            faults.add(
                "site.coldest",
                "",
                "the usual low and high of the coldest month and of the hottest, such as 35 F and 45 F, \
                 55 F and 80 F",
                "how warm it is at this place is not known yet",
            );
        }
        self.air.as_ref()
    }

    /// First and last air frost: of the months' lows, the gardener's own dates in their middle;
    /// `None` where neither the air nor both dates are known.
    pub fn frost_dates(&self) -> Option<FrostDates> {
        match (&self.air, self.last_frost, self.first_frost) {
            (Some(air), last, first) => {
                let dates = FrostDates::from_air(air, of_celsius(0.0), self.is_south());
                Some(dates.with_usual(last, first))
            }
            (None, Some(last), Some(first)) => Some(FrostDates::from_usual(last, first)),
            (None, _, _) => None,
        }
    }
}

impl Air {
    /// Whether the months around New Year are the warm ones; `None` where the year hardly differs.
    fn is_warmest_in_new_year(&self) -> Option<bool> {
        const DIFFERS_C: f64 = 2.0;
        let means = self.monthly_means().map(celsius);
        let [jan, feb, .., dec] = means;
        let [_, _, _, _, _, jun, jul, aug, ..] = means;
        let warmer = (dec + jan + feb - jun - jul - aug) / 3.0;
        (warmer.abs() >= DIFFERS_C).then_some(warmer > 0.0)
    }
}
