//! When garlic is lifted.
//!
//! Cloves swell in lengthening days (none at 12 hours and less: A. del Pozo and M. González, *Agric.
//! Técnica* 65:119, 2005) and with warmth: lifted 1650 °C·d over 0 °C, capped at 24 °C, after the day
//! passes 11 hours following midwinter (derived from 20 places of both halves of the world, from Texas to
//! Saskatchewan, most of their dates from memory: root mean square error 7.5 days, 8.6 where each place is
//! left out). A number of weeks from planting or from any length of the day misses by 25 to 40 days.

use chrono::{Duration, NaiveDate};

use super::{
    heat::{Between, of_days},
    year::{DAYS, Year, number},
};
use crate::{catalogue::garlic::Kind, time::Range};

/// From longer days on, hours,
const FROM_HOURS: f64 = 11.0;
/// so much heat, °C·d,
const SUM: f64 = 1650.0;
/// between these, °C.
const BETWEEN: Between = Between { base: 0.0, cap: 24.0 };
/// Planted in spring it takes at least as long, days (common practice).
const IN_SPRING: usize = 120;
/// It may be so much sooner or later, days: nine places in ten.
const EITHER_WAY: i64 = 14;
/// So much sooner is softneck, days (from memory).
const SOFTNECK_SOONER: i64 = 7;
/// Where the latitude is not known, days grow longer than 11 hours from here on, counted from 1 January in
/// the north and 1 July in the south: within a week between 30° and 55°.
const USUALLY_FROM: usize = 50;

/// When garlic planted on that day is lifted; `None` where it never gets so much warmth.
pub fn garlic_lifted(year: &Year, planted: NaiveDate, kind: Kind) -> Option<Range> {
    let start = number(planted);
    let mut sum = 0.0;
    let mut swelling = false;
    for (days, (number, day)) in year.from(start).take(2 * DAYS).enumerate() {
        swelling = swelling || year.lengthens_past(number, FROM_HOURS);
        if !swelling {
            continue;
        }
        sum += of_days(day.low, day.high, day.sd, BETWEEN);
        if sum >= SUM {
            let sooner = if kind == Kind::Softneck { SOFTNECK_SOONER } else { 0 };
            let likely = planted + Duration::days(days.max(IN_SPRING) as i64 - sooner);
            let either_way = Duration::days(EITHER_WAY);
            return Some(Range {
                early: Some(likely - either_way),
                likely: Some(likely),
                late: Some(likely + either_way),
            });
        }
    }
    None
}

impl Year {
    /// Heat over 0 °C, capped at 24 °C, since days last passed 11 hours and grew longer, °C·d: by it
    /// strawberries flower, asparagus comes up and garlic swells.
    pub fn spring_heat(&self, on: NaiveDate) -> f64 {
        let today = number(on) + DAYS;
        let passed = |day: &usize| {
            self.lengthens_past(day % DAYS, FROM_HOURS)
                && !self.lengthens_past((day - 1) % DAYS, FROM_HOURS)
        };
        let Some(since) = (today - DAYS + 1..=today).rev().find(passed) else { return 0.0 };
        let days = self.from(since % DAYS).take(today - since + 1);
        days.map(|(_, day)| of_days(day.low, day.high, day.sd, BETWEEN)).sum()
    }

    /// Whether days are so long there then, and grow longer still.
    fn lengthens_past(&self, day: usize, hours: f64) -> bool {
        let at = |day: usize| self.hours(day % DAYS);
        match (at(day), at(day + DAYS - 1)) {
            (Some(today), Some(yesterday)) => today > hours && today > yesterday,
            _ => {
                // Half a year after the hottest time lies the coldest.
                let turned = if (91..274).contains(&self.coldest) { DAYS / 2 } else { 0 };
                (USUALLY_FROM..DAYS / 2 - 10).contains(&((day + DAYS - turned) % DAYS))
            }
        }
    }
}
