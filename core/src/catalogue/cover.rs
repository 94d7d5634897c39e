//! Covers against frost, and what each adds to a night's low. The figures stand in
//! `core/data/covers.toml`.

use serde::Serialize;
use uom::si::temperature_interval::{degree_celsius, degree_fahrenheit};

use super::cover_words::CoverWatch;
use super::fold::fold;
use crate::quantity::TemperatureInterval;
use crate::source::Source;

/// A cover of the catalogue.
pub struct Cover {
    id: &'static str,
    name: &'static str,
    also: &'static [&'static str],
    /// Mean and standard deviation.
    gain_f: Option<[u8; 2]>,
    sheet: bool,
    watch: &'static [CoverWatch],
    sources: &'static [Source],
}

include!(concat!(env!("OUT_DIR"), "/covers.rs"));

/// Every cover, in order of its id.
pub fn covers() -> &'static [Cover] {
    &COVERS
}

/// The cover of this id, name or other common name, however written; `None` if there is none.
///
/// A cover by any of its names:
/// ```
/// use pegline_core::catalogue::cover;
/// assert_eq!(cover("Fleece").map(|cover| cover.id()), Some("fabric-light"));
/// assert!(cover("wish").is_none());
/// ```
pub fn cover(name: &str) -> Option<&'static Cover> {
    let wanted = fold(name);
    covers().iter().find(|cover| {
        [cover.id, cover.name].iter().chain(cover.also).any(|name| fold(name) == wanted)
    })
}

/// What a cover adds to a night's low: a spread, never a fixed bonus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gain {
    /// On average, over nights and gardens.
    pub mean: TemperatureInterval,
    /// Standard deviation.
    pub sd: TemperatureInterval,
}

impl Cover {
    /// Kebab-case and lasting: `fabric-light`.
    pub fn id(&self) -> &'static str {
        self.id
    }

    /// The plain name: "Light fabric".
    pub fn name(&self) -> &'static str {
        self.name
    }

    /// What it adds on a night without wind; `None` where nothing measured was found.
    pub fn gain(&self) -> Option<Gain> {
        let of = |f: u8| TemperatureInterval::new::<degree_fahrenheit>(f64::from(f));
        self.gain_f.map(|[mean, sd]| Gain { mean: of(mean), sd: of(sd) })
    }

    /// Whether it is laid over plants when needed, rather than a place where they stand.
    pub fn is_laid(&self) -> bool {
        self.sheet
    }

    /// What to mind.
    pub fn watch(&self) -> &'static [CoverWatch] {
        self.watch
    }

    /// What its figures rest on.
    pub fn sources(&self) -> &'static [Source] {
        self.sources
    }

    /// As the door gives it.
    pub fn row(&self) -> CoverRow {
        let celsius = |interval: TemperatureInterval| {
            (interval.get::<degree_celsius>() * 10.0).round() / 10.0
        };
        CoverRow {
            id: self.id,
            name: self.name,
            also: self.also,
            gain_c: self.gain().map(|gain| celsius(gain.mean)),
            gain_sd_c: self.gain().map(|gain| celsius(gain.sd)),
            is_laid: self.sheet,
            watch: self.watch,
            sources: self.sources,
        }
    }
}

/// One cover in the answer to the topic `catalogue`. What is not known is null.
#[derive(Clone, Debug, Serialize)]
pub struct CoverRow {
    /// The id to ask with.
    pub id: &'static str,
    /// Plain name.
    pub name: &'static str,
    /// Other names that are understood.
    pub also: &'static [&'static str],
    /// What it adds to a night's low on average, degrees Celsius.
    pub gain_c: Option<f64>,
    /// Standard deviation of that, degrees Celsius.
    pub gain_sd_c: Option<f64>,
    /// Whether it is laid over plants when needed.
    pub is_laid: bool,
    /// What to mind.
    pub watch: &'static [CoverWatch],
    /// What the figures rest on.
    pub sources: &'static [Source],
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_cover_is_found_by_each_of_its_names() {
        for one in covers() {
            for name in [one.id, one.name].iter().chain(one.also) {
                assert_eq!(cover(&name.to_uppercase()).map(Cover::id), Some(one.id), "{name}");
            }
        }
        assert!(cover("umbrella").is_none());
        assert!(cover("").is_none());
    }

    #[test]
    fn no_cover_is_a_fixed_bonus() {
        for gain in covers().iter().filter_map(Cover::gain) {
            assert!(gain.sd.get::<degree_fahrenheit>() >= 1.0);
        }
    }

    #[test]
    fn what_is_not_known_is_null() {
        let frame = serde_json::to_value(cover("cold frame").unwrap().row()).unwrap();
        assert_eq!(frame["gain_c"], serde_json::Value::Null);
        let light = serde_json::to_value(cover("row cover").unwrap().row()).unwrap();
        assert_eq!(light["gain_c"], 1.1);
    }
}
