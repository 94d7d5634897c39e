//! A midday under shut glass.

use super::sky::Sky;
use crate::quantity::Temperature;

/// One midday.
#[derive(Clone, Copy)]
pub(super) struct Midday {
    pub inside: Temperature,
    pub outside: Temperature,
    pub sky: Sky,
}
