//! What is told of the warmth of the soil.

use chrono::NaiveDate;
use uom::si::temperature_interval::degree_celsius as kelvin;

use crate::{
    asking::Asking,
    place::{air::of_celsius, known_soil::BedSoil, readings::FRESH_DAYS, soil::Mulch},
    quantity::{Length, Quantity, System, Temperature, TemperatureInterval},
    source::Source,
    telling::{Sure, Telling},
    text::{count, day},
};

/// All that the words are made from.
pub(super) struct Found<'a> {
    /// The mean over day and night.
    pub(super) temperature: Temperature,
    /// How deep.
    pub(super) depth: Length,
    /// On which day.
    pub(super) date: NaiveDate,
    /// What lies on the soil.
    pub(super) mulch: Mulch,
    pub(super) bed: &'a BedSoil,
}

/// How warm, how sure, and how to see it for oneself.
pub(super) fn tell(found: &Found<'_>, asking: &Asking<'_>) -> Telling {
    let system = asking.system;
    let (warm, deep) = (found.temperature.show(system), found.depth.show(system));
    let bed = found.bed;
    let on = day(found.date, asking.today);
    let sure = if bed.extremes_only { Sure::Low } else { Sure::Fair };
    let mut telling = Telling::new(format!("About {warm} at {deep} on {on}."), sure);
    telling.because.push(format!(
        "Two years in three it is within {} of that, over day and night.",
        bed.sd.show(system)
    ));
    telling.because.extend(of_readings(bed, system));
    if let Some(line) = of_the_place(bed) {
        telling.because.push(line);
    }
    if found.mulch != Mulch::Bare {
        telling.because.push(
            "Under mulch soil warms less in spring; what it does in autumn is not well known, so let a \
             thermometer tell."
                .to_owned(),
        );
        telling.source(match found.mulch {
            Mulch::Residue => Source::ResidueShen2018,
            _ => Source::MulchMccallaDuley1946,
        });
    }
    if found.temperature < of_celsius(0.0) {
        telling.sure = Sure::Low;
        telling.because.insert(
            0,
            "Below freezing this is a guess: snow, and the freezing itself, hold soil near 32 °F (0 °C).".to_owned(),
        );
    }
    telling.look_for.push(format!(
        "A thermometer at {deep} shows the day's mean at about nine in the morning; write down the time when you \
         read it at another."
    ));
    telling.cautions.push(
        "Under snow, plastic or glass, and in waterlogged soil, this does not hold.".to_owned(),
    );
    sources(&mut telling, bed);
    telling
}

/// What the bed's readings say of it, if there are any.
pub(crate) fn of_readings(bed: &BedSoil, system: System) -> Option<String> {
    let counted = bed.correction.counted;
    if counted == 0 {
        return (bed.too_old > 0).then(|| {
            format!("Its readings are more than {} weeks old and don't count.", FRESH_DAYS / 7)
        });
    }
    let shift = bed.correction.shift.get::<kelvin>();
    let than_usual = if shift.abs() < 0.25 {
        "as warm as usual".to_owned()
    } else {
        let by = TemperatureInterval::new::<kelvin>(shift.abs()).show(system);
        let how = if shift > 0.0 { "warmer" } else { "colder" };
        format!("{by} {how} than usual")
    };
    let readings = count(counted, "reading", "readings");
    Some(format!("By {readings} this soil is {than_usual} here."))
}

/// What would make the answer surer, where little is known of the place.
pub(crate) fn of_the_place(bed: &BedSoil) -> Option<String> {
    bed.extremes_only.then(|| {
        "Drawn from the coldest and the hottest month alone; all twelve would make it surer."
            .to_owned()
    })
}

/// What the soil of a bed rests on.
pub(crate) fn sources(telling: &mut Telling, bed: &BedSoil) {
    telling.source(Source::SoilFromAir);
    telling.source(Source::Hillel1982);
    telling.source(Source::DeVries1963);
    if bed.correction.counted > 0 {
        telling.source(Source::SoilByReadings);
    }
}
