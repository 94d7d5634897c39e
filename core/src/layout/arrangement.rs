//! How a layout is said in words, along the hose.

use super::patterns::{Rows, Stagger};
use crate::quantity::Micrometres;

/// How each line's holes lie against those of the line before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shift {
    /// At the same hole numbers.
    None,
    /// On every second line so many holes farther right.
    Alternate(u16),
    /// On each line so many holes farther right than on the one before.
    Onward(u16),
}

/// Every k-th hole on every m-th line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Comb {
    /// From hole to hole: 1 is every emitter.
    pub every: u16,
    /// The hole that the first line counts from.
    pub first: u16,
    /// From line to line among those that can be used: 1 is all of them.
    pub every_line: u16,
    /// The first line used, counted from 0 among those that can be used.
    pub first_line: u16,
    /// How the lines used lie against each other.
    pub shift: Shift,
}

impl Comb {
    /// The hole that a line counts from, for the lines used numbered from 0.
    pub(super) fn first_on(&self, turn: u16) -> u16 {
        let moved = match self.shift {
            Shift::None => 0,
            Shift::Alternate(holes) => (turn % 2) * holes,
            Shift::Onward(holes) => turn * holes,
        };
        self.first + moved % self.every.max(1)
    }

    /// The leftmost hole, not before `first_hole`, that a line is planted at.
    fn starts_at(&self, turn: u16, first_hole: u16) -> u16 {
        first_hole + self.first_on(turn).saturating_sub(first_hole) % self.every.max(1)
    }
}

/// The plants on one line, at emitters.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnLine {
    /// The line, from 1 at the near side.
    pub line: u16,
    /// The holes planted, from 1 at the left end.
    pub holes: Vec<u16>,
}

/// The plants on one line, anywhere along it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AlongLine {
    /// The line, from 1 at the near side.
    pub line: u16,
    /// Where the plants stand, from the left end.
    pub along: Vec<Micrometres>,
}

/// The form of a layout.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Form {
    /// Nothing is planted.
    Empty,
    /// A comb over the drip lines.
    Comb {
        /// The comb.
        comb: Comb,
        /// The first hole it could use: counting from there needs no saying.
        first_hole: u16,
        /// The lines it uses.
        lines: Vec<u16>,
    },
    /// Holes without a simple rule, line by line.
    Holes(Vec<OnLine>),
    /// Places along the lines.
    Along(Vec<AlongLine>),
    /// Rows over the bed.
    Rows {
        /// The rows.
        rows: Rows,
        /// From plant to plant in a row.
        step: Micrometres,
        /// From row to row.
        gap: Micrometres,
    },
    /// Places without a rule, to be read from the plan.
    Scattered,
}

/// A layout as a gardener would carry it to the bed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Arrangement {
    /// The form.
    pub form: Form,
    /// Whether there are fewer plants than places: they fill it from the left end, so that the free
    /// part stays in one piece.
    pub from_left: bool,
    /// Whether places too near to plants that stay are left out of the form.
    pub with_gaps: bool,
}

impl Arrangement {
    /// A form that is used whole.
    pub(super) fn of(form: Form) -> Self {
        Self { form, from_left: false, with_gaps: false }
    }

    /// The words, lengths printed by `show`.
    #[must_use]
    pub fn words(&self, show: &dyn Fn(Micrometres) -> String) -> String {
        let mut words = match &self.form {
            Form::Empty => return "nothing to plant".into(),
            Form::Comb { comb, first_hole, lines } => comb_words(comb, *first_hole, lines),
            Form::Holes(lines) => sentences(lines.iter().map(|on| {
                let holes: Vec<String> = on.holes.iter().map(u16::to_string).collect();
                let noun = if holes.len() == 1 { "hole" } else { "holes" };
                format!("Line {}: {noun} {}.", on.line, holes.join(", "))
            })),
            Form::Along(lines) => sentences(lines.iter().map(|on| along_words(on, show))),
            Form::Rows { rows, step, gap } => rows_words(rows, *step, *gap, show),
            Form::Scattered => "as the plan shows".into(),
        };
        let sentence = words.ends_with('.');
        let mut add = |short: &str, long: &str| words.push_str(if sentence { long } else { short });
        if self.with_gaps {
            add(
                ", leaving out the places too near to what is there",
                " Places too near to what is there are left out.",
            );
        }
        if self.from_left {
            add(", filled from the left end", " Filled from the left end.");
        }
        words
    }
}

fn sentences(each: impl Iterator<Item = String>) -> String {
    each.collect::<Vec<_>>().join(" ")
}

fn comb_words(comb: &Comb, first_hole: u16, lines: &[u16]) -> String {
    let mut words = match comb.every {
        1 => "every emitter".to_owned(),
        every => format!("every {} emitter", ordinal(every)),
    };
    match (lines, comb.every_line) {
        ([only], _) => words.push_str(&format!(" on line {only}")),
        (_, 1) if comb.shift == Shift::None => words.push_str(" on all lines"),
        (_, 1) => {}
        (_, 2) => words.push_str(", alternate lines"),
        (_, every) => words.push_str(&format!(", every {} line", ordinal(every))),
    }
    if comb.first_line > 0
        && let [first, _, ..] = lines
    {
        words.push_str(&format!(" from line {first}"));
    }
    if lines.len() < 2 || comb.shift == Shift::None {
        if comb.first != first_hole {
            words.push_str(&format!(", from hole {}", comb.first));
        }
        return words;
    }
    let firsts = |turn: u16| comb.starts_at(turn, first_hole);
    match comb.shift {
        Shift::Alternate(_) => {
            words.push_str(&format!(
                ", zig-zag: from hole {}, on the next line from hole {}",
                firsts(0),
                firsts(1)
            ));
        }
        Shift::Onward(holes) => {
            words.push_str(&format!(
                ", from hole {}, on each next line {holes} {} farther on",
                firsts(0),
                if holes == 1 { "hole" } else { "holes" }
            ));
        }
        Shift::None => {}
    }
    words
}

fn along_words(on: &AlongLine, show: &dyn Fn(Micrometres) -> String) -> String {
    let steps: Vec<Micrometres> = on
        .along
        .windows(2)
        .filter_map(|pair| if let [left, right] = pair { Some(*right - *left) } else { None })
        .collect();
    let (Some(&first), Some(&step)) = (on.along.first(), steps.first()) else {
        let at = on.along.first().map(|&at| show(at)).unwrap_or_default();
        return format!("Line {}: 1 plant at {at}.", on.line);
    };
    if steps.iter().all(|&other| other == step) {
        return format!(
            "Line {}: {} plants, from {} every {}.",
            on.line,
            on.along.len(),
            show(first),
            show(step)
        );
    }
    let places: Vec<String> = on.along.iter().map(|&at| show(at)).collect();
    format!("Line {}: at {}.", on.line, places.join(", "))
}

fn rows_words(
    rows: &Rows,
    step: Micrometres,
    gap: Micrometres,
    show: &dyn Fn(Micrometres) -> String,
) -> String {
    let way = if rows.run_across { "across" } else { "along" };
    if rows.rows == 1 {
        return match rows.in_row {
            1 => "one plant in the middle".into(),
            n => format!("one row of {n} {way} the bed, {} from plant to plant", show(step)),
        };
    }
    let count = match rows.stagger {
        Stagger::Square | Stagger::MovedOn => rows.in_row.to_string(),
        Stagger::OneFewer => format!("{} and {} in turn", rows.in_row, rows.in_between()),
    };
    let mut words = format!("{} rows of {count} {way} the bed", rows.rows);
    if rows.in_row > 1 {
        words.push_str(&format!(", {} from plant to plant", show(step)));
    }
    words.push_str(&format!(", {} from row to row", show(gap)));
    match rows.stagger {
        Stagger::Square => words.push_str(", plant beside plant"),
        Stagger::OneFewer => words.push_str(", each row set between the plants of the one before"),
        Stagger::MovedOn => words.push_str(", every second row moved right by half a step"),
    }
    words
}

fn ordinal(number: u16) -> String {
    let ending = match (number % 100, number % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(length: Micrometres) -> String {
        format!("{} in", length.get() / 25_400)
    }

    fn words(form: Form) -> String {
        Arrangement::of(form).words(&inches)
    }

    fn comb(every: u16, every_line: u16, shift: Shift, lines: &[u16]) -> Form {
        let first_line = u16::from(lines[0] > 1);
        let comb = Comb { every, first: 1, every_line, first_line, shift };
        Form::Comb { comb, first_hole: 1, lines: lines.to_vec() }
    }

    fn rows(rows: u32, in_row: u32, stagger: Stagger, run_across: bool) -> Form {
        let rows = Rows { run_across, rows, in_row, stagger };
        Form::Rows { rows, step: Micrometres::from_inches(12), gap: Micrometres::from_inches(10) }
    }

    #[test]
    fn combs_are_said_as_one_counts_along_the_hose() {
        let all = [1, 2, 3, 4];
        assert_eq!(words(comb(1, 1, Shift::None, &all)), "every emitter on all lines");
        assert_eq!(words(comb(3, 1, Shift::None, &[1])), "every 3rd emitter on line 1");
        assert_eq!(words(comb(2, 2, Shift::None, &[1, 3])), "every 2nd emitter, alternate lines");
        assert_eq!(
            words(comb(2, 2, Shift::None, &[2, 4])),
            "every 2nd emitter, alternate lines from line 2"
        );
        assert_eq!(words(comb(4, 3, Shift::None, &[1, 4])), "every 4th emitter, every 3rd line");
        assert_eq!(
            words(comb(4, 1, Shift::Alternate(2), &all)),
            "every 4th emitter, zig-zag: from hole 1, on the next line from hole 3"
        );
        assert_eq!(
            words(comb(5, 1, Shift::Onward(2), &all)),
            "every 5th emitter, from hole 1, on each next line 2 holes farther on"
        );
    }

    #[test]
    fn a_comb_that_starts_late_says_where() {
        let comb = Comb { every: 2, first: 3, every_line: 1, first_line: 0, shift: Shift::None };
        let form = Form::Comb { comb, first_hole: 2, lines: vec![1, 2] };
        assert_eq!(words(form), "every 2nd emitter on all lines, from hole 3");
    }

    #[test]
    fn a_zig_zag_names_the_leftmost_hole_of_each_line() {
        let shift = Shift::Alternate(3);
        let comb = Comb { every: 4, first: 3, every_line: 1, first_line: 0, shift };
        let form = Form::Comb { comb, first_hole: 1, lines: vec![1, 2] };
        assert_eq!(
            words(form),
            "every 4th emitter, zig-zag: from hole 3, on the next line from hole 2"
        );
    }

    #[test]
    fn rows_say_how_they_lie() {
        assert_eq!(words(rows(1, 1, Stagger::Square, false)), "one plant in the middle");
        assert_eq!(
            words(rows(1, 5, Stagger::Square, false)),
            "one row of 5 along the bed, 12 in from plant to plant"
        );
        assert_eq!(
            words(rows(4, 8, Stagger::Square, false)),
            "4 rows of 8 along the bed, 12 in from plant to plant, 10 in from row to row, plant \
             beside plant"
        );
        assert_eq!(
            words(rows(9, 16, Stagger::OneFewer, false)),
            "9 rows of 16 and 15 in turn along the bed, 12 in from plant to plant, 10 in from row \
             to row, each row set between the plants of the one before"
        );
        assert_eq!(
            words(rows(4, 3, Stagger::MovedOn, true)),
            "4 rows of 3 across the bed, 12 in from plant to plant, 10 in from row to row, every \
             second row moved right by half a step"
        );
    }

    #[test]
    fn uneven_places_along_a_line_are_listed() {
        let inch = Micrometres::from_inches;
        let form = Form::Along(vec![
            AlongLine { line: 1, along: vec![inch(3), inch(21), inch(39)] },
            AlongLine { line: 2, along: vec![inch(4), inch(30), inch(50)] },
            AlongLine { line: 4, along: vec![inch(9)] },
        ]);
        assert_eq!(
            words(form),
            "Line 1: 3 plants, from 3 in every 18 in. Line 2: at 4 in, 30 in, 50 in. Line 4: 1 \
             plant at 9 in."
        );
    }

    #[test]
    fn what_is_left_out_is_said_last() {
        let form = comb(2, 1, Shift::None, &[1, 2]);
        let arrangement = Arrangement { form, from_left: true, with_gaps: true };
        assert_eq!(
            arrangement.words(&inches),
            "every 2nd emitter on all lines, leaving out the places too near to what is there, \
             filled from the left end"
        );
        let form = Form::Along(vec![AlongLine { line: 1, along: vec![Micrometres::ZERO] }]);
        let arrangement = Arrangement { form, from_left: true, with_gaps: false };
        assert_eq!(
            arrangement.words(&inches),
            "Line 1: 1 plant at 0 in. Filled from the left end."
        );
    }

    #[test]
    fn ordinals_end_as_they_are_spoken() {
        let ordinals: Vec<String> = [1, 2, 3, 4, 11, 12, 13, 21, 112].map(ordinal).into();
        assert_eq!(ordinals, ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "112th"]);
    }
}
