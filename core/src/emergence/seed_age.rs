//! What the years take from seed.
//!
//! Years that seed keeps in good dry storage: *Knott's Handbook for Vegetable Growers* (from
//! memory). Beyond them the share that comes up is halved each time as many years again have passed
//! (considered; seed kept warm or damp loses more).

/// Years each crop's seed keeps.
#[rustfmt::skip]
const KEEPS: [(u8, &[&str]); 6] = [
    (1, &["onion-bulb", "onion-overwintering", "onion-bunching", "chives", "parsley", "parsnip"]),
    (2, &["sweet-corn", "leek", "okra", "pepper"]),
    (3, &["asparagus", "bean-snap-bush", "bean-pole", "bean-lima", "bean-broad", "broccoli", "long-stem-broccoli",
          "leaf-broccoli", "carrot", "celery", "cabbage-chinese", "pak-choi", "tatsoi", "mizuna", "kohlrabi", "pea",
          "spinach"]),
    (4, &["beet", "brussels-sprouts", "cabbage", "cauliflower", "chard", "eggplant", "fennel-bulb", "kale",
          "mustard-greens", "pumpkin", "rutabaga", "squash-summer", "squash-winter", "tomato", "turnip", "watermelon"]),
    (5, &["collards", "corn-salad", "cucumber", "endive", "radicchio", "melon", "radish", "arugula"]),
    (6, &["lettuce-leaf", "lettuce-head"]),
];

/// Years the seed of a crop keeps, where that is recorded.
pub fn keeps_years(crop: &str) -> Option<u8> {
    KEEPS.iter().find(|(_, crops)| crops.contains(&crop)).map(|(years, _)| *years)
}

/// The share of fresh seed's vigour left after so many years; three years' keeping is taken where
/// none is recorded.
pub fn left(crop: &str, years: f64) -> f64 {
    let keeps = f64::from(keeps_years(crop).unwrap_or(3));
    (-std::f64::consts::LN_2 * (years - keeps).max(0.0) / keeps).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fresh_seed_is_whole_and_old_onion_seed_soon_half() {
        assert_eq!(left("onion-bulb", 1.0), 1.0);
        assert_eq!(left("onion-bulb", 2.0), 0.5);
        assert_eq!(left("lettuce-leaf", 6.0), 1.0);
        assert!(left("tomato", 6.0) > left("tomato", 8.0));
    }
}
