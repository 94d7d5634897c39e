//! What the record holds of a crop that is asked about.

use crate::garden::{Bed, Planting};

/// What the record holds of the bed that was named.
#[derive(Clone, Copy, Default)]
pub(super) struct Recorded<'a> {
    pub(super) bed: Option<&'a Bed>,
    pub(super) planting: Option<&'a Planting>,
}
