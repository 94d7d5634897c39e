//! A look at a covered bed, written down there.

use chrono::NaiveDate;
use serde_json::Value;

use crate::{
    garden::{Bed, Dated},
    given::{Faults, FromGiven, Given, Refusal, Text, asked},
    journal::{
        About, Draft, What,
        details::{self, ResidueLaid},
    },
    topics::residue_wait::{self, PerTrap, Smell, Worms, balance::Placement, check_in::Left},
};

asked! {
    /// What the form of a look holds.
    pub(super) struct Form {
        /// How much can still be recognised.
        left: Given<Left> = "How much can you still recognise?",
        /// How it smells when lifted.
        smell: Given<Smell> = "It smells of",
        /// Worms and their casts under it.
        worms: Given<Worms> = "Worms under it",
        /// Slugs in a baited trap after one night.
        slugs: Given<PerTrap> = "Slugs in a trap overnight",
        /// Of 20 seeds in a jar of this bed's soil, how many came up.
        jar: Given<u32> = "Jar of this soil: up of 20",
        /// Of 20 seeds in a jar of plain mix, how many came up.
        jar_plain: Given<u32> = "Jar of plain mix: up of 20",
        /// The part of the bed looked at.
        part: Given<Text> = "Which half",
    }
}

/// The parts of a bed that can be covered in ways of their own.
pub const HALVES: [&str; 2] = ["left half", "right half"];

/// Seeds that go into a jar.
const IN_A_JAR: u32 = 20;

/// The parts in which a bed's residue was laid; none where it lies alike all over.
pub fn lying_parts(bed: &Bed) -> Vec<&str> {
    let last = residue_wait::lying(bed, None);
    let parts = last.map(|last| residue_wait::parts(bed, last)).unwrap_or_default();
    parts.iter().filter_map(|laid| laid.what.part.as_deref()).collect()
}

/// Where something lies on a bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies {
    /// All over it.
    AllOver,
    /// On its left half.
    Left,
    /// On its right half.
    Right,
}

/// Where something lies on top of a bed; not what was dug in.
pub fn lies_on(bed: &Bed, today: NaiveDate) -> Vec<Lies> {
    let Some(last) = residue_wait::lying(bed, Some(today)) else {
        return Vec::new();
    };
    let mut parts = residue_wait::parts(bed, last);
    if parts.is_empty() {
        parts.push(last);
    }
    let on_top = |laid: &&&Dated<ResidueLaid>| {
        laid.what.placement.as_deref() != Some(Placement::WorkedIn.word())
    };
    let [left, right] = HALVES;
    let lies = |laid: &&Dated<ResidueLaid>| match laid.what.part.as_deref() {
        Some(part) if part == left => Lies::Left,
        Some(part) if part == right => Lies::Right,
        _ => Lies::AllOver,
    };
    parts.iter().filter(on_top).map(lies).collect()
}

/// The draft that writes a look at a covered bed down.
///
/// # Errors
/// Every field that can't be read or believed, named `look.…` as on the form.
pub fn look(form: &Value, bed: &str) -> Result<Draft, Refusal> {
    let mut faults = Faults::default();
    let form = Form::from_given(form.get("look"), "look", &mut faults);
    let of_a_jar =
        |given: &Given<u32>, faults: &mut Faults| given.within(0, IN_A_JAR, "0 to 20", faults);
    let seen = details::CheckIn {
        left: form.left.read(&mut faults).map(Left::share),
        smell: form.smell.read(&mut faults).map(|smell| smell.word().to_owned()),
        worms: form.worms.read(&mut faults).map(|worms| worms.word().to_owned()),
        slugs: form.slugs.read(&mut faults).map(PerTrap::get),
        jar: of_a_jar(&form.jar, &mut faults),
        jar_plain: of_a_jar(&form.jar_plain, &mut faults),
        ..details::CheckIn::default()
    };
    if form.jar_plain.is_given() && !form.jar.is_given() {
        form.jar.refuse(
            &mut faults,
            "0 to 20",
            "the plain jar tells something only beside this one",
        );
    }
    let given = [
        form.left.text(),
        form.smell.text(),
        form.worms.text(),
        form.slugs.text(),
        form.jar.text(),
    ];
    if given.iter().all(Option::is_none) && !form.jar_plain.is_given() {
        form.left.refuse(&mut faults, "at least one thing seen", "nothing was looked at");
    }
    let part = form.part.read(&mut faults).map(|Text(part)| part);
    faults.or_refuse(Some(Draft {
        about: About::bed(bed),
        what: What::CheckIn(details::CheckIn { part, ..seen }),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_step_is_kept_as_its_share() {
        let draft = look(
            &json!({"look": {"left": "half", "smell": "earth", "part": "left half"}}),
            "fence",
        )
        .unwrap();
        let What::CheckIn(seen) = draft.what else { panic!("no look") };
        assert_eq!((seen.left, seen.smell.as_deref()), (Some(0.5), Some("earth")));
        assert_eq!(seen.part.as_deref(), Some("left half"));
    }

    #[test]
    fn what_no_jar_holds_is_refused_and_so_is_an_empty_look() {
        let fields = |typed: Value| {
            let refusal = look(&json!({ "look": typed }), "fence").unwrap_err();
            refusal.refused.into_iter().map(|fault| fault.field).collect::<Vec<_>>()
        };
        assert_eq!(fields(json!({"jar": "25", "left": "lots"})), ["look.left", "look.jar"]);
        assert_eq!(fields(json!({"part": "left half"})), ["look.left"]);
        assert_eq!(fields(json!({"jar_plain": "19"})), ["look.jar"]);
    }
}
