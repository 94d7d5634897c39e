//! Garlic: its row, and its two kinds.

use std::num::NonZeroU32;

use super::{Crop, crop};
use crate::given::words;

words! {
    /// The two kinds of garlic.
    pub enum Kind {
        /// Hardneck (var. *ophioscorodon*): a scape, few large cloves, wants a cold winter.
        Hardneck = "hardneck" => "Hardneck",
        /// Softneck (var. *sativum*): no scape, many cloves, keeps longer, content with a mild
        /// winter.
        Softneck = "softneck" => "Softneck",
    }
}

impl Kind {
    /// Cloves fit for planting in one bulb: of hardneck's 4 to 8 large ones (University of Maine,
    /// 2012) and softneck's 8 to 12, the inner ones small (J. Allen, Ontario Ministry of
    /// Agriculture, 2009), cautiously the lesser part.
    pub const fn cloves_to_plant(self) -> NonZeroU32 {
        const FIVE: NonZeroU32 = NonZeroU32::MIN.saturating_add(4);
        const EIGHT: NonZeroU32 = NonZeroU32::MIN.saturating_add(7);
        match self {
            Self::Hardneck => FIVE,
            Self::Softneck => EIGHT,
        }
    }
}

/// The catalogue's row of garlic.
pub(crate) fn garlic() -> Option<&'static Crop> {
    crop("garlic").ok()
}
