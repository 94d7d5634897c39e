//! That a text was not read, and why.

/// Why a text was not read, in plain sentences for the person who wrote it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{why}")]
pub struct Unreadable {
    /// What would be read: "a length with its unit, such as 9 in, 23 cm or 4 ft 6 in".
    pub allowed: String,
    /// What is wrong with the text: "no unit: 18 in or 18 cm?".
    pub why: String,
}
