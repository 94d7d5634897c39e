//! Why a bed as measured cannot be one.

use super::drip::LINES_WANTED;
use crate::quantity::Micrometres;

/// A measure of a bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The bed's length.
    Length,
    /// The bed's width.
    Width,
    /// The room kept between a plant and the bed's sides.
    EdgeMargin,
    /// How many drip lines there are.
    Lines,
    /// Where the line at this place of the list lies (0 is the first).
    LineAcross(usize),
    /// Where the first emitter of the line at this place of the list lies.
    LineFirstEmitter(usize),
    /// From line to line.
    LineSpacing,
    /// From the near side to the first line.
    FirstLine,
    /// From emitter to emitter.
    EmitterSpacing,
    /// From the left end to the first emitter.
    FirstEmitter,
}

impl Part {
    /// The dotted name of the measure inside a bed, as the question's field has it.
    #[must_use]
    pub fn path(self) -> String {
        match self {
            Self::Length => "length".into(),
            Self::Width => "width".into(),
            Self::EdgeMargin => "edge_margin".into(),
            Self::Lines => "drip.lines".into(),
            Self::LineAcross(at) => format!("drip.lines.{at}.across"),
            Self::LineFirstEmitter(at) => format!("drip.lines.{at}.first_emitter"),
            Self::LineSpacing => "drip.line_spacing".into(),
            Self::FirstLine => "drip.first_line".into(),
            Self::EmitterSpacing => "drip.emitter_spacing".into(),
            Self::FirstEmitter => "drip.first_emitter".into(),
        }
    }
}

/// What is wrong with a measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// The length lies outside these, both allowed.
    Outside {
        /// The least allowed.
        least: Micrometres,
        /// The most allowed.
        most: Micrometres,
    },
    /// The number of lines lies outside 1 to this.
    LineCount {
        /// The most allowed.
        most: u32,
    },
    /// The lines together carry more emitters than this.
    EmitterCount {
        /// The most allowed.
        most: u32,
    },
    /// The lines spread so would leave the bed.
    LinesLeaveBed,
    /// Lines listed one by one already say where they lie.
    LinesAreListed,
}

/// One measure that cannot stand, and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The measure.
    pub part: Part,
    /// What is wrong with it.
    pub reason: Reason,
}

impl Fault {
    /// What would be taken instead, lengths printed by `show`.
    #[must_use]
    pub fn allowed(&self, show: &dyn Fn(Micrometres) -> String) -> String {
        match self.reason {
            Reason::Outside { least, most } => format!("{} to {}", show(least), show(most)),
            Reason::LineCount { most } => format!("1 to {most} lines"),
            Reason::EmitterCount { most } => format!("up to {most} emitters in all"),
            Reason::LinesLeaveBed => "every line inside the bed".into(),
            Reason::LinesAreListed => {
                "either a list of lines, or a number of lines with this".into()
            }
        }
    }

    /// The reason in a sentence.
    #[must_use]
    pub fn why(&self) -> &'static str {
        match (self.part, self.reason) {
            (Part::EdgeMargin, Reason::Outside { .. }) => "The edges would leave no room to plant.",
            (
                Part::LineAcross(_)
                | Part::LineFirstEmitter(_)
                | Part::FirstLine
                | Part::FirstEmitter,
                Reason::Outside { .. },
            ) => "It would lie outside the bed.",
            (_, Reason::Outside { .. }) => "That is smaller or larger than a bed can be here.",
            (_, Reason::LineCount { .. }) => LINES_WANTED,
            (_, Reason::EmitterCount { .. }) => "So many emitters take too long to work out.",
            (_, Reason::LinesLeaveBed) => "Lines spread so would leave the bed.",
            (_, Reason::LinesAreListed) => "The lines are listed one by one, so it has no meaning.",
        }
    }
}
