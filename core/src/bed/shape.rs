//! The bed itself.

use super::TOLERANCE;
use super::drip::{Drip, DripMeasures};
use super::fault::{Fault, Part, Reason};
use crate::quantity::Micrometres;

/// The smallest side of a bed.
pub const LEAST_SIDE: Micrometres = Micrometres::from_inches(1);
/// The longest bed that is worked out: 100 ft.
pub const LONGEST_SIDE: Micrometres = Micrometres::from_inches(1_200);
/// The widest bed that is worked out: 20 ft.
pub const WIDEST_SIDE: Micrometres = Micrometres::from_inches(240);

/// The sides from which a bed can be reached.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reach {
    /// The near long side.
    pub near: bool,
    /// The far long side.
    pub far: bool,
    /// The left end.
    pub left: bool,
    /// The right end.
    pub right: bool,
}

impl Default for Reach {
    /// From all around, as a bed in the open is.
    fn default() -> Self {
        Self { near: true, far: true, left: true, right: true }
    }
}

/// A compass bearing in whole degrees, clockwise from north.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bearing(u16);

impl Bearing {
    /// The bearing, if it lies in 0 to 360 (which is north again).
    #[must_use]
    pub const fn new(degrees: u16) -> Option<Self> {
        match degrees {
            0..360 => Some(Self(degrees)),
            360 => Some(Self(0)),
            _ => None,
        }
    }

    /// Whole degrees, 0 to 359.
    #[must_use]
    pub const fn degrees(self) -> u16 {
        self.0
    }
}

/// A bed as someone measured it.
#[derive(Clone, Debug, PartialEq)]
pub struct Measures {
    /// From the left end to the right one, inside the boards.
    pub length: Micrometres,
    /// From the near side to the far one, inside the boards.
    pub width: Micrometres,
    /// The drip lines, if there are any.
    pub drip: Option<DripMeasures>,
    /// The room to keep between a plant's middle and the sides, if the gardener said so.
    pub edge_margin: Option<Micrometres>,
    /// The sides one can reach it from.
    pub reach: Reach,
    /// Where one looks, standing at the near side with the bed in front.
    pub faces: Option<Bearing>,
}

/// A bed whose measures agree with each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Bed {
    length: Micrometres,
    width: Micrometres,
    drip: Option<Drip>,
    edge_margin: Option<Micrometres>,
    reach: Reach,
    faces: Option<Bearing>,
}

impl Bed {
    /// The bed, with what was not measured filled in.
    ///
    /// # Errors
    /// Every measure that cannot be, all at once.
    ///
    /// Four lines with a hole every 6 in have 16 holes each in an 8 ft bed, from 3 in to 93 in:
    /// ```
    /// use pegline_core::bed::{Bed, DripMeasures, LinesMeasured, Measures, Reach};
    /// use pegline_core::quantity::Micrometres;
    /// let inches = Micrometres::from_inches;
    /// let drip = DripMeasures {
    ///     lines: LinesMeasured::Count(4),
    ///     line_spacing: None,
    ///     first_line: None,
    ///     emitter_spacing: inches(6),
    ///     first_emitter: None,
    ///     flow: None,
    /// };
    /// let measures = Measures {
    ///     length: inches(96),
    ///     width: inches(48),
    ///     drip: Some(drip),
    ///     edge_margin: None,
    ///     reach: Reach::default(),
    ///     faces: None,
    /// };
    /// let bed = Bed::new(&measures).unwrap();
    /// assert_eq!(bed.drip().map(|drip| drip.emitter_count()), Some(64));
    ///
    /// // A bed that is too narrow and too long is told both.
    /// let wrong = Measures { length: inches(2_000), width: inches(0), ..measures };
    /// assert_eq!(Bed::new(&wrong).unwrap_err().len(), 2);
    /// ```
    pub fn new(given: &Measures) -> Result<Self, Vec<Fault>> {
        let mut faults = Vec::new();
        let sides =
            [(Part::Length, given.length, LONGEST_SIDE), (Part::Width, given.width, WIDEST_SIDE)];
        for (part, value, most) in sides {
            if value < LEAST_SIDE || value > most {
                faults.push(Fault { part, reason: Reason::Outside { least: LEAST_SIDE, most } });
            }
        }
        let sides_fit = faults.is_empty();
        if let Some(margin) = given.edge_margin {
            let half = Micrometres::new(given.length.min(given.width).get().div_euclid(2));
            if sides_fit && (margin < Micrometres::ZERO || margin > half + TOLERANCE) {
                faults.push(Fault {
                    part: Part::EdgeMargin,
                    reason: Reason::Outside { least: Micrometres::ZERO, most: half },
                });
            }
        }
        let drip = match &given.drip {
            // Its own measures are checked against the sides, so these must be right first.
            Some(drip) if sides_fit => match Drip::new(drip, given.length, given.width) {
                Ok(drip) => Some(drip),
                Err(more) => {
                    faults.extend(more);
                    None
                }
            },
            _ => None,
        };
        if !faults.is_empty() {
            return Err(faults);
        }
        Ok(Self {
            length: given.length,
            width: given.width,
            drip,
            edge_margin: given.edge_margin,
            reach: given.reach,
            faces: given.faces,
        })
    }

    /// From the left end to the right one.
    #[must_use]
    pub fn length(&self) -> Micrometres {
        self.length
    }

    /// From the near side to the far one.
    #[must_use]
    pub fn width(&self) -> Micrometres {
        self.width
    }

    /// The drip lines, if there are any.
    #[must_use]
    pub fn drip(&self) -> Option<&Drip> {
        self.drip.as_ref()
    }

    /// The room to keep at the sides, if the gardener said so.
    #[must_use]
    pub fn edge_margin(&self) -> Option<Micrometres> {
        self.edge_margin
    }

    /// The sides one can reach it from.
    #[must_use]
    pub fn reach(&self) -> Reach {
        self.reach
    }

    /// Where one looks, standing at the near side with the bed in front.
    #[must_use]
    pub fn faces(&self) -> Option<Bearing> {
        self.faces
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bed::{LinesMeasured, MOST_LINES};

    fn measures(length: i64, width: i64) -> Measures {
        Measures {
            length: Micrometres::from_inches(length),
            width: Micrometres::from_inches(width),
            drip: None,
            edge_margin: None,
            reach: Reach::default(),
            faces: None,
        }
    }

    #[test]
    fn sides_are_checked_together() {
        let parts: Vec<Part> =
            Bed::new(&measures(0, 241)).unwrap_err().iter().map(|fault| fault.part).collect();
        assert_eq!(parts, [Part::Length, Part::Width]);
        assert!(Bed::new(&measures(1_200, 240)).is_ok());
    }

    #[test]
    fn an_edge_wider_than_half_the_bed_is_refused_beside_a_fault_of_the_drip() {
        let given = Measures {
            edge_margin: Some(Micrometres::from_inches(25)),
            drip: Some(DripMeasures {
                lines: LinesMeasured::Count(99),
                line_spacing: None,
                first_line: None,
                emitter_spacing: Micrometres::from_inches(9),
                first_emitter: None,
                flow: None,
            }),
            ..measures(96, 48)
        };
        let reasons: Vec<Reason> =
            Bed::new(&given).unwrap_err().iter().map(|fault| fault.reason).collect();
        let most = Micrometres::from_inches(24);
        assert_eq!(
            reasons,
            [
                Reason::Outside { least: Micrometres::ZERO, most },
                Reason::LineCount { most: MOST_LINES }
            ]
        );
    }

    #[test]
    fn a_full_turn_is_north_again() {
        assert_eq!(Bearing::new(360), Bearing::new(0));
        assert_eq!(Bearing::new(361), None);
    }

    #[test]
    fn limits_are_told_in_the_readers_units() {
        let fault = Bed::new(&measures(0, 48)).unwrap_err()[0];
        let show = |length: Micrometres| format!("{} in", length.get() / 25_400);
        assert_eq!(fault.allowed(&show), "1 in to 1200 in");
        assert_eq!(fault.part.path(), "length");
    }
}
