//! What the figures rest on: one variant for each row of `core/data/sources.toml`.
//!
//! An answer names the sources of every figure it used. A figure that was not seen in its work says
//! so in the citation itself, so that it cannot be shown without the mark.

use serde::{Serialize, Serializer};

/// How a figure is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Seen in the work named, or in the copy that the citation names.
    Read,
    /// Recalled from the work named, not seen again.
    FromMemory,
    /// What gardeners do, with no one work behind it.
    CommonPractice,
    /// Worked out from other figures.
    Derived,
}

include!(concat!(env!("OUT_DIR"), "/sources.rs"));

impl Source {
    /// The work, as an answer cites it; "(from memory)" or "(derived)" is part of it where true.
    pub const fn cite(self) -> &'static str {
        self.row().0
    }

    /// How the figures taken from it are known.
    pub const fn basis(self) -> Basis {
        self.row().1
    }
}

/// As its citation.
impl Serialize for Source {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.cite())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recalled_or_derived_source_says_so_in_its_citation() {
        for source in Source::ALL {
            let cite = source.cite();
            assert_eq!(
                cite.ends_with("(from memory)"),
                source.basis() == Basis::FromMemory,
                "{cite}"
            );
            assert_eq!(cite.ends_with("(derived)"), source.basis() == Basis::Derived, "{cite}");
        }
    }

    #[test]
    fn no_two_sources_are_cited_alike() {
        let mut cites: Vec<_> = Source::ALL.iter().map(|source| source.cite()).collect();
        cites.sort_unstable();
        cites.dedup();
        assert_eq!(cites.len(), Source::ALL.len());
    }
}
