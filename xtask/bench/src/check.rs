//! An answer of the door, held against its question and against what is known to be best.

use serde_json::Value;

use crate::bed::{Aim, Bed};
use crate::sites::Model;

/// What the door found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// How many of each crop.
    pub counts: Vec<u32>,
    /// Whether it says that no layout holds more.
    pub proved: bool,
    /// How many plants it says no layout exceeds.
    pub bound: u32,
}

/// How a count compares with the best one: by the first crop in which they differ, or by the total,
/// as the bed's aim says. Negative where the answer has more.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Gap(pub i64);

impl Found {
    /// Reads an answer, having checked that every plant stands where it may and that the counts are
    /// those of the plants.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn checked(bed: &Bed, answer: &Value) -> Result<Self, String> {
        let member = |name: &str| answer.get(name).ok_or_else(|| format!("no {name}: {answer}"));
        let counts = member("counts")?.as_array().into_iter().flatten();
        let counts: Vec<u32> = counts
            .map(|count| count.as_u64().and_then(|count| u32::try_from(count).ok()))
            .collect::<Option<_>>()
            .ok_or_else(|| "the counts are no numbers".to_owned())?;
        let proved = member("proved")?.as_bool().ok_or("proved is no yes or no")?;
        let bound = member("bound")?
            .as_u64()
            .and_then(|bound| u32::try_from(bound).ok())
            .ok_or("the bound is no number")?;
        let plants = member("placed")?.as_array().into_iter().flatten();
        let mut chosen = Vec::new();
        let mut tally = vec![0; bed.crops.len()];
        let model = Model::of(bed);
        for plant in plants {
            let place = |name: &str| {
                let metres = plant.get(name).and_then(Value::as_f64).unwrap_or(f64::NAN);
                #[expect(clippy::cast_possible_truncation, reason = "no bed is 9 billion km long")]
                let micrometres = (metres * 1e6).round() as i64;
                micrometres
            };
            let (along, across) = (place("along_m"), place("across_m"));
            let crop = plant.get("crop").and_then(Value::as_str).unwrap_or_default();
            let crop = (0..bed.crops.len()).find(|&at| Bed::name(at) == crop);
            let at = model.choices.iter().position(|choice| {
                Some(choice.crop) == crop
                    && (choice.along - along).abs() <= 1
                    && (choice.across - across).abs() <= 1
            });
            let (Some(at), Some(crop)) = (at, crop) else {
                return Err(format!("this may not stand there: {plant}"));
            };
            if let Some(count) = tally.get_mut(crop) {
                *count += 1;
            }
            let near = model.excludes.get(at).map_or(&[][..], Vec::as_slice);
            if let Some(other) = chosen.iter().find(|other| near.contains(other)) {
                let other = model.choices.get(*other);
                return Err(format!("this stands too near to {other:?}: {plant}"));
            }
            chosen.push(at);
        }
        let too_many = bed
            .crops
            .iter()
            .zip(&tally)
            .any(|(crop, &count)| crop.on_hand.is_some_and(|most| count > most));
        if too_many || tally != counts {
            return Err(format!("counts {counts:?}, but {tally:?} are placed"));
        }
        Ok(Self { counts, proved, bound })
    }

    /// How far this stays behind the best that is known, by the bed's aim.
    #[must_use]
    pub fn gap(&self, aim: Aim, best: &[u32]) -> Gap {
        let total = |counts: &[u32]| counts.iter().map(|&count| i64::from(count)).sum::<i64>();
        Gap(match aim {
            Aim::Most => total(best) - total(&self.counts),
            Aim::InOrder => best
                .iter()
                .zip(&self.counts)
                .map(|(&best, &count)| i64::from(best) - i64::from(count))
                .find(|&gap| gap != 0)
                .unwrap_or(0),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn bed() -> Bed {
        "9144 3048 1 - - 3048 - 0 in-order 6096x2 - = 2".parse().unwrap()
    }

    fn answer(along: [f64; 2], count: u32) -> Value {
        let placed =
            along.map(|along| json!({"crop": "cabbage", "along_m": along, "across_m": 0.1524}));
        json!({"counts": [count], "proved": true, "bound": 2, "placed": placed})
    }

    #[test]
    fn what_breaks_a_rule_is_seen() {
        assert!(Found::checked(&bed(), &answer([0.1524, 0.762], 2)).is_ok());
        // Too near, on no emitter, and more counted than placed.
        assert!(Found::checked(&bed(), &answer([0.1524, 0.4572], 2)).is_err());
        assert!(Found::checked(&bed(), &answer([0.1524, 0.8], 2)).is_err());
        assert!(Found::checked(&bed(), &answer([0.1524, 0.762], 3)).is_err());
    }

    #[test]
    fn counts_compare_by_the_first_crop_that_differs_or_by_the_total() {
        let found = Found { counts: vec![12, 5], proved: false, bound: 20 };
        assert_eq!(found.gap(Aim::InOrder, &[12, 7]), Gap(2));
        assert_eq!(found.gap(Aim::InOrder, &[11, 9]), Gap(-1));
        assert_eq!(found.gap(Aim::Most, &[18]), Gap(1));
    }
}
