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
    /// The words, lengths printed by `show`.
    #[must_use]
    pub fn words(&self, show: &dyn Fn(Micrometres) -> String) -> String {
        let mut words = match &self.form {
            Form::Empty => return "nothing to plant".into(),
            Form::Comb {
                comb,
                first_hole,
                lines,
            } => comb_words(comb, *first_hole, lines),
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
        .filter_map(|pair| {
            if let [left, right] = pair {
                Some(*right - *left)
            } else {
                None
            }
        })
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
            n => format!(
                "one row of {n} {way} the bed, {} from plant to plant",
                show(step)
            ),
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
