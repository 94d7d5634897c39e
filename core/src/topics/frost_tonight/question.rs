//! What is asked of a cold night, and how it is read.

use chrono::NaiveDate;
use uom::si::{length::meter, thermodynamic_temperature::degree_celsius};

use crate::{
    catalogue::{self, Cover, Crop, KnownCrop, covers},
    frost::{
        dew_point::{AIR_C, AIR_LIMITS, Humidity, from_humidity, from_wet_bulb},
        evening::Evening,
        expected::Expected,
        low::{Against, BedNight},
        night::Night,
    },
    given::{Faults, Given, Text, asked},
    place::site::SiteAsked,
    quantity::{Length, Temperature},
    text::small,
    words::sky::{Sky, Wind},
};

asked! {
    /// What must be covered tonight?
    pub struct Asked {
        /// The low that is forecast for tonight.
        forecast_low: Given<Temperature> = "Forecast low",
        /// The day on which that forecast was made; today if absent.
        forecast_made: Given<NaiveDate> = "The forecast is of",
        /// The sky tonight.
        sky: Given<Sky> = "The sky tonight",
        /// The wind tonight, by a word or a speed.
        wind: Given<Wind> = "The wind",
        /// A reading two hours after sunset, where evenings were logged before.
        dusk: Option<AirAsked> = "",
        /// A reading at three in the afternoon; south of the equator it tells of the grass.
        afternoon: Option<AirAsked>,
        /// Earlier clear, still evenings at the same spot, two hours after sunset, with the low that followed.
        evenings: Vec<EveningAsked>,
        /// The bed by its name in the record.
        bed: Given<Text> = "Bed",
        /// Past nights of the bed.
        bed_nights: Vec<BedNightAsked>,
        /// Whether chopped residue lies on top of the bed.
        residue_on_top: Given<bool> = "Chopped plants on the bed" ["yes" => "yes"],
        /// How high above the ground the leaves are; a hand if absent.
        leaf_height: Given<Length> = "Leaves above the ground",
        /// The covers there are; one light fabric for each crop is reckoned with if absent.
        covers: Vec<CoverAsked> = "",
        /// What grows in the bed.
        crops: Vec<CropAsked> = "",
        /// Several beds at once, each with its own nights and crops.
        beds: Vec<BedAsked>,
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
    }
}

asked! {
    /// Air and its moisture.
    pub struct AirAsked {
        /// The air.
        temperature: Given<Temperature> = "Air",
        /// Its relative humidity.
        humidity: Given<Humidity> = "Humidity, %",
        /// Its dew point.
        dew_point: Given<Temperature>,
        /// A thermometer in a wet cloth, waved through the air.
        wet_bulb: Given<Temperature>,
    }
}

asked! {
    /// An evening and its low.
    pub struct EveningAsked {
        /// The air two hours after sunset.
        temperature: Given<Temperature>,
        /// Its dew point.
        dew_point: Given<Temperature>,
        /// The low of the night.
        low: Given<Temperature>,
    }
}

asked! {
    /// A past night at a bed.
    pub struct BedNightAsked {
        /// The low of the reference thermometer.
        reference_low: Given<Temperature>,
        /// The low that was forecast.
        forecast_low: Given<Temperature>,
        /// The low at the bed.
        bed_low: Given<Temperature>,
        /// The sky that night.
        sky: Given<Sky>,
        /// The wind that night; light if absent.
        wind: Given<Wind>,
    }
}

asked! {
    /// Covers of one kind.
    pub struct CoverAsked {
        /// The cover, by its catalogue id or one of its names.
        cover: Given<Text> = "Covers you have",
        /// How many beds or crops they cover; one if absent.
        count: Given<u32> = "For how many",
    }
}

asked! {
    /// A crop that stands out tonight.
    pub struct CropAsked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// Whether it is used to the cold; yes if absent.
        hardened: Given<bool> = "Used to outdoors" ["no" => "not yet"],
        /// How many plants.
        count: Given<u32>,
    }
}

asked! {
    /// A bed among several.
    pub struct BedAsked {
        /// Its name; one of the record brings its crops and nights along.
        bed: Given<Text>,
        /// Its past nights.
        bed_nights: Vec<BedNightAsked>,
        /// Whether chopped residue lies on top of it.
        residue_on_top: Given<bool>,
        /// How high above the ground the leaves are; a hand if absent.
        leaf_height: Given<Length>,
        /// Whether it is under glass or plastic without heat.
        under_glass: Given<bool>,
        /// What grows there.
        crops: Vec<CropAsked>,
    }
}

/// A crop that stands out tonight.
#[derive(Clone, Copy)]
pub(super) struct Standing {
    pub crop: &'static Crop,
    pub hardened: bool,
    pub count: Option<u32>,
    /// What kills it at the stage it has come to, where its planting's day and the place tell it.
    pub at_its_stage: Option<Temperature>,
    /// Whether the part that frost takes sooner, its flower or curd, may be on it.
    pub part_is_there: bool,
}

impl Standing {
    /// A crop of which nothing more is known.
    pub(super) fn of(crop: &'static Crop, hardened: bool, count: Option<u32>) -> Self {
        Self { crop, hardened, count, at_its_stage: None, part_is_there: true }
    }

    /// Whether the low is likely enough to take that part, where it is known to be there.
    pub(super) fn part_in_danger(&self, low: &Expected, act: f64) -> bool {
        self.at_its_stage.is_some_and(|part| {
            let sooner = self.crop.part().is_some_and(|own| own.killed_at <= part);
            sooner && low.chance_below(part) >= act
        })
    }
}

/// A bed tonight.
#[derive(Clone, Default)]
pub(super) struct BedTonight {
    /// Its id in the record.
    pub id: Option<String>,
    /// What it is called; `None` of the one bed a question is about.
    pub name: Option<String>,
    pub nights: Vec<BedNight>,
    pub residue_on_top: bool,
    pub height: Option<Length>,
    pub under_glass: bool,
    pub crops: Vec<Standing>,
}

/// The most covers of one kind that are counted.
const MOST_COVERS: u32 = 200;

/// Reads an air temperature.
pub(crate) fn air(given: &Given<Temperature>, faults: &mut Faults) -> Option<Temperature> {
    let (least, most) = AIR_C;
    given.within(
        Temperature::new::<degree_celsius>(least),
        Temperature::new::<degree_celsius>(most),
        AIR_LIMITS,
        faults,
    )
}

/// The same, and a fault where it is missing.
pub(crate) fn needed_air(given: &Given<Temperature>, faults: &mut Faults) -> Option<Temperature> {
    if !given.is_given() {
        given.need(faults);
    }
    air(given, faults)
}

impl AirAsked {
    /// The air and, if it was given in any way, its dew point.
    pub(super) fn read(
        &self,
        elevation: Option<Length>,
        faults: &mut Faults,
    ) -> Option<(Temperature, Option<Temperature>)> {
        let temperature = needed_air(&self.temperature, faults);
        let humidity = self.humidity.read(faults);
        let told = air(&self.dew_point, faults);
        let wet = air(&self.wet_bulb, faults);
        let temperature = temperature?;
        let above = |given: &Given<Temperature>, faults: &mut Faults| {
            given.refuse(
                faults,
                "a temperature not above that of the air",
                "it is above that of the air",
            );
        };
        if told.is_some_and(|told| told > temperature) {
            above(&self.dew_point, faults);
            return None;
        }
        let by_cloth = wet.and_then(|wet| {
            if wet > temperature {
                above(&self.wet_bulb, faults);
                return None;
            }
            let elevation = elevation.unwrap_or(Length::new::<meter>(0.0));
            let dew_point = from_wet_bulb(temperature, wet, elevation);
            if dew_point.is_none() {
                self.wet_bulb.refuse(
                    faults,
                    "a wet cloth that is not frozen, and not drier than air can be",
                    "no dew point follows from it",
                );
            }
            dew_point
        });
        let by_humidity = humidity.map(|humidity| from_humidity(temperature, humidity));
        Some((temperature, told.or(by_humidity).or(by_cloth)))
    }
}

impl EveningAsked {
    pub(super) fn read(&self, faults: &mut Faults) -> Option<Evening> {
        let temperature = needed_air(&self.temperature, faults);
        let dew_point = air(&self.dew_point, faults);
        let low = needed_air(&self.low, faults);
        let (air, low) = (temperature?, low?);
        Some(Evening { air, dew_point, low })
    }
}

impl BedNightAsked {
    /// One night, or two where both a forecast and a reference were given.
    pub(super) fn read(&self, faults: &mut Faults) -> Vec<BedNight> {
        let reference = air(&self.reference_low, faults);
        let forecast = air(&self.forecast_low, faults);
        let bed_low = needed_air(&self.bed_low, faults);
        let sky = self.sky.need(faults);
        let wind = self.wind.read(faults).unwrap_or(Wind::Light);
        if !self.reference_low.is_given() && !self.forecast_low.is_given() {
            self.reference_low.refuse(
                faults,
                "the low of the reference thermometer, or forecast_low",
                "the bed's low tells nothing without another beside it",
            );
        }
        let (Some(bed_low), Some(sky)) = (bed_low, sky) else {
            return Vec::new();
        };
        let night = Night::of(sky, wind);
        let one = |against: Against, low: Option<Temperature>| {
            low.map(|other_low| BedNight { against, other_low, bed_low, night })
        };
        one(Against::Forecast, forecast)
            .into_iter()
            .chain(one(Against::Reference, reference))
            .collect()
    }
}

impl CoverAsked {
    /// The cover and how many there are.
    pub(super) fn read(&self, faults: &mut Faults) -> Option<(&'static Cover, u32)> {
        let name = self.cover.need(faults);
        let count = if self.count.is_given() {
            self.count.within(0, MOST_COVERS, "0 to 200 covers", faults)
        } else {
            Some(1)
        };
        let Text(name) = name?;
        let Some(cover) = catalogue::cover(&name) else {
            let known = laid().collect::<Vec<_>>().join(", ");
            self.cover.refuse(faults, format!("one of: {known}"), "no cover of that name is known");
            return None;
        };
        if !cover.is_laid() || cover.gain().is_none() {
            let known = laid().collect::<Vec<_>>().join(", ");
            let why = if cover.is_laid() {
                "no tested figure of what it adds was found; try it and write down both lows"
            } else {
                "what it adds must be measured: ask for it among the beds, under_glass, with its own nights"
            };
            self.cover.refuse(faults, format!("one of: {known}"), why);
            return None;
        }
        Some((cover, count?))
    }
}

/// The names of the covers that can be reckoned with.
fn laid() -> impl Iterator<Item = String> {
    covers()
        .iter()
        .filter(|cover| cover.is_laid() && cover.gain().is_some())
        .map(|cover| small(cover.name()))
}

impl CropAsked {
    pub(super) fn read(&self, faults: &mut Faults) -> Option<Standing> {
        let crop = self.crop.need(faults);
        let hardened = self.hardened.read(faults);
        let count = self.count.read(faults);
        Some(Standing::of(crop?.0, hardened.unwrap_or(true), count))
    }
}

/// A height of leaves.
pub(super) fn leaf_height(given: &Given<Length>, faults: &mut Faults) -> Option<Length> {
    given.within(
        Length::new::<meter>(0.0),
        Length::new::<meter>(5.0),
        "a height from the ground to 16 ft (5 m)",
        faults,
    )
}
