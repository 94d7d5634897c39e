//! The kinds of night by sky and wind.

use crate::words::sky::{Sky, Wind};

/// The two kinds of night that are never mixed: what is learned on one tells nothing of the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Night {
    /// Clear and not windy: the ground radiates, and cold air lies on it.
    ClearAndCalm,
    /// Cloudy, partly so, or windy.
    Other,
}

impl Night {
    /// The kind of night under this sky and in this wind.
    pub fn of(sky: Sky, wind: Wind) -> Self {
        if sky == Sky::Clear && wind != Wind::Windy { Self::ClearAndCalm } else { Self::Other }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_clear_and_calm_nights_are_of_that_kind() {
        assert_eq!(Night::of(Sky::Clear, Wind::Light), Night::ClearAndCalm);
        assert_eq!(Night::of(Sky::Clear, Wind::Windy), Night::Other);
        assert_eq!(Night::of(Sky::Part, Wind::Still), Night::Other);
    }
}
