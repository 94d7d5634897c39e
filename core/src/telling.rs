//! What is told of an answer: the words, made beside the numbers so that page, JSON and tests tell one story.

use crate::{given::words, journal::Draft, source::Source};

/// The told part of an answer.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Telling {
    /// The verdict: one short sentence.
    pub headline: String,
    /// Why: the first line qualifies the verdict, at most three more explain it.
    pub because: Vec<String>,
    /// What to look for with one's own eyes.
    pub look_for: Vec<String>,
    /// What to do next, each an entry that can be written into the record.
    pub next: Vec<Draft>,
    /// How sure the answer is.
    pub sure: Sure,
    /// Usual cautions.
    pub cautions: Vec<String>,
    /// Where the numbers come from.
    pub sources: Vec<String>,
}

words! {
    /// How sure an answer is.
    pub enum Sure {
        /// Measured or counted: nothing is guessed.
        High = "high",
        /// A published model on inputs the gardener gave.
        Fair = "fair",
        /// Guessed inputs or common practice.
        Low = "low",
    }
}

impl Sure {
    /// How sure, in words.
    pub fn told(self) -> &'static str {
        match self {
            Self::High => "Sure: seen, counted or measured.",
            Self::Fair => "Fair: a published rule on what you gave.",
            Self::Low => "A guess to start from; your own look decides.",
        }
    }
}

impl Telling {
    /// A telling with its verdict and nothing else yet.
    pub fn new(headline: impl Into<String>, sure: Sure) -> Self {
        let headline: String = headline.into();
        Self {
            // A headline ends without a stop.
            headline: headline.trim_end_matches('.').to_owned(),
            because: Vec::new(),
            look_for: Vec::new(),
            next: Vec::new(),
            sure,
            cautions: Vec::new(),
            sources: Vec::new(),
        }
    }

    /// Adds a source once.
    pub fn source(&mut self, source: Source) {
        let cite = source.cite().to_owned();
        if !self.sources.contains(&cite) {
            self.sources.push(cite);
        }
    }
}
