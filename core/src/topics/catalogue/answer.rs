//! The typed numbers of the answer.

use serde::Serialize;
use serde_json::Value;

/// The rows of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answer {
    /// The rows, in order of their ids; signs in order of their crops' sheets.
    pub rows: Vec<Value>,
}
