//! A crop as a field of a question.

use std::fmt;

use super::{Crop, Resolved, crop, resolve};
use crate::given::{Control, Given, Meant, Readable, Taken};
use crate::quantity::Unreadable;
use crate::text::small;

/// A crop of the catalogue, read by its id or any of its names; a word for several is taken as the
/// commonest of them, and a slip of the pen as what was meant.
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
        match resolve(text) {
            Resolved::Exact(crop) | Resolved::Meant { taken: crop, .. } => Ok(Self(crop)),
            Resolved::Unknown { nearest } => Err(Unreadable {
                allowed: format!("a crop such as {}", names(&nearest).join(", ")),
                why: "no crop of that name is known".to_owned(),
            }),
        }
    }

    fn taken(text: &str) -> Option<Taken> {
        match resolve(text) {
            Resolved::Meant { taken, others } => {
                Some((taken.id(), others.iter().map(|crop| crop.id()).collect()))
            }
            _ => None,
        }
    }
}

impl Given<KnownCrop> {
    /// Whether something was given that is no crop of the catalogue, and no slip in the name of one.
    pub(crate) fn is_own_word(&self) -> bool {
        self.text().is_some_and(|text| matches!(resolve(text), Resolved::Unknown { .. }))
    }
}

impl Meant {
    /// What it may mean, for one who must choose: "leaf lettuce or head lettuce".
    pub(crate) fn choices(&self) -> String {
        let ids = [self.taken].into_iter().chain(self.others.iter().copied());
        names(&ids.filter_map(|id| crop(id).ok()).collect::<Vec<_>>()).join(" or ")
    }

    /// What was taken for what, in words: "Took onion as bulb onion; others: bunching onion".
    pub fn told(&self) -> String {
        let row = |id: &&str| crop(id).ok();
        let taken = names(row(&self.taken).as_slice()).concat();
        let others: Vec<&Crop> = self.others.iter().filter_map(row).collect();
        let others = match names(&others) {
            others if others.is_empty() => String::new(),
            others => format!("; others: {}", others.join(", ")),
        };
        format!("Took {} as {taken}{others}.", self.given)
    }
}

fn names(crops: &[&Crop]) -> Vec<String> {
    crops.iter().map(|crop| small(crop.name())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_is_none_is_refused_with_the_nearest() {
        let refused = KnownCrop::read("tomatoe plant").err().unwrap();
        assert!(refused.allowed.contains("tomato"), "{}", refused.allowed);
        assert_eq!(
            KnownCrop::read("Tomatoes").ok().map(|KnownCrop(crop)| crop.id()),
            Some("tomato")
        );
    }

    #[test]
    fn what_was_taken_is_told_in_a_line() {
        let (taken, others) = KnownCrop::taken("onion").unwrap();
        let meant = Meant { field: "crop".to_owned(), given: "onion".to_owned(), taken, others };
        assert_eq!(
            meant.told(),
            "Took onion as bulb onion; others: bunching onion, overwintering onion."
        );
        assert!(KnownCrop::taken("leek").is_none());
        let slip = KnownCrop::taken("carot").unwrap();
        assert_eq!(slip.0, "carrot");
    }
}
