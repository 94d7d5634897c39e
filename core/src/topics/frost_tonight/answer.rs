//! What a cold night does, as data.

use uom::si::{
    temperature_interval::degree_celsius as kelvin, thermodynamic_temperature::degree_celsius,
};

use super::worked::{BedWorked, CropTonight};
use crate::{
    catalogue::Cover,
    frost::low::{AirLow, BedLow},
    given::words,
    quantity::{Temperature, Time, hundredths, thousandths},
    words::sky::{Sky, Wind},
};

/// What a cold night does, and what to cover.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The likely low among the leaves of the bed, the coldest of several, °C.
    pub bed_low_c: f64,
    /// Standard deviation of its error, °C.
    pub bed_low_sd_c: f64,
    /// For each crop the chance that its leaves come down to what kills it, uncovered, 0 to 1; in the worst bed.
    pub harm: Chances,
    /// The same under the cover it gets, or under one such cover where none is left for it.
    pub with_cover: Chances,
    /// The crops to cover, in order of what a cover is expected to save; of several beds, those of the beds that get one.
    pub cover: Vec<&'static str>,
    /// The crops in danger, in some bed, for which no cover is left or which no cover saves.
    pub left_bare: Vec<&'static str>,
    /// Each bed, in the order asked.
    pub beds: Vec<AtBed>,
}

/// A chance for each crop, by its id.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chances(pub Vec<(&'static str, f64)>);

impl serde::Serialize for Chances {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().copied())
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Chances {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Chances".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "object", "additionalProperties": { "type": "number" } })
    }
}

/// One bed.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AtBed {
    /// Its name; null for the one bed a question is about.
    pub bed: Option<String>,
    /// The likely low among its leaves, °C.
    pub low_c: f64,
    /// Standard deviation of its error, °C.
    pub low_sd_c: f64,
    /// Bed minus air, °C: as learned from its own nights, or else as usual.
    pub difference_c: f64,
    /// How many of its own nights that rests on.
    pub nights: u32,
    /// The place among the beds to cover, from 1; null where it gets no cover.
    pub cover_as: Option<u32>,
    /// The cover it gets.
    pub cover: Option<&'static str>,
    /// Nine such nights in ten end between this, °C,
    pub low_from_c: f64,
    /// and this.
    pub low_to_c: f64,
    /// What grows there.
    pub crops: Vec<AtCrop>,
}

/// One crop of a bed.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AtCrop {
    /// Its catalogue id.
    pub crop: &'static str,
    /// How many plants there are.
    pub count: Option<u32>,
    /// The chance of harm, uncovered, 0 to 1.
    pub harm: f64,
    /// The same under its cover.
    pub with_cover: f64,
    /// The cover it gets.
    pub cover: Option<&'static str>,
    /// The cover that `with_cover` is reckoned with where it gets none.
    pub reckoned_with: &'static str,
    /// What becomes of it.
    pub verdict: Verdict,
}

words! {
    /// What becomes of a crop tonight.
    pub enum Verdict {
        /// It gets a cover.
        Cover = "cover",
        /// In danger, and no cover is left for it.
        NoneLeft = "none-left",
        /// In danger, and no cover there is saves it.
        PastSaving = "past-saving",
        /// Worth a thought.
        InDoubt = "in-doubt",
        /// It needs nothing.
        Safe = "safe",
    }
}

/// Everything the words are made from.
pub(super) struct Found {
    pub sky: Sky,
    pub wind: Wind,
    /// How far the night is like a clear and calm one, 0 to 1.
    pub clear_part: f64,
    pub air: AirLow,
    pub forecast: Option<Temperature>,
    /// The texts that go into the record.
    pub forecast_text: Option<String>,
    pub beds: Vec<BedWorked>,
    /// Whether covers go to beds rather than to crops.
    pub by_bed: bool,
    /// Crops or beds in the order in which they get a cover: bed, crop.
    pub order: Vec<(usize, usize)>,
    pub covers_given: bool,
    /// The cover that is reckoned with where it is not said which.
    pub usual_cover: &'static Cover,
    /// How long after sunset the air reaches freezing, and for how long it stays there.
    pub freezing: Option<(Time, Time)>,
    pub grass: Option<Temperature>,
    /// What stands out that the catalogue does not know.
    pub unknown: Vec<String>,
}

pub(super) fn numbers(found: &Found, coldest: &BedLow) -> Answer {
    let mut answer = Answer {
        bed_low_c: hundredths(coldest.expected.low.get::<degree_celsius>()),
        bed_low_sd_c: hundredths(coldest.expected.sd.get::<kelvin>()),
        harm: Chances::default(),
        with_cover: Chances::default(),
        cover: Vec::new(),
        left_bare: Vec::new(),
        beds: Vec::new(),
    };
    for crop in found.beds.iter().flat_map(|bed| &bed.crops) {
        let id = crop.crop.id();
        let (harm, covered) = (thousandths(crop.bare), thousandths(crop.covered));
        match answer.harm.0.iter().position(|(other, _)| *other == id) {
            None => {
                answer.harm.0.push((id, harm));
                answer.with_cover.0.push((id, covered));
            }
            Some(at) => {
                // Of the same crop in several beds the worst is told.
                if let (Some(known), Some(under)) =
                    (answer.harm.0.get_mut(at), answer.with_cover.0.get_mut(at))
                    && known.1 < harm
                {
                    (known.1, under.1) = (harm, covered);
                }
            }
        }
    }
    let ordered = found.order.iter();
    let ids = ordered.filter_map(|(at, index)| found.beds.get(*at)?.crops.get(*index));
    for id in ids.map(|crop| crop.crop.id()) {
        if !answer.cover.contains(&id) {
            answer.cover.push(id);
        }
    }
    for crop in found.beds.iter().flat_map(|bed| &bed.crops) {
        let id = crop.crop.id();
        if crop.in_danger() && crop.cover.is_none() && !answer.left_bare.contains(&id) {
            answer.left_bare.push(id);
        }
    }
    let mut order: Vec<usize> = Vec::new();
    for (at, _) in &found.order {
        if !order.contains(at) {
            order.push(*at);
        }
    }
    for (at, bed) in found.beds.iter().enumerate() {
        let place = order.iter().position(|one| *one == at);
        let (from, to) = bed.low.expected.range(0.9);
        answer.beds.push(AtBed {
            bed: bed.name.clone(),
            low_c: hundredths(bed.low.expected.low.get::<degree_celsius>()),
            low_sd_c: hundredths(bed.low.expected.sd.get::<kelvin>()),
            difference_c: hundredths(bed.low.difference.likely.get::<kelvin>()),
            nights: bed.low.difference.nights,
            cover_as: place.and_then(|place| u32::try_from(place + 1).ok()),
            cover: bed.crops.iter().find_map(|crop| crop.cover).map(Cover::id),
            low_from_c: hundredths(from.get::<degree_celsius>()),
            low_to_c: hundredths(to.get::<degree_celsius>()),
            crops: bed.crops.iter().map(|crop| at_crop(crop, found)).collect(),
        });
    }
    answer
}

fn at_crop(crop: &CropTonight, found: &Found) -> AtCrop {
    let verdict = match crop.cover {
        _ if !crop.in_danger() && crop.in_doubt() => Verdict::InDoubt,
        _ if !crop.in_danger() => Verdict::Safe,
        Some(_) => Verdict::Cover,
        None if crop.past_saving() => Verdict::PastSaving,
        None => Verdict::NoneLeft,
    };
    AtCrop {
        crop: crop.crop.id(),
        count: crop.count,
        harm: thousandths(crop.bare),
        with_cover: thousandths(crop.covered),
        cover: crop.cover.map(Cover::id),
        reckoned_with: found.usual_cover.id(),
        verdict,
    }
}
