//! A crop as the door gives it: SI numbers with the unit at the end of the field's name.

use chrono::TimeDelta;
use serde::{Serialize, Serializer};
use uom::si::area::square_meter;
use uom::si::length::meter;
use uom::si::mass::{gram, kilogram};
use uom::si::thermodynamic_temperature::degree_celsius;

use super::crop::{Crop, Range, Span};
use super::words::{
    Deeper, Family, Feeder, Habit, Hardening, Hardiness, Height, Kind, Pick, Spread, Start,
};
use crate::quantity::{Area, Length, Mass, Temperature};
use crate::source::Source;

/// One crop in the answer to the topic `catalogue`. What is not known is null.
#[derive(Clone, Debug, Serialize)]
pub struct Row {
    /// The id to ask with.
    pub id: &'static str,
    /// Plain name.
    pub name: &'static str,
    /// Other names that are understood.
    pub also: &'static [&'static str],
    /// What it is grown for.
    pub kind: Kind,
    /// Its plant family; the chief one of a mixture.
    pub family: Family,
    /// The other family of a mixture.
    pub mixed_with: Option<Family>,
    /// Years until its family should come back to the same soil.
    pub rotation_years: u8,
    /// What goes into the ground, the usual way first.
    pub start: &'static [Start],
    /// Space between plants in a bed.
    pub spacing: Option<RowSpacing>,
    /// How it stands beside the bed's side.
    pub habit: Habit,
    /// From the bed's side to the nearest plant on a drip bed, metres.
    pub edge_margin_m: f64,
    /// Height class when grown.
    pub height: Height,
    /// Spread class when grown.
    pub spread: Spread,
    /// How much it feeds.
    pub feeder: Option<Feeder>,
    /// Whether publications disagree on that.
    pub feeder_disputed: bool,
    /// How it is taken.
    pub pick: Option<Pick>,
    /// Days between pickings in warm weather.
    pub pick_interval_days: Option<Span<i64>>,
    /// Days from sowing or planting out to the first harvest.
    pub to_harvest_days: Option<Span<i64>>,
    /// Frost class.
    pub hardiness: Hardiness,
    /// Leaf temperature to cover below, degrees Celsius.
    pub cover_below_c: f64,
    /// Leaf temperature that kills the usual kinds, degrees Celsius.
    pub kill_c: Option<f64>,
    /// The same from the hardiest to the tenderest kinds.
    pub kill_range_c: Option<Span<f64>>,
    /// A part that dies at another temperature.
    pub part: Option<RowPart>,
    /// How a young plant is got used to outdoors.
    pub hardening: Option<Hardening>,
    /// Lowest air meanwhile, degrees Celsius.
    pub lowest_air_c: Option<f64>,
    /// Weeks from sowing to planting out, in a heated house.
    pub weeks_to_plant: Option<Span<i64>>,
    /// Soil warm enough to plant out, degrees Celsius.
    pub soil_to_plant_c: Option<f64>,
    /// Soil too cold to plant out below, degrees Celsius.
    pub soil_stop_c: Option<f64>,
    /// Whether the stem may go deeper than it grew.
    pub deeper: Option<Deeper>,
    /// Seeds in a gram.
    pub seeds_per_g: Option<Span<f64>>,
    /// Cloves, sets or cut pieces in a kilogram.
    pub pieces_per_kg: Option<Range<f64>>,
    /// Seed of a cover crop, grams on a square metre.
    pub seed_g_per_m2: Option<Span<f64>>,
    /// Whether people commonly eat it.
    pub eaten: bool,
    /// What can hurt, to be shown.
    pub cautions: &'static [&'static str],
    /// What the figures rest on.
    pub sources: Vec<Source>,
}

/// The published range of space between plants.
#[derive(Clone, Debug, Serialize)]
pub struct RowSpacing {
    /// The least, metres.
    pub least_m: f64,
    /// The one to go by, metres.
    pub usual_m: f64,
    /// The most, metres.
    pub most_m: f64,
}

/// A part of a crop that frost takes sooner or later than the leaves.
#[derive(Clone, Debug, Serialize)]
pub struct RowPart {
    /// "curd", "flower".
    pub name: &'static str,
    /// Temperature that kills it, degrees Celsius.
    pub kill_c: f64,
}

impl Crop {
    /// The crop as the door gives it.
    pub fn row(&self) -> Row {
        let one = |quantity: Mass| rounded(1.0 / quantity.get::<gram>(), 100.0);
        let in_kilogram = |quantity: Mass| rounded(1.0 / quantity.get::<kilogram>(), 10.0);
        let square_metre = Area::new::<square_meter>(1.0);
        Row {
            id: self.id(),
            name: self.name(),
            also: self.also(),
            kind: self.kind(),
            family: self.family(),
            mixed_with: self.mixed_with(),
            rotation_years: self.rotation_years(),
            start: self.starts(),
            spacing: self.spacing().map(|Range { least, usual, most }| RowSpacing {
                least_m: metres(least),
                usual_m: metres(usual),
                most_m: metres(most),
            }),
            habit: self.habit(),
            edge_margin_m: metres(self.habit().edge_margin()),
            height: self.height(),
            spread: self.spread(),
            feeder: self.feeder(),
            feeder_disputed: self.feeder_disputed(),
            pick: self.pick(),
            pick_interval_days: self.pick_interval().map(|span| span.map(|time| time.num_days())),
            to_harvest_days: self.days_to_harvest().map(|span| span.map(|time| time.num_days())),
            hardiness: self.hardiness(),
            cover_below_c: celsius(self.cover_below()),
            kill_c: self.kill_temperature().map(celsius),
            kill_range_c: self.kill_range().map(|span| span.map(celsius)),
            part: self
                .part()
                .map(|part| RowPart { name: part.name, kill_c: celsius(part.killed_at) }),
            hardening: self.hardening(),
            lowest_air_c: self.lowest_air().map(celsius),
            weeks_to_plant: self
                .weeks_to_plant()
                .map(|span| span.map(|time: TimeDelta| time.num_weeks())),
            soil_to_plant_c: self.soil_to_plant().map(celsius),
            soil_stop_c: self.soil_stop().map(celsius),
            deeper: self.deeper(),
            // The heaviest seed is the fewest to the gram.
            seeds_per_g: self
                .seed_mass()
                .map(|Span { least, most }| Span { least: one(most), most: one(least) }),
            pieces_per_kg: self.piece_mass().map(|Range { least, usual, most }| Range {
                least: in_kilogram(most),
                usual: in_kilogram(usual),
                most: in_kilogram(least),
            }),
            seed_g_per_m2: self
                .seed_for(square_metre)
                .map(|span| span.map(|mass| rounded(mass.get::<gram>(), 100.0))),
            eaten: self.eaten(),
            cautions: self.cautions(),
            sources: self.all_sources(),
        }
    }
}

/// As its [`Row`].
impl Serialize for Crop {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.row().serialize(serializer)
    }
}

impl<T> Span<T> {
    fn map<U>(self, change: impl Fn(T) -> U) -> Span<U> {
        Span { least: change(self.least), most: change(self.most) }
    }
}

fn metres(length: Length) -> f64 {
    rounded(length.get::<meter>(), 1e6)
}

fn celsius(temperature: Temperature) -> f64 {
    rounded(temperature.get::<degree_celsius>(), 10.0)
}

/// To the nearest 1 / `parts`, which also clears what turning units left behind.
fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::{crop, crops};
    use super::*;

    fn row(id: &str) -> Value {
        serde_json::to_value(crop(id).ok().unwrap()).unwrap()
    }

    #[test]
    fn a_row_has_si_numbers_and_words() {
        let cabbage = row("cabbage");
        assert_eq!(cabbage["id"], "cabbage");
        assert_eq!(cabbage["family"], "cabbage");
        assert_eq!(
            cabbage["spacing"],
            json!({"least_m": 0.381, "usual_m": 0.4572, "most_m": 0.4572})
        );
        assert_eq!(cabbage["edge_margin_m"], 0.0762);
        assert_eq!(cabbage["kill_c"], -4.7);
        assert_eq!(cabbage["kill_range_c"], json!({"least": -6.7, "most": -2.8}));
        assert_eq!(cabbage["weeks_to_plant"], json!({"least": 4, "most": 7}));
        assert_eq!(cabbage["deeper"], "to-seed-leaves");
        assert_eq!(row("pea-oat")["mixed_with"], "grass");
        assert_eq!(row("tomato")["hardening"], "tender-65");
        assert_eq!(
            row("garlic")["pieces_per_kg"],
            json!({"least": 44.1, "usual": 110.2, "most": 176.4})
        );
        assert_eq!(row("tomato")["seeds_per_g"], json!({"least": 388.01, "most": 388.01}));
        assert!(cabbage["sources"].as_array().unwrap().contains(&json!(Source::OldsChart.cite())));
    }

    #[test]
    fn what_is_not_known_is_null_and_never_absent() {
        let whole: Vec<String> = row("cabbage").as_object().unwrap().keys().cloned().collect();
        for one in crops() {
            let keys: Vec<String> = row(one.id()).as_object().unwrap().keys().cloned().collect();
            assert_eq!(keys, whole);
        }
        assert_eq!(row("rye")["spacing"], Value::Null);
        assert_eq!(row("carrot")["weeks_to_plant"], Value::Null);
    }

    #[test]
    fn zero_is_never_written_with_a_minus() {
        for one in crops() {
            let text = serde_json::to_string(one).unwrap();
            assert!(!text.contains("-0.0,") && !text.contains("-0.0}"), "{text}");
        }
    }
}
