//! The units of each quantity, by the names people give them.

use super::{
    Area, Length, Mass, Temperature, TemperatureInterval, Time, Velocity, Volume, VolumeRate,
};
use std::marker::PhantomData;
use uom::si::{
    area, length, mass, temperature_interval, thermodynamic_temperature, time, velocity, volume,
};

/// A wheelbarrow, heaped: 0.17 m³ (6 cubic feet, the trade's size; common practice).
pub const WHEELBARROW: Volume = Volume { dimension: PhantomData, units: PhantomData, value: 0.17 };

/// One unit.
pub(crate) struct Unit {
    family: Family,
    /// From this unit to the SI unit.
    pub(crate) si: fn(f64) -> f64,
    /// Every name in lower case, itself without spaces and dots; a space between two.
    /// "square" and "cubic" are written "sq" and "cu", "degrees" "°".
    names: &'static str,
}

/// Units that are written together ("4 ft 6 in") are of one family.
#[derive(Clone, Copy, PartialEq)]
enum Family {
    Us,
    Metric,
    Clock,
    /// Never written together with another.
    Alone,
}

use Family::{Alone, Clock, Metric, Us};

impl Unit {
    const fn new(family: Family, si: fn(f64) -> f64, names: &'static str) -> Self {
        Self { family, si, names }
    }

    /// Whether this unit may follow a greater one, as inches follow feet.
    pub(crate) fn may_follow(&self, greater: &Unit) -> bool {
        self.family == greater.family && self.family != Alone && (self.si)(1.0) < (greater.si)(1.0)
    }

    /// The unit meant by a last number without one, as in "4 ft 6" or "1 h 30".
    pub(crate) fn implied_next(&self) -> Option<&'static str> {
        match self.names.split(' ').next() {
            Some("ft") => Some("in"),
            Some("lb") => Some("oz"),
            Some("h") => Some("min"),
            _ => None,
        }
    }
}

/// The library's conversion to the SI unit.
macro_rules! si {
    ($quantity:ident, $($unit:tt)+) => {
        |v| $quantity::new::<$($unit)+>(v).value
    };
}

/// The unit of that name.
pub(crate) fn find(units: &'static [Unit], name: &str) -> Option<&'static Unit> {
    units.iter().find(|unit| is_among(name, unit.names))
}

/// Whether a name is one of those.
pub(crate) fn is_among(name: &str, names: &str) -> bool {
    names.split(' ').any(|one| one == name)
}

/// What a name that is no unit here ought to have said.
pub(crate) type Hint = (&'static str, &'static str);

pub(crate) const LENGTHS: &[Unit] = &[
    Unit::new(Us, si!(Length, length::inch), "in inch inches \""),
    Unit::new(Us, si!(Length, length::foot), "ft foot feet '"),
    Unit::new(Us, si!(Length, length::yard), "yd yds yard yards"),
    Unit::new(Us, si!(Length, length::mile), "mi mile miles"),
    Unit::new(
        Metric,
        si!(Length, length::millimeter),
        "mm millimetre millimetres millimeter millimeters",
    ),
    Unit::new(
        Metric,
        si!(Length, length::centimeter),
        "cm cms centimetre centimetres centimeter centimeters",
    ),
    Unit::new(Metric, si!(Length, length::meter), "m metre metres meter meters"),
    Unit::new(
        Metric,
        si!(Length, length::kilometer),
        "km kilometre kilometres kilometer kilometers",
    ),
];

pub(crate) const AREAS: &[Unit] = &[
    Unit::new(Alone, si!(Area, area::square_inch), "sqin sqinch sqinches in2 inch2 inches2"),
    Unit::new(Alone, si!(Area, area::square_foot), "sqft sqfoot sqfeet ft2 foot2 feet2"),
    Unit::new(Alone, si!(Area, area::square_yard), "sqyd sqyds sqyard sqyards yd2"),
    Unit::new(
        Alone,
        si!(Area, area::square_centimeter),
        "cm2 sqcm sqcentimetre sqcentimetres sqcentimeter sqcentimeters",
    ),
    Unit::new(Alone, si!(Area, area::square_meter), "m2 sqm sqmetre sqmetres sqmeter sqmeters"),
];

pub(crate) const AREA_HINTS: &[Hint] = &[(
    "ft foot feet ' m metre metres meter meters",
    "that is a length; write both sides, such as 4 x 8 ft, or sq ft or m2",
)];

pub(crate) const VOLUMES: &[Unit] = &[
    Unit::new(Us, si!(Volume, volume::teaspoon), "tsp tsps teaspoon teaspoons"),
    Unit::new(Us, si!(Volume, volume::tablespoon), "tbsp tbsps tablespoon tablespoons"),
    Unit::new(Us, si!(Volume, volume::fluid_ounce), "floz fluidoz fluidounce fluidounces"),
    Unit::new(Us, si!(Volume, volume::cup), "cup cups"),
    Unit::new(Us, si!(Volume, volume::pint_liquid), "pt pts pint pints"),
    Unit::new(Us, si!(Volume, volume::quart_liquid), "qt qts quart quarts"),
    Unit::new(Us, si!(Volume, volume::gallon), "gal gals gallon gallons usgal usgallon usgallons"),
    Unit::new(Us, si!(Volume, volume::cubic_inch), "cuin cuinch cuinches in3"),
    Unit::new(Us, si!(Volume, volume::cubic_foot), "cuft cufoot cufeet ft3 foot3 feet3 cf"),
    Unit::new(Us, si!(Volume, volume::cubic_yard), "cuyd cuyds cuyard cuyards yd3"),
    Unit::new(
        Metric,
        si!(Volume, volume::milliliter),
        "ml millilitre millilitres milliliter milliliters cc cm3 cucm",
    ),
    Unit::new(
        Metric,
        si!(Volume, volume::centiliter),
        "cl centilitre centilitres centiliter centiliters",
    ),
    Unit::new(
        Metric,
        si!(Volume, volume::deciliter),
        "dl decilitre decilitres deciliter deciliters",
    ),
    Unit::new(Metric, si!(Volume, volume::liter), "l litre litres liter liters ltr ltrs"),
    Unit::new(Metric, si!(Volume, volume::cubic_meter), "m3 cum cumetre cumetres cumeter cumeters"),
    Unit::new(
        Alone,
        |v| v * WHEELBARROW.value,
        "wheelbarrow wheelbarrows barrow barrows wheelbarrowload wheelbarrowloads barrowload \
         barrowloads wheelbarrowful wheelbarrowfuls",
    ),
];

pub(crate) const VOLUME_HINTS: &[Hint] = &[
    ("oz ozs ounce ounces", "oz is a weight; for a volume write fl oz"),
    (
        "bucket buckets bucketful bucketfuls",
        "buckets differ; write how much one holds, such as 5 gal or 10 litres for each",
    ),
    ("yd yds yard yards", "write cubic yards, such as 2 cu yd"),
    ("bag bags sack sacks", "bags differ; write what they hold, such as 2 cu ft or 50 litres"),
];

pub(crate) const MASSES: &[Unit] = &[
    Unit::new(Us, si!(Mass, mass::ounce), "oz ozs ounce ounces"),
    Unit::new(Us, si!(Mass, mass::pound), "lb lbs pound pounds"),
    Unit::new(Metric, si!(Mass, mass::milligram), "mg milligram milligrams"),
    Unit::new(Metric, si!(Mass, mass::gram), "g gr gram grams gramme grammes"),
    Unit::new(Metric, si!(Mass, mass::kilogram), "kg kgs kilo kilos kilogram kilograms"),
];

pub(crate) const MASS_HINTS: &[Hint] =
    &[("floz fluidounce fluidounces", "fl oz is a volume; for a weight write oz")];

const FAHRENHEIT: &str = "f °f f° degf fahrenheit °fahrenheit";
const CELSIUS: &str = "c °c c° degc celsius °celsius centigrade °centigrade";

pub(crate) const TEMPERATURES: &[Unit] = &[
    Unit::new(Alone, si!(Temperature, thermodynamic_temperature::degree_fahrenheit), FAHRENHEIT),
    Unit::new(Alone, si!(Temperature, thermodynamic_temperature::degree_celsius), CELSIUS),
];

pub(crate) const TEMPERATURE_INTERVALS: &[Unit] = &[
    Unit::new(Alone, si!(TemperatureInterval, temperature_interval::degree_fahrenheit), FAHRENHEIT),
    Unit::new(Alone, si!(TemperatureInterval, temperature_interval::degree_celsius), CELSIUS),
];

pub(crate) const TEMPERATURE_HINTS: &[Hint] = &[("°", "Fahrenheit or Celsius? Write F or C")];

pub(crate) const TIMES: &[Unit] = &[
    Unit::new(Clock, si!(Time, time::second), "s sec secs second seconds"),
    Unit::new(Clock, si!(Time, time::minute), "min mins minute minutes m"),
    Unit::new(Clock, si!(Time, time::hour), "h hr hrs hour hours"),
    Unit::new(Clock, si!(Time, time::day), "d day days"),
    Unit::new(Clock, |v| Time::new::<time::day>(v * 7.0).value, "wk wks week weeks"),
];

pub(crate) const TIME_HINTS: &[Hint] =
    &[("month months year years yr yrs", "months and years differ in length; write days or weeks")];

pub(crate) const VOLUME_RATES: &[Unit] = &[
    Unit::new(Alone, |v| per::<time::hour>(Volume::new::<volume::gallon>(v)), "gph"),
    Unit::new(Alone, |v| per::<time::minute>(Volume::new::<volume::gallon>(v)), "gpm"),
    Unit::new(Alone, |v| per::<time::hour>(Volume::new::<volume::liter>(v)), "lph"),
    Unit::new(Alone, |v| per::<time::minute>(Volume::new::<volume::liter>(v)), "lpm"),
];

pub(crate) const VELOCITIES: &[Unit] = &[
    Unit::new(Alone, si!(Velocity, velocity::mile_per_hour), "mph"),
    Unit::new(Alone, si!(Velocity, velocity::kilometer_per_hour), "kph kmh kmph"),
    Unit::new(Alone, si!(Velocity, velocity::knot), "kn kt kts knot knots"),
];

fn per<T: time::Unit + time::Conversion<f64>>(volume: Volume) -> f64 {
    let rate: VolumeRate = volume / Time::new::<T>(1.0);
    rate.value
}
