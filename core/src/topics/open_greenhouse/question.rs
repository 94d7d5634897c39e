//! What is asked, and how it is read.

use crate::{
    frost::midday::Midday,
    garden::Garden,
    given::{Faults, Given, asked, words},
    quantity::Temperature,
    topics::frost_tonight,
    words::{sky::Sky, spot::Spot},
};

words! {
    /// What is opened.
    pub enum Place {
        /// An unheated greenhouse or a tunnel to walk in.
        Greenhouse = "greenhouse" => "greenhouse",
        /// A cold frame, or a low tunnel of plastic.
        Frame = "cold-frame" => "frame",
    }
}

asked! {
    /// Does the greenhouse want opening today?
    pub struct Asked {
        /// What is opened; the greenhouse if absent.
        place: Given<Place> = "What",
        /// The sun: `clear`, `part` or `cloudy`.
        sky: Given<Sky> = "The sun today" [
            "clear" => "full sun", "part" => "some cloud", "cloudy" => "cloudy",
        ],
        /// Today's forecast high outdoors.
        forecast_high: Given<Temperature> = "Forecast high",
        /// The air outdoors now.
        outside: Given<Temperature> = "Outdoors now",
        /// The air inside now.
        inside: Given<Temperature> = "Inside now",
        /// Earlier middays with it shut; those of the record if absent.
        middays: Vec<MiddayAsked>,
    }
}

asked! {
    /// A midday with it shut.
    pub struct MiddayAsked {
        /// The air inside.
        inside: Given<Temperature>,
        /// The air outdoors.
        outside: Given<Temperature>,
        /// The sun.
        sky: Given<Sky>,
    }
}

impl Place {
    /// Where a thermometer and trays stand in it.
    pub(super) fn spot(self) -> Spot {
        match self {
            Self::Greenhouse => Spot::Greenhouse,
            Self::Frame => Spot::ColdFrame,
        }
    }
}

/// The question read, fit to be worked out.
pub(super) struct Question {
    pub(super) place: Place,
    pub(super) sky: Sky,
    /// The air outdoors: today's high as foretold, else as it is now.
    pub(super) outdoors: Temperature,
    /// Whether it was foretold.
    pub(super) foretold: bool,
    /// The air inside now.
    pub(super) inside: Option<Temperature>,
    /// Earlier middays, under any sky.
    pub(super) middays: Vec<Midday>,
}

impl Asked {
    /// Reads the question.
    pub(super) fn read(&self, garden: &Garden, faults: &mut Faults) -> Option<Question> {
        let place = self.place.read(faults).unwrap_or(Place::Greenhouse);
        let sky = self.sky.need(faults);
        let forecast = frost_tonight::air(&self.forecast_high, faults);
        let outside = frost_tonight::air(&self.outside, faults);
        let inside = frost_tonight::air(&self.inside, faults);
        let given: Vec<_> = self.middays.iter().filter_map(|midday| midday.read(faults)).collect();
        if !self.forecast_high.is_given() && !self.outside.is_given() {
            self.forecast_high.refuse(
                faults,
                "today's forecast high, such as 58 F; or the air outdoors now",
                "how warm it gets inside follows from it",
            );
        }
        let (sky, outdoors) = (sky?, forecast.or(outside)?);
        if !faults.is_empty() {
            return None;
        }
        let middays = if self.middays.is_empty() {
            frost_tonight::middays(garden, place.spot())
        } else {
            given
        };
        Some(Question { place, sky, outdoors, foretold: forecast.is_some(), inside, middays })
    }
}

impl MiddayAsked {
    fn read(&self, faults: &mut Faults) -> Option<Midday> {
        let inside = frost_tonight::needed_air(&self.inside, faults);
        let outside = frost_tonight::needed_air(&self.outside, faults);
        let sky = self.sky.need(faults);
        Some(Midday { inside: inside?, outside: outside?, sky: sky? })
    }
}
