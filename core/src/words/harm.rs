//! What the cold did to plants, as one sees it a day or two later.

use crate::given::words;

words! {
    /// What the cold did to plants.
    pub enum Harm {
        /// Nothing.
        None = "none" => "fine",
        /// Wilted, or some leaves gone.
        Some = "some" => "some leaves",
        /// Most of it.
        Most = "most" => "most of it",
        /// All of it.
        All = "all" => "all of it",
    }
}
