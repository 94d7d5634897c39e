//! A crop as a field of a question.

use std::fmt;

use super::{Crop, crop};
use crate::text::small;
use crate::{
    given::{Control, Readable},
    quantity::Unreadable,
};

/// A crop of the catalogue, read by its id or any of its names.
#[derive(Clone, Copy)]
pub struct KnownCrop(pub &'static Crop);

impl fmt::Debug for KnownCrop {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(self.0.id())
    }
}

impl Readable for KnownCrop {
    const CONTROL: Control = Control::Crop;

    fn allowed() -> String {
        "a crop by name, such as tomato".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        crop(text).map(Self).map_err(|nearest| {
            let names: Vec<String> = nearest.iter().map(|crop| small(crop.name())).collect();
            Unreadable {
                allowed: format!("a crop such as {}", names.join(", ")),
                why: "no crop of that name is known".to_owned(),
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_misspelt_crop_is_refused_with_the_nearest() {
        let refused = KnownCrop::read("tomatoe plant").err().unwrap();
        assert!(refused.allowed.contains("tomato"), "{}", refused.allowed);
        assert_eq!(
            KnownCrop::read("Tomatoes").ok().map(|KnownCrop(crop)| crop.id()),
            Some("tomato")
        );
    }
}
