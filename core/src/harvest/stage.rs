//! The four stages of a crop, and what a sign seen at the bed says about them.

use crate::given::words;

words! {
    /// How far along what is picked is.
    pub enum Stage {
        /// Not ready: it gains by waiting.
        NotYet = "not-yet",
        /// At its best.
        Prime = "prime",
        /// Still good, and getting worse.
        Going = "going",
        /// No longer what it was grown for.
        Past = "past",
    }
}

impl Stage {
    /// The stage in a word or two, as it stands on a scale of all four.
    pub fn said(self) -> &'static str {
        match self {
            Self::NotYet => "not yet",
            Self::Prime => "prime",
            Self::Going => "going over",
            Self::Past => "past",
        }
    }
}

words! {
    /// How much a sign weighs against others.
    pub enum Weight {
        /// Size, colour alone, days, heat: chooses within what the others leave.
        Weak = "weak",
        /// Texture, snap, nail, juice, slip, gloss.
        Strong = "strong",
        /// A change of tissue that does not go back: spongy, pithy, split, petals open.
        Decisive = "decisive",
    }
}

/// What one sign says: the stages it can be seen at, and the one it most often means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The earliest stage at which it is seen.
    pub from: Stage,
    /// The stage it most often means, not before `from` nor after `to`.
    pub likely: Stage,
    /// The latest stage at which it is seen.
    pub to: Stage,
    /// How much it weighs.
    pub weight: Weight,
}

impl Reading {
    /// A sign of one stage alone.
    pub const fn of(stage: Stage, weight: Weight) -> Self {
        Self { from: stage, likely: stage, to: stage, weight }
    }

    /// The stages allowed, in order.
    pub fn allowed(self) -> impl Iterator<Item = Stage> {
        stages(self.from, self.to)
    }
}

/// The stages from one to another, both included; none if they are in the wrong order.
pub fn stages(from: Stage, to: Stage) -> impl Iterator<Item = Stage> {
    Stage::ALL.iter().copied().filter(move |stage| from <= *stage && *stage <= to)
}
