//! A bed and what is to go in, as one line of text and as a question at the door.
//!
//! ```text
//! length width lines line-spacing first-line emitter-spacing first-emitter margin aim crops standing = counts
//! ```
//!
//! Lengths are tenths of a millimetre, since both inches and millimetres are whole in them; `-` is
//! left to the door's defaults. `lines` is how many, or `across:first-emitter` with a `/` between
//! lines. A crop is its spacing, and `x` how many there are; crops and standing plants
//! (`along:across:spacing`) have commas between them. The counts are what is known to be best: of
//! each crop for the aim `in-order`, in all for `most`.

use std::fmt;
use std::str::FromStr;

use serde_json::{Map, Value, json};

/// Micrometres in a tenth of a millimetre.
const TENTH: i64 = 100;

/// Names under which the crops of a bed are asked about, in order.
///
/// They lie in the door's catalogue, so that its answers tell all that they tell a gardener; their
/// spacings are given, so that no catalogue is needed here.
const NAMES: [&str; 4] = ["cabbage", "kale", "lettuce-head", "beet"];

/// A bed and what is to go in. Lengths are micrometres.
#[derive(Clone, Debug, PartialEq)]
pub struct Bed {
    /// From the left end to the right one.
    pub length: i64,
    /// From the near side to the far one.
    pub width: i64,
    /// How many drip lines, or each of them.
    pub lines: Result<u32, Vec<Line>>,
    /// From line to line.
    pub line_spacing: Option<i64>,
    /// From the near side to the first line.
    pub first_line: Option<i64>,
    /// From emitter to emitter.
    pub pitch: i64,
    /// From the left end to the first emitter of each line that gives none.
    pub first_emitter: Option<i64>,
    /// The room kept at every side.
    pub margin: i64,
    /// What is wished for.
    pub aim: Aim,
    /// What is to go in, in order of wanting.
    pub crops: Vec<Crop>,
    /// What is there and stays.
    pub standing: Vec<Standing>,
    /// What is known to be best; empty where nothing is.
    pub best: Vec<u32>,
}

/// One drip line that was measured. Micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line {
    /// From the near side.
    pub across: i64,
    /// From the left end to its first emitter.
    pub first_emitter: i64,
}

/// A crop that is to go in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Crop {
    /// The space between its plants, micrometres.
    pub spacing: i64,
    /// How many there are; as many as fit if absent.
    pub on_hand: Option<u32>,
}

/// A plant that is there and stays. Micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standing {
    /// From the left end.
    pub along: i64,
    /// From the near side.
    pub across: i64,
    /// The space it needs.
    pub spacing: i64,
}

/// What is wished for when not everything fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// As many of the first crop as possible, then of the second given those, and so on.
    InOrder,
    /// As many plants as possible in all.
    Most,
}

impl Aim {
    fn word(self) -> &'static str {
        match self {
            Self::InOrder => "in-order",
            Self::Most => "most",
        }
    }
}

/// The beds of a text: a line each, but for empty ones and those that begin with `#`.
///
/// # Errors
/// The first line that can't be read.
pub fn beds(text: &str) -> Result<Vec<Bed>, String> {
    text.lines()
        .filter(|line| !line.trim().is_empty() && !line.starts_with('#'))
        .map(str::parse)
        .collect()
}

/// A length as the door reads it, with no digit lost.
fn centimetres(micrometres: i64) -> String {
    let tenths = micrometres / TENTH;
    format!("{}.{:02} cm", tenths / 100, tenths % 100)
}

impl Bed {
    /// The name under which a crop is asked about.
    #[must_use]
    pub fn name(crop: usize) -> &'static str {
        NAMES.get(crop).copied().unwrap_or_default()
    }

    /// The question, as the door takes it.
    #[must_use]
    pub fn question(&self) -> Value {
        let mut drip = Map::new();
        let lines = match &self.lines {
            Ok(count) => json!(count),
            Err(each) => each
                .iter()
                .map(|line| {
                    json!({
                        "across": centimetres(line.across),
                        "first_emitter": centimetres(line.first_emitter),
                    })
                })
                .collect(),
        };
        drip.insert("lines".into(), lines);
        for (name, length) in [
            ("line_spacing", self.line_spacing),
            ("first_line", self.first_line),
            ("emitter_spacing", Some(self.pitch)),
            ("first_emitter", self.first_emitter),
        ] {
            if let Some(length) = length {
                drip.insert(name.into(), json!(centimetres(length)));
            }
        }
        let plants: Vec<Value> = self
            .crops
            .iter()
            .enumerate()
            .map(|(at, crop)| {
                let mut plant = Map::new();
                plant.insert("crop".into(), json!(Self::name(at)));
                plant.insert("spacing".into(), json!(centimetres(crop.spacing)));
                if let Some(on_hand) = crop.on_hand {
                    plant.insert("on_hand".into(), json!(on_hand));
                }
                // Crops spaced wider than the emitters are set at them unless it is said otherwise.
                if crop.spacing < self.pitch {
                    plant.insert("sites".into(), json!("emitters"));
                }
                Value::Object(plant)
            })
            .collect();
        let standing: Vec<Value> = self
            .standing
            .iter()
            .map(|plant| {
                json!({
                    "crop": "chard",
                    "along": centimetres(plant.along),
                    "across": centimetres(plant.across),
                    "spacing": centimetres(plant.spacing),
                })
            })
            .collect();
        json!({
            "topic": "plants-per-bed",
            "today": "2026-11-25",
            "bed": {
                "length": centimetres(self.length),
                "width": centimetres(self.width),
                "edge_margin": centimetres(self.margin),
                "drip": drip,
            },
            "plants": plants,
            "standing": standing,
            "aim": self.aim.word(),
        })
    }
}

/// Writes the parts with something between them, or `-` where there are none.
fn join<T>(
    out: &mut fmt::Formatter<'_>,
    parts: &[T],
    between: &str,
    each: impl Fn(&T) -> String,
) -> fmt::Result {
    let parts: Vec<String> = parts.iter().map(each).collect();
    if parts.is_empty() {
        return out.write_str("-");
    }
    out.write_str(&parts.join(between))
}

impl fmt::Display for Bed {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let maybe = |length: Option<i64>| {
            length.map_or_else(|| "-".to_owned(), |length| (length / TENTH).to_string())
        };
        write!(out, "{} {} ", self.length / TENTH, self.width / TENTH)?;
        match &self.lines {
            Ok(count) => write!(out, "{count}")?,
            Err(each) => join(out, each, "/", |line| {
                format!("{}:{}", line.across / TENTH, line.first_emitter / TENTH)
            })?,
        }
        write!(
            out,
            " {} {} {} {} {} {} ",
            maybe(self.line_spacing),
            maybe(self.first_line),
            self.pitch / TENTH,
            maybe(self.first_emitter),
            self.margin / TENTH,
            self.aim.word()
        )?;
        join(out, &self.crops, ",", |crop| match crop.on_hand {
            Some(on_hand) => format!("{}x{on_hand}", crop.spacing / TENTH),
            None => (crop.spacing / TENTH).to_string(),
        })?;
        out.write_str(" ")?;
        join(out, &self.standing, ",", |plant| {
            let [along, across, spacing] =
                [plant.along, plant.across, plant.spacing].map(|length| length / TENTH);
            format!("{along}:{across}:{spacing}")
        })?;
        out.write_str(" = ")?;
        join(out, &self.best, ",", u32::to_string)
    }
}

/// The parts of a list; none where it is `-`.
fn parts(text: &str, between: char) -> impl Iterator<Item = &str> {
    text.split(between).filter(|part| *part != "-")
}

impl FromStr for Bed {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let bad = |what: &str| format!("{what} can't be read in: {text}");
        let length =
            |part: &str| part.parse::<i64>().map(|tenths| tenths * TENTH).map_err(|_| bad(part));
        let count = |part: &str| part.parse::<u32>().map_err(|_| bad(part));
        let maybe = |part: &str| {
            if part == "-" { Ok(None) } else { length(part).map(Some) }
        };
        let (asked, best) = text.split_once(" = ").ok_or_else(|| bad("The best"))?;
        let asked: Vec<&str> = asked.split(' ').collect();
        let [
            long,
            wide,
            lines,
            line_spacing,
            first_line,
            pitch,
            first_emitter,
            margin,
            aim,
            crops,
            standing,
        ] = asked.as_slice()
        else {
            return Err(bad("The number of parts"));
        };
        let lines = if lines.contains(':') {
            let each = parts(lines, '/').map(|line| {
                let (across, first) = line.split_once(':').ok_or_else(|| bad(line))?;
                Ok(Line { across: length(across)?, first_emitter: length(first)? })
            });
            Err(each.collect::<Result<Vec<_>, String>>()?)
        } else {
            Ok(count(lines)?)
        };
        let crops = parts(crops, ',').map(|crop| {
            let (spacing, on_hand) = match crop.split_once('x') {
                Some((spacing, on_hand)) => (spacing, Some(count(on_hand)?)),
                None => (crop, None),
            };
            Ok(Crop { spacing: length(spacing)?, on_hand })
        });
        let standing = parts(standing, ',').map(|plant| {
            let mut three = plant.split(':').map(length);
            let mut next = || three.next().unwrap_or_else(|| Err(bad(plant)));
            Ok(Standing { along: next()?, across: next()?, spacing: next()? })
        });
        Ok(Self {
            length: length(long)?,
            width: length(wide)?,
            lines,
            line_spacing: maybe(line_spacing)?,
            first_line: maybe(first_line)?,
            pitch: length(pitch)?,
            first_emitter: maybe(first_emitter)?,
            margin: length(margin)?,
            aim: match *aim {
                "in-order" => Aim::InOrder,
                "most" => Aim::Most,
                _ => return Err(bad(aim)),
            },
            crops: crops.collect::<Result<_, String>>()?,
            standing: standing.collect::<Result<_, String>>()?,
            best: parts(best, ',').map(count).collect::<Result<_, _>>()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_comes_back_as_it_was() {
        for line in [
            "24384 12192 4 3048 - 2286 - 762 in-order 4572x14,2286 - = 12,9",
            "9000 6000 1000:500/3000:650 - - 1500 - 300 most 3000x4,2000x9 4500:3000:3000 = 11",
            "24384 12192 3 - - 1524 - 0 in-order 4572 - = -",
        ] {
            assert_eq!(line.parse::<Bed>().unwrap().to_string(), line);
        }
    }

    #[test]
    fn a_question_says_what_the_line_says() {
        let bed: Bed =
            "24384 12192 4 3048 - 2286 - 762 in-order 4572x14,2000 - = -".parse().unwrap();
        let question = bed.question();
        assert_eq!(question["bed"]["length"], "243.84 cm");
        assert_eq!(question["bed"]["drip"]["lines"], 4);
        assert_eq!(question["plants"][0]["on_hand"], 14);
        assert_eq!(question["plants"][1]["sites"], "emitters");
        assert!(question["bed"]["drip"].get("first_line").is_none());
    }

    #[test]
    fn a_line_with_a_part_missing_is_refused() {
        for line in [
            "24384 12192 4 = 1",
            "24384 12192 4 - - 2286 - 762 in-order 4572 -",
            "24384 12192 four - - 2286 - 762 in-order 4572 - = 12",
        ] {
            assert!(line.parse::<Bed>().is_err(), "{line}");
        }
    }
}
