//! Figures and words of one row, and where they are wrong.

use std::ops::RangeInclusive;

use super::tables::{By, OneOrMany, Sources};

/// Least and most.
pub(super) type Pair = [i32; 2];
/// Least, usual and most.
pub(super) type Triple = [i32; 3];

/// Reads the fields of one row, and keeps what it found wrong.
pub(super) struct Reader<'a> {
    pub(super) id: &'a str,
    pub(super) sources: &'a Sources,
    /// The facet's name and the source's key, in the order of the row.
    pub(super) found: Vec<(&'static str, String)>,
    pub(super) faults: &'a mut Vec<String>,
}

impl Reader<'_> {
    pub(super) fn by(&mut self, facet: &'static str, field: &str, by: &By) {
        if by.as_slice().is_empty() {
            self.fault(&format!("{field}.by"), "is empty; leave it out for common practice");
        }
        for key in by.as_slice() {
            if self.sources.contains_key(key) {
                self.found.push((facet, key.clone()));
            } else {
                self.fault(&format!("{field}.by"), &format!("no source \"{key}\" in sources.toml"));
            }
        }
    }

    pub(super) fn distinct<T: PartialEq>(&mut self, field: &str, words: &[T]) {
        let repeated =
            words.iter().enumerate().any(|(i, word)| words.iter().skip(i + 1).any(|w| w == word));
        if words.is_empty() || repeated {
            self.fault(field, "takes one word, or several different ones");
        }
    }

    pub(super) fn two(
        &mut self,
        field: &str,
        figures: &OneOrMany<f64>,
        scale: f64,
        allowed: RangeInclusive<f64>,
    ) -> Option<Pair> {
        match self.rising(field, figures, scale, allowed)?.as_slice() {
            [only] => Some([*only, *only]),
            [least, most] => Some([*least, *most]),
            _ => {
                self.fault(field, "takes one or two figures");
                None
            }
        }
    }

    pub(super) fn three(
        &mut self,
        field: &str,
        figures: &OneOrMany<f64>,
        allowed: RangeInclusive<f64>,
        usual: fn(i32, i32) -> i32,
    ) -> Option<Triple> {
        match self.rising(field, figures, 1.0, allowed)?.as_slice() {
            [only] => Some([*only, *only, *only]),
            [least, most] => Some([*least, usual(*least, *most), *most]),
            [least, usual, most] => Some([*least, *usual, *most]),
            _ => {
                self.fault(field, "takes one, two or three figures");
                None
            }
        }
    }

    fn rising(
        &mut self,
        field: &str,
        figures: &OneOrMany<f64>,
        scale: f64,
        allowed: RangeInclusive<f64>,
    ) -> Option<Vec<i32>> {
        let figures = figures.as_slice();
        if !figures.is_sorted() {
            self.fault(field, "does not rise from least to most");
        }
        figures.iter().map(|figure| self.scaled(field, *figure, scale, allowed.clone())).collect()
    }

    pub(super) fn whole(
        &mut self,
        field: &str,
        figure: f64,
        allowed: RangeInclusive<f64>,
    ) -> Option<i32> {
        self.scaled(field, figure, 1.0, allowed)
    }

    #[expect(clippy::cast_possible_truncation, reason = "whole, and inside a range that fits")]
    pub(super) fn scaled(
        &mut self,
        field: &str,
        figure: f64,
        scale: f64,
        allowed: RangeInclusive<f64>,
    ) -> Option<i32> {
        if !allowed.contains(&figure) {
            let (least, most) = allowed.into_inner();
            self.fault(field, &format!("{figure} is not between {least} and {most}"));
            return None;
        }
        let scaled = (figure * scale).round();
        if (figure * scale - scaled).abs() > 1e-6 {
            self.fault(field, &format!("{figure} is finer than the catalogue keeps"));
            return None;
        }
        Some(scaled as i32)
    }

    pub(super) fn fault(&mut self, field: &str, why: &str) {
        self.faults.push(format!("crops.toml: [{}] {field}: {why}", self.id));
    }
}

/// Whether it can be an id or a key.
pub(super) fn is_kebab(text: &str) -> bool {
    text.starts_with(|letter: char| letter.is_ascii_lowercase())
        && !text.ends_with('-')
        && !text.contains("--")
        && text.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}
