//! What the years take from seed.
//!
//! Beyond the years that a crop's seed keeps (`keep` in `core/data/crops.toml`) the share that comes
//! up is halved each time as many years again have passed (considered; seed kept warm or damp loses
//! more).

use super::Crop;
use crate::{
    given::{Control, Readable},
    quantity::{Unreadable, number::read_number},
};

/// Years taken where it is not known how long a crop's seed keeps: as most vegetables' (considered).
pub const USUAL_YEARS: u8 = 3;

/// How old seed is, 0 to 20 years.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Years(f64);

impl Years {
    /// How many.
    pub(crate) fn number(self) -> f64 {
        self.0
    }
}

impl Readable for Years {
    const CONTROL: Control = Control::Count;

    fn allowed() -> String {
        "years from 0 to 20".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let years = read_number(text)?;
        if (0.0..=20.0).contains(&years) {
            return Ok(Self(years));
        }
        Err(Unreadable {
            allowed: Self::allowed(),
            why: "no seed was sown yet, or is sown still, at that age".to_owned(),
        })
    }
}

/// The share of fresh seed's vigour left after so many years.
///
/// Onion seed keeps a year (common practice); of two years old, half of what came up fresh still does:
/// ```
/// use pegline_core::{catalogue::{crop, seed_age::{Years, left}}, given::Readable};
/// let onion = crop("onion-bulb").ok().unwrap();
/// assert_eq!(left(onion, Years::read("1").unwrap()), 1.0);
/// assert_eq!(left(onion, Years::read("2").unwrap()), 0.5);
/// ```
pub fn left(crop: &Crop, Years(years): Years) -> f64 {
    let keeps = f64::from(crop.seed_keeps_years().unwrap_or(USUAL_YEARS));
    (-std::f64::consts::LN_2 * (years - keeps).max(0.0) / keeps).exp()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::crop;

    #[test]
    fn fresh_seed_is_whole_and_old_onion_seed_soon_half() {
        let left = |name: &str, years| left(crop(name).ok().unwrap(), Years(years));
        assert_eq!(left("onion-bulb", 1.0), 1.0);
        assert_eq!(left("onion-bulb", 2.0), 0.5);
        assert_eq!(left("lettuce-leaf", 6.0), 1.0);
        assert!(left("tomato", 6.0) > left("tomato", 8.0));
    }
}
