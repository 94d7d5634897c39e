//! The parts of a JSON text, each byte for byte as it is written.
//!
//! serde_json reads every value; only the brackets, colons and commas around them are read here.
//! Its own readers of typed fields weigh 30 kB on the phone, most of it words about wrong types.

use serde::de::IgnoredAny;
use serde_json::{Deserializer, Error, Value};

/// A JSON text being read from front to back.
pub(super) struct RawJson<'a> {
    text: &'a str,
    /// How far it has been read, in bytes.
    at: usize,
}

/// Where a text is no JSON, or not the JSON that was looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Broken {
    /// The line, from 1.
    pub(super) line: usize,
    /// The column in bytes, from 1.
    pub(super) column: usize,
}

impl<'a> RawJson<'a> {
    /// From the beginning.
    pub(super) fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    /// The next value, whatever it is, as it is written.
    pub(super) fn value(&mut self) -> Result<&'a str, Broken> {
        self.skip_white_space();
        let rest = self.text.get(self.at..).unwrap_or_default();
        let mut values = Deserializer::from_str(rest).into_iter::<IgnoredAny>();
        match values.next() {
            Some(Ok(_)) => {
                let end = values.byte_offset();
                self.at += end;
                Ok(rest.get(..end).unwrap_or_default())
            }
            Some(Err(error)) => Err(self.broken_by(&error)),
            None => Err(self.broken()),
        }
    }

    /// Goes through the fields of an object; `each` must take the value that follows a name.
    pub(super) fn object(
        &mut self,
        each: &mut dyn FnMut(&mut Self, &str) -> Result<(), Broken>,
    ) -> Result<(), Broken> {
        self.parts(*b"{}", &mut |raw| {
            if raw.next() != Some(b'"') {
                return Err(raw.broken());
            }
            let name = serde_json::from_str(raw.value()?);
            let Ok(Value::String(name)) = name else {
                return Err(raw.broken());
            };
            raw.sign(b':')?;
            each(raw, &name)
        })
    }

    /// Goes through the items of a list; `each` must take the value that comes next.
    pub(super) fn list(
        &mut self,
        each: &mut dyn FnMut(&mut Self) -> Result<(), Broken>,
    ) -> Result<(), Broken> {
        self.parts(*b"[]", each)
    }

    /// Only white space may be left.
    pub(super) fn end(&mut self) -> Result<(), Broken> {
        match self.next() {
            None => Ok(()),
            Some(_) => Err(self.broken()),
        }
    }

    /// How far it has been read, in bytes.
    pub(super) fn at(&self) -> usize {
        self.at
    }

    /// What comes next once white space is passed over.
    pub(super) fn begin(&mut self) -> usize {
        self.skip_white_space();
        self.at
    }

    /// Broken here.
    pub(super) fn broken(&self) -> Broken {
        let (line, column) = self.place((self.at + 1).min(self.text.len()));
        Broken { line, column }
    }

    fn parts(
        &mut self,
        [open, close]: [u8; 2],
        each: &mut dyn FnMut(&mut Self) -> Result<(), Broken>,
    ) -> Result<(), Broken> {
        self.sign(open)?;
        if self.next() == Some(close) {
            return self.sign(close);
        }
        loop {
            each(self)?;
            if self.next() != Some(b',') {
                return self.sign(close);
            }
            self.sign(b',')?;
        }
    }

    /// Takes this sign and no other.
    fn sign(&mut self, sign: u8) -> Result<(), Broken> {
        if self.next() != Some(sign) {
            return Err(self.broken());
        }
        self.at += 1;
        Ok(())
    }

    /// The next byte that is no white space.
    fn next(&mut self) -> Option<u8> {
        self.skip_white_space();
        self.text.as_bytes().get(self.at).copied()
    }

    fn skip_white_space(&mut self) {
        while let Some(b' ' | b'\t' | b'\n' | b'\r') = self.text.as_bytes().get(self.at) {
            self.at += 1;
        }
    }

    /// Broken where serde_json says, which counts from here.
    fn broken_by(&self, error: &Error) -> Broken {
        let (line, column) = self.place(self.at);
        Broken {
            line: line + error.line() - 1,
            column: error.column() + if error.line() > 1 { 0 } else { column },
        }
    }

    /// The line of a place, and how many bytes of that line stand before it.
    fn place(&self, at: usize) -> (usize, usize) {
        let before = self.text.as_bytes().get(..at).unwrap_or_default();
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        let column = before.iter().rev().take_while(|byte| **byte != b'\n');
        (line, column.count())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The values of a list of lists and objects, as written.
    fn parts(text: &str) -> Result<Vec<String>, Broken> {
        let mut found = Vec::new();
        let mut raw = RawJson::new(text);
        raw.object(&mut |raw, name| {
            found.push(name.to_owned());
            raw.list(&mut |raw| {
                found.push(raw.value()?.to_owned());
                Ok(())
            })
        })?;
        raw.end()?;
        Ok(found)
    }

    #[test]
    fn values_come_as_they_are_written() {
        let text = r#" {"a" : [ 1e400 , {"x": [1, 2]},"\u00e9]", -0.50 ,null], "\u0062":[ ] } "#;
        assert_eq!(
            parts(text).unwrap(),
            ["a", "1e400", r#"{"x": [1, 2]}"#, r#""\u00e9]""#, "-0.50", "null", "b"]
        );
    }

    #[test]
    fn what_is_no_json_is_broken() {
        for text in [
            "",
            "[]",
            "{",
            r#"{"a"}"#,
            r#"{"a":[1 2]}"#,
            r#"{"a":[1,]}"#,
            r#"{"a":[],}"#,
            r#"{a:[]}"#,
            r#"{"a":[tru]}"#,
            r#"{"a":[]} x"#,
            r#"{"a":["]}"#,
            r#"{1:[]}"#,
            r#"{"\ud800":[]}"#,
            r#"{"a":[01]}"#,
        ] {
            assert!(parts(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn what_is_broken_is_what_the_library_finds_so(
            text in r#"\{"a": ?\[[]0-9,"{} \n]{0,20}\n?"#,
        ) {
            use serde_json::value::RawValue;
            use std::collections::BTreeMap;
            // How many bytes stand before a place.
            let offset = |line: usize, column: usize| {
                text.split('\n').take(line - 1).map(|line| line.len() + 1).sum::<usize>() + column
            };
            let theirs = serde_json::from_str::<BTreeMap<String, Vec<&RawValue>>>(&text);
            match (parts(&text), theirs) {
                (Ok(_), Ok(_)) => {}
                // In a text that breaks off inside quotation marks they point one byte on.
                (Err(ours), Err(theirs)) => prop_assert!(
                    offset(ours.line, ours.column).abs_diff(offset(theirs.line(), theirs.column())) <= 1,
                    "{} {:?} {:?}", text, ours, theirs
                ),
                (ours, theirs) => prop_assert!(false, "{} {:?} {:?}", text, ours, theirs),
            }
        }
    }
}
