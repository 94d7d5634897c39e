//! Which question to ask next: the one that settles it soonest.

use super::{
    combine::combine,
    cues::{Question, Sheet, Sign},
    stage::{Reading, Stage, Weight, stages},
};
use crate::order;

impl Sheet {
    /// The questions that can still tell something after these signs, the one that settles it
    /// soonest first.
    ///
    /// For each stage still possible the answer that stage would most likely give is taken, and the
    /// stages left after it are counted; the question that leaves the fewest comes first, of equals
    /// the one earlier in the table. Questions answered already are left out, and so are those that
    /// would leave as many as there are.
    pub fn ask_next(&self, seen: &[&Sign]) -> Vec<&'static Question> {
        let readings: Vec<Reading> = seen.iter().map(|sign| sign.reads()).collect();
        let now = combine(&readings, self.lean());
        let width = |from: Stage, to: Stage| u32::from(to as u8 - from as u8) + 1;
        let possible: Vec<Stage> = stages(now.earliest, now.latest).collect();
        let left_after = |question: &Question| -> u32 {
            let left = |stage: &Stage| {
                let mut answers = question.signs().iter();
                let Some(answer) = answers.find(|sign| sign.reads().likely == *stage) else {
                    return width(now.earliest, now.latest);
                };
                let mut with = readings.clone();
                with.push(answer.reads());
                let then = combine(&with, self.lean());
                // A weak answer is worth less than a strong one that leaves as many.
                let doubt = match answer.reads().weight {
                    Weight::Decisive => 0,
                    Weight::Strong => 1,
                    Weight::Weak => 3,
                };
                width(then.earliest, then.latest) * 4 + doubt
            };
            possible.iter().map(left).sum()
        };
        let nothing_new = |question: &&Question| {
            !question.signs().iter().any(|sign| seen.iter().any(|said| said.id() == sign.id()))
        };
        let mut open: Vec<&'static Question> =
            self.questions().iter().filter(nothing_new).collect();
        order::sort(&mut open, &|question| [left_after(question).into(), 0, 0]);
        open
    }
}

#[cfg(test)]
mod tests {
    use super::super::cues::{Sense, sheet_named};
    use super::*;

    fn sheet(id: &str) -> &'static Sheet {
        sheet_named(id).unwrap()
    }

    #[test]
    fn the_question_that_settles_it_soonest_comes_first() {
        // Pricking a kernel tells more than the silk.
        assert_eq!(sheet("sweet corn").ask_next(&[])[0].sense(), Sense::Hand);
        // A cut bulb tells more than counting leaves.
        assert!(sheet("garlic").ask_next(&[])[0].say().starts_with("Dig one"));
        let bean = sheet("snap-bean");
        let first = bean.ask_next(&[]);
        assert_eq!(first.len(), bean.questions().len());
        let answer = &first[0].signs()[0];
        let then = bean.ask_next(&[answer]);
        assert_eq!(then.len(), first.len() - 1);
        assert!(then.iter().all(|question| question.say() != first[0].say()));
    }
}
