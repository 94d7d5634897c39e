//! What the page's own script is to do.

use pegline_core::time::iso;
use serde_json::{Map, Value};

use crate::store::{Line, Witness};

/// Something the page's own script is to do once the markup is shown.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// Go to another screen.
    Go(String),
    /// Ask the browser to keep the storage.
    Persist,
    /// Hand over a text file.
    File {
        /// The file's name.
        name: String,
        /// Its text.
        text: String,
        /// Its media type.
        media: &'static str,
    },
    /// Take the newer version that waits.
    Update,
    /// Print the page.
    Print,
    /// Look which keys IndexedDB has, and what it remembers. Where it has as many as this, the keys need not
    /// be told.
    Look(Option<usize>),
    /// Read the lines under these keys from IndexedDB.
    Fetch(Vec<String>),
    /// Keep lines in IndexedDB, all or none, and remember this beside them.
    Keep {
        /// The lines.
        lines: Vec<Line>,
        /// What is remembered.
        witness: Witness,
    },
}

impl Effect {
    /// As the page's script reads it.
    pub(crate) fn for_page(&self) -> Value {
        match self {
            Self::Go(address) => group([("go", address.as_str().into())]),
            Self::Persist => group([("persist", true.into())]),
            Self::File { name, text, media } => group([
                ("file", name.as_str().into()),
                ("text", text.as_str().into()),
                ("type", (*media).into()),
            ]),
            Self::Update => group([("update", true.into())]),
            Self::Print => group([("print", true.into())]),
            Self::Look(known) => group([("look", true.into()), ("known", (*known).into())]),
            Self::Fetch(keys) => group([("fetch", keys.as_slice().into())]),
            Self::Keep { lines, witness } => {
                let pair = |(key, line): &Line| [key.as_str(), line.as_str()].as_slice().into();
                let lines: Vec<Value> = lines.iter().map(pair).collect();
                let copied = witness.copied.map(|day| iso::show_date(day).into());
                let witness = group([
                    ("entries", witness.entries.into()),
                    ("copied", copied.unwrap_or_default()),
                ]);
                group([("keep", lines.into()), ("witness", witness)])
            }
        }
    }
}

/// A group of named values. Not by `json!`, which brings a second way to write whatever it is given.
pub(crate) fn group<const N: usize>(fields: [(&str, Value); N]) -> Value {
    let mut group = Map::new();
    for (name, value) in fields {
        group.insert(name.to_owned(), value);
    }
    Value::Object(group)
}
