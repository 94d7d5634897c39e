//! When seed maggot flies are on the wing, by the warmth of the year.
//!
//! Degree-days above 39 °F (cut off at 84 °F) from 1 January, peaks of flight at 360, 1080 and 1800, and
//! 781 to 1051 as the safer time after the first: UC IPM, cole crops, seedcorn maggot. So a peak
//! threatens from 29 degree-days before it to 421 after it. In the south the count starts on 1 July
//! (derived). The day's mean of the usual low and high stands for the day.

use chrono::{Datelike, NaiveDate};
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use crate::{place::air::Air, time::DayOfYear};

const BASE_F: f64 = 39.0;
const CUT_OFF_F: f64 = 84.0;
const PEAKS: [f64; 3] = [360.0, 1080.0, 1800.0];
const BEFORE: f64 = 29.0;
const AFTER: f64 = 421.0;

/// The end of the peak of flight in which a day lies; `None` outside a peak.
pub(super) fn over(air: &Air, south: bool, date: NaiveDate) -> Option<NaiveDate> {
    let starts_in = |year| NaiveDate::from_ymd_opt(year, if south { 7 } else { 1 }, 1);
    let this_year = starts_in(date.year())?;
    let start = if date < this_year { starts_in(date.year() - 1)? } else { this_year };
    let mut sum = 0.0;
    let mut peak_ends = None;
    for day in start.iter_days().take(365) {
        if day == date {
            let peak = PEAKS.iter().find(|peak| (*peak - BEFORE..*peak + AFTER).contains(&sum))?;
            peak_ends = Some(peak + AFTER);
        }
        if peak_ends.is_some_and(|end| end <= sum) {
            return Some(day);
        }
        sum += degree_days(air, day);
    }
    None
}

fn degree_days(air: &Air, date: NaiveDate) -> f64 {
    let day = DayOfYear::of(date);
    let held = |f: f64| f.clamp(BASE_F, CUT_OFF_F);
    let [low, high] = [air.low(day), air.high(day)].map(|air| held(air.get::<degree_fahrenheit>()));
    (low + high) / 2.0 - BASE_F
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Temperature;

    /// A place at 49 °F all year: 10 degree-days a day.
    fn air() -> Air {
        let always = [Temperature::new::<degree_fahrenheit>(49.0); 12];
        Air::from_months(&always, &always, None)
    }

    fn day(ordinal: u32) -> NaiveDate {
        NaiveDate::from_yo_opt(2026, ordinal).unwrap()
    }

    #[test]
    fn between_781_and_1051_degree_days_it_is_safer() {
        // 10 a day: by the start of day n 10 (n - 1) have added up.
        assert_eq!(over(&air(), false, day(80)), None);
        assert_eq!(over(&air(), false, day(105)), None);
        assert_eq!(over(&air(), false, day(37)), Some(day(80)));
        assert_eq!(over(&air(), false, day(107)), Some(day(152)));
        assert_eq!(over(&air(), false, day(10)), None);
    }

    #[test]
    fn in_the_south_the_count_starts_in_july() {
        let peak = NaiveDate::from_ymd_opt(2026, 8, 30).unwrap();
        assert!(over(&air(), true, peak).is_some());
        // The same day of the year is past the third peak in the north.
        assert_eq!(over(&air(), false, peak), None);
    }
}
