//! The sky and the wind of a night, as a person standing outdoors tells them.

use crate::{
    given::{Control, Readable, words},
    quantity::{Quantity, Unreadable, Velocity},
};
use uom::si::velocity::{meter_per_second, mile_per_hour};

words! {
    /// How much of the sky clouds cover.
    pub enum Sky {
        /// No cloud, or hardly any.
        Clear = "clear" => "clear",
        /// Some clouds.
        Part = "part" => "some cloud",
        /// Mostly or all cloud.
        Cloudy = "cloudy" => "cloudy",
    }
}

/// How the air moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wind {
    /// Under 2 m/s (4.5 mph): smoke rises straight or nearly so.
    Still,
    /// Leaves stir: up to 10 mph, above which the air mixes.
    Light,
    /// Up to 15 mph: leaves and twigs move all the time.
    Breezy,
    /// Over 15 mph: small branches move.
    Windy,
}

/// Below this a night counts as calm for the evening method: FAO Environment and Natural Resources Series 10, vol. 1, ch. 5.
const STILL_BELOW_M_PER_S: f64 = 2.0;
/// Above this the air over the ground is mixed, and cold does not come down to it: notes on cold weather
/// for gardeners call wind under 5 to 10 mph calm, and from 10 mph on a freeze carried by wind.
const MIXED_ABOVE_MPH: f64 = 10.0;
/// Above this starts are not put out (common practice).
const WINDY_ABOVE_MPH: f64 = 15.0;

impl Wind {
    /// The wind of that speed.
    pub fn of(speed: Velocity) -> Self {
        let mph = speed.get::<mile_per_hour>();
        if speed.get::<meter_per_second>() < STILL_BELOW_M_PER_S {
            Self::Still
        } else if mph <= MIXED_ABOVE_MPH {
            Self::Light
        } else if mph <= WINDY_ABOVE_MPH {
            Self::Breezy
        } else {
            Self::Windy
        }
    }

    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Still => "still",
            Self::Light => "light",
            Self::Breezy => "breezy",
            Self::Windy => "windy",
        }
    }
}

/// As one of the words, or as a speed.
impl Readable for Wind {
    const CONTROL: Control =
        Control::Choice(&[("still", "still"), ("light", "light"), ("windy", "windy")]);

    fn allowed() -> String {
        "still, light or windy, or a speed such as 6 mph".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let folded = text.to_ascii_lowercase();
        let by_word = [Self::Still, Self::Light, Self::Breezy, Self::Windy]
            .into_iter()
            .find(|wind| wind.word() == folded);
        if let Some(wind) = by_word {
            return Ok(wind);
        }
        let unreadable = |why: String| Unreadable { allowed: Self::allowed(), why };
        if !text.contains(|sign: char| sign.is_ascii_digit()) {
            return Err(unreadable("none of these".to_owned()));
        }
        let speed =
            <Velocity as Quantity>::read(text).map_err(|refused| unreadable(refused.why))?;
        if speed.value < 0.0 {
            return Err(unreadable("wind can't be less than none".to_owned()));
        }
        Ok(Self::of(speed))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wind_is_told_by_word_or_by_speed() {
        for (text, wind) in [
            ("still", Wind::Still),
            ("Windy", Wind::Windy),
            ("3 mph", Wind::Still),
            ("2 m/s", Wind::Light),
            ("10 mph", Wind::Light),
            ("12 mph", Wind::Breezy),
            ("breezy", Wind::Breezy),
            ("15 mph", Wind::Breezy),
            ("30 km/h", Wind::Windy),
        ] {
            assert_eq!(Wind::read(text).ok(), Some(wind), "{text}");
        }
        for text in ["gale", "15", "-3 mph", "3 furlongs", ""] {
            assert!(Wind::read(text).is_err(), "{text}");
        }
    }
}
