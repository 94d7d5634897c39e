//! The whole state of the page, and what screens may know of it. What changes it is the one loop's.

mod effect;
mod hand;
mod shown;

use std::{cell::RefCell, rc::Rc};

use pegline_core::{
    ask::Answer,
    garden::Garden,
    given::{Fault, Refusal},
    journal::{Journal, Ulid},
    record::Meeting,
    turns::Turns,
};

use serde_json::Value;

use crate::{
    clock::Now,
    forms::Form,
    route::Route,
    store::{Line, Store},
};

pub use effect::Effect;
pub(crate) use effect::group;
pub(crate) use hand::Hand;

/// Whether a newer version of the app is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Newer {
    No,
    /// It waits to be taken.
    Waits,
    /// Another tab took it; this one goes on as it is until reloaded.
    Elsewhere,
}

/// Whether the app opens without a network.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Opens {
    /// It is being looked at.
    Unknown,
    Yes,
    /// Not all of it has come yet.
    NotYet,
    /// The browser keeps no apps.
    Never,
}

/// The whole state of the page.
#[derive(Debug)]
pub struct App {
    pub(crate) store: Store,
    pub(crate) journal: Journal,
    pub(crate) garden: Rc<Garden>,
    pub(crate) is_demo: bool,
    pub(crate) now: Now,
    pub(crate) route: Route,
    pub(crate) form: Form,
    /// Whether the form of the question is being filled in: it stands before the answer then.
    pub(crate) asking: bool,
    pub(crate) answer: Option<Result<Answer, Refusal>>,
    /// The question that is being worked out, and in how many turns so far.
    pub(crate) working: Option<(Turns<Result<Answer, Refusal>>, u32)>,
    pub(crate) faults: Vec<Fault>,
    pub(crate) said: Option<String>,
    /// What was written with it, as long as it can be undone from there.
    pub(crate) undoable: Vec<Ulid>,
    /// The tap that wrote it, what it sent, and when in milliseconds since 1970.
    pub(crate) tapped: Option<(String, Value, u64)>,
    pub(crate) persisted: Option<bool>,
    pub(crate) newer: Newer,
    pub(crate) opens: Opens,
    pub(crate) taking_in: Option<Result<TakingIn, String>>,
    /// How many more of the Book's entries are shown than the newest.
    pub(crate) older: usize,
    /// What each entry of this garden says, in small letters, once it was looked for.
    pub(crate) words: RefCell<Option<Words>>,
    /// Whether a copy is shown as text, since the browser takes it in no other way.
    pub(crate) shows_copy: bool,
    /// What the form that was sent last held: others of the page may be half filled.
    pub(crate) sent: Form,
    /// Forms left half filled, by address; nothing typed is lost by looking elsewhere.
    pub(crate) left: Vec<(String, Form)>,
    /// Those of the own garden while the invented one is shown.
    pub(crate) left_at_home: Vec<(String, Form)>,
    pub(crate) effects: Vec<Effect>,
    /// Written, and not yet told whether IndexedDB has it.
    pub(crate) pending: Vec<Pending>,
    pub(crate) last_own: Option<Ulid>,
    /// The proposed layout as it was changed by hand.
    pub(crate) hand: Option<Hand>,
}

/// A copy that is about to be taken in.
#[derive(Debug)]
pub struct TakingIn {
    /// What it holds.
    pub journal: Journal,
    /// The garden it tells of.
    pub garden: Garden,
    /// What it and the own record both tell of, and what was chosen for that.
    pub meeting: Meeting,
}

/// What each entry of a garden says, with the garden.
pub(crate) type Words = (Rc<Garden>, Rc<[String]>);

/// Lines of which IndexedDB has not told yet whether it has them.
#[derive(Debug)]
pub(crate) struct Pending {
    pub(crate) lines: Vec<Line>,
    /// What is said once they are written.
    pub(crate) words: String,
    /// Whether `localStorage` has them.
    pub(crate) in_quick: bool,
    /// Where they were typed, and what: it comes back where they are refused.
    pub(crate) route: Route,
    pub(crate) form: Form,
}

impl Pending {
    /// What is said until then.
    pub(crate) fn writing(&self) -> String {
        format!("Writing{}", self.words.strip_prefix("Written").unwrap_or_default())
    }
}
