//! A midday under shut glass.

use crate::{quantity::Temperature, words::sky::Sky};

/// One midday.
#[derive(Clone, Copy)]
pub(crate) struct Midday {
    pub inside: Temperature,
    pub outside: Temperature,
    pub sky: Sky,
}
