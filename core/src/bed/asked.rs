//! A bed as it is asked about: by the name it has in the record, or described.

use serde_json::{Map, Value};

use super::{Bearing, Bed, DripMeasures, LineCount, LineMeasures, LinesMeasured, Measures, Reach};
use crate::{
    given::{Control, Faults, FromGiven, Given, Readable, Text, asked, words},
    quantity::{Length, Micrometres, Quantity, System, Unreadable, VolumeRate},
    text,
};

/// The bed of a question.
#[derive(Clone, Debug)]
pub enum BedAsked {
    /// A bed of the record, by its id or name.
    Named(Given<Text>),
    /// A bed described in the question, with its fields as they came, for the record.
    Described(Box<Described>, Map<String, Value>),
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for BedAsked {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Bed".into()
    }

    fn json_schema(with: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let named = with.subschema_for::<Given<Text>>();
        let described = with.subschema_for::<Described>();
        schemars::json_schema!({ "anyOf": [named, described] })
    }
}

asked! {
    /// A bed described in a question.
    pub struct Described {
        /// What it is called, for the record.
        name: Given<Text> = "Its name",
        /// The long side, measured inside.
        length: Given<Length> = "Length" as Control::FEET,
        /// The short side, measured inside.
        width: Given<Length> = "Width" as Control::FEET,
        /// Its drip lines, if it has any.
        drip: Option<DripAsked> = "",
        /// From the bed's side to the nearest plant; by the crop's habit if absent.
        edge_margin: Given<Length> = "Side to nearest plant",
        /// The sides it can be reached from.
        reach: Vec<Given<Side>>,
        /// Where one looks when standing at the near side, as a bearing or a compass point.
        faces: Given<Bearing> = "Facing",
        /// Whether no puddle stays an hour after rain.
        drains: Given<bool> = "After rain" ["yes" => "it drains", "no" => "it stays wet"],
        /// Whether it is in sun for most of the day in spring.
        spring_sun: Given<bool> = "In spring" ["yes" => "in sun", "no" => "in shade"],
        /// What stood in it in earlier years.
        history: Vec<PastAsked>,
    }
}

asked! {
    /// The drip lines of a bed.
    pub struct DripAsked {
        /// How many lines, or each line by its place.
        lines: LinesAsked = "Drip lines",
        /// From line to line; lines at equal strips if absent.
        line_spacing: Given<Length> = "From line to line",
        /// From the near side to the first line; lines centred if absent.
        first_line: Given<Length> = "Near side to first line",
        /// From emitter to emitter along a line.
        emitter_spacing: Given<Length> = "Holes every",
        /// From the left end to the first emitter; emitters centred if absent.
        first_emitter: Given<Length> = "Left end to first hole",
        /// What one emitter gives.
        flow: Given<VolumeRate> = "What one hole gives",
    }
}

asked! {
    /// One drip line by its place.
    pub struct LineAsked {
        /// From the near side.
        across: Given<Length>,
        /// From the left end to this line's first emitter.
        first_emitter: Given<Length>,
    }
}

asked! {
    /// What stood in the bed in an earlier year.
    pub struct PastAsked {
        /// The plant family.
        family: Given<Text>,
        /// The crop.
        crop: Given<Text>,
        /// The year.
        year: Given<u32>,
    }
}

/// The lines of a drip system: a number, or a list.
#[derive(Clone, Debug)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(untagged))]
pub enum LinesAsked {
    /// How many.
    Count(Given<LineCount>),
    /// Each one.
    Each(Vec<LineAsked>),
}

impl Default for LinesAsked {
    fn default() -> Self {
        Self::Count(Given::default())
    }
}

impl FromGiven for LinesAsked {
    const CONTROL: Control = Control::Count;

    fn from_given(value: Option<&Value>, field: &str, faults: &mut Faults) -> Self {
        match value {
            Some(Value::Array(_)) => Self::Each(FromGiven::from_given(value, field, faults)),
            _ => Self::Count(FromGiven::from_given(value, field, faults)),
        }
    }
}

/// A bed's fields, where its length was given as both sides ("8 x 4 ft") and its width not at all: each
/// side in its own field, the longer one as the length.
pub fn sides_apart(mut bed: Map<String, Value>) -> Map<String, Value> {
    let has_width = bed.iter().any(|(name, value)| {
        name.starts_with("width") && !matches!(value, Value::Null) && value.as_str() != Some("")
    });
    let both = bed.get("length").and_then(Value::as_str).and_then(both_sides);
    if let Some([one, other]) = both.filter(|_| !has_width) {
        bed.insert("length".to_owned(), one.into());
        bed.insert("width".to_owned(), other.into());
    }
    bed
}

/// The sides in "8x4", "8 by 4 ft" or "8' x 4'", the longer first; the first borrows the unit of the second.
fn both_sides(text: &str) -> Option<[String; 2]> {
    let text = text::small(text);
    let [one, other] = [" by ", "x", "×"]
        .iter()
        .find_map(|by| text::parted(&text, by))
        .map(|(one, other)| [one.trim(), other.trim()])?;
    if ![one, other].iter().all(|side| side.starts_with(|it: char| it.is_ascii_digit())) {
        return None;
    }
    let number =
        |it: char| !it.is_alphabetic() && !matches!(it, '\'' | '"' | '′' | '″' | '’' | '”');
    let unit = other.trim_start_matches(number);
    let bare = one.chars().all(number);
    let one = if bare { format!("{one} {unit}") } else { one.to_owned() };
    let read = |side: &str| <Length as Quantity>::read(side).ok();
    let other = other.to_owned();
    Some(if read(&one) < read(&other) { [other, one] } else { [one, other] })
}

impl FromGiven for BedAsked {
    const CONTROL: Control = Described::CONTROL;

    fn from_given(value: Option<&Value>, field: &str, faults: &mut Faults) -> Self {
        match value {
            Some(Value::Object(raw)) => {
                let mut shape = sides_apart(raw.clone());
                let described = Value::Object(shape.clone());
                shape.remove("name");
                Self::Described(
                    Box::new(FromGiven::from_given(Some(&described), field, faults)),
                    shape,
                )
            }
            _ => Self::Named(FromGiven::from_given(value, field, faults)),
        }
    }
}

words! {
    /// A side of a bed, as one stands at the near long side.
    pub enum Side {
        /// The long side one stands at.
        Near = "near",
        /// The long side across.
        Far = "far",
        /// The end at the left hand.
        Left = "left",
        /// The end at the right hand.
        Right = "right",
    }
}

/// A bed that was asked about, read.
#[derive(Clone, Debug)]
pub struct Meant {
    /// Its id in the record, if it is there.
    pub id: Option<String>,
    /// What it is called, if it has a name.
    pub name: Option<String>,
    /// Its shape.
    pub bed: Bed,
    /// Its shape as described, for the record; none where the record has it.
    pub shape: Option<Map<String, Value>>,
    /// Whether it drains after rain, if known.
    pub drains: Option<bool>,
    /// Whether it is in sun in spring, if known.
    pub spring_sun: Option<bool>,
    /// What stood in it in earlier years.
    pub history: Vec<Past>,
}

/// What stood in a bed in an earlier year.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Past {
    /// The crop or the family, as given.
    pub what: String,
    /// The year.
    pub year: u32,
}

impl Described {
    /// Reads a described bed.
    pub fn read(&self, system: System, faults: &mut Faults) -> Option<Meant> {
        let length = micrometres(&self.length, Need::Yes, faults);
        let width = micrometres(&self.width, Need::Yes, faults);
        let drip = self.drip.as_ref().map(|drip| drip.read(faults));
        let edge_margin = micrometres(&self.edge_margin, Need::No, faults);
        let sides: Vec<Side> = self.reach.iter().filter_map(|side| side.read(faults)).collect();
        let faces = self.faces.read(faults);
        let drains = self.drains.read(faults);
        let spring_sun = self.spring_sun.read(faults);
        let name = self.name.read(faults).map(|Text(name)| name);
        let history = self.history.iter().filter_map(|past| past.read(faults)).collect();
        // Lines that can't be read don't keep the sides from being checked.
        let drip_read = !matches!(drip, Some(None));
        let measures = Measures {
            length: length?,
            width: width?,
            drip: drip.flatten(),
            edge_margin,
            reach: reach(&sides),
            faces,
        };
        match Bed::new(&measures) {
            Ok(bed) => drip_read.then_some(Meant {
                id: None,
                name,
                bed,
                shape: None,
                drains,
                spring_sun,
                history,
            }),
            Err(wrong) => {
                for fault in wrong {
                    let (field, given) = self.given_at(&fault.part.path());
                    let allowed = fault.allowed(&|length| length.to_length().show(system));
                    faults.add(&field, &given, allowed, fault.why());
                }
                None
            }
        }
    }

    /// The full path of a measure of this bed, and what was given there.
    fn given_at(&self, part: &str) -> (String, String) {
        let mut all: Vec<&Given<Length>> = vec![&self.length, &self.width, &self.edge_margin];
        if let Some(drip) = &self.drip {
            all.extend([
                &drip.line_spacing,
                &drip.first_line,
                &drip.emitter_spacing,
                &drip.first_emitter,
            ]);
            if let LinesAsked::Each(lines) = &drip.lines {
                all.extend(lines.iter().flat_map(|line| [&line.across, &line.first_emitter]));
            }
        }
        let length = self.length.field();
        let base = length.rfind('.').and_then(|dot| length.get(..=dot)).unwrap_or_default();
        let field = format!("{base}{part}");
        // Its unit may stand at the end of the name it was given under: `length_m`.
        let is_it = |name: &str| {
            name.strip_prefix(&field).is_some_and(|unit| unit.is_empty() || unit.starts_with('_'))
        };
        match all.iter().find(|given| is_it(given.field())) {
            Some(given) => (given.field().to_owned(), given.text().unwrap_or_default().to_owned()),
            None => (field, String::new()),
        }
    }
}

impl DripAsked {
    fn read(&self, faults: &mut Faults) -> Option<DripMeasures> {
        let lines = match &self.lines {
            LinesAsked::Count(count) => {
                count.need(faults).map(|count| LinesMeasured::Count(count.get()))
            }
            LinesAsked::Each(lines) => {
                let read: Vec<_> = lines.iter().map(|line| line.read(faults)).collect();
                read.into_iter().collect::<Option<_>>().map(LinesMeasured::Each)
            }
        };
        let line_spacing = micrometres(&self.line_spacing, Need::No, faults);
        let first_line = micrometres(&self.first_line, Need::No, faults);
        let emitter_spacing = micrometres(&self.emitter_spacing, Need::Yes, faults);
        let first_emitter = micrometres(&self.first_emitter, Need::No, faults);
        let flow = self.flow.read(faults);
        Some(DripMeasures {
            lines: lines?,
            line_spacing,
            first_line,
            emitter_spacing: emitter_spacing?,
            first_emitter,
            flow,
        })
    }
}

impl LineAsked {
    fn read(&self, faults: &mut Faults) -> Option<LineMeasures> {
        let across = micrometres(&self.across, Need::Yes, faults);
        let first_emitter = micrometres(&self.first_emitter, Need::No, faults);
        Some(LineMeasures { across: across?, first_emitter })
    }
}

impl PastAsked {
    fn read(&self, faults: &mut Faults) -> Option<Past> {
        let family = self.family.read(faults).map(|Text(family)| family);
        let what =
            if family.is_some() { family } else { self.crop.need(faults).map(|Text(crop)| crop) };
        let year = self.year.need(faults);
        Some(Past { what: what?, year: year? })
    }
}

/// Whether a field must be given.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Need {
    Yes,
    No,
}

/// A length in whole micrometres.
pub(crate) fn micrometres(
    given: &Given<Length>,
    need: Need,
    faults: &mut Faults,
) -> Option<Micrometres> {
    let length = if need == Need::Yes { given.need(faults) } else { given.read(faults) }?;
    let whole = Micrometres::from_length(length);
    if whole.is_none() {
        given.refuse(faults, Length::allowed(), "that is longer than any garden");
    }
    whole
}

fn reach(sides: &[Side]) -> Reach {
    if sides.is_empty() {
        return Reach::default();
    }
    Reach {
        near: sides.contains(&Side::Near),
        far: sides.contains(&Side::Far),
        left: sides.contains(&Side::Left),
        right: sides.contains(&Side::Right),
    }
}

impl Readable for Bearing {
    fn allowed() -> String {
        "a compass point such as NW or south-east, or 0 to 360 degrees".to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        const POINTS: [(&str, &str); 8] = [
            ("n", "north"),
            ("ne", "northeast"),
            ("e", "east"),
            ("se", "southeast"),
            ("s", "south"),
            ("sw", "southwest"),
            ("w", "west"),
            ("nw", "northwest"),
        ];
        let folded = text.to_ascii_lowercase().replace([' ', '-'], "");
        let point =
            (0u16..).zip(POINTS).find(|(_, (short, long))| folded == *short || folded == *long);
        let degrees = match point {
            Some((eighth, _)) => Some(eighth * 45),
            None => {
                let number = folded.strip_suffix("degrees").unwrap_or(&folded);
                number.trim_end_matches('°').parse().ok()
            }
        };
        degrees.and_then(Self::new).ok_or_else(|| Unreadable {
            allowed: Self::allowed(),
            why: "no direction can be read from it".to_owned(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn apart(bed: Value) -> Value {
        Value::Object(sides_apart(bed.as_object().cloned().unwrap()))
    }

    #[test]
    fn both_sides_in_the_length_are_told_apart() {
        for (length, sides) in [
            ("8x4 ft", ["8 ft", "4 ft"]),
            ("8 by 4 ft", ["8 ft", "4 ft"]),
            ("4 X 8 ft", ["8 ft", "4 ft"]),
            ("8' x 4'", ["8'", "4'"]),
            ("2.4 m × 120 cm", ["2.4 m", "120 cm"]),
            ("4 ft 6 in by 8 ft", ["8 ft", "4 ft 6 in"]),
        ] {
            let [long, wide] = sides;
            let bed = json!({"length": long, "width": wide});
            assert_eq!(apart(json!({"length": length})), bed, "{length}");
            assert_eq!(apart(json!({"length": length, "width": ""})), bed, "{length}");
        }
    }

    #[test]
    fn one_side_and_a_width_are_left_as_they_are() {
        for bed in [
            json!({"length": "8 ft"}),
            json!({"length": "8 x 4 ft", "width": "3 ft"}),
            json!({"length": "8 x 4 ft", "width_m": 1.0}),
            json!({"length": "six feet"}),
            json!({"length": 8}),
            json!({}),
        ] {
            assert_eq!(apart(bed.clone()), bed);
        }
    }
}
