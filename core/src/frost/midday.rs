//! A midday under shut glass.

use super::sky::Sky;
use crate::quantity::Temperature;

/// One midday.
#[derive(Clone, Copy)]
pub(crate) struct Midday {
    pub inside: Temperature,
    pub outside: Temperature,
    pub sky: Sky,
}
