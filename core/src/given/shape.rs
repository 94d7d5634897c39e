//! Taking a question's JSON apart into fields, without reading any of them yet.

use std::{borrow::Cow, marker::PhantomData};

use serde_json::{Map, Value};

use super::{Control, Faults, Given, LONGEST, Readable};

/// The longest list taken; a garden's trays and beds stay far below.
const LONGEST_LIST: usize = 500;

/// Units that may stand at the end of a field's name, the value then being a bare SI number.
pub(crate) const UNIT_SUFFIXES: [(&str, &str); 12] = [
    ("_l_per_h", "l/h"),
    ("_m2", "m2"),
    ("_m3", "m3"),
    ("_mm", "mm"),
    ("_min", "min"),
    ("_kg", "kg"),
    ("_m", "m"),
    ("_c", "C"),
    ("_g", "g"),
    ("_l", "l"),
    ("_h", "h"),
    ("_ms", "m/s"),
];

/// A part of a question that can be taken out of JSON; what does not fit becomes a fault.
pub trait FromGiven: Sized {
    /// What it is typed with in a form.
    const CONTROL: Control = Control::Text;

    /// Takes the part at `field` out of `value`, which is `None` where nothing was given.
    fn from_given(value: Option<&Value>, field: &str, faults: &mut Faults) -> Self;
}

impl<T: Readable> FromGiven for Given<T> {
    const CONTROL: Control = T::CONTROL;

    fn from_given(value: Option<&Value>, field: &str, faults: &mut Faults) -> Self {
        Self { field: field.to_owned(), text: text(value, field, faults), reads_as: PhantomData }
    }
}

/// The text of one value, whatever it is to be read as. Once for all, since a phone fetches what is
/// compiled anew for each; as are the two below.
fn text(value: Option<&Value>, field: &str, faults: &mut Faults) -> Option<String> {
    let text = match value? {
        Value::Null => return None,
        Value::String(text) => text.trim().to_owned(),
        Value::Bool(yes) => if *yes { "true" } else { "false" }.to_owned(),
        Value::Number(number) => number.to_string(),
        Value::Array(_) | Value::Object(_) => {
            faults.add(field, "a list or a group", "one value", "one value is asked for here");
            return None;
        }
    };
    if text.chars().count() > LONGEST {
        faults.add(field, &text, format!("at most {LONGEST} characters"), "that is too long");
        return None;
    }
    (!text.is_empty()).then_some(text)
}

/// The items of a list.
fn items<'a>(value: Option<&'a Value>, field: &str, faults: &mut Faults) -> &'a [Value] {
    match value {
        None | Some(Value::Null) => {}
        Some(Value::Array(items)) if items.len() <= LONGEST_LIST => return items,
        Some(Value::Array(items)) => {
            let given = format!("{} in the list", items.len());
            faults.add(field, &given, format!("at most {LONGEST_LIST}"), "the list is too long");
        }
        Some(_) => faults.add(field, "one value", "a list", "a list is asked for here"),
    }
    &[]
}

impl<T: FromGiven> FromGiven for Option<T> {
    const CONTROL: Control = T::CONTROL;

    fn from_given(value: Option<&Value>, field: &str, faults: &mut Faults) -> Self {
        match value {
            None | Some(Value::Null) => None,
            given => Some(T::from_given(given, field, faults)),
        }
    }
}

impl<T: FromGiven> FromGiven for Vec<T> {
    const CONTROL: Control = T::CONTROL;

    fn from_given(value: Option<&Value>, field: &str, faults: &mut Faults) -> Self {
        let mut list = Self::new();
        for (index, item) in items(value, field, faults).iter().enumerate() {
            list.push(T::from_given(Some(item), &place(field, index), faults));
        }
        list
    }
}

/// The place of an item in a list.
fn place(field: &str, index: usize) -> String {
    format!("{field}.{index}")
}

/// A JSON object whose fields are being taken out by name.
pub(crate) struct Object<'a> {
    map: Option<&'a Map<String, Value>>,
    field: &'a str,
}

impl<'a> Object<'a> {
    /// Opens the object at `field`; a fault for each field that is not among `known`.
    pub(crate) fn open(
        value: Option<&'a Value>,
        field: &'a str,
        known: &[&str],
        faults: &mut Faults,
    ) -> Self {
        let map = match value {
            None | Some(Value::Null) => None,
            Some(Value::Object(map)) => Some(map),
            Some(_) => {
                faults.add(
                    field,
                    "one value",
                    known.join(", "),
                    "a group of fields is asked for here",
                );
                None
            }
        };
        for name in map.into_iter().flat_map(Map::keys) {
            let stem = with_unit(name).map(|(stem, _)| stem);
            if !known.contains(&name.as_str()) && !stem.is_some_and(|stem| known.contains(&stem)) {
                faults.add(&join(field, name), "", known.join(", "), "there is no such field");
            }
        }
        Self { map, field }
    }

    /// Takes one field out.
    pub(crate) fn take<T: FromGiven>(&self, name: &str, faults: &mut Faults) -> T {
        let (value, field) = self.find(name);
        T::from_given(value.as_deref(), &field, faults)
    }

    /// The value of a field, and its place.
    fn find(&self, name: &str) -> (Option<Cow<'a, Value>>, String) {
        let value = self.map.and_then(|map| map.get(name)).map(Cow::Borrowed);
        let si = || self.map.and_then(|map| si_number(map, name));
        match value.is_none().then(si).flatten() {
            Some((value, field)) => (Some(Cow::Owned(value)), join(self.field, &field)),
            None => (value, join(self.field, name)),
        }
    }
}

/// The stem and the unit of a name such as `length_m`.
fn with_unit(name: &str) -> Option<(&str, &'static str)> {
    UNIT_SUFFIXES
        .iter()
        .find_map(|(suffix, unit)| name.strip_suffix(suffix).map(|stem| (stem, *unit)))
}

/// The field `name` given as a bare SI number, or a list of them, with the unit at the end of its name.
fn si_number(map: &Map<String, Value>, name: &str) -> Option<(Value, String)> {
    map.iter().find_map(|(key, value)| {
        let (stem, unit) = with_unit(key)?;
        (stem == name).then_some(())?;
        let value = match value {
            Value::Array(items) => items.iter().map(|item| unit_added(item, unit)).collect(),
            value => unit_added(value, unit),
        };
        (!value.is_null()).then(|| (value, key.clone()))
    })
}

/// A number's text with its unit; null where there is none.
fn unit_added(value: &Value, unit: &str) -> Value {
    let text = match value {
        Value::Number(number) => number.to_string(),
        Value::String(text) => text.trim().to_owned(),
        _ => String::new(),
    };
    if text.is_empty() { Value::Null } else { Value::String(format!("{text} {unit}")) }
}

fn join(field: &str, name: &str) -> String {
    if field.is_empty() { name.to_owned() } else { format!("{field}.{name}") }
}

/// A field's name without the `r#` before one that is a word of Rust's own.
pub(crate) const fn plain(name: &'static str) -> &'static str {
    match name.as_bytes().split_at_checked(2) {
        Some((b"r#", plain)) => match str::from_utf8(plain) {
            Ok(plain) => plain,
            Err(_) => name,
        },
        _ => name,
    }
}

/// Declares a group of a question's fields: a struct of [`Given`] leaves, lists and further groups.
///
/// A field that forms show has its label behind it, and where its type does not say what it is typed
/// with, the values offered or a control: `drains: Given<bool> = "After rain" ["yes" => "it drains"]`,
/// `length: Given<Length> = "Length" as Control::FEET`.
macro_rules! asked {
    (@control $of:ty) => { <$of as $crate::given::FromGiven>::CONTROL };
    (@control $of:ty, [$($word:literal => $said:literal),*]) => {
        $crate::given::Control::Choice(&[$(($word, $said)),*])
    };
    (@control $of:ty, $control:expr) => { $control };
    ($(#[$meta:meta])* $vis:vis struct $name:ident {
        $($(#[$doc:meta])* $field:ident : $of:ty $(
            = $label:literal $([$($word:literal => $said:literal),* $(,)?])? $(as $control:expr)?
        )?),* $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Clone, Debug, Default)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[cfg_attr(feature = "schema", schemars(deny_unknown_fields))]
        $vis struct $name { $($(#[$doc])* pub $field: $of),* }

        impl $crate::given::FromGiven for $name {
            const CONTROL: $crate::given::Control = $crate::given::Control::Group(&[$($(
                $crate::given::Row {
                    name: $crate::given::plain(stringify!($field)),
                    label: $label,
                    control: $crate::given::asked!(@control $of $(, [$($word => $said),*])? $(, $control)?),
                },
            )?)*]);

            fn from_given(
                value: Option<&serde_json::Value>,
                field: &str,
                faults: &mut $crate::given::Faults,
            ) -> Self {
                const KNOWN: &[&str] = &[$($crate::given::plain(stringify!($field))),*];
                let object = $crate::given::Object::open(value, field, KNOWN, faults);
                // A question may have no fields of its own.
                let _ = &object;
                Self {
                    $($field: object.take(const { $crate::given::plain(stringify!($field)) }, faults)),*
                }
            }
        }
    };
}

pub(crate) use asked;

#[cfg(feature = "schema")]
impl<T: Readable> schemars::JsonSchema for Given<T> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Given".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let words = T::words();
        if words.is_empty() {
            schemars::json_schema!({ "type": ["string", "number", "boolean", "null"], "description": T::allowed() })
        } else {
            schemars::json_schema!({ "enum": words })
        }
    }
}
