//! Drip lines and their emitters.
//!
//! Unmeasured lines are taken to lie in the middle of equal strips, and unmeasured emitters to be as
//! many as fit within 3 in of both ends, centred, in phase on all lines (common practice). Real
//! beds differ, so every one of these can be given instead.

use super::TOLERANCE;
use super::fault::{Fault, Part, Reason};
use super::shape::LONGEST_SIDE;
use crate::given::Readable;
use crate::order;
use crate::quantity::{Micrometres, Unreadable, VolumeRate, number::read_number};

/// The end strip in which no emitter is assumed: 3 in (common practice).
pub const END_STRIP: Micrometres = Micrometres::from_inches(3);

/// The most lines that one bed may have.
pub const MOST_LINES: u32 = 24;

/// How many drip lines there are, from 1 to [`MOST_LINES`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LineCount(u32);

impl LineCount {
    /// So many lines.
    #[must_use]
    pub const fn get(self) -> u32 {
        self.0
    }
}

impl Readable for LineCount {
    fn allowed() -> String {
        format!("1 to {MOST_LINES} lines")
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let refuse = |why: String| Unreadable { allowed: Self::allowed(), why };
        let count = read_number(text).map_err(|unread| refuse(unread.why))?;
        if count.fract() == 0.0 && (1.0..=f64::from(MOST_LINES)).contains(&count) {
            // OK because it is whole and small.
            return Ok(Self(count as u32));
        }
        Err(refuse(LINES_WANTED.to_owned()))
    }
}

/// Why another number of lines is refused.
pub(super) const LINES_WANTED: &str = "There must be a line, and not more than can be worked out.";

/// The most emitters that one bed may have, so that work stays bounded.
///
/// Twelve lines of 100 ft with an emitter every 6 in have exactly so many.
pub const MOST_EMITTERS: u32 = 2_400;

/// The closest emitters: drip tape is sold from 4 in (Penn State Extension 2013); 1 in leaves room.
pub const LEAST_EMITTER_SPACING: Micrometres = Micrometres::from_inches(1);

/// One drip line, parallel to the bed's length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line {
    /// From the near side to the line.
    pub across: Micrometres,
    /// From the left end to the line's first emitter.
    pub first_emitter: Micrometres,
    /// How many emitters the line has inside the bed.
    pub emitters: u32,
}

/// The drip lines of a bed, numbered from the near side.
#[derive(Clone, Debug, PartialEq)]
pub struct Drip {
    lines: Vec<Line>,
    emitter_spacing: Micrometres,
    flow: Option<VolumeRate>,
}

/// Drip lines as someone measured them; what is absent is filled in as the module says.
#[derive(Clone, Debug, PartialEq)]
pub struct DripMeasures {
    /// The lines, counted or listed.
    pub lines: LinesMeasured,
    /// From line to line, for counted lines.
    pub line_spacing: Option<Micrometres>,
    /// From the near side to the first line, for counted lines.
    pub first_line: Option<Micrometres>,
    /// From emitter to emitter, the same on all lines.
    pub emitter_spacing: Micrometres,
    /// From the left end to the first emitter, on every line that gives none of its own.
    pub first_emitter: Option<Micrometres>,
    /// What one emitter gives.
    pub flow: Option<VolumeRate>,
}

/// Lines as counted, or each with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinesMeasured {
    /// So many lines, evenly spread.
    Count(u32),
    /// Each line where it lies, in any order.
    Each(Vec<LineMeasures>),
}

/// One line as measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LineMeasures {
    /// From the near side to the line.
    pub across: Micrometres,
    /// From the left end to the line's first emitter, if it is not as on the others.
    pub first_emitter: Option<Micrometres>,
}

impl Drip {
    /// The lines from the near side to the far one.
    #[must_use]
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// From emitter to emitter.
    #[must_use]
    pub fn emitter_spacing(&self) -> Micrometres {
        self.emitter_spacing
    }

    /// What one emitter gives, where it is known.
    #[must_use]
    pub fn flow(&self) -> Option<VolumeRate> {
        self.flow
    }

    /// Where the emitters of a line lie, from the left end.
    pub fn emitters(&self, line: &Line) -> impl Iterator<Item = Micrometres> + use<> {
        let (first, pitch) = (line.first_emitter, self.emitter_spacing);
        (0..i64::from(line.emitters)).map(move |at| first + pitch * at)
    }

    /// All emitters of the bed.
    #[must_use]
    pub fn emitter_count(&self) -> u32 {
        self.lines.iter().map(|line| line.emitters).sum()
    }

    /// The lines of a bed of this size, or everything that is wrong with them.
    pub(super) fn new(
        given: &DripMeasures,
        length: Micrometres,
        width: Micrometres,
    ) -> Result<Self, Vec<Fault>> {
        let mut faults = outside(given, length, width);
        let count = match &given.lines {
            LinesMeasured::Count(count) => *count as usize,
            LinesMeasured::Each(each) => each.len(),
        };
        if count == 0 || count > MOST_LINES as usize {
            faults
                .push(Fault { part: Part::Lines, reason: Reason::LineCount { most: MOST_LINES } });
            return Err(faults);
        }
        let mut places = match &given.lines {
            LinesMeasured::Count(count) => {
                let places = spread(*count, given.line_spacing, given.first_line, width);
                if faults.is_empty()
                    && places.iter().any(|at| *at < Micrometres::ZERO || *at > width)
                {
                    let part = if given.line_spacing.is_some() {
                        Part::LineSpacing
                    } else {
                        Part::FirstLine
                    };
                    faults.push(Fault { part, reason: Reason::LinesLeaveBed });
                }
                places
                    .into_iter()
                    .map(|across| LineMeasures { across, first_emitter: None })
                    .collect()
            }
            LinesMeasured::Each(each) => {
                for (part, value) in
                    [(Part::LineSpacing, given.line_spacing), (Part::FirstLine, given.first_line)]
                {
                    if value.is_some() {
                        faults.push(Fault { part, reason: Reason::LinesAreListed });
                    }
                }
                each.clone()
            }
        };
        if !faults.is_empty() {
            return Err(faults);
        }

        order::sort(&mut places, &|line| [line.across.get(), 0, 0]);
        let lines: Vec<Line> = places
            .iter()
            .map(|line| {
                let first = line.first_emitter.or(given.first_emitter);
                let (first_emitter, emitters) = emitters_on(length, given.emitter_spacing, first);
                Line { across: line.across, first_emitter, emitters }
            })
            .collect();
        let drip = Self { lines, emitter_spacing: given.emitter_spacing, flow: given.flow };
        if drip.emitter_count() > MOST_EMITTERS {
            return Err(vec![Fault {
                part: Part::EmitterSpacing,
                reason: Reason::EmitterCount { most: MOST_EMITTERS },
            }]);
        }
        Ok(drip)
    }
}

/// The measures that lie outside a bed of this size.
fn outside(given: &DripMeasures, length: Micrometres, width: Micrometres) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut within = |part, value: Micrometres, least: Micrometres, most: Micrometres| {
        if value < least || most < value {
            faults.push(Fault { part, reason: Reason::Outside { least, most } });
        }
    };

    within(Part::EmitterSpacing, given.emitter_spacing, LEAST_EMITTER_SPACING, LONGEST_SIDE);
    if let Some(first) = given.first_emitter {
        within(Part::FirstEmitter, first, Micrometres::ZERO, length);
    }
    if let Some(first) = given.first_line {
        within(Part::FirstLine, first, Micrometres::ZERO, width);
    }
    if let Some(gap) = given.line_spacing {
        within(Part::LineSpacing, gap, LEAST_EMITTER_SPACING, width.max(LEAST_EMITTER_SPACING));
    }
    if let LinesMeasured::Each(each) = &given.lines {
        for (at, line) in each.iter().enumerate() {
            within(Part::LineAcross(at), line.across, Micrometres::ZERO, width);
            if let Some(first) = line.first_emitter {
                within(Part::LineFirstEmitter(at), first, Micrometres::ZERO, length);
            }
        }
    }
    faults
}

/// Where counted lines lie: as given, else centred at the given spacing, else in equal strips.
fn spread(
    count: u32,
    spacing: Option<Micrometres>,
    first: Option<Micrometres>,
    width: Micrometres,
) -> Vec<Micrometres> {
    let n = i64::from(count);
    (0..n)
        .map(|k| match (spacing, first) {
            (Some(gap), Some(first)) => first + gap * k,
            (Some(gap), None) => {
                Micrometres::new((width - gap * (n - 1)).get().div_euclid(2)) + gap * k
            }
            // As far from the far side as the first line from the near one.
            (None, Some(first)) if n > 1 => {
                first + Micrometres::new(((width - first * 2) * k).get().div_euclid(n - 1))
            }
            (None, Some(first)) => first,
            (None, None) => Micrometres::new((width * (2 * k + 1)).get().div_euclid(2 * n)),
        })
        .collect()
}

/// The first emitter of a line, and how many there are.
fn emitters_on(
    length: Micrometres,
    pitch: Micrometres,
    first: Option<Micrometres>,
) -> (Micrometres, u32) {
    let hops = |room: Micrometres| room.get().div_euclid(pitch.get().max(1)).max(0);
    let (first, hops) = match first {
        Some(first) => (first, hops(length - first)),
        None => {
            let hops = hops(length - END_STRIP * 2 + TOLERANCE);
            (Micrometres::new((length - pitch * hops).get().div_euclid(2)), hops)
        }
    };
    (first, u32::try_from(hops + 1).unwrap_or(u32::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn inch(inches: i64) -> Micrometres {
        Micrometres::from_inches(inches)
    }

    fn counted(count: u32, emitter_spacing: i64) -> DripMeasures {
        DripMeasures {
            lines: LinesMeasured::Count(count),
            line_spacing: None,
            first_line: None,
            emitter_spacing: inch(emitter_spacing),
            first_emitter: None,
            flow: None,
        }
    }

    fn across(drip: &Drip) -> Vec<i64> {
        drip.lines().iter().map(|line| line.across.get() / 25_400).collect()
    }

    #[test]
    fn counted_lines_lie_in_the_middle_of_equal_strips() {
        let drip = Drip::new(&counted(4, 9), inch(96), inch(48)).unwrap();
        assert_eq!(across(&drip), [6, 18, 30, 42]);
    }

    #[test]
    fn lines_with_a_spacing_are_centred() {
        let given = DripMeasures { line_spacing: Some(inch(10)), ..counted(3, 9) };
        assert_eq!(across(&Drip::new(&given, inch(96), inch(48)).unwrap()), [14, 24, 34]);
    }

    #[test]
    fn a_first_line_alone_is_mirrored_at_the_far_side() {
        let given = DripMeasures { first_line: Some(inch(3)), ..counted(3, 9) };
        assert_eq!(across(&Drip::new(&given, inch(96), inch(48)).unwrap()), [3, 24, 45]);
    }

    #[test]
    fn emitters_are_centred_within_the_end_strips() {
        for (pitch, count, first) in [(9, 11, 3), (12, 8, 6), (6, 16, 3)] {
            let drip = Drip::new(&counted(1, pitch), inch(96), inch(48)).unwrap();
            let line = drip.lines()[0];
            assert_eq!((line.emitters, line.first_emitter), (count, inch(first)));
        }
    }

    #[test]
    fn a_bed_shorter_than_its_end_strips_has_one_emitter_in_the_middle() {
        let drip = Drip::new(&counted(1, 9), inch(4), inch(12)).unwrap();
        assert_eq!((drip.lines()[0].emitters, drip.lines()[0].first_emitter), (1, inch(2)));
    }

    #[test]
    fn a_bed_in_whole_centimetres_keeps_its_emitters() {
        // 243.8 cm is 0.4 mm short of 96 in.
        let length = Micrometres::new(2_438_000);
        assert_eq!(Drip::new(&counted(1, 9), length, inch(48)).unwrap().lines()[0].emitters, 11);
    }

    #[test]
    fn a_given_first_emitter_runs_to_the_end_of_the_bed() {
        let given = DripMeasures { first_emitter: Some(inch(0)), ..counted(1, 12) };
        assert_eq!(Drip::new(&given, inch(96), inch(48)).unwrap().lines()[0].emitters, 9);
    }

    #[test]
    fn listed_lines_are_numbered_from_the_near_side() {
        let line = |across, first: Option<i64>| LineMeasures {
            across: inch(across),
            first_emitter: first.map(inch),
        };
        let given = DripMeasures {
            lines: LinesMeasured::Each(vec![line(40, Some(5)), line(8, None)]),
            first_emitter: Some(inch(2)),
            ..counted(0, 9)
        };
        let drip = Drip::new(&given, inch(96), inch(48)).unwrap();
        assert_eq!(across(&drip), [8, 40]);
        assert_eq!(drip.lines()[0].first_emitter, inch(2));
        assert_eq!(drip.lines()[1].first_emitter, inch(5));
    }

    #[test]
    fn every_fault_is_told_at_once() {
        let given = DripMeasures {
            lines: LinesMeasured::Each(vec![LineMeasures {
                across: inch(50),
                first_emitter: Some(inch(-1)),
            }]),
            line_spacing: Some(inch(10)),
            first_emitter: Some(inch(97)),
            ..counted(0, 0)
        };
        let faults = Drip::new(&given, inch(96), inch(48)).unwrap_err();
        let parts: Vec<String> = faults.iter().map(|fault| fault.part.path()).collect();
        assert_eq!(
            parts,
            [
                "drip.emitter_spacing",
                "drip.first_emitter",
                "drip.lines.0.across",
                "drip.lines.0.first_emitter",
                "drip.line_spacing"
            ]
        );
    }

    #[test]
    fn no_lines_too_many_lines_and_too_many_emitters_are_refused() {
        let refused = |given: &DripMeasures, length| {
            Drip::new(given, inch(length), inch(48)).unwrap_err()[0].reason
        };
        assert_eq!(refused(&counted(0, 9), 96), Reason::LineCount { most: MOST_LINES });
        assert_eq!(refused(&counted(25, 9), 96), Reason::LineCount { most: MOST_LINES });
        assert_eq!(refused(&counted(24, 2), 1200), Reason::EmitterCount { most: MOST_EMITTERS });
    }

    #[test]
    fn lines_too_far_from_each_other_leave_the_bed() {
        let given = DripMeasures { line_spacing: Some(inch(20)), ..counted(4, 9) };
        let faults = Drip::new(&given, inch(96), inch(48)).unwrap_err();
        assert_eq!(faults, [Fault { part: Part::LineSpacing, reason: Reason::LinesLeaveBed }]);
    }
}
