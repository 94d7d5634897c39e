//! One entry: `{"v":1, "id", "when", "kind", "about"?, "what"}`.

use super::{
    details::{About, Corrected, Object},
    fields::{Detail, Misfit},
    id::{Ulid, read_id},
    raw::RawJson,
    what::What,
};
use crate::time::iso::{read_when, show_when};
use chrono::{Datelike, NaiveDateTime};
use serde::{Serialize, Serializer, ser::SerializeStruct};
use serde_json::Value;

/// The version of entries written here.
pub const VERSION: u64 = 1;
/// The longest entry written, in UTF-16 units, which is what a browser's storage counts.
pub const LONGEST: usize = 400;
/// The longest entry taken apart when reading, in bytes. A longer one is kept unread.
const LONGEST_READ: usize = 10 * LONGEST;
/// So many corrections a further one names, the last ones, so that it fits into an entry. More than one
/// stand side by side only where so many phones made them at once.
const MOST_OVER: usize = 4;
/// The years in which an entry may be written, so that a slip on the keypad is caught.
const YEARS: core::ops::RangeInclusive<i32> = 1900..=2199;

impl About {
    /// About a bed.
    #[must_use]
    pub fn bed(id: &str) -> Self {
        Self { bed: Some(id.to_owned()), ..Self::default() }
    }

    /// About a start.
    #[must_use]
    pub fn start(id: Ulid) -> Self {
        Self { start: Some(id.to_string()), ..Self::default() }
    }

    /// About a planting.
    #[must_use]
    pub fn planting(id: Ulid) -> Self {
        Self { planting: Some(id.to_string()), ..Self::default() }
    }

    /// Its parts that are given.
    pub(crate) fn parts(&self) -> Object {
        self.object()
    }
}

/// An entry still without id and date, as in an answer's `next`.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// What it is about.
    pub about: About,
    /// What was done or seen.
    pub what: What,
}

/// An entry of the record.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its name, which also breaks ties between entries of one moment.
    pub id: Ulid,
    /// The local date and time at which it happened.
    pub when: NaiveDateTime,
    /// What it is about.
    pub about: About,
    /// What was done or seen.
    pub what: What,
}

/// Something in a draft that keeps it from being written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Dotted path of the field; empty for the whole.
    pub field: &'static str,
    /// Why, in words for the gardener.
    pub why: String,
}

impl Fault {
    pub(super) fn new(field: &'static str, why: &str) -> Self {
        Self { field, why: why.to_owned() }
    }
}

/// Why a text could not be read as an entry. It is kept all the same.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WhyNot {
    /// It is longer than anything taken apart.
    #[error("it is too long")]
    TooLong,
    /// It is no JSON object with the fields of an entry.
    #[error("it is damaged: {0}")]
    NotAnEntry(String),
    /// Its id is none.
    #[error("its id is not one that can be used")]
    BadId,
    /// A later version of entries.
    #[error("a newer version wrote it")]
    Version(u64),
    /// A kind not known here.
    #[error("a newer version wrote it: \u{201c}{0}\u{201d} is not known here")]
    Kind(String),
    /// Its date is none.
    #[error("its date and time cannot be read")]
    BadWhen,
    /// Its `about` or `what` does not have the fields of its kind, or one no such entry can have.
    #[error("its details cannot be read: {0}")]
    BadDetails(String),
}

/// An entry before it is understood.
struct Raw(Object);

impl Raw {
    fn read(text: &str) -> Result<Self, WhyNot> {
        if text.len() > LONGEST_READ {
            return Err(WhyNot::TooLong);
        }
        match serde_json::from_str(text) {
            Ok(Value::Object(fields)) => Ok(Self(fields)),
            Ok(_) => Err(WhyNot::NotAnEntry("it is no JSON object".to_owned())),
            Err(error) => Err(WhyNot::NotAnEntry(error.to_string())),
        }
    }

    /// The version; 0 when there is none.
    fn version(&self) -> Result<u64, WhyNot> {
        match self.0.get("v").map_or(Some(0), Value::as_u64) {
            Some(version) if version <= VERSION => Ok(version),
            Some(later) => Err(WhyNot::Version(later)),
            None => Err(WhyNot::NotAnEntry("its version is no number".to_owned())),
        }
    }

    fn text(&self, field: &str) -> &str {
        self.0.get(field).and_then(Value::as_str).unwrap_or_default()
    }

    fn draft(mut self) -> Result<Draft, WhyNot> {
        let kind = self.text("kind").to_owned();
        let about = match self.0.remove("about") {
            None | Some(Value::Null) => About::default(),
            Some(Value::Object(fields)) => About::read(fields).map_err(bad_details)?,
            Some(_) => return Err(bad_details(("about", "has no fields"))),
        };
        let Some(Value::Object(fields)) = self.0.remove("what") else {
            return Err(bad_details(("what", "is needed")));
        };
        Draft::of(&kind, about, fields)
    }
}

fn bad_details((field, why): Misfit) -> WhyNot {
    WhyNot::BadDetails(format!("{field} {why}"))
}

impl What {
    /// The `what` of an entry of this kind, if it can be one.
    pub(crate) fn of(kind: &str, fields: Object) -> Result<Self, WhyNot> {
        let Some(read) = Self::read(kind, fields) else {
            return Err(WhyNot::Kind(kind.to_owned()));
        };
        let what = read.map_err(bad_details)?;
        match what.faults().into_iter().next() {
            Some(Fault { field, why }) => Err(WhyNot::BadDetails(format!("{field} {why}"))),
            None => Ok(what),
        }
    }
}

/// Reads one entry. Takes any text; keeps to what is published in the table of kinds.
///
/// # Errors
/// [`WhyNot`] says what kept it from being read. Fields not known here are passed over.
pub fn read_entry(text: &str) -> Result<Entry, WhyNot> {
    let raw = Raw::read(text)?;
    if raw.version()? == 0 {
        return Err(WhyNot::NotAnEntry("it has no version".to_owned()));
    }
    let id = read_id(raw.text("id")).ok_or(WhyNot::BadId)?;
    let when = read_when(raw.text("when"));
    let Draft { about, what } = raw.draft()?;
    Ok(Entry { id, when: when.ok_or(WhyNot::BadWhen)?, about, what })
}

/// The id inside a text, whatever else it holds; nothing when it is no JSON object with one.
///
/// Unlike an entry, it is found at any depth of nesting and beside any number.
pub(super) fn id_inside(text: &str) -> Option<Ulid> {
    let mut raw = RawJson::new(text);
    let mut id = None;
    raw.object(&mut |raw, field| {
        let value = raw.value()?;
        if field == "id" {
            // Twice would leave open which entry it is.
            if id.is_some() {
                return Err(raw.broken());
            }
            id = Some(serde_json::from_str(value).map_err(|_| raw.broken())?);
        }
        Ok(())
    })
    .and_then(|()| raw.end())
    .ok()?;
    match id? {
        Value::String(id) => read_id(&id),
        _ => None,
    }
}

impl Entry {
    /// The entry as one line of JSON, the form in which it is kept.
    #[must_use]
    pub fn text(&self) -> String {
        // OK because every map key is a string.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// A correction that makes this entry read as given, made by someone who saw those corrections of it
    /// (`over`). Whatever is the same stays out.
    ///
    /// Nothing when nothing changes, or when `to` is of another kind: then this entry is better
    /// struck out and the other written.
    #[must_use]
    pub fn corrected_to(&self, when: NaiveDateTime, to: &Draft, over: &[Ulid]) -> Option<Draft> {
        if to.what.kind() != self.what.kind() {
            return None;
        }
        let (was, mut set) = (self.what.object(), to.what.object());
        for name in was.keys() {
            set.entry(name).or_insert(Value::Null);
        }
        set.retain(|name, value| was.get(name) != Some(value));
        let corrected = Corrected {
            target: self.id,
            over: over.iter().rev().take(MOST_OVER).copied().collect(),
            when: (when != self.when).then_some(when),
            about: (to.about != self.about).then(|| to.about.clone()),
            set: Some(set).filter(|set| !set.is_empty()),
            what: None,
        };
        let draft = Draft { about: About::default(), what: What::Corrected(corrected) };
        draft.what.faults().is_empty().then_some(draft)
    }
}

impl Draft {
    /// Reads a draft: an entry without `id` and `when`.
    ///
    /// # Errors
    /// [`WhyNot`] says what kept it from being read.
    pub fn read(text: &str) -> Result<Self, WhyNot> {
        let raw = Raw::read(text)?;
        raw.version()?;
        raw.draft()
    }

    /// The draft of this kind with these fields.
    ///
    /// # Errors
    /// [`WhyNot`] says what kept them from being read.
    pub fn of(kind: &str, about: About, fields: Object) -> Result<Self, WhyNot> {
        let what = What::of(kind, fields)?;
        Ok(Self { about, what })
    }

    /// Everything that keeps this draft from being written; empty when nothing does.
    #[must_use]
    pub fn check(&self) -> Vec<Fault> {
        let mut faults = self.what.faults();
        let About { bed, start, planting } = &self.about;
        let (bed_given, start_given) = (bed.is_some(), start.is_some());
        let needs = match self.what {
            What::Bed(_)
            | What::Planted(_)
            | What::Seeded(_)
            | What::ResidueLaid(_)
            | What::Covered(_)
            | What::Uncovered(_)
            | What::Reserved(_) => (!bed_given).then_some("about.bed"),
            What::StartPrickedOut(_)
            | What::StartMoved(_)
            | What::StartLost(_)
            | What::HardeningDone(_) => (!start_given).then_some("about.start"),
            What::Harvest(_) | What::Cleared(_) => {
                (!bed_given && planting.is_none()).then_some("about.bed")
            }
            What::CheckIn(_) | What::Watered(_) | What::Fed(_) => {
                (!bed_given && !start_given && planting.is_none()).then_some("about.bed")
            }
            _ => None,
        };
        faults.extend(needs.map(|field| Fault::new(field, "is needed")));
        if bed.as_ref().is_some_and(|bed| bed.trim().is_empty()) {
            faults.push(Fault::new("about.bed", "must not be empty"));
        }
        for (field, id) in [("about.start", start), ("about.planting", planting)] {
            if id.as_ref().is_some_and(|id| read_id(id).is_none()) {
                faults.push(Fault::new(field, "is not the id of an entry"));
            }
        }
        // Every id is 26 characters long, and every date without seconds 16.
        let entry = self.clone().with(Ulid::default(), NaiveDateTime::default());
        let length = entry.text().encode_utf16().count();
        if length > LONGEST {
            let why = format!("is too long: {LONGEST} characters can be kept, this makes {length}");
            faults.push(Fault::new("what", &why));
        }
        faults
    }

    /// The entry that this draft becomes. The seconds of `when` are left out.
    ///
    /// # Errors
    /// Everything that keeps it from being written.
    pub fn stamp(self, id: Ulid, when: NaiveDateTime) -> Result<Entry, Vec<Fault>> {
        let mut faults = self.check();
        let when = whole_minutes(when);
        if !YEARS.contains(&when.year()) {
            faults.push(Fault::new("when", "has a year that cannot be right"));
        }
        if faults.is_empty() { Ok(self.with(id, when)) } else { Err(faults) }
    }

    fn with(self, id: Ulid, when: NaiveDateTime) -> Entry {
        Entry { id, when, about: self.about, what: self.what }
    }
}

fn whole_minutes(when: NaiveDateTime) -> NaiveDateTime {
    use chrono::Timelike;
    when.with_second(0).and_then(|when| when.with_nanosecond(0)).unwrap_or(when)
}

impl Serialize for About {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.object().serialize(serializer)
    }
}

impl Serialize for Entry {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut fields = serializer.serialize_struct("Entry", 6)?;
        fields.serialize_field("v", &VERSION)?;
        fields.serialize_field("id", &self.id.to_string())?;
        fields.serialize_field("when", &show_when(self.when))?;
        rest(fields, &self.about, &self.what)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Draft {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Draft".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "object",
            "description": "An entry that can be written into the record: it lacks only its id and when it happened.",
            "properties": {
                "v": { "const": VERSION },
                "kind": { "enum": What::KINDS },
                "about": { "type": "object" },
                "what": { "type": "object" },
            },
            "required": ["v", "kind", "what"],
        })
    }
}

impl Serialize for Draft {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut fields = serializer.serialize_struct("Draft", 4)?;
        fields.serialize_field("v", &VERSION)?;
        rest(fields, &self.about, &self.what)
    }
}

/// The fields that entry and draft share.
fn rest<S: SerializeStruct>(mut fields: S, about: &About, what: &What) -> Result<S::Ok, S::Error> {
    fields.serialize_field("kind", what.kind())?;
    if *about == About::default() {
        fields.skip_field("about")?;
    } else {
        fields.serialize_field("about", about)?;
    }
    fields.serialize_field("what", what)?;
    fields.end()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::samples::{KINDS, any_good_text, entry, entry_text, note};
    use crate::time::iso::read_when;
    use proptest::prelude::*;

    const ID: &str = "01KAXW7Y2Q3V4S5T6R7P8N9M0K";

    fn why(text: &str) -> WhyNot {
        read_entry(text).unwrap_err()
    }

    fn sample(rest: &str) -> String {
        entry_text(7, 510, &rest.replace(['$', '%'], ID))
    }

    fn at(text: &str) -> NaiveDateTime {
        read_when(text).unwrap()
    }

    #[test]
    fn every_kind_is_read_and_written_again_to_the_byte() {
        for rest in KINDS {
            let text = sample(rest);
            let entry = read_entry(&text).unwrap_or_else(|why| panic!("{text}: {why}"));
            assert_eq!(entry.text(), text);
        }
    }

    #[test]
    fn the_samples_leave_out_no_kind() {
        for kind in What::KINDS {
            let named = format!(r#""kind":"{kind}","#);
            assert!(KINDS.iter().any(|rest| rest.starts_with(&named)), "{kind}");
        }
    }

    #[test]
    fn every_kind_fits_its_entry_and_has_what_it_needs() {
        for rest in KINDS {
            let Entry { about, what, .. } = read_entry(&sample(rest)).unwrap();
            assert_eq!(Draft { about, what }.check(), []);
        }
    }

    #[test]
    fn a_draft_is_an_entry_without_id_and_date() {
        for rest in KINDS {
            let text = format!(r#"{{"v":1,{}}}"#, rest.replace(['$', '%'], ID));
            let draft = Draft::read(&text).unwrap();
            assert_eq!(serde_json::to_string(&draft).unwrap(), text);
            let entry = draft.stamp(Ulid(7), at("2026-03-01T08:30:59")).unwrap();
            assert_eq!(entry.text(), sample(rest));
        }
    }

    #[test]
    fn a_draft_of_a_newer_version_is_not_read() {
        assert_eq!(
            Draft::read(r#"{"v":2,"kind":"note","what":{"text":"x"}}"#),
            Err(WhyNot::Version(2))
        );
    }

    #[test]
    fn a_bed_of_140_garlic_without_drip_fits_one_entry() {
        let what = What::Planted(super::super::details::Planted {
            crop: "garlic".to_owned(),
            variety: Some("a hardneck with a purple stripe, from the market".to_owned()),
            count: Some(140),
            spacing: Some("6 in".to_owned()),
            at: Some("76.2-1143x9:76.2-2362.2x16/152.4-2286x15".parse().unwrap()),
        });
        let about =
            About { bed: Some("the-long-bed-by-the-fence".to_owned()), ..About::start(Ulid(1)) };
        let entry = Draft { about, what }.stamp(Ulid(2), at("2026-10-20T15:00")).unwrap();
        assert!(entry.text().len() <= LONGEST, "{}", entry.text().len());
    }

    #[test]
    fn what_a_newer_version_wrote_is_said_to_be_newer() {
        let good = sample(KINDS[0]);
        assert_eq!(why(&good.replace("\"v\":1", "\"v\":2")), WhyNot::Version(2));
        assert_eq!(why(r#"{"v":3,"id":"x","kind":[7]}"#), WhyNot::Version(3));
        assert_eq!(why(&good.replace("\"bed\",", "\"pond\",")), WhyNot::Kind("pond".to_owned()));
    }

    #[test]
    fn what_is_no_entry_says_why() {
        let good = note(7, "hail");
        assert!(read_entry(&good).is_ok());
        for text in ["", "{", "[]", "7", "{}", r#"[1,"a","b","note",null,{}]"#, &good[1..]] {
            assert!(matches!(why(text), WhyNot::NotAnEntry(_)), "{text}");
        }
        assert!(matches!(why(&good.replace("\"v\":1,", "")), WhyNot::NotAnEntry(_)));
        assert_eq!(why(&good.replace("\"id\":\"0", "\"id\":\"9")), WhyNot::BadId);
        assert_eq!(why(&good.replace("T08", " 08")), WhyNot::BadWhen);
        assert!(matches!(
            why(&good.replace("{\"text\":\"hail\"}", "[\"hail\"]")),
            WhyNot::BadDetails(_)
        ));
        assert!(matches!(why(&good.replace("\"text\"", "\"test\"")), WhyNot::BadDetails(_)));
        assert!(matches!(why(&note(7, " ")), WhyNot::BadDetails(_)));
        assert_eq!(why(&note(7, &"x".repeat(LONGEST_READ))), WhyNot::TooLong);
    }

    #[test]
    fn values_that_cannot_be_are_not_read() {
        for rest in [
            r#""kind":"check-in","what":{"left":1.01}"#,
            r#""kind":"check-in","what":{"up":-0.5}"#,
            r#""kind":"check-in","what":{"part":"left half"}"#,
            r#""kind":"hardening-done","what":{"hours":25}"#,
            r#""kind":"reading","what":{"humidity":120}"#,
            r#""kind":"settings","what":{"units":"cubits"}"#,
            r#""kind":"planted","what":{"crop":""}"#,
            r#""kind":"planted","what":{"crop":"kale","count":-3}"#,
            r#""kind":"planted","what":{"crop":"kale","at":"here"}"#,
            r#""kind":"bed","what":{}"#,
            r#""kind":"bed","what":{"bed":"8 ft"}"#,
            r#""kind":"place","what":{}"#,
            r#""kind":"residue-laid","what":{"materials":[]}"#,
            r#""kind":"corrected","what":{"target":"$"}"#,
            r#""kind":"corrected","what":{"target":"$","when":"yesterday"}"#,
            r#""kind":"struck-out","what":{"target":"that one"}"#,
            r#""kind":"reserved","what":{"from":"2026-02-30"}"#,
        ] {
            assert!(read_entry(&sample(rest)).is_err(), "{rest}");
        }
    }

    #[test]
    fn fields_not_known_here_are_passed_over() {
        let text = note(7, "hail").replace("\"text\"", "\"mood\":{\"a\":[1]},\"text\"");
        assert_eq!(read_entry(&text), read_entry(&note(7, "hail")));
    }

    #[test]
    fn a_shape_keeps_every_digit_the_gardener_wrote() {
        let bed = r#""kind":"bed","about":{"bed":"a"},"what":{"bed":{"length":"8,250 ft","width":"4 1/2 ft"}}"#;
        let What::Bed(bed) = entry(7, 0, bed).what else { panic!() };
        assert_eq!(bed.bed.unwrap()["length"], "8,250 ft");
    }

    #[test]
    fn a_draft_lists_all_that_it_lacks() {
        let fields = |text: &str| {
            let draft = Draft::read(text).unwrap();
            draft.check().iter().map(|fault| fault.field).collect::<Vec<_>>()
        };
        assert_eq!(fields(r#"{"kind":"planted","what":{"crop":"kale"}}"#), ["about.bed"]);
        assert_eq!(
            fields(r#"{"kind":"start-lost","about":{"bed":" ","planting":"7"},"what":{}}"#),
            ["about.start", "about.bed", "about.planting"]
        );
        let long = format!(r#"{{"kind":"note","what":{{"text":"{}"}}}}"#, "é".repeat(LONGEST));
        assert_eq!(fields(&long), ["what"]);
    }

    #[test]
    fn four_hundred_characters_are_written_and_one_more_is_not() {
        let bare = note(7, "").len();
        let draft = |length| {
            Draft::read(&format!(r#"{{"kind":"note","what":{{"text":"{}"}}}}"#, "x".repeat(length)))
                .unwrap()
        };
        let when = at("2026-03-01T08:30");
        let longest = draft(LONGEST - bare).stamp(Ulid(7), when).unwrap();
        assert_eq!(longest.text().len(), LONGEST);
        let faults = draft(LONGEST - bare + 1).stamp(Ulid(7), when).unwrap_err();
        assert_eq!(
            faults,
            [Fault::new("what", "is too long: 400 characters can be kept, this makes 401")]
        );
    }

    #[test]
    fn a_year_that_cannot_be_right_is_not_written() {
        let draft = Draft::read(r#"{"kind":"note","what":{"text":"x"}}"#).unwrap();
        for year in [1026, 20_266] {
            let when = NaiveDateTime::default().with_year(year).unwrap();
            assert_eq!(draft.clone().stamp(Ulid(7), when).unwrap_err()[0].field, "when");
        }
    }

    #[test]
    fn a_number_that_is_none_is_not_written() {
        let what = What::CheckIn(super::super::details::CheckIn {
            left: Some(f64::NAN),
            ..Default::default()
        });
        assert_eq!(Draft { about: About::bed("a"), what }.check()[0].field, "what.left");
    }

    #[test]
    fn a_correction_holds_only_what_changes_and_names_what_it_saw() {
        let planted = |what: &str| {
            entry(7, 0, &format!(r#""kind":"planted","about":{{"bed":"a"}},"what":{{{what}}}"#))
        };
        let was = planted(r#""crop":"kale","count":6,"spacing":"18 in""#);
        let mut to = Draft { about: was.about.clone(), what: was.what.clone() };
        let written = |when: NaiveDateTime, to: &Draft, over: &[Ulid]| {
            was.corrected_to(when, to, over).map(|draft| serde_json::to_string(&draft).unwrap())
        };
        assert_eq!(written(was.when, &to, &[]), None);
        let later = at("2026-03-02T08:00");
        let of = |what: &str| {
            let target = Ulid(7);
            format!(
                r#"{{"v":1,"kind":"corrected","what":{{{}}}}}"#,
                what.replace('$', &target.to_string())
            )
        };
        assert_eq!(written(later, &to, &[]), Some(of(r#""target":"$","when":"2026-03-02T08:00""#)));
        to.what = planted(r#""crop":"kale","count":5"#).what;
        let over =
            format!(r#""over":["{}"],"set":{{"count":5,"spacing":null}},"target":"$""#, Ulid(8));
        assert_eq!(written(was.when, &to, &[Ulid(8)]), Some(of(&over)));
        to.what = entry(8, 0, r#""kind":"note","what":{"text":"x"}"#).what;
        assert_eq!(written(later, &to, &[]), None);
    }

    #[test]
    fn a_correction_leaves_alone_what_only_a_newer_version_knows() {
        let newer = note(7, "hail").replace("\"text\"", "\"mood\":\"glum\",\"text\"");
        let was = read_entry(&newer).unwrap();
        let snow =
            Draft { about: About::default(), what: read_entry(&note(7, "snow")).unwrap().what };
        let correction = was.corrected_to(was.when, &snow, &[]).unwrap();
        let text = serde_json::to_string(&correction).unwrap();
        assert!(text.contains(r#""set":{"text":"snow"}"#) && !text.contains("mood"), "{text}");
    }

    proptest! {
        #[test]
        fn an_entry_written_is_read_back(text in any_good_text()) {
            let entry = read_entry(&text).unwrap();
            prop_assert_eq!(entry.text(), text);
        }

        #[test]
        fn no_text_upsets_the_reader(text in any_good_text(), at: prop::sample::Index, with in ".{0,6}") {
            let at = at.index(text.len());
            let broken = format!("{}{with}{}", &text[..at], &text[(at + 1)..]);
            let _ = read_entry(&broken);
            let _ = Draft::read(&broken);
            let _ = read_entry(&with);
        }
    }
}
