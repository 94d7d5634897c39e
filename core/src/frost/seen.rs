//! What harm that was seen tells of the low.
//!
//! Turned round from what kills ([`harm`](super::harm)): published killing temperatures are those of a few
//! regions, and kinds, wet and wind shift them by perhaps 5 °F (common practice). So a bound, no more.

use uom::si::temperature_interval::degree_fahrenheit;

use crate::{
    catalogue::Crop,
    place::air::of_celsius,
    quantity::{Temperature, TemperatureInterval},
    words::harm::Harm,
};

/// How far a killing temperature may be off, °F (common practice).
const OFF_F: f64 = 5.0;
/// How much further below what kills it may have been where all is dead, °F (considered).
const BELOW_F: f64 = 10.0;

/// Between two temperatures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Not below this,
    pub from: Temperature,
    /// nor above this.
    pub to: Temperature,
}

impl Span {
    /// What both tell; `None` where they tell against each other.
    #[must_use]
    pub fn and(self, other: Self) -> Option<Self> {
        let from = if other.from > self.from { other.from } else { self.from };
        let to = if other.to < self.to { other.to } else { self.to };
        (from <= to).then_some(Self { from, to })
    }
}

/// The low among the leaves that such harm to a crop fits; `None` where it would have been as unharmed
/// without any frost.
pub fn low_of(crop: &Crop, harm: Harm) -> Option<Span> {
    let off = |degrees_f: f64| TemperatureInterval::new::<degree_fahrenheit>(degrees_f);
    let loss = || crop.hardiness().serious_loss();
    let (hardiest, tenderest) =
        crop.kill_range().map_or_else(|| (loss(), loss()), |kills| (kills.least, kills.most));
    let freezing = of_celsius(0.0);
    // Nothing is frosted above freezing, but what is hurt by cold alone.
    let begins = if crop.cover_below() > freezing { crop.cover_below() } else { freezing };
    let least = |one: Temperature, other: Temperature| if one < other { one } else { other };
    let (from, to) = match harm {
        Harm::None => (hardiest - off(OFF_F), freezing),
        Harm::Some => (hardiest - off(OFF_F), begins),
        Harm::Most => (hardiest - off(BELOW_F), least(tenderest + off(OFF_F), begins)),
        Harm::All => (hardiest - off(BELOW_F + OFF_F), least(tenderest + off(OFF_F), begins)),
    };
    (from < to).then_some(Span { from, to })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::crops;

    #[test]
    fn more_harm_never_tells_of_a_warmer_night() {
        for crop in crops() {
            let spans = Harm::ALL.iter().map(|harm| low_of(crop, *harm));
            for pair in spans.collect::<Vec<_>>().windows(2) {
                if let [Some(less), Some(more)] = pair {
                    assert!(more.from <= less.from, "{}", crop.id());
                }
            }
            let [some, all] = [Harm::Some, Harm::All].map(|harm| low_of(crop, harm).unwrap());
            assert!(all.to <= some.to, "{}", crop.id());
        }
    }

    #[test]
    fn two_crops_of_a_bed_tell_more_than_one() {
        let known = |id| crate::catalogue::crop(id).ok().unwrap();
        let bean = low_of(known("bean-snap-bush"), Harm::All).unwrap();
        let lettuce = low_of(known("lettuce-leaf"), Harm::None).unwrap();
        let both = bean.and(lettuce).unwrap();
        assert!(both.from >= bean.from && both.to <= bean.to && both.from == lettuce.from);
        let kale = low_of(known("kale"), Harm::All).unwrap();
        assert_eq!(kale.and(lettuce), None);
    }
}
