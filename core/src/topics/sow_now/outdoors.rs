//! When a crop goes into a bed, by its course through the place's year.

use chrono::{Duration, NaiveDate};
use uom::si::temperature_interval::degree_celsius as kelvin;

use super::answer::Verdict;
use crate::{
    catalogue::Crop,
    place::{known_soil::BedSoil, site::Site},
    quantity::TemperatureInterval,
    season::{self, Course, Growing, How, Reason, Year},
    time::Range,
};

/// Days of a year.
const YEAR: i64 = 365;
/// A chance that is too small today but large enough within so many days is waited for; later than
/// that, today is too late (considered).
const SOON_DAYS: i64 = 60;

/// What the season says of a sowing in a bed.
pub(super) struct Outdoors {
    /// What to do today.
    pub(super) verdict: Verdict,
    /// Why not today.
    pub(super) reason: Option<Reason>,
    /// From the first day that it can go in, to the last of that stretch.
    pub(super) when: Option<Range>,
    /// Its course, sown today or on that first day; `None` if there is none.
    pub(super) course: Option<Course>,
}

/// The crop's course in that place; `None` where the catalogue does not tell it.
pub(super) fn outdoors(
    crop: &Crop,
    site: &Site,
    soil: &BedSoil,
    today: NaiveDate,
) -> Option<Outdoors> {
    let year = Year::of_site(site, &soil.year)?;
    let growing = Growing::new(&year, crop, How::Sown).ok()?;
    let on = |days: i64| today + Duration::days(days);
    let now = growing.course(today);
    let likely = (0..YEAR).find(|days| growing.goes(on(*days)));
    let when = likely.map(|likely| {
        // The soil may be warmer or colder than usual, and the first day sooner.
        let is_hot = matches!(now.reason, Some(Reason::TooHotToComeUp { .. }));
        let sd = soil.sd.get::<kelvin>() * if is_hot { -1.0 } else { 1.0 };
        let other = soil.year.shifted(TemperatureInterval::new::<kelvin>(sd));
        let other = Year::of_site(site, &other);
        let early = other
            .as_ref()
            .and_then(|other| Growing::new(other, crop, How::Sown).ok())
            .and_then(|growing| (0..likely).find(|days| growing.goes(on(*days))));
        let end = (likely..likely + YEAR).find(|days| !growing.goes(on(*days)));
        Range {
            early: Some(on(early.unwrap_or(likely))),
            likely: Some(on(likely)),
            late: end.map(|end| on(end - 1)),
        }
    });
    let verdict = match (likely, now.reason, now.verdict) {
        (Some(0), ..) => Verdict::Now,
        (None, ..) => Verdict::NotHere,
        (_, Some(reason), _) if reason.is_heat() => Verdict::TooHot,
        (_, _, season::Verdict::TooLate) => Verdict::TooLate,
        (Some(days), None, _) if days > SOON_DAYS => Verdict::TooLate,
        _ => Verdict::Wait,
    };
    Some(Outdoors {
        verdict,
        reason: now.reason.or((likely != Some(0)).then_some(Reason::Killed { alive: now.alive })),
        when,
        course: likely.map(|days| growing.course(on(days))),
    })
}
