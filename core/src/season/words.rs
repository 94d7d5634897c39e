//! Why not, in words.

use super::Reason;
use crate::quantity::{Quantity, System, Temperature};

impl Reason {
    /// Why not, with the figure it rests on: "at 41 °F the soil is too cold for pepper".
    pub(crate) fn told(self, name: &str, system: System) -> String {
        let shown = |temperature: Temperature| temperature.show(system);
        match self {
            Self::TooColdToComeUp { soil, .. } => {
                format!("at {} the soil is too cold for {name}", shown(soil))
            }
            Self::SoilCold { soil, limit } => format!(
                "at {} the soil is too cold for {name}, which wants about {}",
                shown(soil),
                shown(limit)
            ),
            Self::TooHotToComeUp { soil, .. } => {
                format!("at {} the soil is too warm for {name}", shown(soil))
            }
            Self::TooHot { mean, limit } => format!(
                "{name} would be ready in days of {} on average, and wants {} or less",
                shown(mean),
                shown(limit)
            ),
            Self::Bolts { .. } => "it would flower before it is picked".to_owned(),
            Self::Killed { .. } => "frost would most likely kill it before picking".to_owned(),
            Self::StandsStill => "it would stand still for want of warmth or light".to_owned(),
            Self::NeverThere => "it would not be ready in time".to_owned(),
        }
    }
}
