//! Where plants stand, in so few characters that a bed of garlic fits one entry.
//!
//! ```text
//! sites = part *( ";" part )
//! part  = [ "L" ] runs ":" runs [ "/" runs ]
//! runs  = run *( "," run )
//! run   = number [ "-" number "x" count ]
//! ```
//!
//! A run is one number, or `count` numbers spread evenly from the first to the last. A part is
//! rows, then where plants stand along each of them; after a stroke, where they stand along the
//! second, fourth… of those rows.
//!
//! - With an `L`, rows are drip lines counted from the near side and places are holes counted
//!   along the hose from the left end, both from 1: `L1-3x2:1-11x6/2,6,10` is holes 1, 3, 5, 7,
//!   9, 11 of line 1 and holes 2, 6, 10 of line 3.
//! - Without one, rows are distances from the near side and places distances from the left end,
//!   in millimetres with up to three decimals: `76.2-1143x9:76.2-2362.2x16/152.4-2286x15` is a
//!   staggered bed of 140 garlic.
//!
//! Nothing is lost: holes come back as they were, and places to two micrometres, that being the
//! rounding of a row spread evenly over whole micrometres.

use crate::{
    bed::{Site, Spot},
    order,
    quantity::Micrometres,
};
use core::fmt;

/// The most plants one text may stand for.
pub const MOST: usize = 5_000;
/// The farthest place, in micrometres: a kilometre.
const FARTHEST_UM: i64 = 1_000_000_000;
/// Micrometres in a millimetre.
const UM_PER_MM: i64 = 1_000;
/// How far a place may come back from where it was, in micrometres.
const ROUNDING_UM: i64 = 2;

/// A hole of a drip line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hole {
    /// The line, counted from the near side, from 1.
    pub line: u16,
    /// The hole, counted along the hose from the left end, from 1.
    pub hole: u16,
}

/// Where the plants of one planting stand. Never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sites {
    parts: Vec<Part>,
}

/// Why there are no such sites.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BadSites {
    /// No plant at all.
    #[error("no place is given")]
    Empty,
    /// More than [`MOST`].
    #[error("more places than a bed can hold")]
    TooMany,
    /// Behind the bed's corner, a kilometre away, or a hole that is no whole number.
    #[error("a place outside the bed")]
    Outside,
    /// Not the notation described above.
    #[error("not written as rows and places")]
    Unreadable,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Part {
    /// Lines and holes, not millimetres.
    counted: bool,
    rows: Vec<Run>,
    along: Vec<Run>,
    /// Along every second row, where it differs.
    along_second: Option<Vec<Run>>,
}

/// `count` numbers spread evenly from `first` to `last`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Run {
    first: i64,
    last: i64,
    count: usize,
}

impl Run {
    fn at(self, index: usize) -> i64 {
        let gaps = self.count.saturating_sub(1).max(1) as i64;
        let span = (self.last - self.first) * index as i64;
        self.first + (2 * span + gaps) / (2 * gaps)
    }

    fn all(self) -> impl Iterator<Item = i64> {
        (0..self.count).map(move |index| self.at(index))
    }

    fn is_whole(self) -> bool {
        let gaps = self.count.saturating_sub(1).max(1) as i64;
        (self.last - self.first) % gaps == 0
    }
}

/// The longest run that starts a list and comes back within `slack` of every number.
fn leading_run(numbers: &[i64], slack: i64) -> Option<Run> {
    let first = *numbers.first()?;
    let mut longest = Run { first, last: first, count: 1 };
    for (index, &last) in numbers.iter().enumerate().skip(1) {
        let run = Run { first, last, count: index + 1 };
        let near = |(here, &there): (i64, &i64)| (here - there).abs() <= slack;
        if !(run.all().zip(numbers).all(near) && (slack > 0 || run.is_whole())) {
            break;
        }
        longest = run;
    }
    // A pair is shorter as two numbers.
    Some(if longest.count == 2 { Run { first, last: first, count: 1 } } else { longest })
}

fn runs(mut numbers: &[i64], slack: i64) -> Vec<Run> {
    let mut found = Vec::new();
    while let Some(run) = leading_run(numbers, slack) {
        found.push(run);
        numbers = numbers.get(run.count..).unwrap_or_default();
    }
    found
}

/// Rows in order, joined where neighbours at even distances are alike or alternate.
fn parts(rows: &[(i64, Vec<Run>)], counted: bool, slack: i64) -> Vec<Part> {
    let mut parts = Vec::new();
    let mut rest = rows;
    while let [(_, odd), later @ ..] = rest {
        let even = later.first().map_or(odd, |(_, even)| even);
        let alternating = rest
            .iter()
            .enumerate()
            .take_while(|(index, (_, along))| along == if index % 2 == 0 { odd } else { even })
            .map(|(_, (row, _))| *row)
            .collect::<Vec<_>>();
        // Two rows that differ are no shorter together.
        let joined = leading_run(&alternating, slack).map_or(1, |run| run.count);
        let here = alternating.get(..joined).unwrap_or_default();
        let differs = joined > 1 && odd != even;
        parts.push(Part {
            counted,
            rows: runs(here, slack),
            along: odd.clone(),
            along_second: differs.then(|| even.clone()),
        });
        rest = rest.get(joined..).unwrap_or_default();
    }
    parts
}

/// Sites from pairs of row and place, in any order; the same place twice is one place.
fn sites(mut pairs: Vec<(i64, i64)>, counted: bool) -> Result<Sites, BadSites> {
    let (least, slack) = if counted { (1, 0) } else { (0, ROUNDING_UM) };
    let inside = |number: i64| least <= number && number <= FARTHEST_UM;
    if pairs.is_empty() {
        return Err(BadSites::Empty);
    }
    if pairs.len() > MOST {
        return Err(BadSites::TooMany);
    }
    if !pairs.iter().all(|&(row, along)| inside(row) && inside(along)) {
        return Err(BadSites::Outside);
    }
    order::sort(&mut pairs, &|&(row, along)| [row, along, 0]);
    pairs.dedup();
    let rows = pairs
        .chunk_by(|one, other| one.0 == other.0)
        .map(|row| {
            let along = row.iter().map(|pair| pair.1).collect::<Vec<_>>();
            (row.first().map_or(0, |pair| pair.0), runs(&along, slack))
        })
        .collect::<Vec<_>>();
    Ok(Sites { parts: parts(&rows, counted, slack) })
}

impl Sites {
    /// Sites at holes of drip lines.
    ///
    /// # Errors
    /// When there are none or too many, or one is counted from 0.
    pub fn of_holes(holes: &[Hole]) -> Result<Self, BadSites> {
        sites(holes.iter().map(|at| (at.line.into(), at.hole.into())).collect(), true)
    }

    /// Sites anywhere in the bed.
    ///
    /// # Errors
    /// When there are none or too many, or one lies outside.
    pub fn of_places(places: &[Spot]) -> Result<Self, BadSites> {
        sites(places.iter().map(|at| (at.across.get(), at.along.get())).collect(), false)
    }

    /// The sites of a planting: holes where all plants stand at holes.
    ///
    /// # Errors
    /// When there are none or too many, or one lies outside.
    pub fn of(plants: &[Site]) -> Result<Self, BadSites> {
        let hole = |site: &Site| Some(Hole { line: site.line?, hole: site.hole? });
        match plants.iter().map(hole).collect::<Option<Vec<Hole>>>() {
            Some(holes) => Self::of_holes(&holes),
            None => Self::of_places(&plants.iter().map(|site| site.spot).collect::<Vec<_>>()),
        }
    }

    /// How many plants stand there.
    #[must_use]
    pub fn count(&self) -> usize {
        self.parts.iter().filter_map(Part::count).sum()
    }

    /// The holes among them, by line and then along it.
    #[must_use]
    pub fn holes(&self) -> Vec<Hole> {
        // OK because reading and making keep counted numbers inside u16.
        let narrow = |number: i64| u16::try_from(number).unwrap_or(u16::MAX);
        let hole = |(line, hole)| Hole { line: narrow(line), hole: narrow(hole) };
        self.pairs(true).into_iter().map(hole).collect()
    }

    /// The places among them that are not counted in holes, by row and then along it.
    #[must_use]
    pub fn places(&self) -> Vec<Spot> {
        let um = Micrometres::new;
        let place = |(across, along)| Spot { along: um(along), across: um(across) };
        self.pairs(false).into_iter().map(place).collect()
    }

    fn pairs(&self, counted: bool) -> Vec<(i64, i64)> {
        let mut pairs = Vec::new();
        for part in self.parts.iter().filter(|part| part.counted == counted) {
            for (index, row) in part.rows.iter().flat_map(|run| run.all()).enumerate() {
                let along = part.along(index);
                pairs.extend(along.iter().flat_map(|run| run.all()).map(|place| (row, place)));
            }
        }
        order::sort(&mut pairs, &|&(row, along)| [row, along, 0]);
        pairs
    }
}

impl Part {
    fn along(&self, row: usize) -> &[Run] {
        match &self.along_second {
            Some(second) if row % 2 == 1 => second,
            _ => &self.along,
        }
    }

    /// How many plants, or nothing beyond what a number can hold.
    fn count(&self) -> Option<usize> {
        let sum =
            |runs: &[Run]| runs.iter().try_fold(0_usize, |sum, run| sum.checked_add(run.count));
        let rows = sum(&self.rows)?;
        let odd = rows.div_ceil(2).checked_mul(sum(self.along(0))?)?;
        odd.checked_add((rows / 2).checked_mul(sum(self.along(1))?)?)
    }
}

fn read_number(text: &str, counted: bool) -> Result<i64, BadSites> {
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    let digits = |text: &str, most| {
        (1..=most).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit())
    };
    if !digits(whole, 7) || !digits(part, 3) || (counted && text.bytes().any(|byte| byte == b'.')) {
        return Err(BadSites::Unreadable);
    }
    let number = |text: &str| text.parse::<i64>().map_err(|_| BadSites::Unreadable);
    if counted {
        let number = number(whole)?;
        let inside = 1 <= number && number <= i64::from(u16::MAX);
        return if inside { Ok(number) } else { Err(BadSites::Outside) };
    }
    let scale = [0, 100, 10, 1].get(part.len()).copied().unwrap_or_default();
    let um = number(whole)? * UM_PER_MM + number(part)? * scale;
    if um <= FARTHEST_UM { Ok(um) } else { Err(BadSites::Outside) }
}

fn read_run(text: &str, counted: bool) -> Result<Run, BadSites> {
    let Some((first, rest)) = text.split_once('-') else {
        let only = read_number(text, counted)?;
        return Ok(Run { first: only, last: only, count: 1 });
    };
    let (last, count) = rest.split_once('x').ok_or(BadSites::Unreadable)?;
    let count = usize::try_from(read_number(count, true)?).map_err(|_| BadSites::Unreadable)?;
    let run = Run { first: read_number(first, counted)?, last: read_number(last, counted)?, count };
    if count < 2 || run.last <= run.first {
        return Err(BadSites::Unreadable);
    }
    if counted && !run.is_whole() { Err(BadSites::Outside) } else { Ok(run) }
}

fn read_runs(text: &str, counted: bool) -> Result<Vec<Run>, BadSites> {
    text.split(',').map(|run| read_run(run, counted)).collect()
}

impl core::str::FromStr for Sites {
    type Err = BadSites;

    fn from_str(text: &str) -> Result<Self, BadSites> {
        let mut sites = Self { parts: Vec::new() };
        let mut count = 0_usize;
        for text in text.split(';') {
            let (counted, text) = text.strip_prefix('L').map_or((false, text), |text| (true, text));
            let (rows, along) = text.split_once(':').ok_or(BadSites::Unreadable)?;
            let (along, second) =
                along.split_once('/').map_or((along, None), |(odd, even)| (odd, Some(even)));
            let part = Part {
                counted,
                rows: read_runs(rows, counted)?,
                along: read_runs(along, counted)?,
                along_second: second.map(|second| read_runs(second, counted)).transpose()?,
            };
            count = part.count().and_then(|more| count.checked_add(more)).unwrap_or(usize::MAX);
            if count > MOST {
                return Err(BadSites::TooMany);
            }
            sites.parts.push(part);
        }
        Ok(sites)
    }
}

/// A number as it is written: whole when counted, else millimetres.
struct Number(i64, bool);

impl fmt::Display for Number {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self(number, counted) = *self;
        if counted {
            return write!(out, "{number}");
        }
        let (whole, part) = (number / UM_PER_MM, number % UM_PER_MM);
        match part {
            0 => write!(out, "{whole}"),
            _ if part % 100 == 0 => write!(out, "{whole}.{}", part / 100),
            _ if part % 10 == 0 => write!(out, "{whole}.{:02}", part / 10),
            _ => write!(out, "{whole}.{part:03}"),
        }
    }
}

fn write_runs(out: &mut fmt::Formatter<'_>, runs: &[Run], counted: bool) -> fmt::Result {
    for (index, run) in runs.iter().enumerate() {
        if index > 0 {
            out.write_str(",")?;
        }
        write!(out, "{}", Number(run.first, counted))?;
        if run.count > 1 {
            write!(out, "-{}x{}", Number(run.last, counted), run.count)?;
        }
    }
    Ok(())
}

impl fmt::Display for Sites {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, part) in self.parts.iter().enumerate() {
            out.write_str(if index > 0 { ";" } else { "" })?;
            out.write_str(if part.counted { "L" } else { "" })?;
            write_runs(out, &part.rows, part.counted)?;
            out.write_str(":")?;
            write_runs(out, &part.along, part.counted)?;
            if let Some(second) = &part.along_second {
                out.write_str("/")?;
                write_runs(out, second, part.counted)?;
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// An inch in micrometres, exactly.
    const INCH: i64 = 25_400;

    fn hole(line: u16, hole: u16) -> Hole {
        Hole { line, hole }
    }

    fn place(across_um: i64, along_um: i64) -> Spot {
        Spot { along: Micrometres::new(along_um), across: Micrometres::new(across_um) }
    }

    /// A staggered bed: rows evenly from `near` to `far`, every second one half a step in.
    fn staggered(near: i64, far: i64, rows: i64, left: i64, step: i64, count: i64) -> Vec<Spot> {
        let mut places = Vec::new();
        for row in 0..rows {
            let across = near + (far - near) * row / (rows - 1);
            let (left, count) =
                if row % 2 == 0 { (left, count) } else { (left + step / 2, count - 1) };
            places.extend((0..count).map(|index| place(across, left + step * index)));
        }
        places
    }

    fn farthest_off(before: &[Spot], after: &[Spot]) -> i64 {
        assert_eq!(before.len(), after.len());
        before
            .iter()
            .zip(after)
            .map(|(a, b)| {
                let (along, across) = (a.along - b.along, a.across - b.across);
                along.get().abs().max(across.get().abs())
            })
            .max()
            .unwrap()
    }

    #[test]
    fn every_second_hole_of_alternate_lines_is_a_few_characters() {
        let holes = [1, 3, 5].map(|line| [1, 3, 5, 7, 9, 11].map(|at| hole(line, at))).concat();
        let sites = Sites::of_holes(&holes).unwrap();
        assert_eq!(sites.to_string(), "L1-5x3:1-11x6");
        assert_eq!(sites.holes(), holes);
    }

    #[test]
    fn the_zigzag_of_the_header_reads_as_it_says() {
        let sites: Sites = "L1-3x2:1-11x6/2,6,10".parse().unwrap();
        assert_eq!(sites.count(), 9);
        assert_eq!(sites.holes()[6..], [hole(3, 2), hole(3, 6), hole(3, 10)]);
    }

    #[test]
    fn a_run_is_spread_evenly_to_the_nearest_micrometre() {
        let sites: Sites = "1:0-10x4".parse().unwrap();
        let along = sites.places().iter().map(|at| at.along.get()).collect::<Vec<_>>();
        assert_eq!(along, [0, 3_333, 6_667, 10_000]);
    }

    #[test]
    fn the_same_hole_twice_is_one_plant() {
        let sites = Sites::of_holes(&[hole(1, 2), hole(1, 1), hole(1, 2)]).unwrap();
        assert_eq!((sites.to_string().as_str(), sites.count()), ("L1:1,2", 2));
    }

    #[test]
    fn a_staggered_bed_of_140_garlic_is_forty_characters() {
        // 8 ft by 4 ft, 6 in between, 3 in from the sides: nine rows 5 1/4 in apart.
        let places = staggered(3 * INCH, 45 * INCH, 9, 3 * INCH, 6 * INCH, 16);
        let sites = Sites::of_places(&places).unwrap();
        assert_eq!(sites.to_string(), "76.2-1143x9:76.2-2362.2x16/152.4-2286x15");
        assert_eq!((sites.count(), sites.places()), (140, places));
    }

    #[test]
    fn rows_that_do_not_divide_evenly_stay_one_run() {
        // Thirteen gaps in 90 in are 175 846.15… micrometres each.
        let places = (0..14).map(|k| place(INCH, 90 * INCH * k / 13)).collect::<Vec<_>>();
        let sites = Sites::of_places(&places).unwrap();
        assert_eq!(sites.to_string(), "25.4:0-2286x14");
        assert!(farthest_off(&places, &sites.places()) <= ROUNDING_UM);
    }

    #[test]
    fn what_is_not_the_notation_is_refused() {
        for (text, why) in [
            ("", BadSites::Unreadable),
            ("L1", BadSites::Unreadable),
            ("L1:", BadSites::Unreadable),
            ("L1:1-11", BadSites::Unreadable),
            ("L1:1-11x1", BadSites::Unreadable),
            ("L1:11-1x6", BadSites::Unreadable),
            ("L1:1.5", BadSites::Unreadable),
            ("1:1.5000", BadSites::Unreadable),
            ("1:-5", BadSites::Unreadable),
            ("1:+5", BadSites::Unreadable),
            ("1:5;", BadSites::Unreadable),
            ("L0:1", BadSites::Outside),
            ("L1:1-10x6", BadSites::Outside),
            ("L1:65536", BadSites::Outside),
            ("9999999:1", BadSites::Outside),
            ("0-9x9999:0-9x9999", BadSites::TooMany),
            ("1:0-9x4000;2:0-9x4000", BadSites::TooMany),
        ] {
            assert_eq!(text.parse::<Sites>(), Err(why), "{text}");
        }
        assert_eq!(Sites::of_holes(&[]), Err(BadSites::Empty));
        assert_eq!(Sites::of_holes(&[hole(0, 1)]), Err(BadSites::Outside));
        assert_eq!(Sites::of_places(&[place(-1, 0)]), Err(BadSites::Outside));
        assert_eq!(Sites::of_places(&vec![place(0, 0); MOST + 1]), Err(BadSites::TooMany));
    }

    proptest! {
        #[test]
        fn holes_come_back_as_they_were(
            mut holes in prop::collection::btree_set((1..7u16, 1..100u16), 1..200),
        ) {
            let holes = core::mem::take(&mut holes).into_iter().map(|(l, h)| hole(l, h)).collect::<Vec<_>>();
            let sites = Sites::of_holes(&holes).unwrap();
            prop_assert_eq!(sites.holes(), holes.clone());
            prop_assert_eq!(sites.count(), holes.len());
            prop_assert_eq!(sites.to_string().parse::<Sites>(), Ok(sites));
        }

        #[test]
        fn places_come_back_within_the_rounding(
            points in prop::collection::btree_set((0..20i64, 0..1_000_000i64), 1..100),
        ) {
            let places = points.into_iter().map(|(row, x)| place(row * 71_213, x)).collect::<Vec<_>>();
            let sites = Sites::of_places(&places).unwrap();
            prop_assert!(farthest_off(&places, &sites.places()) <= ROUNDING_UM);
            prop_assert_eq!(sites.to_string().parse::<Sites>(), Ok(sites));
        }

        #[test]
        fn a_staggered_bed_of_any_size_is_one_part(
            near in 0..200_000i64, wide in 300_000..2_000_000i64, rows in 3..16i64,
            step in 50_000..600_000i64, count in 4..40i64,
        ) {
            let places = staggered(near, near + wide, rows, near, step, count);
            let sites = Sites::of_places(&places).unwrap();
            prop_assert!(sites.to_string().len() <= 64, "{}", sites);
            prop_assert!(farthest_off(&places, &sites.places()) <= ROUNDING_UM);
        }

        #[test]
        fn no_text_upsets_the_reader(text in "[L0-9.,;:/x-]{0,40}") {
            if let Ok(sites) = text.parse::<Sites>() {
                prop_assert_eq!(sites.count(), sites.holes().len() + sites.places().len());
            }
        }
    }
}
