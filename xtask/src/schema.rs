//! The JSON Schema of the door.

use std::fs;

use crate::command;

/// Where the schema is kept, below the project.
const FILE: &str = "docs/door.schema.json";

/// Writes the schema; a test fails when the file is stale.
pub(crate) fn run() -> Result<(), String> {
    let path = command::project().join(FILE);
    let text = serde_json::to_string_pretty(&pegline_core::ask::schema())
        .map_err(|error| error.to_string())?;
    fs::write(&path, text + "\n").map_err(|error| format!("{FILE} can't be written: {error}."))?;
    println!("{FILE} is written.");
    Ok(())
}
