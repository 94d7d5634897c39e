//! What the trade would call it: sizes and colours of the United States Standards for Grades.
//!
//! They are limits of trade, not of taste; a gardener's own variety overrules them. Told beside the
//! verdict, never as one.

use uom::si::length::inch;

use super::{cues::Sheet, measures::Measures};
use crate::{quantity::Length, source::Source};

/// A trade name for a measured size or colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Grade {
    /// The name, or what it meets.
    pub name: &'static str,
    /// The standard.
    pub source: Source,
}

/// Whether a step belongs to the name before it.
#[derive(Clone, Copy)]
enum Ends {
    /// The name holds below its step.
    Below,
    /// The name holds up to its step and with it.
    With,
}

/// Sieve sizes of round snap beans, in 64ths of an inch across.
const SIEVES: [(f64, &str); 5] = [
    (14.5, "sieve size 1"),
    (18.5, "sieve size 2"),
    (21.0, "sieve size 3"),
    (24.0, "sieve size 4"),
    (27.0, "sieve size 5"),
];

/// Radish diameters, inches.
const RADISHES: [(f64, &str); 3] = [(0.75, "small"), (1.0, "medium"), (1.25, "large")];

/// Tomato colour classes, percent of the skin that is not green.
const TOMATOES: [(f64, &str); 5] =
    [(0.0, "green"), (10.0, "breaker"), (30.0, "turning"), (60.0, "pink"), (90.0, "light red")];

/// The trade's name for what was measured on this sheet's crop, if it has one.
pub fn grade(sheet: &Sheet, measures: &Measures) -> Option<Grade> {
    let width_in = measures.width.map(|width| width.get::<inch>());
    let (name, source) = match sheet.id() {
        "snap-bean" => {
            let name = named(width_in? * 64.0, &SIEVES, Ends::Below, "sieve size 6");
            (name, Source::UsdaSnapBeanSizes)
        }
        "radish" => {
            // Exactly one inch and a quarter is still large.
            let name = named(width_in?, &RADISHES, Ends::With, "extra large");
            (name, Source::UsdaRadish)
        }
        "carrot" => {
            let long = measures.length.is_none_or(|length| at_least(length, 5.0));
            let fits = within(width_in?, 0.75, 1.5) && long;
            (if fits { "US No. 1 size" } else { "not US No. 1 size" }, Source::UsdaCarrot)
        }
        "turnip" => {
            let fits = at_least(measures.width?, 1.75);
            (
                if fits { "the US least size or more" } else { "under the US least size" },
                Source::UsdaTurnip,
            )
        }
        "slicing-cucumber" => {
            let long = at_least(measures.length?, 6.0);
            let slim = width_in? <= 2.375 + SLACK;
            let name = match (long, slim) {
                (true, true) => "US No. 1 size",
                (_, false) => "too thick for US No. 1",
                (false, true) => "too short for US No. 1",
            };
            (name, Source::UsdaCucumber)
        }
        "tomato" => {
            let name = named(measures.colour?.number(), &TOMATOES, Ends::With, "red");
            (name, Source::UsdaTomato)
        }
        "melon" => {
            let name = match measures.brix?.number() {
                brix if brix >= 11.0 - SLACK => "US Fancy in sweetness",
                brix if brix >= 9.0 - SLACK => "US No. 1 in sweetness",
                _ => "under US No. 1 in sweetness",
            };
            (name, Source::UsdaCantaloupe)
        }
        _ => return None,
    };
    Some(Grade { name, source })
}

/// A micrometre in inches: finer than any tape.
const SLACK: f64 = 4e-5;

fn at_least(length: Length, inches: f64) -> bool {
    length.get::<inch>() >= inches - SLACK
}

fn within(value: f64, least: f64, most: f64) -> bool {
    least - SLACK <= value && value <= most + SLACK
}

fn named(
    value: f64,
    steps: &[(f64, &'static str)],
    ends: Ends,
    beyond: &'static str,
) -> &'static str {
    let in_step = |(step, _): &&(f64, &'static str)| match ends {
        Ends::Below => value < step - SLACK,
        Ends::With => value <= step + SLACK,
    };
    steps.iter().find(in_step).map_or(beyond, |(_, name)| name)
}
