//! Quantities printed as a gardener would say them.
//!
//! Rounded to what a tape, a scale or a thermometer at the bed can tell; for exact values use the
//! quantity itself. A smaller unit ends where it would round to one of the larger, so that what
//! was printed prints the same when it is read again.

use super::number::show_number;
use super::{
    Area, Length, Mass, System, Temperature, TemperatureInterval, Time, Velocity, Volume,
    VolumeRate,
};
use uom::si::{
    area, length, mass, temperature_interval, thermodynamic_temperature, time, velocity, volume,
};

/// From here on a length is told in feet.
const INCHES_TOLD: f64 = 48.0;

/// A length between plants: always inches ("60 in") or centimetres ("152 cm").
///
/// The same spacing on either tape (an inch is 2.54 cm by definition):
/// ```
/// use pegline_core::quantity::{Length, Quantity, System, show_spacing};
/// let spacing = Length::read("15 in").unwrap();
/// assert_eq!(show_spacing(spacing, System::Us), "15 in");
/// assert_eq!(show_spacing(spacing, System::Metric), "38 cm");
/// ```
#[must_use]
pub fn show_spacing(spacing: Length, system: System) -> String {
    match system {
        System::Us => format!("{} in", tape(spacing.get::<length::inch>())),
        System::Metric => {
            let centimetres = spacing.get::<length::centimeter>();
            format!("{} cm", show_number(centimetres, tenths_below(10.0, centimetres)))
        }
    }
}

/// A volume of soil, compost or mulch: cubic feet and yards, or litres and cubic metres.
///
/// Little is told in feet or litres, much in yards or cubic metres (27 cu ft are a cubic yard):
/// ```
/// use pegline_core::quantity::{Quantity, System, Volume, show_bulk};
/// let [little, much] = ["5.4 cu ft", "54 cu ft"].map(|text| Volume::read(text).unwrap());
/// assert_eq!(show_bulk(little, System::Us), "5.4 cu ft");
/// assert_eq!(show_bulk(much, System::Us), "2 cu yd");
/// ```
#[must_use]
pub fn show_bulk(bulk: Volume, system: System) -> String {
    match system {
        System::Us => {
            let feet = bulk.get::<volume::cubic_foot>();
            if feet.abs() < 26.5 {
                with_tenths(feet, 10.0, "cu ft", "cu ft")
            } else {
                with_tenths(bulk.get::<volume::cubic_yard>(), 10.0, "cu yd", "cu yd")
            }
        }
        System::Metric => litres(bulk),
    }
}

pub(super) fn length(value: Length, system: System) -> String {
    match system {
        System::Us => {
            let inches = value.get::<length::inch>();
            if inches.abs() < INCHES_TOLD - 0.05 || !inches.is_finite() {
                return format!("{} in", tape(inches));
            }
            if inches.abs() >= 1200.0 {
                return format!("{} ft", show_number(inches / 12.0, 0));
            }
            let quarters = (inches.abs() * 4.0).round() as u64;
            let (feet, quarters) = (quarters / 48, quarters % 48);
            let sign = if inches < 0.0 { "-" } else { "" };
            if quarters == 0 {
                format!("{sign}{feet} ft")
            } else {
                format!("{sign}{feet} ft {} in", in_quarters(quarters))
            }
        }
        System::Metric => {
            let metres = value.get::<length::meter>();
            match metres.abs() {
                size if size < 0.00995 => format!("{} mm", show_number(metres * 1000.0, 1)),
                size if size < 0.995 => show_spacing(value, system),
                size if size < 100.0 => format!("{} m", show_number(metres, 2)),
                _ => format!("{} m", show_number(metres, 0)),
            }
        }
    }
}

pub(super) fn area(value: Area, system: System) -> String {
    match system {
        System::Us => {
            let feet = value.get::<area::square_foot>();
            if feet.abs() < 143.5 / 144.0 {
                with_tenths(value.get::<area::square_inch>(), 10.0, "sq in", "sq in")
            } else {
                with_tenths(feet, 100.0, "sq ft", "sq ft")
            }
        }
        System::Metric => {
            let metres = value.get::<area::square_meter>();
            match metres.abs() {
                size if size < 0.09995 => {
                    with_tenths(value.get::<area::square_centimeter>(), 10.0, "cm²", "cm²")
                }
                size if size < 10.0 => format!("{} m²", show_number(metres, 2)),
                _ => with_tenths(metres, 100.0, "m²", "m²"),
            }
        }
    }
}

pub(super) fn volume(value: Volume, system: System) -> String {
    match system {
        System::Us => {
            let ounces = value.get::<volume::fluid_ounce>();
            let gallons = value.get::<volume::gallon>();
            match ounces.abs() {
                // Below half a fluid ounce, that is a tablespoon.
                size if size < 2.95 / 6.0 => {
                    let teaspoons = value.get::<volume::teaspoon>();
                    with_tenths(teaspoons, 10.0, "teaspoon", "teaspoons")
                }
                size if size < 31.5 => with_tenths(ounces, 10.0, "fl oz", "fl oz"),
                // A quarter of a gallon is said as often as a tenth.
                size if size < 127.0 => format!("{} gallons", show_number(gallons, 2)),
                _ => with_tenths(gallons, 10.0, "gallon", "gallons"),
            }
        }
        System::Metric => litres(value),
    }
}

pub(super) fn mass(value: Mass, system: System) -> String {
    match system {
        System::Us => {
            let pounds = value.get::<mass::pound>();
            if pounds.abs() < 15.5 / 16.0 {
                with_tenths(value.get::<mass::ounce>(), 10.0, "oz", "oz")
            } else {
                with_tenths(pounds, 100.0, "lb", "lb")
            }
        }
        System::Metric => {
            let kilograms = value.get::<mass::kilogram>();
            if kilograms.abs() < 0.9995 {
                with_tenths(value.get::<mass::gram>(), 10.0, "g", "g")
            } else {
                with_tenths(kilograms, 100.0, "kg", "kg")
            }
        }
    }
}

pub(super) fn temperature(value: Temperature, system: System) -> String {
    match system {
        System::Us => {
            let degrees = value.get::<thermodynamic_temperature::degree_fahrenheit>();
            format!("{} °F", show_number(degrees, 0))
        }
        System::Metric => {
            let degrees = value.get::<thermodynamic_temperature::degree_celsius>();
            format!("{} °C", show_number(degrees, 0))
        }
    }
}

pub(super) fn temperature_interval(value: TemperatureInterval, system: System) -> String {
    match system {
        System::Us => {
            let degrees = value.get::<temperature_interval::degree_fahrenheit>();
            format!("{} °F", show_number(degrees, 0))
        }
        // A degree Celsius is nearly two of Fahrenheit, so the tenths of small ones count.
        System::Metric => {
            with_tenths(value.get::<temperature_interval::degree_celsius>(), 10.0, "°C", "°C")
        }
    }
}

/// The same in both systems: "30 s", "45 min", "1 h 21 min", "3 days 5 h".
pub(super) fn time(value: Time) -> String {
    let seconds = value.get::<time::second>();
    if !seconds.is_finite() {
        return format!("{} min", show_number(seconds, 0));
    }
    let whole = seconds.abs().round() as u64;
    let minutes = (seconds.abs() / 60.0).round() as u64;
    let hours = (seconds.abs() / 3600.0).round() as u64;
    let sign = if seconds < 0.0 && whole > 0 { "-" } else { "" };
    let shown = if whole < 60 {
        format!("{whole} s")
    } else if minutes < 60 {
        format!("{minutes} min")
    } else if minutes < 48 * 60 {
        two_parts(minutes / 60, "h", minutes % 60, "min")
    } else {
        two_parts(hours / 24, "days", hours % 24, "h")
    };
    format!("{sign}{shown}")
}

pub(super) fn volume_rate(value: VolumeRate, system: System) -> String {
    let an_hour = value * Time::new::<time::hour>(1.0);
    match system {
        System::Us => per_time(an_hour.get::<volume::gallon>(), 59.95, "gal"),
        System::Metric => per_time(an_hour.get::<volume::liter>(), 299.5, "L"),
    }
}

pub(super) fn velocity(value: Velocity, system: System) -> String {
    match system {
        System::Us => format!("{} mph", show_number(value.get::<velocity::mile_per_hour>(), 0)),
        System::Metric => {
            format!("{} km/h", show_number(value.get::<velocity::kilometer_per_hour>(), 0))
        }
    }
}

/// Inches as read off a tape: "15", "4 1/2", else with a decimal.
fn tape(inches: f64) -> String {
    /// Half a millimetre, finer than a tape is read.
    const EXACT_ENOUGH: f64 = 0.02;
    /// Below an inch hundredths are told.
    const EXACT_BELOW_ONE: f64 = 0.005;
    let size = inches.abs();
    let quarters = (size * 4.0).round();
    let tenths = (size * 10.0).round();
    let sign = if inches < 0.0 && quarters > 0.0 { "-" } else { "" };
    let near = if size < 1.0 { EXACT_BELOW_ONE } else { EXACT_ENOUGH };
    if (size - quarters / 4.0).abs() <= near {
        format!("{sign}{}", in_quarters(quarters as u64))
    } else if size < 1.0 || !size.is_finite() {
        show_number(inches, 2)
    } else if (tenths as u64).is_multiple_of(5) {
        // 9.53 in is 9 1/2 rather than 9.5.
        format!("{sign}{}", in_quarters(tenths as u64 / 5 * 2))
    } else {
        show_number(inches, 1)
    }
}

fn in_quarters(quarters: u64) -> String {
    let part = match quarters % 4 {
        0 => return (quarters / 4).to_string(),
        1 => "1/4",
        2 => "1/2",
        _ => "3/4",
    };
    if quarters < 4 { part.to_owned() } else { format!("{} {part}", quarters / 4) }
}

fn litres(value: Volume) -> String {
    let litres = value.get::<volume::liter>();
    match litres.abs() {
        size if size < 0.9995 => with_tenths(litres * 1000.0, 10.0, "ml", "ml"),
        size if size < 9999.5 => with_tenths(litres, 10.0, "litre", "litres"),
        _ => with_tenths(value.get::<volume::cubic_meter>(), 100.0, "m³", "m³"),
    }
}

/// A flow in the hour, told by the minute from `by_the_minute` on.
fn per_time(an_hour: f64, by_the_minute: f64, unit: &str) -> String {
    let (amount, time) =
        if an_hour.abs() < by_the_minute { (an_hour, "h") } else { (an_hour / 60.0, "min") };
    let decimals = if amount.abs() < 1.0 { 2 } else { tenths_below(100.0, amount) };
    format!("{} {unit}/{time}", show_number(amount, decimals))
}

fn two_parts(large: u64, large_unit: &str, small: u64, small_unit: &str) -> String {
    if small == 0 {
        format!("{large} {large_unit}")
    } else {
        format!("{large} {large_unit} {small} {small_unit}")
    }
}

/// With one decimal below `limit`, whole from there on.
fn with_tenths(value: f64, limit: f64, one: &str, many: &str) -> String {
    let number = show_number(value, tenths_below(limit, value));
    let unit = if number == "1" { one } else { many };
    format!("{number} {unit}")
}

fn tenths_below(limit: f64, value: f64) -> u32 {
    u32::from(value.abs() < limit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;
    use proptest::prelude::*;
    use uom::si::velocity::meter_per_second;
    use uom::si::volume_rate::liter_per_second;

    const BOTH: [System; 2] = [System::Us, System::Metric];

    /// What each system prints for what was read.
    fn prints<Q: Quantity>(rows: &[(&str, &str, &str)]) {
        for (written, us, metric) in rows {
            let value = Q::read(written).unwrap();
            assert_eq!(value.show(System::Us), *us, "{written}");
            assert_eq!(value.show(System::Metric), *metric, "{written}");
        }
    }

    /// What was printed reads as the value within half the last place printed, and prints the
    /// same again.
    fn reads_again<Q: Quantity>(
        value: Q,
        system: System,
        si: fn(Q) -> f64,
        precision: f64,
    ) -> Result<(), TestCaseError> {
        let printed = value.show(system);
        let read = Q::read(&printed).unwrap();
        let error = (si(read) - si(value)).abs();
        prop_assert!(
            error <= precision * (1.0 + 1e-6),
            "{} read as {}: {}",
            si(value),
            si(read),
            printed
        );
        prop_assert_eq!(read.show(system), printed);
        Ok(())
    }

    /// The precision of the first limit that the size is below.
    fn step(size: f64, steps: &[(f64, f64)]) -> f64 {
        steps.iter().find(|(limit, _)| size.abs() < *limit).unwrap().1
    }

    /// Sizes over many decades, of both signs.
    fn sizes(from: f64, to: f64) -> impl Strategy<Value = f64> {
        (from.ln()..to.ln(), any::<bool>())
            .prop_map(|(size, below)| if below { -size.exp() } else { size.exp() })
    }

    #[test]
    fn lengths_are_said_as_off_a_tape() {
        prints::<Length>(&[
            ("15 in", "15 in", "38 cm"),
            ("4 1/2 in", "4 1/2 in", "11 cm"),
            ("1/4 in", "1/4 in", "6.4 mm"),
            ("23 cm", "9.1 in", "23 cm"),
            ("38 cm", "15 in", "38 cm"),
            ("3.4 mm", "0.13 in", "3.4 mm"),
            ("47.9 in", "47.9 in", "1.22 m"),
            ("9.547 in", "9 1/2 in", "24 cm"),
            ("8 ft", "8 ft", "2.44 m"),
            ("4 ft 6 in", "4 ft 6 in", "1.37 m"),
            ("4 ft 6.3 in", "4 ft 6 1/4 in", "1.38 m"),
            ("5 ft 11.9 in", "6 ft", "1.83 m"),
            ("116 m", "381 ft", "116 m"),
            ("-2 in", "-2 in", "-5.1 cm"),
            ("0", "0 in", "0 mm"),
        ]);
    }

    #[test]
    fn space_between_plants_is_always_small_units() {
        let shown = |text: &str, system| show_spacing(Length::read(text).unwrap(), system);
        assert_eq!(shown("18 in", System::Us), "18 in");
        assert_eq!(shown("5 ft", System::Us), "60 in");
        assert_eq!(shown("5 ft", System::Metric), "152 cm");
        assert_eq!(shown("3 in", System::Metric), "7.6 cm");
    }

    #[test]
    fn the_other_quantities_are_said_plainly() {
        prints::<Area>(&[
            ("4 x 8 ft", "32 sq ft", "2.97 m²"),
            ("9 x 9 in", "81 sq in", "523 cm²"),
            ("30 m2", "323 sq ft", "30 m²"),
        ]);
        prints::<Volume>(&[
            ("20 gal", "20 gallons", "76 litres"),
            ("1 gal", "1 gallon", "3.8 litres"),
            ("half a gallon", "0.5 gallons", "1.9 litres"),
            ("1 litre", "0.26 gallons", "1 litre"),
            ("2 cups", "16 fl oz", "473 ml"),
            ("1 tbsp", "0.5 fl oz", "15 ml"),
            ("1 tsp", "1 teaspoon", "4.9 ml"),
            ("12 m3", "3170 gallons", "12 m³"),
        ]);
        prints::<Mass>(&[
            ("2.3 lb", "2.3 lb", "1 kg"),
            ("12 oz", "12 oz", "340 g"),
            ("1.1 kg", "2.4 lb", "1.1 kg"),
            ("2.5 g", "0.1 oz", "2.5 g"),
            ("300 lb", "300 lb", "136 kg"),
        ]);
        prints::<Temperature>(&[
            ("29 F", "29 °F", "-2 °C"),
            ("10 C", "50 °F", "10 °C"),
            ("31.7 F", "32 °F", "0 °C"),
        ]);
        prints::<TemperatureInterval>(&[("4 F", "4 °F", "2.2 °C"), ("-10 C", "-18 °F", "-10 °C")]);
        prints::<Time>(&[
            ("81 min", "1 h 21 min", "1 h 21 min"),
            ("45 min", "45 min", "45 min"),
            ("59.7 min", "1 h", "1 h"),
            ("40 s", "40 s", "40 s"),
            ("36 h", "36 h", "36 h"),
            ("53 h", "2 days 5 h", "2 days 5 h"),
            ("3 weeks", "21 days", "21 days"),
        ]);
        prints::<VolumeRate>(&[
            ("0.6 gph", "0.6 gal/h", "2.3 L/h"),
            ("16.5 gph", "16.5 gal/h", "62.5 L/h"),
            ("5 gpm", "5 gal/min", "18.9 L/min"),
        ]);
        prints::<Velocity>(&[("15 mph", "15 mph", "24 km/h")]);
    }

    #[test]
    fn soil_and_compost_come_in_cubic_feet_and_yards() {
        let shown = |text: &str, system| show_bulk(Volume::read(text).unwrap(), system);
        assert_eq!(shown("2.667 cu ft", System::Us), "2.7 cu ft");
        assert_eq!(shown("2.667 cu ft", System::Metric), "76 litres");
        assert_eq!(shown("32 cu ft", System::Us), "1.2 cu yd");
        assert_eq!(shown("26.9 cu ft", System::Us), "1 cu yd");
    }

    #[test]
    fn what_is_not_finite_is_unknown() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            for system in BOTH {
                let shown = [
                    Length::new::<length::meter>(value).show(system),
                    Area::new::<area::square_meter>(value).show(system),
                    Volume::new::<volume::liter>(value).show(system),
                    Mass::new::<mass::kilogram>(value).show(system),
                    Temperature::new::<thermodynamic_temperature::kelvin>(value).show(system),
                    TemperatureInterval::new::<temperature_interval::kelvin>(value).show(system),
                    Time::new::<time::second>(value).show(system),
                    VolumeRate::new::<liter_per_second>(value).show(system),
                    Velocity::new::<meter_per_second>(value).show(system),
                    show_spacing(Length::new::<length::meter>(value), system),
                    show_bulk(Volume::new::<volume::liter>(value), system),
                ];
                assert!(shown.iter().all(|text| text.starts_with("unknown ")), "{shown:?}");
            }
        }
    }

    proptest! {
        #[test]
        fn printed_lengths_read_the_same(inches in sizes(0.05, 10_000.0)) {
            let value = Length::new::<length::inch>(inches);
            let inch = 0.0254;
            let us = step(inches, &[(1.0, 0.005), (47.95, 0.05), (1200.0, 0.125), (1e9, 6.0)]) * inch;
            reads_again(value, System::Us, |v| v.value, us)?;
            let metric = step(
                value.value,
                &[(0.00995, 0.000_05), (0.1, 0.000_5), (0.995, 0.005), (100.0, 0.005), (1e9, 0.5)],
            );
            reads_again(value, System::Metric, |v| v.value, metric)?;
        }

        #[test]
        fn printed_areas_read_the_same(feet in sizes(0.01, 10_000.0)) {
            let value = Area::new::<area::square_foot>(feet);
            let us = step(
                feet * 144.0,
                &[(10.0, 0.05), (143.5, 0.5), (14_400.0, 7.2), (1e9, 72.0)],
            ) / 144.0 * 0.092_903_04;
            reads_again(value, System::Us, |v| v.value, us)?;
            let metric = step(
                value.value,
                &[(0.001, 5e-6), (0.09995, 5e-5), (10.0, 0.005), (100.0, 0.05), (1e9, 0.5)],
            );
            reads_again(value, System::Metric, |v| v.value, metric)?;
        }

        #[test]
        fn printed_volumes_read_the_same(litres in sizes(0.001, 100_000.0)) {
            let value = Volume::new::<volume::liter>(litres);
            let ounce = 0.029_573_53;
            let gallon = 3.785_412;
            let us = step(
                litres,
                &[
                    (2.95 / 6.0 * ounce, 0.05 * ounce / 6.0),
                    (10.0 * ounce, 0.05 * ounce),
                    (31.5 * ounce, 0.5 * ounce),
                    (127.0 * ounce, 0.005 * gallon),
                    (10.0 * gallon, 0.05 * gallon),
                    (1e9, 0.5 * gallon),
                ],
            );
            reads_again(value, System::Us, |v| v.get::<volume::liter>(), us)?;
            let metric = step(
                litres,
                &[(0.01, 5e-5), (0.9995, 5e-4), (10.0, 0.05), (9999.5, 0.5), (1e5, 50.0), (1e9, 500.0)],
            );
            reads_again(value, System::Metric, |v| v.get::<volume::liter>(), metric)?;
        }

        #[test]
        fn printed_weights_read_the_same(kilograms in sizes(0.001, 1000.0)) {
            let value = Mass::new::<mass::kilogram>(kilograms);
            let pound = 0.453_592_37;
            let us = step(
                kilograms / pound,
                &[(10.0 / 16.0, 0.05 / 16.0), (15.5 / 16.0, 0.5 / 16.0), (100.0, 0.05), (1e9, 0.5)],
            ) * pound;
            reads_again(value, System::Us, |v| v.value, us)?;
            let metric = step(kilograms, &[(0.01, 5e-5), (0.9995, 5e-4), (100.0, 0.05), (1e9, 0.5)]);
            reads_again(value, System::Metric, |v| v.value, metric)?;
        }

        #[test]
        fn printed_temperatures_read_the_same(celsius in -60.0..80.0_f64) {
            let value = Temperature::new::<thermodynamic_temperature::degree_celsius>(celsius);
            reads_again(value, System::Us, |v| v.value, 0.5 / 1.8)?;
            reads_again(value, System::Metric, |v| v.value, 0.5)?;
            let value = TemperatureInterval::new::<temperature_interval::kelvin>(celsius);
            reads_again(value, System::Us, |v| v.value, 0.5 / 1.8)?;
            let metric = if celsius.abs() < 10.0 { 0.05 } else { 0.5 };
            reads_again(value, System::Metric, |v| v.value, metric)?;
        }

        #[test]
        fn printed_times_read_the_same(seconds in sizes(0.1, 1e7)) {
            let value = Time::new::<time::second>(seconds);
            let precision = step(seconds, &[(59.5, 0.5), (48.0 * 3600.0 - 30.0, 30.0), (1e9, 1800.0)]);
            for system in BOTH {
                reads_again(value, system, |v| v.value, precision)?;
            }
        }

        #[test]
        fn printed_flows_read_the_same(litres_an_hour in sizes(0.05, 10_000.0)) {
            let hour = Time::new::<time::hour>(1.0);
            let value = Volume::new::<volume::liter>(litres_an_hour) / hour;
            let gallon = 3.785_412;
            let us = step(
                litres_an_hour / gallon,
                &[(1.0, 0.005), (59.95, 0.05), (6000.0, 3.0), (1e9, 30.0)],
            ) * gallon;
            reads_again(value, System::Us, |v| v.value * 3.6e6, us)?;
            let metric = step(
                litres_an_hour,
                &[(1.0, 0.005), (100.0, 0.05), (299.5, 0.5), (6000.0, 3.0), (1e9, 30.0)],
            );
            reads_again(value, System::Metric, |v| v.value * 3.6e6, metric)?;
        }

        #[test]
        fn printed_wind_reads_the_same(metres_a_second in sizes(0.1, 50.0)) {
            let value = Velocity::new::<meter_per_second>(metres_a_second);
            reads_again(value, System::Us, |v| v.value, 0.5 * 0.44704)?;
            reads_again(value, System::Metric, |v| v.value, 0.5 / 3.6)?;
        }
    }
}
