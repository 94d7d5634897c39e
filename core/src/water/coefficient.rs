//! How much more or less than grass a crop uses when its leaves cover the ground.

use crate::catalogue::Crop;

/// Of most vegetables in mid-season: the group "small vegetables" of FAO-56 table 12.
pub const VEGETABLES: f64 = 1.05;

/// A crop's coefficient in the middle of its season, 0.85 to 1.15 (Kc mid).
///
/// Source: R. G. Allen and others, *Crop evapotranspiration*, FAO Irrigation and Drainage Paper 56,
/// 1998, table 12 (read in a reproduction): for use with its reference evapotranspiration where air
/// is neither dry nor windy. Crops that are not in the table are taken as [`VEGETABLES`]; young
/// plants use less.
#[must_use]
pub fn mid_season(crop: Option<&Crop>) -> f64 {
    match crop.map_or("", Crop::id) {
        "melon" | "strawberry" => 0.85,
        "radish" => 0.90,
        "asparagus" | "squash-summer" => 0.95,
        "cucumber" | "garlic" | "lettuce-head" | "lettuce-leaf" | "onion-bunching" | "pumpkin"
        | "spinach" | "squash-winter" => 1.00,
        "rutabaga" | "sunflower" | "turnip" => 1.10,
        // Climbers use more than the low kinds of the table.
        "bean-broad" | "bean-pole" | "mint" | "pea" | "potato" | "sweet-corn" | "sweet-potato"
        | "tomato" => 1.15,
        _ => VEGETABLES,
    }
}
