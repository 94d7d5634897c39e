//! Beds on which layouts are held against a general solver.
//!
//! Everything here is worked out anew from the question, by the rules of the door alone, and shares
//! no line with the app's own layout code: where the emitters lie, which of them may be planted,
//! and which two plants are too near each other. So it checks the app and is not checked by it.
//!
//! | file | what it knows |
//! |---|---|
//! | `bed` | a bed and its crops, as one line of text and as a question |
//! | `sites` | where its emitters lie, and which plants exclude each other |
//! | `cliques` | sets of plants of which at most one can be there |
//! | `check` | whether an answer breaks a rule, and how it compares with an optimum |
//! | `draw` | random beds for the recorded optima |
#![cfg_attr(test, allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing))]

mod bed;
mod check;
mod cliques;
mod draw;
mod sites;

pub use bed::{Aim, Bed, Crop, Line, Standing, beds};
pub use check::{Found, Gap};
pub use cliques::Cliques;
pub use draw::draw;
pub use sites::{Choice, Model};

/// The beds of `cargo xtask bench`, a line each.
pub const FIXED: &str = include_str!("../beds.txt");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forty_beds_are_measured_and_no_rounding_decides_on_any() {
        let beds = beds(FIXED).unwrap();
        let several = beds.iter().filter(|bed| bed.crops.len() > 1).count();
        assert_eq!((beds.len(), several), (40, 20));
        for bed in beds {
            let model = Model::of(&bed);
            assert!((30..=600).contains(&model.sites), "{bed}: {}", model.sites);
            assert!(!model.doubtful, "{bed}");
        }
    }
}
