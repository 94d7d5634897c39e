//! What a cover changes, and where covers go when there are few.
//!
//! Covering pays where the chance of loss it takes away exceeds its cost beside what is lost (R. W.
//! Katz, A. H. Murphy and R. L. Winkler, 1982, from memory). A sheet costs minutes, so a chance of
//! one in ten is enough, and half of that is worth a thought.

use super::expected::Expected;
use crate::{catalogue::Gain, order, quantity::Temperature, words::sky::Wind};

/// From this chance of harm on, cover, unless the gardener has set another.
pub const ACT: f64 = 0.1;

/// A cover that takes away less of the chance of loss than this is not worth its minutes (considered).
pub const WORTH_IT: f64 = 0.02;

/// The share of a cover's gain that is left in wind, when heat is carried away and not radiated
/// (derived: published advice only calls it doubtful).
const IN_WIND: f64 = 0.5;

/// The bed's low under a cover, in this wind.
pub fn covered(bare: &Expected, gain: &Gain, wind: Wind) -> Expected {
    let left = if wind == Wind::Windy { IN_WIND } else { 1.0 };
    bare.moved(gain.mean * left, gain.sd)
}

/// Something that can be covered: a bed, or one crop of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Its low without a cover.
    pub bare: Expected,
    /// The same with a doubt that is alike for all choices, by which they are ranked: so a bed does not get
    /// the cover for being less known.
    pub ranked: Expected,
    /// What grows there: below what temperature it is lost, and what it is worth (plants, or any
    /// measure that is the same throughout).
    pub plants: Vec<(Temperature, f64)>,
}

impl Choice {
    /// The worth expected to be lost at such a low.
    fn loss(&self, low: &Expected) -> f64 {
        self.plants.iter().map(|(lost_below, worth)| worth * low.chance_below(*lost_below)).sum()
    }

    /// The worth that a cover is expected to save; never less than nothing, for a cover that harms
    /// would be left off.
    pub fn saved(&self, gain: &Gain, wind: Wind) -> f64 {
        self.saved_at(&self.bare, gain, wind)
    }

    fn saved_at(&self, low: &Expected, gain: &Gain, wind: Wind) -> f64 {
        (self.loss(low) - self.loss(&covered(low, gain, wind))).max(0.0)
    }

    /// Whether saving so much is worth laying a cover.
    fn is_worth(&self, saved: f64) -> bool {
        let worth: f64 = self.plants.iter().map(|(_, worth)| worth).sum();
        saved > 0.0 && saved >= WORTH_IT * worth
    }
}

/// Which choice gets which cover: indices of `choices` and of `gains`, the most worth saved first.
///
/// `gains` holds one for each single cover there is. The best covers go first, each to where it saves
/// most by the likely lows; a choice gets one at most, and none where it saves next to nothing. Among equals the
/// earlier goes first.
pub fn assigned(choices: &[Choice], gains: &[Gain], wind: Wind) -> Vec<(usize, usize)> {
    let mut by_gain: Vec<usize> = (0..gains.len()).collect();
    let mean = |index: usize| gains.get(index).map_or(0.0, |gain| gain.mean.value);
    order::sort(&mut by_gain, &|index| [!order::rank(mean(*index)), 0, 0]);
    by_gain.truncate(choices.len());
    let mut free: Vec<usize> = (0..choices.len()).collect();
    let mut given = Vec::new();
    for cover in by_gain {
        let Some(gain) = gains.get(cover) else {
            continue;
        };
        let mut best: Option<(usize, f64)> = None;
        for (place, index) in free.iter().enumerate() {
            let Some(choice) = choices.get(*index) else {
                continue;
            };
            let saves = choice.saved_at(&choice.ranked, gain, wind);
            if choice.is_worth(choice.saved(gain, wind))
                && best.is_none_or(|(_, most)| saves > most)
            {
                best = Some((place, saves));
            }
        }
        if let Some((place, saves)) = best {
            given.push((free.remove(place), cover, saves));
        }
    }
    order::sort(&mut given, &|(choice, _, saves)| [!order::rank(*saves), *choice as i64, 0]);
    given.into_iter().map(|(choice, cover, _)| (choice, cover)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{place::air::of_celsius, quantity::TemperatureInterval};
    use proptest::prelude::*;
    use uom::si::temperature_interval::degree_celsius as kelvin;

    fn interval(degrees: f64) -> TemperatureInterval {
        TemperatureInterval::new::<kelvin>(degrees)
    }

    fn choice(low_c: f64, worth: f64) -> Choice {
        let bare = Expected { low: of_celsius(low_c), sd: interval(2.0), df: None };
        Choice { bare, ranked: bare, plants: vec![(of_celsius(0.0), worth)] }
    }

    fn gain(mean: f64) -> Gain {
        Gain { mean: interval(mean), sd: interval(1.0) }
    }

    #[test]
    fn the_only_cover_goes_where_it_saves_most() {
        // The first bed is lost anyway, the second can be saved, the third needs nothing.
        let choices = [choice(-9.0, 10.0), choice(-0.5, 10.0), choice(9.0, 10.0)];
        assert_eq!(assigned(&choices, &[gain(1.5)], Wind::Still), [(1, 0)]);
    }

    #[test]
    fn the_better_cover_goes_first_and_none_is_given_for_nothing() {
        let choices = [choice(-0.5, 1.0), choice(-0.5, 8.0), choice(30.0, 99.0)];
        let covers = [gain(1.0), gain(2.5), gain(1.0)];
        assert_eq!(assigned(&choices, &covers, Wind::Still), [(1, 1), (0, 0)]);
    }

    #[test]
    fn the_colder_bed_goes_before_the_one_less_known() {
        let colder = choice(0.5, 10.0);
        let unknown = choice(1.5, 10.0);
        let wide = Expected { sd: interval(5.0), ..unknown.bare };
        let choices = [Choice { bare: wide, ..unknown }, colder];
        assert_eq!(assigned(&choices, &[gain(1.5)], Wind::Still), [(1, 0)]);
    }

    #[test]
    fn wind_takes_half_of_a_cover() {
        let bed = choice(-0.5, 1.0);
        assert!(bed.saved(&gain(2.0), Wind::Windy) < bed.saved(&gain(2.0), Wind::Light));
    }

    proptest! {
        #[test]
        fn a_better_cover_never_saves_less(low_c in -8.0..8.0f64, mean in 0.0..4.0f64, more in 0.0..3.0f64) {
            let bed = choice(low_c, 1.0);
            prop_assert!(bed.saved(&gain(mean + more), Wind::Still) >= bed.saved(&gain(mean), Wind::Still) - 1e-12);
        }

        #[test]
        fn no_bed_gets_two_covers_and_no_cover_goes_twice(
            lows in prop::collection::vec(-5.0..5.0f64, 0..9), means in prop::collection::vec(0.5..4.0f64, 0..9),
        ) {
            let choices: Vec<Choice> = lows.iter().map(|low| choice(*low, 1.0)).collect();
            let gains: Vec<Gain> = means.iter().map(|mean| gain(*mean)).collect();
            let given = assigned(&choices, &gains, Wind::Still);
            let mut beds: Vec<usize> = given.iter().map(|(bed, _)| *bed).collect();
            let mut covers: Vec<usize> = given.iter().map(|(_, cover)| *cover).collect();
            beds.sort_unstable();
            beds.dedup();
            covers.sort_unstable();
            covers.dedup();
            prop_assert_eq!((beds.len(), covers.len()), (given.len(), given.len()));
            prop_assert!(given.len() <= choices.len().min(gains.len()));
        }
    }
}
