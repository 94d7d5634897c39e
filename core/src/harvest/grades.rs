//! What the trade would call it: sizes and colours of the United States Standards for Grades, from
//! `grade` in `core/data/cues.toml`.
//!
//! They are limits of trade, not of taste; a gardener's own variety overrules them. Told beside the
//! verdict, never as one.

use uom::si::length::inch;

use super::{
    cues::Sheet,
    measures::{Measure, Measured, Measures},
};
use crate::source::Source;

/// A trade name for a measured size or colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Grade {
    /// The name, or what it meets.
    pub name: &'static str,
    /// The standard.
    pub source: Source,
}

/// A standard.
pub(crate) struct Grades {
    pub(crate) rules: &'static [Rule],
    /// The name where no rule holds.
    pub(crate) rest: &'static str,
    pub(crate) by: &'static [Source],
}

/// A name, and what must be measured for it.
pub(crate) struct Rule {
    pub(crate) what: Measure,
    pub(crate) ends: Ends,
    /// Lengths in inches.
    pub(crate) step: f64,
    pub(crate) name: &'static str,
    /// Left out where it was not measured.
    pub(crate) optional: bool,
}

/// On which side of its step a rule holds, and whether the step belongs to it.
#[derive(Clone, Copy)]
pub(crate) enum Ends {
    /// Below the step.
    Below,
    /// Up to the step and with it.
    UpTo,
    /// Over the step.
    Over,
}

/// A micrometre in inches: finer than any tape.
const SLACK: f64 = 4e-5;

/// The trade's name for what was measured on this sheet's crop, if it has one.
pub fn grade(sheet: &Sheet, measures: &Measures) -> Option<Grade> {
    let grades = sheet.grade.as_ref()?;
    let mut name = None;
    for rule in grades.rules {
        let value = match measures.get(rule.what) {
            Some(Measured::Length(length)) => length.get::<inch>(),
            Some(Measured::Percent(percent)) => percent.number(),
            Some(Measured::Count(count)) => f64::from(count),
            None if rule.optional => continue,
            None => return None,
        };
        let holds = match rule.ends {
            Ends::Below => value < rule.step - SLACK,
            Ends::UpTo => value <= rule.step + SLACK,
            Ends::Over => rule.step + SLACK < value,
        };
        name = name.or(holds.then_some(rule.name));
    }
    Some(Grade { name: name.unwrap_or(grades.rest), source: *grades.by.first()? })
}
