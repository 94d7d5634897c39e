//! The heat a crop had since sowing, told as support: it never outweighs what the hand and the eye say.

use chrono::{Days, NaiveDate};

use crate::{
    asking::Asking,
    harvest::{chosen::Chosen, heat::DegreeDays, own, verdict::Ages},
    place::air::Air,
    quantity::{System, number::show_number},
    text::span,
    time::Range,
};

/// The heat a crop had since sowing, and the heat at which it is ready.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct HeatTold {
    /// Since sowing, Celsius degree-days by the formula of the sum, in the usual air of the place.
    pub so_far_c_days: f64,
    /// The least at which it is ready, Celsius degree-days.
    pub least_c_days: f64,
    /// The most at which it is ready, Celsius degree-days.
    pub most_c_days: f64,
    /// Whether these two come from the gardener's own earlier seasons.
    pub own: bool,
    /// When the usual air brings it to the least, the middle and the most, 15 % either side (derived);
    /// a date is null where that takes more than a year.
    pub expected: Range,
    /// All of it in a sentence.
    pub words: String,
}

/// How many days ahead the usual air is followed.
const AHEAD: u64 = 365;
/// Half the width of the range around a published sum: prediction is at most that good (derived from
/// the scatter at one place, Oregon State University, Vegetable Digest XVIII(3), 1969).
const EITHER_SIDE: f64 = 0.15;

impl HeatTold {
    /// `None` where no sum is published for the crop, or it was sown more than a year ago.
    pub(super) fn of(
        chosen: Chosen,
        today: NaiveDate,
        air: &Air,
        ages: &Ages,
        own: bool,
    ) -> Option<Self> {
        let sum = chosen.sheet.heat()?;
        let (so_far, [least, most]) = ages.heat?;
        let middle = f64::midpoint(least.celsius_days(), most.celsius_days());
        let ends = [
            least.celsius_days().min(middle * (1.0 - EITHER_SIDE)),
            middle,
            most.celsius_days().max(middle * (1.0 + EITHER_SIDE)),
        ];
        // The days still to come, one after the other, until the last of the three is reached.
        let mut reached = ends.map(|end| (so_far.celsius_days() >= end).then_some(today));
        let mut heat = so_far;
        for ahead in 0..AHEAD {
            let Some(date) = today.checked_add_days(Days::new(ahead)) else {
                break;
            };
            heat = heat
                + crate::harvest::heat::of_day(
                    sum.formula(),
                    sum.thresholds(),
                    own::usual_air(air, date),
                );
            for (end, reached) in ends.iter().zip(&mut reached) {
                if reached.is_none() && heat.celsius_days() >= *end {
                    *reached = date.checked_add_days(Days::new(1));
                }
            }
        }
        let [early, likely, late] = reached;
        let round = |heat: DegreeDays| (heat.celsius_days() * 10.0).round() / 10.0;
        Some(Self {
            so_far_c_days: round(so_far),
            least_c_days: round(least),
            most_c_days: round(most),
            own,
            expected: Range { early, likely, late },
            words: String::new(),
        })
    }

    /// With its sentence: "690 °F-days since sowing; ready at 800 to 1,160 as published, about 3 to 12 Jul".
    pub(super) fn told(mut self, asking: &Asking<'_>) -> Self {
        let (factor, unit) = match asking.system {
            System::Us => (1.8, "°F-days"),
            System::Metric => (1.0, "°C-days"),
        };
        let shown = |days: f64| show_number((days * factor / 10.0).round() * 10.0, 0);
        let (least, most) = (shown(self.least_c_days), shown(self.most_c_days));
        let ends = if least == most { least } else { format!("{least} to {most}") };
        let by = if self.own { "by your own earlier seasons" } else { "as published" };
        let when = match (self.expected.early, self.expected.late) {
            (Some(early), Some(late)) if asking.today.is_some_and(|today| late > today) => {
                format!(", {}", span(early, late, asking.today))
            }
            _ => String::new(),
        };
        self.words = format!(
            "Heat since sowing: {} {unit}; ready at {ends} {by}{when}. Support only: your look decides.",
            shown(self.so_far_c_days)
        );
        self
    }
}
