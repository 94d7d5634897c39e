//! Nine weather stations of the United States, for checks.
//!
//! Mean daily lows and highs of each month and the standard deviation of single days' lows, °C,
//! 1974 to 2013: A. Srivastava, D. C. Flanagan, J. R. Frankenberger and B. A. Engel, *Journal of
//! Soil and Water Conservation* 74:334-349, 2019 (station parameters of the USDA Agricultural
//! Research Service).

use pegline_core::{
    place::air::{Air, LowAndHigh},
    quantity::{Temperature, TemperatureInterval},
};
use uom::si::{
    temperature_interval::degree_celsius as kelvin, thermodynamic_temperature::degree_celsius,
};

/// One station.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Station {
    pub(crate) name: &'static str,
    pub(crate) low: [f64; 12],
    pub(crate) high: [f64; 12],
    pub(crate) low_sd: [f64; 12],
}

pub(crate) fn celsius(degrees: f64) -> Temperature {
    Temperature::new::<degree_celsius>(degrees)
}

pub(crate) fn kelvins(degrees: f64) -> TemperatureInterval {
    TemperatureInterval::new::<kelvin>(degrees)
}

impl Station {
    /// Its air, by all twelve months.
    pub(crate) fn air(&self) -> Air {
        Air::from_months(
            &self.low.map(celsius),
            &self.high.map(celsius),
            Some(&self.low_sd.map(kelvins)),
        )
    }
}

pub(crate) const FARGO: Station = Station {
    name: "Fargo ND",
    low: [-18.2, -15.1, -7.6, 0.4, 7.2, 12.8, 15.5, 13.9, 8.5, 1.7, -6.6, -14.6],
    high: [-8.3, -5.2, 1.8, 12.7, 20.6, 25.2, 28.2, 27.1, 21.6, 13.3, 2.8, -5.6],
    low_sd: [8.5, 8.5, 7.5, 5.0, 5.0, 4.0, 3.5, 4.0, 5.0, 5.0, 6.5, 8.0],
};

pub(crate) const BURLINGTON: Station = Station {
    name: "Burlington VT",
    low: [-12.1, -11.1, -5.2, 1.5, 7.8, 13.0, 15.8, 14.8, 10.2, 4.1, -0.7, -7.8],
    high: [-2.7, -1.2, 4.7, 12.5, 19.9, 24.6, 27.3, 26.1, 21.1, 13.8, 7.4, 0.5],
    low_sd: [8.0, 7.5, 6.5, 4.5, 4.5, 4.0, 3.5, 4.0, 4.5, 5.0, 5.0, 7.0],
};

pub(crate) const DES_MOINES: Station = Station {
    name: "Des Moines IA",
    low: [-10.5, -7.8, -1.5, 5.0, 11.2, 16.6, 19.4, 18.1, 12.7, 5.8, -1.0, -7.9],
    high: [-1.0, 1.9, 9.3, 16.8, 22.6, 27.7, 30.3, 29.0, 24.7, 17.4, 9.0, 1.3],
    low_sd: [7.0, 7.5, 6.0, 5.0, 4.5, 3.5, 3.0, 3.5, 5.0, 5.0, 6.0, 7.0],
};

pub(crate) const DENVER: Station = Station {
    name: "Denver CO",
    low: [-8.1, -6.4, -2.5, 1.6, 6.8, 11.9, 15.3, 14.2, 9.2, 2.5, -3.5, -7.8],
    high: [6.8, 8.1, 12.4, 16.4, 21.6, 28.0, 31.6, 30.1, 25.4, 18.6, 11.5, 6.9],
    low_sd: [6.0, 6.0, 4.5, 4.0, 4.0, 3.0, 2.5, 2.5, 4.0, 4.0, 5.0, 6.0],
};

pub(crate) const SEATTLE: Station = Station {
    name: "Seattle-Tacoma WA",
    low: [2.4, 2.8, 4.0, 5.7, 8.4, 11.1, 13.1, 13.3, 11.3, 7.7, 4.4, 2.2],
    high: [7.9, 9.7, 11.7, 14.4, 17.9, 21.0, 24.2, 24.3, 21.3, 15.3, 10.3, 7.5],
    low_sd: [3.5, 3.5, 2.5, 2.5, 2.5, 2.0, 2.0, 1.5, 2.0, 2.5, 3.5, 3.5],
};

pub(crate) const ATLANTA: Station = Station {
    name: "Atlanta GA",
    low: [1.1, 2.8, 6.8, 10.7, 15.7, 19.8, 21.7, 21.4, 18.1, 11.7, 6.6, 2.4],
    high: [11.3, 13.9, 18.4, 22.8, 26.8, 30.4, 31.9, 31.3, 28.0, 22.7, 17.6, 12.6],
    low_sd: [6.0, 5.5, 5.0, 4.5, 3.5, 2.5, 1.5, 2.0, 3.5, 4.5, 5.0, 5.5],
};

pub(crate) const SACRAMENTO: Station = Station {
    name: "Sacramento CA",
    low: [3.7, 5.2, 6.7, 8.0, 10.7, 13.2, 14.8, 14.5, 13.3, 10.3, 6.1, 3.4],
    high: [12.4, 15.8, 18.4, 21.8, 26.8, 30.7, 33.5, 32.9, 30.9, 25.6, 17.9, 12.6],
    low_sd: [3.5, 3.5, 3.0, 2.5, 2.5, 2.5, 2.5, 2.0, 2.0, 2.5, 3.5, 4.0],
};

pub(crate) const HOUSTON: Station = Station {
    name: "Houston TX",
    low: [7.0, 8.9, 12.4, 16.0, 20.2, 23.2, 24.1, 24.2, 22.0, 16.8, 11.8, 7.9],
    high: [16.9, 18.9, 22.6, 26.0, 29.7, 32.5, 33.5, 33.8, 31.4, 27.3, 22.3, 18.1],
    low_sd: [5.5, 5.5, 5.0, 4.5, 3.0, 2.0, 1.0, 1.5, 3.0, 4.5, 5.5, 6.0],
};

pub(crate) const SAN_DIEGO: Station = Station {
    name: "San Diego CA",
    low: [9.9, 10.7, 12.0, 13.5, 15.5, 16.9, 18.8, 19.5, 18.9, 16.3, 12.3, 9.5],
    high: [18.8, 18.8, 19.0, 20.0, 20.6, 22.0, 24.1, 24.9, 24.8, 23.1, 21.0, 18.8],
    low_sd: [2.5, 2.5, 2.0, 2.0, 1.5, 1.5, 1.5, 1.5, 2.0, 2.0, 2.5, 2.5],
};

/// All of them.
pub(crate) const ALL: [Station; 9] =
    [FARGO, BURLINGTON, DES_MOINES, DENVER, SEATTLE, ATLANTA, SACRAMENTO, HOUSTON, SAN_DIEGO];

impl Station {
    /// Its air, as someone knows it who knows only the coldest and the hottest month.
    pub(crate) fn air_from_extremes(&self) -> Air {
        let mean = |month: &usize| self.low[*month] + self.high[*month];
        let by_mean = |a: &usize, b: &usize| mean(a).total_cmp(&mean(b));
        let month = |month: usize| LowAndHigh {
            low: celsius(self.low[month]),
            high: celsius(self.high[month]),
        };
        let coldest = (0..12).min_by(by_mean).unwrap();
        let hottest = (0..12).max_by(by_mean).unwrap();
        Air::from_extremes(month(coldest), month(hottest), false)
    }
}
