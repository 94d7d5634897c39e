//! Tonight's air: by the forecast, or by the evening where enough evenings were logged before.

use chrono::NaiveDate;
use uom::si::{thermodynamic_temperature::degree_celsius, time::hour};

use super::{
    from_record,
    question::{self, Asked},
};
use crate::{
    asking::Asking,
    frost::{
        afternoon::grass_low,
        course::Course,
        evening::{EveningRule, FEWEST},
        low::AirLow,
        night::Night,
    },
    given::{Faults, Given},
    place::{site::Site, sun::day_length},
    quantity::{Temperature, Time},
    words::sky::{Sky, Wind},
};

/// Tonight's air as it was told.
#[derive(Clone, Copy)]
pub(super) struct AirRead {
    pub sky: Sky,
    pub wind: Wind,
    pub low: AirLow,
    /// The low that was forecast.
    pub forecast: Option<Temperature>,
    /// The air two hours after sunset.
    dusk: Option<Temperature>,
    /// Air and dew point at three in the afternoon.
    afternoon: Option<(Temperature, Temperature)>,
}

/// A forecast older than this is none.
const OLDEST_FORECAST_DAYS: i64 = 10;

/// Reads it; the evening counts before the forecast where its rule holds.
pub(super) fn read(
    asked: &Asked,
    site: &Site,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<AirRead> {
    let forecast = question::air(&asked.forecast_low, faults);
    let age = forecast_age(&asked.forecast_made, asking.today, faults);
    let sky = asked.sky.need(faults);
    let wind = asked.wind.need(faults);
    let moist = |air: &question::AirAsked, faults: &mut Faults| air.read(site.elevation, faults);
    let dusk = asked.dusk.as_ref().map(|air| moist(air, faults));
    let afternoon = asked.afternoon.as_ref().and_then(|air| moist(air, faults));
    let given = asked.evenings.iter();
    let given: Vec<_> = given.map(|evening| evening.read(faults)).collect();
    if dusk.is_none() && !asked.forecast_low.is_given() {
        asked.forecast_low.refuse(
            faults,
            "tonight's forecast low, such as 34 F; or a reading at dusk with ten earlier evenings",
            "without one of them nothing is known of tonight",
        );
    }
    let (sky, wind) = (sky?, wind?);
    let evenings = if asked.evenings.is_empty() {
        from_record::evenings(asking.garden)
    } else {
        given.into_iter().collect::<Option<Vec<_>>>()?
    };
    let by_forecast = forecast.map(|low| AirLow::Forecast(low, age.unwrap_or(0)));
    let low = match dusk {
        None => by_forecast?,
        Some(dusk) => {
            let (air, dew_point) = dusk?;
            let holds = sky == Sky::Clear && wind == Wind::Still;
            let rule = EveningRule::fit(&evenings).filter(|_| holds);
            let by_evening = rule.map(|rule| AirLow::Evening(rule.low_after(air, dew_point)));
            let low = by_evening.or(by_forecast);
            if low.is_none() && !asked.forecast_low.is_given() {
                refuse_dusk(holds, evenings.len(), faults);
            }
            low?
        }
    };
    Some(AirRead {
        sky,
        wind,
        low,
        forecast,
        dusk: dusk.flatten().map(|(air, _)| air),
        afternoon: afternoon.and_then(|(air, dew_point)| Some((air, dew_point?))),
    })
}

impl AirRead {
    fn night(&self) -> Night {
        Night::of(self.sky, self.wind)
    }

    /// How long after sunset the air comes down to freezing, and for how long, on a clear, calm night
    /// where the evening, the latitude and the day are known.
    pub(super) fn freezing(&self, site: &Site, today: Option<NaiveDate>) -> Option<(Time, Time)> {
        let dusk = self.dusk.filter(|_| self.night() == Night::ClearAndCalm)?;
        let night = Time::new::<hour>(24.0) - day_length(site.latitude?, today?);
        let course = Course::new(dusk, self.low.expected().low, night)?;
        let freezing = Temperature::new::<degree_celsius>(0.0);
        Some((course.reaches(freezing)?, course.below(freezing)))
    }

    /// The low at the grass by the afternoon, on a clear, calm night of the southern winter.
    pub(super) fn grass(&self, site: &Site, today: Option<NaiveDate>) -> Option<Temperature> {
        let (air, dew_point) = self.afternoon?;
        let holds = site.is_south() && self.night() == Night::ClearAndCalm;
        grass_low(air, dew_point, today.filter(|_| holds)?)
    }
}

/// How many days ago the forecast was made.
fn forecast_age(
    made: &Given<NaiveDate>,
    today: Option<NaiveDate>,
    faults: &mut Faults,
) -> Option<u32> {
    let date = made.read(faults)?;
    let Some(today) = today else {
        made.refuse(faults, "today's date beside it", "how old it is can't be told without");
        return None;
    };
    let days = (today - date).num_days();
    if (0..=OLDEST_FORECAST_DAYS).contains(&days) {
        // The forecast of this morning or of last night is for one night ahead.
        return u32::try_from(days).ok().map(|days| days + 1);
    }
    let why = if days < 0 {
        "that day has not come yet"
    } else {
        "a forecast so old tells nothing of tonight"
    };
    made.refuse(faults, "today or one of the ten days before", why);
    None
}

fn refuse_dusk(holds: bool, evenings: usize, faults: &mut Faults) {
    let instead = "; or forecast_low";
    if !holds {
        faults.add(
            "dusk",
            "",
            format!("a reading on a clear and still night{instead}"),
            "under cloud or in wind an evening's reading does not tell the low",
        );
    } else if evenings < FEWEST {
        faults.add(
            "evenings",
            &format!("{evenings} evenings"),
            format!("at least {FEWEST} clear, still evenings with the low that followed{instead}"),
            "with fewer the rule of this spot is not known yet: log them, and use the forecast till then",
        );
    } else {
        faults.add(
            "evenings",
            &format!("{evenings} evenings"),
            format!("evenings that differ from one another{instead}"),
            "they are all alike, so that no rule follows from them",
        );
    }
}
