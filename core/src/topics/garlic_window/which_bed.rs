//! Which bed for the garlic.
//!
//! First what rules a bed out: white rot ever seen (it lives 20 to 30 years in the soil: *Pacific
//! Northwest Plant Disease Management Handbook*, 2024), an allium within the rotation (the
//! catalogue's years for the onion family), not free when the window opens. Then what makes one
//! better: drained, in sun in spring, and the coldest by its own readings (common practice).

use chrono::{Datelike, NaiveDate};
use uom::si::temperature_interval::degree_celsius as kelvin;

use crate::{catalogue::Family, order, quantity::TemperatureInterval};

/// What is known of a bed.
#[derive(Clone, Copy, Debug, Default)]
pub struct Candidate<'a> {
    /// What it is called.
    pub name: &'a str,
    /// White rot was seen there, in whatever year.
    pub white_rot: bool,
    /// The last year in which an allium stood there.
    pub last_allium: Option<i32>,
    /// The day it is free; `None` if nothing stands there.
    pub free_on: Option<NaiveDate>,
    /// Whether it drains after rain, if known.
    pub drained: Option<bool>,
    /// Whether it is in sun from April on, if known.
    pub spring_sun: Option<bool>,
    /// How far its readings put it from the place's usual soil, if any were taken.
    pub colder_by: Option<TemperatureInterval>,
}

/// Why a bed is out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Out {
    /// White rot was seen there.
    WhiteRot,
    /// An allium stood there in that year.
    Allium(i32),
    /// Free only on that day, after the window closes.
    NotFree(NaiveDate),
    /// It stays wet.
    Wet,
}

/// Why a bed is out for planting on `plant_on`, if the window closes on `closes`.
pub fn out(bed: &Candidate<'_>, plant_on: NaiveDate, closes: NaiveDate) -> Option<Out> {
    if bed.white_rot {
        return Some(Out::WhiteRot);
    }
    if bed.drained == Some(false) {
        return Some(Out::Wet);
    }
    if let Some(year) = bed.last_allium
        && plant_on.year() - year < i32::from(Family::Onion.gap_years())
    {
        return Some(Out::Allium(year));
    }
    bed.free_on.filter(|free| *free > closes).map(Out::NotFree)
}

/// The beds in order, the best first, as indices; beds that are out are left out.
///
/// Known to drain before not known; in spring sun before not known before shaded; free by the
/// opening before later; then the colder; then in the order given.
pub fn in_order(
    beds: &[Candidate<'_>],
    opens: NaiveDate,
    plant_on: NaiveDate,
    closes: NaiveDate,
) -> Vec<usize> {
    let mut fit: Vec<(usize, &Candidate<'_>)> =
        beds.iter().enumerate().filter(|(_, bed)| out(bed, plant_on, closes).is_none()).collect();
    let colder = |bed: &Candidate<'_>| bed.colder_by.map_or(0.0, |by| by.get::<kelvin>());
    order::sort(&mut fit, &|(_, bed)| {
        let drained = i64::from(bed.drained != Some(true));
        let sun = bed.spring_sun.map_or(1, |sun| if sun { 0 } else { 2 });
        let waits = i64::from(bed.free_on.is_some_and(|free| free > opens));
        // The coldest first.
        [drained * 3 + sun, waits, !order::rank(colder(bed))]
    });
    fit.into_iter().map(|(index, _)| index).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn date(month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, month, day).unwrap()
    }

    fn bed(name: &str) -> Candidate<'_> {
        Candidate { name, ..Candidate::default() }
    }

    fn names<'a>(beds: &[Candidate<'a>]) -> Vec<&'a str> {
        let order = in_order(beds, date(10, 8), date(10, 24), date(11, 14));
        order.into_iter().map(|index| beds[index].name).collect()
    }

    #[test]
    fn drainage_and_spring_sun_come_before_cold() {
        let colder = Some(TemperatureInterval::new::<kelvin>(2.0));
        let beds = [
            Candidate {
                drained: Some(true),
                spring_sun: Some(false),
                colder_by: colder,
                ..bed("shaded")
            },
            Candidate { drained: Some(true), spring_sun: Some(true), ..bed("sunny") },
            Candidate {
                drained: Some(true),
                spring_sun: Some(true),
                colder_by: colder,
                ..bed("sunny and cold")
            },
            Candidate { colder_by: colder, ..bed("unknown") },
        ];
        assert_eq!(names(&beds), ["sunny and cold", "sunny", "shaded", "unknown"]);
    }

    #[test]
    fn what_rules_a_bed_out_is_named() {
        let out = |bed| out(&bed, date(10, 24), date(11, 14));
        assert_eq!(out(Candidate { white_rot: true, ..bed("a") }), Some(Out::WhiteRot));
        assert_eq!(out(Candidate { drained: Some(false), ..bed("a") }), Some(Out::Wet));
        assert_eq!(out(Candidate { last_allium: Some(2023), ..bed("a") }), Some(Out::Allium(2023)));
        assert_eq!(out(Candidate { last_allium: Some(2022), ..bed("a") }), None);
        let december = Some(date(12, 1));
        assert_eq!(
            out(Candidate { free_on: december, ..bed("a") }),
            Some(Out::NotFree(date(12, 1)))
        );
        assert_eq!(out(Candidate { free_on: Some(date(10, 20)), ..bed("a") }), None);
    }

    #[test]
    fn free_by_the_opening_comes_first() {
        let later = Candidate { free_on: Some(date(10, 20)), ..bed("later") };
        assert_eq!(names(&[later, bed("free")]), ["free", "later"]);
    }
}
