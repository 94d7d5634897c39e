//! The fields of an entry, taken from a JSON object and put into one.

use super::{
    details::{About, Material, Object},
    id::{Ulid, read_id},
    sites::Sites,
};
use crate::{
    quantity::{
        System,
        number::{read_count, read_number},
    },
    time::iso::{read_date, read_when, show_date, show_when},
};
use chrono::{NaiveDate, NaiveDateTime};
use serde_json::{Number, Value};

/// An object being taken apart, and the first field that does not fit.
pub(super) struct Fields {
    object: Object,
    misfit: Option<Misfit>,
}

/// A field and why it does not fit.
pub(super) type Misfit = (&'static str, &'static str);

/// A struct of fields.
pub(super) trait Detail: Sized {
    /// Takes each field out of an object. What does not fit is noted there.
    fn take(from: &mut Fields) -> Self;
    /// Puts each field that is given into an object.
    fn put(&self, into: &mut Object);

    /// Reads the whole of an object. Fields that are not known here are passed over.
    fn read(object: Object) -> Result<Self, Misfit> {
        let mut fields = Fields { object, misfit: None };
        let detail = Self::take(&mut fields);
        fields.misfit.map_or(Ok(detail), Err)
    }

    /// The object that holds the fields given.
    fn object(&self) -> Object {
        let mut object = Object::new();
        self.put(&mut object);
        object
    }
}

/// One field of a struct.
pub(super) trait Field {
    fn take(from: &mut Fields, name: &'static str) -> Self;
    fn put(&self, into: &mut Object, name: &str);
}

/// What stands in a field when it is given.
pub(super) trait Given: Sized {
    /// Says of a value that cannot be read what it is not.
    const NOT: &'static str;
    fn from_value(value: Value) -> Option<Self>;
    fn to_value(&self) -> Value;
}

impl Fields {
    /// The value of a field, null being none.
    fn take(&mut self, name: &str) -> Option<Value> {
        self.object.remove(name).filter(|value| !value.is_null())
    }

    /// Every field that is left, null among them.
    pub(super) fn take_all(&mut self) -> Object {
        core::mem::take(&mut self.object)
    }

    fn misfit(&mut self, name: &'static str, why: &'static str) {
        self.misfit = self.misfit.or(Some((name, why)));
    }
}

impl<T: Given> Field for Option<T> {
    fn take(from: &mut Fields, name: &'static str) -> Self {
        let given = T::from_value(from.take(name)?);
        if given.is_none() {
            from.misfit(name, T::NOT);
        }
        given
    }

    fn put(&self, into: &mut Object, name: &str) {
        if let Some(given) = self {
            into.insert(name.to_owned(), given.to_value());
        }
    }
}

/// Fields that must be given.
macro_rules! needed {
    ($($type:ty),+) => {$(
        impl Field for $type {
            fn take(from: &mut Fields, name: &'static str) -> Self {
                <Option<$type> as Field>::take(from, name).unwrap_or_else(|| {
                    from.misfit(name, "is needed");
                    Self::default()
                })
            }

            fn put(&self, into: &mut Object, name: &str) {
                into.insert(name.to_owned(), self.to_value());
            }
        }
    )+};
}

needed!(String, Ulid);

/// A mark, absent when it is not set.
impl Field for bool {
    fn take(from: &mut Fields, name: &'static str) -> Self {
        match from.take(name) {
            None => false,
            Some(Value::Bool(set)) => set,
            Some(_) => {
                from.misfit(name, "is neither true nor false");
                false
            }
        }
    }

    fn put(&self, into: &mut Object, name: &str) {
        if *self {
            into.insert(name.to_owned(), Value::Bool(true));
        }
    }
}

/// A list, absent when it is empty.
impl<T: Given> Field for Vec<T> {
    fn take(from: &mut Fields, name: &'static str) -> Self {
        let items = match from.take(name) {
            None => Vec::new(),
            Some(Value::Array(items)) => items,
            Some(_) => {
                from.misfit(name, "is not a list");
                Vec::new()
            }
        };
        let mut list = Vec::new();
        for item in items {
            match T::from_value(item) {
                Some(item) => list.push(item),
                None => from.misfit(name, T::NOT),
            }
        }
        list
    }

    fn put(&self, into: &mut Object, name: &str) {
        if !self.is_empty() {
            into.insert(name.to_owned(), self.iter().map(T::to_value).collect());
        }
    }
}

fn text(value: &Value) -> Option<&str> {
    value.as_str()
}

impl Given for String {
    const NOT: &'static str = "is not text";

    fn from_value(value: Value) -> Option<Self> {
        match value {
            Value::String(text) => Some(text),
            _ => None,
        }
    }

    fn to_value(&self) -> Value {
        Value::String(self.clone())
    }
}

/// A float as the count it stands for, up to where every whole number has a float of its own.
fn whole_number(number: f64) -> Option<u64> {
    const MOST: f64 = (1_u64 << f64::MANTISSA_DIGITS) as f64;
    (number.fract() == 0.0 && (0.0..=MOST).contains(&number)).then_some(number as u64)
}

impl Given for u64 {
    const NOT: &'static str = "is not a whole number";

    fn from_value(value: Value) -> Option<Self> {
        match value {
            // As a form writes it, and as the door takes it.
            Value::String(text) => read_count(text.trim()).ok().map(Self::from),
            // Many programs write a count as 60.0.
            other => other.as_u64().or_else(|| whole_number(other.as_f64()?)),
        }
    }

    fn to_value(&self) -> Value {
        Value::Number((*self).into())
    }
}

/// Whole numbers of less room.
macro_rules! whole {
    ($($type:ty),+) => {$(
        impl Given for $type {
            const NOT: &'static str = u64::NOT;

            fn from_value(value: Value) -> Option<Self> {
                u64::from_value(value)?.try_into().ok()
            }

            fn to_value(&self) -> Value {
                u64::from(*self).to_value()
            }
        }
    )+};
}

whole!(u8, u16, u32);

impl Given for f64 {
    const NOT: &'static str = "is not a number";

    fn from_value(value: Value) -> Option<Self> {
        match value {
            Value::String(text) => read_number(text.trim()).ok(),
            other => other.as_f64(),
        }
    }

    fn to_value(&self) -> Value {
        Number::from_f64(*self).map_or(Value::Null, Value::Number)
    }
}

impl Given for Object {
    const NOT: &'static str = "has no fields";

    fn from_value(value: Value) -> Option<Self> {
        match value {
            Value::Object(fields) => Some(fields),
            _ => None,
        }
    }

    fn to_value(&self) -> Value {
        Value::Object(self.clone())
    }
}

/// Structs inside others.
macro_rules! inner {
    ($($type:ty),+) => {$(
        impl Given for $type {
            const NOT: &'static str = "has fields that do not fit";

            fn from_value(value: Value) -> Option<Self> {
                Detail::read(Object::from_value(value)?).ok()
            }

            fn to_value(&self) -> Value {
                Value::Object(self.object())
            }
        }
    )+};
}

inner!(About, Material);

impl Given for Ulid {
    const NOT: &'static str = "is not the id of an entry";

    fn from_value(value: Value) -> Option<Self> {
        read_id(text(&value)?)
    }

    fn to_value(&self) -> Value {
        Value::String(self.to_string())
    }
}

impl Given for NaiveDateTime {
    const NOT: &'static str = "is not a date and time";

    fn from_value(value: Value) -> Option<Self> {
        read_when(text(&value)?)
    }

    fn to_value(&self) -> Value {
        Value::String(show_when(*self))
    }
}

impl Given for NaiveDate {
    const NOT: &'static str = "is not a date";

    fn from_value(value: Value) -> Option<Self> {
        read_date(text(&value)?)
    }

    fn to_value(&self) -> Value {
        Value::String(show_date(*self))
    }
}

impl Given for Sites {
    const NOT: &'static str = "is not written as rows and places";

    fn from_value(value: Value) -> Option<Self> {
        text(&value)?.parse().ok()
    }

    fn to_value(&self) -> Value {
        Value::String(self.to_string())
    }
}

impl Given for System {
    const NOT: &'static str = "is neither us nor metric";

    fn from_value(value: Value) -> Option<Self> {
        match text(&value)? {
            "us" => Some(Self::Us),
            "metric" => Some(Self::Metric),
            _ => None,
        }
    }

    fn to_value(&self) -> Value {
        let name = match self {
            Self::Us => "us",
            Self::Metric => "metric",
        };
        Value::String(name.to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::details::{HardeningDone, StartLost};

    #[test]
    fn systems_of_units_have_the_names_of_the_door() {
        for system in [System::Us, System::Metric] {
            assert_eq!(system.to_value(), serde_json::to_value(system).unwrap());
            assert_eq!(System::from_value(system.to_value()), Some(system));
        }
    }

    #[test]
    fn a_number_may_stand_there_as_text() {
        let read = |what: &str| StartLost::read(serde_json::from_str(what).unwrap());
        for count in ["60", "60.0", "6e1", r#""60""#, r#"" 60 ""#, r#""60.0""#] {
            let lost = read(&format!(r#"{{"count":{count}}}"#)).unwrap();
            assert_eq!(lost.count, Some(60), "{count}");
        }
        for count in [
            "-1",
            "-1.0",
            r#""-1""#,
            r#""some""#,
            r#""6 cells""#,
            r#""""#,
            "[60]",
            "60.5",
            r#""60.5""#,
            "1e300",
        ] {
            let misfit = read(&format!(r#"{{"count":{count}}}"#)).unwrap_err();
            assert_eq!(misfit, ("count", "is not a whole number"), "{count}");
        }
        let hours = |what: &str| HardeningDone::read(serde_json::from_str(what).unwrap());
        assert_eq!(hours(r#"{"hours":"2 1/2"}"#).unwrap().hours, Some(2.5));
        assert_eq!(hours(r#"{"hours":2.5}"#).unwrap().hours, Some(2.5));
        assert_eq!(hours(r#"{"hours":"long"}"#), Err(("hours", "is not a number")));
    }

    #[test]
    fn null_is_as_good_as_absent() {
        let object = serde_json::from_str(r#"{"residue":"rye","amount":null}"#).unwrap();
        let material: Material = Detail::read(object).unwrap();
        assert_eq!(material, Material { residue: "rye".to_owned(), ..Material::default() });
    }

    #[test]
    fn the_first_field_that_does_not_fit_is_named() {
        let read = |text: &str| Material::read(serde_json::from_str(text).unwrap()).unwrap_err();
        assert_eq!(read("{}"), ("residue", "is needed"));
        assert_eq!(read(r#"{"residue":7,"state":8}"#), ("residue", "is not text"));
        assert_eq!(read(r#"{"residue":"rye","state":8}"#), ("state", "is not text"));
    }
}
