//! Quantities read as people write them.

use super::phrase::{Kind, si, sides};
use super::units;
use super::{
    Area, Length, Mass, System, Temperature, TemperatureInterval, Time, Unreadable, Velocity,
    Volume, VolumeRate, show,
};

/// A quantity that people write and read with its unit.
///
/// As a person writes it, and why it can't be read:
/// ```
/// use pegline_core::quantity::{Length, Quantity, System, unit::length::inch};
/// let bed = <Length as Quantity>::read("4 ft 6 in").unwrap();
/// assert!((bed.get::<inch>() - 54.0).abs() < 1e-9);
/// assert!(<Length as Quantity>::read("18").unwrap_err().why.contains("unit"));
/// ```
pub trait Quantity: Sized + Copy {
    /// What it is, in a gardener's words: "length".
    const WHAT: &'static str;
    /// How it may be written: "9 in, 23 cm or 4 ft 6 in".
    const EXAMPLES: &'static str;
    /// The units of a bare number in a form, US and metric, where forms name one.
    const UNITS: Option<(&'static str, &'static str)> = None;

    /// Reads a number with its unit. A sign is taken as written: the range is for the caller.
    ///
    /// # Errors
    /// In plain words, when there is no unit, another quantity's unit, no finite number, or more
    /// than one reading.
    fn read(text: &str) -> Result<Self, Unreadable>;

    /// Prints it as a gardener would say it, rounded; "unknown" for the number if not finite.
    fn show(self, system: System) -> String;
}

impl Quantity for Length {
    const WHAT: &'static str = "length";
    const EXAMPLES: &'static str = "9 in, 23 cm or 4 ft 6 in";
    const UNITS: Option<(&'static str, &'static str)> = Some(("in", "cm"));

    fn read(text: &str) -> Result<Self, Unreadable> {
        read::<Self>(text, &LENGTH).map(Self::new::<uom::si::length::meter>)
    }

    fn show(self, system: System) -> String {
        show::length(self, system)
    }
}

impl Quantity for Area {
    const WHAT: &'static str = "area";
    const EXAMPLES: &'static str = "32 sq ft, 3 m2 or 4 x 8 ft";

    fn read(text: &str) -> Result<Self, Unreadable> {
        let sides = sides(text, &LENGTH, Self::WHAT)
            .map_err(|why| unreadable(Self::WHAT, Self::EXAMPLES, why))?;
        match sides {
            Some(area) if area.is_finite() => Ok(area),
            Some(_) => Err(unreadable(Self::WHAT, Self::EXAMPLES, "that is too large".to_owned())),
            None => read::<Self>(text, &AREA),
        }
        .map(Self::new::<uom::si::area::square_meter>)
    }

    fn show(self, system: System) -> String {
        show::area(self, system)
    }
}

impl Quantity for Volume {
    const WHAT: &'static str = "volume";
    const EXAMPLES: &'static str = "20 gal, 75 litres, 3 cu ft or 2 wheelbarrows";

    fn read(text: &str) -> Result<Self, Unreadable> {
        read::<Self>(text, &VOLUME).map(Self::new::<uom::si::volume::cubic_meter>)
    }

    fn show(self, system: System) -> String {
        show::volume(self, system)
    }
}

impl Quantity for Mass {
    const WHAT: &'static str = "weight";
    const EXAMPLES: &'static str = "2 lb, 12 oz, 340 g or 1.1 kg";
    const UNITS: Option<(&'static str, &'static str)> = Some(("lb", "kg"));

    fn read(text: &str) -> Result<Self, Unreadable> {
        read::<Self>(text, &MASS).map(Self::new::<uom::si::mass::kilogram>)
    }

    fn show(self, system: System) -> String {
        show::mass(self, system)
    }
}

impl Quantity for Temperature {
    const WHAT: &'static str = "temperature";
    const EXAMPLES: &'static str = "50 F or 10 C";
    const UNITS: Option<(&'static str, &'static str)> = Some(("F", "C"));

    fn read(text: &str) -> Result<Self, Unreadable> {
        read::<Self>(text, &TEMPERATURE)
            .map(Self::new::<uom::si::thermodynamic_temperature::kelvin>)
    }

    fn show(self, system: System) -> String {
        show::temperature(self, system)
    }
}

impl Quantity for TemperatureInterval {
    const WHAT: &'static str = "difference of temperature";
    const EXAMPLES: &'static str = "4 F or 2 C";

    fn read(text: &str) -> Result<Self, Unreadable> {
        read::<Self>(text, &TEMPERATURE_INTERVAL)
            .map(Self::new::<uom::si::temperature_interval::kelvin>)
    }

    fn show(self, system: System) -> String {
        show::temperature_interval(self, system)
    }
}

impl Quantity for Time {
    const WHAT: &'static str = "time";
    const EXAMPLES: &'static str = "45 min, 1 h 30 min or 3 days";

    fn read(text: &str) -> Result<Self, Unreadable> {
        read::<Self>(text, &TIME).map(Self::new::<uom::si::time::second>)
    }

    fn show(self, _system: System) -> String {
        show::time(self)
    }
}

impl Quantity for VolumeRate {
    const WHAT: &'static str = "flow";
    const EXAMPLES: &'static str = "0.5 gal/h, 2 L/h or 5 gpm";
    const UNITS: Option<(&'static str, &'static str)> = Some(("gal/h", "l/h"));

    fn read(text: &str) -> Result<Self, Unreadable> {
        read::<Self>(text, &VOLUME_RATE)
            .map(Self::new::<uom::si::volume_rate::cubic_meter_per_second>)
    }

    fn show(self, system: System) -> String {
        show::volume_rate(self, system)
    }
}

impl Quantity for Velocity {
    const WHAT: &'static str = "wind speed";
    const EXAMPLES: &'static str = "15 mph, 24 km/h or 7 m/s";

    fn read(text: &str) -> Result<Self, Unreadable> {
        read::<Self>(text, &VELOCITY).map(Self::new::<uom::si::velocity::meter_per_second>)
    }

    fn show(self, system: System) -> String {
        show::velocity(self, system)
    }
}

const LENGTH: Kind = Kind { bare_zero: true, ..Kind::new(units::LENGTHS, ["in", "cm"]) };
const AREA: Kind = Kind { hints: units::AREA_HINTS, ..Kind::new(units::AREAS, ["sq ft", "m2"]) };
const VOLUME: Kind =
    Kind { hints: units::VOLUME_HINTS, ..Kind::new(units::VOLUMES, ["gal", "litres"]) };
const MASS: Kind = Kind { hints: units::MASS_HINTS, ..Kind::new(units::MASSES, ["lb", "kg"]) };
const TEMPERATURE: Kind =
    Kind { hints: units::TEMPERATURE_HINTS, ..Kind::new(units::TEMPERATURES, ["F", "C"]) };
const TEMPERATURE_INTERVAL: Kind =
    Kind { hints: units::TEMPERATURE_HINTS, ..Kind::new(units::TEMPERATURE_INTERVALS, ["F", "C"]) };
const TIME: Kind = Kind { hints: units::TIME_HINTS, ..Kind::new(units::TIMES, ["min", "hours"]) };
const VOLUME_RATE: Kind =
    Kind { per_time: Some(units::VOLUMES), ..Kind::new(units::VOLUME_RATES, ["gal/h", "L/h"]) };
const VELOCITY: Kind =
    Kind { per_time: Some(units::LENGTHS), ..Kind::new(units::VELOCITIES, ["mph", "km/h"]) };

fn read<Q: Quantity>(text: &str, kind: &Kind) -> Result<f64, Unreadable> {
    si(text, kind, Q::WHAT).map_err(|why| unreadable(Q::WHAT, Q::EXAMPLES, why))
}

fn unreadable(what: &str, examples: &str, why: String) -> Unreadable {
    let article = if what.starts_with('a') { "an" } else { "a" };
    Unreadable { allowed: format!("{article} {what} with its unit, such as {examples}"), why }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Each text gives the SI value to the seven digits of the conversion tables.
    fn reads<Q: Quantity>(si: fn(Q) -> f64, rows: &[(&str, f64)]) {
        for (text, expected) in rows {
            let value = Q::read(text).map(si);
            let value = value.unwrap_or_else(|refused| panic!("{text}: {refused:?}"));
            let error = (value - expected).abs();
            assert!(error <= 3e-7 * expected.abs(), "{text}: {value}, not {expected}");
        }
    }

    fn refuses<Q: Quantity>(rows: &[(&str, &str)]) {
        for (text, part) in rows {
            match Q::read(text) {
                Ok(value) => panic!("{text} read as {}", value.show(System::Us)),
                Err(refused) => assert!(refused.why.contains(part), "{text}: {}", refused.why),
            }
        }
    }

    const INCH: f64 = 0.0254;
    const FOOT: f64 = 0.3048;

    #[test]
    fn lengths_are_read_as_people_write_them() {
        reads::<Length>(
            |v| v.value,
            &[
                ("9 in", 9.0 * INCH),
                ("9in", 9.0 * INCH),
                ("9 In.", 9.0 * INCH),
                ("1 inch", INCH),
                ("9 inches", 9.0 * INCH),
                ("9\"", 9.0 * INCH),
                ("9”", 9.0 * INCH),
                ("9″", 9.0 * INCH),
                ("9''", 9.0 * INCH),
                ("9\u{a0}in", 9.0 * INCH),
                ("9\u{2009}in", 9.0 * INCH),
                ("18-in", 18.0 * INCH),
                ("4 1/2 in", 4.5 * INCH),
                ("4½ in", 4.5 * INCH),
                ("4½\"", 4.5 * INCH),
                ("4 1/2-inch", 4.5 * INCH),
                ("half an inch", 0.5 * INCH),
                ("a quarter inch", 0.25 * INCH),
                ("a quarter of an inch", 0.25 * INCH),
                ("three quarters of an inch", 0.75 * INCH),
                ("one and a half inches", 1.5 * INCH),
                ("1 ft", FOOT),
                ("8 feet", 8.0 * FOOT),
                ("a foot", FOOT),
                ("4'", 4.0 * FOOT),
                ("4’", 4.0 * FOOT),
                ("4′", 4.0 * FOOT),
                ("4 ft 6 in", 4.5 * FOOT),
                ("4ft6in", 4.5 * FOOT),
                ("4ft2in", 50.0 * INCH),
                ("4 ft. 6 in.", 4.5 * FOOT),
                ("4 ft, 6 in", 4.5 * FOOT),
                ("4 feet and 6 inches", 4.5 * FOOT),
                ("four feet six inches", 4.5 * FOOT),
                ("4'6\"", 4.5 * FOOT),
                ("4' 6''", 4.5 * FOOT),
                ("4'-6\"", 4.5 * FOOT),
                ("4'6", 4.5 * FOOT),
                ("4 ft 6", 4.5 * FOOT),
                ("4' 6 1/2\"", 54.5 * INCH),
                ("4'6½\"", 54.5 * INCH),
                ("a foot and a half", 1.5 * FOOT),
                ("2 ft and a half inch", 24.5 * INCH),
                ("-4 ft 6 in", -4.5 * FOOT),
                ("−2 in", -2.0 * INCH),
                ("1 yd", 0.9144),
                ("2 yards 1 foot", 7.0 * FOOT),
                ("1 mile", 1609.344),
                ("23 cm", 0.23),
                ("23 CM", 0.23),
                ("23cm.", 0.23),
                ("23,5 cm", 0.235),
                ("230 mm", 0.23),
                ("1\u{202f}500 mm", 1.5),
                ("1.2 m", 1.2),
                ("1,2 m", 1.2),
                ("1 m 20 cm", 1.2),
                ("2 metres", 2.0),
                ("2 meters", 2.0),
                ("1 km", 1000.0),
                ("0", 0.0),
                ("0.0", 0.0),
                ("0 in", 0.0),
            ],
        );
    }

    #[test]
    #[expect(clippy::too_many_lines, reason = "a table")]
    fn the_other_quantities_are_read_as_people_write_them() {
        reads::<Area>(
            |v| v.value,
            &[
                ("32 sq ft", 32.0 * FOOT * FOOT),
                ("32 sq. ft.", 32.0 * FOOT * FOOT),
                ("32 square feet", 32.0 * FOOT * FOOT),
                ("32 ft2", 32.0 * FOOT * FOOT),
                ("32 ft²", 32.0 * FOOT * FOOT),
                ("32 ft^2", 32.0 * FOOT * FOOT),
                ("4 x 8 ft", 32.0 * FOOT * FOOT),
                ("4x2 m", 8.0),
                ("4' × 8'", 32.0 * FOOT * FOOT),
                ("4 ft 6 in by 8 ft", 36.0 * FOOT * FOOT),
                ("4 by 8 ft 6 in", 34.0 * FOOT * FOOT),
                ("48 in x 8 ft", 32.0 * FOOT * FOOT),
                ("3 m2", 3.0),
                ("3 square metres", 3.0),
                ("3,5 m²", 3.5),
            ],
        );
        reads::<Volume>(
            |v| v.get::<uom::si::volume::liter>(),
            &[
                ("20 gal", 75.708_24),
                ("20 gallons", 75.708_24),
                ("half a gallon", 1.892_706),
                ("a half-gallon", 1.892_706),
                ("5-gal", 18.927_06),
                ("1 gal 2 qt", 5.678_118),
                ("12 fl oz", 0.354_882_4),
                ("12 fl. oz.", 0.354_882_4),
                ("12 fluid ounces", 0.354_882_4),
                ("75 l", 75.0),
                ("75 L", 75.0),
                ("75 litres", 75.0),
                ("75 liters", 75.0),
                ("500 ml", 0.5),
                ("5 dl", 0.5),
                ("3 cu ft", 84.950_55),
                ("3 cubic feet", 84.950_55),
                ("3 ft3", 84.950_55),
                ("3 ft³", 84.950_55),
                ("1 yd3", 764.554_9),
                ("1 cubic yard", 764.554_9),
                ("0.2 m3", 200.0),
                ("0.2 cubic metres", 200.0),
                ("3 wheelbarrows", 510.0),
                ("a wheelbarrow", 170.0),
                ("half a wheelbarrow", 85.0),
                ("a wheelbarrow and a half", 255.0),
                ("2 wheelbarrow loads", 340.0),
            ],
        );
        reads::<Mass>(
            |v| v.value,
            &[
                ("2 lb", 0.907_184_7),
                ("2 lbs.", 0.907_184_7),
                ("2 pounds", 0.907_184_7),
                ("2 lb 3 oz", 0.992_233_3),
                ("12 oz", 0.340_194_2),
                ("half a pound", 0.226_796_2),
                ("340 g", 0.34),
                ("340 grams", 0.34),
                ("1,1 kg", 1.1),
                ("2 kilos", 2.0),
                ("1 kg 200 g", 1.2),
            ],
        );
        reads::<Time>(
            |v| v.value,
            &[
                ("81 min", 4860.0),
                ("1 h 21 min", 4860.0),
                ("1h21", 4860.0),
                ("1 hr 21", 4860.0),
                ("1 hour and 21 minutes", 4860.0),
                ("1h 21m", 4860.0),
                ("half an hour", 1800.0),
                ("an hour and a half", 5400.0),
                ("one and a half hours", 5400.0),
                ("1.5 hours", 5400.0),
                ("90 s", 90.0),
                ("3 days", 259_200.0),
                ("2 weeks", 1_209_600.0),
                ("1 week 2 days", 777_600.0),
            ],
        );
    }

    #[test]
    fn temperatures_and_their_differences_are_two_things() {
        // NIST SP 811, B.8: t/°C = (t/°F - 32)/1.8, T/K = t/°C + 273.15.
        reads::<Temperature>(
            |v| v.value,
            &[
                ("50 F", 283.15),
                ("50F", 283.15),
                ("50 f", 283.15),
                ("50 °F", 283.15),
                ("50° F", 283.15),
                ("50º F", 283.15),
                ("50℉", 283.15),
                ("50 deg F", 283.15),
                ("50 degrees Fahrenheit", 283.15),
                ("50 degrees F", 283.15),
                ("10 C", 283.15),
                ("10 degC", 283.15),
                ("10 °C", 283.15),
                ("10,0 C", 283.15),
                ("10 degrees celsius", 283.15),
                ("-5 C", 268.15),
                ("−5°C", 268.15),
                ("– 5 °C", 268.15),
                ("minus 5 C", 268.15),
                ("-40 F", 233.15),
                ("-40 C", 233.15),
                ("212 F", 373.15),
                ("32 F", 273.15),
            ],
        );
        reads::<TemperatureInterval>(
            |v| v.value,
            &[("9 F", 5.0), ("9 °F", 5.0), ("9 degrees F", 5.0), ("5 C", 5.0), ("-2,5 °C", -2.5)],
        );
    }

    #[test]
    fn a_flow_is_what_a_jar_caught_in_a_time() {
        reads::<VolumeRate>(
            |v| v.value,
            &[
                // 14 ml in half a minute are 28 ml a minute: 1.68 l an hour.
                ("14 mL in 30 s", 0.001_68 / 3600.0),
                ("14 ml / 30 s", 0.001_68 / 3600.0),
                ("14 ml in half a minute", 0.001_68 / 3600.0),
                ("28 ml in a minute", 0.001_68 / 3600.0),
                ("56 ml per 2 min", 0.001_68 / 3600.0),
            ],
        );
        reads::<Velocity>(|v| v.value, &[("3 in/s", 3.0 * INCH), ("3 in a second", 3.0 * INCH)]);
        refuses::<VolumeRate>(&[("14 ml in 0 s", "too large"), ("14 ml in 30", "time")]);
    }

    #[test]
    fn flows_and_wind_are_so_much_per_time() {
        let gallon = 3.785_412;
        reads::<VolumeRate>(
            |v| v.value * 3.6e6,
            &[
                ("0.6 gal/h", 0.6 * gallon),
                ("0.6 gph", 0.6 * gallon),
                ("0.6 GPH", 0.6 * gallon),
                (".6 gal/hr", 0.6 * gallon),
                ("1/2 gph", 0.5 * gallon),
                ("half a gallon an hour", 0.5 * gallon),
                ("half gallon an hour", 0.5 * gallon),
                ("half a gallon per hour", 0.5 * gallon),
                ("a gallon an hour", gallon),
                ("0.9 gallons per hour", 0.9 * gallon),
                ("5 gpm", 300.0 * gallon),
                ("5 gal / min", 300.0 * gallon),
                ("2 l/h", 2.0),
                ("2 L per hour", 2.0),
                ("2,3 l/h", 2.3),
                ("2 lph", 2.0),
                ("2 litres an hour", 2.0),
                ("30 ml/min", 1.8),
                ("4 l/min", 240.0),
                ("4 lpm", 240.0),
            ],
        );
        reads::<Velocity>(
            |v| v.value,
            &[
                ("15 mph", 6.7056),
                ("15 miles per hour", 6.7056),
                ("15 miles an hour", 6.7056),
                ("15 mi/h", 6.7056),
                ("24 km/h", 6.666_666_7),
                ("24 kph", 6.666_666_7),
                ("24 kilometres per hour", 6.666_666_7),
                ("7 m/s", 7.0),
                ("10 knots", 5.144_444_4),
                ("10 kt", 5.144_444_4),
            ],
        );
    }

    /// Values as NIST SP 811 (2008), Appendix B.8, prints them (from memory); each unit also
    /// against a related one by its definition.
    #[test]
    #[expect(clippy::too_many_lines, reason = "a table")]
    fn every_unit_has_the_value_of_the_conversion_tables() {
        reads::<Length>(
            |v| v.value,
            &[("1 in", 0.0254), ("1 ft", 0.3048), ("1 yd", 0.9144), ("1 mi", 1609.344)],
        );
        reads::<Area>(
            |v| v.value,
            &[
                ("1 sq in", 6.4516e-4),
                ("1 sq ft", 9.290_304e-2),
                ("1 sq yd", 0.836_127_4),
                ("1 cm2", 1e-4),
                ("1 m2", 1.0),
            ],
        );
        reads::<Volume>(
            |v| v.value,
            &[
                ("1 tsp", 4.928_922e-6),
                ("1 tbsp", 1.478_676e-5),
                ("1 fl oz", 2.957_353e-5),
                ("1 cup", 2.365_882e-4),
                ("1 pt", 4.731_765e-4),
                ("1 qt", 9.463_529e-4),
                ("1 gal", 3.785_412e-3),
                ("1 cu in", 1.638_706e-5),
                ("1 cu ft", 2.831_685e-2),
                ("1 cu yd", 0.764_554_9),
                ("1 ml", 1e-6),
                ("1 cl", 1e-5),
                ("1 dl", 1e-4),
                ("1 l", 1e-3),
                ("1 m3", 1.0),
            ],
        );
        reads::<Mass>(
            |v| v.value,
            &[
                ("1 oz", 2.834_952e-2),
                ("1 lb", 0.453_592_37),
                ("1 mg", 1e-6),
                ("1 g", 1e-3),
                ("1 kg", 1.0),
            ],
        );
        reads::<VolumeRate>(
            |v| v.value,
            &[("1 gpm", 6.309_020e-5), ("24 gph", 24.0 * 4.381_264e-8 * 24.0)],
        );
        reads::<Velocity>(
            |v| v.value,
            &[("1 mph", 0.447_04), ("1 km/h", 0.277_777_8), ("1 knot", 0.514_444_4)],
        );

        let same = |one: &str, other: &str| {
            let [one, other] = [one, other].map(|text| Volume::read(text).unwrap().value);
            assert!((one / other - 1.0).abs() < 5e-7, "{one} {other}");
        };
        same("1 gal", "231 cu in");
        same("1 gal", "4 qt");
        same("1 qt", "2 pt");
        same("1 pt", "2 cups");
        same("1 cup", "8 fl oz");
        same("1 fl oz", "2 tbsp");
        same("1 tbsp", "3 tsp");
        same("1 cu ft", "1728 cu in");
        same("1 cu yd", "27 cu ft");
        same("1 m3", "1000 l");
        let same = |one: &str, other: &str| {
            let [one, other] = [one, other].map(|text| Mass::read(text).unwrap().value);
            assert!((one / other - 1.0).abs() < 5e-7, "{one} {other}");
        };
        same("1 lb", "16 oz");
        same("1 kg", "1000 g");
        same("1 g", "1000 mg");
        let same = |one: &str, other: &str| {
            let [one, other] = [one, other].map(|text| Length::read(text).unwrap().value);
            assert!((one / other - 1.0).abs() < 1e-12, "{one} {other}");
        };
        same("1 ft", "12 in");
        same("1 yd", "3 ft");
        same("1 mi", "1760 yd");
        same("1 m", "1000 mm");
        let same = |one: &str, other: &str| {
            let [one, other] = [one, other].map(|text| Time::read(text).unwrap().value);
            assert!((one / other - 1.0).abs() < 1e-12, "{one} {other}");
        };
        same("1 h", "60 min");
        same("1 min", "60 s");
        same("1 day", "24 h");
        same("1 week", "7 days");
    }

    #[test]
    fn a_bare_number_is_asked_for_its_unit() {
        let why = |refused: Result<Length, Unreadable>| refused.unwrap_err().why;
        assert_eq!(why(Length::read("18")), "no unit: 18 in or 18 cm?");
        assert_eq!(why(Length::read("4 1/2")), "no unit: 4 1/2 in or 4 1/2 cm?");
        refuses::<Area>(&[("32", "32 sq ft or 32 m2"), ("4 x 8", "4 x 8 ft or 4 x 8 m")]);
        refuses::<Volume>(&[("20", "20 gal or 20 litres")]);
        refuses::<Mass>(&[("0", "0 lb or 0 kg")]);
        refuses::<Temperature>(&[
            ("50", "50 F or 50 C"),
            ("50 degrees", "Write F or C"),
            ("0", "0 F or 0 C"),
        ]);
        refuses::<Temperature>(&[("50 F and a half", "no unit")]);
        refuses::<TemperatureInterval>(&[("4", "4 F or 4 C"), ("4°", "Write F or C")]);
        refuses::<Time>(&[("30", "30 min or 30 hours")]);
        refuses::<VolumeRate>(&[
            ("0.6", "0.6 gal/h or 0.6 L/h"),
            ("0.6 gal", "\"gal\" in what time?"),
        ]);
        refuses::<Velocity>(&[("15", "15 mph or 15 km/h"), ("15 miles", "in what time?")]);
    }

    #[test]
    fn what_has_two_readings_or_none_is_refused_in_words() {
        refuses::<Length>(&[
            ("1,500 mm", "\"1,500 mm\" can be read as 1500 mm or 1.5 mm; write one of those"),
            ("1,5000 m 1,500 mm", "1,5000 m 1500 mm or 1,5000 m 1.5 mm"),
            ("4 ft 1,250 in", "4 ft 1250 in or 4 ft 1.25 in"),
            ("", "nothing is written"),
            ("in", "no number"),
            ("about right", "no number"),
            ("4-6 in", "two numbers"),
            ("4 to 6 in", "two numbers"),
            ("1 500 mm", "two numbers"),
            ("4 in to 6 in", "more than one length"),
            ("4 in 6 ft", "more than one length"),
            ("1 m 6 in", "more than one length"),
            ("10 ft 3 m", "more than one length"),
            ("4 ft 6 in 2", "no unit"),
            ("18 furlongs", "\"furlongs\" is not a known unit of length"),
            ("18 in tall", "\"in tall\" is not a known unit of length"),
            ("18 in (46 cm)", "the sign \"(\""),
            ("18 sq ft", "\"sq ft\" is not a known unit"),
            ("3 lb", "\"lb\" is not a known unit of length"),
            ("NaN in", "no number"),
            ("inf m", "no number"),
            ("1e999 m", "without an e"),
            ("2.5e3 mm", "without an e"),
            ("1/0 in", "fraction"),
            ("5² in", "the sign \"²\""),
            ("2^3 in", "the sign \"^\""),
            ("4 ft²6", "unit"),
            ("4 ft -", "sign \"-\""),
            ("4 ft \u{7}", "hidden sign"),
            ("4 pieds", "\"pieds\""),
        ]);
        refuses::<Volume>(&[
            ("12 oz", "write fl oz"),
            ("2 buckets", "buckets differ"),
            ("2 yards", "cubic yards"),
            ("2 bags", "bags differ"),
        ]);
        refuses::<Mass>(&[("12 fl oz", "is a volume"), ("2 stone", "not a known unit of weight")]);
        refuses::<Area>(&[("32 ft", "that is a length"), ("4 x ft", "more than one area")]);
        refuses::<Time>(&[("2 months", "write days or weeks")]);
        refuses::<Velocity>(&[("15 m/kg", "\"kg\" is not a known unit of time")]);
        refuses::<VolumeRate>(&[("3 ft/h", "\"ft\" is not a known unit of flow")]);
        let allowed = Area::read("32").unwrap_err().allowed;
        assert_eq!(allowed, "an area with its unit, such as 32 sq ft, 3 m2 or 4 x 8 ft");
    }

    #[test]
    fn a_long_text_is_refused_and_echoed_short() {
        for text in ["9".repeat(201), "x".repeat(100_000), format!("9 in{}", " ".repeat(300))] {
            let refused = Length::read(&text).unwrap_err();
            assert!(refused.why.contains("too long"), "{}", refused.why);
            assert!(refused.why.chars().count() < 120);
        }
        let text = format!("{} in", "9".repeat(150));
        assert!(Length::read(&text).unwrap().value.is_finite());
    }

    #[test]
    fn a_refusal_echoes_no_hidden_sign() {
        let refused = Length::read("4 \u{202e}\u{1b}[31m parsecs").unwrap_err();
        assert!(
            refused.why.chars().all(|sign| !sign.is_control() && sign != '\u{202e}'),
            "{}",
            refused.why
        );
    }

    /// Text made of the pieces that quantities are made of, so that it often nearly reads.
    fn pieces() -> impl Strategy<Value = String> {
        const PIECES: &[&str] = &[
            "1", "2", "30", "1/2", "½", ".", ",", " ", "-", "−", "'", "\"", "/", "per", "a", "an",
            "half", "and", "to", "ft", "in", "cm", "m2", "gal", "h", "min", "oz", "fl", "°", "F",
            "x", "500", "e9", "dozen", "of", "\u{a0}", "^", "sq", "cu", "³", "é", "quarters",
        ];
        prop::collection::vec(prop::sample::select(PIECES), 0..12)
            .prop_map(|pieces| pieces.concat())
    }

    fn read_or_refused<Q: Quantity>(text: &str, si: fn(Q) -> f64) -> Result<(), TestCaseError> {
        match Q::read(text) {
            Ok(value) => prop_assert!(si(value).is_finite()),
            Err(refused) => {
                prop_assert!(!refused.why.is_empty() && refused.why.chars().count() < 200);
                prop_assert!(refused.allowed.contains(Q::EXAMPLES));
            }
        }
        Ok(())
    }

    fn every_quantity(text: &str) -> Result<(), TestCaseError> {
        read_or_refused::<Length>(text, |v| v.value)?;
        read_or_refused::<Area>(text, |v| v.value)?;
        read_or_refused::<Volume>(text, |v| v.value)?;
        read_or_refused::<Mass>(text, |v| v.value)?;
        read_or_refused::<Temperature>(text, |v| v.value)?;
        read_or_refused::<TemperatureInterval>(text, |v| v.value)?;
        read_or_refused::<Time>(text, |v| v.value)?;
        read_or_refused::<VolumeRate>(text, |v| v.value)?;
        read_or_refused::<Velocity>(text, |v| v.value)
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in ".{0,220}") {
            every_quantity(&text)?;
        }

        #[test]
        fn any_likely_text_is_read_or_refused(text in pieces()) {
            every_quantity(&text)?;
        }

        #[test]
        fn every_case_and_spacing_reads_the_same(tenths in 0..1000_u32, pad in " {0,3}", upper: bool) {
            let number = f64::from(tenths) / 10.0;
            for unit in ["in", "feet", "cm", "m", "yd"] {
                let plain = Length::read(&format!("{number} {unit}"));
                let text = format!("{pad}{number}{pad}{unit}{pad}");
                let text = if upper { text.to_uppercase() } else { text };
                prop_assert_eq!(Length::read(&text), plain);
            }
        }
    }

    #[test]
    fn every_example_reads() {
        fn reads<Q: Quantity>() {
            for example in Q::EXAMPLES.split(" or ").flat_map(|some| some.split(", ")) {
                assert!(Q::read(example).is_ok(), "{example}");
            }
        }
        reads::<Length>();
        reads::<Area>();
        reads::<Volume>();
        reads::<Mass>();
        reads::<Temperature>();
        reads::<TemperatureInterval>();
        reads::<Time>();
        reads::<VolumeRate>();
        reads::<Velocity>();
    }
}
