//! Asks a question at the door, without a browser.

use std::{
    fs,
    io::{self, BufRead, Read, Write},
    path::PathBuf,
    process::ExitCode,
};

use clap::Args;
use pegline_core::{
    ask::{Answer, ask},
    garden::Garden,
    given::Refusal,
    journal::file,
};
use serde_json::Value;

/// Where the questions come from and what garden they are about.
#[derive(Args)]
pub(crate) struct Options {
    /// One question a line in, one answer or refusal a line out, in order.
    #[arg(long)]
    lines: bool,
    /// A record, as it is handed over, that questions may refer to.
    #[arg(long, value_name = "FILE")]
    garden: Option<PathBuf>,
}

/// Answers standard input on standard output; exit code 2 where a single question was refused.
pub(crate) fn run(options: &Options) -> Result<ExitCode, String> {
    let garden = match &options.garden {
        None => Garden::default(),
        Some(path) => {
            let text = fs::read_to_string(path).map_err(|error| {
                format!("The record {} can't be read: {error}.", path.display())
            })?;
            let opened = file::read(&text).map_err(|bad| bad.to_string())?;
            Garden::fold(&opened.journal)
        }
    };
    if options.lines {
        let mut out = io::stdout().lock();
        for line in io::stdin().lock().lines() {
            let line = line.map_err(|error| format!("Standard input can't be read: {error}."))?;
            if line.trim().is_empty() {
                continue;
            }
            let json = match answer(&line, &garden) {
                Ok(answer) => serde_json::to_string(&answer),
                Err(refusal) => serde_json::to_string(&refusal),
            };
            writeln!(out, "{}", json.map_err(|error| error.to_string())?)
                .map_err(|error| format!("The answer can't be printed: {error}."))?;
        }
        return Ok(ExitCode::SUCCESS);
    }
    let mut text = String::new();
    io::stdin()
        .read_to_string(&mut text)
        .map_err(|error| format!("Standard input can't be read: {error}."))?;
    let (json, code) = match answer(&text, &garden) {
        Ok(answer) => (serde_json::to_string_pretty(&answer), ExitCode::SUCCESS),
        Err(refusal) => (serde_json::to_string_pretty(&refusal), ExitCode::from(2)),
    };
    println!("{}", json.map_err(|error| error.to_string())?);
    Ok(code)
}

fn answer(text: &str, garden: &Garden) -> Result<Answer, Refusal> {
    let question: Value = serde_json::from_str(text)
        .map_err(|error| Refusal::of("", text, "a question in JSON", error.to_string()))?;
    ask(&question, garden)
}
