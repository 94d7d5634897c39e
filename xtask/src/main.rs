//! Every chore of Pegline, so that a laptop and a build machine do the same thing.
#![cfg_attr(test, allow(clippy::unwrap_used))]

mod ask;
mod audit;
mod bench;
mod command;
mod dist;
mod faults;
mod golden;
mod licences;
mod purity;
mod schema;
mod serve;
mod setup;
mod size;
mod test;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

/// Every chore of Pegline.
#[derive(Parser)]
#[command(name = "cargo xtask", bin_name = "cargo xtask")]
struct Cli {
    #[command(subcommand)]
    chore: Chore,
}

#[derive(Subcommand)]
enum Chore {
    /// Answer a question in JSON from standard input; exit code 2 where it is refused.
    Ask(ask::Options),
    /// Write the JSON Schema of questions and answers.
    Schema,
    /// Keep anew what every example's answer and every screen must come out as.
    Golden,
    /// Build the app and serve it on this machine.
    Serve(serve::Options),
    /// Build the app into `dist/`, ready for any host of plain files.
    Dist,
    /// Run every check, or only the layers named.
    Test(test::Options),
    /// Build the app, weigh each file after gzip, and fail above the budget.
    Size(size::Options),
    /// Hold layouts against a general solver, and time answers in a slowed browser.
    Bench(bench::Options),
    /// Kill the browser at random moments after writing, or spoil input at random, and count what was lost.
    Faults(faults::Options),
    /// Hold answers against a longer published list, and print what comes out.
    Audit(audit::Options),
}

fn main() -> ExitCode {
    let outcome = match Cli::parse().chore {
        Chore::Ask(options) => match ask::run(&options) {
            Ok(code) => return code,
            Err(sentence) => Err(sentence),
        },
        Chore::Schema => schema::run(),
        Chore::Golden => golden::run(),
        Chore::Serve(options) => serve::run(&options),
        Chore::Dist => dist::run(),
        Chore::Test(options) => test::run(&options),
        Chore::Size(options) => size::run(&options),
        Chore::Bench(options) => bench::run(&options),
        Chore::Faults(options) => faults::run(&options),
        Chore::Audit(options) => audit::run(&options),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}
