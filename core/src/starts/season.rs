//! From when the season lets a tray's crop be set out, by its [course](crate::season) in the place.

use chrono::{Duration, NaiveDate};

use super::plant_out::{Decides, Frosts, Nerve, waits_for_frost};
use crate::{
    catalogue::Crop,
    place::{
        site::Site,
        soil::{SoilYear, Texture},
    },
    season::{Course, Growing, How, Reason, Year},
};

/// The first day is looked for in steps of so many days, then day by day.
const STRIDE: i64 = 4;
/// Days of a year.
const YEAR: i64 = 365;
/// So likely to live, a plant that can't wait beats the compost (considered).
const BEATS_THE_COMPOST: f64 = 0.4;

/// The place's year, for plants.
pub(crate) struct Season(Year);

impl Season {
    /// Of a site whose air is known; its soil by the readings of a bed, or as usual.
    pub(crate) fn of(site: &Site, soil: Option<&SoilYear>) -> Option<Self> {
        let usual = || {
            let texture = site.soil.unwrap_or(Texture::Loam);
            Some(SoilYear::from_air(site.air.as_ref()?, texture))
        };
        let soil = soil.copied().or_else(usual)?;
        Year::of_site(site, &soil).map(Self)
    }

    /// The crop's course from that day; `None` where it is not known.
    pub(crate) fn course(&self, crop: &Crop, how: How, on: NaiveDate) -> Option<Course> {
        Some(Growing::new(&self.0, crop, how).ok()?.course(on))
    }

    /// The first day from one on, within a year, on which it can go in so; the outer `None` where its
    /// course is not known, the inner where no day suits.
    pub(crate) fn first(
        &self,
        crop: &Crop,
        how: How,
        from: NaiveDate,
    ) -> Option<Option<NaiveDate>> {
        let growing = Growing::new(&self.0, crop, how).ok()?;
        let on = |days: i64| from + Duration::days(days);
        let goes = |days: &i64| growing.goes(on(*days));
        let found = (0..YEAR).step_by(STRIDE as usize).find(goes);
        let first = found.map(|found| (found - STRIDE + 1).max(0)..=found);
        Some(first.and_then(|mut within| within.find(goes)).map(on))
    }
}

/// The days before which it does not go out, each with what decides it: frost at that nerve, and its
/// course.
pub(crate) fn not_before(
    crop: &Crop,
    season: Option<&Season>,
    frosts: Option<Frosts>,
    nerve: Nerve,
    from: NaiveDate,
) -> [(Option<NaiveDate>, Decides); 2] {
    let frosts = frosts.filter(|_| waits_for_frost(crop));
    let frost = frosts.map(|frosts| frosts.safe_from(nerve, from));
    let season = season.and_then(|season| season.first(crop, How::SetOut, from).flatten());
    [(frost, Decides::Frost), (season, Decides::Season)]
}

/// Whether a plant that can't wait is set out all the same: it only stands still, or is a gamble.
pub(crate) fn goes_anyway(course: &Course) -> bool {
    course.alive >= BEATS_THE_COMPOST && matches!(course.reason, None | Some(Reason::StandsStill))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        catalogue,
        place::air::{Air, LowAndHigh, of_celsius},
    };

    fn season() -> Season {
        let coldest = LowAndHigh { low: of_celsius(-5.0), high: of_celsius(3.0) };
        let hottest = LowAndHigh { low: of_celsius(17.0), high: of_celsius(29.0) };
        let site =
            Site { air: Some(Air::from_extremes(coldest, hottest, false)), ..Site::default() };
        Season::of(&site, None).unwrap()
    }

    fn date(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn the_first_day_is_the_first_on_which_it_goes() {
        let season = season();
        for name in ["tomato", "kale", "cabbage", "pepper"] {
            let crop = catalogue::crop(name).ok().unwrap();
            let first = season.first(crop, How::SetOut, date("2026-02-01")).unwrap().unwrap();
            let growing = Growing::new(&season.0, crop, How::SetOut).unwrap();
            assert!(
                growing.goes(first) && !growing.goes(first - Duration::days(1)),
                "{name} {first}"
            );
            assert!(date("2026-03-01") < first && first < date("2026-06-10"), "{name} {first}");
        }
    }

    #[test]
    fn kale_of_late_autumn_only_stands_still_and_tomatoes_die() {
        let season = season();
        let on = |name: &str| {
            let crop = catalogue::crop(name).ok().unwrap();
            season.course(crop, How::SetOut, date("2026-11-10")).unwrap()
        };
        assert!(!goes_anyway(&on("tomato")));
        assert!(
            season
                .first(catalogue::crop("radish").ok().unwrap(), How::SetOut, date("2026-04-01"))
                .is_none()
        );
    }
}
