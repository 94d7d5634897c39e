//! The kinds of night by sky and wind.

use crate::words::sky::{Sky, Wind};

/// The two kinds of night that are never mixed: what is learned on one tells nothing of the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Night {
    /// Clear, and wind up to 10 mph at most: the ground radiates, and cold air lies on it.
    ClearAndCalm,
    /// Cloudy, partly so, or with more wind.
    Other,
}

impl Night {
    /// The kind of night under this sky and in this wind.
    pub fn of(sky: Sky, wind: Wind) -> Self {
        if sky == Sky::Clear && wind < Wind::Breezy { Self::ClearAndCalm } else { Self::Other }
    }
}

/// How far a night is like a clear and calm one, 0 to 1.
///
/// Wind under 5 mph does not disturb the cold air on the ground, and from 10 mph on it mixes (notes on
/// cold weather for gardeners); some cloud holds back about half of what the sky takes (considered).
pub fn clear_part(sky: Sky, wind: Wind) -> f64 {
    let sky = match sky {
        Sky::Clear => 1.0,
        Sky::Part => 0.5,
        Sky::Cloudy => 0.0,
    };
    let calm = match wind {
        Wind::Still => 1.0,
        // Between 5 and 10 mph.
        Wind::Light => 0.75,
        Wind::Breezy | Wind::Windy => 0.0,
    };
    sky * calm
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_clear_and_calm_nights_are_of_that_kind() {
        assert_eq!(Night::of(Sky::Clear, Wind::Light), Night::ClearAndCalm);
        assert_eq!(Night::of(Sky::Clear, Wind::Breezy), Night::Other);
        assert_eq!(Night::of(Sky::Clear, Wind::Windy), Night::Other);
        assert_eq!(Night::of(Sky::Part, Wind::Still), Night::Other);
    }

    #[test]
    fn some_cloud_lies_between_clear_and_cloudy_and_wind_mixes() {
        for wind in [Wind::Still, Wind::Light] {
            let part = |sky| clear_part(sky, wind);
            assert!(part(Sky::Clear) > part(Sky::Part) && part(Sky::Part) > part(Sky::Cloudy));
        }
        assert!(clear_part(Sky::Clear, Wind::Still) > clear_part(Sky::Clear, Wind::Light));
        assert_eq!(clear_part(Sky::Clear, Wind::Breezy), 0.0);
    }
}
