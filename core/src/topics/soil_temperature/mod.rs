//! Topic `soil-temperature`: how warm the soil is at a depth on a day.
//!
//! Model: the damped yearly wave of the place's air ([`soil`](crate::place::soil)), corrected by the bed's
//! own readings ([`readings`](crate::place::readings)).

use chrono::NaiveDate;
use uom::si::{
    temperature_interval::degree_celsius as kelvin, thermodynamic_temperature::degree_celsius,
};

use crate::{
    asking::Asking,
    bed::BedAsked,
    given::{Faults, Given, asked},
    place::{
        air::of_celsius,
        known_soil::{BedSoil, ReadingAsked, depth},
        readings::FRESH_DAYS,
        site::SiteAsked,
        soil::{Mulch, Texture},
    },
    quantity::{Length, Quantity, System, TemperatureInterval, hundredths},
    source::Source,
    telling::{Sure, Telling},
    text::{count, day},
    time::DayOfYear,
};

asked! {
    /// How warm is the soil?
    pub struct Asked {
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
        /// The day asked about; today if absent.
        date: Given<NaiveDate>,
        /// How deep; 4 in if absent.
        depth: Given<Length>,
        /// What the soil is; loam if absent.
        soil: Given<Texture>,
        /// What lies on it.
        mulch: Given<Mulch>,
        /// Readings of the bed.
        readings: Vec<ReadingAsked>,
        /// The bed, whose readings in the record count where none are given here.
        bed: Option<BedAsked>,
    }
}

/// How warm the soil is.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The mean over day and night, °C.
    pub temperature_c: f64,
    /// One standard deviation of it, °C.
    pub sd_c: f64,
}

/// Answers the question.
pub(crate) fn answer(
    asked: &Asked,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<(Telling, Answer)> {
    let site = SiteAsked::read(asked.site.as_ref(), &asking.garden.place, faults);
    let date = match (asked.date.is_given(), asking.today) {
        (false, Some(today)) => Some(today),
        _ => asked.date.need(faults),
    };
    let depth = depth(&asked.depth, faults);
    let soil = asked.soil.read(faults).or(site.soil).unwrap_or(Texture::Loam);
    let mulch = asked.mulch.read(faults).unwrap_or(Mulch::Bare);
    let given = asked.readings.iter();
    let mut readings: Vec<_> =
        given.filter_map(|reading| reading.read(asking.today, faults)).collect();
    if let Some(bed) = &asked.bed
        && let Some(meant) = bed.read(asking.garden, asking.system, faults)
        && asked.readings.is_empty()
    {
        let recorded = meant.id.as_deref().and_then(|id| asking.garden.bed(id));
        readings = recorded.map(crate::garden::Bed::soil_readings).unwrap_or_default();
    }
    let air = site.need_air(faults)?;
    let (date, depth) = (date?, depth?);
    // A reading tells of the days after it; for a day past, the readings up to then count.
    let as_of = asking.today.map_or(date, |today| today.min(date));
    let bed = BedSoil::new(air, soil, mulch, &readings, as_of);
    let temperature = bed.year.at(depth, DayOfYear::of(date));

    let system = asking.system;
    let (warm, deep) = (temperature.show(system), depth.show(system));
    let on = day(date, asking.today);
    let sure = if bed.extremes_only { Sure::Low } else { Sure::Fair };
    let mut telling = Telling::new(format!("About {warm} at {deep} on {on}."), sure);
    telling.because.push(format!(
        "Two years in three it is within {} of that, over day and night.",
        bed.sd.show(system)
    ));
    telling.because.extend(of_readings(&bed, system));
    if let Some(line) = of_the_place(&bed) {
        telling.because.push(line);
    }
    if mulch != Mulch::Bare {
        telling.because.push(
            "Under mulch soil warms less in spring; what it does in autumn is not well known, so let a \
             thermometer tell."
                .to_owned(),
        );
        telling.source(match mulch {
            Mulch::Residue => Source::ResidueShen2018,
            _ => Source::MulchMccallaDuley1946,
        });
    }
    if temperature < of_celsius(0.0) {
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
    sources(&mut telling, &bed);
    Some((
        telling,
        Answer {
            temperature_c: hundredths(temperature.get::<degree_celsius>()),
            sd_c: hundredths(bed.sd.get::<kelvin>()),
        },
    ))
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
