//! What is asked, and how it is read.

use crate::{
    frost::midday::Midday,
    given::{Faults, Given, asked, words},
    quantity::Temperature,
    topics::frost_tonight,
    words::sky::Sky,
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

impl MiddayAsked {
    pub(super) fn read(&self, faults: &mut Faults) -> Option<Midday> {
        let inside = frost_tonight::needed_air(&self.inside, faults);
        let outside = frost_tonight::needed_air(&self.outside, faults);
        let sky = self.sky.need(faults);
        Some(Midday { inside: inside?, outside: outside?, sky: sky? })
    }
}
