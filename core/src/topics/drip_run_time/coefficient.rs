//! How much more or less than grass a crop uses when its leaves cover the ground.

use crate::catalogue::Crop;

/// Of most vegetables in mid-season: the group "small vegetables" of FAO-56 table 12.
pub const VEGETABLES: f64 = 1.05;

/// A crop's coefficient in the middle of its season, 0.85 to 1.15 (Kc mid): `water` in
/// `core/data/crops.toml`, for use with the reference evapotranspiration of FAO-56 where air is
/// neither dry nor windy. Where it is not known, as [`VEGETABLES`]; young plants use less.
#[must_use]
pub fn mid_season(crop: Option<&Crop>) -> f64 {
    crop.and_then(Crop::water_in_mid_season).unwrap_or(VEGETABLES)
}
